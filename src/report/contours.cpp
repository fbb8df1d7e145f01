// SPDX-License-Identifier: MIT
#include "contours.h"

#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>

namespace ovendays::report {
namespace {

/// Numbers the edges of the grid: 2 n leads from node n to the east, 2 n + 1 to the north.
using Edge = std::size_t;

class Tracing {
 public:
  Tracing(const Field& field, double level) : field_(field), level_(level) {
    for (std::size_t row = 0; row + 1 < field.rows; ++row) {
      for (std::size_t column = 0; column + 1 < field.columns; ++column) add_cell(column, row);
    }
  }

  std::vector<Polyline> lines() {
    std::vector<Polyline> all;
    // Open lines are traced from their ends first; the remaining segments form rings.
    for (const auto& [edge, others] : next_) {
      if (others.size() == 1 && !seen_.contains(edge)) all.push_back(follow(edge));
    }
    for (const auto& [edge, others] : next_) {
      if (!seen_.contains(edge)) {
        all.push_back(follow(edge));
        all.back().push_back(all.back().front());
      }
    }
    return all;
  }

 private:
  [[nodiscard]] bool above(double value) const { return value >= level_; }

  void add_cell(std::size_t column, std::size_t row) {
    const std::array<double, 4> corner = {field_.at(column, row),
                                          field_.at(column + 1, row),
                                          field_.at(column + 1, row + 1),
                                          field_.at(column, row + 1)};
    double mean = 0.0;
    for (const double value : corner) mean += 0.25 * value;
    if (std::isnan(mean)) return;
    const std::size_t node = row * field_.columns + column;
    // Sides in the order south, east, north, west; side i lies between corners i and i + 1.
    const std::array<Edge, 4> side = {
        2 * node, 2 * (node + 1) + 1, 2 * (node + field_.columns), 2 * node + 1};
    std::vector<Edge> crossed;
    for (std::size_t i = 0; i < 4; ++i) {
      if (above(corner[i]) != above(corner[(i + 1) % 4])) crossed.push_back(side[i]);
    }
    if (crossed.size() == 2) join(crossed[0], crossed[1]);
    if (crossed.size() != 4) return;
    // Saddle: the mean of the corners decides which two corners are cut off.
    const bool around_first = above(corner[0]) != above(mean);
    join(side[0], around_first ? side[3] : side[1]);
    join(side[2], around_first ? side[1] : side[3]);
  }

  void join(Edge a, Edge b) {
    next_[a].push_back(b);
    next_[b].push_back(a);
  }

  [[nodiscard]] std::pair<double, double> point(Edge edge) const {
    const std::size_t node = edge / 2;
    const bool east = edge % 2 == 0;
    const std::size_t column = node % field_.columns;
    const std::size_t row = node / field_.columns;
    const double from = field_.at(column, row);
    const double to = east ? field_.at(column + 1, row) : field_.at(column, row + 1);
    const double share = (level_ - from) / (to - from);
    return {static_cast<double>(column) + (east ? share : 0.0),
            static_cast<double>(row) + (east ? 0.0 : share)};
  }

  Polyline follow(Edge start) {
    Polyline line;
    std::optional<Edge> edge = start;
    while (edge) {
      seen_.insert(*edge);
      line.push_back(point(*edge));
      std::optional<Edge> onward;
      for (const Edge other : next_[*edge]) {
        if (!seen_.contains(other)) onward = other;
      }
      edge = onward;
    }
    return line;
  }

  const Field& field_;
  double level_;
  std::map<Edge, std::vector<Edge>> next_;
  std::set<Edge> seen_;
};
}  // namespace

std::vector<Polyline> contour_lines(const Field& field, double level) {
  return Tracing(field, level).lines();
}
}  // namespace ovendays::report
