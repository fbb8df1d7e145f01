// SPDX-License-Identifier: MIT
#include "ovendays/study/rating.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"
#include "ovendays/study/steady_oven.h"
#include "rating_load.h"

namespace ovendays::study {
namespace {

// The sun of both figures of merit: irradiance is prescribed on the glazing of the level box.
SteadySun figure_sun(const oven::OvenDesign& design, const RatingConditions& conditions) {
  SteadySun sun;
  sun.irradiance_Wm2 = conditions.figure_irradiance_Wm2;
  sun.plane = SteadySun::Plane::kGlazing;
  sun.diffuse_share = conditions.diffuse_share;
  sun.sun_zenith_rad = conditions.figure_zenith_rad;
  sun.glazing_tilt_rad = design.box.glazing_slope_rad;  // the box is level
  sun.ambient_K = conditions.figure_ambient_K;
  sun.wind_ms = conditions.figure_wind_ms;
  return sun;
}

// Runs the three procedures one after the other; F2 needs the result of F1.
class Rater {
 public:
  Rater(const oven::OvenDesign& design,
        const RatingConditions& conditions,
        const RateOptions& options)
      : design_(design), conditions_(conditions), options_(options) {
    rating_.oven_name = design.name;
    rating_.conditions = conditions;
    rating_.aperture_m2 = design.glass_width_m() * design.glass_length_m();
  }

  Rating rate() {
    const oven::Vessel* vessel = rating_vessel(design_, options_.vessel);
    rate_first();
    if (vessel == nullptr) {
      rating_.notes.emplace_back("the oven has no vessel, so F2 and cooking power are missing");
      return std::move(rating_);
    }
    if (rating_.first) rate_second(*vessel);
    rate_power(*vessel);
    return std::move(rating_);
  }

 private:
  // Traces the oven once for a load and a position of its flaps.
  [[nodiscard]] SteadyOven made(const oven::Vessel* vessel,
                                const heat::FoodLoad* food,
                                Flaps flaps) const {
    return {design_, vessel, food, flaps, options_.optics, conditions_.pressure_Pa};
  }

  // F1: the flaps are folded in, because the procedure tests the box without reflectors.
  void rate_first() {
    const SteadyOven oven = made(nullptr, nullptr, Flaps::kLaidIn);
    const SteadySun sun = figure_sun(design_, conditions_);
    const auto state = oven.stagnate(sun);
    if (!state) {
      rating_.notes.emplace_back(
          "the empty oven did not reach a steady state within 48 h, so F1 and F2 are missing");
      return;
    }
    const auto gain = oven.gains_W(sun);
    const heat::HeatModel& model = oven.model();
    FirstFigure first;
    first.plate_K = (*state)[static_cast<std::size_t>(model.node_of[oven::kTray])];
    first.liner_K = (*state)[heat::kNodeLiner];
    first.air_K = (*state)[heat::kNodeAir];
    first.inner_pane_K = (*state)[heat::kNodePane];
    first.outer_pane_K = (*state)[static_cast<std::size_t>(model.outer_node)];
    first.irradiance_Wm2 = sun.irradiance_Wm2;
    first.f1_Km2W = (first.plate_K - sun.ambient_K) / sun.irradiance_Wm2;
    // The liner counts as well as the plate, because both warm the inside of the box.
    first.optical_efficiency =
        (gain[oven::kLiner] + gain[oven::kTray]) / (rating_.aperture_m2 * sun.irradiance_Wm2);
    first.loss_Wm2K = first.optical_efficiency / first.f1_Km2W;
    rating_.first = first;
    if (design_.panes.size() == 1) {
      rating_.notes.emplace_back(
          "one pane; the grades assume two, and 0.08 to 0.12 is usual (judgement)");
    }
    warn_of_limits(first);
  }

  // The procedure leaves the oven empty in full sun, which is hotter than any cook makes it.
  void warn_of_limits(const FirstFigure& first) {
    const oven::Material& inmost = design_.box.wall.front().material;
    if (first.liner_K <= inmost.service_limit_K) return;
    rating_.notes.push_back("at stagnation the liner is hotter than the service limit of " +
                            inmost.name);
  }

  void note_load(const char* test, const RatingLoad& load) {
    if (load.fits()) return;
    rating_.notes.push_back(std::string(test) + ": " + std::to_string(load.vessels) + " x '" +
                            load.vessel +
                            "' hold less water than prescribed; rated with what fits");
  }

  // F2: heats the water from ambient temperature and times it between the two prescribed
  // temperatures.
  void rate_second(const oven::Vessel& vessel) {
    SecondFigure second;
    second.load = fill_vessels(design_, vessel, conditions_.figure_load_kgm2 * rating_.aperture_m2);
    note_load("F2", second.load);
    const oven::Vessel pots = several_as_one(design_, vessel, second.load.vessels);
    const heat::FoodLoad food = water(second.load.water_kg);
    const SteadyOven oven = made(&pots, &food, Flaps::kLaidIn);
    const SteadySun sun = figure_sun(design_, conditions_);
    constexpr int kMostMinutes = 16 * 60;
    const auto trial =
        oven.run(sun, heat::uniform_state(sun.ambient_K), base::kSecondsPerMinute, kMostMinutes);
    // Temperatures are known at whole minutes; interpolate when the water passes a level.
    const auto crossing_s = [&](double level_K) -> std::optional<double> {
      for (std::size_t i = 1; i < trial.at.size(); ++i) {
        const double before = trial.at[i - 1][heat::kNodeFood];
        const double after = trial.at[i][heat::kNodeFood];
        if (before < level_K && after >= level_K) {
          return base::kSecondsPerMinute *
                 (static_cast<double>(i - 1) + (level_K - before) / (after - before));
        }
      }
      return std::nullopt;
    };
    const auto from_s = crossing_s(conditions_.figure_water_from_K);
    const auto to_s = crossing_s(conditions_.figure_water_to_K);
    if (from_s && to_s) {
      second.time_s = *to_s - *from_s;
      second.f2 = second_figure(rating_.first->f1_Km2W,
                                {.water_kg = second.load.water_kg,
                                 .aperture_m2 = rating_.aperture_m2,
                                 .time_s = *second.time_s,
                                 .from_K = conditions_.figure_water_from_K,
                                 .to_K = conditions_.figure_water_to_K,
                                 .ambient_K = sun.ambient_K,
                                 .irradiance_Wm2 = sun.irradiance_Wm2});
    } else {
      rating_.notes.emplace_back("F2: without flaps the water does not get that hot");
    }
    rating_.second = std::move(second);
  }

