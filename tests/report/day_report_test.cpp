// SPDX-License-Identifier: MIT
// A day and an aiming card made by hand, as table, CSV, picture and page.
#include "ovendays/report/day_report.h"

#include <cmath>
#include <limits>

#include "catch.h"
#include "day_summary.h"
#include "ovendays/base/constants.h"
#include "text_lines.h"
#include "xml_check.h"

using namespace ovendays;
using test::contains;
using test::lines_of;

namespace {
constexpr double kHour_s = 3600.0;

/// Rice from 10:00 to 11:30 on 21 October; the sun up from 6 to 18 h, hidden until 8:00.
season::DayTrace made_trace() {
  season::DayTrace trace;
  trace.date = {2003, 10, 21};
  trace.site_name = "Madeville <&>";
  trace.spot_name = "yard";
  trace.oven_name = "box";
  trace.task_name = "rice";
  trace.vessel_name = "black pot";
  trace.light = {true, 6 * kHour_s, 18 * kHour_s, 12 * kHour_s};
  trace.target_K = 366.15;
  trace.finish_by_s = 18.5 * kHour_s;
  trace.aims.push_back(task::Aim{});
  trace.load_s = 10 * kHour_s;
  trace.end_s = 11.5 * kHour_s;
  trace.target_s = 11.0 * kHour_s;
  trace.as_season = true;
  trace.season.outcome = season::Outcome::kCooked;
  trace.season.load_s = 36000.0F;
  trace.season.finish_s = 41400.0F;
  trace.season.window_count = 3;
  trace.season.window_first_s = 9.0F * 3600;
  trace.season.window_last_s = 12.0F * 3600;
  trace.cook.done = true;
  trace.cook.finish_s = trace.end_s;
  trace.cook.peak_core_K = 368.15;
  for (int m = 0; m <= season::kMinutes; ++m) {
    season::MinuteTrace minute;
    minute.time_s = 60.0 * m;
    const bool up = m > 6 * 60 && m < 18 * 60;
    minute.sun_zenith_rad = up ? 1.0 : 2.0;
    minute.visible_share = up && m < 8 * 60 ? 0.2 : 1.0;
    minute.open_beam_mouth_Wm2 = up ? 900.0 : 0.0;
    minute.beam_mouth_Wm2 = minute.open_beam_mouth_Wm2 * minute.visible_share;
    minute.ambient_K = 293.15;
    minute.empty_air_K = 400.0;
    const bool cooking = minute.time_s >= trace.load_s && minute.time_s <= trace.end_s;
    const double none = std::numeric_limits<double>::quiet_NaN();
    const double rise_K = 70.0 * (minute.time_s - trace.load_s) / kHour_s;
    minute.core_K = cooking ? std::min(368.15, 298.15 + rise_K) : none;
    minute.vessel_K = cooking ? minute.core_K + 10.0 : none;
    minute.air_K = cooking ? 400.0 : none;
    minute.liner_K = cooking ? 410.0 : none;
    trace.minutes.push_back(minute);
  }
  return trace;
}

season::AimCard made_card() {
  season::AimCard card;
  card.date = {2003, 6, 21};
  card.site_name = "Madeville <&>";
  card.light = {true, 5 * kHour_s, 19 * kHour_s, 12 * kHour_s};
  card.spells = {{7 * kHour_s, 16.5 * kHour_s}};
  season::AimRow row;
  row.time_s = 9.5 * kHour_s;
  row.aim.azimuth_rad = 100.0 * base::kRadPerDeg;
  row.aim.box_tilt_rad = 30.0 * base::kRadPerDeg;
  row.aim.notch = 3;
  row.sun_azimuth_rad = 95.0 * base::kRadPerDeg;
  row.sun_elevation_rad = 45.0 * base::kRadPerDeg;
  row.shadow = 1.0;
  row.visible_share = 1.0;
  card.rows.push_back(row);
  return card;
}

}  // namespace

