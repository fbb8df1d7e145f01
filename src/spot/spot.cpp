// SPDX-License-Identifier: MIT
// Interpolation of the far horizon, and the wind profile.
#include "ovendays/spot/spot.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::spot {

double Horizon::at(double azimuth) const {
  if (azimuth_rad.empty()) return 0.0;
  OVENDAYS_DCHECK(azimuth_rad.size() == elevation_rad.size());
  double a = std::fmod(azimuth, base::kTwoPi);
  if (a < 0.0) a += base::kTwoPi;
  const std::size_t size = azimuth_rad.size();
  const auto after = std::upper_bound(azimuth_rad.begin(), azimuth_rad.end(), a);
  const std::size_t next = static_cast<std::size_t>(after - azimuth_rad.begin()) % size;
  const std::size_t last = (next + size - 1) % size;
  double span = azimuth_rad[next] - azimuth_rad[last];
  double gone = a - azimuth_rad[last];
  if (span <= 0.0) span += base::kTwoPi;  // the interval contains north
  if (gone < 0.0) gone += base::kTwoPi;
  return elevation_rad[last] + (elevation_rad[next] - elevation_rad[last]) * gone / span;
}

double wind_profile_factor(Terrain terrain, double height_m) {
  struct Layer {
    double thickness_m;
    double exponent;
  };
  constexpr std::array<Layer, 3> kLayers = {Layer{270.0, 0.14}, {370.0, 0.22}, {460.0, 0.33}};
  constexpr double kStation_m = 10.0;
  OVENDAYS_CHECK(height_m > 0.0);
  // The wind of weather files is measured at 10 m in open country, as at airfields.
  const Layer& open = kLayers[0];
  const Layer& here = kLayers[static_cast<std::size_t>(terrain)];
  return std::pow(open.thickness_m / kStation_m, open.exponent) *
         std::pow(height_m / here.thickness_m, here.exponent);
}
}  // namespace ovendays::spot
