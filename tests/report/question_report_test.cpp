// SPDX-License-Identifier: MIT
// Lines of equal value against plane geometry; tables and pictures of single questions from made
// numbers.
#include <cmath>
#include <limits>
#include <numbers>

#include "catch.h"
#include "contours.h"
#include "ovendays/report/question_report.h"
#include "words.h"
#include "xml_check.h"

using namespace ovendays;
using namespace ovendays::report;
using test::contains;
using test::within_abs;
using test::within_rel;

namespace {
Field field(std::size_t side, double (*value)(double x, double y)) {
  Field made{side, side, {}};
  for (std::size_t row = 0; row < side; ++row) {
    for (std::size_t column = 0; column < side; ++column) {
      made.values.push_back(value(static_cast<double>(column), static_cast<double>(row)));
    }
  }
  return made;
}

double length_of(const Polyline& line) {
  double length = 0.0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    length += std::hypot(line[i].first - line[i - 1].first, line[i].second - line[i - 1].second);
  }
  return length;
}

study::SpotMap made_map(bool turns) {
  study::SpotMap map;
  map.grid = {.step_m = 1.0, .x_m = {-2, -1, 0, 1, 2}, .y_m = {0, 1, 2, 3}};
  map.turns = turns;
  map.mouth = {0.0, 1.0, 0.9};
  for (int i = 0; i < 20; ++i) {
    study::MapPlace place;
    place.free = i != 7;
    place.facing_rad = turns ? -1.0 : 0.875 * std::numbers::pi;
    place.roofed = i == 3;
    place.days.fill(10 + i / 2);
    place.days[12] = 200 + 5 * i;
    map.places.push_back(place);
  }
  map.here = map.places[7];
  map.here.days[12] = 235;
  return map;
}

spot::Spot made_spot() {
  spot::Spot spot;
  spot.obstructions = {spot::Wall{.name = "wall <&>", .x1_m = -9, .y1_m = 1, .x2_m = 0, .y2_m = 1},
                       spot::Tree{.name = "tree", .x_m = 1, .y_m = 2},
                       spot::Bay{.name = "bay", .x_m = 0, .y_m = 1},
                       spot::Overhang{.name = "eaves"},
                       spot::Block{.name = "shed", .x_m = 2, .y_m = 3}};
  return spot;
}

std::vector<study::TurningDays> made_turnings() {
  using study::Turning;
  const auto row = [](Turning turning, int rice, int bread) {
    study::TurningDays days{turning, {{}, {}}};
    days.tasks[0].days[12] = rice;
    days.tasks[1].days[12] = bread;
    days.tasks[0].turns_a_cook = 2.5;
    return days;
  };
  return {row({Turning::Kind::kEvery, 900.0}, 300, 0),
          row({Turning::Kind::kEvery, 3600.0}, 295, 0),
          row({Turning::Kind::kEvery, 7200.0}, 290, 0),
          row({Turning::Kind::kOnce, 0.0}, 250, 0)};
}
}  // namespace

TEST_CASE("the contour lines of a plane are straight and in the right place", "[report][unit]") {
  const Field plane = field(6, [](double x, double) { return 10.0 * x; });
  const std::vector<Polyline> lines = contour_lines(plane, 25.0);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].size() == 6);
  for (const auto& [x, y] : lines[0]) CHECK_THAT(x, within_abs(2.5, 1e-12));  // rounding
  CHECK_THAT(length_of(lines[0]), within_abs(5.0, 1e-12));
  CHECK(contour_lines(plane, 70.0).empty());
}

TEST_CASE("the lines of a cone are closed rings of the right length", "[report][identity]") {
  const Field cone = field(41, [](double x, double y) { return std::hypot(x - 20.0, y - 20.0); });
  const std::vector<Polyline> lines = contour_lines(cone, 12.3);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].front() == lines[0].back());
  // Chords of a circle of 12 steps, and values bent between nodes: half a per cent.
  CHECK_THAT(length_of(lines[0]), within_rel(2.0 * std::numbers::pi * 12.3, 0.005));
}

TEST_CASE("no contour line crosses cells with a missing value", "[report][unit]") {
  Field plane = field(6, [](double x, double) { return 10.0 * x; });
  plane.values[2 * 6 + 3] = std::numeric_limits<double>::quiet_NaN();  // column 3, row 2
  const std::vector<Polyline> lines = contour_lines(plane, 25.0);
  REQUIRE(lines.size() == 2);  // the cells of rows 1-2 and 2-3 are left out
  CHECK_THAT(length_of(lines[0]) + length_of(lines[1]), within_abs(3.0, 1e-12));
}

