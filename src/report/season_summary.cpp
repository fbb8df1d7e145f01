// SPDX-License-Identifier: MIT
#include "season_summary.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

#include "answer.h"

namespace ovendays::report {
namespace {
using results::StoredSeason;
using season::Cause;

// A run without causes leaves kNone on lost days, which must not be shown as "no cause".
bool causes_looked_for(const season::SeasonResult& r) {
  return std::none_of(r.days.begin(), r.days.end(), [](const season::DayTask& day) {
    return day.outcome != season::Outcome::kCooked && day.cause == Cause::kNone;
  });
}

// One line about the weather file: name, irradiation, and any correction that was made to it.
std::string weather_line(const weather::WeatherYear& year) {
  double ghi_kWhm2 = 0.0;
  for (const weather::WeatherHour& hour : year.hours) {
    ghi_kWhm2 += hour.ghi_Wm2 * hour.length_s / 3.6e6;
  }
  std::string line = std::filesystem::path(year.file).filename().string() + ", " +
                     grouped(ghi_kWhm2) + " kWh/m2 a year on level ground";
  if (year.clock_shift_s != 0.0) {
    line += ", clock shifted by " + fixed(year.clock_shift_s / 60.0, 0) + " min";
  }
  if (year.filled_hours > 0) line += ", gaps filled in hours: " + grouped(year.filled_hours);
  return line;
}

// Compares the hours of strong sun in the open with those at the spot.
std::string sun_line(const season::SeasonResult& r) {
  double open_s = 0.0;
  double here_s = 0.0;
  for (const season::DaySummary& day : r.day) {
    open_s += static_cast<double>(day.beam_hours_open_s);
    here_s += static_cast<double>(day.beam_hours_here_s);
  }
  const double share = open_s > 0 ? here_s / open_s : 0.0;
  return grouped(open_s / 3600.0) + " h of strong sun a year in the open (beam above 120 W/m2), " +
         grouped(here_s / 3600.0) + " h of them reach the spot (" + fixed(100.0 * share, 0) + " %)";
}

std::string hottest_line(const season::SeasonResult& r, TemperatureUnit unit) {
  int hottest = 0;
  for (int i = 1; i < season::kDays; ++i) {
    const auto day = static_cast<std::size_t>(i);
    if (r.day[day].peak_air_K > r.day[static_cast<std::size_t>(hottest)].peak_air_K) hottest = i;
  }
  const auto peak_K = static_cast<double>(r.day[static_cast<std::size_t>(hottest)].peak_air_K);
  return temperature_text(peak_K, unit) + " in the air of the empty oven, on " + date_text(hottest);
}

// Prints "less than" for a share too small to show, because a bare zero would claim perfection.
std::string percent_text(double share) {
  return share < 1e-5 ? "less than 0.001 %" : fixed(100.0 * share, 3) + " %";
}

std::string audit_line(const season::AuditTotal& audit) {
  const double share = audit.in_J > 0 ? audit.residual_J / audit.in_J : 0.0;
  return grouped(static_cast<double>(audit.runs)) + " runs in " +
         grouped(static_cast<double>(audit.steps)) +
         " steps; unaccounted for: " + percent_text(share) + " of the absorbed energy, " +
         percent_text(audit.worst_share) + " in the worst run";
}

// Says which targets the height of the site lowered.
std::vector<std::string> lowered_targets(const StoredSeason& season, TemperatureUnit unit) {
  std::vector<std::string> notes;
  for (const results::StoredTask& task : season.tasks) {
    if (!(task.used_target_K < task.target_K)) continue;
    notes.push_back(task.name + ": " +
                    lowered_target_text({season.result.place.elevation_m,
                                         season.result.boiling_K,
                                         task.target_K,
                                         task.used_target_K},
                                        unit));
  }
  return notes;
}

// Lists the safety rules in use, each with its tasks.
std::vector<std::string> rule_lines(const StoredSeason& season) {
  std::vector<std::string> lines;
  std::set<std::string> listed;
  for (const results::StoredTask& task : season.tasks) {
    if (!task.spoils || !listed.insert(task.rule).second) continue;
    std::string names;
    for (const results::StoredTask& other : season.tasks) {
      if (other.spoils && other.rule == task.rule) {
        names += (names.empty() ? "" : "; ") + other.name;
      }
    }
    lines.push_back("Unsafe days are counted by the " + task.rule + " rule (" + task.rule_text +
                    ") for: " + names + ".");
  }
  return lines;
}

// Every report carries these cautions. They never call food safe; they name the rule that was met.
std::vector<std::string> caution_lines(const StoredSeason& season) {
  std::vector<std::string> lines = {
      "Food: these are simulated temperatures, not a promise that any food is safe. Follow your "
      "local food safety authority, measure the middle of the food with a thermometer, and throw "
      "away what stayed lukewarm too long. Do not can or heat sealed jars in a box oven."};
  for (std::string& line : rule_lines(season)) lines.push_back(std::move(line));
  lines.emplace_back(
      "Burns: glass, tray, pots and steam get as hot as in a kitchen oven. Use dry mitts and lift "
      "the lid away from your face.");
  lines.emplace_back(
      "Glare: never look into the reflectors or at the sun in them. Wear sunglasses while you aim, "
      "and keep children and animals from reaching in.");
  lines.emplace_back(
      "Fire: keep the oven off dry grass and away from anything that burns, tie it down against "
      "wind, and fold the reflectors away from the sun when nobody is near.");
  return lines;
}
}  // namespace

const std::array<CauseWord, 9>& cause_words() {
  static const std::array<CauseWord, 9> words = {{
      {Cause::kObstruction, 'S', "shade", "obstructions hid the sun or the sky"},
      {Cause::kCloud, 'C', "cloud", "it would work under a clear sky"},
      {Cause::kAim, 'A', "aim", "it would work if the oven followed the sun all day"},
      {Cause::kTilt,
       'T',
       "tilt",
       "it would work in notches where the pot would spill, slide or touch the glass"},
      {Cause::kWind, 'W', "wind", "it would work in still air"},
      {Cause::kRain, 'R', "rain", "it was too wet to set the oven out"},
      {Cause::kRoutine, 'N', "routine", "nobody cooks on that day of the week"},
      {Cause::kSeason,
       'L',
       "season",
       "the sun is too low, the day too short or the air too cold in any case"},
      {Cause::kSeveral, 'M', "several", "no single cause, but several together"},
  }};
  return words;
}

std::string range_text(const season::TaskRange& range) {
  if (range.draws <= 0) return "";
  return fixed(range.low_days, 0) + "-" + fixed(range.high_days, 0);
}

bool has_ranges(const results::StoredSeason& season) {
  return std::any_of(season.tasks.begin(), season.tasks.end(), [](const results::StoredTask& t) {
    return t.draws > 0;
  });
}

std::string range_note(const results::StoredSeason& season) {
  if (!has_ranges(season)) return "";
  return "likely: eight of ten seasons fall into this range when what is not well known differs "
         "(foil, dirt, leaks, insulation, wind, pots and lids, amount of food, late turns, the "
         "model's own error) and the days fall otherwise; " +
         fixed(season.tasks.front().draws, 0) +
         " draws, so the ends are uncertain themselves. Real years differ by more.";
}

std::string window_text(const season::TaskCounts& counts) {
  if (counts.usual_load_first_s < 0) return "-";
  return clock_or_dash(counts.usual_load_first_s) + "-" + clock_or_dash(counts.usual_load_last_s);
}

std::string task_asks(const results::StoredTask& task, TemperatureUnit unit) {
  std::string text = temperature_text(task.used_target_K, unit);
  if (task.hold_s > 0) text += " for " + duration_text(task.hold_s);
  return text + " by " + clock_or_dash(task.finish_by_s);
}

SeasonSummary summarize(const StoredSeason& season, TemperatureUnit unit) {
  const season::SeasonResult& r = season.result;
  SeasonSummary summary;
  for (std::size_t task = 0; task < r.task_names.size(); ++task) {
    summary.counts.push_back(season::count_task(r, task));
  }
  summary.headline = answer(season, summary.counts);
  summary.where = r.site_name + " (" + place_text(r.place) + "), spot: " + r.spot_name;
  summary.oven = r.oven_name;
  summary.weather = weather_line(season.weather);
  summary.sun = sun_line(r);
  summary.hottest = hottest_line(r, unit);
  summary.boiling = "water boils at " + temperature_text(r.boiling_K, unit);
  summary.audit = audit_line(r.audit);
  summary.causes_known = causes_looked_for(r);
  summary.notes = lowered_targets(season, unit);
  summary.notes.insert(summary.notes.end(), r.notes.begin(), r.notes.end());
  for (const weather::WeatherNote& note : season.weather.notes) {
    summary.notes.push_back(
        "Weather" + (note.line > 0 ? ", line " + std::to_string(note.line) : std::string()) + ": " +
        note.text);
  }
  summary.cautions = caution_lines(season);
  return summary;
}
}  // namespace ovendays::report