  /// The possible tilt of the glazing that comes closest to normal incidence.
  [[nodiscard]] double best_tilt_rad() const {
    double best = design_.box.glazing_slope_rad;
    for (const double notch : design_.aim.notch_tilt_rad) {
      const double tilt = notch + design_.box.glazing_slope_rad;
      const double zenith = conditions_.power_zenith_rad;
      if (std::abs(tilt - zenith) < std::abs(best - zenith)) best = tilt;
    }
    return best;
  }

  // Cooking power: repeats synthetic days with different irradiances until there are enough
  // observations, and uses each irradiance at least once.
  void rate_power(const oven::Vessel& vessel) {
    CookingPower power;
    const double tilt_rad = best_tilt_rad();
    power.incidence_rad = conditions_.power_zenith_rad - tilt_rad;
    power.intercept_m2 = intercept_area_m2(design_, Flaps::kSet, power.incidence_rad);
    power.load = fill_vessels(design_, vessel, conditions_.power_load_kgm2 * power.intercept_m2);
    note_load("cooking power", power.load);
    const oven::Vessel pots = several_as_one(design_, vessel, power.load.vessels);
    const heat::FoodLoad food = water(power.load.water_kg);
    const SteadyOven oven = made(&pots, &food, Flaps::kSet);
    constexpr int kMostDays = 12;
    const std::size_t kinds = conditions_.power_irradiance_Wm2.size();
    for (int day = 0; day < kMostDays; ++day) {
      const bool enough =
          static_cast<int>(power.observations.size()) >= conditions_.power_least_observations;
      if (enough && static_cast<std::size_t>(day) >= kinds) break;
      observe_day(oven, day, tilt_rad, power);
    }
    regress(power);
    rating_.power = std::move(power);
  }

  /// One synthetic day: everything starts at air temperature, and the sun is constant.
  void observe_day(const SteadyOven& oven, int day, double tilt_rad, CookingPower& power) const {
    constexpr double kInterval_s = 600.0;
    const auto kind = static_cast<std::size_t>(day);
    SteadySun sun;
    sun.irradiance_Wm2 =
        conditions_.power_irradiance_Wm2[kind % conditions_.power_irradiance_Wm2.size()];
    sun.plane = SteadySun::Plane::kNormalToBeam;
    sun.diffuse_share = conditions_.diffuse_share;
    sun.sun_zenith_rad = conditions_.power_zenith_rad;
    sun.glazing_tilt_rad = tilt_rad;
    sun.ambient_K = conditions_.power_ambient_K[kind % conditions_.power_ambient_K.size()];
    sun.wind_ms = conditions_.power_wind_ms;
    const int intervals = static_cast<int>(std::lround(conditions_.power_day_s / kInterval_s));
    const auto trial = oven.run(sun, heat::uniform_state(sun.ambient_K), kInterval_s, intervals);
    // Only intervals inside the prescribed range count. Near boiling, evaporation would distort the
    // power.
    const double from_K = sun.ambient_K + conditions_.power_above_ambient_K;
    const double to_K = oven.model().boiling_K - conditions_.power_below_boiling_K;
    for (std::size_t i = 1; i < trial.at.size(); ++i) {
      const double before_K = trial.at[i - 1][heat::kNodeFood];
      const double after_K = trial.at[i][heat::kNodeFood];
      power.highest_water_K = std::max(power.highest_water_K, after_K);
      if (before_K < from_K || after_K > to_K) continue;
      PowerObservation seen;
      seen.day = day;
      seen.irradiance_Wm2 = sun.irradiance_Wm2;
      seen.difference_K = 0.5 * (before_K + after_K) - sun.ambient_K;
      seen.power_W = cooking_power_W(before_K, after_K, power.load.water_kg, kInterval_s);
      seen.standard_power_W = standard_power_W(seen.power_W, sun.irradiance_Wm2);
      power.observations.push_back(seen);
    }
  }

  // Fits the standard power over the temperature difference; P50 is the value of the line at 50 K.
  void regress(CookingPower& power) {
    std::vector<double> x;
    std::vector<double> y;
    for (const PowerObservation& seen : power.observations) {
      x.push_back(seen.difference_K);
      y.push_back(seen.standard_power_W);
    }
    if (x.size() < 2) {
      rating_.notes.emplace_back(
          "cooking power: the water passes through its temperature range within one interval");
      return;
    }
    power.line = fit_line(x, y);
    power.p50_W = power.line.at(50.0);
    power.enough = static_cast<int>(x.size()) >= conditions_.power_least_observations &&
                   power.line.r2 >= kLeastR2;
  }

  const oven::OvenDesign& design_;
  const RatingConditions& conditions_;
  const RateOptions& options_;
  Rating rating_;
};
}  // namespace

Rating rate_oven(const oven::OvenDesign& design,
                 const RatingConditions& conditions,
                 const RateOptions& options) {
  return Rater(design, conditions, options).rate();
}
}  // namespace ovendays::study
