// SPDX-License-Identifier: MIT
#include "ovendays/gains/surroundings.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::gains {
namespace {
double fourth(double x) { return x * x * x * x; }
}  // namespace

SurroundingLight surrounding_light(const Light& light,
                                   const base::Direction& to_sun,
                                   double zenith_rad,
                                   double visible,
                                   double sky_view,
                                   double albedo) {
  SurroundingLight around;
  around.visible = visible;
  if (!light.any()) return around;
  const double beam_Wm2 = light.dni_Wm2 * std::max(0.0, std::cos(zenith_rad));
  around.ground_Wm2 = albedo * (beam_Wm2 * visible + light.dhi_Wm2 * sky_view);
  const double upright_Wm2 = 0.5 * light.dhi_Wm2 + 0.5 * albedo * light.ghi_Wm2;
  // In the order of spot::Facing: north, east, south, west.
  const std::array<double, 4> towards = {to_sun.y, to_sun.x, -to_sun.y, -to_sun.x};
  for (std::size_t f = 0; f < towards.size(); ++f)
    around.facing_Wm2[f] = light.dni_Wm2 * std::max(0.0, towards[f]) + upright_Wm2;
  around.facing_Wm2[static_cast<std::size_t>(spot::Facing::kDown)] = around.ground_Wm2;
  return around;
}

double environment_K4(double sky_share, double sky_K, double air_K) {
  return sky_share * fourth(sky_K) + (1.0 - sky_share) * fourth(air_K);
}

double skin_gain_W(const Skin& skin,
                   const Light& light,
                   const SurroundingLight& around,
                   double zenith_rad,
                   double sky_view) {
  if (!light.any()) return 0.0;
  const double beam_Wm2 =
      light.beam_normal_Wm2() * around.visible * std::sin(zenith_rad) / base::kPi;
  const double diffuse_Wm2 =
      0.5 * light.isotropic_horizontal_Wm2 * sky_view + 0.5 * around.ground_Wm2;
  return skin.absorptance * skin.area_m2 * (beam_Wm2 + diffuse_Wm2);
}
}  // namespace ovendays::gains
