// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "day_summary.h"
#include "html.h"
#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"
#include "text_table.h"

namespace ovendays::report {
namespace {
using season::AimCard;
using season::AimRow;

std::string angle(double radians) { return fixed(radians * base::kDegPerRad, 0) + "°"; }

// A bearing in whole degrees, 0 to 359.
std::string bearing(double radians) {
  const long degrees = std::lround(radians * base::kDegPerRad) % 360;
  return std::to_string(degrees) + "°";
}

const char* wind_name(double radians) {
  static constexpr std::array<const char*, 16> kNames = {"N",
                                                         "NNE",
                                                         "NE",
                                                         "ENE",
                                                         "E",
                                                         "ESE",
                                                         "SE",
                                                         "SSE",
                                                         "S",
                                                         "SSW",
                                                         "SW",
                                                         "WSW",
                                                         "W",
                                                         "WNW",
                                                         "NW",
                                                         "NNW"};
  const long point = std::lround(radians / base::kTwoPi * 16.0) % 16;
  return kNames.at(static_cast<std::size_t>(point));
}

// Where the sun is up all day or across midnight, the day's own ends are printed.
std::string spells_text(const AimCard& card) {
  if (!card.light.up) return "The sun does not rise that day.";
  const double rise_s = std::max(0.0, card.light.sunrise_s);
  const double set_s = std::min(base::kSecondsPerDay, card.light.sunset_s);
  std::string text = "Sun up from " + base::clock_text(rise_s) + " to " + base::clock_text(set_s) +
                     ". On the oven (more than half of its mouth): ";
  if (card.spells.empty()) return text + "never that day.";
  for (std::size_t i = 0; i < card.spells.size(); ++i) {
    text += (i == 0 ? "" : ", ") + base::clock_text(card.spells[i].from_s) + " to " +
            base::clock_text(card.spells[i].to_s);
  }
  return text + ".";
}

std::string compass_text(const AimCard& card) {
  if (!card.declination_rad) {
    return "Bearings are true bearings: 0° is geographic north. A compass differs by the local "
           "magnetic declination; give it with --declination 9E, or as declination in [site].";
  }
  const double declination_rad = *card.declination_rad;
  return "Compass bearings are for a declination of " +
         fixed(std::abs(declination_rad) * base::kDegPerRad, 1) + "° " +
         (declination_rad < 0.0 ? "west." : "east.");
}

// "Not in notches 5 and 6: soup; rice." in front of the rest, where some task has such notches.
std::string shut_text(const AimCard& card) {
  std::string text;
  for (const season::NotchesShut& shut : card.shut) {
    std::string notches;
    for (std::size_t i = 0; i < shut.notches.size(); ++i) {
      if (i > 0) notches += i + 1 == shut.notches.size() ? " and " : ", ";
      notches += std::to_string(shut.notches[i] + 1);
    }
    std::string names;
    for (const std::string& name : shut.task_names) names += (names.empty() ? "" : "; ") + name;
    text += shut.notches.size() == 1 ? "Not in notch " : "Not in notches ";
    text.append(notches).append(": ").append(names).append(". ");
  }
  if (!text.empty()) text += "There the vessel would spill, slide or touch the glass. ";
  return text;
}

std::string how_to(const AimCard& card) {
  return shut_text(card) +
         "Turn the oven so that its front faces the bearing, and set the prop into the notch. To "
         "check, put an upright peg on level ground: its shadow is as many times as long as the "
         "peg "
         "as the card says, and points in the direction given. All times are standard time.";
}

// The columns of the card, after the time.
struct Column {
  const char* head;
  std::size_t width;  // in a terminal
  bool less;          // left out on a telephone
  std::string (*cell)(const AimCard& card, const AimRow& row);
};

// There is a compass column only if the declination is known.
std::vector<Column> card_columns(const AimCard& card) {
  std::vector<Column> columns = {{"face", 11, false, [](const AimCard&, const AimRow& row) {
                                    return bearing(row.aim.azimuth_rad) + " " +
                                           wind_name(row.aim.azimuth_rad);
                                  }}};
  if (card.declination_rad) {
    columns.push_back({"compass", 9, false, [](const AimCard& c, const AimRow& row) {
                         return bearing(
                             season::magnetic_bearing_rad(row.aim.azimuth_rad, *c.declination_rad));
                       }});
  }
  columns.push_back({"tilt", 7, false, [](const AimCard&, const AimRow& row) {
                       return angle(row.aim.box_tilt_rad);
                     }});
  columns.push_back({"notch", 7, false, [](const AimCard&, const AimRow& row) {
                       return std::to_string(row.aim.notch + 1);
                     }});
  columns.push_back({"sun high", 10, true, [](const AimCard&, const AimRow& row) {
                       return row.sun_elevation_rad < 0.0 ? "-" : angle(row.sun_elevation_rad);
                     }});
  columns.push_back({"shadow", 8, false, [](const AimCard&, const AimRow& row) {
                       return row.shadow ? fixed(*row.shadow, 2) : std::string("-");
                     }});
  columns.push_back(
      {"points to", 11, true, [](const AimCard&, const AimRow& row) {
         return row.shadow ? bearing(std::fmod(row.sun_azimuth_rad + base::kPi, base::kTwoPi))
                           : std::string("-");
       }});
  columns.push_back({"in", 8, false, [](const AimCard&, const AimRow& row) {
                       return std::string(row.visible_share > 0.5 ? "sun" : "shade");
                     }});
  return columns;
}

// A telephone has no room for all columns.
std::string cell_tag(const char* tag, const Column& column) {
  return std::string(tag) + (column.less ? " class=\"less\"" : "");
}

std::string place_line(const AimCard& card) {
  return card.site_name + " (" + place_text(card.place) + "), spot: " + card.spot_name +
         ". Oven: " + card.oven_name + "." +
         (card.task_name.empty() ? "" : " For: " + card.task_name + ".");
}

// Draws each aim as a hand on a compass rose; hands of whole hours are numbered.
Drawing rose(const AimCard& card) {
  constexpr double kMiddle = 120, kRim = 92;
  Drawing d(240, "The bearings of the card as hands on a compass rose, north up");
  d.circle(kMiddle, kMiddle, kRim, "axis");
  const auto at = [&](double azimuth_rad, double radius) {
    return std::pair(kMiddle + radius * std::sin(azimuth_rad),
                     kMiddle - radius * std::cos(azimuth_rad));
  };
  constexpr std::array<const char*, 4> kNames = {"N", "E", "S", "W"};
  for (std::size_t i = 0; i < 4; ++i) {
    const auto [x, y] = at(static_cast<double>(i) * 0.5 * base::kPi, kRim + 12);
    d.text({x, y + 4, "middle", "strong"}, kNames[i]);
  }
  for (const AimRow& row : card.rows) {
    const bool whole = std::lround(row.time_s) % 3600 == 0;
    const bool lit = row.visible_share > 0.5;
    const auto [x1, y1] = at(row.aim.azimuth_rad, 22);
    const auto [x2, y2] = at(row.aim.azimuth_rad, whole ? kRim - 22 : kRim - 34);
    d.line(x1, y1, x2, y2, lit ? "path" : "path dot");
    if (!whole) continue;
    const auto [x, y] = at(row.aim.azimuth_rad, kRim - 11);
    d.text({x, y + 4, "middle", "small strong"}, std::to_string(std::lround(row.time_s / 3600.0)));
  }
  d.set_height(2 * kMiddle);
  return d;
}

// One table, or several side by side where one would not fit on the sheet.
void card_tables(Html& page, const AimCard& card) {
  constexpr std::size_t kMostRows = 40;
  const std::size_t rows = card.rows.size();
  const std::size_t tables = (rows + kMostRows - 1) / kMostRows;
  const std::size_t each = (rows + tables - 1) / tables;
  page.raw(tables > 1 ? "<div class=\"cards many\">" : "<div class=\"cards\">");
  for (std::size_t first = 0; first < rows; first += each) {
    page.raw("<table class=\"card\">\n<thead><tr><th>time</th>");
    for (const Column& column : card_columns(card))
      page.element(cell_tag("th", column), column.head);
    page.raw("</tr></thead>\n<tbody>");
    const std::size_t end = std::min(first + each, rows);
    for (std::size_t i = first; i < end; ++i) {
      const AimRow& row = card.rows[i];
      page.raw(row.visible_share > 0.5 ? "<tr>" : "<tr class=\"shade\">");
      page.element("td", base::clock_text(row.time_s));
      for (const Column& column : card_columns(card))
        page.element(cell_tag("td", column), column.cell(card, row));
      page.raw("</tr>");
    }
    page.raw("</tbody>\n</table>");
  }
  page.raw("</div>");
}
}  // namespace

std::string aim_table(const AimCard& card, const ReportOptions& options) {
  const std::size_t width = table_width(options.width);
  std::string out;
  const auto add = [&](const std::string& text) {
    for (const std::string& line : wrap(text, width)) out += line + "\n";
  };
  add("Aiming card for " + long_date(card.date));
  out += "\n";
  add(place_line(card));
  add(spells_text(card));
  if (card.rows.empty()) return out;
  add(compass_text(card));
  out += "\ntime ";
  const std::vector<Column> columns = card_columns(card);
  for (const Column& column : columns) out += pad_left(column.head, column.width);
  out += "\n";
  for (const AimRow& row : card.rows) {
    out += base::clock_text(row.time_s);
    for (const Column& column : columns) out += pad_left(column.cell(card, row), column.width);
    out += "\n";
  }
  out += "\n";
  add(how_to(card));
  return out;
}

std::string aim_page(const AimCard& card, const ReportOptions&) {
  constexpr const char* kStyle =
      ".card td, .card th { text-align: right; padding: .18rem .4rem; white-space: nowrap }\n"
      ".card tr { border-top: 1px solid var(--line) }\n"
      ".card .shade td { color: var(--soft); font-style: italic }\n"
      "@media screen and (max-width: 44rem) { .card .less { display: none }\n"
      "  .card td, .card th { font-size: .78rem; padding: .2rem .12rem } }\n"
      ".cards { display: flex; flex-wrap: wrap; gap: .4rem 1.4rem; align-items: flex-start }\n"
      ".cards table { flex: 1 1 18rem }\n.many .less { display: none }\n"
      ".many td, .many th { font-size: .74rem; padding: .1rem .15rem }\n"
      "@media print { .many { flex-wrap: nowrap; gap: 1.2rem }\n  .many table { flex-basis: 0; "
      "flex-grow: 1 }\n"
      "  .many td, .many th { font-size: 6.6pt } }\n"
      ".rose { max-width: 15rem }\n"
      "@media print { .rose { max-width: 9rem } .card td, .card th { line-height: 1.25 }\n"
      "  h1 { margin: 0 } }\n"
      ".top { display: flex; flex-wrap: wrap; gap: 1rem; align-items: center }\n"
      ".top > div { flex: 1 1 16rem; min-width: 0 }\n";
  Html page;
  page.element("h1", "Aiming card for " + long_date(card.date));
  page.raw("<div class=\"top\"><div>");
  page.element("p", place_line(card));
  page.element("p", spells_text(card));
  page.element("p", compass_text(card));
  page.raw("</div>");
  if (!card.rows.empty()) {
    page.raw("<div class=\"rose\">" + rose(card).inlined() + "</div>\n</div>");
    card_tables(page, card);
    page.element("p class=\"soft\"", how_to(card));
  } else {
    page.raw("</div>");
  }
  page.element(
      "p class=\"soft\"",
      "Never look into the reflectors or at the sun in them; wear sunglasses while aiming.");
  return whole_page({"Aiming card, " + long_date(card.date), page.take(), kStyle});
}
}  // namespace ovendays::report
