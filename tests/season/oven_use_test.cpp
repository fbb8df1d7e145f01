// SPDX-License-Identifier: MIT
// How the oven is used: turning, preheating, flaps in the wind, days off, rain and roof.
#include <cmath>

#include "catch.h"
#include "made_case.h"

using namespace ovendays;
using namespace ovendays::test;
using season::Cause;
using season::Outcome;

TEST_CASE("never turning the oven costs days", "[season][unit]") {
  season::Case c = small_case({"rice", "bread"});
  const weather::WeatherYear year = season::load_weather(c);
  const season::SeasonResult turned = run(c, year);
  c.routine.re_aim = task::ReAim::kNever;
  const season::SeasonResult fixed = run(c, year);
  for (std::size_t t = 0; t < 2; ++t) {
    INFO(c.tasks[t].name);
    CHECK(cooked_days(fixed, t) < cooked_days(turned, t) - 5);
  }
}

TEST_CASE("an oven that is not preheated is never quicker", "[season][unit]") {
  season::Case c = small_case({"soup", "eggs"});
  const weather::WeatherYear year = season::load_weather(c);
  const season::SeasonResult warm = run(c, year);
  c.routine.preheat = false;
  const season::SeasonResult cold = run(c, year);
  int both = 0;
  for (std::size_t t = 0; t < 2; ++t) {
    for (int d = 0; d < season::kDays; ++d) {
      if (cold.at(t, d).outcome != Outcome::kCooked) continue;
      INFO(c.tasks[t].name << ", day " << d);
      REQUIRE(warm.at(t, d).outcome == Outcome::kCooked);
      const float warm_s = warm.at(t, d).finish_s - warm.at(t, d).load_s;
      const float cold_s = cold.at(t, d).finish_s - cold.at(t, d).load_s;
      CHECK(cold_s >= warm_s - 5.0F);  // finishes are located within 5 s
      ++both;
    }
  }
  CHECK(both > 300);
}

TEST_CASE("flaps laid in above the wind limit leave an oven without flaps", "[season][identity]") {
  season::Case c = small_case({"eggs"});
  MadeWeather windy;
  windy.wind_ms = 5.0;
  const weather::WeatherYear year = made_weather(windy);
  c.routine.flaps_wind_ms = 6.0;
  const season::SeasonResult set = run(c, year);
  c.routine.flaps_wind_ms = 4.0;
  const season::SeasonResult stowed = run(c, year);
  c.oven.flaps.clear();
  const season::SeasonResult bare = run(c, year);
  int sunny = 0;
  for (std::size_t h = 0; h < set.hours.size(); ++h) {
    double inside_set = 0.0;
    double inside_stowed = 0.0;
    for (std::size_t s = oven::kLiner; s < oven::kSurfaces; ++s) {
      inside_set += static_cast<double>(set.hours[h].absorbed_W[s]);
      inside_stowed += static_cast<double>(stowed.hours[h].absorbed_W[s]);
      CHECK_THAT(static_cast<double>(stowed.hours[h].absorbed_W[s]),
                 within_abs(static_cast<double>(bare.hours[h].absorbed_W[s]), 1e-3));
    }
    if (inside_set < 100.0) continue;
    CHECK(inside_stowed < 0.8 * inside_set);
    CHECK(stowed.hours[h].air_K < set.hours[h].air_K);
    ++sunny;
  }
  CHECK(sunny > 1000);
  CHECK(cooked_days(stowed, 0) <= cooked_days(set, 0));
}

TEST_CASE("a windy day keeps the oven in, in its shelter it does not", "[season][unit]") {
  season::Case c = small_case({"eggs"});
  MadeWeather weather;
  weather.change = [](int day, int hour, weather::WeatherHour& h) {
    if (day % 10 == 3 && hour > 10 && hour < 14) h.wind_ms = 12.0;
  };
  const weather::WeatherYear year = made_weather(weather);
  c.routine.stay_in_wind_ms = 8.0;
  const season::SeasonResult open = run(c, year);
  c.spot.wind_factor = 0.5;
  const season::SeasonResult sheltered = run(c, year);
  for (int d = 0; d < season::kDays; ++d) {
    const bool windy = d % 10 == 3;
    CHECK((open.at(0, d).outcome == Outcome::kNoGo) == windy);
    if (windy) CHECK(open.at(0, d).cause == Cause::kWind);
    CHECK(sheltered.at(0, d).outcome != Outcome::kNoGo);
  }
}

