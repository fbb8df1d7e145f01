// SPDX-License-Identifier: MIT
// Models of the sky at one instant: the anisotropic diffuse light of Perez et al. 1990, split into
// its circumsolar, isotropic and horizon components; clear-sky irradiance; and infrared from the
// sky. Zenith angles are apparent [rad]. All functions are pure and thread-safe.
#pragma once

namespace ovendays::sky {

/// The components of diffuse light at one instant. If the sun is above 5 deg, they sum to DHI on an
/// open horizontal plane: isotropic_horizontal_Wm2 + circumsolar_normal_Wm2 cos z.
struct PerezParts {
  double epsilon = 1.0;  ///< clearness
  double delta = 0.0;    ///< brightness
  int bin = 1;           ///< clearness bin, 1..8
  double f1 = 0.0;       ///< circumsolar coefficient F1, 0..1
  double f2 = 0.0;       ///< horizon coefficient F2
  /// Circumsolar component on a plane that faces the sun: DHI F1 / max(cos z, cos 85 deg).
  double circumsolar_normal_Wm2 = 0.0;
  double isotropic_horizontal_Wm2 = 0.0;  ///< isotropic component on the horizontal: DHI (1 - F1)
  double horizon_Wm2 = 0.0;  ///< DHI F2, may be negative; a plane of tilt b gets this times sin b
};

/// The input of perez_parts().
struct SkyInstant {
  double zenith_rad;     ///< apparent; beyond 90 deg it counts as 90 deg
  double dni_Wm2;        ///< beam normal, >= 0
  double dhi_Wm2;        ///< diffuse horizontal; at 0 or below all components are 0
  double dni_extra_Wm2;  ///< extraterrestrial normal, > 0
};

/// Splits diffuse light into its components: Perez, Ineichen, Seals, Michalsky, Stewart 1990, Solar
/// Energy 44(5), eqs. 1, 2, 9 and Table 6 (all-sites composite, coefficients to three decimals).
/// The air mass is relative, not corrected for pressure. Departure: F1 is limited to 1, so that the
/// isotropic component cannot become negative.
PerezParts perez_parts(const SkyInstant& instant);

/// Diffuse light from the sky on an unobstructed tilted plane [W/m2], >= 0. The closed form of the
/// model, for checks and reports.
/// @param tilt_rad from the horizontal, 0..pi
/// @param cos_incidence of the sun on the plane; may be negative
double perez_tilted_sky_Wm2(const PerezParts& parts, double tilt_rad, double cos_incidence);

/// Profile by which the beam of an hour is distributed over its minutes [1]: the beam transmittance
/// of a clear sky, 0.7^(m^0.678) with the relative air mass m (Meinel and Meinel 1976, Applied
/// Solar Energy; from memory). It is 0.7 with the sun overhead, 0.015 at the horizon and 0 below.
/// Only its course within an hour matters, not its level.
/// @param zenith_rad apparent
double clear_beam_shape(double zenith_rad);

/// Profile by which the diffuse light of an hour is distributed over its minutes [1]: cos z, and 0
/// below the horizon. After Liu and Jordan 1960, where diffuse light is proportional to
/// extraterrestrial horizontal irradiance.
/// @param zenith_rad apparent
double clear_diffuse_shape(double zenith_rad);

/// Irradiance of a sky without clouds.
struct ClearSky {
  double dni_Wm2 = 0.0;  ///< beam normal
  double dhi_Wm2 = 0.0;  ///< diffuse horizontal
};

/// The input of clear_sky().
struct ClearSkyInput {
  double zenith_rad;             ///< apparent
  double dni_extra_Wm2;          ///< extraterrestrial normal, > 0
  double elevation_m;            ///< of the site
  double pressure_Pa;            ///< for the absolute air mass, m p / 101325
  double linke_turbidity = 3.0;  ///< 1..10
};

/// Clear-sky irradiance by Ineichen and Perez 2002, Solar Energy 73(3), from the Linke turbidity,
/// without the enhancement factor exp(0.01 m^1.8) that was added later. Zero if the sun is below
/// the horizon.
ClearSky clear_sky(const ClearSkyInput& input);

/// The input of sky_temperature_K().
struct SkyInfraredInput {
  double dry_bulb_K;
  double dew_point_K;
  double hour_of_day;  ///< solar hour 0..24, for the diurnal term
  double pressure_Pa;
  double cloud_fraction;     ///< 0..1
  double horizontal_ir_Wm2;  ///< downward infrared on the horizontal; <= 0 if not given
};

/// Effective temperature of the sky for infrared exchange [K]. If the horizontal infrared IR is
/// given, it is (IR / sigma)^(1/4). Otherwise dry_bulb (e0 + (1 - e0) n G)^(1/4), with the
/// clear-sky emissivity e0, the cloud fraction n and G = exp(-h / 8.2 km): Martin and Berdahl 1984,
/// Solar Energy 33:321, for opaque clouds whose base is at h = 2 km, between their low and middle
/// classes (from memory).
double sky_temperature_K(const SkyInfraredInput& input);

/// Emissivity of a clear sky [1], limited to 1:
/// 0.711 + 0.56 d + 0.73 d^2 + 0.013 cos(15 deg t) + 0.00012 (p - 1000), where d is the dew point
/// over 100 degC, t the time in hours and p the pressure in hPa (Berdahl and Martin 1984, Solar
/// Energy 32:663; pressure term from Martin and Berdahl 1984).
/// @param dew_point_K of the air
/// @param hour_of_day solar hour, 0..24
/// @param pressure_Pa of the air
double clear_sky_emissivity(double dew_point_K, double hour_of_day, double pressure_Pa);

/// Cloud fraction 0..1 from the clear-sky index k: Kasten and Czeplak 1980, Solar Energy 24:177,
/// k = 1 - 0.75 n^3.4, solved for n (from memory).
/// @param clear_sky_index GHI over clear-sky GHI; values above 1 count as 1
double cloud_fraction(double clear_sky_index);
}  // namespace ovendays::sky