TEST_CASE("a day's table says what happened, in columns that fit", "[report][unit]") {
  for (const int width : {72, 80, 100}) {
    const std::string table = report::day_table(made_trace(), {.width = width});
    for (const std::string& line : lines_of(table)) {
      INFO(width << ": " << line);
      CHECK(report::columns_of(line) <= static_cast<std::size_t>(width));
    }
    CHECK(
        table.starts_with("rice on 21 October: loaded at 10:00, done at 11:30, after 1 h 30 min."));
    for (const char* event : {"06:00  the sun rises",
                              "06:01  more than half of the mouth in shade, until 07:59",
                              "10:00  loaded: rice, in the black pot",
                              "11:00  core at 93 °C",
                              "11:30  done"})
      CHECK(contains(table, event));
  }
}

TEST_CASE("a cook that failed is told by the rule that it did not meet", "[report][unit]") {
  season::DayTrace trace = made_trace();
  trace.cook.done = false;
  trace.hold_s = 1500.0;
  trace.cook.hold_s = 600.0;
  CHECK(contains(report::day_headline(trace, {}),
                 "not done: the core never held 93 °C for 25 min, only for 10 min in all."));
  trace.unbroken = true;
  CHECK(contains(report::day_headline(trace, {}), "never held 93 °C for 25 min in one go."));
  trace.cook.peak_core_K = 350.0;
  CHECK(contains(report::day_headline(trace, {}), "the core reached 77 °C and needs 93 °C."));
  CHECK_FALSE(contains(report::day_headline(trace, {}), "never held"));
}

TEST_CASE("a loaf that was hot enough failed by the rule for the oven's air", "[report][unit]") {
  season::DayTrace trace = made_trace();
  trace.cook.done = false;
  trace.cook.peak_core_K = 379.15;  // 106 degC
  trace.oven_air_K = 394.15;
  trace.oven_air_s = 1800.0;
  trace.cook.air_s = 720.0;
  const std::string table = report::day_table(trace, {.width = 100});
  CHECK(contains(report::day_headline(trace, {}),
                 "the oven's air never held 121 °C for 30 min, only for 12 min in all."));
  CHECK(contains(table, "given up: the oven's air never held 121 °C"));
  CHECK(contains(table, "common practice, without a source"));
  CHECK_FALSE(contains(table, "106 °C"));
  trace.cook.peak_core_K = 350.0;
  CHECK(contains(report::day_headline(trace, {}),
                 "the core reached 77 °C and needs 93 °C; the oven's air never held 121 °C"));
  trace.cook.air_s = 0.0;
  CHECK(contains(report::day_headline(trace, {}), "121 °C for 30 min and never reached it."));
  trace.cook.air_s = 1800.0;
  CHECK_FALSE(contains(report::day_table(trace, {}), "common practice"));
}

TEST_CASE("a day says when food that is left in is overdone", "[report][unit]") {
  season::DayTrace trace = made_trace();  // done at 11:30, wanted at 18:30
  const auto said = [](const season::DayTrace& day) {
    return contains(report::day_table(day, {.width = 100}),
                    "Left in until 18:30, 7 h 00 min after it is done, it would be overdone: take");
  };
  CHECK_FALSE(said(trace));
  trace.overdone_after_s = 2400.0;
  CHECK(said(trace));
  CHECK(contains(report::day_page(trace), "take it out by 12:10."));
  trace.overdone_after_s = 8.0 * kHour_s;
  CHECK_FALSE(said(trace));
  trace.overdone_after_s = 2400.0;
  trace.cook.done = false;
  CHECK_FALSE(said(trace));
}

TEST_CASE("a day says that its target was lowered", "[report][unit]") {
  season::DayTrace trace = made_trace();
  CHECK_FALSE(contains(report::day_table(trace, {}), "lowered"));
  trace.place.elevation_m = 3050.0;
  trace.boiling_K = 363.05;
  trace.asked_target_K = 368.15;
  trace.target_K = 362.05;
  const std::string table = report::day_table(trace, {.width = 100});
  CHECK(contains(table, "At 3,050 m water boils at 90 °C, so the target was lowered from 95 °C"));
  CHECK(contains(table, "to 89 °C."));
}