TEST_CASE("a saddle has two contour lines that do not cross", "[report][unit]") {
  // Corners 1, 0, 1, 0 around a mean of 0.5: at 0.4 the mean is above, so the low corners are cut
  // off; at 0.6 the high ones are.
  Field saddle{2, 2, {1.0, 0.0, 0.0, 1.0}};
  const std::vector<Polyline> low = contour_lines(saddle, 0.4);
  REQUIRE(low.size() == 2);
  for (const Polyline& line : low) {
    // Ends at 0.6 and 0.4 along the sides that meet in a low corner: (1, 0) or (0, 1).
    const bool right = line[0].first + line[1].first > 1.0;
    const double corner_x = right ? 1.0 : 0.0;
    for (const auto& [x, y] : line) {
      CHECK(std::abs(x - corner_x) + std::abs(y - (1.0 - corner_x)) < 0.41);
    }
  }
  for (const Polyline& line : contour_lines(saddle, 0.6)) {
    const bool right = line[0].first + line[1].first > 1.0;
    const double corner = right ? 1.0 : 0.0;
    for (const auto& [x, y] : line) CHECK(std::abs(x - corner) + std::abs(y - corner) < 0.41);
  }
}

TEST_CASE("the map's table lists the present place, the best ones and the facing",
          "[report][unit]") {
  const study::SpotMap map = made_map(false);
  const spot::Spot spot = made_spot();
  const std::string table = map_table({map, spot, "rice", "Madeville"}, 80);
  INFO(table);
  CHECK(contains(table, "rice: 235 days of the year where it stands, 295 at the best place"));
  CHECK(contains(table, "19 places 1.00 m apart"));
  CHECK(contains(table, "best in year, 1"));
  CHECK(contains(table, "158°"));  // 0.875 of half a turn is 157.5
  const study::SpotMap turning = made_map(true);
  CHECK_FALSE(contains(map_table({turning, spot, "rice", "Madeville"}, 80), "158°"));
}

TEST_CASE("the map's picture is well-formed XML with its marks and names", "[report][unit]") {
  for (const bool turns : {true, false}) {
    const study::SpotMap map = made_map(turns);
    const spot::Spot spot = made_spot();
    const std::string svg = map_svg({map, spot, "rice", "Madeville"});
    CHECK(test::well_formed(svg));
    CHECK(contains(svg, "x 2.00 m, y 3.00 m: 295 days"));
    CHECK(contains(svg, "wall &lt;&amp;&gt;"));
    CHECK(contains(svg, "December to February"));
    CHECK_FALSE(contains(svg, "nan"));
  }
}

TEST_CASE("often enough is the longest that costs one day in fifty at most", "[report][unit]") {
  const std::vector<study::TurningDays> rows = made_turnings();
  // By hand: 2 % of 300 are 6 days: 295 will do, 290 will not.
  REQUIRE(often_enough(rows, 0) != nullptr);
  CHECK(often_enough(rows, 0)->every_s == 3600.0);
  CHECK(often_enough(rows, 1) == nullptr);  // no day with any
  const std::string table = turning_table(rows, {"rice", "bread"}, 80);
  INFO(table);
  CHECK(contains(table, "every 60 min"));
  CHECK(contains(table, "no turning helps"));
  CHECK(contains(table, "2.5"));
  CHECK(test::well_formed(turning_svg(rows, {"rice", "bread"})));
}

TEST_CASE("chances are printed in percent and never rounded to none or all", "[report][unit]") {
  CHECK(chance_text(0.0) == "0");
  CHECK(chance_text(0.003) == "<1");
  CHECK(chance_text(0.426) == "43");
  CHECK(chance_text(364.0 / 365.0) == ">99");
  CHECK(chance_text(1.0) == "100");
  std::vector<bool> works(season::kDays, true);
  for (std::size_t day = 40; day < 52; ++day) works[day] = false;
  const study::WaitingTimes waits = study::waiting_times(works);
  const std::string table = waiting_table({waits}, {"rice"}, 80);
  INFO(table);
  CHECK(contains(table, "Longest wait: 12 days, from 10 Feb to 21 Feb."));  // days 40 to 51
  CHECK(contains(table, "one of 7 days"));
  CHECK(test::well_formed(waiting_svg(waits, "rice <&>")));
}

TEST_CASE("the spread's table lists ranges, chances and inputs", "[report][unit]") {
  study::Spread spread;
  spread.task_names = {"rice"};
  spread.year_files = {"a.epw"};
  spread.by_year = {{study::MonthDays{}}};
  spread.by_year[0][0][12] = 210;
  spread.days.resize(1);
  for (int i = 0; i <= 10; ++i) {  // 200, 210, .. 300: P10 210, P50 250, P90 290 by hand
    study::MonthDays days{};
    days[12] = 200 + 10 * i;
    spread.days[0].push_back(days);
  }
  spread.draws = study::make_draws(11, 1, 1);
  const std::string table = spread_table(spread, 80);
  INFO(table);
  CHECK(contains(table, "210  210  250  290"));
  CHECK(contains(table, "common practice, no source"));
  CHECK(contains(table, "gaps of lid and door"));
  CHECK(contains(table, "1 to 15 min, half-normal"));
  CHECK(contains(table, "by -4 to +4 °C (7 °F), normal"));
  CHECK(contains(table, "by -0.04 to +0.04, normal"));
  CHECK(contains(table, "spells of 5 days"));
  spread.year_files.emplace_back("b.epw");
  spread.by_year[0].push_back(spread.by_year[0][0]);
  CHECK(contains(spread_table(spread, 80), "The case as given, year by year"));
  CHECK(test::well_formed(spread_svg(spread)));
}
