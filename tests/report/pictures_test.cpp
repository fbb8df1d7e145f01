// SPDX-License-Identifier: MIT
// Every picture of a season made by hand: what it shows is counted here anew from the days.
#include "pictures.h"

#include <set>

#include "catch.h"
#include "made_season.h"
#include "palette.h"
#include "xml_check.h"

using namespace ovendays;
using test::occurrences;

namespace {
const results::StoredSeason& made() {
  static const results::StoredSeason season = [] {
    const test::MadeSeason m = test::made_season();
    return results::stored_season(m.c, m.year, m.result);
  }();
  return season;
}

std::string inlined(const report::Drawing& drawing) { return drawing.inlined(); }

int days_of(std::size_t task, season::Outcome outcome) {
  int days = 0;
  for (int day = 0; day < season::kDays; ++day)
    days += made().result.at(task, day).outcome == outcome ? 1 : 0;
  return days;
}
}  // namespace

TEST_CASE("every named picture is a self-contained file", "[report][unit]") {
  std::set<std::string> names;
  for (const report::PictureName& picture : report::picture_names()) {
    INFO(picture.name);
    CHECK(names.insert(picture.name).second);
    const std::string svg = report::season_picture(made(), picture.name, 1);
    CHECK(test::well_formed(svg));
    CHECK(test::contains(svg, "aria-label=\""));
    CHECK(test::contains(svg, "prefers-color-scheme:dark"));
    CHECK_FALSE(test::contains(svg, "nan"));
    CHECK_FALSE(test::contains(svg, "inf"));
    for (const char* outside : {"src=", "href=", "@import", "url(", "<script"})
      CHECK_FALSE(test::contains(svg, outside));
  }
  CHECK(names.size() == 9);
}

TEST_CASE("the calendar shows each day once, in the shape of its outcome", "[report][unit]") {
  for (std::size_t task = 0; task < 5; ++task) {
    INFO("task " << task);
    const std::string svg = inlined(report::calendar_picture(made(), task));
    // One of each shape stands in the key.
    CHECK(occurrences(svg, "class=\"done\"") == 1 + days_of(task, season::Outcome::kCooked));
    CHECK(occurrences(svg, "class=\"unsafe\"") == 1 + days_of(task, season::Outcome::kUnsafe));
    CHECK(occurrences(svg, "class=\"short\"") == 1 + days_of(task, season::Outcome::kShort));
    CHECK(occurrences(svg, "<g><title>") == season::kDays);
  }
  const std::string rice = inlined(report::calendar_picture(made(), 0));
  CHECK(test::contains(rice, "<title>2 Jul: cooked, load 09:30, done "));
}

TEST_CASE("reasons stack up to the days lost", "[report][unit]") {
  const report::SeasonSummary summary =
      report::summarize(made(), report::TemperatureUnit::kCelsius);
  const std::string svg = inlined(report::reasons_picture(made(), summary, 4));
  for (const report::CauseWord& word : report::cause_words()) {
    const int days = summary.counts[4].causes[12][static_cast<std::size_t>(word.cause)];
    INFO(word.heading);
    CHECK(days > 0);  // the last made task has each cause in turn
    CHECK(test::contains(svg, std::string(word.heading) + " " + std::to_string(days) + "<"));
  }
  // January by hand: days 0..30, cause 1 + day % 8, obstruction on 0, 8, 16, 24.
  CHECK(test::contains(svg, "<title>Jan, shade: 4 days</title>"));
  CHECK(test::contains(svg, "text-anchor=\"middle\">31</text>"));  // all of January's days
}

TEST_CASE("loading windows are medians of the days it gets done", "[report][unit]") {
  const std::string svg = inlined(report::windows_picture(made(), 0));
  // The made rice may be loaded from 09:00, in July to 12:00 + floor(4 x season) half hours; at the
  // season's height, above 0.75 from late May to mid-August, that is 13:30.
  CHECK(test::contains(svg, "<title>Jul: load from 09:00 to 13:30, done in 1 h 3"));
  const std::string never = inlined(report::windows_picture(made(), 4));
  CHECK(occurrences(never, ": never done</title>") == 12);
}

TEST_CASE("sun hours and beam are those of the file", "[report][unit]") {
  // 30,000 s a day in the open, 20,000 s here: January 258.3 h and 172.2 h.
  const std::string hours = inlined(report::sun_hours_picture(made()));
  CHECK(test::contains(hours, "<title>Jan: 172 h of strong sun at the spot, 86 h lost</title>"));
  const std::string beam = inlined(report::beam_picture(made()));
  double sum = 0.0;
  for (std::size_t day = 0; day < 31; ++day)
    sum += static_cast<double>(made().result.hours[day * 24 + 12].beam_mouth_Wm2) / 31.0;
  CHECK(test::contains(beam, "Jan from 12:00: " + report::fixed(sum, 0) + " W/m2"));
  CHECK_FALSE(test::contains(beam, "03:00"));  // dark hours are left out
}

TEST_CASE("the dome is darker where less is seen", "[report][unit]") {
  const spot::SpotMask half = test::made::mask(0.5);
  const spot::SpotMask open = test::made::mask(1.0);
  const int patches = static_cast<int>(half.sky.size());
  CHECK(occurrences(inlined(report::dome_picture(made(), half)), "class=\"d3\"") == patches);
  CHECK(occurrences(inlined(report::dome_picture(made(), open)), "<polygon") == 0);
  CHECK(report::masks_differ(made().result));
}

TEST_CASE("the empty oven's picture follows the asked unit", "[report][unit]") {
  const std::string us =
      inlined(report::empty_oven_picture(made(), report::TemperatureUnit::kFahrenheit));
  CHECK(test::contains(us, "1 Jan: 260 °F"));  // 400 K = 260.33 degF
  CHECK_FALSE(test::contains(us, "°C"));
}

TEST_CASE("the page's table holds each task's days", "[report][unit]") {
  const std::string page = report::season_page(made());
  for (std::size_t task = 0; task < 5; ++task) {
    const season::TaskCounts counts = season::count_task(made().result, task);
    std::string row = report::escaped(made().result.task_names[task]) + "</th>";
    for (int month = 1; month <= 12; ++month) {
      const int days = counts.outcomes[static_cast<std::size_t>(month - 1)][0];
      const double share = static_cast<double>(days) / base::days_in_month(2001, month);
      row += "<td class=\"s" + std::to_string(report::step_of(share)) + "\">" +
             std::to_string(days) + "</td>";
    }
    row += "<td class=\"year\">" + std::to_string(counts.outcomes[12][0]) + "</td></tr>";
    CHECK(test::contains(page, row));
    CHECK(test::contains(page, "id=\"panel" + std::to_string(task) + "\""));
  }
}
