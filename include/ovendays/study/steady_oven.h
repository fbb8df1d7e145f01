// SPDX-License-Identifier: MIT
// An oven under a constant sun, without weather or obstructions. The published test procedures and
// the comparison with measured ovens use it.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "ovendays/heat/integrator.h"
#include "ovendays/heat/model.h"
#include "ovendays/optics/acceptance.h"
#include "ovendays/oven/design.h"

namespace ovendays::study {

/// Light and air of a trial. The oven faces the sun's azimuth, with its glazing at a given tilt.
struct SteadySun {
  double irradiance_Wm2 = 850.0;  ///< beam and diffuse on the plane `plane`
  /// The plane of irradiance_Wm2: the oven's glazing, normal to the beam, or horizontal.
  enum class Plane { kGlazing, kNormalToBeam, kHorizontal } plane = Plane::kGlazing;
  /// Diffuse over global on the horizontal, isotropic. 0.15 is a clear noon; judgement, no source.
  double diffuse_share = 0.15;
  double sun_zenith_rad = 0.35;
  double glazing_tilt_rad = 0.0;  ///< from horizontal, towards the sun
  double ambient_K = 303.15;
  std::optional<double>
      sky_K;             ///< nullopt: swinbank_sky_K of the air; in a room, that of its walls
  double wind_ms = 1.0;  ///< at the oven
  double albedo = 0.2;
  double vapour_Pa = 1500.0;  ///< of the outside air
};

/// Beam (normal) and diffuse (horizontal) irradiance [W/m2].
struct BeamAndDiffuse {
  double beam_Wm2;
  double diffuse_Wm2;
};
/// Splits the irradiance of a SteadySun. Sky and ground are isotropic: on a plane of tilt b,
/// I = B cos(incidence) + D (1 + cos b)/2 + albedo G (1 - cos b)/2 with G = B cos(zenith) + D and
/// D = share G (Liu and Jordan 1963; Duffie and Beckman eq. 2.15.1), solved for B. The sun must be
/// above the horizon and in front of the plane.
BeamAndDiffuse light_of(const SteadySun& sun);

/// Clear-sky temperature [K], 0.0552 T^1.5 of the air's (Swinbank 1963, as in Duffie and Beckman
/// eq. 3.9.2).
double swinbank_sky_K(double ambient_K);

/// Whether an oven's flaps are open to the sun or folded away.
enum class Flaps { kSet, kLaidIn };

/// A design with its load and flaps, traced and ready to be run. Immutable and thread-safe.
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
  /// Solar power absorbed by each surface [W].
  [[nodiscard]] std::array<double, oven::kSurfaces> gains_W(const SteadySun& sun) const;

  struct Outcome {
    std::vector<heat::State> at;  ///< the state at the start and at the end of every interval
    heat::RunSummary summary;     ///< sums over all intervals
  };
  /// Runs from `start` through `intervals` intervals of `interval_s` [s] each.
  /// @throws base::RunError where the integrator fails
  [[nodiscard]] Outcome run(const SteadySun& sun,
                            const heat::State& start,
                            double interval_s,
                            int intervals) const;
  /// Runs until no node changes by more than `settled_K` in an hour. @return nullopt if that takes
  /// longer than 48 h. @throws base::RunError where the integrator fails
  [[nodiscard]] std::optional<heat::State> stagnate(const SteadySun& sun,
                                                    double settled_K = 0.05) const;

 private:
  double skin_absorptance_;
  double pane_wind_factor_;
  heat::HeatModel model_;
  optics::AcceptanceTable table_;
};

/// Intercept area of ASAE S580 [m2]: glazing and reflectors projected on the plane normal to the
/// beam; parts that shade each other count once.
/// @param incidence_rad angle between the glazing's normal and the sun, positive towards the front
double intercept_area_m2(const oven::OvenDesign& design, Flaps flaps, double incidence_rad);
}  // namespace ovendays::study
