// SPDX-License-Identifier: MIT
// The plan of a plot shaded by days, north up.
#include <algorithm>
#include <cmath>
#include <limits>

#include "axes.h"
#include "contours.h"
#include "map_words.h"
#include "ovendays/base/constants.h"
#include "ovendays/spot/plan_view.h"
#include "palette.h"

namespace ovendays::report {
namespace {
using spot::PlanLine;
using study::MapPlace;
using study::Period;
using study::SpotMap;

constexpr double kMapWidth = 760, kMapMargin = 40, kHighest = 560, kMapGap = 14;

/// Days at the ends of the colour scale; places with fewer than `least` are shaded like it.
struct Shades {
  int least = 0;
  int most = 0;
  [[nodiscard]] std::string kind(int days) const {
    if (days == 0) return "s0";
    const double share = static_cast<double>(days - least) / (most - least);
    return "s" + std::to_string(step_of(std::max(share, 1e-9)));
  }
};

/// The scale ends at the best place and at the fifth percentile of all places, so that a few deep
/// corners do not use up the scale of the places that are worth choosing between.
Shades shades_of(const SpotMap& map, std::size_t first, std::size_t last) {
  std::vector<int> days;
  for (const MapPlace& place : map.places) {
    for (std::size_t p = first; place.free && p <= last; ++p) {
      days.push_back(study::days_in(place, study::periods()[p]));
    }
  }
  if (days.empty()) return {0, 10};
  std::sort(days.begin(), days.end());
  // Whole tens, at least twenty days apart, so that two days do not look like a large difference.
  const int top = std::max(20, (days.back() + 9) / 10 * 10);
  return {std::max(0, std::min(days[days.size() / 20] / 10 * 10, top - 20)), top};
}

/// Draws one plan at a given position and scale.
class Plan {
 public:
  Plan(const NamedMap& story, const Box& room) : story_(story), map_(story.map) {
    const study::MapGrid& grid = map_.grid;
    const double half = 0.5 * grid.step_m;
    west_ = grid.x_m.front() - half;
    north_ = grid.y_m.back() + half;
    const double wide_m = grid.x_m.back() + half - west_;
    const double high_m = north_ - (grid.y_m.front() - half);
    scale_ = std::min(room.width / wide_m, room.height / high_m);
    box_ = {
        room.x + 0.5 * (room.width - scale_ * wide_m), room.y, scale_ * wide_m, scale_ * high_m};
  }
  [[nodiscard]] const Box& box() const { return box_; }
  [[nodiscard]] double x(double x_m) const { return box_.x + scale_ * (x_m - west_); }
  [[nodiscard]] double y(double y_m) const { return box_.y + scale_ * (north_ - y_m); }
  [[nodiscard]] double scale() const { return scale_; }

  void shade(Drawing& d, const Period& period, const Shades& shades) const;
  void levels(Drawing& d, const Shades& shades, double step) const;
  void surroundings(Drawing& d, bool named) const;
  void facings(Drawing& d) const;
  void pins(Drawing& d, const Period& period, std::size_t most, double radius) const;
  void rulers(Drawing& d) const;

