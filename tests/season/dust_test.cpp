// SPDX-License-Identifier: MIT
// Dust between washings: the year's course in closed form, the light it leaves, the days it costs.
// tests/real_years holds the course against pvlib's.
#include "dust.h"

#include <cmath>

#include "catch.h"
#include "made_case.h"
#include "ovendays/optics/acceptance.h"

using namespace ovendays;
using namespace ovendays::test;
using season::DayRain;

namespace {
constexpr double kDay_s = 86400.0;
constexpr double kTiny = 1e-12;

task::Routine washed_every(double days, double dust_per_day = 0.0015) {
  task::Routine routine;
  routine.wash_every_s = days * kDay_s;
  routine.dust_per_day = dust_per_day;
  return routine;
}

struct Rain {
  int day;
  double rain_mm;
  bool on_oven;
};

std::vector<double> shares(const std::vector<Rain>& rains, const task::Routine& routine) {
  std::vector<DayRain> year(season::kDays);
  for (const Rain& rain : rains)
    year[static_cast<std::size_t>(rain.day)] = {0.001 * rain.rain_mm, rain.on_oven};
  return season::dust_shares(year, routine);
}

season::Case open_case(double wash_days, double dust_per_day = 0.0015) {
  season::Case c = small_case({"rice"});
  c.routine.wash_every_s = wash_days * kDay_s;
  c.routine.dust_per_day = dust_per_day;
  return c;
}
}  // namespace

TEST_CASE("in a dry year dust grows by the same share each day until it is washed off",
          "[season][unit]") {
  const std::vector<double> monthly = shares({}, washed_every(30));
  REQUIRE(monthly.size() == static_cast<std::size_t>(season::kDays));
  const std::vector<double> yearly = shares({}, washed_every(365));
  for (int d = 0; d < season::kDays; ++d) {
    INFO("day " << d);
    const auto day = static_cast<std::size_t>(d);
    CHECK_THAT(monthly[day], within_abs(0.0015 * (d % 30), kTiny));
    CHECK_THAT(yearly[day], within_abs(std::min(0.3, 0.0015 * d), kTiny));
  }
  // Twelve washings at intervals that are no whole days.
  const std::vector<double> twelfth = shares({}, washed_every(365.0 / 12.0));
  CHECK(std::count(twelfth.begin(), twelfth.end(), 0.0) == 12);
}

TEST_CASE("dust takes three tenths at most", "[season][unit]") {
  const std::vector<double> desert = shares({}, washed_every(365, 0.02));
  CHECK_THAT(desert[14], within_abs(0.28, kTiny));
  for (std::size_t d = 15; d < desert.size(); ++d) CHECK_THAT(desert[d], within_abs(0.3, kTiny));
}

TEST_CASE("rain on the oven washes it and lays the dust for two weeks", "[season][unit]") {
  const std::vector<double> s = shares({{100, 6.1, true}, {200, 6.0, true}}, washed_every(365));
  CHECK_THAT(s[99], within_abs(0.0015 * 99, kTiny));
  for (std::size_t d = 100; d < 114; ++d) CHECK(s[d] == 0.0);
  CHECK_THAT(s[114], within_abs(0.0015, kTiny));
  CHECK_THAT(s[200], within_abs(0.0015 * 87, kTiny));  // 6 mm are not more than 6 mm
}

TEST_CASE("where rain does not reach the oven it only lays the dust", "[season][unit]") {
  const std::vector<double> s = shares({{100, 20.0, false}}, washed_every(365));
  for (std::size_t d = 99; d < 114; ++d) CHECK_THAT(s[d], within_abs(0.0015 * 99, kTiny));
  CHECK_THAT(s[114], within_abs(0.0015 * 100, kTiny));
  const std::vector<double> washed = shares({{100, 20.0, false}}, washed_every(105));
  CHECK_THAT(washed[104], within_abs(0.0015 * 99, kTiny));
  for (std::size_t d = 105; d < 114; ++d) CHECK(washed[d] == 0.0);
}

