// SPDX-License-Identifier: MIT
#include <cstdio>

#include "ovendays/base/constants.h"
#include "ovendays/study/rating.h"

namespace ovendays::study {
namespace {

// Writes TOML without a library, because only this output needs it and its order should be fixed.
class Toml {
 public:
  Toml& comment(const char* text) { return line(std::string("# ") + text); }
  Toml& table(const char* name) { return line(std::string("\n[") + name + "]"); }
  Toml& tables(const char* name) { return line(std::string("\n[[") + name + "]]"); }
  Toml& number(const char* key, double value) {
    char digits[40];
    std::snprintf(digits, sizeof digits, "%.6g", value);
    std::string text(digits);
    if (text.find_first_of(".en") == std::string::npos)
      text += ".0";  // TOML needs it to recognise a float
    return line(std::string(key) + " = " + text);
  }
  Toml& celsius(const char* key, double value_K) {
    return number(key, value_K - base::kZeroCelsius_K);
  }
  Toml& integer(const char* key, long value) {
    return line(std::string(key) + " = " + std::to_string(value));
  }
  Toml& flag(const char* key, bool value) {
    return line(std::string(key) + (value ? " = true" : " = false"));
  }
  // Names come from case files, so quotes, backslashes and control characters must be escaped.
  Toml& text(const char* key, const std::string& value) {
    std::string quoted;
    for (const char c : value) {
      if (c == '"' || c == '\\') quoted += '\\';
      if (static_cast<unsigned char>(c) < 0x20) {
        char escaped[8];
        std::snprintf(escaped, sizeof escaped, "\\u%04x", static_cast<unsigned>(c));
        quoted += escaped;
      } else {
        quoted += c;
      }
    }
    return line(std::string(key) + " = \"" + quoted + "\"");
  }
  [[nodiscard]] const std::string& str() const { return text_; }

 private:
  Toml& line(const std::string& one) {
    text_ += one + "\n";
    return *this;
  }
  std::string text_;
};

void write_load(Toml& out, const RatingLoad& load) {
  out.text("vessel", load.vessel)
      .integer("vessels", load.vessels)
      .number("water_prescribed_kg", load.wanted_kg)
      .number("water_kg", load.water_kg);
}

void write_first(Toml& out, const Rating& rating) {
  const RatingConditions& given = rating.conditions;
  out.table("first_figure")
      .number("irradiance_on_glazing_Wm2", given.figure_irradiance_Wm2)
      .celsius("ambient_degC", given.figure_ambient_K)
      .number("wind_ms", given.figure_wind_ms);
  if (!rating.first) return;
  const FirstFigure& first = *rating.first;
  out.celsius("plate_degC", first.plate_K)
      .celsius("air_degC", first.air_K)
      .celsius("inner_pane_degC", first.inner_pane_K)
      .celsius("outer_pane_degC", first.outer_pane_K)
      .number("optical_efficiency", first.optical_efficiency)
      .number("loss_Wm2K", first.loss_Wm2K)
      .number("F1_Km2W", first.f1_Km2W)
      .text("grade", std::string(1, grade_of(first.f1_Km2W)));
}

void write_second(Toml& out, const Rating& rating) {
  if (!rating.second) return;
  out.table("second_figure");
  write_load(out, rating.second->load);
  out.celsius("water_from_degC", rating.conditions.figure_water_from_K)
      .celsius("water_to_degC", rating.conditions.figure_water_to_K);
  if (rating.second->time_s) out.number("time_s", *rating.second->time_s);
  if (rating.second->f2) out.number("F2", *rating.second->f2);
}

void write_power(Toml& out, const Rating& rating) {
  if (!rating.power) return;
  const CookingPower& power = *rating.power;
  out.table("cooking_power");
  write_load(out, power.load);
  out.number("intercept_m2", power.intercept_m2)
      .number("wind_ms", rating.conditions.power_wind_ms)
      .number("incidence_deg", power.incidence_rad * base::kDegPerRad)
      .number("slope_WK", power.line.slope)
      .number("at_zero_W", power.line.intercept)
      .number("r2", power.line.r2)
      .integer("observations", static_cast<long>(power.observations.size()))
      .flag("enough", power.enough)
      .celsius("highest_water_degC", power.highest_water_K);
  if (power.p50_W) out.number("P50_W", *power.p50_W);
  for (const PowerObservation& seen : power.observations) {
    out.tables("cooking_power.observation")
        .integer("day", seen.day + 1)
        .number("irradiance_Wm2", seen.irradiance_Wm2)
        .number("difference_K", seen.difference_K)
        .number("power_W", seen.power_W)
        .number("standard_power_W", seen.standard_power_W);
  }
}
}  // namespace

std::string rating_toml(const Rating& rating) {
  Toml out;
  out.comment("A rating made by ovendays: simulated, not measured.")
      .comment("Figures of merit after BIS IS 13429, cooking power after ASAE S580.1; their limits")
      .comment("and loads are from memory, only the formulas of cooking power were read.")
      .text("oven", rating.oven_name)
      .number("aperture_m2", rating.aperture_m2);
  write_first(out, rating);
  write_second(out, rating);
  write_power(out, rating);
  for (const std::string& note : rating.notes) out.tables("note").text("text", note);
  return out.str();
}
}  // namespace ovendays::study
