// SPDX-License-Identifier: MIT
// Compares our clear sky at noon with another model in each month, which checks zenith angle, air
// mass, distance and turbidity together.
#include <cmath>
#include <string>

#include "../sun/csv_rows.h"
#include "catch.h"
#include "ovendays/base/constants.h"
#include "ovendays/sky/sky_model.h"
#include "ovendays/sky/sky_year.h"
#include "ovendays/sun/sun.h"

using namespace ovendays;
using test::within_abs;

namespace {
/// Our clear sky at solar noon of the 21st at San Francisco airport.
sky::ClearSky clear_noon(int month, double turbidity) {
  constexpr double kHeight_m = 3.0;
  const sun::Place place{"",
                         (37.0 + 37.0 / 60.0) * base::kRadPerDeg,
                         -122.38 * base::kRadPerDeg,
                         kHeight_m,
                         -8.0 * 3600.0};
  const base::Date date{2009, month, 21};
  const double transit_s = sun::day_light(date, place).transit_s;
  const sun::SunPosition noon =
      sun::sun_position(base::utc_from_local(date, transit_s, place.utc_offset_s), place);
  return sky::clear_sky({noon.zenith_rad,
                         sun::extraterrestrial_normal_Wm2(noon.distance_au),
                         kHeight_m,
                         base::kStandardPressure_Pa,
                         turbidity});
}

/// The turbidity at which our beam equals the published one.
double matching_turbidity(int month, double beam_Wm2) {
  double low = 1.0;
  double high = 10.0;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    (clear_noon(month, middle).dni_Wm2 > beam_Wm2 ? low : high) = middle;
  }
  return low;
}
}  // namespace

TEST_CASE("clear noons of a year agree with another clear-sky model", "[sky][reference]") {
  // SUN-24 (seen). It is a different model, so its tolerance of 2 W/m2 does not apply. Recorded:
  // with the usual turbidity of the program our beam is up to 43 W/m2 (5 %) weaker, most in winter,
  // and our diffuse light up to 20 W/m2 weaker, most in spring.
  const auto rows = test::read_rows(std::string(OVENDAYS_TEST_DATA) + "/clear_noons.csv");
  REQUIRE(rows.size() == 12);
  const double usual = sky::SkyOptions{}.linke_turbidity;
  for (const test::CsvRow& row : rows) {
    const int month = std::stoi(row.text("month"));
    const double beam_Wm2 = row.number("beam_Wm2");
    const double diffuse_Wm2 = row.number("diffuse_Wm2");
    const sky::ClearSky ours = clear_noon(month, usual);
    INFO("month " << month << ": " << ours.dni_Wm2 << " and " << ours.dhi_Wm2);
    CHECK_THAT(ours.dni_Wm2, within_abs(beam_Wm2, 50.0));
    CHECK_THAT(ours.dhi_Wm2, within_abs(diffuse_Wm2, 22.0));
    // This turbidity is 2.7 to 3.0, in the usual range of case files (2 is crisp, 5 hazy). The
    // diffuse light is then up to 21 W/m2 below the published one.
    const double turbidity = matching_turbidity(month, beam_Wm2);
    CHECK(turbidity > 2.5);
    CHECK(turbidity < 3.2);
    CHECK_THAT(clear_noon(month, turbidity).dhi_Wm2, within_abs(diffuse_Wm2, 22.0));
  }
}
