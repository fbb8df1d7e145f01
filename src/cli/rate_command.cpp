// SPDX-License-Identifier: MIT
#include <cmath>
#include <cstdio>

#include "commands.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/file.h"
#include "ovendays/season/case.h"
#include "ovendays/study/rating.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
using base::Dimension;
using study::Rating;

std::string digits(double value, int places) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", places, value);
  return text;
}

std::string celsius(double value_K) { return digits(value_K - base::kZeroCelsius_K, 0) + " C"; }

// Says so if the vessels hold less water than the procedure prescribes.
std::string load_text(const study::RatingLoad& load) {
  std::string text = digits(load.water_kg, 2) + " kg of water in ";
  text += load.vessels == 1 ? "'" : std::to_string(load.vessels) + " x '";
  text += load.vessel + "'";
  if (!load.fits()) text += " (prescribed: " + digits(load.wanted_kg, 2) + " kg)";
  return text;
}

std::string first_text(const Rating& rating) {
  const study::RatingConditions& given = rating.conditions;
  std::string text = "First figure of merit, F1 = (plate - air) / irradiance (BIS IS 13429)\n";
  text += "  empty, level, flaps folded in; " + digits(given.figure_irradiance_Wm2, 0) +
          " W/m2 on the glass, air " + celsius(given.figure_ambient_K) + ", wind " +
          digits(given.figure_wind_ms, 1) + " m/s\n";
  if (!rating.first) return text + "  F1     none\n";
  const study::FirstFigure& first = *rating.first;
  text += "  steady state: plate " + celsius(first.plate_K) + ", oven air " + celsius(first.air_K) +
          ", inner glass " + celsius(first.inner_pane_K) + "\n";
  text += "  absorbs " + digits(100.0 * first.optical_efficiency, 0) + " % of the light, loses " +
          digits(first.loss_Wm2K, 1) + " W/K per m2 of glass\n";
  const char grade = study::grade_of(first.f1_Km2W);
  text += "  F1     " + digits(first.f1_Km2W, 3) + " K m2/W, ";
  text += grade == '-' ? std::string("below grade B") : std::string("grade ") + grade;
  return text + " (A from 0.12, B from 0.11)\n";
}

std::string second_text(const Rating& rating) {
  if (!rating.second) return "";
  const study::SecondFigure& second = *rating.second;
  std::string text = "\nSecond figure of merit, F2, the same sun and air\n";
  text += "  " + load_text(second.load) + " (" + digits(rating.conditions.figure_load_kgm2, 0) +
          " kg per m2 of glass)\n";
  if (second.time_s) {
    text += "  from " + celsius(rating.conditions.figure_water_from_K) + " to " +
            celsius(rating.conditions.figure_water_to_K) + " in " +
            digits(*second.time_s / 60.0, 0) + " min\n";
  }
  if (!second.f2) return text + "  F2     none: the water does not reach that temperature\n";
  text += "  F2     " + digits(*second.f2, 2);
  text += *second.f2 >= study::kLeastSecondFigure ? ", passes" : ", fails";
  return text + " (from " + digits(study::kLeastSecondFigure, 2) + ")\n";
}

std::string power_text(const Rating& rating) {
  if (!rating.power) return "";
  const study::CookingPower& power = *rating.power;
  const study::RatingConditions& given = rating.conditions;
  std::string text = "\nStandard cooking power, Ps = P x 700 / irradiance (ASAE S580.1)\n";
  text += "  flaps set, " + digits(power.incidence_rad * base::kDegPerRad, 0) +
          " deg off the sun, intercept area " + digits(power.intercept_m2, 3) + " m2; wind " +
          digits(given.power_wind_ms, 1) + " m/s\n";
  text += "  " + load_text(power.load) + " (" + digits(given.power_load_kgm2, 0) +
          " kg per m2 of intercept)\n  days of";
  for (const double irradiance : given.power_irradiance_Wm2)
    text.append(" ").append(digits(irradiance, 0));
  text += " W/m2 perpendicular to the beam, air";
  for (const double air : given.power_ambient_K)
    text.append(" ").append(digits(air - base::kZeroCelsius_K, 1));
  text.append(" C\n");
  if (!power.p50_W) return text + "  P50    none\n";
  text += "  Ps = " + digits(power.line.intercept, 1) + " W " +
          (power.line.slope < 0.0 ? "- " : "+ ") + digits(std::abs(power.line.slope), 2) +
          " W/K x (water - air), r2 " + digits(power.line.r2, 2) + ", " +
          std::to_string(power.observations.size()) + " intervals of 10 min\n";
  text += "  P50    " + digits(*power.p50_W, 0) + " W, with water 50 K above the air\n";
  if (!power.enough) text += "  (the procedure asks for at least 30 intervals and r2 of 0.75)\n";
  return text;
}

