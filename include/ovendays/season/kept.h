// SPDX-License-Identifier: MIT
// What seasons can have in common, made once and kept for the next: the sky of a weather year, an
// oven's optics, the days' gains. A season is the same bits with it and without.
#pragma once

#include <memory>

namespace ovendays::season {

class KeptParts;

/// Pass one to all seasons of a study (SeasonOptions::kept; see keep_year there). Recognises a year
/// by its hours, an oven by its surfaces and panes: insulation, leaks and masses may differ. Where
/// spot, routine and the box's outside are the same too, so are the days' gains. Holds the last two
/// skies and years of gains (13 and 23 MB each for four loads) and eight ovens only, so its memory
/// does not grow with the number of seasons. Thread-safe.
class Kept {
 public:
  Kept();
  ~Kept();
  Kept(const Kept&) = delete;
  Kept& operator=(const Kept&) = delete;
  [[nodiscard]] KeptParts& parts() const { return *parts_; }

 private:
  std::unique_ptr<KeptParts> parts_;
};
}  // namespace ovendays::season
