// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/sky/sky_model.h"

namespace ovendays::sky {
namespace {
constexpr double kCloudBaseFactor = 0.783564;  // exp(-2 km / 8.2 km)

double fourth_root(double x) { return std::sqrt(std::sqrt(x)); }
}  // namespace

double clear_sky_emissivity(double dew_point_K, double hour_of_day, double pressure_Pa) {
  const double dew = (dew_point_K - base::kZeroCelsius_K) / 100.0;
  const double emissivity = 0.711 + dew * (0.56 + 0.73 * dew) +
                            0.013 * std::cos(base::kTwoPi * hour_of_day / 24.0) +
                            0.00012 * (pressure_Pa / 100.0 - 1000.0);
  return std::min(1.0, emissivity);
}

double sky_temperature_K(const SkyInfraredInput& input) {
  if (input.horizontal_ir_Wm2 > 0.0) {
    return fourth_root(input.horizontal_ir_Wm2 / base::kStefanBoltzmann_Wm2K4);
  }
  const double clear =
      clear_sky_emissivity(input.dew_point_K, input.hour_of_day, input.pressure_Pa);
  const double emissivity = clear + (1.0 - clear) * input.cloud_fraction * kCloudBaseFactor;
  return input.dry_bulb_K * fourth_root(emissivity);
}
}  // namespace ovendays::sky
