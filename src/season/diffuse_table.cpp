// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <utility>

#include "gains.h"
#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

using Areas = DiffuseGain::Areas;

void add(Areas& sum, double weight, const Areas& areas) {
  for (std::size_t s = 0; s < areas.size(); ++s) sum[s] += weight * areas[s];
}

double outer_pane_total(const optics::AcceptanceTable& table) {
  double total = 0.0;
  for (const sky::Patch& patch : sky::sky_patches()) {
    total += patch.solid_angle_sr / base::kPi * table.at(patch.direction).outer_ir_m2;
  }
  return total;
}

DiffuseGain mixed(const DiffuseGain& a, const DiffuseGain& b, double share) {
  DiffuseGain m;
  const auto mix = [share](double x, double y) { return x + (y - x) * share; };
  const auto mix_areas = [&](const Areas& x, const Areas& y) {
    Areas out{};
    for (std::size_t s = 0; s < out.size(); ++s) out[s] = mix(x[s], y[s]);
    return out;
  };
  m.isotropic_m2 = mix_areas(a.isotropic_m2, b.isotropic_m2);
  m.horizon_m2 = mix_areas(a.horizon_m2, b.horizon_m2);
  m.ground_m2 = mix_areas(a.ground_m2, b.ground_m2);
  m.sky_share = mix(a.sky_share, b.sky_share);
  m.plane_isotropic = mix(a.plane_isotropic, b.plane_isotropic);
  m.plane_horizon = mix(a.plane_horizon, b.plane_horizon);
  m.plane_ground = mix(a.plane_ground, b.plane_ground);
  for (std::size_t f = 0; f < spot::kFacings; ++f) {
    m.facing_m2[f] = mix_areas(a.facing_m2[f], b.facing_m2[f]);
    m.plane_facing[f] = mix(a.plane_facing[f], b.plane_facing[f]);
  }
  return m;
}

/// Adds the patches of one half of the sphere. @return the sky's share of the outer pane's infrared
/// [m2]
double add_patches(const base::Frame& frame,
                   const optics::AcceptanceTable& table,
                   const std::vector<sky::Patch>& patches,
                   const std::vector<double>& visible,
                   const std::vector<std::array<double, spot::kFacings>>& blocked,
                   bool sky_half,
                   DiffuseGain& gain) {
  double infrared_m2 = 0.0;
  for (std::size_t p = 0; p < patches.size(); ++p) {
    const base::Vec3 local = frame.local_from_world(patches[p].direction);
    if (local.z <= 0.0) continue;
    const optics::Acceptance acceptance = table.at(local);
    const double weight = patches[p].solid_angle_sr / base::kPi;
    const double open = weight * visible[p];
    add(sky_half ? gain.isotropic_m2 : gain.ground_m2, open, acceptance.absorbed_m2);
    (sky_half ? gain.plane_isotropic : gain.plane_ground) += open * local.z;
    if (sky_half) infrared_m2 += open * acceptance.outer_ir_m2;
    for (std::size_t f = 0; f < spot::kFacings; ++f) {
      if (blocked[p][f] <= 0.0) continue;
      add(gain.facing_m2[f], weight * blocked[p][f], acceptance.absorbed_m2);
      gain.plane_facing[f] += weight * blocked[p][f] * local.z;
    }
  }
  return infrared_m2;
}
}  // namespace

LoadOptics::LoadOptics(optics::AcceptanceTable acceptance)
    : table(std::move(acceptance)), outer_ir_m2(outer_pane_total(table)) {}

void DiffuseTable::fill(int job,
                        double glazing_tilt_rad,
                        const LoadOptics& load,
                        const spot::SpotMask& mask) {
  const optics::AcceptanceTable& table = load.table;
  const double azimuth_rad = base::kTwoPi * (job % kAzimuths) / kAzimuths;
  const base::Frame frame = oven::mouth_frame({}, azimuth_rad, glazing_tilt_rad);
  DiffuseGain& gain = gains_[static_cast<std::size_t>(job)];
  gain = {};
  gain.plane_isotropic = 0.0;
  const double sky_m2 =
      add_patches(frame, table, mask.sky, mask.sky_visible, mask.sky_blocked, true, gain);
  add_patches(frame, table, mask.ground, mask.ground_visible, mask.ground_blocked, false, gain);
  const double each = base::kPi / static_cast<double>(mask.horizon.size());
  for (std::size_t h = 0; h < mask.horizon.size(); ++h) {
    const base::Vec3 local = frame.local_from_world(mask.horizon[h]);
    if (local.z <= 0.0) continue;
    const double weight = each * mask.horizon_visible[h];
    add(gain.horizon_m2, weight, table.at(local).absorbed_m2);
    gain.plane_horizon += weight * local.z;
  }
  // The pane's whole infrared leaves through the mouth's hemisphere: the sky's part of it.
  gain.sky_share = load.outer_ir_m2 > 0.0 ? std::min(1.0, sky_m2 / load.outer_ir_m2) : 0.0;
}

DiffuseGain DiffuseTable::at(int tilt_index, double azimuth_rad) const {
  const double turns = azimuth_rad / base::kTwoPi;
  const double place = (turns - std::floor(turns)) * kAzimuths;
  const int low = static_cast<int>(place) % kAzimuths;
  const int high = (low + 1) % kAzimuths;
  const auto row = static_cast<std::size_t>(tilt_index) * kAzimuths;
  return mixed(gains_[row + static_cast<std::size_t>(low)],
               gains_[row + static_cast<std::size_t>(high)],
               place - std::floor(place));
}
}  // namespace ovendays::season
