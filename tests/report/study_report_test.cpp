// SPDX-License-Identifier: MIT
// The reports of a study made by hand agree with its content.
#include "ovendays/report/study_report.h"

#include <algorithm>

#include "catch.h"
#include "made_study.h"
#include "words.h"

using namespace ovendays;
using test::contains;

namespace {
// A cooks on the first n days of the year, both tasks alike.
test::Cooks first_days(int count) {
  return [count](std::size_t, int d) { return d < count; };
}

results::StoredStudy sites_and_changes() {
  results::StoredStudy study = test::made_study();
  study.axes[results::kSite] = {"home", "coast"};
  study.changes = {{"pane", 20.0, {}}, {"foil", 2.0, {}}};
  test::add_alternative(study, "home", {}, first_days(100));
  test::add_alternative(study, "coast", {}, first_days(120));
  test::add_alternative(study, "pane", {0}, first_days(140));
  test::add_alternative(study, "foil", {1}, first_days(106));
  test::add_alternative(study, "pane + foil", {0, 1}, first_days(141));
  study.alternatives[1].at[results::kSite] = 1;
  return study;
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}
}  // namespace

TEST_CASE("the answer names the best alternative, the first one and the change to make first",
          "[report][unit]") {
  // By hand: 2 x 120 against 2 x 100; foil gains 12 for 2 EUR, pane 80 for 20 EUR.
  CHECK(report::study_answer(sites_and_changes()) ==
        "Best of 2: coast, with 240 task-days a year (home: 200). Change first: foil, which gains "
        "12 more.");
}

TEST_CASE("the table lists days, differences by month, prices and the order", "[report][unit]") {
  const std::string table = report::study_table(sites_and_changes(), 100);
  INFO(table);
  // 2 x 20 days more on the coast, days 100 to 119: 11 to 30 April. Foil: 11 to 16 April.
  CHECK(contains(table, "1. coast  120  120  240     +40     -"));
  CHECK(contains(table, "2. home   100  100  200       -     -"));
  CHECK(contains(table, "foil      2     +12     -  +12          6.0"));
  CHECK(contains(table, "pane  +40  +40"));
  CHECK(contains(table, "1. foil      2      2    +12        212"));
  CHECK(contains(table, "2. pane     20     22    +70        282"));
  CHECK(contains(table, "paired by date only"));
  for (const char* part :
       {"A kWh in the kitchen costs 0.360 EUR", "no interest", "Sources: made."}) {
    CHECK(contains(table, part));
  }
}

TEST_CASE("no line of the table is wider than the terminal", "[report][unit]") {
  results::StoredStudy study = sites_and_changes();
  for (results::StudyAlternative& each : study.alternatives) {
    each.name += ", with a very long name that tells all about where it stands and what it is";
  }
  for (const int width : {72, 80, 100}) {
    const std::string table = report::study_table(study, width);
    for (std::size_t at = 0; at < table.size();) {
      const std::size_t end = std::min(table.find('\n', at), table.size());
      const std::string line = table.substr(at, end - at);
      INFO(line);
      CHECK(report::columns_of(line) <= static_cast<std::size_t>(width));
      at = end + 1;
    }
  }
}

TEST_CASE("alternatives that have not been run are left out and counted", "[report][unit]") {
  results::StoredStudy study = sites_and_changes();
  study.alternatives[2].days.clear();
  study.alternatives[4].days.clear();
  const std::string table = report::study_table(study, 80);
  CHECK(contains(table, "2 of 5 alternatives have not been run and are left out."));
  CHECK(contains(table, "Some combinations that the order depends on have not been run."));
  study.alternatives[0].days.clear();
  CHECK_FALSE(contains(report::study_table(study, 80), "What to change"));
  CHECK(contains(report::study_page(study), "has not been run"));
  for (results::StudyAlternative& each : study.alternatives) each.days.clear();
  CHECK(contains(report::study_table(study, 80), "Nothing has been run yet."));
}

TEST_CASE("alternatives that failed are named with the reason", "[report][unit]") {
  results::StoredStudy study = sites_and_changes();
  const auto fail = [&study](std::size_t place, const std::string& why) {
    study.alternatives[place].days.clear();
    study.alternatives[place].failure = why;
  };
  fail(1, "the integration failed at 12:00");
  fail(4, "yard.toml:3: oven.pane: 4 panes, allowed 1 to 3");
  const std::string table = report::study_table(study, 100);
  INFO(table);
  CHECK(contains(table, "2 of 5 alternatives could not be run and are left out:\n"));
  CHECK(contains(table, "- 'coast': the integration failed at 12:00\n"));
  CHECK(contains(table, "- 'pane + foil': yard.toml:3: oven.pane: 4 panes, allowed 1 to 3\n"));
  CHECK_FALSE(contains(table, "have not been run"));
  CHECK(contains(table, "'pane' could not be run with the changes chosen before it."));
  CHECK(contains(table, "1. foil"));
  const std::string page = report::study_page(study);
  CHECK(contains(page, "2 of 5 alternatives could not be run and are left out:"));
  CHECK(contains(page, "the integration failed at 12:00"));
  CHECK(contains(report::study_picture(study, "climates", 0), "coast: could not be run"));
  CHECK(count_of(report::study_csv(study), "\n") == 1 + 3 * 2);
  fail(2, "it failed alone");
  CHECK(contains(report::study_table(study, 100), "'pane' could not be run."));
  for (std::size_t i = 0; i < study.alternatives.size(); ++i) fail(i, "all failed");
  CHECK(contains(report::study_table(study, 100), "No alternative to compare has been run."));
}

