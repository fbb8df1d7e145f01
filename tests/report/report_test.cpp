// SPDX-License-Identifier: MIT
// The reports of a season made by hand: what they count is counted here anew from the days.
#include "ovendays/report/report.h"

#include <cstdlib>
#include <fstream>

#include "catch.h"
#include "made_season.h"
#include "text_lines.h"
#include "words.h"
#include "xml_check.h"

using namespace ovendays;
using test::lines_of;
using test::well_formed;

namespace {
results::StoredSeason made_stored() {
  const test::MadeSeason made = test::made_season();
  return results::stored_season(made.c, made.year, made.result);
}

int cooked(const results::StoredSeason& season, std::size_t task) {
  int days = 0;
  for (int d = 0; d < season::kDays; ++d) {
    days += season.result.at(task, d).outcome == season::Outcome::kCooked ? 1 : 0;
  }
  return days;
}
}  // namespace

TEST_CASE("no line of the table is wider than the given width", "[report][unit]") {
  results::StoredSeason season = made_stored();
  season.result.task_names[1] = "Beans, soaked over night and brought to the boil before";
  for (const int width : {72, 80, 100}) {
    const std::string table = report::season_table(season, {.width = width});
    for (const std::string& line : lines_of(table)) {
      INFO(width << ": " << line);
      CHECK(report::columns_of(line) <= static_cast<std::size_t>(width));
    }
  }
}

TEST_CASE("the table states each task's days, causes, cautions and rule", "[report][unit]") {
  const results::StoredSeason season = made_stored();
  const std::string table = report::season_table(season);
  INFO(table);
  for (std::size_t task = 0; task < 5; ++task) {
    bool found = false;
    for (const std::string& line : lines_of(table)) {
      const int count = cooked(season, task);
      const std::string days = report::pad_left(count == 0 ? "-" : std::to_string(count), 6);
      found = found || (line.rfind(season.result.task_names[task], 0) == 0 &&
                        line.size() >= days.size() && line.ends_with(days));
    }
    CHECK(found);
  }
  CHECK(table.starts_with("At this spot Rice is a good bet "));
  CHECK(test::contains(table, "Canned sun <&> is out of"));
  CHECK(test::contains(table, "not a promise that any food is safe"));
  CHECK(test::contains(table, "39.25 N, 104.75 W, 1602 m, UTC-7"));
  CHECK(test::contains(table, "127 °C in the air of the empty oven"));  // 400 K
  CHECK(test::contains(table, "(67 %)"));                               // 20000 s of 30000 s a day
  CHECK(test::contains(table, "no day is lost to it"));
  // Food is called safe nowhere: the one sentence that has the word denies it.
  std::string rest = report::season_table(season, {.width = 4000});
  // Made: 1.5e5 J of 5.5e9 J in all, 3e-4 in the worst run.
  CHECK(test::contains(rest, "unaccounted for: 0.003 %"));
  CHECK(test::contains(rest, "0.030 % in the worst run"));
  CHECK(test::contains(rest, "by the four-hour rule"));
  CHECK(test::contains(rest, "for: Chicken pieces."));
  const std::string denial = "not a promise that any food is safe";
  rest.erase(rest.find(denial), denial.size());
  CHECK_FALSE(test::contains(rest, "is safe"));
  CHECK_FALSE(test::contains(rest, "safe to"));
}

TEST_CASE("targets that the height of the site lowered are noted", "[report][unit]") {
  results::StoredSeason season = made_stored();
  CHECK_FALSE(test::contains(report::season_table(season), "lowered"));
  season.result.place.elevation_m = 3050.0;
  season.result.boiling_K = 363.05;
  season.tasks[3].target_K = 368.15;
  season.tasks[3].used_target_K = 362.05;
  const std::string table = report::season_table(season, {.width = 200});
  CHECK(test::contains(table,
                       "- Bread: At 3,050 m water boils at 90 °C, so the target was lowered from "
                       "95 °C"));
  CHECK(test::contains(report::season_page(season), "so the target was lowered"));
}

