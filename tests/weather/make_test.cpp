// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "catch.h"
#include "markov_tables.h"
#include "ovendays/base/air.h"
#include "ovendays/weather/weather_check.h"
#include "ovendays/weather/weather_make.h"
#include "weather_support.h"

namespace ovendays::test {
using weather::make_weather;
using weather::MonthlyNormals;
using weather::WeatherHour;
using weather::WeatherYear;

namespace {
MonthlyNormals demo(const std::string& name) {
  return weather::read_normals(std::string(OVENDAYS_SOURCE_DIR) + "/weather/" + name + ".toml");
}

std::vector<double> daily_ghi(const WeatherYear& year) {
  std::vector<double> days(365, 0.0);
  for (std::size_t i = 0; i < year.hours.size(); ++i) days[i / 24] += year.hours[i].ghi_Wm2;
  return days;
}

// Day-to-day correlation of daily GHI within its month.
double day_memory(const WeatherYear& year) {
  const std::vector<double> days = daily_ghi(year);
  double together = 0.0;
  double alone = 0.0;
  for (int month = 1; month <= 12; ++month) {
    const int first = base::day_index_365(month, 1);
    const int count = base::days_in_month(2001, month);
    const auto begin = days.begin() + first;
    const double mean = std::accumulate(begin, begin + count, 0.0) / count;
    for (int d = 0; d < count; ++d) {
      alone += (begin[d] - mean) * (begin[d] - mean);
      if (d > 0) together += (begin[d] - mean) * (begin[d - 1] - mean);
    }
  }
  return together / alone;
}

struct DayExtremes {
  double highest_K = 0.0;
  double lowest_K = 1e9;
};
DayExtremes extremes(const WeatherYear& year, int day) {
  DayExtremes e;
  for (int hour = 0; hour < 24; ++hour) {
    e.highest_K = std::max(e.highest_K, year.at(day, hour).dry_bulb_K);
    e.lowest_K = std::min(e.lowest_K, year.at(day, hour).dry_bulb_K);
  }
  return e;
}
}  // namespace

TEST_CASE("the diffuse fraction follows Erbs, Klein and Duffie", "[weather][reference]") {
  // Duffie and Beckman, example 2.15.1 (ledger SUN-13): kT 0.445 gives 0.766.
  REQUIRE_THAT(weather::erbs_diffuse_fraction(0.445), within_abs(0.766, 0.005));
  CHECK(weather::erbs_diffuse_fraction(0.9) == 0.165);
  // The published branches agree at 0.22 and 0.80 to the third digit.
  REQUIRE_THAT(weather::erbs_diffuse_fraction(0.2200001) - weather::erbs_diffuse_fraction(0.22),
               within_abs(0.0, 0.001));
  REQUIRE_THAT(weather::erbs_diffuse_fraction(0.8) - weather::erbs_diffuse_fraction(0.8000001),
               within_abs(0.0, 0.001));
}

TEST_CASE("normals at the limits of their ranges give a year that can be read back",
          "[weather][unit]") {
  // Found by fuzzing: such years used to have temperatures, dew points and winds that readers
  // reject.
  MonthlyNormals normals = demo("high_desert");
  for (std::size_t m = 0; m < 12; ++m) {
    const bool hot = m % 2 == 0;
    normals.dry_bulb_min_K[m] = hot ? 313.0 : 193.0;
    normals.dry_bulb_max_K[m] = hot ? 323.0 : 203.0;
    normals.relative_humidity[m] = hot ? 0.98 : 0.05;
    normals.wind_ms[m] = 15.0;
  }
  for (const double elevation_m : {-500.0, 8900.0}) {
    normals.place.elevation_m = elevation_m;
    const std::string text = weather::epw_text(make_weather(normals, 1), "");
    REQUIRE(weather::read_weather_text(text, "made").hours.size() == 8760);
  }
}

TEST_CASE("the rows of the transition library are probabilities", "[weather][identity]") {
  for (const auto& table : weather::kClearnessLibrary) {
    for (const auto& row : table.probability) {
      // Ten figures with three printed digits allow 0.005; some rows of the source deviate by more.
      REQUIRE_THAT(std::accumulate(row.begin(), row.end(), 0.0), within_abs(1.0, 0.012));
    }
    CHECK(table.least < table.most);
  }
}

TEST_CASE("a synthetic year reproduces its normals", "[weather][identity]") {
  const MonthlyNormals normals = demo(kDemos[GENERATE(0U, 1U, 2U)]);
  const WeatherYear year = make_weather(normals, GENERATE(1U, 7U));
  const auto check = weather::check_weather(year);
  for (int m = 0; m < 12; ++m) {
    const auto month = static_cast<std::size_t>(m);
    const int first = base::day_index_365(m + 1, 1);
    const int count = base::days_in_month(2001, m + 1);
    double high_K = 0.0;
    double low_K = 0.0;
    double humidity = 0.0;
    double rain_m = 0.0;
    for (int day = first; day < first + count; ++day) {
      high_K += extremes(year, day).highest_K / count;
      low_K += extremes(year, day).lowest_K / count;
      for (int h = 0; h < 24; ++h) {
        const WeatherHour& hour = year.at(day, h);
        humidity += base::relative_humidity(hour.dry_bulb_K, hour.dew_point_K) / (24.0 * count);
        rain_m += hour.precipitation_m.value();
      }
    }
    INFO(normals.place.name << " month " << m + 1);
    // These tolerances are stated in weather_make.h.
    REQUIRE_THAT(check.months[month].ghi_kWhm2 / count,
                 within_rel(normals.ghi_kWhm2day[month], 0.02));
    REQUIRE_THAT(high_K, within_abs(normals.dry_bulb_max_K[month], 0.3));
    REQUIRE_THAT(low_K, within_abs(normals.dry_bulb_min_K[month], 0.3));
    REQUIRE_THAT(humidity, within_abs(normals.relative_humidity[month], 0.03));
    REQUIRE_THAT(check.months[month].wind_mean_ms, within_rel(normals.wind_ms[month], 1e-9));
    REQUIRE_THAT(rain_m, within_abs(normals.rain_m[month], 1e-9));
  }
}

TEST_CASE("a synthetic year is dark at night, closes and is in step with the sun",
          "[weather][identity]") {
  const WeatherYear year = make_weather(demo(kDemos[GENERATE(0U, 1U, 2U)]), 3);
  const auto check = weather::check_weather(year);
  CHECK(check.closure_hours_failed == 0);
  CHECK(check.night_hours_with_beam == 0);
  CHECK(check.beyond_extraterrestrial_hours == 0);
  REQUIRE(check.clock.by_closure);
  REQUIRE_THAT(check.clock.shift_s,
               within_abs(0.0, 30.0));  // the least uncertainty of the estimate
  REQUIRE_THAT(check.clock.shape_shift_s, within_abs(0.0, 300.0));  // likewise
  for (const WeatherHour& hour : year.hours) {
    REQUIRE(hour.dni_Wm2 >= 0.0);
    REQUIRE(hour.dhi_Wm2 >= 0.0);
    REQUIRE(hour.dew_point_K <= hour.dry_bulb_K);
    REQUIRE(hour.wind_ms >= 0.0);
    REQUIRE_FALSE(hour.horizontal_ir_Wm2);
    REQUIRE(hour.albedo);
  }
}

TEST_CASE("clear days tend to follow clear days", "[weather][unit]") {
  // Graham and Hollands 1990 give a lag-one correlation of daily clearness near 0.29 (from memory,
  // unverified); sign and magnitude are checked over six years.
  for (const char* name : kDemos) {
    double memory = 0.0;
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
      memory += day_memory(make_weather(demo(name), seed)) / 6.0;
    }
    INFO(name << " " << memory);
    CHECK(memory > 0.05);
    CHECK(memory < 0.55);
  }
}

