// SPDX-License-Identifier: MIT
// An oven under a sun that does not move: no weather, no spot, nothing around. What the published
// test procedures ask for, and what measured ovens are held against.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "ovendays/heat/integrator.h"
#include "ovendays/heat/model.h"
#include "ovendays/optics/acceptance.h"
#include "ovendays/oven/design.h"

namespace ovendays::study {

/// The light and air of a trial. The oven faces the sun's azimuth; its glazing stands at a tilt of
/// its own.
struct SteadySun {
  double irradiance_Wm2 = 850.0;  ///< beam and diffuse on a plane, see `plane`
  /// The plane on which irradiance_Wm2 is measured: the oven's glazing, square to the beam, level.
  enum class Plane { kGlazing, kNormalToBeam, kHorizontal } plane = Plane::kGlazing;
  /// Diffuse over global on the horizontal, isotropic. 0.15 is a clear noon; judgement, no source.
  double diffuse_share = 0.15;
  double sun_zenith_rad = 0.35;
  double glazing_tilt_rad = 0.0;  ///< from horizontal, towards the sun
  double ambient_K = 303.15;
  std::optional<double> sky_K;  ///< nullopt: swinbank_sky_K of the air; a room: its walls
  double wind_ms = 1.0;         ///< at the oven
  double albedo = 0.2;
  double vapour_Pa = 1500.0;  ///< of the outside air
};

/// Beam (normal) and diffuse (horizontal) that give a SteadySun its irradiance [W/m2].
struct BeamAndDiffuse {
  double beam_Wm2;
  double diffuse_Wm2;
};
/// Isotropic sky and ground: on a plane of tilt b, I = B cos(incidence) + D (1 + cos b)/2 +
/// albedo G (1 - cos b)/2 with G = B cos(zenith) + D and D = share G (Liu and Jordan 1963; Duffie
/// and Beckman eq. 2.15.1), solved for B. The sun must stand above the horizon and the plane.
BeamAndDiffuse light_of(const SteadySun& sun);

/// Clear-sky temperature [K], 0.0552 T^1.5 of the air's (Swinbank 1963, as in Duffie and Beckman
/// eq. 3.9.2).
double swinbank_sky_K(double ambient_K);

/// Whether an oven's flaps are open to the sun or folded away.
enum class Flaps { kSet, kLaidIn };

/// A design, its load and its flaps, traced and ready to be run. Immutable once made; thread-safe.
class SteadyOven {
 public:
  /// @param vessel and @param food together, or both nullptr for the empty oven
  SteadyOven(const oven::OvenDesign& design,
             const oven::Vessel* vessel,
             const heat::FoodLoad* food,
             Flaps flaps,
             const optics::OpticsOptions& optics,
             double pressure_Pa);

  [[nodiscard]] const heat::HeatModel& model() const { return model_; }
  /// Sun absorbed by each surface [W].
  [[nodiscard]] std::array<double, oven::kSurfaces> gains_W(const SteadySun& sun) const;

  struct Outcome {
    std::vector<heat::State> at;  ///< the state at the start and at the end of every interval
    heat::RunSummary summary;     ///< of all intervals together
  };
  /// Runs from `start` through `intervals` intervals of `interval_s` [s] each.
  /// @throws base::RunError when the integrator gives up
  [[nodiscard]] Outcome run(const SteadySun& sun,
                            const heat::State& start,
                            double interval_s,
                            int intervals) const;
  /// Runs until no node rises by more than `settled_K` in an hour, 48 h at most. nullopt where it
  /// has not settled by then. @throws base::RunError
  [[nodiscard]] std::optional<heat::State> stagnate(const SteadySun& sun,
                                                    double settled_K = 0.05) const;

 private:
  double skin_absorptance_;
  double pane_wind_factor_;
  heat::HeatModel model_;
  optics::AcceptanceTable table_;
};

/// The intercept area [m2] of ASAE S580: glazing and reflectors projected on the plane square to
/// the beam, what shades another part counted once.
/// @param incidence_rad between the glazing's normal and the sun, which stands towards the front
/// (positive) or the back (negative)
double intercept_area_m2(const oven::OvenDesign& design, Flaps flaps, double incidence_rad);
}  // namespace ovendays::study
