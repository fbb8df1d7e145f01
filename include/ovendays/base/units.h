// SPDX-License-Identifier: MIT
// Conversion between quantities as people write them ("18 in", "350 F", "0.5 lb", "20 min") and SI,
// by a small built-in table and UDUNITS-2. Used where files are read and messages are worded; the
// rest of the program works in SI only.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ovendays::base {

/// The kind of quantity that a number stands for. The unit beside each kind is the one assumed for
/// a number without a unit, and the one of the result.
enum class Dimension {
  kNumber,                 ///< dimensionless; "%" is allowed
  kLength,                 ///< m
  kArea,                   ///< m2
  kAngle,                  ///< a number without a unit is in DEGREES, but the result is in rad
  kMass,                   ///< kg
  kTime,                   ///< s
  kTemperature,            ///< K
  kTemperatureDifference,  ///< K
  kSpeed,                  ///< m/s
  kPressure,               ///< Pa
  kConductivity,           ///< W/mK
  kConductance,            ///< W/m2K
  kDensity,                ///< kg/m3
  kSpecificHeat,           ///< J/kgK
  kIrradiance,             ///< W/m2
  kInverseLength,          ///< 1/m (extinction coefficient)
  kVolume,                 ///< m3; written for example as "2 qt" or "2 L"
  kPower,                  ///< W
  kEnergy,                 ///< J
};

/// The unit assumed for a number without a unit, for messages: "m", "deg", "K", ...
const char* si_unit_name(Dimension dimension);
/// The kind of quantity in words, for messages: "a length", "a time", ...
const char* dimension_phrase(Dimension dimension);

/// Parses a quantity: "18 in" as a kLength gives 0.4572.
///
/// Temperatures accept F, C and K ("350 F", "20 C", "293 K"); angles accept deg and rad. All other
/// units are those of UDUNITS-2, plus the spellings that cooks use: "lb", "oz" (a mass; as a volume
/// the US fluid ounce), "in", "ft", "cup", "qt", "gal", "L", "mph", "W/mK", "J/kgK". In "W/m K"
/// everything after the slash belongs to the denominator. Numbers may be fractions such as "3/4 in"
/// and "1 1/2 in".
/// Departures from UDUNITS-2: "F" and "C" never mean farad and coulomb, and "gal" is the US gallon.
/// @return the SI value [see Dimension]; nullopt if the text is not a finite quantity of that kind
/// @throws RunError if the unit database of UDUNITS-2 is needed but not installed
/// Thread-safe: yes.
std::optional<double> parse_quantity(std::string_view text, Dimension dimension);

/// The reason why parse_quantity() rejected a text: "3 kg is not a length" or "'abc' is not a
/// quantity". Thread-safe: yes.
std::string quantity_complaint(std::string_view text, Dimension dimension);

/// An SI value in the unit that a reader expects, for messages: 3.3161 rad becomes "190 deg".
/// Thread-safe: yes.
std::string quantity_text(double value_si, Dimension dimension);
}  // namespace ovendays::base
