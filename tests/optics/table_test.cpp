// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "catch.h"
#include "drawn_design.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"
#include "ovendays/optics/acceptance.h"

using namespace ovendays;
using optics::Acceptance;
using optics::AcceptanceTable;
using oven::OvenDesign;
using test::within_abs;
using test::within_rel;

namespace {
std::vector<base::Direction> random_directions(int count) {
  base::KeyedRandom random(42);
  std::vector<base::Direction> out;
  for (int i = 0; i < count; ++i) {
    const double z = random.uniform();
    const double turn = base::kTwoPi * random.uniform();
    const double s = std::sqrt(1.0 - z * z);
    out.push_back({s * std::cos(turn), s * std::sin(turn), z});
  }
  return out;
}

bool same(const Acceptance& a, const Acceptance& b) {
  return a.absorbed_m2 == b.absorbed_m2 && a.outer_ir_m2 == b.outer_ir_m2;
}

bool same(const AcceptanceTable& a, const AcceptanceTable& b) {
  return std::equal(a.nodes().begin(),
                    a.nodes().end(),
                    b.nodes().begin(),
                    b.nodes().end(),
                    [](const Acceptance& x, const Acceptance& y) { return same(x, y); });
}

const Acceptance& node_of(const AcceptanceTable& table, int row, int column) {
  const auto n = static_cast<std::size_t>(table.grid());
  return table.nodes()[static_cast<std::size_t>(row) * n + static_cast<std::size_t>(column)];
}

struct Deviation {
  double rms = 0.0;
  double largest = 0.0;
};

Deviation deviation(const AcceptanceTable& table,
                    const OvenDesign& design,
                    const oven::Vessel* load) {
  const optics::Tracer tracer(oven::build_geometry(design, load, false), design.panes);
  const double on_axis_m2 = table.at({0, 0, 1}).inside_m2();
  const auto directions = random_directions(200);
  Deviation out;
  for (const base::Direction& towards : directions) {
    const double truth_m2 = tracer.trace(towards, 16384, 1e-5).acceptance.inside_m2();
    const double off = (table.at(towards).inside_m2() - truth_m2) / on_axis_m2;
    out.rms += off * off / static_cast<double>(directions.size());
    out.largest = std::max(out.largest, std::abs(off));
  }
  out.rms = std::sqrt(out.rms);
  return out;
}
}  // namespace

TEST_CASE("the table is within half a percent of the on-axis value", "[optics][unit]") {
  const OvenDesign design = test::drawn_design();
  optics::OpticsOptions options;
  options.error_checks = 32;
  const auto tables = optics::build_tables(design, {&design.vessels[0]}, false, options);
  const Deviation off = deviation(tables[0], design, &design.vessels[0]);
  CAPTURE(off.rms, off.largest, tables[0].error());
  CHECK(off.rms <= 0.005);     // the promise of the header
  CHECK(off.largest <= 0.02);  // where a flap's shadow edge crosses a cell
  CHECK(tables[0].error() > 0.0);
  CHECK(tables[0].error() <= 0.005);
}

TEST_CASE("a sloped lopsided oven with a foil liner keeps the error too", "[optics][unit]") {
  OvenDesign design = test::drawn_design();
  design.box.glazing_slope_rad = 0.3;
  design.flaps.resize(2);
  design.corners.present = true;
  design.liner.absorptance = 0.2;
  design.liner.specular_share = 0.8;
  const auto tables = optics::build_tables(design, {nullptr}, false, {});
  const Deviation off = deviation(tables[0], design, nullptr);
  CAPTURE(off.rms, off.largest);
  CHECK(off.rms <= 0.005);
}

TEST_CASE("a symmetric oven has an exactly symmetric table", "[optics][identity]") {
  OvenDesign design = test::drawn_design();
  design.box.glazing_slope_rad = 0.2;  // front and back differ, left and right do not
  optics::OpticsOptions options;
  options.rays = 64;
  const auto table = optics::build_tables(design, {&design.vessels[1]}, false, options)[0];
  const int n = table.grid();
  const auto at = [&](int row, int column) { return node_of(table, row, column); };
  bool front_is_back = true;
  for (int row = 0; row < n; ++row) {
    for (int column = 0; column < n; ++column) {
      REQUIRE(same(at(row, column), at(row, n - 1 - column)));
      front_is_back = front_is_back && same(at(row, column), at(n - 1 - row, column));
    }
  }
  CHECK_FALSE(front_is_back);
  for (const base::Direction& towards : random_directions(50)) {
    const double a = table.at(towards).inside_m2();
    const double b = table.at({-towards.x, towards.y, towards.z}).inside_m2();
    REQUIRE_THAT(a, within_abs(b, 1e-15));
  }
}

TEST_CASE("unequal flaps are not taken for symmetric", "[optics][unit]") {
  OvenDesign design = test::drawn_design();
  design.flaps[1].length_m *= 0.5;  // right
  optics::OpticsOptions options;
  options.rays = 128;
  const auto table = optics::build_tables(design, {nullptr}, false, options)[0];
  // 10 deg to the right the long left flap is lit, to the left the short right one
  const double side = std::sin(10.0 * base::kRadPerDeg);
  const double up = std::cos(10.0 * base::kRadPerDeg);
  const double right_m2 = table.at({side, 0.0, up}).inside_m2();
  const double left_m2 = table.at({-side, 0.0, up}).inside_m2();
  CHECK(std::abs(right_m2 - left_m2) > 0.02 * left_m2);
}

