// SPDX-License-Identifier: MIT
// Physical constants and unit conversions in SI. Each one is defined here and nowhere else.
#pragma once

#include <numbers>

namespace ovendays::base {
inline constexpr double kPi = std::numbers::pi;
inline constexpr double kTwoPi = 2.0 * kPi;
inline constexpr double kRadPerDeg = kPi / 180.0;
inline constexpr double kDegPerRad = 180.0 / kPi;
/// Stefan-Boltzmann constant [W/m2K4], CODATA 2018 (exact since the 2019 SI).
inline constexpr double kStefanBoltzmann_Wm2K4 = 5.670374419e-8;
/// Standard gravity [m/s2], CGPM 1901.
inline constexpr double kGravity_ms2 = 9.80665;
/// The zero of the Celsius scale [K].
inline constexpr double kZeroCelsius_K = 273.15;
/// Standard atmosphere at sea level [Pa], ICAO Doc 7488.
inline constexpr double kStandardPressure_Pa = 101325.0;
inline constexpr double kSecondsPerMinute = 60.0;
inline constexpr double kSecondsPerHour = 3600.0;
inline constexpr double kSecondsPerDay = 86400.0;
inline constexpr double kJoulesPerKWh = 3.6e6;
}  // namespace ovendays::base
