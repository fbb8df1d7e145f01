// SPDX-License-Identifier: MIT
#include "ovendays/season/season_cache.h"

#include "cache_parts.h"
#include "ovendays/season/parallel.h"

namespace ovendays::season {

SeasonCache::SeasonCache() : parts_(std::make_unique<CacheParts>()) {}
SeasonCache::~SeasonCache() = default;

namespace {

/// Runs a function once: by one of the threads that make a value or, where the value is in the
/// cache already, by the caller.
class RunOnce {
 public:
  explicit RunOnce(const std::function<void()>& what) : what_(what) {}
  void operator()() {
    if (what_ && !done_) what_();
    done_ = true;
  }

 private:
  const std::function<void()>& what_;
  bool done_ = false;
};
}  // namespace

SkyYear make_sky(const weather::WeatherYear& year,
                 const sky::SkyOptions& options,
                 int threads,
                 const std::function<void()>& meanwhile) {
  SkyYear days(kDays);
  parallel(1 + kDays, threads, [&](int job) {
    if (job == 0) return meanwhile();
    days[static_cast<std::size_t>(job - 1)] = sky::make_sky_day(year, job - 1, options);
  });
  return days;
}

std::shared_ptr<const SkyYear> CacheParts::sky(const weather::WeatherYear& year,
                                               const sky::SkyOptions& options,
                                               int threads,
                                               const std::function<void()>& meanwhile) {
  RunOnce other(meanwhile);
  auto value = skies_.get({year.place, options, year.hours},
                          [&] { return make_sky(year, options, threads, [&other] { other(); }); });
  other();
  return value;
}

std::shared_ptr<const OvenOptics> CacheParts::optics(const OvenRequest& request,
                                                     int threads,
                                                     const std::function<void()>& meanwhile) {
  OpticsKey key;
  for (const oven::Vessel* load : request.loads)
    key.geometry.push_back(oven::build_geometry(*request.design, load, request.stowed));
  key.panes = request.design->panes;
  key.liner_absorptance = request.design->liner.absorptance;
  key.cleanliness = request.design->as_built.cleanliness;
  for (const double notch_rad : request.design->aim.notch_tilt_rad)
    key.glazing_tilt_rad.push_back(notch_rad + request.design->box.glazing_slope_rad);
  key.options = request.options;
  RunOnce other(meanwhile);
  auto value =
      ovens_.get(key, [&] { return make_optics(request, key, threads, [&other] { other(); }); });
  other();
  return value;
}

std::shared_ptr<const optics::ExchangeAreas> CacheParts::exchange(
    const oven::OvenGeometry& geometry, const std::vector<oven::Pane>& panes) {
  ExchangeKey key{geometry, panes};
  // Infrared stays behind the glazing, so flaps do not matter.
  key.inside.flaps.clear();
  key.inside.mouth_width_m = key.inside.mouth_length_m = 0.0;
  key.inside.mouth_height_m = key.inside.mouth_radius_m = 0.0;
  return exchanges_.get(std::move(key), [&] { return optics::exchange_areas(geometry, panes); });
}

OvenOptics CacheParts::make_optics(const OvenRequest& request,
                                   const OpticsKey& key,
                                   int threads,
                                   const std::function<void()>& meanwhile) {
  OvenOptics made;
  made.geometry = key.geometry;
  const std::size_t loads = key.geometry.size();
  optics::TableBuilder builder(*request.design, request.loads, request.stowed, request.options);
  // Exchange areas are made for stowed flaps too, although only the others are used: an oven
  // without flaps has the same key either way.
  made.exchange.resize(loads);
  const int exchanges = static_cast<int>(loads);
  parallel(1 + exchanges + builder.jobs(), threads, [&](int job) {
    if (job == 0) return meanwhile();
    if (job > exchanges) return builder.run(job - 1 - exchanges);
    const auto load = static_cast<std::size_t>(job - 1);
    made.exchange[load] = *exchange(key.geometry[load], key.panes);
  });
  // A second round of jobs, because the integrals over the sky need complete tables.
  std::vector<optics::AcceptanceTable> tables = builder.take();
  const std::shared_ptr<const gains::SplitMask> open = gains::open_mask();
  made.loads.resize(loads);
  parallel(static_cast<int>(loads), threads, [&](int job) {
    const auto load = static_cast<std::size_t>(job);
    made.loads[load] = std::make_shared<const gains::LoadOptics>(
        gains::make_load_optics(std::move(tables[load]), key.glazing_tilt_rad, open));
  });
  return made;
}
}  // namespace ovendays::season
