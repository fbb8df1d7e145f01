// SPDX-License-Identifier: MIT
#include "ovendays/base/units.h"

#include <thread>
#include <vector>

#include "catch.h"
#include "ovendays/base/constants.h"
#include "unit_table.h"

using ovendays::base::Dimension;
using ovendays::base::parse_quantity;
using ovendays::base::quantity_complaint;
using ovendays::base::quantity_text;
using ovendays::test::within_abs;
using ovendays::test::within_rel;

namespace {
struct Case {
  const char* text;
  Dimension dimension;
  double si;
};
// Rounding of a product of two or three decimal factors.
constexpr double kRounding = 1e-14;

void require_all(const std::vector<Case>& cases, double tolerance) {
  for (const Case& c : cases) {
    INFO(c.text);
    const auto got = parse_quantity(c.text, c.dimension);
    REQUIRE(got.has_value());
    REQUIRE_THAT(*got, within_rel(c.si, tolerance));
  }
}
}  // namespace

TEST_CASE("every row of the table of everyday units equals UDUNITS-2", "[base][identity]") {
  REQUIRE(ovendays::base::known_units().size() > 40);
  for (const auto& known : ovendays::base::known_units()) {
    INFO(std::string(known.spelling));
    const auto factor = ovendays::base::udunits_factor(known.spelling, known.dimension);
    REQUIRE(factor.has_value());
    REQUIRE_THAT(known.factor.scale, within_rel(factor->scale, 1e-12));  // slope by difference
    REQUIRE_THAT(known.factor.offset, within_abs(factor->offset, 1e-12));
  }
}

TEST_CASE("everyday lengths, masses and times are converted to SI", "[base][reference]") {
  // NIST SP 811 (2008), appendix B.8: inch, foot, pound, ounce, yard and mile are exact.
  require_all({{"18 in", Dimension::kLength, 0.4572},
               {"6 mm", Dimension::kLength, 0.006},
               {"2.5ft", Dimension::kLength, 0.762},
               {"1 yd", Dimension::kLength, 0.9144},
               {"3/4 in", Dimension::kLength, 0.01905},
               {"1 1/2 in", Dimension::kLength, 0.0381},
               {"0.5 lb", Dimension::kMass, 0.226796185},
               {"2 lbs", Dimension::kMass, 0.90718474},
               {"8 oz", Dimension::kMass, 0.22679618500},
               {"20 min", Dimension::kTime, 1200.0},
               {"1.5 h", Dimension::kTime, 5400.0},
               {"1 hr", Dimension::kTime, 3600.0},
               {"2 days", Dimension::kTime, 172800.0},
               {"10 mph", Dimension::kSpeed, 4.4704},
               {"36 km/h", Dimension::kSpeed, 10.0},
               {"2 ft2", Dimension::kArea, 0.18580608}},
              kRounding);
}

TEST_CASE("kitchen volumes are US customary units", "[base][reference]") {
  // NIST SP 811 appendix B.8, figures to seven digits; UDUNITS-2 holds the gallon to seven.
  require_all({{"1 qt", Dimension::kVolume, 9.463529e-4},
               {"1 gal", Dimension::kVolume, 3.785412e-3},
               {"1 cup", Dimension::kVolume, 2.365882e-4},
               {"1 oz", Dimension::kVolume, 2.957353e-5},
               {"2 L", Dimension::kVolume, 2e-3},
               {"250 mL", Dimension::kVolume, 2.5e-4}},
              3e-7);
}

TEST_CASE("temperatures have an offset and temperature differences have none",
          "[base][reference]") {
  // Fixed points of the scales by definition: 32 F = 0 C = 273.15 K, 212 F = 100 C.
  require_all({{"32 F", Dimension::kTemperature, 273.15},
               {"212 F", Dimension::kTemperature, 373.15},
               {"-5 C", Dimension::kTemperature, 268.15},
               {"-40 degF", Dimension::kTemperature, 233.15},
               {"20 \u00B0C", Dimension::kTemperature, 293.15},
               {"293 K", Dimension::kTemperature, 293.0},
               {"293", Dimension::kTemperature, 293.0},
               {"10 F", Dimension::kTemperatureDifference, 50.0 / 9.0},
               {"10 C", Dimension::kTemperatureDifference, 10.0}},
              kRounding);
}

