// SPDX-License-Identifier: MIT
// The same bits at any number of threads, everything of the result counted. That the portable forms
// and those for AVX2 (base/target_clones.h) agree is seen in .ci/run, where Clang's build, which
// has the portable ones only, must write the same file as GCC's.
#include <cstring>
#include <string>
#include <type_traits>

#include "catch.h"
#include "made_case.h"
#include "ovendays/base/error.h"

using namespace ovendays;
using season::SeasonResult;

namespace {
/// Bytes of everything, field by field, so that no padding counts.
class Bytes {
 public:
  template <typename T>
  Bytes& operator<<(const T& value) {
    static_assert(std::is_arithmetic_v<T> || std::is_enum_v<T>);
    const char* first = reinterpret_cast<const char*>(&value);
    text_.append(first, sizeof(T));
    return *this;
  }
  Bytes& operator<<(const std::string& text) {
    text_ += text + '\0';
    return *this;
  }
  template <typename Range>
  void all(const Range& range) {
    for (const auto& value : range) *this << value;
  }
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  std::string text_;
};

std::string bytes_of_days(const SeasonResult& r) {
  Bytes b;
  for (const season::DayTask& d : r.days) {
    b << d.outcome << d.cause << d.load_s << d.finish_s << d.margin_s << d.peak_core_K
      << d.shortfall_K << d.hold_share << d.danger_s << d.evaporated_kg << d.window_first_s
      << d.window_last_s << d.window_count;
  }
  for (const season::DaySummary& d : r.day) {
    b << d.sunrise_s << d.sunset_s << d.beam_hours_open_s << d.beam_hours_here_s << d.peak_air_K
      << d.audit_residual_J << d.audit_in_J;
  }
  return b.text();
}

std::string bytes_of_hours(const SeasonResult& r) {
  Bytes b;
  for (const season::HourTrace& h : r.hours) {
    b << h.sun_zenith_rad << h.sun_azimuth_rad << h.visible_share << h.beam_mouth_Wm2
      << h.diffuse_mouth_Wm2 << h.open_beam_mouth_Wm2 << h.aim_azimuth_rad << h.aim_tilt_rad
      << h.air_K << h.liner_K << h.tray_K << h.pane_K << h.ambient_K << h.wind_ms;
    b.all(h.absorbed_W);
  }
  return b.text();
}

std::string bytes_of_tables(const SeasonResult& r) {
  Bytes b;
  for (const optics::AcceptanceTable& table : r.tables) {
    b << table.grid() << table.error();
    for (const optics::Acceptance& a : table.nodes()) {
      b.all(a.absorbed_m2);
      b << a.outer_ir_m2;
    }
  }
  for (const spot::SpotMask* m : {&r.mask_january, &r.mask_july}) {
    b.all(m->sky_visible);
    for (const auto& blocked : m->sky_blocked) b.all(blocked);
    b.all(m->ground_visible);
    for (const auto& blocked : m->ground_blocked) b.all(blocked);
    b.all(m->horizon_visible);
    b << m->sky_view_factor;
  }
  return b.text();
}

std::string bytes_of_rest(const SeasonResult& r) {
  Bytes b;
  b << r.site_name << r.spot_name << r.oven_name;
  b.all(r.task_names);
  b.all(r.task_target_K);
  b << r.audit.worst_share << r.audit.in_J << r.audit.out_J << r.audit.stored_J
    << r.audit.residual_J << r.audit.runs << r.audit.steps << r.audit.rejected;
  b << r.memory_K << r.boiling_K;
  b.all(r.load_names);
  b.all(r.notes);
  return b.text();
}

void check_same(const SeasonResult& a, const SeasonResult& b) {
  CHECK(bytes_of_days(a) == bytes_of_days(b));
  CHECK(bytes_of_hours(a) == bytes_of_hours(b));
  CHECK(bytes_of_tables(a) == bytes_of_tables(b));
  CHECK(bytes_of_rest(a) == bytes_of_rest(b));
}

SeasonResult run_with(const season::Case& c, const weather::WeatherYear& year, int threads) {
  season::SeasonOptions options = test::quick_options(true);
  options.threads = threads;
  return season::run_season(c, year, options);
}
}  // namespace

