// SPDX-License-Identifier: MIT
#include "ovendays/study/steady_oven.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"
#include "ovendays/optics/exchange.h"
#include "ovendays/sky/patches.h"

namespace ovendays::study {
namespace {

// Tilt of the plane on which the irradiance is given.
double measured_tilt_rad(const SteadySun& sun) {
  switch (sun.plane) {
    case SteadySun::Plane::kGlazing:
      return sun.glazing_tilt_rad;
    case SteadySun::Plane::kNormalToBeam:
      return sun.sun_zenith_rad;
    case SteadySun::Plane::kHorizontal:
      return 0.0;
  }
  return 0.0;
}

/// Share of the outermost pane's infrared that meets the sky, through the flaps as well.
double sky_share_of(const optics::AcceptanceTable& table, double glazing_tilt_rad) {
  const base::Frame frame = oven::mouth_frame({}, base::kPi, glazing_tilt_rad);
  double sky_m2 = 0.0;
  double all_m2 = 0.0;
  for (const sky::Patch& patch : sky::sky_patches()) {
    const base::Vec3 local = frame.local_from_world(patch.direction);
    if (local.z > 0.0) sky_m2 += patch.solid_angle_sr * table.at(local).outer_ir_m2;
    all_m2 += patch.solid_angle_sr * table.at(patch.direction).outer_ir_m2;
  }
  return all_m2 > 0.0 ? std::min(1.0, sky_m2 / all_m2) : 1.0;
}

constexpr double kHour_s = base::kSecondsPerHour;

double fourth(double x) { return x * x * x * x; }

// Builds the heat model with the flaps set or folded in.
heat::HeatModel model_of(const oven::OvenDesign& design,
                         const oven::Vessel* vessel,
                         const heat::FoodLoad* food,
                         Flaps flaps,
                         double pressure_Pa) {
  const oven::OvenGeometry geometry = oven::build_geometry(design, vessel, flaps == Flaps::kLaidIn);
  heat::ModelOptions options;
  options.pressure_Pa = pressure_Pa;
  const optics::ExchangeAreas exchange = optics::exchange_areas(geometry, design.panes);
  return heat::make_model(design, geometry, exchange, vessel, food, options);
}

/// Properties of the oven's outside that the model of its surroundings needs.
struct Outside {
  double skin_absorptance;
  double pane_wind_factor;
  double sky_share;
};

heat::AirSegment air_of(const SteadySun& sun,
                        const heat::HeatModel& model,
                        const Outside& outside) {
  const BeamAndDiffuse light = light_of(sun);
  const double sky_K4 = fourth(sun.sky_K.value_or(swinbank_sky_K(sun.ambient_K)));
  const double air_K4 = fourth(sun.ambient_K);
  const double ground_Wm2 =
      sun.albedo * (light.beam_Wm2 * std::cos(sun.sun_zenith_rad) + light.diffuse_Wm2);
  heat::Surroundings around;
  around.ambient_K = sun.ambient_K;
  around.pane_env_K4 = outside.sky_share * sky_K4 + (1.0 - outside.sky_share) * air_K4;
  around.skin_env_K4 = 0.5 * (sky_K4 + air_K4);
  around.wind_ms = sun.wind_ms;
  // Upright faces looking evenly all round: mean of max(0, cos) over azimuth is 1/pi.
  around.skin_gain_W = outside.skin_absorptance * model.wall_skin_m2 *
                       (light.beam_Wm2 * std::sin(sun.sun_zenith_rad) / base::kPi +
                        0.5 * (light.diffuse_Wm2 + ground_Wm2));
  heat::AirSegment air;
  air.start = air.end = around;
  air.glazing_tilt_rad = sun.glazing_tilt_rad;
  air.vapour_Pa = sun.vapour_Pa;
  air.pane_wind_factor = outside.pane_wind_factor;
  return air;
}
}  // namespace

BeamAndDiffuse light_of(const SteadySun& sun) {
  const double tilt_rad = measured_tilt_rad(sun);
  const double up = std::cos(sun.sun_zenith_rad);
  const double on_plane = std::cos(sun.sun_zenith_rad - tilt_rad);
  OVENDAYS_CHECK(up > 0.0 && on_plane > 0.0);
  OVENDAYS_CHECK(sun.diffuse_share >= 0.0 && sun.diffuse_share < 1.0);
  const double diffuse_by_beam = up * sun.diffuse_share / (1.0 - sun.diffuse_share);
  const double global_by_beam = up + diffuse_by_beam;
  const double plane_by_beam = on_plane + diffuse_by_beam * 0.5 * (1.0 + std::cos(tilt_rad)) +
                               sun.albedo * global_by_beam * 0.5 * (1.0 - std::cos(tilt_rad));
  const double beam_Wm2 = sun.irradiance_Wm2 / plane_by_beam;
  return {beam_Wm2, beam_Wm2 * diffuse_by_beam};
}

double swinbank_sky_K(double ambient_K) { return 0.0552 * std::pow(ambient_K, 1.5); }

SteadyOven::SteadyOven(const oven::OvenDesign& design,
                       const oven::Vessel* vessel,
                       const heat::FoodLoad* food,
                       Flaps flaps,
                       const optics::OpticsOptions& optics,
                       double pressure_Pa)
    : skin_absorptance_(design.box.skin_absorptance),
      pane_wind_factor_(design.flaps.empty() || flaps == Flaps::kLaidIn ? 1.0
                                                                        : heat::kFlapWindFactor),
      model_(model_of(design, vessel, food, flaps, pressure_Pa)),
      table_(optics::build_tables(design, {vessel}, flaps == Flaps::kLaidIn, optics).front()) {}

std::array<double, oven::kSurfaces> SteadyOven::gains_W(const SteadySun& sun) const {
  std::array<double, oven::kSurfaces> gain{};
  const BeamAndDiffuse light = light_of(sun);
  const base::Frame frame = oven::mouth_frame({}, base::kPi, sun.glazing_tilt_rad);
  const auto add = [&](const base::Direction& world, double normal_Wm2) {
    const base::Vec3 local = frame.local_from_world(world);
    if (local.z <= 0.0) return;
    const optics::Acceptance a = table_.at(local);
    for (std::size_t s = 0; s < gain.size(); ++s) gain[s] += normal_Wm2 * a.absorbed_m2[s];
  };
  add(base::direction_from_sky(base::kPi, 0.5 * base::kPi - sun.sun_zenith_rad), light.beam_Wm2);
  const double ground_Wm2 =
      sun.albedo * (light.beam_Wm2 * std::cos(sun.sun_zenith_rad) + light.diffuse_Wm2);
  for (const sky::Patch& patch : sky::sky_patches())
    add(patch.direction, light.diffuse_Wm2 / base::kPi * patch.solid_angle_sr);
  for (const sky::Patch& patch : sky::ground_patches())
    add(patch.direction, ground_Wm2 / base::kPi * patch.solid_angle_sr);
  return gain;
}

SteadyOven::Outcome SteadyOven::run(const SteadySun& sun,
                                    const heat::State& start,
                                    double interval_s,
                                    int intervals) const {
  const auto gain = gains_W(sun);
  heat::AirSegment air =
      air_of(sun,
             model_,
             {skin_absorptance_, pane_wind_factor_, sky_share_of(table_, sun.glazing_tilt_rad)});
  air.end_s = interval_s;
  const heat::GainSegment gains{gain, gain};
  Outcome out;
  out.at.push_back(start);
  for (int i = 0; i < intervals; ++i) {
    heat::Run one;
    one.forcing = {{&air, 1}, {&gains, 1}};
    one.end_s = interval_s;
    one.state = out.at.back();
    one.first_step_s = i > 0 ? out.summary.next_step_s : 0.0;
    const heat::RunSummary summary = heat::integrate(model_, one, {});
    if (summary.failed()) {
      throw base::RunError("the heat integrator gave up in interval " + std::to_string(i + 1) +
                           " of a trial");
    }
    out.at.push_back(one.state);
    out.summary.audit += summary.audit;
    out.summary.steps += summary.steps;
    out.summary.evaporated_kg += summary.evaporated_kg;
    out.summary.next_step_s = summary.next_step_s;
  }
  return out;
}

std::optional<heat::State> SteadyOven::stagnate(const SteadySun& sun, double settled_K) const {
  constexpr int kMostHours = 48;
  heat::State state = heat::uniform_state(sun.ambient_K);
  for (int hour = 0; hour < kMostHours; ++hour) {
    const heat::State before = state;
    state = run(sun, before, kHour_s, 1).at.back();
    // The water in the food is left out: its node carries an amount of water, not a temperature.
    double most_K = 0.0;
    for (std::size_t n = 0; n < state.size(); ++n) {
      if (model_.present[n] && n != heat::kNodeWater)
        most_K = std::max(most_K, std::abs(state[n] - before[n]));
    }
    if (most_K < settled_K) return state;
  }
  return std::nullopt;
}

double intercept_area_m2(const oven::OvenDesign& design, Flaps flaps, double incidence_rad) {
  constexpr int kRays = 65536;
  const oven::OvenGeometry geometry =
      oven::build_geometry(design, nullptr, flaps == Flaps::kLaidIn);
  const optics::Tracer tracer(geometry, design.panes);
  const base::Direction towards{0.0, -std::sin(incidence_rad), std::cos(incidence_rad)};
  return tracer.trace(towards, kRays, 0.5).launched_m2;
}
}  // namespace ovendays::study
