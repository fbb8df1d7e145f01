// SPDX-License-Identifier: MIT
// Acceptance tables: for sunlight from any direction of the hemisphere over the mouth, the power
// that each surface absorbs, divided by the beam-normal irradiance [m2]. They are computed by
// tracing rays through flaps, panes and cavity until all their power is absorbed or has escaped.
//
// Frame of the mouth: x right, y up the slope, z outward. Directions point to the source of the
// light.
#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "ovendays/base/vec.h"
#include "ovendays/optics/pane_optics.h"
#include "ovendays/oven/geometry.h"

namespace ovendays::optics {

/// What an oven absorbs of light from one direction.
struct Acceptance {
  /// Absorbed power of each surface over beam-normal irradiance [m2].
  std::array<double, oven::kSurfaces> absorbed_m2{};
  /// The same for infrared that falls on the outermost pane: emittance x area x cosine, directly
  /// and by way of the flaps. From surroundings at temperature T the pane absorbs the integral of
  /// (sigma T^4 / pi) outer_ir over the solid angle.
  double outer_ir_m2 = 0.0;
  [[nodiscard]] double inside_m2() const;  ///< sum of liner, tray, vessel and food
};
/// The same numbers as one array, which the compiler can treat as whole vectors: the surfaces, then
/// outer_ir.
using AcceptanceRow = std::array<double, oven::kSurfaces + 1>;

/// How accurately tables are computed. Errors with the defaults, as a fraction of the on-axis
/// inside acceptance, against 200 random directions of the hemisphere traced with 16,384 rays: for
/// the default oven (four foil flaps, pot) 0.20 % root mean square and at most 0.8 %, where the
/// edge of the light from a flap crosses a cell. With half the rays, against 65,536 rays: the same
/// oven 0.24 %, without flaps 0.27 %, with one sharp mirror and two panes 0.36 %, with a foil liner
/// 0.3 to 0.5 %.
struct OpticsOptions {
  /// Rays per direction. Twice as many are traced if the liner reflects more than half, and four
  /// times as many within 26 deg of the axis, where the sun is if the oven is aimed at it.
  int rays = 512;
  int grid = 33;         ///< nodes along one side of the direction grid, an odd number
  double faint = 0.02;   ///< share of the initial weight below which a ray plays Russian roulette
  int error_checks = 0;  ///< additional directions, traced to estimate AcceptanceTable::error
  bool operator==(const OpticsOptions&) const = default;
};

/// Where the light of one parallel bundle ended. All values are power over irradiance [m2].
struct BundleTally {
  Acceptance acceptance;
  double flaps_m2 = 0.0;    ///< absorbed by either side of the flaps
  double escaped_m2 = 0.0;  ///< reflected past the oven, to the sky or the ground
  /// Cross-section of everything that the bundle meets. The values above add up to it within a
  /// relative error of 1e-12.
  double launched_m2 = 0.0;
};

class Scene;  ///< the geometry in the form that ray tracing needs; private to the part

/// The ray tracer of one oven with one load. Immutable, thread-safe, cheap to copy.
///
/// Rays start at points on the glass and on every flap. Each point represents its share of the
/// cross-section; points in the shadow of another flap are left out. The front of a flap reflects
/// into the mirror direction, scattered by two Gaussian angles with the standard deviation
/// scatter_rad; the back absorbs. At the glazing a ray from either side is split by StackTable into
/// a transmitted and a reflected part, and both are traced on. In the cavity a surface absorbs
/// 1 - reflectance of a ray; the rest continues as from a mirror with the probability
/// specular_share, and otherwise in a random diffuse direction. Light that leaves through the
/// glazing may meet the flaps again.
///
/// A ray is not followed for ever. When its weight falls below a share of the initial one it plays
/// Russian roulette: it is absorbed, reflected or transmitted as a whole, with the probabilities by
/// which it would otherwise have been divided. The expected values are therefore exact, and every
/// bundle still conserves energy.
///
/// Simplifications: flaps are ideal planes, opaque and without sag. The frame around the glass is
/// flat. The space below the flaps is open. Infrared (outer_ir_m2) follows the paths of the
/// sunlight outside the glazing, with the infrared reflectance of the flaps.
class Tracer {
 public:
  /// The cavity, without tray and vessel, must be convex, and closed by the glazing.
  Tracer(const oven::OvenGeometry& geometry, std::span<const oven::Pane> panes);
  /// Traces parallel light.
  /// @param towards unit vector to the sun; @param rays approximate number of rays, which start at
  /// the same points for every direction; @param faint see OpticsOptions
  [[nodiscard]] BundleTally trace(const base::Direction& towards, int rays, double faint) const;
  [[nodiscard]] const oven::OvenGeometry& geometry() const;

