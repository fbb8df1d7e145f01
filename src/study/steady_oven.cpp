// SPDX-License-Identifier: MIT
#include "ovendays/study/steady_oven.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"
#include "ovendays/gains/load_optics.h"
#include "ovendays/gains/surroundings.h"
#include "ovendays/optics/exchange.h"

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

constexpr double kHour_s = base::kSecondsPerHour;
constexpr double kAllVisible = 1.0;  // nothing stands around
constexpr double kOpenSky = 1.0;

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

/// The sun of a trial and what the ground sends back, on open ground.
struct SteadyLight {
  gains::Light light;
  gains::SurroundingLight around;
  base::Direction to_sun;
};

SteadyLight steady_light(const SteadySun& sun) {
  const BeamAndDiffuse parts = light_of(sun);
  SteadyLight steady;
  steady.to_sun = base::direction_from_sky(base::kPi, 0.5 * base::kPi - sun.sun_zenith_rad);
  steady.light.dni_Wm2 = parts.beam_Wm2;
  steady.light.dhi_Wm2 = steady.light.isotropic_horizontal_Wm2 = parts.diffuse_Wm2;
  steady.light.ghi_Wm2 = parts.beam_Wm2 * std::cos(sun.sun_zenith_rad) + parts.diffuse_Wm2;
  steady.around = gains::surrounding_light(
      steady.light, steady.to_sun, sun.sun_zenith_rad, kAllVisible, kOpenSky, sun.albedo);
  return steady;
}

/// Diffuse light on an oven at the sun's azimuth, on open ground.
gains::DiffuseGain open_diffuse(const optics::AcceptanceTable& table, double glazing_tilt_rad) {
  const gains::LoadOptics load =
      gains::make_load_optics(table, std::span(&glazing_tilt_rad, 1), gains::open_mask());
  gains::DiffuseGain diffuse;
  load.open.at(0, base::kPi, diffuse);
  return diffuse;
}

heat::Surroundings surroundings_of(const SteadySun& sun,
                                   const SteadyLight& steady,
                                   const gains::Skin& skin,
                                   double pane_sky_share) {
  const double sky_K = sun.sky_K.value_or(swinbank_sky_K(sun.ambient_K));
  heat::Surroundings around;
  around.ambient_K = sun.ambient_K;
  around.pane_env_K4 = gains::environment_K4(pane_sky_share, sky_K, sun.ambient_K);
  around.skin_env_K4 =
      gains::environment_K4(gains::upright_sky_share(kOpenSky), sky_K, sun.ambient_K);
  around.wind_ms = sun.wind_ms;
  around.skin_gain_W =
      gains::skin_gain_W(skin, steady.light, steady.around, sun.sun_zenith_rad, kOpenSky);
  return around;
}

std::array<double, oven::kSurfaces> absorbed_by(const SteadySun& sun,
                                                const SteadyLight& steady,
                                                const optics::AcceptanceTable& table,
                                                const gains::DiffuseGain& diffuse) {
  const base::Frame frame = oven::mouth_frame({}, base::kPi, sun.glazing_tilt_rad);
  const base::Vec3 local = frame.local_from_world(steady.to_sun);
  optics::AcceptanceRow beam_W{};
  if (local.z > 0.0)
    gains::add_light(steady.light.dni_Wm2, table.row_in(table.cell_of(local)), beam_W);
  const optics::AcceptanceRow absorbed_W =
      gains::absorbed_W(beam_W, steady.light, steady.around, diffuse);
  std::array<double, oven::kSurfaces> gain_W{};
  std::copy_n(absorbed_W.begin(), gain_W.size(), gain_W.begin());
  return gain_W;
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
  return absorbed_by(sun, steady_light(sun), table_, open_diffuse(table_, sun.glazing_tilt_rad));
}

SteadyOven::Outcome SteadyOven::run(const SteadySun& sun,
                                    const heat::State& start,
                                    double interval_s,
                                    int intervals) const {
  const SteadyLight steady = steady_light(sun);
  const gains::DiffuseGain diffuse = open_diffuse(table_, sun.glazing_tilt_rad);
  const auto gain_W = absorbed_by(sun, steady, table_, diffuse);
  heat::AirSegment air;
  air.start = air.end =
      surroundings_of(sun, steady, {skin_absorptance_, model_.wall_skin_m2}, diffuse.sky_share);
  air.glazing_tilt_rad = sun.glazing_tilt_rad;
  air.vapour_Pa = sun.vapour_Pa;
  air.pane_wind_factor = pane_wind_factor_;
  air.end_s = interval_s;
  const heat::GainSegment gains{gain_W, gain_W};
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
