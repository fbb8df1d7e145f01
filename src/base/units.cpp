// SPDX-License-Identifier: MIT
// Conversion of text to SI and back. A quantity is split into a number and a unit. The number is
// parsed here and not by UDUNITS-2, which would also accept "3 5 m", "3 m @ 5" or a time stamp.
#include "ovendays/base/units.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>

#include "ovendays/base/constants.h"
#include "unit_table.h"

namespace ovendays::base {
namespace {
struct Names {
  const char* unit;
  const char* kind;
};

Names names_of(Dimension dimension) {
  switch (dimension) {
    case Dimension::kNumber:
      return {"", "a pure number"};
    case Dimension::kLength:
      return {"m", "a length"};
    case Dimension::kArea:
      return {"m2", "an area"};
    case Dimension::kAngle:
      return {"deg", "an angle"};
    case Dimension::kMass:
      return {"kg", "a mass"};
    case Dimension::kTime:
      return {"s", "a time"};
    case Dimension::kTemperature:
      return {"K", "a temperature"};
    case Dimension::kTemperatureDifference:
      return {"K", "a temperature difference"};
    case Dimension::kSpeed:
      return {"m/s", "a speed"};
    case Dimension::kPressure:
      return {"Pa", "a pressure"};
    case Dimension::kConductivity:
      return {"W/mK", "a thermal conductivity"};
    case Dimension::kConductance:
      return {"W/m2K", "a thermal conductance"};
    case Dimension::kDensity:
      return {"kg/m3", "a density"};
    case Dimension::kSpecificHeat:
      return {"J/kgK", "a specific heat"};
    case Dimension::kIrradiance:
      return {"W/m2", "an irradiance"};
    case Dimension::kInverseLength:
      return {"1/m", "an inverse length"};
    case Dimension::kVolume:
      return {"m3", "a volume"};
    case Dimension::kPower:
      return {"W", "a power"};
    case Dimension::kEnergy:
      return {"J", "an energy"};
  }
  return {"", "a quantity"};
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

// Removes a decimal number from the front of `text`. Hexadecimal, "inf" and "nan" are not accepted.
std::optional<double> take_number(std::string_view& text) {
  std::string_view rest = text;
  // The sign is handled here: from_chars rejects a plus sign, and would accept "-" after "+".
  const bool negative = !rest.empty() && rest.front() == '-';
  if (!rest.empty() && (rest.front() == '-' || rest.front() == '+')) rest.remove_prefix(1);
  if (rest.empty() || ((rest.front() < '0' || rest.front() > '9') && rest.front() != '.')) {
    return std::nullopt;
  }
  double value = 0.0;
  const auto result = std::from_chars(rest.data(), rest.data() + rest.size(), value);
  if (result.ec != std::errc() || !std::isfinite(value)) return std::nullopt;
  rest.remove_prefix(static_cast<std::size_t>(result.ptr - rest.data()));
  text = rest;
  return negative ? -value : value;
}

bool starts_with_digit(std::string_view text) {
  return !text.empty() && text.front() >= '0' && text.front() <= '9';
}

// Removes a number that may be a fraction from the front: "3", "1/2" or "1 1/2". A second number is
// only consumed if a slash and a third one follow, so that "4 1/m" is 4 with the unit 1/m.
std::optional<double> take_fraction(std::string_view& text) {
  std::string_view rest = text;
  const auto first = take_number(rest);
  if (!first) return std::nullopt;
  text = rest;
  double whole = 0.0;
  double top = *first;
  std::string_view ahead = trimmed(rest);
  if (starts_with_digit(ahead)) {
    const auto second = take_number(ahead);
    if (!second) return first;
    whole = *first;
    top = *second;
  }
  if (ahead.empty() || ahead.front() != '/') return first;
  ahead.remove_prefix(1);
  if (!starts_with_digit(ahead)) return first;
  const auto bottom = take_number(ahead);
  if (!bottom || *bottom == 0.0) return std::nullopt;
  text = ahead;
  return whole < 0.0 ? whole - top / *bottom : whole + top / *bottom;
}

std::optional<UnitFactor> fixed_factor(std::string_view unit, Dimension dimension) {
  static constexpr auto kDegree =
      std::to_array<std::string_view>({"", "deg", "degree", "degrees", "\u00B0"});
  static constexpr auto kRadian = std::to_array<std::string_view>({"rad", "radian", "radians"});
  if (dimension == Dimension::kNumber) {
    if (unit.empty()) return UnitFactor{};
    if (unit == "%" || unit == "percent") return UnitFactor{0.01};
    return std::nullopt;
  }
  for (const std::string_view spelling : kDegree) {
    if (unit == spelling) return UnitFactor{kRadPerDeg};
  }
  for (const std::string_view spelling : kRadian) {
    if (unit == spelling) return UnitFactor{};
  }
  return std::nullopt;
}

std::optional<UnitFactor> factor_of(std::string_view unit, Dimension dimension) {
  // Angles and pure numbers are dimensionless to UDUNITS-2, which would take "10 %" for an angle.
  if (dimension == Dimension::kNumber || dimension == Dimension::kAngle) {
    return fixed_factor(unit, dimension);
  }
  if (unit.empty()) return UnitFactor{};
  for (const KnownUnit& known : known_units()) {
    if (known.dimension == dimension && known.spelling == unit) return known.factor;
  }
  return udunits_factor(unit, dimension);
}

std::string with_unit(double value, const char* unit) {
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%.6g", value == 0.0 ? 0.0 : value);
  return *unit == '\0' ? text.data() : std::string(text.data()) + " " + unit;
}

// Drops the last digits, which are rounding noise after a conversion to radians or kelvins and
// back.
double without_noise(double value) {
  const double rounded = std::round(value * 1e9) / 1e9;
  return std::abs(value) < 1e5 && std::abs(value) > 1e-3 ? rounded : value;
}
}  // namespace

const char* si_unit_name(Dimension dimension) { return names_of(dimension).unit; }
const char* dimension_phrase(Dimension dimension) { return names_of(dimension).kind; }

std::optional<double> parse_quantity(std::string_view text, Dimension dimension) {
  std::string_view rest = trimmed(text);
  const auto number = take_fraction(rest);
  if (!number) return std::nullopt;
  const auto factor = factor_of(trimmed(rest), dimension);
  if (!factor) return std::nullopt;
  // Both parts are finite, but their product may overflow.
  const double value = *number * factor->scale + factor->offset;
  return std::isfinite(value) ? std::optional<double>(value) : std::nullopt;
}

std::string quantity_complaint(std::string_view text, Dimension dimension) {
  constexpr std::size_t kShown = 60;
  std::string_view rest = trimmed(text);
  std::string shown(trimmed(text).substr(0, kShown));
  if (trimmed(text).size() > kShown) shown += "...";
  if (!take_fraction(rest)) return "'" + shown + "' is not a quantity";
  return shown + " is not " + names_of(dimension).kind;
}

std::string quantity_text(double si_value, Dimension dimension) {
  const double size = std::abs(si_value);
  if (!std::isfinite(si_value)) return with_unit(si_value, names_of(dimension).unit);
  switch (dimension) {
    case Dimension::kAngle:
      return with_unit(without_noise(si_value * kDegPerRad), "deg");
    case Dimension::kTemperature:
      return with_unit(without_noise(si_value - kZeroCelsius_K), "degC");
    case Dimension::kLength:
      return size > 0.0 && size < 0.01 ? with_unit(si_value * 1e3, "mm") : with_unit(si_value, "m");
    case Dimension::kTime:
      if (size < 60.0) return with_unit(si_value, "s");
      return size < 7200.0 ? with_unit(si_value / 60.0, "min")
                           : with_unit(si_value / kSecondsPerHour, "h");
    default:
      return with_unit(si_value, names_of(dimension).unit);
  }
}
}  // namespace ovendays::base
