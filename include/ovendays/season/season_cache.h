// SPDX-License-Identifier: MIT
// Results that several seasons can share: the sky of a weather year, an oven's optics, and the
// forcing of the days. A season gives the same bits with the cache and without it.
#pragma once

#include <memory>

namespace ovendays::season {

class CacheParts;

/// Pass one cache to all seasons of a study (SeasonOptions::cache; see cache_year there).
///
/// A weather year is recognised by its hours and an oven by its surfaces and panes, so insulation,
/// leaks and masses may differ. Where the spot, the routine and the outside of the box are equal
/// too, the forcing of the days is shared as well. The cache holds the last two skies and the last
/// two years of forcing (13 and 23 MB each for four loads) and the last eight ovens, so its memory
/// does not grow with the number of seasons. Thread-safe.
class SeasonCache {
 public:
  SeasonCache();
  ~SeasonCache();
  SeasonCache(const SeasonCache&) = delete;
  SeasonCache& operator=(const SeasonCache&) = delete;
  [[nodiscard]] CacheParts& parts() const { return *parts_; }

 private:
  std::unique_ptr<CacheParts> parts_;
};
}  // namespace ovendays::season
