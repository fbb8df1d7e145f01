// SPDX-License-Identifier: MIT
// The acceptance table: for sunlight from any direction of the hemisphere over the mouth, the power
// each surface absorbs per unit of beam-normal irradiance [m2]; made by tracing rays through flaps,
// panes and cavity until they are spent.
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

/// Absorbed power over beam-normal irradiance, by surface [m2]; and the share of the outermost
/// pane's infrared: outer_ir is emittance x area x cosine through the flaps, so that the pane takes
/// integral of (sigma T^4 / pi) outer_ir dOmega from surroundings of temperature T.
struct Acceptance {
  std::array<double, oven::kSurfaces> absorbed_m2{};
  double outer_ir_m2 = 0.0;
  [[nodiscard]] double inside_m2() const;  ///< liner + tray + vessel + food
};
/// The same as a row of numbers, whole vectors long: by surface, last the outermost pane's
/// infrared.
using AcceptanceRow = std::array<double, oven::kSurfaces + 1>;

/// The defaults are measured: tables against 200 random directions of the hemisphere traced with
/// 16,384 rays, as a fraction of the on-axis inside acceptance. Default oven (four foil flaps,
/// pot): 0.20 % root mean square, 0.8 % at most (where the edge of a flap's light crosses a cell).
/// With half the rays, against 65,536: the same oven 0.24 %, no flaps 0.27 %, one sharp mirror and
/// two panes 0.36 %, foil liner 0.3 to 0.5 %. Within 26 deg of the axis, where
/// an aimed oven has the sun, four times as many rays are traced.
struct OpticsOptions {
  int rays = 512;        ///< per direction; doubled where the liner reflects more than half
  int grid = 33;         ///< nodes along one side of the direction grid, odd
  double faint = 0.02;   ///< share of its start below which a ray is no longer split
  int error_checks = 0;  ///< directions traced anew to estimate AcceptanceTable::error
  bool operator==(const OpticsOptions&) const = default;
};

/// Where one bundle of parallel light went. All in m2 (power over irradiance).
struct BundleTally {
  Acceptance acceptance;
  double flaps_m2 = 0.0;    ///< absorbed by flaps, either side
  double escaped_m2 = 0.0;  ///< sent back to the sky or past the glass
  double launched_m2 =
      0.0;  ///< cross-section of all that the bundle meets; the sum of all above to 1e-12
};

class Scene;  ///< the geometry made ready for rays; private to the part

/// One oven, one load: ready to be traced. Immutable; thread-safe; cheap to copy.
///
/// Rays start on what the bundle meets first: points on the glass and on every flap, each standing
/// for its share of the cross-section, those in the shadow of another flap left out. A flap's front
/// reflects (mirror direction strayed by two Gaussian angles of scatter_rad each; a ray strayed
/// into the panel is mirrored out), its back absorbs. Every meeting with the glazing, from either
/// side, splits the ray by StackTable; both parts go on. Inside, a ray leaves (1 - reflectance) on
/// the surface and goes on diffusely or, by chance of specular_share, as from a mirror. Light that
/// comes back out of the glazing meets the flaps again. A faint ray is absorbed, reflected or let
/// through whole, by chance of what its surface would share out: nothing is cut off, nothing is
/// lost, and the mean is right.
///
/// Left out: flaps are ideal planes that neither transmit nor sag; the frame around the glass is
/// flat; the space under the floor of the flaps' outer edges is open. Infrared (outer_ir_m2)
/// follows the sunlight's paths from the sky to the glass with the flaps' infrared reflectance.
class Tracer {
 public:
  /// The cavity must be convex and, with the glazing, closed, but for tray and vessel in it.
  Tracer(const oven::OvenGeometry& geometry, std::span<const oven::Pane> panes);
  /// Parallel light from `towards` (mouth frame, unit, towards the sun), by about `rays`
  /// low-discrepancy rays; the same points for every direction. @param faint see OpticsOptions
  [[nodiscard]] BundleTally trace(const base::Direction& towards, int rays, double faint) const;
  [[nodiscard]] const oven::OvenGeometry& geometry() const;

 private:
  friend class TableBuilder;
  std::shared_ptr<const Scene> scene_;
};

/// Values on a grid over the hemisphere (mouth frame), bilinear between.
///
/// The grid is square in (u, v) = (x, y) / sqrt(1 + z), the equal-area azimuthal projection with
/// its horizon on the circle u^2 + v^2 = 1; nodes of cells that the circle cuts lie below the
/// horizon and are traced like the others.
class AcceptanceTable {
 public:
  AcceptanceTable() = default;
  /// @param towards unit vector, mouth frame; below the mouth plane the result is zero
  [[nodiscard]] Acceptance at(const base::Direction& towards) const;
  /// Where a direction above the mouth plane lies in the grid: the same in all tables of one grid.
  struct Cell {
    std::ptrdiff_t low = 0;         ///< its first node, and
    std::array<double, 4> share{};  ///< what each of its four counts
  };
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
  /// Row-major, v (back of the box) by rows; zero where no cell above the horizon needs the node.
  [[nodiscard]] std::span<const Acceptance> nodes() const { return nodes_; }
  /// Direction of a node, row-major; z < 0 beyond the horizon.
  [[nodiscard]] static base::Direction node_direction(int row, int column, int grid);
  /// Fraction of the on-axis inside acceptance by which the table is off, root mean square,
  /// estimated from independent rays while it was built (OpticsOptions::error_checks); < 0 where
  /// not estimated.
  [[nodiscard]] double error() const { return error_; }

 private:
  friend class TableBuilder;
  int grid_ = 0;
  std::vector<Acceptance> nodes_;
  double error_ = -1.0;
};

/// Builds the tables of one oven for several loads at once: what happens outside the glazing is
/// traced once for all loads. An oven that equals its mirror image (left and right, front and back)
/// is traced over half or a quarter of the directions and its table is exactly symmetric.
///
/// Use: for each i in 0..jobs()-1 call run(i), in any order and from any threads (distinct i), then
/// take(). The result does not depend on order or threads.
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

/// All jobs one after the other, for those who need no threads.
std::vector<AcceptanceTable> build_tables(const oven::OvenDesign& design,
                                          const std::vector<const oven::Vessel*>& loads,
                                          bool flaps_stowed,
                                          const OpticsOptions& options);
}  // namespace ovendays::optics
