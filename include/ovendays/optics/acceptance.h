// SPDX-License-Identifier: MIT
// The acceptance table: for sunlight from any direction of the hemisphere over the mouth, the power
// each surface absorbs per unit of beam-normal irradiance [m2]; made by tracing rays through flaps,
// panes and cavity until they are spent.
#pragma once

#include <array>
#include <cstdint>
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

struct OpticsOptions {
  int rays = 1024;      ///< per direction
  int grid = 33;        ///< nodes along one side of the direction grid, odd
  double spent = 1e-4;  ///< a ray whose weight falls below this is given to the surface it is on
};

/// Where one bundle of parallel light went. All in m2 (power over irradiance).
struct BundleTally {
  Acceptance acceptance;
  double flaps_m2 = 0.0;    ///< absorbed by flaps
  double escaped_m2 = 0.0;  ///< sent back to the sky, or missed
  double launched_m2 =
      0.0;  ///< cross-section of the bundle; equals the sum of all of the above to 1e-12 relative
};

/// One oven, one load: ready to be traced. Immutable; thread-safe.
class Tracer {
 public:
  Tracer(const oven::OvenGeometry& geometry, std::span<const oven::Pane> panes);
  /// Parallel light from `towards` (mouth frame, unit, towards the sun), by `rays` low-discrepancy
  /// rays.
  [[nodiscard]] BundleTally trace(const base::Direction& towards, int rays, double spent) const;
  [[nodiscard]] const oven::OvenGeometry& geometry() const { return geometry_; }

 private:
  oven::OvenGeometry geometry_;
  std::vector<oven::Pane> panes_;
  StackTable stack_;
};

/// Values on a grid over the hemisphere (mouth frame), bilinear between.
class AcceptanceTable {
 public:
  AcceptanceTable() = default;
  /// @param towards unit vector, mouth frame; below the mouth plane the result is zero
  [[nodiscard]] Acceptance at(const base::Direction& towards) const;
  [[nodiscard]] int grid() const { return grid_; }
  [[nodiscard]] std::span<const Acceptance> nodes() const { return nodes_; }
  /// Direction of a node, row-major.
  [[nodiscard]] static base::Direction node_direction(int row, int column, int grid);
  /// Fraction of the on-axis inside acceptance by which the table is off, root mean square,
  /// estimated from independent rays while it was built; < 0 where not estimated.
  [[nodiscard]] double error() const { return error_; }

 private:
  friend class TableBuilder;
  int grid_ = 0;
  std::vector<Acceptance> nodes_;
  double error_ = -1.0;
};

/// Builds the tables of one oven for several loads at once. Use: for each i in 0..jobs()-1 call
/// run(i), in any order and from any threads (distinct i), then take(). The result does not depend
/// on order or threads.
class TableBuilder {
 public:
  TableBuilder(const oven::OvenDesign& design,
               std::vector<const oven::Vessel*> loads,
               bool flaps_stowed,
               const OpticsOptions& options);
  [[nodiscard]] int jobs() const;
  void run(int job);
  /// One table per load, in the order given.
  [[nodiscard]] std::vector<AcceptanceTable> take();

 private:
  std::vector<Tracer> tracers_;
  OpticsOptions options_;
  bool mirror_symmetric_ = false;  ///< left equals right: half the directions are traced
  std::vector<std::vector<Acceptance>> nodes_;
};
}  // namespace ovendays::optics
