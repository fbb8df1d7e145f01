// SPDX-License-Identifier: MIT
#include "page_parts.h"

#include <filesystem>

#include "answer.h"
#include "ovendays/base/calendar.h"
#include "palette.h"
#include "pictures.h"

namespace ovendays::report {
namespace {

// The class selects the colour, so that light and dark pages can differ.
std::string month_cell(int days, int month) {
  const int of = base::days_in_month(2001, month);
  return "<td class=\"s" + std::to_string(step_of(static_cast<double>(days) / of)) + "\">" +
         std::to_string(days) + "</td>";
}

// How long a task takes, for planning.
std::string time_to_plan(const season::TaskCounts& counts, const season::TaskRange& range) {
  if (range.done_in_s < 0)
    return duration_text(counts.usual_duration_s) + " when loaded at the day's quickest time";
  return duration_text(range.done_in_s) + " when loaded at " +
         base::clock_text(range.typical_load_s) + "; one time in five more than " +
         duration_text(range.slow_s);
}

// The key figures of one task, shown before its pictures.
void task_facts(Html& page, const PageInput& input, std::size_t task) {
  const season::TaskCounts& counts = input.summary.counts[task];
  const results::StoredTask& stored = input.season.tasks[task];
  page.open_terms();
  page.pair("Target", task_asks(stored, input.unit) + ", in the " + stored.vessel);
  page.pair("Works on",
            days_text(counts.outcomes[12][0]) + " of the year" +
                (stored.draws > 0 ? ", likely " + range_text(stored) : ""));
  if (counts.outcomes[12][0] > 0) {
    page.pair("Load at", window_text(counts) + " usually");
    page.pair("Takes", time_to_plan(counts, stored));
  }
  page.pair("Lost",
            std::to_string(counts.outcomes[12][2]) + " short, " +
                std::to_string(counts.outcomes[12][1]) + " unsafe, " +
                std::to_string(counts.outcomes[12][3]) + " no-go (oven indoors)");
  page.pair("Longest wait", days_text(counts.longest_wait_days) + " in a row without success");
  page.close_terms();
}

// All panels are in the page; CSS alone decides which one is visible.
void task_panel(Html& page, const PageInput& input, std::size_t task) {
  page.raw("<section class=\"panel\" id=\"panel" + std::to_string(task) + "\">");
  page.element("h3 class=\"task\"", input.season.result.task_names[task]);
  const std::string bet = bet_text(bet_of(input.summary.counts[task]));
  page.element("p", "At this spot: " + bet + ".");
  page.raw("<div class=\"pair\">\n<div>");
  task_facts(page, input, task);
  page.raw("</div>");
  page.figure("Every day of the year", calendar_picture(input.season, task), "");
  page.figure(
      "Days lost each month, by cause", reasons_picture(input.season, input.summary, task), "");
  page.figure("When to load", windows_picture(input.season, task), "");
  page.raw("</div>\n</section>");
}

// Explains the letters of the pictures.
std::string meanings() {
  std::string text;
  for (const CauseWord& word : cause_words()) {
    text += (text.empty() ? "" : "; ") + std::string(1, word.letter) + " " + word.heading + ": " +
            word.meaning;
  }
  return text;
}

// Draws July separately only if trees make it differ from January.
void dome_figures(Html& page, const PageInput& input) {
  const season::SeasonResult& r = input.season.result;
  if (r.mask_january.sky.empty())
    return page.element("p class=\"soft\"", "The results file contains no sky mask.");
  const std::string note =
      "Seen from the oven's mouth: the rim is the horizon, the centre is overhead. Numbers "
      "along the "
      "paths are hours of standard time.";
  if (!masks_differ(r)) {
    page.figure("The sky over the oven", dome_picture(input.season, r.mask_january), note);
    return;
  }
  page.figure("The sky over the oven in January", dome_picture(input.season, r.mask_january), note);
  page.figure("The sky over the oven in July",
              dome_picture(input.season, r.mask_july),
              "Trees have more or fewer leaves than in January.");
}

// Key figures beside the picture of the empty oven.
void heat_facts(Html& page, const PageInput& input) {
  page.raw("<div>");
  page.open_terms();
  page.pair("Hottest", input.summary.hottest);
  page.pair("Boiling", input.summary.boiling + " at this height");
  const double left = degrees_apart(input.season.result.memory_K, input.unit);
  page.pair("Overnight",
            "heat left from the day before: " + (left < 0.05 ? "less than 0.1" : fixed(left, 1)) +
                (input.unit == TemperatureUnit::kCelsius ? " °C" : " °F") +
                " at the first loading");
  page.close_terms();
  page.raw("</div>");
}
}  // namespace

void month_table(Html& page, const PageInput& input) {
  page.element("h2", "Days of each month on which each task gets done");
  page.raw("<table class=\"months\" id=\"days\">\n<thead><tr><th class=\"name\"></th>");
  std::string line;
  for (int month = 1; month <= 12; ++month)
    line += std::string("<th>") + base::month_name(month) + "</th>";
  const bool ranges = has_ranges(input.season);
  page.raw(line + "<th class=\"year\">Year</th>" +
           (ranges ? "<th class=\"range\">Likely</th>" : "") + "</tr></thead>\n<tbody>");
  for (std::size_t task = 0; task < input.summary.counts.size(); ++task) {
    const season::TaskCounts& counts = input.summary.counts[task];
    line = "<tr><th class=\"name\" scope=\"row\">" + escaped(input.season.result.task_names[task]) +
           "</th>";
    for (int month = 1; month <= 12; ++month)
      line += month_cell(counts.outcomes[static_cast<std::size_t>(month - 1)][0], month);
    line += "<td class=\"year\">" + std::to_string(counts.outcomes[12][0]) + "</td>";
    if (ranges) line += "<td class=\"range\">" + range_text(input.season.tasks[task]) + "</td>";
    page.raw(line + "</tr>");
  }
  page.raw("</tbody>\n</table>");
  if (ranges) page.element("p class=\"soft\"", range_note(input.season));
}

void task_panels(Html& page, const PageInput& input) {
  page.element("h2", "Each task");
  page.raw("<fieldset class=\"chooser\" aria-label=\"Choose a task\">");
  const std::size_t tasks = input.summary.counts.size();
  for (std::size_t task = 0; task < tasks; ++task) {
    const std::string n = std::to_string(task);
    page.raw("<input type=\"radio\" name=\"pick\" id=\"pick" + n + "\"" +
             (task == 0 ? " checked=\"checked\"/>" : "/>"));
    page.element("label for=\"pick" + n + "\"", short_name(input.season.result.task_names, task));
  }
  for (std::size_t task = 0; task < tasks; ++task) task_panel(page, input, task);
  page.raw("</fieldset>");
  page.element(
      "p class=\"soft\"",
      "When to load: the first and last loading time that works, medians over the days on which "
      "the task gets done. All times are standard time; add an hour for daylight saving time. "
      "Cooked: hot enough, long enough and in time. Unsafe: hot enough, but slower than the safety "
      "rule below allows. Short: not hot enough, or not for long enough, in time. The cause of a "
      "lost day is found by simulating it again with one thing changed at a time: " +
          meanings() + ".");
}

void spot_pictures(Html& page, const PageInput& input) {
  page.element("h2", "The sun at the spot");
  page.element("p", "In a year: " + input.summary.sun + ".");
  page.raw("<div class=\"pair\">");
  dome_figures(page, input);
  page.figure("Hours of strong sun, month by month", sun_hours_picture(input.season), "");
  page.figure("Direct sunlight on the glass, W/m²",
              beam_picture(input.season),
              "Mean over all days of the month, cloudy ones included, for the hour that begins at "
              "the time shown. The oven is aimed as the routine says.");
  page.raw("</div>");
  page.element("h2", "Temperatures in the empty oven");
  page.raw("<div class=\"pair\">");
  page.figure("How hot the empty oven gets", empty_oven_picture(input.season, input.unit), "");
  heat_facts(page, input);
  page.raw("</div>");
}

void small_print(Html& page, const PageInput& input) {
  const results::StoredSeason& season = input.season;
  page.element("h2", "Cautions");
  page.list(input.summary.cautions);
  if (!input.summary.notes.empty()) {
    page.element("h2", "Notes");
    page.list(input.summary.notes);
  }
  page.element("h2", "Inputs and program");
  page.open_terms();
  page.pair("Site", input.summary.where);
  page.pair("Oven", input.summary.oven + "; " + input.summary.boiling);
  page.pair("Weather", input.summary.weather);
  page.pair("Energy balance", input.summary.audit);
  page.pair("Program", "ovendays " + season.program_version);
  page.pair("Case",
            std::filesystem::path(season.case_file).filename().string() + ", SHA-256 " +
                season.case_sha256);
  if (!season.weather.sha256.empty())
    page.pair("Weather file",
              std::filesystem::path(season.weather.file).filename().string() + ", SHA-256 " +
                  season.weather.sha256);
  page.close_terms();
  // Collapsed on a screen, omitted on paper.
  page.raw("<details><summary>The case file</summary>");
  page.element("pre", season.case_text);
  page.raw("</details>");
}
}  // namespace ovendays::report
