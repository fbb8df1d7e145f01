// SPDX-License-Identifier: MIT
// Diffuse light: an oven's acceptance integrated over what a spot shows of the sphere. The
// patches of the sphere turned by ten degrees are themselves again (sky/patches.h), so the oven's
// part is looked up once for each tilt and every azimuth is a turn of it. Private to season.
#pragma once

#include <array>
#include <memory>
#include <mutex>
#include <span>
#include <vector>

#include "ovendays/base/wide.h"
#include "ovendays/optics/acceptance.h"
#include "ovendays/spot/scene.h"

namespace ovendays::season {

/// Acceptance integrated over what the spot shows of the sky, for one orientation: times an
/// irradiance it gives what the surfaces absorb [m2].
struct DiffuseGain {
  using Areas = optics::AcceptanceRow;            ///< the outermost pane's infrared is not told
  Areas isotropic_m2{};                           ///< x isotropic_horizontal
  Areas horizon_m2{};                             ///< x horizon
  Areas ground_m2{};                              ///< x radiosity of the ground
  std::array<Areas, spot::kFacings> facing_m2{};  ///< x irradiance on obstructions facing each way
  double sky_share = 1.0;  ///< of the outermost pane's infrared that meets open sky
  // The same for a bare plane in the mouth, for the results: view factors [1].
  double plane_isotropic = 1.0, plane_horizon = 0.0, plane_ground = 0.0;
  std::array<double, spot::kFacings> plane_facing{};
};

/// The outermost pane's infrared through the whole mouth [m2], whatever the tilt.
double outer_pane_infrared_m2(const optics::AcceptanceTable& table);

/// What an oven at one tilt, facing north, takes in from each patch, times the patch's share of an
/// even radiance; zero behind the mouth.
class PatchLight {
 public:
  /// @param pane_ir_m2 outer_pane_infrared_m2(table)
  PatchLight(const optics::AcceptanceTable& table, double pane_ir_m2, double glazing_tilt_rad);
  /// What each surface absorbs; last the outermost pane's infrared. A cache line of its own.
  struct alignas(64) Taken {
    std::array<double, oven::kSurfaces + 1> m2{};
  };
  /// By patch; a bare plane's part apart, so that what lies behind the mouth is passed over
  /// quickly.
  struct Shares {
    std::vector<Taken> taken;
    std::vector<double> plane;
  };
  Shares sky, ground, horizon;
  double outer_ir_m2;  ///< through the whole mouth
};

/// A spot's mask, and what blocks in it in a short list.
struct MaskParts {
  /// @param whole must outlive this and stay where it is
  explicit MaskParts(const spot::SpotMask& whole);
  struct Blocked {
    std::size_t patch, facing;
    double share;  ///< times the reflectance, see SpotMask
  };
  /// A patch of which something is seen.
  struct Open {
    std::size_t patch;
    double visible;
  };
  const spot::SpotMask* mask;
  std::vector<Blocked> sky_blocked, ground_blocked;
  std::vector<Open> sky_open, ground_open;
};

/// DiffuseGain over azimuth (36 steps, linear between) for each notch of the prop. Each is made
/// when somebody first asks, since a year of aims needs a third of them. Thread-safe; the same bits
/// whoever asks first.
class DiffuseTable {
 public:
  static constexpr int kAzimuths = sky::kPatchTurns;
  DiffuseTable() = default;
  /// @param light by notch; it must outlive the table and stay where it is
  DiffuseTable(std::span<const PatchLight> light, std::shared_ptr<const MaskParts> parts);
  void at(int tilt_index, double azimuth_rad, DiffuseGain& out) const;

 private:
  struct Cell {
    std::once_flag once;
    std::unique_ptr<const DiffuseGain> gain;
  };
  [[nodiscard]] const DiffuseGain& gain(std::size_t tilt_index, int turn) const;

  std::span<const PatchLight> light_;
  std::shared_ptr<const MaskParts> parts_;
  std::unique_ptr<Cell[]> cells_;
};
}  // namespace ovendays::season