TEST_CASE("noon is clearer than the edges of the day", "[weather][unit]") {
  // A longer path through the air absorbs more: Aguiar and Collares-Pereira 1992, figure of the
  // mean hourly clearness (from memory), and every clear-sky model.
  const WeatherYear year = make_weather(demo("high_desert"), 1);
  std::array<double, 2> ghi{};
  std::array<double, 2> outside{};
  for (const WeatherHour& hour : year.hours) {
    const auto sun = sun::sun_position(hour.sun_time(year.place.utc_offset_s), year.place);
    const double cos_z = std::cos(sun.zenith_rad);
    if (cos_z < 0.1) continue;
    const std::size_t high = cos_z > 0.7 ? 1 : 0;
    if (high == 0 && cos_z > 0.3) continue;
    ghi[high] += hour.ghi_Wm2;
    outside[high] += cos_z * sun::extraterrestrial_normal_Wm2(sun.distance_au);
  }
  const double low_sun = ghi[0] / outside[0];
  const double high_sun = ghi[1] / outside[1];
  CHECK(high_sun > low_sun + 0.05);
  CHECK(high_sun < 0.82);
  CHECK(low_sun > 0.3);
}

TEST_CASE("a cloudy coast varies more from day to day than a desert", "[weather][unit]") {
  const auto spread = [](const WeatherYear& year) {  // spread of July's days around their mean
    const std::vector<double> days = daily_ghi(year);
    const auto begin = days.begin() + base::day_index_365(7, 1);
    const double mean = std::accumulate(begin, begin + 31, 0.0) / 31.0;
    double squares = 0.0;
    for (int d = 0; d < 31; ++d) squares += (begin[d] - mean) * (begin[d] - mean) / 31.0;
    return std::sqrt(squares) / mean;
  };
  const double coast = spread(make_weather(demo("cool_coast"), 1));
  const double desert = spread(make_weather(demo("high_desert"), 1));
  CHECK(coast > desert);
  CHECK(desert > 0.03);
  CHECK(coast < 0.7);
}

