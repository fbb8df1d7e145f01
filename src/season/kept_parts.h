// SPDX-License-Identifier: MIT
// The store behind season::Kept. Private to season.
#pragma once

#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include "day_forcing.h"
#include "ovendays/optics/exchange.h"
#include "ovendays/season/kept.h"
#include "ovendays/season/season.h"

namespace ovendays::season {

using SkyYear = std::vector<sky::SkyDay>;

/// Days that are run side by side: enough to keep the integrator's lanes full, few enough to share
/// out. The same on any number of threads, since it decides which cooks are overtaken and so what
/// the audit adds up; outcomes hold with any.
inline constexpr int kDaysSideBySide = 32;  // twelve shares; the empty oven's runs fill two packs
inline constexpr int kStretches = (kDays + kDaysSideBySide - 1) / kDaysSideBySide;

/// An oven's optics under every load of a season.
struct OvenOptics {
  std::vector<oven::OvenGeometry> geometry;
  std::vector<optics::ExchangeAreas> exchange;
  std::vector<std::shared_ptr<const gains::LoadOptics>> loads;
};

/// Some days on end at a spot, as they drive an oven.
struct StretchDays {
  DayForcing eve;                ///< the day before them
  std::vector<DayForcing> days;  ///< but for the finest pieces; with days_only, those a cook needs
  /// What reached the oven hour by hour and day by day; with days_only empty.
  std::vector<HourTrace> hours;
  std::vector<DaySummary> summaries;
};

/// All that StretchDays depend on.
struct DaysKey {
  std::shared_ptr<const SkyYear> sky;  ///< this and the optics: the very ones that are kept
  std::shared_ptr<const OvenOptics> optics, stowed;
  spot::Spot spot;
  task::Routine routine;
  oven::AimDesign aim;
  double glazing_slope_rad = 0.0;
  gains::Skin skin;
  bool days_only = false;
  int first_day = 0, count = 0;
  bool operator==(const DaysKey&) const = default;
};

/// What OvenOptics are made from.
struct OvenRequest {
  const oven::OvenDesign* design = nullptr;
  std::vector<const oven::Vessel*> loads;  ///< nullptr: empty
  bool stowed = false;                     ///< flaps laid in
  optics::OpticsOptions options;
};

/// Keeps the newest `most` of what was asked for. Who asks for what is being made waits for it; who
/// asks for something else does not. @tparam Key comparable by ==
template <class Key, class Value>
class Shelf {
 public:
  explicit Shelf(std::size_t most) : most_(most) {}
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

/// A year's sky. @param meanwhile is done by one thread while others make it; what it throws passes
/// through
SkyYear make_sky(const weather::WeatherYear& year,
                 const sky::SkyOptions& options,
                 int threads,
                 const std::function<void()>& meanwhile);

class KeptParts {
 public:
  /// @param meanwhile is done by one thread while others make what is asked for; before this
  /// returns, also where nothing is to be made; what it throws passes through
  std::shared_ptr<const SkyYear> sky(const weather::WeatherYear& year,
                                     const sky::SkyOptions& options,
                                     int threads,
                                     const std::function<void()>& meanwhile);
  std::shared_ptr<const OvenOptics> optics(const OvenRequest& request,
                                           int threads,
                                           const std::function<void()>& meanwhile);

  template <class Make>
  std::shared_ptr<const StretchDays> days(DaysKey key, Make make) {
    return days_.get(std::move(key), make);
  }

 private:
  struct SkyKey {
    sun::Place place;
    sky::SkyOptions options;
    std::vector<weather::WeatherHour> hours;
    bool operator==(const SkyKey&) const = default;
  };
  /// All that rays meet, and how the oven tilts.
  struct OpticsKey {
    std::vector<oven::OvenGeometry> geometry;
    std::vector<oven::Pane> panes;
    double liner_absorptance;
    std::vector<double> glazing_tilt_rad;
    optics::OpticsOptions options;
    bool operator==(const OpticsKey&) const = default;
  };
  static OvenOptics make_optics(const OvenRequest& request,
                                const OpticsKey& key,
                                int threads,
                                const std::function<void()>& meanwhile);

  Shelf<SkyKey, SkyYear> skies_{2};
  Shelf<OpticsKey, OvenOptics> ovens_{8};
  Shelf<DaysKey, StretchDays> days_{std::size_t{2} * kStretches};
};
}  // namespace ovendays::season
