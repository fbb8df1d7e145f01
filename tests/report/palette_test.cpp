// SPDX-License-Identifier: MIT
// The colours against WCAG 2.1 (contrast, success criteria 1.4.3 and 1.4.11) and against the ways
// of seeing without one kind of cone.
#include "palette.h"

#include <cmath>

#include "catch.h"

using namespace ovendays::report;
using ovendays::test::within_abs;

namespace {
// Success criterion 1.4.3: text against its ground; 1.4.11: parts of a picture.
constexpr double kText = 4.5;
constexpr double kGraphic = 3.0;

const Palette* const kBoth[] = {&light_palette(), &dark_palette()};

/// Colours as seen without one kind of cone, linear RGB: Machado, Oliveira and Fernandes 2009, IEEE
/// TVCG 15:1291, table 1, severity 1.0 (from memory); rows sum to 1, so that greys stay grey.
constexpr double kProtan[3][3] = {{0.152286, 1.052583, -0.204868},
                                  {0.114503, 0.786281, 0.099216},
                                  {-0.003882, -0.048116, 1.051998}};
constexpr double kDeutan[3][3] = {{0.367322, 0.860646, -0.227968},
                                  {0.280085, 0.672501, 0.047413},
                                  {-0.011820, 0.042940, 0.968881}};

double linear(int value) {
  const double share = value / 255.0;
  return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
}

double seen_luminance(const Colour& colour, const double (&cone)[3][3]) {
  const double rgb[3] = {linear(colour.red), linear(colour.green), linear(colour.blue)};
  const double weight[3] = {0.2126, 0.7152, 0.0722};
  double sum = 0.0;
  for (int row = 0; row < 3; ++row) {
    double value = 0.0;
    for (int column = 0; column < 3; ++column) value += cone[row][column] * rgb[column];
    sum += weight[row] * std::min(1.0, std::max(0.0, value));
  }
  return sum;
}
}  // namespace

// Source: WCAG 2.1, definition of contrast ratio: black on white is 21; #767676 on white 4.54.
TEST_CASE("contrast is WCAG's", "[report][reference]") {
  CHECK_THAT(contrast({0, 0, 0}, {255, 255, 255}), within_abs(21.0, 1e-12));
  CHECK_THAT(contrast({0x76, 0x76, 0x76}, {255, 255, 255}), within_abs(4.54, 0.005));
}

TEST_CASE("text is legible on all its backgrounds", "[report][unit]") {
  for (const Palette* p : kBoth) {
    for (const Colour& ground : {p->paper, p->band}) {
      CHECK(contrast(p->ink, ground) >= kText);
      CHECK(contrast(p->soft, ground) >= kText);
    }
    for (std::size_t i = 0; i < kSteps; ++i) {
      INFO("step " << i);
      CHECK(contrast(p->scale[i], p->on_scale[i]) >= kText);
    }
    for (std::size_t i = 1; i < p->cause.size(); ++i) {
      INFO("cause " << i);
      CHECK(contrast(p->cause[i], p->on_cause[i]) >= kText);
    }
    CHECK(contrast(p->sun, {0x1f, 0x14, 0x0e}) >= kText);
  }
}

TEST_CASE("shapes and curves stand out from the page", "[report][unit]") {
  for (const Palette* p : kBoth) {
    for (const Colour& shape : p->outcome) CHECK(contrast(shape, p->paper) >= kGraphic);
    for (const Colour& curve : p->trace) CHECK(contrast(curve, p->paper) >= kGraphic);
    CHECK(contrast(p->shade, p->paper) >= kGraphic);
  }
}

TEST_CASE("the scale's lightness is monotonic for all kinds of colour vision", "[report][unit]") {
  for (const Palette* p : kBoth) {
    const double sign = p == &light_palette() ? -1.0 : 1.0;
    for (std::size_t i = 1; i < kSteps; ++i) {
      INFO("step " << i);
      CHECK(sign * (luminance(p->scale[i]) - luminance(p->scale[i - 1])) > 0.0);
      CHECK(sign *
                (seen_luminance(p->scale[i], kProtan) - seen_luminance(p->scale[i - 1], kProtan)) >
            0.0);
      CHECK(sign *
                (seen_luminance(p->scale[i], kDeutan) - seen_luminance(p->scale[i - 1], kDeutan)) >
            0.0);
    }
  }
}

TEST_CASE("only a share of zero is step zero of the scale", "[report][unit]") {
  CHECK(step_of(0.0) == 0);
  CHECK(step_of(1e-6) == 1);
  CHECK(step_of(0.55) == 6);
  CHECK(step_of(1.0) == 10);
  CHECK(step_of(7.0) == 10);
  CHECK(step_of(std::nan("")) == 0);
}