 private:
  friend class TableBuilder;
  std::shared_ptr<const Scene> scene_;
};

/// Acceptance at the nodes of a grid over the hemisphere, interpolated bilinearly.
///
/// The grid is square in (u, v) = (x, y) / sqrt(1 + z), the equal-area azimuthal projection
/// (Lambert), in which the horizon is the circle u^2 + v^2 = 1. Cells that the circle cuts have
/// nodes below the horizon; they are traced like the others, so that interpolation near the horizon
/// uses true values.
class AcceptanceTable {
 public:
  AcceptanceTable() = default;
  /// The interpolated value; zero below the plane of the mouth.
  /// @param towards unit vector in the frame of the mouth
  [[nodiscard]] Acceptance at(const base::Direction& towards) const;
  /// The position of a direction in the grid. It is valid for all tables with the same grid, so
  /// that it has to be computed only once for several loads.
  struct Cell {
    std::ptrdiff_t low = 0;         ///< index of the first of the four nodes
    std::array<double, 4> share{};  ///< weights of the nodes
  };
  /// @param towards unit vector above the plane of the mouth
  [[nodiscard]] Cell cell_of(const base::Direction& towards) const {
    const double half = 0.5 * (grid_ - 1);
    const double scale = half / std::sqrt(1.0 + towards.z);
    const double column = std::clamp(half + towards.x * scale, 0.0, 2.0 * half);
    const double row = std::clamp(half + towards.y * scale, 0.0, 2.0 * half);
    const int c = std::min(static_cast<int>(column), grid_ - 2);
    const int r = std::min(static_cast<int>(row), grid_ - 2);
    const double b = column - c;
    const double d = row - r;
    return {static_cast<std::ptrdiff_t>(r) * grid_ + c,
            {(1.0 - b) * (1.0 - d), b * (1.0 - d), (1.0 - b) * d, b * d}};
  }
  [[nodiscard]] AcceptanceRow row_in(const Cell& cell) const {
    AcceptanceRow out{};
    if (nodes_.empty()) return out;
    const std::array<double, 4>& share = cell.share;
    const Acceptance* low = nodes_.data() + cell.low;
    const Acceptance* high = low + grid_;
    const auto a = std::bit_cast<AcceptanceRow>(low[0]);
    const auto b = std::bit_cast<AcceptanceRow>(low[1]);
    const auto c = std::bit_cast<AcceptanceRow>(high[0]);
    const auto d = std::bit_cast<AcceptanceRow>(high[1]);
    for (std::size_t k = 0; k < out.size(); ++k)
      out[k] = share[0] * a[k] + share[1] * b[k] + share[2] * c[k] + share[3] * d[k];
    return out;
  }
  [[nodiscard]] Acceptance in(const Cell& cell) const {
    return std::bit_cast<Acceptance>(row_in(cell));
  }
  [[nodiscard]] int grid() const { return grid_; }
  /// All nodes, row by row with increasing v (towards the back of the box). Nodes that no cell
  /// above the horizon needs are zero.
  [[nodiscard]] std::span<const Acceptance> nodes() const { return nodes_; }
  /// Direction of a node. Beyond the horizon z < 0.
  [[nodiscard]] static base::Direction node_direction(int row, int column, int grid);
  /// Root mean square error of the table as a fraction of the on-axis inside acceptance, estimated
  /// with independent rays (OpticsOptions::error_checks). Negative if it was not estimated.
  [[nodiscard]] double error() const { return error_; }

 private:
  friend class TableBuilder;
  int grid_ = 0;
  std::vector<Acceptance> nodes_;
  double error_ = -1.0;
};

/// Builds the tables of one oven for several loads together: what happens outside the glazing is
/// traced only once. For an oven that is symmetric (left and right, front and back) only half or a
/// quarter of the directions are traced, and its table is exactly symmetric.
///
/// Use: call run(i) once for each i in 0..jobs()-1, in any order and from any thread, then take().
/// The result does not depend on the order or the number of threads.
class TableBuilder {
 public:
  TableBuilder(const oven::OvenDesign& design,
               const std::vector<const oven::Vessel*>& loads,
               bool flaps_stowed,
               const OpticsOptions& options);
  ~TableBuilder();
  TableBuilder(TableBuilder&&) noexcept;
  TableBuilder& operator=(TableBuilder&&) noexcept;
  [[nodiscard]] int jobs() const;
  void run(int job);
  /// One table per load, in the order given.
  [[nodiscard]] std::vector<AcceptanceTable> take();

 private:
  struct Plan;
  std::unique_ptr<Plan> plan_;
};

/// Builds the tables in the calling thread.
std::vector<AcceptanceTable> build_tables(const oven::OvenDesign& design,
                                          const std::vector<const oven::Vessel*>& loads,
                                          bool flaps_stowed,
                                          const OpticsOptions& options);
}  // namespace ovendays::optics
