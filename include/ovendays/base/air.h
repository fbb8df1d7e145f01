// SPDX-License-Identifier: MIT
// Properties of air and of water, as functions of temperature [K] and pressure [Pa].
#pragma once

#include <span>

namespace ovendays::base {

/// Thermal conductivity of air [W/mK], Sutherland form. Valid 200..600 K, 1 % (HT-17 of the tests).
double air_conductivity_WmK(double temperature_K);
/// Dynamic viscosity of air [Pa s], Sutherland.
double air_viscosity_Pas(double temperature_K);
/// Density of dry air [kg/m3], ideal gas.
double air_density_kgm3(double temperature_K, double pressure_Pa);
/// Specific heat of dry air at constant pressure [J/kgK], 1006 within 1 % over 250..450 K.
inline constexpr double kAirSpecificHeat_JkgK = 1006.0;
inline constexpr double kWaterSpecificHeat_JkgK = 4186.0;

/// ICAO standard atmosphere below 11 km: pressure [Pa] at a height [m].
double standard_pressure_Pa(double elevation_m);

/// Saturation vapour pressure over liquid water [Pa], Buck 1981 as revised 1996. 230..380 K.
double saturation_pressure_Pa(double temperature_K);
/// Boiling point of water [K] at a pressure [Pa]: the temperature where saturation_pressure_Pa
/// equals it.
double boiling_point_K(double pressure_Pa);
/// Latent heat of vaporisation of water [J/kg], linear fit to steam tables, 0.5 % over 290..380 K.
double latent_heat_Jkg(double temperature_K);
/// Dew point [K] from dry bulb [K] and relative humidity 0..1.
double dew_point_K(double temperature_K, double relative_humidity);
/// The same for many, to the bit, in less time. All of one size.
void dew_points_K(std::span<const double> temperature_K,
                  std::span<const double> relative_humidity,
                  std::span<double> dew_K);
/// Relative humidity 0..1 from dry bulb and dew point [K].
double relative_humidity(double temperature_K, double dew_point_K);
}  // namespace ovendays::base
