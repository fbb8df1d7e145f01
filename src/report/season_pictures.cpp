// SPDX-License-Identifier: MIT
#include <array>
#include <functional>

#include "ovendays/base/check.h"
#include "pictures.h"

namespace ovendays::report {
namespace {

struct Input {
  const results::StoredSeason& season;
  const SeasonSummary& summary;
  TemperatureUnit unit;
  std::size_t task;
};

// One picture: its name and help text, how to draw it, and its title as a file.
struct Entry {
  PictureName name;
  Drawing (*draw)(const Input& input);
  std::string (*title)(const Input& input);
};

std::string of_task(const Input& input, const char* what) {
  return input.season.result.task_names[input.task] + ": " + what;
}

// One table drives the help, the names and the drawing, so that they cannot disagree.
const std::array<Entry, 9>& entries() {
  static const std::array<Entry, 9> all = {{
      {{"months", "days of each month on which each task gets done", false},
       [](const Input& i) { return months_picture(i.season, i.summary); },
       [](const Input& i) { return i.summary.headline; }},
      {{"calendar", "every day of the year for one task", true},
       [](const Input& i) { return calendar_picture(i.season, i.task); },
       [](const Input& i) { return of_task(i, "every day of the year"); }},
      {{"reasons", "days lost each month by cause, for one task", true},
       [](const Input& i) { return reasons_picture(i.season, i.summary, i.task); },
       [](const Input& i) { return of_task(i, "days lost each month, by cause"); }},
      {{"windows", "loading times that work, for one task", true},
       [](const Input& i) { return windows_picture(i.season, i.task); },
       [](const Input& i) { return of_task(i, "when to load (standard time)"); }},
      {{"sky-january",
        "the sky with its obstructions and the sun's paths, trees as in January",
        false},
       [](const Input& i) { return dome_picture(i.season, i.season.result.mask_january); },
       [](const Input&) { return std::string("The sky over the oven, trees as in January"); }},
      {{"sky-july", "the same with trees as in July", false},
       [](const Input& i) { return dome_picture(i.season, i.season.result.mask_july); },
       [](const Input&) { return std::string("The sky over the oven, trees as in July"); }},
      {{"sun-hours", "hours of strong sun that reach the spot and that are lost, by month", false},
       [](const Input& i) { return sun_hours_picture(i.season); },
       [](const Input&) { return std::string("Hours of strong sun, month by month"); }},
      {{"beam", "mean direct sunlight on the glass, by month and hour", false},
       [](const Input& i) { return beam_picture(i.season); },
       [](const Input&) { return std::string("Direct sunlight on the glass, W/m²"); }},
      {{"empty-oven", "how hot the empty oven gets through the year", false},
       [](const Input& i) { return empty_oven_picture(i.season, i.unit); },
       [](const Input&) { return std::string("How hot the empty oven gets"); }},
  }};
  return all;
}
}  // namespace

std::vector<PictureName> picture_names() {
  std::vector<PictureName> names;
  for (const Entry& entry : entries()) names.push_back(entry.name);
  return names;
}

std::string season_picture(const results::StoredSeason& season,
                           const std::string& name,
                           std::size_t task,
                           const ReportOptions& options) {
  OVENDAYS_CHECK(task < season.tasks.size());
  const SeasonSummary summary = summarize(season, options.unit);
  const Input input{season, summary, options.unit, task};
  for (const Entry& entry : entries()) {
    if (name == entry.name.name) return entry.draw(input).file(entry.title(input));
  }
  OVENDAYS_CHECK(false && "a picture of that name");
  return "";
}

std::string season_svg(const results::StoredSeason& season) {
  return season_picture(season, "months", 0, {});
}
}  // namespace ovendays::report
