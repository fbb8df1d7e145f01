// SPDX-License-Identifier: MIT
// What the ground and the obstructions around an oven send to it, and what the oven's outer skin
// takes in from them and from the sky. Both a season, in its weather and at its spot, and a test
// procedure under a steady sun are built from these functions.
#pragma once

#include <array>

#include "ovendays/base/vec.h"
#include "ovendays/gains/light.h"
#include "ovendays/spot/scene.h"

namespace ovendays::gains {

/// The light that the surroundings send out or receive at one instant [W/m2].
struct SurroundingLight {
  double visible = 1.0;     ///< share of the beam that reaches the oven, 0..1
  double ground_Wm2 = 0.0;  ///< radiosity of the ground
  /// Irradiance on obstructions that face each way; their reflectance is in the mask.
  std::array<double, spot::kFacings> facing_Wm2{};
};

/// The ground by the oven lies in the same shade as the oven and sees the same part of the sky:
/// its radiosity is albedo (dni cos(zenith) visible + dhi sky_view). An upright facing receives the
/// beam that falls on it, half of the diffuse light and half of what unshaded ground reflects; a
/// facing that looks down receives the ground's radiosity.
/// @param sky_view sky view factor of the ground, 0..1
SurroundingLight surrounding_light(const Light& light,
                                   const base::Direction& to_sun,
                                   double zenith_rad,
                                   double visible,
                                   double sky_view,
                                   double albedo);

/// Mean T^4 [K4] of surroundings that are open sky to a share and as warm as the air otherwise.
/// @param sky_share 0..1
double environment_K4(double sky_share, double sky_K, double air_K);

/// The share of open sky before an upright wall, which sees half a sky at best.
inline double upright_sky_share(double sky_view) { return 0.5 * sky_view; }

/// The outer skin of the box: upright faces that look evenly all round.
struct Skin {
  double absorptance = 0.0;  ///< of sunlight, 0..1
  double area_m2 = 0.0;
  bool operator==(const Skin&) const = default;
};

/// Sun absorbed by the outer skin [W]: beam (circumsolar light included) by the mean of
/// max(0, cos(azimuth)) over all azimuths, 1/pi; half of the isotropic sky that is open; half of
/// the ground's radiosity. The horizon band is left out.
double skin_gain_W(const Skin& skin,
                   const Light& light,
                   const SurroundingLight& around,
                   double zenith_rad,
                   double sky_view);
}  // namespace ovendays::gains