TEST_CASE("the list of failed alternatives is cut, and the rest counted", "[report][unit]") {
  results::StoredStudy study = sites_and_changes();
  for (int i = 0; i < 30; ++i) {
    study.changes.push_back({"c" + std::to_string(i), 1.0, {}});
    test::add_alternative(study, "c" + std::to_string(i), {i + 2}, nullptr);
    study.alternatives.back().failure = "why " + std::to_string(i);
  }
  const std::string table = report::study_table(study, 100);
  CHECK(contains(table, "- 'c9': why 9\n- and 20 more\n"));
  CHECK_FALSE(contains(table, "why 10"));
  CHECK(contains(report::study_page(study), "why 29"));
}

TEST_CASE("the CSV has a row for each alternative that was run and each task", "[report][unit]") {
  const std::string csv = report::study_csv(sites_and_changes());
  CHECK(count_of(csv, "\n") == 1 + 5 * 2);
  CHECK(contains(csv, "coast,coast,garden,box,all day,,0.00,rice,yes,120,20,0,,,31,28,31,30,0,"));
  CHECK(contains(csv, "pane + foil,home,garden,box,all day,pane + foil,22.00,bread,yes,141,41,0,"));
  const std::string head = csv.substr(0, csv.find('\n'));
  const std::string row = csv.substr(head.size() + 1, csv.find('\n', head.size() + 1));
  CHECK(count_of(head, ",") == 13 + 24);
  CHECK(count_of(row.substr(0, row.find('\n')), ",") == 13 + 24);
}

TEST_CASE("pictures show the numbers of the study", "[report][unit]") {
  const results::StoredStudy study = sites_and_changes();
  CHECK(report::study_picture_names(study).size() == 4);
  const std::string tasks = report::study_picture(study, "tasks", 0);
  for (const char* part : {">240<", ">200<", ">140<", "with: pane", "coast, rice: 120 days"}) {
    CHECK(contains(tasks, part));
  }
  const std::string climates = report::study_picture(study, "climates", 0);
  CHECK(contains(climates, "coast: 240 task-days, 33 % of all"));
  const std::string months = report::study_picture(study, "months", 1);
  CHECK(contains(months, "coast, Apr: 30 of 30 days"));
  CHECK(contains(months, "home, Apr: 10 of 30 days"));
  const std::string changes = report::study_picture(study, "changes", 0);
  CHECK(contains(changes, "foil: 12 gained, 0 lost"));
  CHECK(contains(changes, "from 200 to 282 task-days"));
}

TEST_CASE("a study of one site without changes has no picture of either", "[report][unit]") {
  results::StoredStudy study = test::made_study();
  test::add_alternative(study, "as it is", {}, first_days(10));
  CHECK(report::study_picture_names(study).size() == 2);
  const std::string page = report::study_page(study);
  CHECK(contains(page, "As it is: 20 task-days a year."));
  CHECK(count_of(page, "<svg") == 3);  // tasks, and months of two tasks
}

TEST_CASE(
    "a difference that may be none is marked in the answer, the tables, the picture and the CSV",
    "[report][unit]") {
  results::StoredStudy study = sites_and_changes();
  for (const std::string& text : {report::study_table(study, 100), report::study_csv(study)}) {
    CHECK_FALSE(contains(text, "likely"));
    CHECK_FALSE(contains(text, " ?"));
  }
  CHECK(contains(report::study_table(study, 100), "--spread 0"));
  study.draws = 5;
  for (results::StudyAlternative& each : study.alternatives) each.draw_gains.assign(10, 0);
  // Foil gains 12 days as given, which one draw in two takes back more than once.
  study.alternatives[3].draw_gains = {-10, 0, -10, 0, -10, -10, 0, -10, 0, -10};
  const std::string table = report::study_table(study, 100);
  INFO(table);
  CHECK(contains(table, "so it may make no difference."));
  const std::size_t foil = table.find("foil ", table.find("each change alone"));
  const std::string row = table.substr(foil, table.find('\n', foil) - foil);
  INFO(row);
  CHECK(contains(row, " to +"));
  CHECK(contains(row, " ? "));
  const std::size_t pane = table.find("pane ", table.find("each change alone"));
  CHECK_FALSE(contains(table.substr(pane, table.find('\n', pane) - pane), "?"));
  CHECK(contains(table, "?: it may"));
  CHECK(contains(table, "5 draws of what is not known"));
  CHECK(contains(report::study_page(study), "net likely"));
  const std::string csv = report::study_csv(study);
  CHECK(contains(csv, ",lost,net_low,net_high,"));
  CHECK(contains(csv, "rice,yes,106,6,0,-"));
}
