// SPDX-License-Identifier: MIT
#include "ovendays/gains/light.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ovendays::gains {
namespace {

using sky::SkyState;

/// All members that run linearly through a segment.
constexpr std::array kLinear = {&SkyState::zenith_rad,
                                &SkyState::dni_Wm2,
                                &SkyState::dhi_Wm2,
                                &SkyState::ghi_Wm2,
                                &SkyState::circumsolar_normal_Wm2,
                                &SkyState::isotropic_horizontal_Wm2,
                                &SkyState::horizon_Wm2,
                                &SkyState::clear_dni_Wm2,
                                &SkyState::clear_dhi_Wm2,
                                &SkyState::clear_circumsolar_normal_Wm2,
                                &SkyState::clear_isotropic_horizontal_Wm2,
                                &SkyState::clear_horizon_Wm2,
                                &SkyState::dry_bulb_K,
                                &SkyState::sky_K,
                                &SkyState::wind_ms};
// Besides these a state holds the sun's direction (three numbers) and its azimuth. A member that is
// added to SkyState and not here stops the build.
static_assert(sizeof(SkyState) == (kLinear.size() + 4) * sizeof(double));
}  // namespace

Light light_of(const SkyState& s, bool clear) {
  if (!clear) {
    return {s.dni_Wm2,
            s.dhi_Wm2,
            s.ghi_Wm2,
            s.circumsolar_normal_Wm2,
            s.isotropic_horizontal_Wm2,
            s.horizon_Wm2};
  }
  return {s.clear_dni_Wm2,
          s.clear_dhi_Wm2,
          s.clear_dni_Wm2 * std::max(0.0, std::cos(s.zenith_rad)) + s.clear_dhi_Wm2,
          s.clear_circumsolar_normal_Wm2,
          s.clear_isotropic_horizontal_Wm2,
          s.clear_horizon_Wm2};
}

SkyState interpolate(const SkyState& a, const SkyState& b, double share) {
  SkyState between;
  for (const auto member : kLinear) between.*member = a.*member + (b.*member - a.*member) * share;
  between.to_sun = base::normalized((1.0 - share) * a.to_sun + share * b.to_sun);
  between.azimuth_rad = base::azimuth_of(between.to_sun);
  return between;
}
}  // namespace ovendays::gains
