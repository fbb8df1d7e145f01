// SPDX-License-Identifier: MIT
#include "setup.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "dust.h"
#include "hourly_trace.h"
#include "ovendays/base/air.h"
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

/// The empty oven first, then one load for each vessel that some task uses.
std::vector<const oven::Vessel*> loads_of(const Case& c) {
  std::vector<const oven::Vessel*> loads = {nullptr};
  for (const task::Task& t : c.tasks) {
    const oven::Vessel* vessel = c.oven.vessel(t.vessel);
    if (std::find(loads.begin(), loads.end(), vessel) == loads.end()) loads.push_back(vessel);
  }
  return loads;
}

void choose_loads(const Case& c, Setup& setup) {
  setup.loads = loads_of(c);
  for (const oven::Vessel* load : setup.loads)
    setup.load_names.push_back(load == nullptr ? "empty" : load->name);
  for (const task::Task& t : c.tasks) {
    const auto it = std::find(setup.loads.begin(), setup.loads.end(), c.oven.vessel(t.vessel));
    setup.load_of_task.push_back(static_cast<std::size_t>(it - setup.loads.begin()));
  }
}

/// Puts tasks that can use the same notches into one group.
void choose_groups(const Case& c, Setup& setup) {
  setup.groups = {{{}, std::vector<bool>(setup.loads.size(), false)}};
  setup.groups.front().loads.front() = true;
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    const task::NotchSet notches = task::usable_notches(c.oven, c.tasks[t]);
    auto group = std::find_if(setup.groups.begin(), setup.groups.end(), [&](const AimGroup& g) {
      return g.notches == notches;
    });
    if (group == setup.groups.end()) {
      group = setup.groups.insert(group,
                                  AimGroup{notches, std::vector<bool>(setup.loads.size(), false)});
    }
    group->loads[setup.load_of_task[t]] = true;
    setup.group_of_task.push_back(static_cast<std::size_t>(group - setup.groups.begin()));
  }
}

std::vector<base::Point> mask_points(const Setup& setup) {
  const base::Frame level = oven::mouth_frame(setup.c->spot.mouth, base::kPi, 0.0);
  return spot::mouth_points(level, setup.forcing.mouth_width_m, setup.forcing.mouth_length_m, 3);
}

// Trees lose their leaves, so the mask depends on the month. Months with equal obstructions share
// one, which saves most of the twelve.
void make_masks(Setup& setup) {
  const std::vector<base::Point> points = mask_points(setup);
  ForcingSetup& forcing = setup.forcing;
  std::vector<int> month_of_mask;
  for (int month = 1; month <= 12; ++month) {
    std::size_t found = month_of_mask.size();
    for (std::size_t m = 0; m < month_of_mask.size(); ++m) {
      if (setup.scene.same_mask(month, month_of_mask[m])) found = m;
    }
    if (found == month_of_mask.size()) month_of_mask.push_back(month);
    forcing.mask_of_month[static_cast<std::size_t>(month - 1)] = found;
  }
  forcing.masks = setup.scene.masks(points, month_of_mask);
  spot::Spot nothing;
  nothing.mouth = setup.c->spot.mouth;
  forcing.open_mask = spot::Scene(nothing).mask(points, 1);
}

/// Adds to an oven's optics the tables of diffuse light behind each mask of the spot.
std::vector<LoadAtSpot> at_spot(const Setup& setup, const OvenOptics& optics) {
  std::vector<std::shared_ptr<const gains::SplitMask>> masks;
  for (const spot::SpotMask& mask : setup.forcing.masks)
    masks.push_back(std::make_shared<const gains::SplitMask>(mask));
  std::vector<LoadAtSpot> loads;
  for (const auto& anywhere : optics.loads) {
    LoadAtSpot& load = loads.emplace_back();
    load.optics = anywhere;
    for (const auto& mask : masks) load.diffuse.emplace_back(anywhere->light, mask);
  }
  return loads;
}

