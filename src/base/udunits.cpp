// SPDX-License-Identifier: MIT
// The only file that uses UDUNITS-2. A spelling is translated from everyday units to the library's,
// parsed, and converted at three points to obtain a factor and an offset.
#include <udunits2.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <mutex>
#include <utility>

#include "ovendays/base/error.h"
#include "unit_table.h"

namespace ovendays::base {
namespace {
struct UnitDeleter {
  void operator()(ut_unit* unit) const { ut_free(unit); }
};
struct ConverterDeleter {
  void operator()(cv_converter* converter) const { cv_free(converter); }
};
using Unit = std::unique_ptr<ut_unit, UnitDeleter>;

struct System {
  System() {
    ut_set_error_message_handler(ut_ignore);
    system.reset(ut_read_xml(nullptr));
  }
  struct Deleter {
    void operator()(ut_system* s) const { ut_free_system(s); }
  };
  std::unique_ptr<ut_system, Deleter> system;
  std::mutex mutex;  // ut_parse keeps its state in static variables
};

const char* si_spelling(Dimension dimension) {
  switch (dimension) {
    case Dimension::kNumber:
      return "1";
    case Dimension::kLength:
      return "m";
    case Dimension::kArea:
      return "m2";
    case Dimension::kAngle:
      return "radian";
    case Dimension::kMass:
      return "kg";
    case Dimension::kTime:
      return "s";
    case Dimension::kTemperature:
    case Dimension::kTemperatureDifference:
      return "K";
    case Dimension::kSpeed:
      return "m s-1";
    case Dimension::kPressure:
      return "Pa";
    case Dimension::kConductivity:
      return "W m-1 K-1";
    case Dimension::kConductance:
      return "W m-2 K-1";
    case Dimension::kDensity:
      return "kg m-3";
    case Dimension::kSpecificHeat:
      return "J kg-1 K-1";
    case Dimension::kIrradiance:
      return "W m-2";
    case Dimension::kInverseLength:
      return "m-1";
    case Dimension::kVolume:
      return "m3";
    case Dimension::kPower:
      return "W";
    case Dimension::kEnergy:
      return "J";
  }
  return "1";
}

bool is_thermal(Dimension d) {
  return d == Dimension::kTemperature || d == Dimension::kTemperatureDifference ||
         d == Dimension::kConductivity || d == Dimension::kConductance ||
         d == Dimension::kSpecificHeat;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }

// Translates words that UDUNITS-2 does not know, or understands differently: F is its farad, and
// mph its milliphot.
std::string rewritten_word(const std::string& word, Dimension dimension) {
  using Pair = std::pair<const char*, const char*>;
  static constexpr auto kAlways = std::to_array<Pair>({{"lbs", "lb"},
                                                       {"pounds", "lb"},
                                                       {"qt", "quart"},
                                                       {"gal", "gallon"},
                                                       {"mph", "(mile/hour)"},
                                                       {"kph", "(km/hour)"},
                                                       {"hrs", "hour"},
                                                       {"mins", "minute"},
                                                       {"kWh", "(kW hour)"},
                                                       {"Wh", "(W hour)"}});
  static constexpr auto kThermal = std::to_array<Pair>(
      {{"F", "degF"}, {"C", "degC"}, {"mK", "m K"}, {"kgK", "kg K"}, {"gK", "g K"}});
  const auto find = [&word](const auto& table) -> const char* {
    for (const auto& [from, to] : table) {
      if (word == from) return to;
    }
    return nullptr;
  };
  // UDUNITS-2 defines its avoirdupois ounce with seven digits only.
  if (word == "oz" || word == "ounce" || word == "ounces") {
    return dimension == Dimension::kVolume ? "fluid_ounce" : "(0.0625 lb)";
  }
  if (const char* to = is_thermal(dimension) ? find(kThermal) : nullptr) return to;
  const char* to = find(kAlways);
  return to != nullptr ? to : word;
}

// Puts everything after the slash in brackets. People mean W/(m K) by "W/m K", but UDUNITS-2 reads
// (W/m) K.
std::string with_whole_denominator(std::string text) {
  const std::size_t slash = text.find('/');
  const bool plain =
      slash != std::string::npos && text.find_first_of("/()-", slash + 1) == std::string::npos;
  if (plain) text = text.substr(0, slash + 1) + "(" + text.substr(slash + 1) + ")";
  return text;
}

std::string rewritten(std::string_view spelling, Dimension dimension) {
  std::string source(spelling);
  if (is_thermal(dimension)) {
    static constexpr std::string_view kDegreeSign = "\u00B0";
    for (std::size_t at = 0; (at = source.find(kDegreeSign)) != std::string::npos;) {
      source.erase(at, kDegreeSign.size());
    }
    source = with_whole_denominator(source);
  }
  std::string out;
  for (std::size_t i = 0; i < source.size();) {
    if (!is_letter(source[i])) {
      out += source[i++];
      continue;
    }
    std::size_t end = i;
    while (end < source.size() && is_letter(source[end])) ++end;
    const bool after_digit = !out.empty() && out.back() >= '0' && out.back() <= '9';
    if (after_digit) out += ' ';  // splits "m2K" into "m2 K"
    out += rewritten_word(source.substr(i, end - i), dimension);
    i = end;
  }
  if (!out.empty() && out.front() == '/') out.insert(out.begin(), '1');
  return out;
}

// True for a unit without a leading number (except "1/m"), offset clause or time stamp, all of
// which UDUNITS-2 would accept as part of a unit.
bool is_plain_unit(std::string_view text) {
  const bool number_first = !text.empty() && text.front() >= '0' && text.front() <= '9';
  if (text.empty() || text.size() > 64 || (number_first && text.substr(0, 2) != "1/")) return false;
  for (const char c : text) {
    const bool known =
        is_letter(c) || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) > 127;
    if (!known && std::string_view(" ^*./-()%").find(c) == std::string_view::npos) return false;
  }
  static constexpr auto kClauses =
      std::to_array<std::string_view>({"since", "after", "from", "ref", "log", "lg", "ln", "lb("});
  return std::none_of(kClauses.begin(), kClauses.end(), [text](std::string_view clause) {
    return text.find(clause) != std::string_view::npos;
  });
}
}  // namespace

