// SPDX-License-Identifier: MIT
// Heat-transfer correlations, as published, for tests, tables and the model's coefficients.
#pragma once

namespace ovendays::heat {

/// k (g beta / (nu alpha))^(1/4) of air at the film temperature [W/m^(7/4)K^(5/4)], ideal gas,
/// cubic fit to the property functions of base/air.h, 0.05 % over 250..520 K at 101325 Pa; scales
/// with (pressure)^(1/2).
double convection_group(double film_K, double pressure_Pa);

/// The orientation of a plate, which decides how air moves along it.
enum class PlateKind {
  kHotUpOrColdDown,  ///< Nu = 0.54 Ra^(1/4): McAdams 1954 (Incropera eq. 9.30), L = area /
                     ///< perimeter
  kVertical,         ///< Nu = 0.515 Ra^(1/4): Churchill and Chu 1975, laminar, Pr 0.71, without its
                     ///< conduction term 0.68
};
/// Natural convection coefficient at a plate [W/m2K], laminar. @param length_m characteristic
/// length
double natural_convection_Wm2K(
    PlateKind kind, double surface_K, double air_K, double length_m, double pressure_Pa);

/// Convection across an inclined air gap heated from below [W/m2K]: Hollands, Unny, Raithby,
/// Konicek 1976, J. Heat Transfer 98:189 (Duffie and Beckman eq. 3.11.4), both brackets clipped at
/// zero. Beyond its 75 deg the value at 75 deg is used; a gap heated from above has Nu = 1.
/// @param tilt_rad of the gap from horizontal, 0..pi/2
double gap_convection_Wm2K(
    double lower_K, double upper_K, double gap_m, double tilt_rad, double pressure_Pa);
/// The functions of the tilt that the integrator needs: cos(tilt) and 1708 sin(1.8 tilt)^1.6 for
/// the gap between panes, and cos(tilt)^(1/4) for free convection from the outer pane, which goes
/// with the component of gravity along the normal (Incropera sec. 9.6.2, inclined plates).
struct GapTilt {
  double cosine;
  double sine_power;
  double cosine_root;
};
GapTilt gap_tilt(double tilt_rad);
/// Nusselt number of gap_convection_Wm2K() for a given Rayleigh number.
double hollands_nusselt(double rayleigh, double tilt_rad);

/// Wind coefficient of an outdoor surface [W/m2K]: 2.8 + 3.0 V (Watmuff, Charters and Proctor
/// 1977).
double wind_coefficient_Wm2K(double wind_ms);

/// Langmuir, Adams and Meikle 1913 (Incropera table 4.1): conductance of a box's wall counted with
/// its edges and corners, over that of the inner faces alone, all walls of one thickness. >= 1
double box_shape_factor(double width_m, double depth_m, double height_m, double thickness_m);

/// Contact of a vessel's foot with the plate it stands on, through the air that an uneven foot
/// leaves: k_air / gap + 4 sigma T^3 / (1/e1 + 1/e2 - 1), at 350 K [W/m2K]. A gap of 1 mm between
/// black faces gives 38; measured under a pan on a plate: 28.6 (see tests/data/heat).
/// @param gap_m mean air gap, > 0
double foot_contact_Wm2K(double gap_m, double foot_emittance, double plate_emittance);

/// A round foot in the middle of a thin plate that takes up heat all over.
struct FootOnPlate {
  double foot_m2;       ///< of the vessel's foot
  double plate_m2;      ///< of the whole plate, foot included
  double sheet_WK;      ///< conductivity times thickness of the plate
  double contact_Wm2K;  ///< foot_contact_Wm2K()
};
/// Conductance from the plate's mean temperature outside the foot to the vessel [W/K]: heat taken
/// up evenly over the ring flows inward, then under the foot, where it leaves as from a disc-shaped
/// fin:  1/G = 1/(2 pi a kt m I1(ma)/I0(ma)) + [R^4 ln(R/a)/(R^2-a^2)^2 - (3R^2-a^2)/(4(R^2-a^2))]
/// / (2 pi kt),  m^2 = contact/kt, a and R the radii of foot and plate (Carslaw and Jaeger 1959,
/// plane steady flow; Incropera sec. 3.6, fins of annular and disc form). A plate no larger than
/// the foot leaves the contact alone.
double foot_conductance_WK(const FootOnPlate& foot);

/// Saturation pressure of water [Pa] by a polynomial in p^(1/8), within 0.01 % of
/// base::saturation_pressure_Pa over 240..400 K; the model's right-hand side uses it for speed.
double fast_saturation_Pa(double temperature_K);
}  // namespace ovendays::heat