// The optics with flaps laid in take as long to make as the others, so they are made only for years
// in which the wind calls for them.
bool ever_windier(const weather::WeatherYear& year, double limit_ms) {
  return std::any_of(year.hours.begin(), year.hours.end(), [&](const weather::WeatherHour& h) {
    return h.wind_ms > limit_ms;
  });
}

// One pressure for the whole year: it sets the boiling point and the air's density, which the
// weather moves by a few percent only.
void make_models(const weather::WeatherYear& year, const OvenOptics& optics, Setup& setup) {
  double pressure_Pa = 0.0;
  for (const weather::WeatherHour& hour : year.hours)
    pressure_Pa += hour.pressure_Pa / static_cast<double>(year.hours.size());
  heat::ModelOptions options;
  options.pressure_Pa = pressure_Pa;
  setup.boiling_K = base::boiling_point_K(pressure_Pa);
  const Case& c = *setup.c;
  const std::vector<oven::OvenGeometry>& geometry = optics.geometry;
  const std::vector<optics::ExchangeAreas>& exchange = optics.exchange;
  setup.empty = heat::make_model(c.oven, geometry[0], exchange[0], nullptr, nullptr, options);
  setup.layer_faces = layer_faces(c.oven.box, setup.empty);
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    const std::size_t l = setup.load_of_task[t];
    setup.models.push_back(heat::make_model(
        c.oven, geometry[l], exchange[l], setup.loads[l], &c.tasks[t].food, options));
  }
  setup.forcing.mouth_width_m = geometry[0].mouth_width_m;
  setup.forcing.mouth_length_m = geometry[0].mouth_length_m;
  setup.forcing.skin = {c.oven.box.skin_absorptance, setup.empty.wall_skin_m2};
}

/// Why the oven stays in on a day, whatever the task; kNone where it is set out.
Cause reason_to_stay_in(const Case& c, int day_index, const sky::SkyDay& sky) {
  const task::Routine& routine = c.routine;
  if (!task::cooks_on(routine, day_index)) return Cause::kRoutine;
  if (sky.rain_m > routine.stay_in_rain_m && !c.spot.roofed) return Cause::kRain;
  double windiest_ms = 0.0;
  for (const sky::SkySegment& s : sky.segments) {
    if (s.end_s <= routine.set_out_s || s.start_s >= routine.latest_load_s) continue;
    windiest_ms = std::max(windiest_ms,
                           0.5 * (sky.start(s).wind_ms + sky.end(s).wind_ms) * c.spot.wind_factor);
  }
  return windiest_ms > routine.stay_in_wind_ms ? Cause::kWind : Cause::kNone;
}

/// Dust falls on the oven on every day; rain falls on one that stands out without a roof.
void make_dust(Setup& setup) {
  const Case& c = *setup.c;
  if (!(c.routine.wash_every_s > 0.0)) return;
  std::vector<DayRain> year;
  for (int d = 0; d < kDays; ++d) {
    const bool out = setup.stay_in[static_cast<std::size_t>(d)] == Cause::kNone;
    year.push_back({setup.sky_day(d).rain_m, out && !c.spot.roofed});
  }
  setup.forcing.dust = dusty_light(dust_shares(year, c.routine), flap_reflections(c.oven));
}