TEST_CASE("a season has the same bits on one, two, five and twenty threads",
          "[season][determinism]") {
  season::Case c = test::small_case({"soup", "eggs", "bread"});
  const weather::WeatherYear year = season::load_weather(c);
  // The starter's own spot, with trees whose months differ; flaps laid in on windy hours.
  c.spot = season::read_case_text(season::starter_case(), "").spot;
  c.routine.flaps_wind_ms = 3.0;
  const SeasonResult one = run_with(c, year, 1);
  REQUIRE(one.audit.rejected > 0);  // step control at work, not a trivial year
  REQUIRE(test::days_with(one, 2, season::Cause::kObstruction) > 0);
  for (const int threads : {2, 5, 20}) {  // twenty: more than there are blocks of days
    const SeasonResult other = run_with(c, year, threads);
    INFO(threads << " threads");
    check_same(other, one);
  }
}

TEST_CASE("a season has the same bits with what others left in the cache",
          "[season][determinism]") {
  season::Case c = test::small_case({"soup", "bread"});
  const weather::WeatherYear year = season::load_weather(c);
  c.routine.flaps_wind_ms = 3.0;
  season::Case other = c;
  other.oven.panes.front().extinction_1m = 4.0;
  other.spot = season::read_case_text(season::starter_case(), "").spot;
  season::Case thicker = c;
  thicker.oven.box.wall.front().thickness_m *= 2.0;
  season::Case tighter = c;  // the same gains
  tighter.oven.box.leak_area_m2 *= 0.5;
  tighter.oven.box.floor.front().material.conductivity_WmK *= 0.8;
  season::Case lazier = c;  // the same sky and optics, other aims
  lazier.routine.re_aim_every_s = 7200.0;
  const season::SeasonCache cache;
  for (const season::Case* each : {&c, &tighter, &other, &thicker, &lazier, &c}) {
    season::SeasonOptions options = test::quick_options(false);
    const SeasonResult alone = season::run_season(*each, year, options);
    options.cache = &cache;
    for (const bool keeps : {true, false}) {
      options.cache_year = keeps;
      const SeasonResult shared = season::run_season(*each, year, options);
      check_same(shared, alone);
    }
  }
}

TEST_CASE("of several failures of a season the same one is reported on any number of threads",
          "[season][determinism]") {
  const season::Case c = test::small_case({"eggs", "rice"});
  const weather::WeatherYear year = season::load_weather(c);
  const auto reported = [&](const season::SeasonOptions& options) {
    std::string words = "nothing";
    try {
      season::run_season(c, year, options);
    } catch (const base::RunError& error) {
      words = error.what();
    }
    return words;
  };
  for (const int threads : {1, 2, 13}) {
    season::SeasonOptions options = test::quick_options();
    options.threads = threads;
    INFO(threads << " threads");
    // No step is accepted that short.
    options.integrator.shortest_step_s = 1e6;
    CHECK(test::contains(reported(options), "the empty oven on Jan 1:"));
  }
}

TEST_CASE("an oven without flaps can use what one with its flaps laid in left in the cache",
          "[season][determinism]") {
  season::Case windy = test::small_case({"soup"});
  const weather::WeatherYear year = season::load_weather(windy);
  windy.routine.flaps_wind_ms = 3.0;
  season::Case bare = windy;
  bare.oven.flaps.clear();
  const season::SeasonCache cache;
  season::SeasonOptions options = test::quick_options(false);
  const SeasonResult alone = season::run_season(bare, year, options);
  options.cache = &cache;
  season::run_season(windy, year, options);
  CHECK(bytes_of_days(season::run_season(bare, year, options)) == bytes_of_days(alone));
}

TEST_CASE("asked for days only, a season has the outcomes of a full one", "[season][identity]") {
  season::Case c = test::small_case({"soup", "bread"});
  weather::WeatherYear year = season::load_weather(c);
  const bool days_off = GENERATE(false, true);
  if (days_off) {  // single ones, and a whole block of days
    c.routine.weekdays = {true, true, false, true, false, false, true};
    c.routine.stay_in_wind_ms = 15.0;
    constexpr std::size_t kDay = 24;
    for (std::size_t hour = 60 * kDay; hour < 100 * kDay; ++hour) year.hours[hour].wind_ms = 20.0;
  }
  season::SeasonOptions options = test::quick_options(true);
  const SeasonResult full = season::run_season(c, year, options);
  options.days_only = true;
  const SeasonResult quick = season::run_season(c, year, options);
  CHECK(quick.audit.runs < full.audit.runs);
  for (std::size_t i = 0; i < full.days.size(); ++i) {
    INFO("task and day " << i);
    REQUIRE(quick.days[i].outcome == full.days[i].outcome);
    REQUIRE(quick.days[i].cause == full.days[i].cause);
    // Of attempts that got equally far, to a quarter of a kelvin, either may be reported.
    if (full.days[i].outcome != season::Outcome::kCooked)
      REQUIRE_THAT(quick.days[i].peak_core_K, test::within_abs(full.days[i].peak_core_K, 0.3));
  }
}
