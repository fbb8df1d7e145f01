// SPDX-License-Identifier: MIT
#include "ovendays/task/routine.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"

namespace ovendays::task {
namespace {
using base::CaseNode;
using base::Dimension;

const std::vector<std::string>& day_words() {
  static const std::vector<std::string> words = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  return words;
}

void read_days(const CaseNode& node, Routine& routine) {
  const std::vector<std::string> days = node.texts("days");
  if (days.empty()) return;
  routine.weekdays.fill(false);
  for (const std::string& day : days) {
    const auto it = std::find(day_words().begin(), day_words().end(), day);
    if (it == day_words().end()) {
      node.fault("days", "'" + day + "'", "Mon Tue Wed Thu Fri Sat Sun");
    } else {
      routine.weekdays[static_cast<std::size_t>(it - day_words().begin())] = true;
    }
  }
}

void read_turning(const CaseNode& node, Routine& routine) {
  const std::size_t way = node.choice("re_aim", {"every", "at", "once", "never"}, 0);
  routine.re_aim = static_cast<ReAim>(way);
  routine.re_aim_every_s =
      node.quantity("re_aim_every", Dimension::kTime, {60.0, 86400.0}, routine.re_aim_every_s);
  routine.re_aim_late_s =
      node.quantity("re_aim_late", Dimension::kTime, {0.0, 21600.0}, routine.re_aim_late_s);
  routine.re_aim_s = node.clocks("re_aim_at");
  if (!std::is_sorted(routine.re_aim_s.begin(), routine.re_aim_s.end())) {
    node.fault("re_aim_at", "times out of order", "times of the day in rising order");
  }
  if (routine.re_aim == ReAim::kAtTimes && routine.re_aim_s.empty()) {
    node.fault("re_aim_at", "no times", "at least one time where re_aim = \"at\"");
  }
  if (routine.re_aim == ReAim::kOnce && routine.re_aim_s.size() != 1) {
    node.fault("re_aim_at",
               std::to_string(routine.re_aim_s.size()) + " times",
               "exactly one time where re_aim = \"once\"");
  }
  const bool home = std::all_of(routine.re_aim_s.begin(), routine.re_aim_s.end(), [&](double t) {
    return t >= routine.home_from_s && t <= routine.home_until_s;
  });
  if (!home) {
    node.fault("re_aim_at",
               "a time when nobody is home",
               "times from home_from, " + base::clock_text(routine.home_from_s) +
                   ", to home_until, " + base::clock_text(routine.home_until_s));
  }
  routine.facing_rad =
      node.quantity("facing", Dimension::kAngle, {0.0, base::kTwoPi}, routine.facing_rad);
  if (const auto tilt = node.optional_quantity("tilt", Dimension::kAngle, {0.0, 0.5 * base::kPi}))
    routine.fixed_tilt_rad = *tilt;
}
void read_washing(const CaseNode& node, Routine& routine) {
  constexpr double kDay_s = 86400.0;
  const bool washed = node.has("wash_every");
  routine.wash_every_s =
      node.quantity("wash_every", Dimension::kTime, {kDay_s, 365.0 * kDay_s}, 0.0);
  if (node.has("dust_per_day") && !washed) {
    node.fault(
        "dust_per_day", "no wash_every", "wash_every beside it: without it no dust is counted");
  }
  routine.dust_per_day =
      node.quantity("dust_per_day", Dimension::kNumber, {0.0, 0.05}, routine.dust_per_day);
}
}  // namespace

Routine read_routine(const CaseNode& node) {
  Routine routine;
  routine.set_out_s = node.clock("set_out", routine.set_out_s);
  routine.earliest_load_s = node.clock("earliest", routine.earliest_load_s);
  routine.latest_load_s = node.clock("latest", routine.latest_load_s);
  if (routine.latest_load_s < routine.earliest_load_s) {
    node.fault("latest",
               base::clock_text(routine.latest_load_s),
               "no earlier than earliest, " + base::clock_text(routine.earliest_load_s));
  }
  routine.load_every_s =
      node.quantity("load_every", Dimension::kTime, {300.0, 86400.0}, routine.load_every_s);
  routine.preheat = node.flag("preheat", routine.preheat);
  routine.home_from_s = node.clock("home_from", routine.home_from_s);
  routine.home_until_s = node.clock("home_until", routine.home_until_s);
  if (routine.home_until_s <= routine.home_from_s) {
    node.fault("home_until",
               base::clock_text(routine.home_until_s),
               "later than home_from, " + base::clock_text(routine.home_from_s));
  }
  read_days(node, routine);
  routine.first_weekday = static_cast<int>(node.choice("first_weekday", day_words(), 0));
  read_turning(node, routine);
  routine.lid_open_after_s = node.quantities("lid_open_after", Dimension::kTime, {0.0, 86400.0}, 0);
  std::sort(routine.lid_open_after_s.begin(), routine.lid_open_after_s.end());
  routine.lid_open_s =
      node.quantity("lid_open_for", Dimension::kTime, {0.0, 3600.0}, routine.lid_open_s);
  routine.flaps_wind_ms = node.quantity("flaps_in_above", Dimension::kSpeed, {0.0, 100.0}, 100.0);
  routine.stay_in_wind_ms =
      node.quantity("stay_in_above", Dimension::kSpeed, {0.0, 100.0}, routine.stay_in_wind_ms);
  routine.stay_in_rain_m =
      node.quantity("stay_in_rain", Dimension::kLength, {0.0, 10.0}, routine.stay_in_rain_m);
  read_washing(node, routine);
  return routine;
}

std::vector<double> loading_times(const Routine& routine) {
  std::vector<double> times;
  for (int i = 0;; ++i) {
    const double t = routine.earliest_load_s + i * routine.load_every_s;
    if (t > routine.latest_load_s + 1e-6) break;  // rounding must not lose the last time
    if (t >= routine.home_from_s && t <= routine.home_until_s) times.push_back(t);
  }
  return times;
}

bool cooks_on(const Routine& routine, int day_index) {
  return routine.weekdays[static_cast<std::size_t>((routine.first_weekday + day_index) % 7)];
}

const char* example_routine_toml() {
  return R"toml(# How you work. Times are local STANDARD time all year: where your clock is on daylight saving,
# take an hour off what it shows.
[routine]
set_out = "07:00"          # the oven goes out and warms up empty ...
earliest = "08:00"         # ... and may be loaded from here ...
latest = "16:00"           # ... to here
load_every = "30 min"      # loading times that are tried in between
preheat = true             # false: the oven goes out only when it is loaded
re_aim = "every"           # "every", "at" (re_aim_at = ["09:00", "12:00"]), "once" (one time), or "never"
re_aim_every = "30 min"
re_aim_late = "0 min"      # how late each turn is done, on the whole; the aiming card stays the plan
# facing = "180 deg"       # for re_aim = "never": the compass bearing it faces, 180 is south
# tilt = "30 deg"          # keep the prop in the notch nearest to this; left out: the best notch each time
home_from = "00:00"        # somebody is home: loading, turning, looking happen only then
home_until = "24:00"
days = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
first_weekday = "Mon"      # weekday of 1 January; a typical year has none of its own
lid_open_after = []        # looks and stirs after loading, for example ["45 min", "90 min"]
lid_open_for = "30 s"      # how long the lid stands open, at loading too
flaps_in_above = "9 m/s"   # wind at the oven above which the flaps are laid in
stay_in_above = "14 m/s"   # wind at the oven above which it does not go out that day
stay_in_rain = "0.5 mm"    # rain in the day above which it stays in, unless a roof covers it
# wash_every = "30 days"   # counts the dust on glass and foil between washings, the first on 1 January;
                           # cleanliness in [oven.as_built] is then that of the washed oven: 0.98. Left
                           # out: cleanliness is the mean of the year, and no dust comes on top
# dust_per_day = 0.0015    # light that a day's dust takes: 0.001 country, 0.002 city, 0.003 desert
)toml";
}
}  // namespace ovendays::task
