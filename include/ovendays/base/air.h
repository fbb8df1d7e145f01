// SPDX-License-Identifier: MIT
// Properties of air and of water. Temperatures are absolute [K], pressures are absolute [Pa].
// Every function here is pure, so all of them are thread-safe. None of them checks its arguments:
// outside the stated range the fit is extrapolated.
#pragma once

#include <span>

namespace ovendays::base {

/// Thermal conductivity of air [W/mK].
/// Sutherland form, k = 2.646e-3 T^1.5 / (T + 245.4 * 10^(-12/T)): U.S. Standard Atmosphere 1976,
/// eq. 53 (from memory). It agrees with handbook tables to 1 %.
/// @param temperature_K 200..600 K
double air_conductivity_WmK(double temperature_K);

/// Dynamic viscosity of air [Pa s].
/// Sutherland's law, mu = 1.458e-6 T^1.5 / (T + 110.4): U.S. Standard Atmosphere 1976, eq. 51
/// (from memory).
/// @param temperature_K 200..600 K
double air_viscosity_Pas(double temperature_K);

/// Density of dry air [kg/m3] by the ideal gas law, p / (R T) with R = 287.05 J/kgK.
/// @param temperature_K above 0
/// @param pressure_Pa above 0
double air_density_kgm3(double temperature_K, double pressure_Pa);

/// Specific heat of dry air at constant pressure [J/kgK], good to 1 % over 250..450 K.
inline constexpr double kAirSpecificHeat_JkgK = 1006.0;
/// Specific heat of liquid water [J/kgK].
inline constexpr double kWaterSpecificHeat_JkgK = 4186.0;

/// Pressure of the ICAO standard atmosphere [Pa], 101325 (1 - 2.25577e-5 h)^5.25588.
/// @param elevation_m height above sea level, below 11 km
double standard_pressure_Pa(double elevation_m);

/// Saturation vapour pressure over liquid water [Pa].
/// Buck 1981 with the coefficients of its 1996 revision:
/// 611.21 exp((18.678 - t / 234.5) t / (257.14 + t)), t in degC.
/// @param temperature_K 230..380 K
double saturation_pressure_Pa(double temperature_K);

/// Boiling point of water [K]: the temperature at which saturation_pressure_Pa() equals the ambient
/// pressure. Found by bisection to rounding.
/// @param pressure_Pa whose boiling point lies in 230..450 K
double boiling_point_K(double pressure_Pa);

/// Latent heat of vaporisation of water [J/kg].
/// A straight line fitted to the steam tables, good to 0.5 % over 290..380 K.
/// @param temperature_K 290..380 K
double latent_heat_Jkg(double temperature_K);

/// Dew point [K]: the temperature at which saturation_pressure_Pa() equals the vapour pressure of
/// the air. Never above the dry bulb and never below 180 K.
/// @param temperature_K dry bulb, 230..380 K
/// @param relative_humidity 0..1; values below 1e-4 count as 1e-4, values above 1 as 1
double dew_point_K(double temperature_K, double relative_humidity);

/// Dew points of many pairs at once [K]. Each result has the same bits as dew_point_K() of its
/// pair; several searches run side by side in vector registers, which takes much less time.
/// @param temperature_K dry bulbs, as in dew_point_K()
/// @param relative_humidity one for each dry bulb
/// @param dew_K receives the results; all three spans must have the same length
void dew_points_K(std::span<const double> temperature_K,
                  std::span<const double> relative_humidity,
                  std::span<double> dew_K);

/// Relative humidity 0..1: saturation pressure at the dew point over that at the dry bulb.
/// @param temperature_K dry bulb
/// @param dew_point_K a dew point above the dry bulb gives 1
double relative_humidity(double temperature_K, double dew_point_K);
}  // namespace ovendays::base