 private:
  const NamedMap& story_;
  const SpotMap& map_;
  double west_ = 0.0, north_ = 0.0, scale_ = 1.0;
  Box box_{};
};

// Neighbouring places of the same shade are merged into one box.
void Plan::shade(Drawing& d, const Period& period, const Shades& shades) const {
  const double side = scale_ * map_.grid.step_m;
  const std::size_t columns = map_.grid.x_m.size();
  for (std::size_t row = 0; row < map_.grid.y_m.size(); ++row) {
    const auto kind_at = [&](std::size_t column) {
      const MapPlace& place = map_.at(column, row);
      return place.free ? shades.kind(study::days_in(place, period)) : std::string();
    };
    for (std::size_t column = 0; column < columns;) {
      const std::string kind = kind_at(column);
      std::size_t end = column + 1;
      while (end < columns && kind_at(end) == kind) ++end;
      if (!kind.empty()) {
        d.box({x(map_.grid.x_m[column]) - 0.5 * side,
               y(map_.grid.y_m[row]) - 0.5 * side,
               side * static_cast<double>(end - column) + 0.8,
               side + 0.8},
              kind);
      }
      column = end;
    }
  }
}

/// Labels contour lines that are long enough, keeping labels apart.
class LevelNames {
 public:
  void put(Drawing& d, const Polyline& line, double level) {
    double length = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i) length += apart(line[i], line[i - 1]);
    const auto& middle = line[line.size() / 2];
    const bool crowded = std::any_of(named_.begin(), named_.end(), [&](const auto& other) {
      return apart(middle, other) < kRoom;
    });
    if (length < kLongEnough || crowded) return;
    named_.push_back(middle);
    d.box({middle.first - 10, middle.second - 6.5, 20, 12}, "halo", 2);
    d.text({middle.first, middle.second + 3.5, "middle", "small"}, fixed(level, 0));
  }

