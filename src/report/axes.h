// SPDX-License-Identifier: MIT
// Axes that most pictures share: a plot area with months or hours along the x axis and a scale on
// the y axis.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>

#include "drawing.h"
#include "ovendays/base/calendar.h"
#include "words.h"

namespace ovendays::report {

/// Plot area of a picture, and the values at its edges.
struct Axes {
  double left, top, width, height;
  double x_least, x_most, y_least, y_most;

  [[nodiscard]] double x(double value) const {
    return left + width * (value - x_least) / (x_most - x_least);
  }
  [[nodiscard]] double y(double value) const {
    return top + height * (1.0 - (value - y_least) / (y_most - y_least));
  }
  [[nodiscard]] double bottom() const { return top + height; }

  /// Draws grid lines every `step` with numbers on the left; the last number carries the unit.
  void rule(Drawing& d, double step, const std::string& unit = "") const {
    const long lines = std::lround(std::floor((y_most - y_least) / step + 1e-9));
    for (long i = 0; i <= lines; ++i) {
      const double value = y_least + static_cast<double>(i) * step;
      d.line(left, y(value), left + width, y(value), "grid");
      d.text({left - 4, y(value) + 3.5, "end", "small"},
             fixed(value, 0) + (i == lines ? unit : std::string()));
    }
  }
  /// Draws the names of the months under twelve equal columns.
  void months(Drawing& d) const {
    const double column = width / 12.0;
    for (int month = 1; month <= 12; ++month) {
      d.text({left + (month - 0.5) * column, bottom() + 13, "middle", "small"},
             base::month_name(month));
    }
    d.line(left, bottom(), left + width, bottom(), "axis");
  }
};

/// The smallest of 1, 2, 2.5 or 5 times a power of ten that divides `range` into at most `most`
/// intervals.
double round_step(double range, int most);
}  // namespace ovendays::report
