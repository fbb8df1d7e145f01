// SPDX-License-Identifier: MIT
// Published test procedures for box solar ovens, on paper: the case's oven under their prescribed
// conditions, without weather and spot.
//
//   First figure of merit   F1 = (T_plate - T_ambient) / G at stagnation, empty, no reflector
//                           (BIS IS 13429; Mullick, Kandpal and Saxena 1987, Solar Energy 39:353)
//   Second figure of merit  F2 = F1 (M c)_w / (A t) ln[(1 - (Tw1 - Ta)/(F1 G)) /
//                                                     (1 - (Tw2 - Ta)/(F1 G))]   (same)
//   Cooking power           P = M c (T2 - T1) / 600 s; Ps = P 700 / I; Ps regressed on
//                           Td = Tw - Ta; reported at Td = 50 K   (ASAE S580.1, clause 7)
//
// What is certain: the formulas of S580 clause 7 (read in a circulated text). From memory and not
// held against a printed copy: the definitions of F1 and F2, every limit and load of IS 13429, the
// environmental limits and the load of S580. Each such default says so below. Judgement: wind, sky,
// light's split, sun's height and the way several pots stand for one.
//
// Thread-safe: yes, all functions.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "ovendays/base/constants.h"
#include "ovendays/optics/acceptance.h"
#include "ovendays/oven/design.h"

