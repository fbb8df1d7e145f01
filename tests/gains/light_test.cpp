// SPDX-License-Identifier: MIT
// The light of an instant between two instants of the sky.
#include "ovendays/gains/light.h"

#include <array>
#include <bit>

#include "catch.h"

using namespace ovendays;
using test::within_abs;

namespace {
using Numbers = std::array<double, sizeof(sky::SkyState) / sizeof(double)>;

/// A state whose numbers all differ; the sun's direction is a unit vector and the azimuth is that
/// of the direction, as sky makes them.
sky::SkyState made_state(double first, double azimuth_rad) {
  Numbers numbers{};
  for (std::size_t i = 0; i < numbers.size(); ++i) numbers[i] = first + static_cast<double>(i);
  auto state = std::bit_cast<sky::SkyState>(numbers);
  state.to_sun = base::direction_from_sky(azimuth_rad, 0.5);
  state.azimuth_rad = azimuth_rad;
  return state;
}
}  // namespace

TEST_CASE("every number of a state runs from one end of a segment to the other",
          "[gains][identity]") {
  const sky::SkyState a = made_state(10.0, 1.0);
  const sky::SkyState b = made_state(1000.0, 1.2);
  for (const double share : {0.0, 0.25, 1.0}) {
    const sky::SkyState between = gains::interpolate(a, b, share);
    const auto first = std::bit_cast<Numbers>(a);
    const auto last = std::bit_cast<Numbers>(b);
    const auto got = std::bit_cast<Numbers>(between);
    for (std::size_t i = 0; i < got.size(); ++i) {
      INFO("number " << i << " of SkyState, share " << share);
      // The direction and its azimuth run along a chord that is scaled to unit length: with ends
      // 0.2 rad apart a chord lies at most 0.005 below its arc. All else is linear, to rounding.
      const bool direction = i < 3 || i == 4;
      const double tolerance = direction && share > 0.0 && share < 1.0 ? 0.005 : 1e-9;
      CHECK_THAT(got[i], within_abs(first[i] + share * (last[i] - first[i]), tolerance));
    }
    CHECK_THAT(base::norm(between.to_sun), within_abs(1.0, 1e-15));
    CHECK_THAT(between.azimuth_rad, within_abs(base::azimuth_of(between.to_sun), 1e-15));
  }
}

TEST_CASE("a sky without its cloud gives the clear light", "[gains][unit]") {
  sky::SkyState state;
  state.zenith_rad = base::kPi / 3.0;  // cos = 1/2
  state.dni_Wm2 = 100.0;
  state.dhi_Wm2 = 200.0;
  state.ghi_Wm2 = 250.0;
  state.clear_dni_Wm2 = 800.0;
  state.clear_dhi_Wm2 = 90.0;
  CHECK(gains::light_of(state, false).ghi_Wm2 == 250.0);
  const gains::Light clear = gains::light_of(state, true);
  CHECK(clear.dni_Wm2 == 800.0);
  CHECK_THAT(clear.ghi_Wm2, within_abs(800.0 * 0.5 + 90.0, 1e-9));
}