TEST_CASE("rain keeps the oven in unless a roof keeps it off", "[season][unit]") {
  season::Case c = small_case({"eggs"});
  c.routine.stay_in_rain_m = 0.0005;
  MadeWeather weather;
  weather.change = [](int day, int hour, weather::WeatherHour& h) {
    if (day % 7 == 2 && hour == 3) h.precipitation_m = 0.004;
    if (day % 7 == 5 && hour == 3) h.precipitation_m = 0.0004;  // a drizzle below the limit
  };
  const weather::WeatherYear year = made_weather(weather);
  const season::SeasonResult wet = run(c, year);
  c.spot.roofed = true;
  const season::SeasonResult roofed = run(c, year);
  for (int d = 0; d < season::kDays; ++d) {
    CHECK((wet.at(0, d).outcome == Outcome::kNoGo) == (d % 7 == 2));
    CHECK((wet.at(0, d).cause == Cause::kRain) == (d % 7 == 2));
    CHECK(roofed.at(0, d).outcome != Outcome::kNoGo);
  }
}

TEST_CASE("a year without rain figures says so", "[season][unit]") {
  const season::Case c = small_case({"eggs"});
  weather::WeatherYear year = made_weather();
  const auto warns = [](const season::SeasonResult& r) {
    for (const std::string& note : r.notes) {
      if (contains(note, "has no rain data")) return true;
    }
    return false;
  };
  CHECK_FALSE(warns(run(c, year)));
  for (weather::WeatherHour& h : year.hours) h.precipitation_m.reset();
  CHECK(warns(run(c, year)));
}

TEST_CASE("a year says where the oven's air and not the core lost the days", "[season][unit]") {
  season::Case c = small_case({"bread"});
  const weather::WeatherYear year = made_weather();
  const auto note = [](const season::SeasonResult& r) {
    for (const std::string& text : r.notes) {
      if (contains(text, "the oven's air never held")) return text;
    }
    return std::string();
  };
  c.tasks[0].oven_air_K = base::kZeroCelsius_K + 250.0;  // no box oven gets there
  const season::SeasonResult r = run(c, year);
  REQUIRE(cooked_days(r, 0) == 0);
  int hot = 0;
  for (const season::DayTask& day : r.days) hot += day.shortfall_K == 0.0F ? 1 : 0;
  REQUIRE(hot > 100);
  CHECK(contains(note(r),
                 "bread loaf: on " + std::to_string(hot) +
                     " of 365 short days the core got hot "
                     "enough, but the oven's air never held 250 C (482 F) for 30 min."));
  c.tasks[0].oven_air_K.reset();
  c.tasks[0].oven_air_s = 0.0;
  CHECK(note(run(c, year)).empty());
}

TEST_CASE("a year says how often food that is left in is overdone", "[season][unit]") {
  season::Case c = small_case({"rice"});
  const weather::WeatherYear year = made_weather();
  const season::SeasonResult keeps = run(c, year);
  for (const std::string& text : keeps.notes) CHECK_FALSE(contains(text, "overdone"));
  c.tasks[0].overdone_after_s = 4.0 * 3600.0;
  int late = 0;
  for (const season::DayTask& day : keeps.days) late += day.margin_s > 4.0F * 3600.0F ? 1 : 0;
  REQUIRE(late > 0);
  const season::SeasonResult r = run(c, year);
  CHECK(std::any_of(r.notes.begin(), r.notes.end(), [&](const std::string& text) {
    return contains(text,
                    "rice: on " + std::to_string(late) + " of " +
                        std::to_string(cooked_days(r, 0)) + " days it would be overdone if") &&
           contains(text, "it stayed in until 18:30, more than 240 min after it is done.");
  }));
  CHECK(cooked_days(r, 0) == cooked_days(keeps, 0));
}

TEST_CASE("nobody cooks on days off", "[season][unit]") {
  season::Case c = small_case({"eggs", "water"});
  c.routine.weekdays = {false, false, false, false, false, true, true};
  c.routine.first_weekday = 4;  // 1 January is a Friday
  const season::SeasonResult r = run(c, made_weather(), true);
  for (std::size_t t = 0; t < 2; ++t) {
    for (int d = 0; d < season::kDays; ++d) {
      const bool weekend = (d + 4) % 7 >= 5;
      CHECK((r.at(t, d).cause == Cause::kRoutine) == !weekend);
      CHECK((r.at(t, d).outcome == Outcome::kNoGo) == !weekend);
    }
    CHECK(season::count_task(r, t).longest_wait_days >= 5);
  }
}

TEST_CASE("a task that must be done by eleven cooks less often than one with all day",
          "[season][unit]") {
  season::Case c = small_case({"rice", "rice"});
  c.tasks[1].name = "early rice";
  c.tasks[1].finish_by_s = 11.0 * 3600;
  const season::SeasonResult r = run(c, season::load_weather(c));
  CHECK(cooked_days(r, 1) < cooked_days(r, 0) - 30);
  for (int d = 0; d < season::kDays; ++d) {
    if (r.at(1, d).outcome != Outcome::kCooked) continue;
    CHECK(r.at(1, d).finish_s <= 39600.0F);
    CHECK(r.at(0, d).outcome == Outcome::kCooked);
  }
}
