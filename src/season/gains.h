// SPDX-License-Identifier: MIT
// From sky, spot and optics to what drives the oven: for a day, the surroundings and the sun
// absorbed by each surface, under every load the oven can hold. Private to season.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "ovendays/heat/forcing.h"
#include "ovendays/optics/acceptance.h"
#include "ovendays/season/case.h"
#include "ovendays/sky/sky_year.h"
#include "ovendays/spot/scene.h"
#include "ovendays/task/aim.h"

namespace ovendays::season {

/// Points along each side of the mouth from which the sun is looked for.
inline constexpr int kMouthGrid = 5;

/// Acceptance integrated over what the spot shows of the sky, for one orientation: times an
/// irradiance it gives what the surfaces absorb [m2].
struct DiffuseGain {
  using Areas = std::array<double, oven::kSurfaces>;
  Areas isotropic_m2{};                           ///< x isotropic_horizontal
  Areas horizon_m2{};                             ///< x horizon
  Areas ground_m2{};                              ///< x radiosity of the ground
  std::array<Areas, spot::kFacings> facing_m2{};  ///< x irradiance on obstructions facing each way
  double sky_share = 1.0;  ///< of the outermost pane's infrared that meets open sky
  // The same for a bare plane in the mouth, for the results: view factors [1].
  double plane_isotropic = 1.0, plane_horizon = 0.0, plane_ground = 0.0;
  std::array<double, spot::kFacings> plane_facing{};
};

struct LoadOptics;

/// DiffuseGain over azimuth (36 steps, linear between) for each notch of the prop.
class DiffuseTable {
 public:
  static constexpr int kAzimuths = 36;
  DiffuseTable() = default;
  explicit DiffuseTable(int tilts) : gains_(static_cast<std::size_t>(tilts) * kAzimuths) {}
  /// Fills one orientation; distinct jobs may run in parallel. job = tilt index * kAzimuths +
  /// azimuth index.
  void fill(int job, double glazing_tilt_rad, const LoadOptics& load, const spot::SpotMask& mask);
  [[nodiscard]] DiffuseGain at(int tilt_index, double azimuth_rad) const;
  [[nodiscard]] bool empty() const { return gains_.empty(); }

 private:
  std::vector<DiffuseGain> gains_;
};

/// What one load of the oven takes in, with flaps set or laid in.
struct LoadOptics {
  explicit LoadOptics(optics::AcceptanceTable acceptance);
  optics::AcceptanceTable table;
  double outer_ir_m2;                 ///< the outermost pane's infrared through the whole mouth
  std::vector<DiffuseTable> diffuse;  ///< one per distinct mask of the spot
  DiffuseTable diffuse_open;          ///< had nothing stood around
};

/// Everything of the year that gains are made from. Immutable once set up.
struct GainSetup {
  const Case* c = nullptr;
  const spot::Scene* scene = nullptr;
  std::vector<spot::SpotMask> masks;  ///< distinct ones
  std::array<std::size_t, 12> mask_of_month{};
  spot::SpotMask open_mask;
  std::vector<LoadOptics> loads;   ///< "empty" first
  std::vector<LoadOptics> stowed;  ///< the same with flaps laid in; empty where never needed
  double mouth_width_m = 0.4, mouth_length_m = 0.4, mouth_radius_m = 0.3;
  double wall_skin_m2 = 0.5;
};

/// What is taken away when asking for a cause.
struct Without {
  bool obstruction = false;
  bool cloud = false;
  bool aim = false;
  bool wind = false;
};

/// The pieces of one day, 0 h to 24 h.
struct GainDay {
  std::vector<heat::AirSegment> air;
  std::vector<std::vector<heat::GainSegment>> gains;  ///< by load
  std::vector<task::Aim> aims;
  /// For the results, one per piece: at start and end.
  struct Light {
    double visible[2], beam_mouth_Wm2[2], open_beam_mouth_Wm2[2], diffuse_mouth_Wm2[2], dni_Wm2[2];
  };
  std::vector<Light> light;
};

/// Under every load.
GainDay make_gain_day(const GainSetup& setup, const sky::SkyDay& day, const Without& without);
}  // namespace ovendays::season
