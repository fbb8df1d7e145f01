// SPDX-License-Identifier: MIT
// The frame that most pictures share: a field with the months or the hours along its foot and a
// scale up its side.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>

#include "drawing.h"
#include "ovendays/base/calendar.h"
#include "words.h"

namespace ovendays::report {

/// A field of a picture and what its edges stand for.
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

  /// Lines across the field every `step`, with numbers at the left.
  void rule(Drawing& d, double step, const std::string& unit = "") const {
    const long lines = std::lround(std::floor((y_most - y_least) / step + 1e-9));
    for (long i = 0; i <= lines; ++i) {
      const double value = y_least + static_cast<double>(i) * step;
      d.line(left, y(value), left + width, y(value), "grid");
      d.text({left - 4, y(value) + 3.5, "end", "small"},
             fixed(value, 0) + (i == lines ? unit : std::string()));
    }
  }
  /// Names of the months under twelve equal columns.
  void months(Drawing& d) const {
    const double column = width / 12.0;
    for (int month = 1; month <= 12; ++month) {
      d.text({left + (month - 0.5) * column, bottom() + 13, "middle", "small"},
             base::month_name(month));
    }
    d.line(left, bottom(), left + width, bottom(), "axis");
  }
};

/// The first of 1, 2, 2.5 or 5 times a power of ten that cuts `range` into at most `most` pieces.
double round_step(double range, int most);
}  // namespace ovendays::report