TEST_CASE("the year is a ring for damp ground", "[season][unit]") {
  const std::vector<double> s = shares({{364, 7.0, true}}, washed_every(365));
  for (std::size_t d = 0; d < 13; ++d) CHECK(s[d] == 0.0);  // 14 days from the last
  CHECK_THAT(s[13], within_abs(0.0015, kTiny));
  CHECK_THAT(shares({{350, 7.0, true}}, washed_every(365))[1], within_abs(0.0015, kTiny));
  const std::vector<double> damp = shares({{353, 7.0, true}}, washed_every(365));
  CHECK(damp[1] == 0.0);
  CHECK_THAT(damp[2], within_abs(0.0015, kTiny));
}

TEST_CASE("a season tells rain on the oven from rain kept off it", "[season][unit]") {
  const auto dusty_day = [](bool roofed, double stay_in_rain_m) {
    season::Case c = open_case(365.0);
    c.oven.flaps.clear();
    c.spot.roofed = roofed;
    c.routine.stay_in_rain_m = stay_in_rain_m;
    const auto pour = [](int day, int hour, weather::WeatherHour& h) {
      if (day == 100 && hour < 10) h.precipitation_m = 0.001;
    };
    return run(c, made_weather({.change = pour}));
  };
  const season::SeasonResult clean = [] {
    season::Case c = open_case(0.0);
    c.oven.flaps.clear();
    return run(c, made_weather());
  }();
  const auto lost = [&](const season::SeasonResult& r, int day) {
    const std::size_t noon = static_cast<std::size_t>(day) * 24 + 12;
    return 1.0 - r.hours[noon].absorbed_W[oven::kLiner] /
                     static_cast<double>(clean.hours[noon].absorbed_W[oven::kLiner]);
  };
  constexpr double kSingle = 1e-5;  // files and traces keep single precision
  CHECK_THAT(lost(dusty_day(false, 10.0), 120), within_abs(0.0015 * 7, kSingle));
  CHECK_THAT(lost(dusty_day(true, 10.0), 120), within_abs(0.0015 * 106, kSingle));
  // The cook who takes the oven in keeps the rain off it as a roof does.
  CHECK_THAT(lost(dusty_day(false, 0.0005), 120), within_abs(0.0015 * 106, kSingle));
  CHECK_THAT(lost(dusty_day(true, 10.0), 99), within_abs(0.0015 * 99, kSingle));
}

TEST_CASE("without flaps every surface gets what the dusty glass lets through",
          "[season][identity]") {
  season::Case c = open_case(0.0);
  c.oven.flaps.clear();
  const season::SeasonResult clean = run(c, made_weather());
  c.routine.wash_every_s = 50 * kDay_s;
  c.routine.dust_per_day = 0.004;
  const season::SeasonResult dusty = run(c, made_weather());
  for (std::size_t h = 0; h < clean.hours.size(); ++h) {
    const double left = 1.0 - 0.004 * static_cast<double>((h / 24) % 50);
    for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
      INFO("hour " << h << ", surface " << s);
      CHECK_THAT(dusty.hours[h].absorbed_W[s],
                 within_abs(left * clean.hours[h].absorbed_W[s], 1e-4));
    }
  }
}

