// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "map_words.h"
#include "ovendays/base/constants.h"
#include "text_table.h"

namespace ovendays::report {
namespace {
using study::MapPlace;
using study::Period;
using study::SpotMap;

std::string metres(double value_m) { return fixed(value_m, 2) + " m"; }

std::string degrees_of(double azimuth_rad) {
  return std::to_string(std::lround(azimuth_rad * base::kDegPerRad) % 360) + "°";
}

TextRow row_of(
    const SpotMap& map, const std::string& name, double x_m, double y_m, const MapPlace& place) {
  TextRow row{name, {metres(x_m), metres(y_m)}};
  for (const Period& period : study::periods()) {
    row.cells.push_back(std::to_string(study::days_in(place, period)));
  }
  row.cells.push_back(place.roofed ? "yes" : "-");
  if (!map.turns) row.cells.push_back(degrees_of(place.facing_rad));
  return row;
}

/// Column heads of the periods, in the order of study::periods().
constexpr std::array<const char*, 5> kHeads = {"year", "DJF", "MAM", "JJA", "SON"};

// Adds the best places of one period; with several, they are numbered.
void add_best(const SpotMap& map, std::size_t which, std::size_t most, std::vector<TextRow>& rows) {
  const Period& period = study::periods()[which];
  const char* head = kHeads[which];
  const std::size_t columns = map.grid.x_m.size();
  const std::vector<std::size_t> best = study::best_places(map, period, most, apart_m(map.grid));
  for (std::size_t i = 0; i < best.size(); ++i) {
    std::string name = std::string("best in ") + head;
    if (most > 1) name += ", " + std::to_string(i + 1);
    rows.push_back(row_of(map,
                          name,
                          map.grid.x_m[best[i] % columns],
                          map.grid.y_m[best[i] / columns],
                          map.places[best[i]]));
  }
}

std::size_t free_places(const SpotMap& map) {
  return static_cast<std::size_t>(std::count_if(
      map.places.begin(), map.places.end(), [](const MapPlace& place) { return place.free; }));
}
}  // namespace

double apart_m(const study::MapGrid& grid) { return std::max(1.0, 2.0 * grid.step_m); }

std::string facing_words(const SpotMap& map, const MapPlace& place) {
  return map.turns ? "" : ", facing " + degrees_of(place.facing_rad);
}

std::string place_words(const SpotMap& map, std::size_t place) {
  const std::size_t columns = map.grid.x_m.size();
  return "x " + metres(map.grid.x_m[place % columns]) + ", y " +
         metres(map.grid.y_m[place / columns]) + ": " + days_text(map.places[place].days[12]) +
         facing_words(map, map.places[place]);
}

std::string map_title(const NamedMap& story) {
  const std::vector<std::size_t> best =
      study::best_places(story.map, study::periods()[0], 1, apart_m(story.map.grid));
  if (best.empty()) return story.task + ": no place on the plot works on any day";
  const int now = story.map.here.days[12];
  const int there = story.map.places[best[0]].days[12];
  if (there <= now) {
    return story.task + ": " + days_text(now) + " of the year where it stands, and nowhere better";
  }
  return story.task + ": " + days_text(now) + " of the year where it stands, " +
         std::to_string(there) + " at the best place of the plot";
}

std::string map_table(const NamedMap& story, int width) {
  const std::size_t columns = table_width(width);
  const SpotMap& map = story.map;
  std::vector<TextRow> rows = {row_of(map, "now", map.mouth.x, map.mouth.y, map.here)};
  add_best(map, 0, 3, rows);
  for (std::size_t p = 1; p < kHeads.size(); ++p) add_best(map, p, 1, rows);
  std::vector<std::string> heads = {"x", "y"};
  heads.insert(heads.end(), kHeads.begin(), kHeads.end());
  heads.emplace_back("roof");
  if (!map.turns) heads.emplace_back("face");
  return paragraph(map_title(story) + ".", columns) +
         paragraph(story.place + "; " + std::to_string(free_places(map)) + " places " +
                       metres(map.grid.step_m) + " apart.",
                   columns) +
         "\nDays, of the year and by season\n" + text_table(heads, rows, columns) +
         paragraph(
             "x is east and y is north, as in the case file. DJF: December, January, February, "
             "and so on. Among places with equal days the one nearest to the present place is "
             "listed. roof: rain does not reach this place.",
             columns);
}
}  // namespace ovendays::report
