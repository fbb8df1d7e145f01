// SPDX-License-Identifier: MIT
// Quantities as a person writes them ("18 in", "350 F", "0.5 lb", "6 mm", "20 min"), turned into SI
// by UDUNITS-2. Used at the file boundary only; inside everything is SI.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ovendays::base {

/// What a number stands for. A bare number is taken in the SI unit given here.
enum class Dimension {
  kNumber,                 ///< pure number; "%" is allowed
  kLength,                 ///< m
  kArea,                   ///< m2
  kAngle,                  ///< bare numbers are DEGREES (the one exception to SI); result in rad
  kMass,                   ///< kg
  kTime,                   ///< s
  kTemperature,            ///< K; a bare number is kelvin
  kTemperatureDifference,  ///< K
  kSpeed,                  ///< m/s
  kPressure,               ///< Pa
  kConductivity,           ///< W/mK
  kConductance,            ///< W/m2K
  kDensity,                ///< kg/m3
  kSpecificHeat,           ///< J/kgK
  kIrradiance,             ///< W/m2
  kInverseLength,          ///< 1/m (extinction coefficient)
  kVolume,                 ///< m3; for "2 qt", "2 L"
  kPower,                  ///< W
  kEnergy,                 ///< J
};

/// A short unit name for messages: "m", "deg", "K", ...
const char* si_unit_name(Dimension dimension);
/// What to call a quantity in messages: "a length", "a time", ...
const char* dimension_phrase(Dimension dimension);

/// "18 in" -> 0.4572 for kLength. Temperatures accept F, C, K ("350 F", "20 C", "293 K"; a bare
/// number is kelvin). Angles accept deg and rad (a bare number is degrees). Units are those of
/// UDUNITS-2, plus the kitchen spellings "lb", "oz" (a weight; of a volume the US fluid ounce),
/// "in", "ft", "cup", "qt", "gal", "L", "F", "C", "mph", "W/mK", "J/kgK"; in "W/m K" all after the
/// slash is below it. Fractions are taken as a carpenter writes them: "3/4 in", "1 1/2 in".
/// Departure: "F" and "C" are never farad and coulomb here, "gal" is the US gallon.
/// @return the SI value, or nullopt where the text is not a finite quantity of that dimension.
/// @throws RunError where the unit database of UDUNITS-2 is not installed and is needed.
/// Thread-safe: yes.
std::optional<double> parse_quantity(std::string_view text, Dimension dimension);

/// Why parse_quantity refused: "3 kg is not a length" or "'abc' is not a quantity".
std::string quantity_complaint(std::string_view text, Dimension dimension);

/// A SI value in words for messages, in the unit a reader expects: 3.3161 rad -> "190 deg".
std::string quantity_text(double value_si, Dimension dimension);
}  // namespace ovendays::base