TEST_CASE("light by way of the foil loses at each reflection too", "[season][identity]") {
  // Against tables traced for an oven whose foil reflects, and whose glass passes, a tenth less.
  // One factor is right on the axis, within 2 % where a box that is turned every half hour has its
  // sun, and takes too much from light far off the axis, of which less comes by way of the foil.
  const auto accepts = [](double cleanliness) {
    oven::OvenDesign design = oven::default_design();
    design.as_built.cleanliness = cleanliness;
    return optics::build_tables(design, {nullptr}, false, {}).front();
  };
  oven::OvenDesign design = oven::default_design();
  design.as_built.cleanliness = 1.0;
  const double reflections = season::flap_reflections(design);
  INFO("reflections " << reflections);
  const double left = season::dusty_light(std::vector{0.1}, reflections).front().flaps_set;
  const optics::AcceptanceTable clean = accepts(1.0);
  const optics::AcceptanceTable dusty = accepts(0.9);
  for (const double off_deg : {0.0, 5.0, 10.0, 15.0, 20.0, 30.0}) {
    const double off_rad = off_deg * base::kRadPerDeg;
    const base::Direction sun{std::sin(off_rad), 0.0, std::cos(off_rad)};
    const double ratio = dusty.at(sun).inside_m2() / clean.at(sun).inside_m2();
    INFO(off_deg << " deg off the axis: " << ratio << " against " << left);
    CHECK_THAT(ratio, within_rel(left, off_deg > 20.0 ? 0.04 : off_deg > 0.0 ? 0.02 : 0.003));
    CHECK(ratio > 0.995 * left);
  }
  CHECK(season::dusty_light(std::vector{0.1}, reflections).front().flaps_stowed == 0.9);
  design.flaps.clear();
  CHECK(season::flap_reflections(design) == 0.0);
}

TEST_CASE("the longer an oven goes unwashed, the fewer its days", "[season][unit]") {
  const auto days = [](double wash_days) {
    season::Case c = open_case(wash_days, 0.003);
    c.tasks = small_case({"bread"}).tasks;
    const season::SeasonResult r = run(c, made_weather({.latitude_deg = 45.0, .change = {}}));
    return cooked_days(r, 0);
  };
  const int clean = days(0.0);
  const int weekly = days(7.0);
  const int quarterly = days(90.0);
  const int yearly = days(365.0);
  INFO("washed always " << clean << ", weekly " << weekly << ", each quarter " << quarterly
                        << ", yearly " << yearly);
  CHECK(clean >= weekly);
  CHECK(weekly > quarterly);
  CHECK(quarterly > yearly);
}

TEST_CASE("a shared cache tells washings apart", "[season][determinism]") {
  season::SeasonOptions options = quick_options(false);
  const season::SeasonCache cache;
  for (const auto& [wash_days, dust] :
       {std::pair{0.0, 0.0015}, {60.0, 0.0015}, {60.0, 0.003}, {30.0, 0.0015}, {0.0, 0.0015}}) {
    const season::Case c = open_case(wash_days, dust);
    options.cache = nullptr;
    options.threads = 1;
    const season::SeasonResult alone = season::run_season(c, made_weather(), options);
    options.cache = &cache;
    options.threads = 3;
    const season::SeasonResult shared = season::run_season(c, made_weather(), options);
    for (std::size_t i = 0; i < alone.days.size(); ++i) {
      REQUIRE(shared.days[i].outcome == alone.days[i].outcome);
      REQUIRE(shared.days[i].peak_core_K == alone.days[i].peak_core_K);
      REQUIRE(shared.days[i].finish_s == alone.days[i].finish_s);
    }
  }
}

TEST_CASE("a remark says what the dust takes", "[season][unit]") {
  const auto remark = [](const season::Case& c, bool rain) {
    const auto forget = [&](int, int, weather::WeatherHour& h) {
      if (!rain) h.precipitation_m.reset();
    };
    std::string found;
    for (const std::string& note : run(c, made_weather({.change = forget})).notes)
      if (contains(note, "Dust")) found += note;
    return found;
  };
  season::Case c = open_case(31.0, 0.01);
  c.oven.flaps.clear();
  // Intervals of 31 days, the last of 24: the mean of 0 to 30 is 15, of 0 to 23 it is 11.5.
  CHECK(remark(c, true) ==
        "Dust on glass and foil takes 14.8 % of the light in the mean of the year "
        "and 30.0 % at most; both are washed every 31 days.");
  CHECK(contains(remark(c, false), "has no rain data"));
  CHECK(remark(open_case(0.0), true).empty());
}
