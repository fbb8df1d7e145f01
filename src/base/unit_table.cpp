// SPDX-License-Identifier: MIT
// The spellings that most cases use. Cups, quarts and gallons are missing on purpose: UDUNITS-2
// rounds its gallon to seven digits, and a second definition here would differ from it.
#include "unit_table.h"

#include <array>

#include "ovendays/base/constants.h"

namespace ovendays::base {
namespace {
using D = Dimension;
constexpr double kInch_m = 0.0254;
constexpr double kPound_kg = 0.45359237;
constexpr double kFahrenheitStep = 5.0 / 9.0;
constexpr UnitFactor kFahrenheit{kFahrenheitStep, 459.67 * kFahrenheitStep};
constexpr UnitFactor kCelsius{1.0, kZeroCelsius_K};

constexpr auto kKnown = std::to_array<KnownUnit>({
    {D::kLength, "m", {1.0}},
    {D::kLength, "cm", {0.01}},
    {D::kLength, "mm", {0.001}},
    {D::kLength, "km", {1000.0}},
    {D::kLength, "in", {kInch_m}},
    {D::kLength, "ft", {12.0 * kInch_m}},
    {D::kArea, "m2", {1.0}},
    {D::kArea, "cm2", {1e-4}},
    {D::kMass, "kg", {1.0}},
    {D::kMass, "g", {0.001}},
    {D::kMass, "lb", {kPound_kg}},
    {D::kMass, "oz", {kPound_kg / 16.0}},
    {D::kTime, "s", {1.0}},
    {D::kTime, "min", {60.0}},
    {D::kTime, "h", {3600.0}},
    {D::kTime, "hr", {3600.0}},
    {D::kTemperature, "K", {1.0}},
    {D::kTemperature, "C", kCelsius},
    {D::kTemperature, "degC", kCelsius},
    {D::kTemperature, "\u00B0C", kCelsius},
    {D::kTemperature, "F", kFahrenheit},
    {D::kTemperature, "degF", kFahrenheit},
    {D::kTemperature, "\u00B0F", kFahrenheit},
    {D::kTemperatureDifference, "K", {1.0}},
    {D::kTemperatureDifference, "C", {1.0}},
    {D::kTemperatureDifference, "degC", {1.0}},
    {D::kTemperatureDifference, "F", {kFahrenheitStep}},
    {D::kTemperatureDifference, "degF", {kFahrenheitStep}},
    {D::kSpeed, "m/s", {1.0}},
    {D::kSpeed, "km/h", {1.0 / 3.6}},
    {D::kSpeed, "mph", {1609.344 / 3600.0}},
    {D::kPressure, "Pa", {1.0}},
    {D::kPressure, "hPa", {100.0}},
    {D::kPressure, "kPa", {1000.0}},
    {D::kConductivity, "W/mK", {1.0}},
    {D::kConductivity, "W/m K", {1.0}},
    {D::kConductivity, "W/(m K)", {1.0}},
    {D::kConductance, "W/m2K", {1.0}},
    {D::kConductance, "W/m2 K", {1.0}},
    {D::kConductance, "W/(m2 K)", {1.0}},
    {D::kDensity, "kg/m3", {1.0}},
    {D::kSpecificHeat, "J/kgK", {1.0}},
    {D::kSpecificHeat, "J/kg K", {1.0}},
    {D::kSpecificHeat, "J/(kg K)", {1.0}},
    {D::kIrradiance, "W/m2", {1.0}},
    {D::kInverseLength, "1/m", {1.0}},
    {D::kInverseLength, "/m", {1.0}},
    {D::kVolume, "L", {0.001}},
    {D::kVolume, "l", {0.001}},
    {D::kVolume, "mL", {1e-6}},
    {D::kVolume, "ml", {1e-6}},
    {D::kVolume, "m3", {1.0}},
    {D::kPower, "W", {1.0}},
    {D::kPower, "kW", {1000.0}},
    {D::kEnergy, "J", {1.0}},
    {D::kEnergy, "kJ", {1000.0}},
    {D::kEnergy, "MJ", {1e6}},
    {D::kEnergy, "kWh", {3.6e6}},
});
}  // namespace

std::span<const KnownUnit> known_units() { return kKnown; }
}  // namespace ovendays::base