std::optional<UnitFactor> udunits_factor(std::string_view spelling, Dimension dimension) {
  if (!is_plain_unit(spelling)) return std::nullopt;
  static System units;
  if (!units.system) throw RunError("the unit database of UDUNITS-2 cannot be read");
  const std::lock_guard<std::mutex> lock(units.mutex);
  const Unit from(ut_parse(units.system.get(), rewritten(spelling, dimension).c_str(), UT_UTF8));
  const Unit to(ut_parse(units.system.get(), si_spelling(dimension), UT_ASCII));
  if (!from || !to || ut_are_convertible(from.get(), to.get()) == 0) return std::nullopt;
  const std::unique_ptr<cv_converter, ConverterDeleter> converter(
      ut_get_converter(from.get(), to.get()));
  if (!converter) return std::nullopt;
  UnitFactor factor;
  factor.offset = cv_convert_double(converter.get(), 0.0);
  factor.scale = cv_convert_double(converter.get(), 1.0) - factor.offset;
  // Rejects conversions that are not linear, such as reciprocals (s to 1/s) and logarithms.
  const double at_two = cv_convert_double(converter.get(), 2.0);
  const double linear = factor.offset + 2.0 * factor.scale;
  if (!std::isfinite(factor.scale) || !std::isfinite(factor.offset) || factor.scale <= 0.0 ||
      std::abs(at_two - linear) > 1e-12 * std::abs(linear)) {
    return std::nullopt;
  }
  if (dimension == Dimension::kTemperatureDifference) factor.offset = 0.0;
  if (dimension != Dimension::kTemperature && factor.offset != 0.0) return std::nullopt;
  return factor;
}
}  // namespace ovendays::base