TEST_CASE("everything after the slash of a conductivity is its denominator", "[base][identity]") {
  for (const char* text :
       {"0.04 W/mK", "0.04 W/m K", "0.04 W/(m K)", "0.04 W/m/K", "0.04 W m-1 K-1"}) {
    INFO(text);
    REQUIRE_THAT(parse_quantity(text, Dimension::kConductivity).value(), within_rel(0.04, 1e-12));
  }
  for (const char* text : {"5 W/m2K", "5 W/m2 K", "5 W/(m2 K)", "5 W m-2 K-1"}) {
    INFO(text);
    REQUIRE_THAT(parse_quantity(text, Dimension::kConductance).value(), within_rel(5.0, 1e-12));
  }
  require_all({{"900 J/kgK", Dimension::kSpecificHeat, 900.0},
               {"0.9 kJ/kg K", Dimension::kSpecificHeat, 900.0},
               {"24 kg/m3", Dimension::kDensity, 24.0},
               {"4 1/m", Dimension::kInverseLength, 4.0},
               {"4 /m", Dimension::kInverseLength, 4.0},
               {"0.04 1/cm", Dimension::kInverseLength, 4.0},
               {"800 W/m2", Dimension::kIrradiance, 800.0}},
              1e-12);
  // NIST SP 811 appendix B.8: 1 Btu(IT) in/(h ft2 F) = 0.1442279 W/(m K).
  REQUIRE_THAT(parse_quantity("1 Btu in/(h ft2 F)", Dimension::kConductivity).value(),
               within_rel(0.1442279, 1e-6));
}

TEST_CASE("angles without a unit are degrees and percentages are dimensionless", "[base][unit]") {
  require_all({{"30", Dimension::kAngle, ovendays::base::kPi / 6.0},
               {"30 deg", Dimension::kAngle, ovendays::base::kPi / 6.0},
               {"0.5 rad", Dimension::kAngle, 0.5},
               {"85 %", Dimension::kNumber, 0.85},
               {"85%", Dimension::kNumber, 0.85},
               {"0.85", Dimension::kNumber, 0.85}},
              kRounding);
  REQUIRE_FALSE(parse_quantity("10 %", Dimension::kAngle));
  REQUIRE_FALSE(parse_quantity("10 deg", Dimension::kNumber));
}

TEST_CASE("text that is not a finite quantity of the right kind is rejected", "[base][unit]") {
  for (const char* text : {"",      " ",       "nan",   "inf",         "1e999", "-inf m",
                           "m",     "3 kg",    "3 m m", "3 5 m",       "3 m x", "0x10 m",
                           "1/0 m", "3 m @ 5", "3 s",   "3 s-1",       "3 1/m", "3 mm since 2000",
                           "--3 m", "3,5 m",   "3 C",   "3 lg(re 1 m)"}) {
    INFO(text);
    REQUIRE_FALSE(parse_quantity(text, Dimension::kLength));
  }
  REQUIRE_FALSE(parse_quantity("3 hours since 2000-01-01", Dimension::kTime));
  REQUIRE_FALSE(parse_quantity("3 Hz", Dimension::kTime));
  REQUIRE_FALSE(parse_quantity(std::string(100000, '('), Dimension::kLength));
  REQUIRE_FALSE(parse_quantity(std::string("1 ").append(100000, 'm'), Dimension::kLength));
}

TEST_CASE("a complaint names the expected kind of quantity", "[base][unit]") {
  REQUIRE(quantity_complaint("3 kg", Dimension::kLength) == "3 kg is not a length");
  REQUIRE(quantity_complaint("abc", Dimension::kLength) == "'abc' is not a quantity");
  REQUIRE(quantity_complaint("", Dimension::kMass) == "'' is not a quantity");
  REQUIRE(quantity_complaint(std::string(5000, 'x'), Dimension::kMass).size() < 100);
}

TEST_CASE("values are printed in the unit a reader expects", "[base][unit]") {
  REQUIRE(quantity_text(190.0 * ovendays::base::kRadPerDeg, Dimension::kAngle) == "190 deg");
  REQUIRE(quantity_text(0.4572, Dimension::kLength) == "0.4572 m");
  REQUIRE(quantity_text(0.006, Dimension::kLength) == "6 mm");
  REQUIRE(quantity_text(0.0, Dimension::kLength) == "0 m");
  REQUIRE(quantity_text(293.15, Dimension::kTemperature) == "20 degC");
  REQUIRE(quantity_text(1200.0, Dimension::kTime) == "20 min");
  REQUIRE(quantity_text(14400.0, Dimension::kTime) == "4 h");
  REQUIRE(quantity_text(0.85, Dimension::kNumber) == "0.85");
}

TEST_CASE("many threads parse units to the same values", "[base][determinism]") {
  std::vector<std::thread> threads;
  std::vector<double> sums(4, 0.0);
  for (double& sum : sums) {
    threads.emplace_back([&sum] {
      for (int i = 0; i < 200; ++i) {
        sum += parse_quantity("3 inHg", Dimension::kPressure).value_or(0.0) +
               parse_quantity("1 fathom", Dimension::kLength).value_or(0.0);
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  REQUIRE(sums[0] > 0.0);
  for (const double sum : sums) REQUIRE(sum == sums[0]);
}
