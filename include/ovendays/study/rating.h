// SPDX-License-Identifier: MIT
// Simulates published test procedures for box solar ovens: the case's oven under the prescribed
// conditions, without weather or spot.
//
//   First figure of merit   F1 = (T_plate - T_ambient) / G at stagnation, empty, no reflector
//                           (BIS IS 13429; Mullick, Kandpal and Saxena 1987, Solar Energy 39:353)
//   Second figure of merit  F2 = F1 (M c)_w / (A t) ln[(1 - (Tw1 - Ta)/(F1 G)) /
//                                                     (1 - (Tw2 - Ta)/(F1 G))]   (same)
//   Cooking power           P = M c (T2 - T1) / 600 s; Ps = P 700 / I; Ps regressed on
//                           Td = Tw - Ta; reported at Td = 50 K   (ASAE S580.1, clause 7)
//
// Status of the sources. The formulas of S580 clause 7 were read in a circulated text. The
// definitions of F1 and F2, all limits and loads of IS 13429, and the environmental limits and load
// of S580 are from memory and were not compared with a printed copy; each such default says so
// below. Wind, sky, diffuse share, height of the sun and the way several pots are merged into one
// are judgement.
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

/// Conditions that the procedures prescribe or leave open. The defaults are those of `ovendays
/// rate`.
struct RatingConditions {
  // Figures of merit.
  double figure_irradiance_Wm2 = 850.0;  ///< on the glazing plane; >= 600 (from memory)
  double figure_ambient_K = 303.15;
  double figure_wind_ms = 1.0;                         ///< "low"; judgement
  double figure_zenith_rad = 20.0 * base::kRadPerDeg;  ///< near noon, with the box level; judgement
  double figure_load_kgm2 = 8.0;                       ///< water per aperture area (from memory)
  double figure_water_from_K = 333.15;                 ///< 60..65 degC (from memory)
  double figure_water_to_K = 363.15;                   ///< 90..95 degC (from memory)
  // Cooking power.
  double power_load_kgm2 = 7.0;                       ///< water per intercept area (from memory)
  double power_wind_ms = 0.5;                         ///< below 1.0 (from memory)
  double power_zenith_rad = 30.0 * base::kRadPerDeg;  ///< judgement
  /// Irradiance normal to the beam and air temperature, one pair a day: 450..1100 W/m2, 20..35 degC
  /// (from memory). The list is repeated until there are enough observations.
  std::vector<double> power_irradiance_Wm2{600.0, 800.0, 1000.0};
  std::vector<double> power_ambient_K{298.15, 300.65, 303.15};
  double power_above_ambient_K = 5.0;  ///< lower end of the range that counts (draft; from memory)
  double power_below_boiling_K = 5.0;  ///< upper end of the range that counts
  int power_least_observations = 30;   ///< (from memory)
  double power_day_s = 4.0 * 3600.0;   ///< 10 to 14 h solar time (from memory)
  // Both.
  double diffuse_share = 0.15;  ///< diffuse over global on the horizontal; judgement
  double pressure_Pa = 101325.0;
};

struct RateOptions {
  std::string vessel;  ///< name; if empty, the largest vessel with a lid, or else the largest
  optics::OpticsOptions optics;
};

/// The water of a test and its vessels.
struct RatingLoad {
  std::string vessel;
  int vessels = 1;         ///< number of equal vessels
  double wanted_kg = 0.0;  ///< prescribed by the procedure
  double water_kg = 0.0;   ///< that fits
  [[nodiscard]] bool fits() const { return water_kg >= 0.999 * wanted_kg; }
};

/// Steady state of the empty oven in the sun with its flaps folded in.
struct FirstFigure {
  double plate_K = 0.0;  ///< of the tray, or of the liner if there is no tray
  double liner_K = 0.0;
  double air_K = 0.0;
  double inner_pane_K = 0.0;
  double outer_pane_K = 0.0;
  double irradiance_Wm2 = 0.0;
  double f1_Km2W = 0.0;
  double optical_efficiency =
      0.0;  ///< power absorbed by plate and liner over (aperture area x irradiance)
  double loss_Wm2K =
      0.0;  ///< optical_efficiency / F1: per area of aperture and kelvin of the plate
};

