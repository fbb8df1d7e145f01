// SPDX-License-Identifier: MIT
// Texts that the table and the picture of a map share.
#pragma once

#include <string>

#include "ovendays/report/question_report.h"
#include "words.h"

namespace ovendays::report {
/// Least distance between listed places [m]: one metre or two grid steps, whichever is larger.
double apart_m(const study::MapGrid& grid);
/// One place: "x 2.50 m, y -1.00 m: 312 days, facing 158°".
std::string place_words(const study::SpotMap& map, std::size_t place);
/// ", facing 158°" if the oven does not turn, otherwise empty.
std::string facing_words(const study::SpotMap& map, const study::MapPlace& place);
/// The result in one sentence, without a full stop.
std::string map_title(const NamedMap& story);
}  // namespace ovendays::report
