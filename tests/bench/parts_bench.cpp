// SPDX-License-Identifier: MIT
// The parts that a season is made of, one by one, each on the demo's site or the default oven.
#include <benchmark/benchmark.h>

#include <cmath>

#include "made_case.h"
#include "ovendays/optics/exchange.h"
#include "ovendays/weather/weather_make.h"
#include "setup.h"

namespace ovendays::bench {
namespace {

std::string weather_file(const char* name) {
  return std::string(OVENDAYS_SOURCE_DIR) + "/weather/" + name;
}

bool within(double value, double target, double relative) {
  return std::abs(value - target) <= relative * std::abs(target);
}

/// The file was made from monthly normals: its sum of GHI is theirs within the 2 % that
/// make_weather promises.
void read_weather_year(benchmark::State& state) {
  weather::WeatherYear year;
  while (state.KeepRunning()) {
    year = weather::read_weather(weather_file("high_desert.epw"));
    benchmark::DoNotOptimize(year.hours.data());
  }
  double sum_kWhm2 = 0.0;
  for (const weather::WeatherHour& hour : year.hours) sum_kWhm2 += hour.ghi_Wm2 / 1000.0;
  const weather::MonthlyNormals normals = weather::read_normals(weather_file("high_desert.toml"));
  double normal_kWhm2 = 0.0;
  for (int m = 1; m <= 12; ++m) {
    normal_kWhm2 +=
        normals.ghi_kWhm2day[static_cast<std::size_t>(m - 1)] * base::days_in_month(2001, m);
  }
  if (!within(sum_kWhm2, normal_kWhm2, 0.02)) state.SkipWithError("GHI of the year is off");
}
BENCHMARK(read_weather_year)->Unit(benchmark::kMillisecond);

/// The trapezoid over the segments, with what could not be placed, gives the file's beam back.
void sun_and_sky_year(benchmark::State& state) {
  const weather::WeatherYear year = weather::read_weather(weather_file("high_desert.epw"));
  std::vector<sky::SkyDay> days;
  while (state.KeepRunning()) {
    days = sky::make_sky_year(year);
    benchmark::DoNotOptimize(days.data());
  }
  double file_Jm2 = 0.0;
  double segments_Jm2 = 0.0;
  for (const weather::WeatherHour& hour : year.hours) file_Jm2 += 3600.0 * hour.dni_Wm2;
  for (const sky::SkyDay& day : days) {
    segments_Jm2 += day.unplaced_beam_Jm2;
    for (const sky::SkySegment& s : day.segments)
      segments_Jm2 += 0.5 * (day.start(s).dni_Wm2 + day.end(s).dni_Wm2) * (s.end_s - s.start_s);
  }
  if (!within(segments_Jm2, file_Jm2, 1e-8)) state.SkipWithError("the beam's energy is not kept");
}
BENCHMARK(sun_and_sky_year)->Unit(benchmark::kMillisecond);

/// On the axis the table is within the 0.8 % (of itself) that was measured at worst of rays traced
/// thirty times as densely.
void acceptance_table(benchmark::State& state) {
  const oven::OvenDesign design = oven::default_design();
  const oven::Vessel* pot = design.vessel("black pot");
  std::vector<optics::AcceptanceTable> tables;
  while (state.KeepRunning()) {
    tables = optics::build_tables(design, {pot}, false, {});
    benchmark::DoNotOptimize(tables.data());
  }
  const optics::Tracer tracer(oven::build_geometry(design, pot, false), design.panes);
  const double dense_m2 = tracer.trace({0, 0, 1}, 65536, 0.02).acceptance.inside_m2();
  if (!within(tables.front().at({0, 0, 1}).inside_m2(), dense_m2, 0.008))
    state.SkipWithError("the table is off on its axis");
}
BENCHMARK(acceptance_table)->Unit(benchmark::kMillisecond);

/// Black glass over a grey box without a tray: the closed form of a two-surface enclosure
/// (Incropera sec. 13.3), large couplings within 0.6 % as measured; 1 % is allowed.
void infrared_exchange(benchmark::State& state) {
  oven::OvenDesign design = oven::default_design();
  design.tray.reset();
  design.panes.front().ir_emittance = 1.0;
  const oven::OvenGeometry geometry = oven::build_geometry(design, nullptr, false);
  optics::ExchangeAreas areas;
  while (state.KeepRunning()) {
    areas = optics::exchange_areas(geometry, design.panes);
    benchmark::DoNotOptimize(areas);
  }
  const double emittance = design.liner.emittance;
  const double exact_m2 = 1.0 / (1.0 / geometry.area_m2[oven::kPane0] +
                                 (1.0 - emittance) / (emittance * geometry.area_m2[oven::kLiner]));
  if (!within(areas.between_m2[oven::kPane0][oven::kLiner], exact_m2, 0.01))
    state.SkipWithError("the exchange area is off the closed form");
}
BENCHMARK(infrared_exchange)->Unit(benchmark::kMillisecond);

/// A year of gains under every load. The sun that the empty oven takes in equals, day by day, what
/// the season's hours tell of it (single precision).
void gains_year(benchmark::State& state) {
  const season::Case c = test::small_case({"eggs"});
  const weather::WeatherYear year = season::load_weather(c);
  season::SeasonOptions options;
  options.threads = 1;
  options.causes = false;
  season::Setup setup(c, 1);
  season::make_setup(c, year, options, setup);
  std::vector<season::FineDay> days(season::kDays);
  while (state.KeepRunning()) {
    for (int d = 0; d < season::kDays; ++d) {
      season::make_day_forcing(
          setup.forcing, setup.sky_day(d), {}, setup.groups[0], &days[static_cast<std::size_t>(d)]);
    }
    benchmark::DoNotOptimize(days.data());
  }
  const season::SeasonResult result = season::run_season(c, year, options);
  double hours_J = 0.0;
  double pieces_J = 0.0;
  constexpr std::size_t kSurface = oven::kLiner;
  for (const season::HourTrace& hour : result.hours) hours_J += 3600.0 * hour.absorbed_W[kSurface];
  for (const season::FineDay& day : days) {
    for (std::size_t i = 0; i < day.segments.air.size(); ++i) {
      const heat::GainSegment& gain = day.segments.gains[0][i];
      pieces_J += 0.5 * (gain.start_W[kSurface] + gain.end_W[kSurface]) *
                  (day.segments.air[i].end_s - day.segments.air[i].start_s);
    }
  }
  if (!within(pieces_J, hours_J, 1e-6)) state.SkipWithError("gains and the hours told differ");
}
BENCHMARK(gains_year)->Unit(benchmark::kMillisecond);
}  // namespace
}  // namespace ovendays::bench