struct SecondFigure {
  RatingLoad load;
  std::optional<double>
      time_s;  ///< from the first to the second water temperature; nullopt if not reached
  std::optional<double> f2;
};

/// One interval of ten minutes of the cooking-power test.
struct PowerObservation {
  int day = 0;
  double irradiance_Wm2 = 0.0;
  double difference_K = 0.0;  ///< mean water temperature minus air temperature
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
  RatingLoad load;
  double intercept_m2 = 0.0;
  double incidence_rad = 0.0;  ///< angle between sun and glazing at the best notch
  std::vector<PowerObservation> observations;
  LineFit line;                 ///< regression of Ps [W] on Td [K]
  std::optional<double> p50_W;  ///< nullopt with fewer than two observations
  double highest_water_K = 0.0;
  bool enough = false;  ///< whether observations and r2 meet the procedure (r2 >= 0.75)
};

struct Rating {
  std::string oven_name;
  RatingConditions conditions;
  double aperture_m2 = 0.0;
  std::optional<FirstFigure> first;    ///< nullopt if there was no steady state within 48 h
  std::optional<SecondFigure> second;  ///< nullopt without a vessel or a first figure
  std::optional<CookingPower> power;   ///< nullopt without a vessel
  std::vector<std::string> notes;      ///< departures from the procedures
};

/// Runs all three procedures. @throws base::InputError where options.vessel is unknown;
/// base::RunError where the integrator fails
Rating rate_oven(const oven::OvenDesign& design,
                 const RatingConditions& conditions,
                 const RateOptions& options);

/// Thresholds of IS 13429: F1 >= 0.12 is grade A, 0.11..0.12 grade B; F2 >= 0.40. "Grade A" and
/// 0.42 for F2 are quoted by Adewumi et al. 2019 (IJMPERD 9(2):299); the rest from memory.
/// @return 'A', 'B', or '-' for neither
char grade_of(double f1_Km2W);
inline constexpr double kLeastSecondFigure = 0.40;
inline constexpr double kLeastR2 = 0.75;

/// Cooking power of one interval [W] (S580 clauses 7.1-7.2, c = 4186 J/kgK).
double cooking_power_W(double start_K, double end_K, double water_kg, double interval_s);
/// Standard cooking power [W] (S580 clause 7.4): power times 700 / irradiance.
double standard_power_W(double power_W, double irradiance_Wm2);

/// Inputs of second_figure().
struct WaterHeating {
  double water_kg;
  double aperture_m2;
  double time_s;
  double from_K;
  double to_K;
  double ambient_K;
  double irradiance_Wm2;
};
/// Second figure of merit; nullopt if by the first figure the water cannot reach to_K (the
/// logarithm is undefined).
std::optional<double> second_figure(double f1_Km2W, const WaterHeating& heating);

/// Least-squares line; r2 is 0 if the values do not vary.
/// @param x and @param y of equal length, at least 2
LineFit fit_line(std::span<const double> x, std::span<const double> y);

/// Number of equal vessels that fit side by side on the tray (or the floor, without a tray), in
/// rows or, for up to nine pots, in the closest packing of circles in a square. At least 1.
int most_vessels(const oven::OvenDesign& design, const oven::Vessel& vessel);
/// Merges `count` equal vessels into one that has their total base area, mass and rim, and so the
/// convection and contact of all their sides. Light and infrared meet the side of one wide vessel,
/// which is smaller than theirs.
oven::Vessel several_as_one(const oven::OvenDesign& design, const oven::Vessel& vessel, int count);

/// The rating with its conditions as TOML; each key carries its unit.
std::string rating_toml(const Rating& rating);
}  // namespace ovendays::study