TEST_CASE("the option for Fahrenheit leaves nothing in Celsius", "[report][unit]") {
  const results::StoredSeason season = made_stored();
  const report::ReportOptions us{.unit = report::TemperatureUnit::kFahrenheit};
  const std::string table = report::season_table(season, us);
  CHECK(test::contains(table, "260 °F in the air"));  // 400 K = 126.85 degC = 260.33 degF
  CHECK_FALSE(test::contains(table, "°C"));
  CHECK(test::contains(report::season_csv(season, us), "peak_core_degF,short_by_degF"));
}

TEST_CASE("the CSV has one row a task and day and as many cells as headings", "[report][unit]") {
  const results::StoredSeason season = made_stored();
  const std::vector<std::string> lines = lines_of(report::season_csv(season));
  REQUIRE(lines.size() == 1 + 5 * 365);
  const auto cells = [](const std::string& line) {
    int count = 1;
    bool quoted = false;
    for (const char c : line) {
      if (c == '"') quoted = !quoted;
      if (c == ',' && !quoted) ++count;
    }
    return count;
  };
  for (const std::string& line : lines) {
    if (cells(line) != cells(lines[0])) FAIL(line);
  }
  CHECK(lines[1 + 365].rfind("\"Beans, soaked\",1,1,1,", 0) == 0);
  // 2 July, by hand: day 183 of the year; the made rice is loaded at 09:30.
  CHECK(lines[183].rfind("Rice,183,7,2,cooked,none,09:30,", 0) == 0);
  // A day never loaded has no times and no temperatures.
  CHECK(lines[1 + 4 * 365] == "Canned sun <&>,1,1,1,no-go,obstruction,,,,,0,,,,,,,");
}

TEST_CASE("picture and page are well formed and need nothing else", "[report][unit]") {
  const results::StoredSeason season = made_stored();
  const std::string svg = report::season_svg(season);
  CHECK(well_formed(svg));
  CHECK(test::contains(svg, "Canned sun &lt;&amp;&gt;, Mar: 0 of 31 days"));
  const std::string page = report::season_page(season);
  CHECK(test::contains(page, "prefers-color-scheme:dark"));
  CHECK(test::contains(page, "Unsafe days are counted by the four-hour rule"));
  for (const char* outside : {"src=", "href=", "@import", "url(", "<script"}) {
    CHECK_FALSE(test::contains(page, outside));
    CHECK_FALSE(test::contains(svg, outside));
  }
  CHECK(well_formed(test::closed_page(page)));
}

TEST_CASE("a report from the file equals that from the run", "[report][identity]") {
  const test::MadeSeason made = test::made_season();
  const results::StoredSeason run = results::stored_season(made.c, made.year, made.result);
  const char* folder = std::getenv("TMPDIR");
  const std::string file = std::string(folder == nullptr ? "/tmp" : folder) + "/ovendays_report_" +
                           std::to_string(std::rand()) + ".h5";
  results::write_results(file, run);
  const results::StoredSeason stored = results::read_results(file);
  std::remove(file.c_str());
  CHECK(report::season_table(run) == report::season_table(stored));
  CHECK(report::season_csv(run) == report::season_csv(stored));
  CHECK(report::season_svg(run) == report::season_svg(stored));
  CHECK(report::season_page(run) == report::season_page(stored));
}

TEST_CASE("causes that were not looked for are not shown as none", "[report][unit]") {
  test::MadeSeason made = test::made_season();
  for (season::DayTask& day : made.result.days) day.cause = season::Cause::kNone;
  const results::StoredSeason season = results::stored_season(made.c, made.year, made.result);
  CHECK(test::contains(report::season_table(season), "did not look for causes"));
  CHECK(test::contains(report::season_page(season), "did not look for causes"));
}

TEST_CASE("a season in which nothing is cooked is reported as such", "[report][unit]") {
  test::MadeSeason made = test::made_season();
  for (season::DayTask& day : made.result.days) {
    day = season::DayTask{};
    day.cause = season::Cause::kSeason;
  }
  const results::StoredSeason season = results::stored_season(made.c, made.year, made.result);
  const std::string table = report::season_table(season);
  CHECK(test::contains(table, "are out of reach on every day."));
  CHECK(well_formed(report::season_svg(season)));
}