TEST_CASE("cloudy days have a smaller temperature swing and the rain", "[weather][unit]") {
  const WeatherYear year = make_weather(demo("cool_coast"), 5);
  const std::vector<double> ghi = daily_ghi(year);
  const int first = base::day_index_365(5, 1);
  std::array<int, 31> order{};
  std::iota(order.begin(), order.end(), first);
  std::sort(order.begin(), order.end(), [&](int a, int b) {
    return ghi[static_cast<std::size_t>(a)] < ghi[static_cast<std::size_t>(b)];
  });
  double cloudy_swing_K = 0.0;
  double clear_swing_K = 0.0;
  double cloudy_rain_m = 0.0;
  double clear_rain_m = 0.0;
  for (std::size_t k = 0; k < 10; ++k) {
    const auto cloudy = extremes(year, order[k]);
    const auto clear = extremes(year, order[30 - k]);
    cloudy_swing_K += cloudy.highest_K - cloudy.lowest_K;
    clear_swing_K += clear.highest_K - clear.lowest_K;
    for (int h = 0; h < 24; ++h) {
      cloudy_rain_m += year.at(order[k], h).precipitation_m.value();
      clear_rain_m += year.at(order[30 - k], h).precipitation_m.value();
    }
  }
  CHECK(cloudy_swing_K < clear_swing_K);
  CHECK(cloudy_rain_m > 0.0);
  CHECK(clear_rain_m == 0.0);
}

TEST_CASE("synthetic wind is Rayleigh distributed and autocorrelated", "[weather][identity]") {
  MonthlyNormals normals = demo("humid_coast");
  normals.wind_ms.fill(4.0);
  const WeatherYear year = make_weather(normals, 2);
  double squares = 0.0;
  double together = 0.0;
  double variance = 0.0;
  for (std::size_t i = 1; i < year.hours.size(); ++i) {
    const double a = year.hours[i - 1].wind_ms - 4.0;
    const double b = year.hours[i].wind_ms - 4.0;
    squares += year.hours[i].wind_ms * year.hours[i].wind_ms / 8759.0;
    together += a * b;
    variance += b * b;
  }
  // Rayleigh: mean square is 4/pi of the squared mean; the daily course of 25 % adds 3 %. A year of
  // hours that are correlated over ten hours leaves 5 %.
  REQUIRE_THAT(squares / 16.0, within_rel(4.0 / 3.14159265 * 1.03125, 0.05));
  CHECK(together / variance > 0.8);
}

