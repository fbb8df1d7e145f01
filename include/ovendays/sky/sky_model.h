// SPDX-License-Identifier: MIT
// Light of the sky at one instant: Perez et al. 1990 anisotropic diffuse, split into the part that
// travels with the beam, the isotropic part and the horizon part; and the sky's infrared.
#pragma once

namespace ovendays::sky {

/// Diffuse light at one instant.
struct PerezParts {
  double epsilon = 1.0;  ///< clearness
  double delta = 0.0;    ///< brightness
  int bin = 1;           ///< 1..8
  double f1 = 0.0;       ///< circumsolar coefficient, >= 0
  double f2 = 0.0;       ///< horizon coefficient
  double circumsolar_normal_Wm2 =
      0.0;  ///< DHI F1 / max(cos z, cos 85 deg): adds to the beam on a plane facing the sun
  double isotropic_horizontal_Wm2 = 0.0;  ///< DHI (1 - F1)
  double horizon_Wm2 = 0.0;  ///< DHI F2; a plane of tilt b gets this times sin b; may be negative
};

struct SkyInstant {
  double zenith_rad;  ///< apparent
  double dni_Wm2;
  double dhi_Wm2;
  double dni_extra_Wm2;  ///< extraterrestrial normal
};

/// Perez, Ineichen, Seals, Michalsky, Stewart 1990, Solar Energy 44(5), eqs. 1, 2, 9 and Table 6
/// (all-sites composite, coefficients to three decimals as in the reference tables).
PerezParts perez_parts(const SkyInstant& instant);

/// Diffuse on an open tilted plane [W/m2] (closed form, no obstruction), for checks and reports.
/// @param cos_incidence of the sun on the plane, may be negative
double perez_tilted_sky_Wm2(const PerezParts& parts, double tilt_rad, double cos_incidence);

/// Beam-normal profile of a clear sky used to spread an hour's beam over its minutes [1]: exp(-0.09
/// m^0.75..) relative to extraterrestrial; 0 below the horizon.
double clear_beam_shape(double zenith_rad);
/// Clear-sky horizontal diffuse profile [1], 0 below the horizon.
double clear_diffuse_shape(double zenith_rad);

/// Clear-sky irradiance used for "had there been no cloud": beam normal and diffuse horizontal
/// [W/m2].
struct ClearSky {
  double dni_Wm2 = 0.0;
  double dhi_Wm2 = 0.0;
};
/// Ineichen and Perez 2002 with a Linke turbidity. @param linke_turbidity 1..10
ClearSky clear_sky(double zenith_rad,
                   double dni_extra_Wm2,
                   double elevation_m,
                   double pressure_Pa,
                   double linke_turbidity);

/// Sky temperature [K]: from horizontal infrared where given, else Berdahl and Martin 1984
/// clear-sky emissivity with a cloud correction by the opaque share estimated from clearness.
struct SkyInfraredInput {
  double dry_bulb_K;
  double dew_point_K;
  double hour_of_day;  ///< solar-ish local hour 0..24, for the diurnal term
  double pressure_Pa;
  double cloud_fraction;     ///< 0..1
  double horizontal_ir_Wm2;  ///< < 0 where not given
};
double sky_temperature_K(const SkyInfraredInput& input);
/// Clear-sky emissivity after Berdahl and Martin 1984.
double clear_sky_emissivity(double dew_point_K, double hour_of_day, double pressure_Pa);
}  // namespace ovendays::sky
