// SPDX-License-Identifier: MIT
#include "page_parts.h"

#include <filesystem>

#include "answer.h"
#include "ovendays/base/calendar.h"
#include "palette.h"
#include "pictures.h"

namespace ovendays::report {
namespace {

// The colour is a class of the scale: light and dark have their own.
std::string month_cell(int days, int month) {
  const int of = base::days_in_month(2001, month);
  return "<td class=\"s" + std::to_string(step_of(static_cast<double>(days) / of)) + "\">" +
         std::to_string(days) + "</td>";
}

// What a reader wants of one task before the pictures.
void task_facts(Html& page, const PageInput& input, std::size_t task) {
  const season::TaskCounts& counts = input.facts.counts[task];
  const results::StoredTask& told = input.season.tasks[task];
  page.open_terms();
  page.pair("Asks for", task_asks(told, input.unit) + ", in the " + told.vessel);
  page.pair("Done on", days_text(counts.outcomes[12][0]) + " of the year");
  if (counts.outcomes[12][0] > 0) {
    page.pair("Load",
              window_text(counts) + " usually, done in " + duration_text(counts.usual_duration_s));
  }
  page.pair("Not done",
            std::to_string(counts.outcomes[12][2]) + " short, " +
                std::to_string(counts.outcomes[12][1]) + " unsafe, " +
                std::to_string(counts.outcomes[12][3]) + " with the oven in");
  page.pair("Longest wait", days_text(counts.longest_wait_days) + " in a row without it");
  page.close_terms();
}

// Every panel is in the page: which one shows is a matter of style alone.
void task_panel(Html& page, const PageInput& input, std::size_t task) {
  page.raw("<section class=\"panel\" id=\"panel" + std::to_string(task) + "\">");
  page.element("h3 class=\"task\"", input.season.result.task_names[task]);
  const std::string bet = bet_text(bet_of(input.facts.counts[task]));
  page.element("p", "At this spot: " + bet + ".");
  page.raw("<div class=\"pair\">\n<div>");
  task_facts(page, input, task);
  page.raw("</div>");
  page.figure("Every day of the year", calendar_picture(input.season, task), "");
  page.figure(
      "Days lost each month, and to what", reasons_picture(input.season, input.facts, task), "");
  page.figure("When to load it", windows_picture(input.season, task), "");
  page.raw("</div>\n</section>");
}

std::string meanings() {
  std::string text;
  for (const CauseWord& word : cause_words()) {
    text += (text.empty() ? "" : "; ") + std::string(1, word.letter) + " " + word.heading + ": " +
            word.meaning;
  }
  return text;
}

// Two domes only where the trees make a difference.
void dome_figures(Html& page, const PageInput& input) {
  const season::SeasonResult& r = input.season.result;
  if (r.mask_january.sky.empty())
    return page.element("p class=\"soft\"", "The file holds no picture of the sky.");
  const std::string note =
      "Seen from the oven's mouth; the rim is the horizon, the middle is overhead. Figures on the "
      "paths are hours of standard time.";
  if (!masks_differ(r)) {
    page.figure("The sky over the oven", dome_picture(input.season, r.mask_january), note);
    return;
  }
  page.figure("The sky over the oven in January", dome_picture(input.season, r.mask_january), note);
  page.figure("The same in July", dome_picture(input.season, r.mask_july), "Trees in other leaf.");
}

// Stands beside the picture of the empty oven.
void heat_facts(Html& page, const PageInput& input) {
  page.raw("<div>");
  page.open_terms();
  page.pair("Hottest", input.facts.hottest);
  page.pair("Boiling", input.facts.boiling + " at this height");
  const double left = degrees_apart(input.season.result.memory_K, input.unit);
  page.pair("Overnight",
            "a day leaves " + (left < 0.05 ? "less than 0.1" : fixed(left, 1)) +
                (input.unit == TemperatureUnit::kCelsius ? " °C" : " °F") +
                " to the next morning's oven");
  page.close_terms();
  page.raw("</div>");
}
}  // namespace

void month_table(Html& page, const PageInput& input) {
  page.element("h2", "Days of each month on which it gets done");
  page.raw("<table class=\"months\" id=\"days\">\n<thead><tr><th class=\"name\"></th>");
  std::string line;
  for (int month = 1; month <= 12; ++month)
    line += std::string("<th>") + base::month_name(month) + "</th>";
  page.raw(line + "<th class=\"year\">Year</th></tr></thead>\n<tbody>");
  for (std::size_t task = 0; task < input.facts.counts.size(); ++task) {
    const season::TaskCounts& counts = input.facts.counts[task];
    line = "<tr><th class=\"name\" scope=\"row\">" + escaped(input.season.result.task_names[task]) +
           "</th>";
    for (int month = 1; month <= 12; ++month)
      line += month_cell(counts.outcomes[static_cast<std::size_t>(month - 1)][0], month);
    page.raw(line + "<td class=\"year\">" + std::to_string(counts.outcomes[12][0]) + "</td></tr>");
  }
  page.raw("</tbody>\n</table>");
}

void task_panels(Html& page, const PageInput& input) {
  page.element("h2", "Task by task");
  page.raw("<fieldset class=\"chooser\" aria-label=\"Choose a task\">");
  const std::size_t tasks = input.facts.counts.size();
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
      "When to load: first and last loading that works, medians over the days it gets done. All "
      "times are standard time: where clocks are on daylight saving, add an hour. "
      "Cooked: hot enough, long enough and in time. Unsafe: hot enough, but too slowly by "
      "the rule below. Short: not hot enough in time. Causes of lost days, found by asking "
      "again with one thing taken away: " +
          meanings() + ".");
}

void spot_pictures(Html& page, const PageInput& input) {
  page.element("h2", "The sun at the spot");
  page.element("p", "Here: " + input.facts.sun + ".");
  page.raw("<div class=\"pair\">");
  dome_figures(page, input);
  page.figure("Hours of strong sun, month by month", sun_hours_picture(input.season), "");
  page.figure("Beam that reaches the glass, W/m²",
              beam_picture(input.season),
              "Mean of all days of the month, cloudy ones too, in the hour that begins at the time "
              "named; re-aimed as the routine says.");
  page.raw("</div>");
  page.element("h2", "The heat in the oven");
  page.raw("<div class=\"pair\">");
  page.figure("How hot the empty oven gets", empty_oven_picture(input.season, input.unit), "");
  heat_facts(page, input);
  page.raw("</div>");
}

void small_print(Html& page, const PageInput& input) {
  const results::StoredSeason& season = input.season;
  page.element("h2", "Cautions");
  page.list(input.facts.cautions);
  if (!input.facts.notes.empty()) {
    page.element("h2", "Notes");
    page.list(input.facts.notes);
  }
  page.element("h2", "What it was made from");
  page.open_terms();
  page.pair("Site", input.facts.where);
  page.pair("Oven", input.facts.oven + "; " + input.facts.boiling);
  page.pair("Weather", input.facts.weather);
  page.pair("Energy", input.facts.audit);
  page.pair("Program", "ovendays " + season.program_version);
  page.pair("Case",
            std::filesystem::path(season.case_file).filename().string() + ", SHA-256 " +
                season.case_sha256);
  if (!season.weather.sha256.empty())
    page.pair("Weather file",
              std::filesystem::path(season.weather.file).filename().string() + ", SHA-256 " +
                  season.weather.sha256);
  page.close_terms();
  // Folded on a screen, left out on paper.
  page.raw("<details><summary>The case as it was read</summary>");
  page.element("pre", season.case_text);
  page.raw("</details>");
}
}  // namespace ovendays::report