BlockForcing make_block_forcing(const Setup& setup, int first_day, int count) {
  const bool days_only = setup.block_key.days_only;
  const auto goes_out = [&](int day) { return setup.sets_out(day); };
  BlockForcing block;
  // A day's empty oven starts at noon of the day before, so the block needs that day as well.
  const int before = (first_day + kDays - 1) % kDays;
  const AimGroup& all_notches = setup.groups.front();
  if (!days_only || goes_out(first_day))
    block.eve = make_day_forcing(setup.forcing, setup.sky_day(before), {}, all_notches);
  block.days.resize(setup.groups.size());
  for (std::vector<DayForcing>& days : block.days) days.resize(static_cast<std::size_t>(count));
  if (!days_only) {
    block.hours.resize(static_cast<std::size_t>(count) * 24);
    block.summaries.resize(static_cast<std::size_t>(count));
  }
  FineDay fine;
  for (int i = 0; i < count; ++i) {
    const auto place = static_cast<std::size_t>(i);
    const sky::SkyDay& sky = setup.sky_day(first_day + i);
    if (!days_only) {
      block.days[0][place] = make_day_forcing(setup.forcing, sky, {}, all_notches, &fine);
      trace_light(fine,
                  block.days[0][place].aims,
                  sky,
                  std::span(block.hours).subspan(place * 24, 24),
                  block.summaries[place]);
    } else if (goes_out(first_day + i) || (i + 1 < count && goes_out(first_day + i + 1))) {
      block.days[0][place] = make_day_forcing(setup.forcing, sky, {}, all_notches);
    }
    for (std::size_t g = 1; g < setup.groups.size() && goes_out(first_day + i); ++g) {
      if (!task::no_notch(setup.groups[g].notches))
        block.days[g][place] = make_day_forcing(setup.forcing, sky, {}, setup.groups[g]);
    }
  }
  return block;
}
}  // namespace

void prepare_optics(const Case& c,
                    const SeasonOptions& options,
                    const std::function<void()>& meanwhile) {
  OVENDAYS_CHECK(options.cache != nullptr);
  options.cache->parts().optics(
      {&c.oven, loads_of(c), false, options.optics}, thread_count(options.threads), meanwhile);
}

void make_setup(const Case& c,
                const weather::WeatherYear& year,
                const SeasonOptions& options,
                Setup& setup) {
  setup.c = &c;
  setup.forcing.c = &c;
  setup.forcing.scene = &setup.scene;
  setup.load_times_s = task::loading_times(c.routine);
  choose_loads(c, setup);
  choose_groups(c, setup);
  SeasonCache own;  // lets the code below be the same without a shared cache
  CacheParts& cache = (options.cache != nullptr ? *options.cache : own).parts();
  OvenRequest request{&c.oven, setup.loads, false, options.optics};
  const std::shared_ptr<const OvenOptics> optics = cache.optics(request, setup.threads, {});
  make_models(year, *optics, setup);
  const auto masks = [&setup] { make_masks(setup); };
  const bool keeps = options.cache != nullptr && options.cache_year;
  setup.sky_year =
      keeps ? cache.sky(year, c.sky, setup.threads, masks)
            : std::make_shared<const SkyYear>(make_sky(year, c.sky, setup.threads, masks));
  setup.forcing.loads = at_spot(setup, *optics);
  std::shared_ptr<const OvenOptics> stowed;
  const double wind_limit_ms = c.routine.flaps_wind_ms / std::max(1e-9, c.spot.wind_factor);
  if (!c.oven.flaps.empty() && ever_windier(year, wind_limit_ms)) {
    request.stowed = true;
    stowed = cache.optics(request, setup.threads, {});
    setup.forcing.stowed = at_spot(setup, *stowed);
  }
  OVENDAYS_CHECK(options.only_days.empty() ||
                 (options.only_days.size() == kDays && options.days_only && !options.causes));
  setup.only_days = options.only_days;
  setup.stay_in.resize(kDays);
  for (int d = 0; d < kDays; ++d)
    setup.stay_in[static_cast<std::size_t>(d)] = reason_to_stay_in(c, d, setup.sky_day(d));
  make_dust(setup);
  setup.block_key = {setup.sky_year,
                     optics,
                     stowed,
                     c.spot,
                     c.routine,
                     c.oven.aim,
                     setup.groups,
                     c.oven.box.glazing_slope_rad,
                     setup.forcing.skin,
                     options.days_only,
                     options.only_days};
  if (keeps) setup.cache = &cache;
}

std::shared_ptr<const BlockForcing> block_forcing(const Setup& setup, int first_day, int count) {
  const auto make = [&] { return make_block_forcing(setup, first_day, count); };
  if (setup.cache == nullptr) return std::make_shared<const BlockForcing>(make());
  BlockForcingKey key = setup.block_key;
  key.first_day = first_day;
  key.count = count;
  return setup.cache->days(std::move(key), make);
}
}  // namespace ovendays::season