 private:
  static constexpr double kLongEnough = 90.0, kRoom = 34.0;
  static double apart(const std::pair<double, double>& a, const std::pair<double, double>& b) {
    return std::hypot(a.first - b.first, a.second - b.second);
  }
  Polyline named_;
};

// Draws lines only within the scale; where days fall off steeply, more lines would merge.
void Plan::levels(Drawing& d, const Shades& shades, double step) const {
  Field field{map_.grid.x_m.size(), map_.grid.y_m.size(), {}};
  for (const MapPlace& place : map_.places) {
    field.values.push_back(place.free ? place.days[12] : std::numeric_limits<double>::quiet_NaN());
  }
  const auto at_m = [](const std::vector<double>& nodes, double place) {
    return nodes.front() + place * (nodes.size() > 1 ? nodes[1] - nodes[0] : 0.0);
  };
  LevelNames names;
  const int last = static_cast<int>(shades.most / step);
  for (int i = std::max(1, static_cast<int>(std::ceil(shades.least / step))); i <= last; ++i) {
    const double level = i * step;
    for (const Polyline& line : contour_lines(field, level - 0.5)) {
      Polyline drawn;
      for (const auto& [column, row] : line) {
        drawn.emplace_back(x(at_m(map_.grid.x_m, column)), y(at_m(map_.grid.y_m, row)));
      }
      d.polyline(drawn, "level");
      names.put(d, drawn, level);
    }
  }
}

const char* kind_of(PlanLine::Kind kind) {
  switch (kind) {
    case PlanLine::Kind::kWall:
      return "wall";
    case PlanLine::Kind::kRoof:
      return "roof";
    case PlanLine::Kind::kCrown:
      return "crown";
    case PlanLine::Kind::kSolid:
    case PlanLine::Kind::kTrunk:
      break;
  }
  return "house";
}

void Plan::surroundings(Drawing& d, bool named) const {
  for (const spot::Obstruction& obstruction : story_.spot.obstructions) {
    bool first = true;
    for (const PlanLine& line : spot::plan_view(obstruction)) {
      Polyline points;
      double east = 0.0;
      double up = 0.0;
      for (const base::Point& p : line.points) {
        points.emplace_back(x(p.x), y(p.y));
        east += points.back().first / static_cast<double>(line.points.size());
        up += points.back().second / static_cast<double>(line.points.size());
      }
      d.open(line.name);
      if (line.closed()) {
        d.polygon(points, kind_of(line.kind));
      } else {
        d.polyline(points, kind_of(line.kind));
      }
      d.close();
      const bool seen = std::abs(east - box_.x - 0.5 * box_.width) < 0.42 * box_.width &&
                        std::abs(up - box_.y - 0.5 * box_.height) < 0.46 * box_.height;
      if (named && first && seen) {
        const double half = 2.6 * static_cast<double>(columns_of(line.name));
        d.box({east - half - 2, up + 2, 2 * half + 4, 12}, "halo", 2);
        d.text({east, up + 11.5, "middle", "small"}, line.name);
      }
      first = false;
    }
  }
}

// Draws the best facing as a short line, on some of the places.
void Plan::facings(Drawing& d) const {
  if (map_.turns) return;
  const double side = scale_ * map_.grid.step_m;
  const auto every = static_cast<std::size_t>(std::max(1.0, std::ceil(18.0 / side)));
  for (std::size_t row = 0; row < map_.grid.y_m.size(); row += every) {
    for (std::size_t column = 0; column < map_.grid.x_m.size(); column += every) {
      const MapPlace& place = map_.at(column, row);
      if (!place.free || place.days[12] == 0) continue;
      const double px = x(map_.grid.x_m[column]);
      const double py = y(map_.grid.y_m[row]);
      d.circle(px, py, 1.3, "ink");
      d.line(px,
             py,
             px + 7.0 * std::sin(place.facing_rad),
             py - 7.0 * std::cos(place.facing_rad),
             "level");
    }
  }
}

void Plan::pins(Drawing& d, const Period& period, std::size_t most, double radius) const {
  const double hx = x(map_.mouth.x);
  const double hy = y(map_.mouth.y);
  d.open("where it stands now: " + days_text(study::days_in(map_.here, period)));
  d.polygon({{hx, hy - radius}, {hx + radius, hy}, {hx, hy + radius}, {hx - radius, hy}}, "house");
  d.close();
  const std::vector<std::size_t> best = study::best_places(map_, period, most, apart_m(map_.grid));
  const std::size_t columns = map_.grid.x_m.size();
  for (std::size_t i = best.size(); i-- > 0;) {
    const double px = x(map_.grid.x_m[best[i] % columns]);
    const double py = y(map_.grid.y_m[best[i] / columns]);
    d.open(days_text(study::days_in(map_.places[best[i]], period)));
    d.circle(px, py, radius, "pin");
    if (most > 1) d.text({px, py + 4, "middle", "pinned"}, std::to_string(i + 1));
    d.close();
  }
}

void Plan::rulers(Drawing& d) const {
  const double step_m = round_step(box_.width / scale_, 8);
  const double foot = box_.y + box_.height;
  const double east_m = west_ + box_.width / scale_;
  const double south_m = north_ - box_.height / scale_;
  const auto marks = [step_m](double from_m, double to_m) {
    std::vector<double> all;
    const int last = static_cast<int>(std::floor(to_m / step_m));
    for (int i = static_cast<int>(std::ceil(from_m / step_m)); i <= last; ++i) {
      all.push_back(i * step_m);
    }
    return all;
  };
  for (const double at : marks(west_, east_m)) {
    d.line(x(at), foot, x(at), foot + 4, "axis");
    d.text({x(at), foot + 14, "middle", "small"}, number(at));
  }
  for (const double at : marks(south_m, north_)) {
    d.line(box_.x - 4, y(at), box_.x, y(at), "axis");
    d.text({box_.x - 7, y(at) + 3.5, "end", "small"}, number(at));
  }
  d.text({box_.x + box_.width, foot + 27, "end", "small"}, "x, metres to the east");
  d.text({box_.x, box_.y - 7, "start", "small"}, "y, metres to the north; north is up");
}

/// Draws the colour scale. @return the y below it
double draw_days_scale(Drawing& d, const Shades& shades, double x, double y) {
  constexpr double kStep = 13;
  const std::string least = shades.least > 0 ? "≤ " + std::to_string(shades.least) : "0";
  d.text({x, y + 9.5, "start", "soft"}, least);
  double at = x + 7.0 * static_cast<double>(columns_of(least)) + 4;
  for (std::size_t i = 1; i < kSteps; ++i) {
    d.box({at, y, kStep, 11}, "s" + std::to_string(i));
    at += kStep;
  }
  const std::string most = days_text(shades.most);
  d.text({at + 5, y + 9.5, "start", "soft"}, most);
  return at + 5 + 6.5 * static_cast<double>(most.size());
}

/// Draws the key under the main plan. @return the y below it
double draw_key(Drawing& d, const NamedMap& story, const Shades& shades, double step, double y) {
  const double scale_end = draw_days_scale(d, shades, kMapMargin, y);
  d.text({scale_end + 16, y + 9.5, "start", "soft"},
         "of the year; lines every " + fixed(step, 0) + " days; not shaded: no room to stand");
  y += 24;
  d.polygon({{kMapMargin + 6, y - 2},
             {kMapMargin + 12, y + 4},
             {kMapMargin + 6, y + 10},
             {kMapMargin, y + 4}},
            "house");
  d.text({kMapMargin + 20, y + 8, "start", ""},
         "now: " + days_text(story.map.here.days[12]) + facing_words(story.map, story.map.here));
  const std::vector<std::size_t> best =
      study::best_places(story.map, study::periods()[0], 3, apart_m(story.map.grid));
  for (std::size_t i = 0; i < best.size(); ++i) {
    y += 20;
    d.circle(kMapMargin + 6, y + 4, 8, "pin");
    d.text({kMapMargin + 6, y + 8, "middle", "pinned"}, std::to_string(i + 1));
    d.text({kMapMargin + 20, y + 8, "start", ""}, place_words(story.map, best[i]));
  }
  return y + 20;
}

double draw_seasons(Drawing& d, const NamedMap& story, double y) {
  const Shades shades = shades_of(story.map, 1, 4);
  const double each = (kMapWidth - 2 * kMapMargin - 3 * kMapGap) / 4;
  d.text({kMapMargin, y + 12, "start", "strong"}, "By season (a dot: the best place)");
  draw_days_scale(d, shades, kMapMargin + 250, y + 3);
  y += 26;
  double lowest = y;
  for (std::size_t i = 0; i < 4; ++i) {
    const Period& period = study::periods()[i + 1];
    const double left = kMapMargin + static_cast<double>(i) * (each + kMapGap);
    d.text({left, y + 10, "start", "soft"}, period.name);
    const Plan plan(story, {left, y + 16, each, 240});
    d.open_window(plan.box());
    plan.shade(d, period, shades);
    plan.surroundings(d, false);
    plan.pins(d, period, 1, 4.5);
    d.close_window();
    const std::vector<std::size_t> best = study::best_places(story.map, period, 1, 0.0);
    const double foot = plan.box().y + plan.box().height;
    if (!best.empty()) {
      d.text({left, foot + 14, "start", "small"},
             "now " + std::to_string(study::days_in(story.map.here, period)) + ", best " +
                 days_text(study::days_in(story.map.places[best[0]], period)));
    }
    lowest = std::max(lowest, foot + 22);
  }
  return lowest;
}
}  // namespace

std::string map_svg(const NamedMap& story) {
  Drawing d(kMapWidth, story.task + ": days of the year by standing place");
  const Period& year = study::periods()[0];
  const Shades shades = shades_of(story.map, 0, 0);
  const double step = std::max(5.0, round_step(shades.most - shades.least, 6));
  const Plan plan(story, {kMapMargin, 24, kMapWidth - 2 * kMapMargin, kHighest});
  d.open_window(plan.box());
  plan.shade(d, year, shades);
  plan.levels(d, shades, step);
  plan.facings(d);
  plan.surroundings(d, true);
  plan.pins(d, year, 3, 8.0);
  d.close_window();
  plan.rulers(d);
  double y = draw_key(d, story, shades, step, plan.box().y + plan.box().height + 38);
  y = draw_seasons(d, story, y + 10);
  d.set_height(y + 12);
  return d.file(map_title(story));
}
}  // namespace ovendays::report
