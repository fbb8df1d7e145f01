// SPDX-License-Identifier: MIT
// Reader of the table [spot] of a case file. Faults are recorded in the node, and reading
// continues.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <utility>

#include "footprint.h"
#include "ovendays/base/constants.h"
#include "ovendays/spot/siting.h"
#include "ovendays/spot/spot.h"

namespace ovendays::spot {
namespace {
using base::CaseNode;
using base::Dimension;
using base::Range;

// Wide enough for any garden and its skyline, and narrow enough to catch millimetres entered as
// metres.
constexpr Range kPlace_m{-5000.0, 5000.0};
constexpr Range kSize_m{0.001, 1000.0};
constexpr Range kHeight_m{0.0, 500.0};
constexpr Range kShare{0.0, 1.0};
constexpr Range kTurn_rad{-base::kTwoPi, base::kTwoPi};
constexpr double kSmallest_m = 1e-3;

double length(const CaseNode& node, const char* key, Range allowed, double fallback) {
  return node.quantity(key, Dimension::kLength, allowed, fallback);
}
double required_length(const CaseNode& node, const char* key, Range allowed) {
  return node.required_quantity(key, Dimension::kLength, allowed);
}
double turn(const CaseNode& node, const char* key, double fallback) {
  return node.quantity(key, Dimension::kAngle, kTurn_rad, fallback);
}
double reflectance(const CaseNode& node, double fallback) {
  return node.quantity("reflectance", Dimension::kNumber, kShare, fallback);
}
std::string metres(double value_m) { return base::quantity_text(value_m, Dimension::kLength); }

void refuse_inside(const CaseNode& node, bool inside, const char* what) {
  if (inside) node.fault("", std::string("the oven's mouth stands inside this ") + what, "");
}

Overhang read_overhang(const CaseNode& node, const base::Point& mouth) {
  Overhang o;
  o.name = node.text("name", "overhang");
  o.x_m = required_length(node, "x", kPlace_m);
  o.y_m = required_length(node, "y", kPlace_m);
  o.width_m = required_length(node, "width", kSize_m);
  o.depth_m = required_length(node, "depth", kSize_m);
  o.turn_rad = turn(node, "turn", o.turn_rad);
  o.underside_m = required_length(node, "underside", kHeight_m);
  o.thickness_m = length(node, "thickness", kSize_m, o.thickness_m);
  o.reflectance = reflectance(node, o.reflectance);
  const Footprint plan{o.x_m, o.y_m, o.width_m, o.depth_m, o.turn_rad};
  // A mouth inside a solid would give deep shade instead of revealing the mistake.
  const bool within = mouth.z > o.underside_m && mouth.z < o.underside_m + o.thickness_m;
  refuse_inside(node, within && plan.contains(mouth), "overhang");
  return o;
}

Bay read_bay(const CaseNode& node) {
  Bay b;
  b.name = node.text("name", "bay");
  b.x_m = required_length(node, "x", kPlace_m);
  b.y_m = required_length(node, "y", kPlace_m);
  b.facing_rad = node.required_quantity("facing", Dimension::kAngle, kTurn_rad);
  b.width_m = required_length(node, "width", kSize_m);
  b.depth_m = required_length(node, "depth", kSize_m);
  b.height_m = required_length(node, "height", {kSmallest_m, kHeight_m.most});
  b.lintel_m = length(node, "lintel", {kSmallest_m, kHeight_m.most}, b.height_m);
  b.left_wall = node.flag("left_wall", b.left_wall);
  b.right_wall = node.flag("right_wall", b.right_wall);
  b.back_wall = node.flag("back_wall", b.back_wall);
  b.reflectance = reflectance(node, b.reflectance);
  if (b.lintel_m > b.height_m) {
    node.fault(
        "lintel", metres(b.lintel_m), "at most the height of the bay, " + metres(b.height_m));
  }
  return b;
}

Wall read_wall(const CaseNode& node) {
  Wall w;
  w.name = node.text("name", "wall");
  w.x1_m = required_length(node, "x1", kPlace_m);
  w.y1_m = required_length(node, "y1", kPlace_m);
  w.x2_m = required_length(node, "x2", kPlace_m);
  w.y2_m = required_length(node, "y2", kPlace_m);
  w.base_m = length(node, "base", kHeight_m, w.base_m);
  w.top_m = required_length(node, "top", {kSmallest_m, kHeight_m.most});
  w.reflectance = reflectance(node, w.reflectance);
  // If a coordinate is missing, that fault is enough.
  const bool placed = node.has("x1") && node.has("y1") && node.has("x2") && node.has("y2");
  if (placed && std::hypot(w.x2_m - w.x1_m, w.y2_m - w.y1_m) < kSmallest_m) {
    node.fault("", "the wall ends where it begins", "a length of at least 1 mm");
  }
  if (node.has("top") && w.top_m <= w.base_m) {
    node.fault("top", metres(w.top_m), "above the base, " + metres(w.base_m));
  }
  return w;
}

Block read_block(const CaseNode& node, const base::Point& mouth) {
  Block b;
  b.name = node.text("name", "block");
  b.x_m = required_length(node, "x", kPlace_m);
  b.y_m = required_length(node, "y", kPlace_m);
  b.width_m = required_length(node, "width", kSize_m);
  b.depth_m = required_length(node, "depth", kSize_m);
  b.height_m = required_length(node, "height", {kSmallest_m, kHeight_m.most});
  b.base_m = length(node, "base", kHeight_m, b.base_m);
  b.turn_rad = turn(node, "turn", b.turn_rad);
  b.reflectance = reflectance(node, b.reflectance);
  const Footprint plan{b.x_m, b.y_m, b.width_m, b.depth_m, b.turn_rad};
  const bool within = mouth.z > b.base_m && mouth.z < b.base_m + b.height_m;
  refuse_inside(node, within && plan.contains(mouth), "block");
  return b;
}

std::array<double, 12> read_months(const CaseNode& node, double fallback) {
  std::array<double, 12> months{};
  months.fill(fallback);
  const auto given = node.quantities("transmission", Dimension::kNumber, kShare, 0);
  if (given.size() == 1) months.fill(given.front());
  if (given.size() == 12) std::copy(given.begin(), given.end(), months.begin());
  if (given.size() > 1 && given.size() != 12) {
    node.fault("transmission",
               std::to_string(given.size()) + " values",
               "one value, or twelve from January to December");
  }
  return months;
}

Tree read_tree(const CaseNode& node, const base::Point& mouth) {
  // Transmission of a crown in leaf: common practice is 0.1 to 0.3, without a single source.
  constexpr double kInLeaf = 0.2;
  Tree t;
  t.name = node.text("name", "tree");
  t.x_m = required_length(node, "x", kPlace_m);
  t.y_m = required_length(node, "y", kPlace_m);
  t.crown_base_m = length(node, "crown_base", kHeight_m, t.crown_base_m);
  t.crown_top_m = required_length(node, "crown_top", {kSmallest_m, kHeight_m.most});
  t.crown_width_m = required_length(node, "crown_width", kSize_m);
  t.trunk_width_m = length(node, "trunk_width", {0.0, kSize_m.most}, t.trunk_width_m);
  t.transmission = read_months(node, kInLeaf);
  t.reflectance = reflectance(node, t.reflectance);
  if (node.has("crown_top") && t.crown_top_m - t.crown_base_m < kSmallest_m) {
    node.fault("crown_top", metres(t.crown_top_m), "above crown_base, " + metres(t.crown_base_m));
    t.crown_top_m = t.crown_base_m + 1.0;  // avoids a division by zero below
  }
  const bool in_trunk = mouth.z < crown_middle_m(t) &&
                        std::hypot(mouth.x - t.x_m, mouth.y - t.y_m) < 0.5 * t.trunk_width_m;
  refuse_inside(node, inside_crown(t, mouth) || in_trunk, "tree");
  return t;
}

Horizon read_horizon_arrays(const CaseNode& node) {
  Horizon h;
  h.azimuth_rad = node.quantities("azimuth", Dimension::kAngle, {0.0, base::kTwoPi}, 0);
  h.elevation_rad =
      node.quantities("elevation", Dimension::kAngle, {0.0, 89.0 * base::kRadPerDeg}, 0);
  if (h.azimuth_rad.empty() && h.elevation_rad.empty()) return {};
  if (h.azimuth_rad.size() != h.elevation_rad.size()) {
    node.fault("elevation",
               std::to_string(h.elevation_rad.size()) + " values",
               "as many as azimuth, " + std::to_string(h.azimuth_rad.size()));
    return {};
  }
  for (std::size_t i = 1; i < h.azimuth_rad.size(); ++i) {
    if (h.azimuth_rad[i] > h.azimuth_rad[i - 1]) continue;
    node.fault("azimuth",
               base::quantity_text(h.azimuth_rad[i], Dimension::kAngle) + " after " +
                   base::quantity_text(h.azimuth_rad[i - 1], Dimension::kAngle),
               "ascending azimuths");
    return {};
  }
  const bool full_turn = h.azimuth_rad.back() - h.azimuth_rad.front() >= base::kTwoPi - 1e-9;
  if (h.azimuth_rad.size() > 1 && full_turn) {  // the last azimuth repeats the first
    h.azimuth_rad.pop_back();
    h.elevation_rad.pop_back();
  }
  return h;
}

// The path of the file is relative to the case file, as for includes.
Horizon read_horizon(const CaseNode& node) {
  if (!node.has("file")) return read_horizon_arrays(node);
  const std::string name = node.required_text("file");
  for (const char* key : {"azimuth", "elevation"}) {
    if (node.has(key)) node.fault(key, "given beside file", "one of the two");
  }
  if (name.empty()) return {};
  const auto path = std::filesystem::path(node.file_of("file")).parent_path() / name;
  try {
    return read_horizon_csv_text(node.file_text(path.string(), kMostHorizonBytes), path.string());
  } catch (const base::InputError& error) {
    for (const base::Fault& fault : error.faults()) node.fault("file", fault.message(), "");
  }
  return {};
}

void read_obstructions(const CaseNode& node, Spot& spot) {
  static constexpr std::array<const char*, 5> kKinds = {"overhang", "bay", "wall", "block", "tree"};
  std::size_t total = 0;
  for (const char* kind : kKinds) total += node.count(kind);
  if (total > kMostObstructions) {  // rejected before any node is created
    for (const char* kind : kKinds) {
      if (node.count(kind) == 0) continue;
      node.fault(kind,
                 std::to_string(total) + " obstructions in all",
                 "at most " + std::to_string(kMostObstructions));
    }
    return;
  }
  auto& all = spot.obstructions;
  for (const CaseNode& n : node.tables("overhang")) all.emplace_back(read_overhang(n, spot.mouth));
  for (const CaseNode& n : node.tables("bay")) all.emplace_back(read_bay(n));
  for (const CaseNode& n : node.tables("wall")) all.emplace_back(read_wall(n));
  for (const CaseNode& n : node.tables("block")) all.emplace_back(read_block(n, spot.mouth));
  for (const CaseNode& n : node.tables("tree")) all.emplace_back(read_tree(n, spot.mouth));
}
}  // namespace

Spot read_spot(const base::CaseNode& node) {
  Spot spot;
  spot.name = node.text("name", spot.name);
  spot.mouth.x = length(node, "x", kPlace_m, spot.mouth.x);
  spot.mouth.y = length(node, "y", kPlace_m, spot.mouth.y);
  spot.mouth.z = length(node, "height", {0.05, 100.0}, spot.mouth.z);
  spot.terrain = static_cast<Terrain>(node.choice(
      "terrain", {"open", "suburban", "city"}, static_cast<std::size_t>(Terrain::kSuburban)));
  spot.stated_shelter = node.optional_quantity("shelter", Dimension::kNumber, kShare);
  const bool says_roofed = node.has("roofed");
  const bool roofed = node.flag("roofed", false);
  if (says_roofed) spot.stated_roofed = roofed;
  read_obstructions(node, spot);
  spot.horizon = read_horizon(node.table("horizon"));
  return moved_to(spot, spot.mouth);  // computes shelter and roof
}
}  // namespace ovendays::spot
