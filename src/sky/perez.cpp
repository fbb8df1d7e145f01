// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/sun/sun.h"
#include "sun_height.h"

namespace ovendays::sky {
namespace {
// Upper limits of the clearness bins 1..7 (Table 1). A limit itself belongs to the next bin.
constexpr std::array<double, 7> kBinEdges = {1.065, 1.230, 1.500, 1.950, 2.800, 4.500, 6.200};
// Coefficients F11 F12 F13 F21 F22 F23 of each bin (Table 6, all-sites composite).
constexpr std::array<std::array<double, 6>, 8> kCoefficients = {
    {{-0.008, 0.588, -0.062, -0.060, 0.072, -0.022},
     {0.130, 0.683, -0.151, -0.019, 0.066, -0.029},
     {0.330, 0.487, -0.221, 0.055, -0.064, -0.026},
     {0.568, 0.187, -0.295, 0.109, -0.152, -0.014},
     {0.873, -0.392, -0.362, 0.226, -0.462, 0.001},
     {1.132, -1.237, -0.412, 0.288, -0.823, 0.056},
     {1.060, -1.600, -0.359, 0.264, -1.127, 0.131},
     {0.678, -0.327, -0.250, 0.156, -1.377, 0.251}}};
constexpr double kKappa = 1.041;                              // per rad^3, eq. 1
constexpr double kCircumsolarCosZenith = 0.0871557427476582;  // cos 85 deg
}  // namespace

SunHeight::SunHeight(double apparent_zenith_rad)
    : zenith_rad(std::min(apparent_zenith_rad, base::kPi / 2.0)),
      cos_zenith(std::cos(zenith_rad)),
      air_mass(sun::relative_air_mass(zenith_rad)) {}

PerezParts perez_parts(const SkyInstant& instant) {
  if (!(instant.dhi_Wm2 > 0.0)) return {};
  return perez_parts(
      SunHeight(instant.zenith_rad), instant.dni_Wm2, instant.dhi_Wm2, instant.dni_extra_Wm2);
}

PerezParts perez_parts(const SunHeight& sun, double dni_Wm2, double dhi_Wm2, double dni_extra_Wm2) {
  OVENDAYS_DCHECK(dni_extra_Wm2 > 0.0);
  PerezParts parts;
  if (!(dhi_Wm2 > 0.0)) return parts;
  const double z = sun.zenith_rad;
  const double kz3 = kKappa * z * z * z;
  parts.epsilon = ((dhi_Wm2 + dni_Wm2) / dhi_Wm2 + kz3) / (1.0 + kz3);
  parts.delta = dhi_Wm2 * sun.air_mass / dni_extra_Wm2;
  const auto edge = std::upper_bound(kBinEdges.begin(), kBinEdges.end(), parts.epsilon);
  const auto bin = static_cast<std::size_t>(edge - kBinEdges.begin());
  parts.bin = static_cast<int>(bin) + 1;
  const auto& c = kCoefficients[bin];
  parts.f1 = std::clamp(c[0] + c[1] * parts.delta + c[2] * z, 0.0, 1.0);
  parts.f2 = c[3] + c[4] * parts.delta + c[5] * z;
  parts.circumsolar_normal_Wm2 =
      dhi_Wm2 * parts.f1 / std::max(sun.cos_zenith, kCircumsolarCosZenith);
  parts.isotropic_horizontal_Wm2 = dhi_Wm2 * (1.0 - parts.f1);
  parts.horizon_Wm2 = dhi_Wm2 * parts.f2;
  return parts;
}

double perez_tilted_sky_Wm2(const PerezParts& parts, double tilt_rad, double cos_incidence) {
  const double isotropic_Wm2 = parts.isotropic_horizontal_Wm2 * 0.5 * (1.0 + std::cos(tilt_rad));
  const double circumsolar_Wm2 = parts.circumsolar_normal_Wm2 * std::max(0.0, cos_incidence);
  const double horizon_Wm2 = parts.horizon_Wm2 * std::sin(tilt_rad);
  return std::max(0.0, isotropic_Wm2 + circumsolar_Wm2 + horizon_Wm2);
}
}  // namespace ovendays::sky