TEST_CASE("nodes, horizon and stowed flaps are looked up as built", "[optics][unit]") {
  const OvenDesign design = test::drawn_design();
  optics::OpticsOptions options;
  options.rays = 64;
  const auto table = optics::build_tables(design, {nullptr}, true, options)[0];
  const int n = table.grid();
  for (int row = 0; row < n; row += 3) {
    for (int column = 0; column < n; column += 3) {
      const base::Direction node = AcceptanceTable::node_direction(row, column, n);
      if (node.z <= 1e-9) continue;
      REQUIRE_THAT(base::norm(node), within_abs(1.0, 1e-12));
      const Acceptance& stored = node_of(table, row, column);
      REQUIRE_THAT(table.at(node).inside_m2(), within_abs(stored.inside_m2(), 1e-12));
    }
  }
  CHECK(table.at({1.0, 0.0, 0.0}).inside_m2() == 0.0);
  CHECK(table.at({0.6, 0.0, -0.8}).outer_ir_m2 == 0.0);
  OvenDesign bare = design;
  bare.flaps.clear();
  CHECK(same(table, optics::build_tables(bare, {nullptr}, false, options)[0]));
}

TEST_CASE("the order of jobs and the company of other loads change nothing",
          "[optics][determinism]") {
  const OvenDesign design = test::drawn_design();
  optics::OpticsOptions options;
  options.rays = 64;
  options.grid = 17;
  const std::vector<const oven::Vessel*> loads{nullptr, &design.vessels[0], &design.vessels[1]};
  const auto forward = optics::build_tables(design, loads, false, options);
  optics::TableBuilder builder(design, loads, false, options);
  for (int job = builder.jobs() - 1; job >= 0; --job) builder.run(job);
  const auto backward = builder.take();
  for (std::size_t i = 0; i < loads.size(); ++i) {
    CHECK(same(forward[i], backward[i]));
    CHECK(same(forward[i], optics::build_tables(design, {loads[i]}, false, options)[0]));
  }
}

TEST_CASE("a load's table is the same behind whichever other load", "[optics][determinism]") {
  optics::OpticsOptions options;
  options.rays = 32;
  options.grid = 9;
  OvenDesign design = test::drawn_design();
  const std::string change = GENERATE("none", "no tray", "bright liner", "sloped", "no flaps");
  if (change == "no tray") design.tray.reset();
  if (change == "bright liner") design.liner.absorptance = 0.2;
  if (change == "sloped") design.box.glazing_slope_rad = 0.3;
  if (change == "no flaps") design.flaps.clear();
  std::vector<const oven::Vessel*> loads{nullptr};
  for (const oven::Vessel& vessel : design.vessels) loads.push_back(&vessel);
  REQUIRE(loads.size() >= 4);
  for (const bool stowed : {false, true}) {
    std::vector<AcceptanceTable> alone;
    alone.reserve(loads.size());
    for (const oven::Vessel* load : loads)
      alone.push_back(optics::build_tables(design, {load}, stowed, options)[0]);
    for (std::size_t turn = 0; turn < loads.size(); ++turn) {
      const auto tables = optics::build_tables(design, loads, stowed, options);
      INFO(change << ", stowed " << stowed << ", turn " << turn);
      for (std::size_t i = 0; i < loads.size(); ++i) CHECK(same(tables[i], alone[i]));
      std::rotate(loads.begin(), loads.begin() + 1, loads.end());
      std::rotate(alone.begin(), alone.begin() + 1, alone.end());
    }
  }
}

TEST_CASE("the sky is seen by at most the pane's own area", "[optics][identity]") {
  // integral of outer_ir over the hemisphere / pi: emittance x area for a bare pane; flaps can only
  // hide sky from the glass, never show more of it (second law)
  OvenDesign design = test::drawn_design();
  const double own_m2 = 0.4572 * 0.4572 * design.panes[0].ir_emittance;
  const auto seen_m2 = [](const AcceptanceTable& table) {
    constexpr int steps = 200;
    double sum = 0.0;
    for (int i = 0; i < steps; ++i) {
      const double z = (i + 0.5) / steps;
      const double s = std::sqrt(1.0 - z * z);
      for (int k = 0; k < steps; ++k) {
        const double turn = base::kTwoPi * (k + 0.5) / steps;
        sum += table.at({s * std::cos(turn), s * std::sin(turn), z}).outer_ir_m2;
      }
    }
    return 2.0 * sum / (steps * steps);
  };
  const auto bare = optics::build_tables(design, {nullptr}, true, {})[0];
  REQUIRE_THAT(seen_m2(bare), within_rel(own_m2, 0.005));  // the table's error
  const auto flaps = optics::build_tables(design, {nullptr}, false, {})[0];
  CHECK(seen_m2(flaps) < own_m2);
  CHECK(seen_m2(flaps) > 0.85 * own_m2);  // foil hides little: it mirrors the sky
}
