// SPDX-License-Identifier: MIT
// The colours of pictures and pages, light and dark. Text has a WCAG contrast of at least 4.5 on
// its background, the lightness of the scale is monotonic, and no state is shown by colour alone
// (outcomes also have shapes, causes letters). tests/report/palette_test.cpp checks all of that.
#pragma once

#include <array>
#include <string>

#include "ovendays/season/season.h"

namespace ovendays::report {

struct Colour {
  int red, green, blue;
};
std::string hex(const Colour& colour);
/// Relative luminance, WCAG 2.1.
double luminance(const Colour& colour);
/// Contrast ratio of two colours, WCAG 2.1, 1..21.
double contrast(const Colour& a, const Colour& b);

/// Number of steps of the scale: step 0 means none, the other ten rise with the share.
inline constexpr std::size_t kSteps = 11;
inline constexpr std::size_t kLines = 6;

struct Palette {
  Colour ink, soft, paper, band, line;
  std::array<Colour, kSteps> scale;
  std::array<Colour, kSteps> on_scale;           ///< text on each step
  std::array<Colour, 4> outcome;                 ///< by season::Outcome
  std::array<Colour, season::kCauses> cause;     ///< by season::Cause; kNone is not used
  std::array<Colour, season::kCauses> on_cause;  ///< text on each cause
  Colour sun, shade, sky;            ///< beam that arrives, beam that is lost, diffuse light
  Colour dome, hidden;               ///< open sky seen from the oven, and what hides it
  std::array<Colour, kLines> trace;  ///< core, pot, oven air, liner, empty oven, outside air
};
const Palette& light_palette();
const Palette& dark_palette();

/// Step of the scale for a share 0..1; only a share of zero is step 0.
std::size_t step_of(double share);

/// Both palettes as CSS custom properties on `selector`. The dark one applies if the device prefers
/// it; print is always light. Names: --ink --soft --paper --band --line --s0.. --t0.. --o0.. --c1..
/// --k1.. --sun --shade --sky --dome --hidden --l0..
std::string palette_css(const std::string& selector);
}  // namespace ovendays::report