TEST_CASE("the same seed gives the same year and another seed another year",
          "[weather][determinism]") {
  const MonthlyNormals normals = demo("high_desert");
  const std::string one = weather::epw_text(make_weather(normals, 11), "");
  CHECK(one == weather::epw_text(make_weather(normals, 11), ""));
  CHECK(one != weather::epw_text(make_weather(normals, 12), ""));
}

TEST_CASE("years can be generated with polar night and for the southern hemisphere",
          "[weather][unit]") {
  MonthlyNormals normals = demo("cool_coast");
  normals.place.latitude_rad = 70.0 * 3.14159265 / 180.0;
  normals.ghi_kWhm2day = {0.02, 0.5, 1.8, 3.6, 4.8, 5.2, 4.8, 3.3, 1.7, 0.6, 0.08, 0.0};
  const WeatherYear year = make_weather(normals, 1);
  const auto check = weather::check_weather(year);
  CHECK(check.months[11].ghi_kWhm2 == 0.0);
  REQUIRE_THAT(check.months[5].ghi_kWhm2 / 30.0,
               within_rel(5.2, 0.02));  // as stated in weather_make.h
  normals = demo("high_desert");
  normals.place.latitude_rad = -normals.place.latitude_rad;
  std::rotate(
      normals.ghi_kWhm2day.begin(), normals.ghi_kWhm2day.begin() + 6, normals.ghi_kWhm2day.end());
  const auto south = weather::check_weather(make_weather(normals, 1));
  REQUIRE_THAT(south.months[11].ghi_kWhm2 / 31.0, within_rel(8.1, 0.02));
}

TEST_CASE("a written EPW file is complete and reads back unchanged", "[weather][identity]") {
  const MonthlyNormals normals = demo("humid_coast");
  const WeatherYear made = make_weather(normals, 4);
  const std::string text = weather::epw_text(made, "one, two\nthree");
  CHECK(text.size() < 2000000);
  CHECK(contains(text, "COMMENTS 1,one, two three\n"));
  CHECK(std::count(text.begin(), text.end(), '\n') == 8768);
  const std::size_t row = text.find("2001,1,1,1,60");
  CHECK(std::count(text.begin(), text.begin() + static_cast<long>(row), '\n') == 8);
  CHECK(std::count(text.begin() + static_cast<long>(row),
                   text.begin() + static_cast<long>(text.find('\n', row)),
                   ',') == 34);
  const WeatherYear back = weather::read_weather_text(text, "made.epw");
  CHECK(back.filled_hours == 0);
  CHECK(back.place.name == made.place.name);
  // Half of the last printed digit of each field.
  REQUIRE_THAT(back.place.latitude_rad, within_abs(made.place.latitude_rad, 1e-6));
  for (std::size_t i = 0; i < made.hours.size(); ++i) {
    const WeatherHour& a = made.hours[i];
    const WeatherHour& b = back.hours[i];
    REQUIRE_THAT(b.ghi_Wm2, within_abs(a.ghi_Wm2, 0.0501));
    REQUIRE_THAT(b.dni_Wm2, within_abs(a.dni_Wm2, 0.0501));
    REQUIRE_THAT(b.dhi_Wm2, within_abs(a.dhi_Wm2, 0.0501));
    REQUIRE_THAT(b.dry_bulb_K, within_abs(a.dry_bulb_K, 0.00501));
    REQUIRE_THAT(b.dew_point_K, within_abs(a.dew_point_K, 0.00501));
    REQUIRE_THAT(b.wind_ms, within_abs(a.wind_ms, 0.00501));
    REQUIRE_THAT(b.pressure_Pa, within_abs(a.pressure_Pa, 0.501));
    REQUIRE_THAT(b.albedo.value(), within_abs(a.albedo.value(), 0.000501));
    REQUIRE_THAT(b.precipitation_m.value(), within_abs(a.precipitation_m.value(), 0.00000501));
    REQUIRE(b.start_s == a.start_s);
    REQUIRE(b.met_s == a.met_s);
  }
}
}  // namespace ovendays::test
