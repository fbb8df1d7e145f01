// SPDX-License-Identifier: MIT
// What the map's table and picture say alike.
#pragma once

#include <string>

#include "ovendays/report/question_report.h"
#include "words.h"

namespace ovendays::report {
/// How far apart the best places are [m]: a metre, or two steps of the grid.
double apart_m(const study::MapGrid& grid);
/// "x 2.5 m, y -1.0 m: 312 days, facing 158 deg".
std::string place_words(const study::SpotMap& map, std::size_t place);
/// ", facing 158 deg" where the oven does not turn; else nothing.
std::string facing_words(const study::SpotMap& map, const study::MapPlace& place);
/// The finding in one sentence.
std::string map_title(const MapStory& story);
}  // namespace ovendays::report
