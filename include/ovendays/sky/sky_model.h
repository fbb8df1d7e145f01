// SPDX-License-Identifier: MIT
// Light of the sky at one instant: Perez et al. 1990 anisotropic diffuse, split into the part that
// travels with the beam, the isotropic part and the horizon part; clear-sky light; and the sky's
// infrared. Zenith angles are apparent [rad]. Thread-safe: no state is kept between calls.
#pragma once

namespace ovendays::sky {

/// Diffuse light at one instant. On an open horizontal plane with the sun above 5 deg the parts sum
/// to DHI: isotropic_horizontal_Wm2 + circumsolar_normal_Wm2 cos z.
struct PerezParts {
  double epsilon = 1.0;  ///< clearness
  double delta = 0.0;    ///< brightness
  int bin = 1;           ///< 1..8
  double f1 = 0.0;       ///< circumsolar coefficient, 0..1
  double f2 = 0.0;       ///< horizon coefficient
  double circumsolar_normal_Wm2 =
      0.0;  ///< DHI F1 / max(cos z, cos 85 deg): adds to the beam on a plane facing the sun
  double isotropic_horizontal_Wm2 = 0.0;  ///< DHI (1 - F1)
  double horizon_Wm2 = 0.0;  ///< DHI F2; a plane of tilt b gets this times sin b; may be negative
};

struct SkyInstant {
  double zenith_rad;     ///< apparent; taken as 90 deg beyond
  double dni_Wm2;        ///< beam normal, >= 0
  double dhi_Wm2;        ///< diffuse horizontal; at 0 or below every part is 0
  double dni_extra_Wm2;  ///< extraterrestrial normal, > 0
};

/// Perez, Ineichen, Seals, Michalsky, Stewart 1990, Solar Energy 44(5), eqs. 1, 2, 9 and Table 6
/// (all-sites composite, coefficients to three decimals as in the reference tables). Air mass is
/// relative, not corrected for pressure. Departure: F1 is held at 1 or below, so that the isotropic
/// part cannot turn negative.
PerezParts perez_parts(const SkyInstant& instant);

/// Diffuse on an open tilted plane [W/m2] (closed form, no obstruction), for checks and reports;
/// 0 or above.
/// @param tilt_rad from the horizontal, 0..pi
/// @param cos_incidence of the sun on the plane, may be negative
double perez_tilted_sky_Wm2(const PerezParts& parts, double tilt_rad, double cos_incidence);

/// Beam-normal profile of a clear sky used to spread an hour's beam over its minutes [1], relative
/// to extraterrestrial: 0.7^(m^0.678), m the relative air mass (Meinel and Meinel 1976, Applied
/// Solar Energy; from memory). 0.7 with the sun overhead, 0.015 at the horizon, 0 below it. Only
/// its course within the hour counts, not its level.
double clear_beam_shape(double zenith_rad);

/// Horizontal diffuse profile [1] relative to extraterrestrial, cos z: Liu and Jordan 1960, whose
/// diffuse follows the extraterrestrial light on the horizontal. 0 below the horizon.
double clear_diffuse_shape(double zenith_rad);

/// Clear-sky irradiance used for "had there been no cloud": beam normal and diffuse horizontal
/// [W/m2].
struct ClearSky {
  double dni_Wm2 = 0.0;
  double dhi_Wm2 = 0.0;
};

struct ClearSkyInput {
  double zenith_rad;             ///< apparent
  double dni_extra_Wm2;          ///< extraterrestrial normal, > 0
  double elevation_m;            ///< of the site
  double pressure_Pa;            ///< of the air, for the absolute air mass m p / 101325
  double linke_turbidity = 3.0;  ///< 1..10
};

/// Ineichen and Perez 2002, Solar Energy 73(3), with a Linke turbidity, without the later
/// exp(0.01 m^1.8) enhancement. Zeros with the sun below the horizon.
ClearSky clear_sky(const ClearSkyInput& input);

/// What the sky's infrared is made from.
struct SkyInfraredInput {
  double dry_bulb_K;
  double dew_point_K;
  double hour_of_day;  ///< solar hour 0..24, for the diurnal term
  double pressure_Pa;
  double cloud_fraction;     ///< 0..1
  double horizontal_ir_Wm2;  ///< <= 0 where not given
};

/// Sky temperature [K]. From the horizontal infrared where given, (IR / sigma)^(1/4). Else
/// dry_bulb (e0 + (1 - e0) n G)^(1/4) with the clear-sky emissivity e0, the cloud fraction n and
/// G = exp(-h / 8.2 km): Martin and Berdahl 1984, Solar Energy 33:321, for opaque cloud with its
/// base at h = 2 km, the middle of their low and middle classes (from memory).
double sky_temperature_K(const SkyInfraredInput& input);

/// Clear-sky emissivity, 0.711 + 0.56 d + 0.73 d^2 + 0.013 cos(15 deg t) + 0.00012 (p - 1000), d
/// the dew point / 100 degC, t hours from midnight, p in hPa (Berdahl and Martin 1984, Solar Energy
/// 32:663; the pressure term Martin and Berdahl 1984). Held at 1 or below.
double clear_sky_emissivity(double dew_point_K, double hour_of_day, double pressure_Pa);

/// Cloud fraction 0..1 from how much of the clear-sky global light arrives: Kasten and Czeplak
/// 1980, Solar Energy 24:177, GHI / clear = 1 - 0.75 n^3.4, solved for n (from memory).
/// @param clearness GHI over clear-sky GHI; above 1 counts as 1
double cloud_fraction(double clearness);
}  // namespace ovendays::sky