TEST_CASE("a day's CSV has a row a minute and blanks outside the cook", "[report][unit]") {
  const std::vector<std::string> lines = lines_of(report::day_csv(made_trace()));
  REQUIRE(lines.size() == 1 + 1441);
  CHECK(contains(lines[0], "ambient_degC,empty_oven_air_degC,oven_air_degC"));
  CHECK(lines[1].ends_with(",180.0,0.0,0.00,20.00,126.85,,,,"));  // the default aim: south, level
  // 10:30, half an hour at 70 K an hour: 25 + 35 degC.
  CHECK(lines[1 + 630].starts_with("10:30,"));
  CHECK(lines[1 + 630].ends_with(",20.00,126.85,126.85,136.85,70.00,60.00"));
  CHECK(lines[1441].starts_with("24:00,"));
  const report::ReportOptions us{.unit = report::TemperatureUnit::kFahrenheit};
  CHECK(lines_of(report::day_csv(made_trace(), us))[631].ends_with(",140.00"));  // 60 degC
}

TEST_CASE("a day's picture and page are well formed and self-contained", "[report][unit]") {
  const std::string svg = report::day_svg(made_trace());
  CHECK(test::well_formed(svg));
  CHECK_FALSE(contains(svg, "nan"));
  for (const char* words : {"loaded 10:00", "target 11:00", "done 11:30", "target 93 °C"})
    CHECK(contains(svg, words));
  const std::string page = report::day_page(made_trace());
  CHECK(test::well_formed(test::closed_page(page)));
  CHECK(contains(page, "Madeville &lt;&amp;&gt;"));
  for (const char* outside : {"src=", "href=", "@import", "url(", "<script"})
    CHECK_FALSE(contains(page, outside));
}

TEST_CASE("a day that is not done says how far it got", "[report][unit]") {
  season::DayTrace trace = made_trace();
  trace.cook.done = false;
  trace.target_s.reset();
  trace.cook.peak_core_K = 350.15;
  trace.season = {};
  trace.season.cause = season::Cause::kRain;
  trace.rule = "two-hour";
  trace.rule_limit_s = 7200.0;
  trace.cook.danger_s = 2400.0;
  const std::string table = report::day_table(trace, {.width = 200});
  CHECK(contains(table, "not done: the core reached 77 °C and needs"));
  CHECK(contains(table, "no-go (rain)"));
  CHECK(contains(table, "spent 40 min in the danger zone; the two-hour rule allows 2 h 00 min."));
  CHECK(contains(table, "11:30  given up: the core reached 77 °C"));
}

TEST_CASE("labels along the time axis are round and few", "[report][unit]") {
  CHECK(report::named_minutes({360, 1080}) == std::vector<int>{360, 480, 600, 720, 840, 960, 1080});
  const std::vector<int> quarters = report::named_minutes({675, 765});
  CHECK(quarters == std::vector<int>{675, 690, 705, 720, 735, 750, 765});
  CHECK(report::minute_name(690, quarters) == "11:30");
  CHECK(report::minute_name(360, {360, 480}) == "6");
}

TEST_CASE("the card gives true and compass bearings and the shadow", "[report][unit]") {
  season::AimCard card = made_card();
  const std::string plain = report::aim_table(card);
  CHECK(contains(plain, "Aiming card for 21 June"));
  CHECK(contains(plain, "Sun up from 05:00 to 19:00."));
  CHECK(contains(plain, "--declination 9E"));
  CHECK_FALSE(contains(plain, "compass  "));
  card.declination_rad = 9.0 * base::kRadPerDeg;
  const std::string table = report::aim_table(card);
  bool found = false;
  for (const std::string& line : lines_of(table)) {
    CHECK(report::columns_of(line) <= 80);
    if (!line.starts_with("09:30")) continue;
    found = true;
    // True 100 deg, compass 91; a sun in 95 deg throws the shadow to 275.
    for (const char* cell : {"100° E", "91°", "30°", " 4 ", "45°", "1.00", "275°", "sun"})
      CHECK(contains(line, cell));
  }
  CHECK(found);
  const std::string page = report::aim_page(card);
  CHECK(test::well_formed(test::closed_page(page)));
  CHECK(contains(page, "<td class=\"less\">275°</td>"));
  card.rows.clear();
  card.light.up = false;
  CHECK(contains(report::aim_table(card), "The sun does not rise that day."));
  CHECK(test::well_formed(test::closed_page(report::aim_page(card))));
}
