// SPDX-License-Identifier: MIT
// Diffuse light: an oven's acceptance integrated over the part of the sphere that a spot leaves
// open. The patches of the sphere map onto themselves when turned by ten degrees (sky/patches.h),
// so the acceptance table is evaluated once for each tilt, and every azimuth reuses those values.
#pragma once

#include <array>
#include <memory>
#include <mutex>
#include <span>
#include <vector>

#include "ovendays/optics/acceptance.h"
#include "ovendays/spot/scene.h"

namespace ovendays::gains {

/// Acceptance integrated over the surroundings for one orientation of the oven [m2]: multiplied by
/// an irradiance it gives the power that each surface absorbs.
struct DiffuseGain {
  using Areas = optics::AcceptanceRow;            ///< the pane's infrared is left at 0
  Areas isotropic_m2{};                           ///< x isotropic_horizontal
  Areas horizon_m2{};                             ///< x horizon
  Areas ground_m2{};                              ///< x radiosity of the ground
  std::array<Areas, spot::kFacings> facing_m2{};  ///< x irradiance on obstructions facing each way
  double sky_share = 1.0;  ///< of the outermost pane's infrared that meets open sky
  // View factors of a bare plane in the mouth, for the recorded irradiances [1].
  double plane_isotropic = 1.0, plane_horizon = 0.0, plane_ground = 0.0;
  std::array<double, spot::kFacings> plane_facing{};
};

/// The outermost pane's infrared acceptance integrated over the whole hemisphere of the mouth [m2];
/// it does not depend on the tilt.
double outer_pane_infrared_m2(const optics::AcceptanceTable& table);

/// What an oven at one tilt, facing north, takes in from each patch of the sphere under an even
/// radiance; zero for patches behind the mouth.
class PatchLight {
 public:
  /// @param pane_ir_m2 outer_pane_infrared_m2(table)
  PatchLight(const optics::AcceptanceTable& table, double pane_ir_m2, double glazing_tilt_rad);
  /// Absorbed by each surface, then the outermost pane's infrared. One cache line each, since the
  /// patches are read in a different order for every azimuth.
  struct alignas(64) Taken {
    std::array<double, oven::kSurfaces + 1> m2{};
  };
  /// By patch. The bare plane's part is kept apart, so that patches behind the mouth are skipped
  /// without loading their other numbers.
  struct Shares {
    std::vector<Taken> taken;
    std::vector<double> plane;
  };
  Shares sky, ground, horizon;
  double outer_ir_m2;  ///< through the whole mouth
};

/// A spot's mask together with lists of its non-zero entries: most patches are either open or
/// blocked, so the lists are much shorter than the mask.
struct SplitMask {
  explicit SplitMask(spot::SpotMask whole);
  struct Blocked {
    std::size_t patch, facing;
    double share;  ///< times the reflectance, see SpotMask
  };
  /// A patch that is seen at least in part.
  struct Open {
    std::size_t patch;
    double visible;
  };
  spot::SpotMask mask;
  std::vector<Blocked> sky_blocked, ground_blocked;
  std::vector<Open> sky_open, ground_open;
};

/// DiffuseGain over azimuth (36 steps, linear between) for each tilt. Entries are computed on first
/// use, since a year of aims needs about a third of them. Thread-safe; the values do not depend on
/// which thread comes first.
class DiffuseTable {
 public:
  static constexpr int kAzimuths = sky::kPatchTurns;
  DiffuseTable() = default;
  /// @param light by tilt; it must outlive the table and stay where it is
  DiffuseTable(std::span<const PatchLight> light, std::shared_ptr<const SplitMask> parts);
  void at(int tilt_index, double azimuth_rad, DiffuseGain& out) const;

 private:
  struct Cell {
    std::once_flag once;
    std::unique_ptr<const DiffuseGain> gain;
  };
  [[nodiscard]] const DiffuseGain& gain(std::size_t tilt_index, int turn) const;

  std::span<const PatchLight> light_;
  std::shared_ptr<const SplitMask> parts_;
  std::unique_ptr<Cell[]> cells_;
};
}  // namespace ovendays::gains