namespace ovendays::study {

/// What the procedures prescribe, or leave open. Defaults are what `ovendays rate` uses.
struct RatingConditions {
  // Figures of merit.
  double figure_irradiance_Wm2 = 850.0;  ///< on the glazing plane; >= 600 (from memory)
  double figure_ambient_K = 303.15;
  double figure_wind_ms = 1.0;                         ///< "low"; judgement
  double figure_zenith_rad = 20.0 * base::kRadPerDeg;  ///< a noon; the box stands level; judgement
  double figure_load_kgm2 = 8.0;                       ///< water per aperture area (from memory)
  double figure_water_from_K = 333.15;                 ///< 60..65 degC (from memory)
  double figure_water_to_K = 363.15;                   ///< 90..95 degC (from memory)
  // Cooking power.
  double power_load_kgm2 = 7.0;                       ///< water per intercept area (from memory)
  double power_wind_ms = 0.5;                         ///< below 1.0 (from memory)
  double power_zenith_rad = 30.0 * base::kRadPerDeg;  ///< judgement
  /// A day each, irradiance square to the beam and air: 450..1100 W/m2, 20..35 degC (from memory);
  /// gone through again until there are enough observations.
  std::vector<double> power_irradiance_Wm2{600.0, 800.0, 1000.0};
  std::vector<double> power_ambient_K{298.15, 300.65, 303.15};
  double power_above_ambient_K = 5.0;  ///< water counts from here ... (draft; from memory)
  double power_below_boiling_K = 5.0;  ///< ... to here
  int power_least_observations = 30;   ///< (from memory)
  double power_day_s = 4.0 * 3600.0;   ///< 10 to 14 h solar time (from memory)
  // Both.
  double diffuse_share = 0.15;  ///< of the global light on the horizontal; judgement
  double pressure_Pa = 101325.0;
};

struct RateOptions {
  std::string vessel;  ///< name; empty: the lidded vessel that holds most, or the one that does
  optics::OpticsOptions optics;
};

/// The water of a test and what it stands in.
struct TestLoad {
  std::string vessel;
  int vessels = 1;         ///< how many alike
  double wanted_kg = 0.0;  ///< by the procedure
  double water_kg = 0.0;   ///< what fits
  [[nodiscard]] bool fits() const { return water_kg >= 0.999 * wanted_kg; }
};

/// The empty oven left in the sun, flaps laid in.
struct FirstFigure {
  double plate_K = 0.0;  ///< tray; the liner where there is no tray
  double liner_K = 0.0;
  double air_K = 0.0;
  double inner_pane_K = 0.0;
  double outer_pane_K = 0.0;
  double irradiance_Wm2 = 0.0;
  double f1_Km2W = 0.0;
  double optical_efficiency = 0.0;  ///< absorbed by plate and liner over A G
  double loss_Wm2K = 0.0;           ///< optical_efficiency / F1: of plate over aperture area
};

struct SecondFigure {
  TestLoad load;
  std::optional<double> time_s;  ///< from the first to the second water temperature; nullopt: never
  std::optional<double> f2;
};

/// One interval of ten minutes.
struct PowerObservation {
  int day = 0;
  double irradiance_Wm2 = 0.0;
  double difference_K = 0.0;  ///< mean water less air
  double power_W = 0.0;
  double standard_power_W = 0.0;
};

struct LineFit {
  double slope = 0.0;
  double intercept = 0.0;
  double r2 = 0.0;
  [[nodiscard]] double at(double x) const { return intercept + slope * x; }
};

struct CookingPower {
  TestLoad load;
  double intercept_m2 = 0.0;
  double incidence_rad = 0.0;  ///< that is left at the best notch
  std::vector<PowerObservation> observations;
  LineFit line;                 ///< Ps [W] on Td [K]
  std::optional<double> p50_W;  ///< nullopt with fewer than two observations
  double highest_water_K = 0.0;
  bool enough = false;  ///< observations as many as prescribed and r2 >= 0.75
};

struct Rating {
  std::string oven_name;
  RatingConditions conditions;
  double aperture_m2 = 0.0;
  std::optional<FirstFigure> first;    ///< nullopt where it did not settle in 48 h
  std::optional<SecondFigure> second;  ///< nullopt without a vessel or a first figure
  std::optional<CookingPower> power;   ///< nullopt without a vessel
  std::vector<std::string> notes;      ///< where the procedure could not be kept
};

/// Runs all three. @throws base::InputError where options.vessel names no vessel of the oven;
/// base::RunError where the integrator gives up
Rating rate_oven(const oven::OvenDesign& design,
                 const RatingConditions& conditions,
                 const RateOptions& options);

/// Thresholds of IS 13429: F1 >= 0.12 is grade A, 0.11..0.12 grade B; F2 >= 0.40. "Grade A" and
/// 0.42 for F2 are quoted by Adewumi et al. 2019 (IJMPERD 9(2):299); the rest from memory.
/// @return 'A', 'B', or '-' for neither
char grade_of(double f1_Km2W);
inline constexpr double kLeastSecondFigure = 0.40;
inline constexpr double kLeastR2 = 0.75;

/// S580 clauses 7.1-7.2 [W], c = 4186 J/kgK.
double cooking_power_W(double start_K, double end_K, double water_kg, double interval_s);
/// S580 clause 7.4: power times 700 / irradiance.
double standard_power_W(double power_W, double irradiance_Wm2);

/// What the second figure is worked out from.
struct WaterHeating {
  double water_kg;
  double aperture_m2;
  double time_s;
  double from_K;
  double to_K;
  double ambient_K;
  double irradiance_Wm2;
};
/// nullopt where the first figure says that the water cannot get that hot (logarithm undefined).
std::optional<double> second_figure(double f1_Km2W, const WaterHeating& heating);

/// Least squares; r2 is 0 where the values do not vary. @param x and @param y equally long, >= 2
LineFit fit_line(std::span<const double> x, std::span<const double> y);

/// How many of a vessel stand beside each other on the tray (floor without one), by rows, or as
/// closely as circles pack in a square (up to nine), and one stands for all: as wide as to have all
/// their feet, as heavy, with all their contacts; its side is that of one wide vessel, so smaller.
int most_vessels(const oven::OvenDesign& design, const oven::Vessel& vessel);
oven::Vessel several_as_one(const oven::OvenDesign& design, const oven::Vessel& vessel, int count);

/// The rating as TOML, one figure a line with its unit in the key, conditions included.
std::string rating_toml(const Rating& rating);
}  // namespace ovendays::study
