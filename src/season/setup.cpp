// SPDX-License-Identifier: MIT
#include "setup.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"
#include "ovendays/optics/exchange.h"

namespace ovendays::season {
namespace {

/// One load for each vessel that some task uses, after the empty oven.
void choose_loads(const Case& c, Setup& setup) {
  setup.loads = {nullptr};
  setup.load_names = {"empty"};
  for (const task::Task& t : c.tasks) {
    const oven::Vessel* vessel = c.oven.vessel(t.vessel);
    auto it = std::find(setup.loads.begin(), setup.loads.end(), vessel);
    if (it == setup.loads.end()) {
      setup.loads.push_back(vessel);
      setup.load_names.push_back(vessel->name);
      it = setup.loads.end() - 1;
    }
    setup.load_of_task.push_back(static_cast<std::size_t>(it - setup.loads.begin()));
  }
}

std::vector<LoadOptics> trace_loads(const Setup& setup, bool stowed, const SeasonOptions& options) {
  optics::TableBuilder builder(setup.c->oven, setup.loads, stowed, options.optics);
  parallel(builder.jobs(), setup.threads, [&builder](int job) { builder.run(job); });
  std::vector<LoadOptics> loads;
  for (optics::AcceptanceTable& table : builder.take()) loads.emplace_back(std::move(table));
  return loads;
}

std::vector<base::Point> mask_points(const Setup& setup) {
  const base::Frame level = oven::mouth_frame(setup.c->spot.mouth, base::kPi, 0.0);
  return spot::mouth_points(level, setup.gains.mouth_width_m, setup.gains.mouth_length_m, 3);
}

void make_masks(Setup& setup) {
  const std::vector<base::Point> points = mask_points(setup);
  GainSetup& gains = setup.gains;
  std::vector<int> month_of_mask;
  for (int month = 1; month <= 12; ++month) {
    std::size_t found = month_of_mask.size();
    for (std::size_t m = 0; m < month_of_mask.size(); ++m) {
      if (setup.scene.same_mask(month, month_of_mask[m])) found = m;
    }
    if (found == month_of_mask.size()) month_of_mask.push_back(month);
    gains.mask_of_month[static_cast<std::size_t>(month - 1)] = found;
  }
  gains.masks.resize(month_of_mask.size());
  parallel(static_cast<int>(month_of_mask.size()), setup.threads, [&](int m) {
    gains.masks[static_cast<std::size_t>(m)] =
        setup.scene.mask(points, month_of_mask[static_cast<std::size_t>(m)]);
  });
  spot::Spot nothing;
  nothing.mouth = setup.c->spot.mouth;
  gains.open_mask = spot::Scene(nothing).mask(points, 1);
}

void integrate_diffuse(Setup& setup, std::vector<LoadOptics>& loads) {
  const auto& notches = setup.c->oven.aim.notch_tilt_rad;
  const int tilts = static_cast<int>(notches.size());
  const int jobs = tilts * DiffuseTable::kAzimuths;
  const std::size_t masks = setup.gains.masks.size();
  for (LoadOptics& load : loads) {
    load.diffuse.assign(masks, DiffuseTable(tilts));
    load.diffuse_open = DiffuseTable(tilts);
  }
  const int all = static_cast<int>(loads.size() * (masks + 1)) * jobs;
  parallel(all, setup.threads, [&](int i) {
    LoadOptics& load = loads[static_cast<std::size_t>(i / jobs) / (masks + 1)];
    const std::size_t mask = static_cast<std::size_t>(i / jobs) % (masks + 1);
    const int job = i % jobs;
    const double tilt_rad = notches[static_cast<std::size_t>(job / DiffuseTable::kAzimuths)] +
                            setup.c->oven.box.glazing_slope_rad;
    if (mask == masks) {
      load.diffuse_open.fill(job, tilt_rad, load, setup.gains.open_mask);
    } else {
      load.diffuse[mask].fill(job, tilt_rad, load, setup.gains.masks[mask]);
    }
  });
}

bool ever_windier(const weather::WeatherYear& year, double limit_ms) {
  return std::any_of(year.hours.begin(), year.hours.end(), [&](const weather::WeatherHour& h) {
    return h.wind_ms > limit_ms;
  });
}

void make_models(const weather::WeatherYear& year, Setup& setup) {
  double pressure_Pa = 0.0;
  for (const weather::WeatherHour& hour : year.hours)
    pressure_Pa += hour.pressure_Pa / static_cast<double>(year.hours.size());
  heat::ModelOptions options;
  options.pressure_Pa = pressure_Pa;
  setup.boiling_K = base::boiling_point_K(pressure_Pa);
  const Case& c = *setup.c;
  std::vector<oven::OvenGeometry> geometry(setup.loads.size());
  std::vector<optics::ExchangeAreas> exchange(setup.loads.size());
  parallel(static_cast<int>(setup.loads.size()), setup.threads, [&](int i) {
    const auto l = static_cast<std::size_t>(i);
    geometry[l] = oven::build_geometry(c.oven, setup.loads[l], false);
    exchange[l] = optics::exchange_areas(geometry[l], c.oven.panes);
  });
  setup.empty = heat::make_model(c.oven, geometry[0], exchange[0], nullptr, nullptr, options);
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    const std::size_t l = setup.load_of_task[t];
    setup.models.push_back(heat::make_model(
        c.oven, geometry[l], exchange[l], setup.loads[l], &c.tasks[t].food, options));
  }
  setup.gains.mouth_width_m = geometry[0].mouth_width_m;
  setup.gains.mouth_length_m = geometry[0].mouth_length_m;
  setup.gains.mouth_radius_m = geometry[0].mouth_radius_m;
  setup.gains.wall_skin_m2 = setup.empty.wall_skin_m2;
}
}  // namespace

void make_setup(const Case& c,
                const weather::WeatherYear& year,
                const SeasonOptions& options,
                Setup& setup) {
  setup.c = &c;
  setup.gains.c = &c;
  setup.gains.scene = &setup.scene;
  setup.load_times_s = task::loading_times(c.routine);
  choose_loads(c, setup);
  setup.sky.resize(kDays);
  parallel(kDays, setup.threads, [&](int d) {
    setup.sky[static_cast<std::size_t>(d)] = sky::make_sky_day(year, d, c.sky);
  });
  make_models(year, setup);
  make_masks(setup);
  setup.gains.loads = trace_loads(setup, false, options);
  integrate_diffuse(setup, setup.gains.loads);
  const double wind_limit_ms = c.routine.flaps_wind_ms / std::max(1e-9, c.spot.wind_factor);
  if (!c.oven.flaps.empty() && ever_windier(year, wind_limit_ms)) {
    setup.gains.stowed = trace_loads(setup, true, options);
    integrate_diffuse(setup, setup.gains.stowed);
  }
  setup.days.resize(kDays);
  parallel(kDays, setup.threads, [&](int d) {
    setup.days[static_cast<std::size_t>(d)] =
        make_gain_day(setup.gains, setup.sky[static_cast<std::size_t>(d)], {});
  });
}
}  // namespace ovendays::season