std::string rating_text(const Rating& rating) {
  std::string text = rating.oven_name + ", glass " + digits(rating.aperture_m2, 3) + " m2\n\n" +
                     first_text(rating) + second_text(rating) + power_text(rating) + "\n";
  for (const std::string& note : rating.notes) text += "Note: " + note + ".\n";
  return text +
         "Simulated. The formulas of cooking power are as published. The definitions of\n"
         "F1 and F2 and all thresholds, loads and limits are from memory of the standards.\n"
         "The wind, the sun's height and a sky with " +
         digits(100.0 * rating.conditions.diffuse_share, 0) + " % diffuse light are judgement.\n";
}

// Options override the conditions of the figures of merit only; those of the cooking power are
// fixed by its procedure.
study::RatingConditions conditions_of(const Arguments& arguments) {
  study::RatingConditions given;
  constexpr double kLeast_Wm2 = 600.0;  // of the procedure; from memory
  constexpr double kMost_Wm2 = 1200.0;
  given.figure_irradiance_Wm2 =
      arguments.quantity("irradiance", Dimension::kIrradiance, kLeast_Wm2, kMost_Wm2)
          .value_or(given.figure_irradiance_Wm2);
  given.figure_ambient_K = arguments.quantity("air", Dimension::kTemperature, 273.15, 318.15)
                               .value_or(given.figure_ambient_K);
  given.figure_wind_ms =
      arguments.quantity("wind", Dimension::kSpeed, 0.0, 5.0).value_or(given.figure_wind_ms);
  return given;
}

void run_rate(const Arguments& arguments) {
  const std::string& file = arguments.only_file("a case file");
  const study::RatingConditions given = conditions_of(arguments);
  study::RateOptions options;
  options.vessel = arguments.value("vessel").value_or("");
  const auto target = arguments.value("out");
  Outputs outputs;
  outputs.input(file);
  if (target) outputs.add("--out", *target);
  outputs.check();
  const season::Case c = season::read_case(file);
  if (!options.vessel.empty() && c.oven.vessel(options.vessel) == nullptr) {
    std::vector<std::string> known;
    for (const oven::Vessel& vessel : c.oven.vessels) known.push_back(vessel.name);
    throw UsageError("--vessel: " + file + " has no '" + options.vessel + "'" +
                     suggestion(options.vessel, known));
  }
  const Rating rating = study::rate_oven(c.oven, given, options);
  if (target) base::write_file(*target, study::rating_toml(rating));
  print(rating_text(rating) + (target ? "Written: " + *target + "\n" : ""));
}
}  // namespace

CommandSpec rate_command() {
  return {.name = "rate",
          .synopsis = {"rate CASE.toml [options]"},
          .summary = "simulate published test procedures for solar ovens",
          .about =
              "Simulates the oven of a case, without its site and weather, in the tests of BIS "
              "IS 13429 (first and second figure of merit, flaps folded in) and ASAE S580.1 "
              "(standard cooking power, flaps set), and prints the results with their conditions. "
              "They can be compared with published results of measured ovens.",
          .options =
              {{"vessel", "NAME", "vessel of the oven to test (default: the largest with a lid)"},
               {"irradiance",
                "W/m2",
                "irradiance on the glass for the figures of merit (default: 850 W/m2)"},
               {"air", "TEMPERATURE", "air temperature for the figures of merit (default: '30 C')"},
               {"wind", "SPEED", "wind speed for the figures of merit (default: '1 m/s')"},
               {"out", "FILE.toml", "also write the results and every observation as TOML"}},
          .examples = {"ovendays rate my-yard.toml",
                       "ovendays rate my-yard.toml --vessel 'black pot' --out rating.toml"},
          .run = run_rate};
}
}  // namespace ovendays::cli
