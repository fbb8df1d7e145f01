// SPDX-License-Identifier: MIT
// The months as a picture, for a file of its own or for a page that already has the title.
#pragma once

#include "facts.h"

namespace ovendays::report {
enum class Title { kShown, kLeftOut };
std::string months_picture(const results::StoredSeason& season, const Facts& facts, Title title);
}  // namespace ovendays::report
