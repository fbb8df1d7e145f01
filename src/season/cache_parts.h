// SPDX-License-Identifier: MIT
// What a SeasonCache holds, and the bounded cache that holds it. Private to season.
#pragma once

#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include "day_forcing.h"
#include "ovendays/optics/exchange.h"
#include "ovendays/season/season.h"
#include "ovendays/season/season_cache.h"

namespace ovendays::season {

using SkyYear = std::vector<sky::SkyDay>;

/// Days of a block, which are run side by side: enough to keep the integrator's lanes full (the
/// empty oven's runs fill two packs of sixteen), few enough to leave twelve blocks to share out. It
/// must not depend on the number of threads, because it decides which cooks are pruned and so what
/// the audit adds up. Outcomes are the same with any value.
inline constexpr int kDaysPerBlock = 32;
inline constexpr int kBlocks = (kDays + kDaysPerBlock - 1) / kDaysPerBlock;

/// An oven's optics under every load of a season.
struct OvenOptics {
  std::vector<oven::OvenGeometry> geometry;
  std::vector<optics::ExchangeAreas> exchange;
  std::vector<std::shared_ptr<const gains::LoadOptics>> loads;
};

/// The forcing of a block of days.
struct BlockForcing {
  DayForcing eve;  ///< the day before the block
  /// By aim group (Setup::groups), then by day. With days_only, only days that some cook needs are
  /// filled in.
  std::vector<std::vector<DayForcing>> days;
  /// Light that reached the oven, hour by hour and day by day; empty with days_only.
  std::vector<HourTrace> hours;
  std::vector<DaySummary> summaries;
};

/// All that a BlockForcing depends on. Dust depends on routine, spot, sky and the flaps, which are
/// part of the optics.
struct BlockForcingKey {
  /// Sky and optics are compared by address: equal ones come from this cache, so they are the same
  /// object.
  std::shared_ptr<const SkyYear> sky;
  std::shared_ptr<const OvenOptics> optics, stowed;
  spot::Spot spot;
  task::Routine routine;
  oven::AimDesign aim;
  std::vector<AimGroup> groups;
  double glazing_slope_rad = 0.0;
  gains::Skin skin;
  bool days_only = false;
  std::vector<bool> only_days;  ///< as SeasonOptions::only_days
  int first_day = 0, count = 0;
  bool operator==(const BlockForcingKey&) const = default;
};

/// What OvenOptics are made from.
struct OvenRequest {
  const oven::OvenDesign* design = nullptr;
  std::vector<const oven::Vessel*> loads;  ///< nullptr: empty
  bool stowed = false;                     ///< flaps laid in
  optics::OpticsOptions options;
};

/// Holds the values of the `most` keys that were added last. Concurrent callers for one key block
/// until its value is built; callers for other keys do not. @tparam Key comparable by ==
template <class Key, class Value>
class BoundedCache {
 public:
  explicit BoundedCache(std::size_t most) : most_(most) {}
  template <class Make>
  std::shared_ptr<const Value> get(Key key, Make make) {
    const std::shared_ptr<Slot> slot = slot_of(std::move(key));
    std::call_once(slot->once, [&] { slot->value = std::make_shared<const Value>(make()); });
    return slot->value;
  }

 private:
  struct Slot {
    explicit Slot(Key its_key) : key(std::move(its_key)) {}
    Key key;
    std::once_flag once;
    std::shared_ptr<const Value> value;
  };
  std::shared_ptr<Slot> slot_of(Key key) {
    const std::lock_guard<std::mutex> lock(guard_);
    for (const std::shared_ptr<Slot>& slot : held_) {
      if (slot->key == key) return slot;
    }
    if (held_.size() == most_) held_.pop_front();
    return held_.emplace_back(std::make_shared<Slot>(std::move(key)));
  }

  std::size_t most_;
  std::mutex guard_;
  std::deque<std::shared_ptr<Slot>> held_;
};

/// A year's sky. @param meanwhile is run once, by one thread, while the others make the sky; its
/// exceptions pass through
SkyYear make_sky(const weather::WeatherYear& year,
                 const sky::SkyOptions& options,
                 int threads,
                 const std::function<void()>& meanwhile);

class CacheParts {
 public:
  /// @param meanwhile is run once, by one thread, while the others make the value, or before the
  /// return where the value is in the cache; its exceptions pass through
  std::shared_ptr<const SkyYear> sky(const weather::WeatherYear& year,
                                     const sky::SkyOptions& options,
                                     int threads,
                                     const std::function<void()>& meanwhile);
  std::shared_ptr<const OvenOptics> optics(const OvenRequest& request,
                                           int threads,
                                           const std::function<void()>& meanwhile);

  template <class Make>
  std::shared_ptr<const BlockForcing> days(BlockForcingKey key, Make make) {
    return days_.get(std::move(key), make);
  }

 private:
  struct SkyKey {
    sun::Place place;
    sky::SkyOptions options;
    std::vector<weather::WeatherHour> hours;
    bool operator==(const SkyKey&) const = default;
  };
  /// Everything that rays meet, and the tilts of the glazing.
  struct OpticsKey {
    std::vector<oven::OvenGeometry> geometry;
    std::vector<oven::Pane> panes;
    double liner_absorptance;
    double cleanliness;
    std::vector<double> glazing_tilt_rad;
    optics::OpticsOptions options;
    bool operator==(const OpticsKey&) const = default;
  };
  /// What infrared rays meet: the inside alone, and the panes.
  struct ExchangeKey {
    oven::OvenGeometry inside;
    std::vector<oven::Pane> panes;
    bool operator==(const ExchangeKey&) const = default;
  };
  OvenOptics make_optics(const OvenRequest& request,
                         const OpticsKey& key,
                         int threads,
                         const std::function<void()>& meanwhile);
  /// Ovens that differ in their flaps share the exchange of their insides.
  std::shared_ptr<const optics::ExchangeAreas> exchange(const oven::OvenGeometry& geometry,
                                                        const std::vector<oven::Pane>& panes);

  BoundedCache<SkyKey, SkyYear> skies_{2};
  BoundedCache<OpticsKey, OvenOptics> ovens_{8};
  BoundedCache<ExchangeKey, optics::ExchangeAreas> exchanges_{32};
  BoundedCache<BlockForcingKey, BlockForcing> days_{std::size_t{2} * kBlocks};
};
}  // namespace ovendays::season
