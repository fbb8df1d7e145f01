// SPDX-License-Identifier: MIT
#include "ovendays/gains/diffuse_table.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/target_clones.h"

namespace ovendays::gains {
namespace {

using Areas = DiffuseGain::Areas;

void add(Areas& sum, double weight, const PatchLight::Taken& taken) {
  for (std::size_t s = 0; s < sum.size(); ++s) sum[s] += weight * taken.m2[s];
}

void mix_gains(const DiffuseGain& a, const DiffuseGain& b, double share, DiffuseGain& m) {
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
}

/// What lies around an oven that faces an azimuth, with the patches' places as it sees them.
struct Half {
  const PatchLight::Shares& light;
  const std::vector<std::size_t>& place;
  std::span<const SplitMask::Open> open;
  std::span<const SplitMask::Blocked> blocked;
};

/// Sums up the patches of one half of the sphere. @return the open part of the outer pane's
/// infrared [m2]
double add_patches(const Half& half, Areas& open_m2, double& open_plane, DiffuseGain& gain) {
  PatchLight::Taken sum;
  double plane = 0.0;
  for (const SplitMask::Open& open : half.open) {
    const std::size_t at = half.place[open.patch];
    if (half.light.plane[at] <= 0.0) continue;
    add(sum.m2, open.visible, half.light.taken[at]);
    plane += open.visible * half.light.plane[at];
  }
  std::copy_n(sum.m2.begin(), open_m2.size(), open_m2.begin());
  open_plane = plane;
  for (const SplitMask::Blocked& blocked : half.blocked) {
    const std::size_t at = half.place[blocked.patch];
    if (half.light.plane[at] <= 0.0) continue;
    add(gain.facing_m2[blocked.facing], blocked.share, half.light.taken[at]);
    gain.plane_facing[blocked.facing] += blocked.share * half.light.plane[at];
  }
  return sum.m2.back();
}

/// The sphere cut into patches, once for all.
struct Sphere {
  std::vector<sky::Patch> sky = sky::sky_patches();
  std::vector<sky::Patch> ground = sky::ground_patches();
  std::vector<base::Direction> horizon = sky::horizon_directions();
};

const Sphere& sphere() {
  static const Sphere all;
  return all;
}

/// For each azimuth where its patches lie for an oven that faces north.
struct PatchTurns {
  PatchTurns() {
    for (int turn = 0; turn < sky::kPatchTurns; ++turn) {
      sky[static_cast<std::size_t>(turn)] = sky::turned_patches(sphere().sky, turn);
      ground[static_cast<std::size_t>(turn)] = sky::turned_patches(sphere().ground, turn);
    }
  }
  std::array<std::vector<std::size_t>, sky::kPatchTurns> sky, ground;
};

OVENDAYS_CLONES DiffuseGain integrate(const PatchLight& light, const SplitMask& parts, int turn) {
  const spot::SpotMask& mask = parts.mask;
  static const PatchTurns turns;
  DiffuseGain gain{};
  gain.plane_isotropic = 0.0;
  const auto which = static_cast<std::size_t>(turn);
  const double sky_m2 =
      add_patches({light.sky, turns.sky[which], parts.sky_open, parts.sky_blocked},
                  gain.isotropic_m2,
                  gain.plane_isotropic,
                  gain);
  add_patches({light.ground, turns.ground[which], parts.ground_open, parts.ground_blocked},
              gain.ground_m2,
              gain.plane_ground,
              gain);
  const std::size_t count = mask.horizon.size();
  const std::size_t shift = which * (count / sky::kPatchTurns);
  for (std::size_t h = 0; h < count; ++h) {
    const std::size_t at = h < shift ? h + count - shift : h - shift;
    add(gain.horizon_m2, mask.horizon_visible[h], light.horizon.taken[at]);
    gain.plane_horizon += mask.horizon_visible[h] * light.horizon.plane[at];
  }
  // The pane's whole infrared leaves through the mouth's hemisphere: the sky's part of it.
  gain.sky_share = light.outer_ir_m2 > 0.0 ? std::min(1.0, sky_m2 / light.outer_ir_m2) : 0.0;
  return gain;
}

void add_share(const optics::AcceptanceTable& table,
               const base::Vec3& local,
               double weight,
               PatchLight::Shares& shares) {
  PatchLight::Taken& taken = shares.taken.emplace_back();
  double& plane = shares.plane.emplace_back(0.0);
  if (local.z <= 0.0) return;
  const optics::Acceptance acceptance = table.at(local);
  for (std::size_t s = 0; s < oven::kSurfaces; ++s)
    taken.m2[s] = weight * acceptance.absorbed_m2[s];
  taken.m2.back() = weight * acceptance.outer_ir_m2;
  plane = weight * local.z;
}
}  // namespace

double outer_pane_infrared_m2(const optics::AcceptanceTable& table) {
  double sum_m2 = 0.0;
  for (const sky::Patch& patch : sphere().sky)
    sum_m2 += patch.solid_angle_sr / base::kPi * table.at(patch.direction).outer_ir_m2;
  return sum_m2;
}

PatchLight::PatchLight(const optics::AcceptanceTable& table,
                       double pane_ir_m2,
                       double glazing_tilt_rad)
    : outer_ir_m2(pane_ir_m2) {
  const base::Frame frame = oven::mouth_frame({}, 0.0, glazing_tilt_rad);
  const auto fill = [&](const std::vector<sky::Patch>& patches, Shares& shares) {
    shares.taken.reserve(patches.size());
    shares.plane.reserve(patches.size());
    for (const sky::Patch& patch : patches) {
      const base::Vec3 local = frame.local_from_world(patch.direction);
      add_share(table, local, patch.solid_angle_sr / base::kPi, shares);
    }
  };
  fill(sphere().sky, sky);
  fill(sphere().ground, ground);
  const std::vector<base::Direction>& band = sphere().horizon;
  const double each = base::kPi / static_cast<double>(band.size());
  for (const base::Direction& direction : band)
    add_share(table, frame.local_from_world(direction), each, horizon);
}

SplitMask::SplitMask(spot::SpotMask whole) : mask(std::move(whole)) {
  const auto blocked = [](const std::vector<std::array<double, spot::kFacings>>& patches) {
    std::vector<Blocked> out;
    for (std::size_t p = 0; p < patches.size(); ++p) {
      for (std::size_t f = 0; f < spot::kFacings; ++f) {
        if (patches[p][f] > 0.0) out.push_back({p, f, patches[p][f]});
      }
    }
    return out;
  };
  sky_blocked = blocked(mask.sky_blocked);
  ground_blocked = blocked(mask.ground_blocked);
  const auto open = [](const std::vector<double>& visible) {
    std::vector<Open> out;
    for (std::size_t p = 0; p < visible.size(); ++p) {
      if (visible[p] != 0.0) out.push_back({p, visible[p]});
    }
    return out;
  };
  sky_open = open(mask.sky_visible);
  ground_open = open(mask.ground_visible);
}

DiffuseTable::DiffuseTable(std::span<const PatchLight> light,
                           std::shared_ptr<const SplitMask> parts)
    : light_(light),
      parts_(std::move(parts)),
      cells_(std::make_unique<Cell[]>(light.size() * static_cast<std::size_t>(kAzimuths))) {
  const spot::SpotMask& mask = parts_->mask;
  for (const PatchLight& tilt : light) {
    OVENDAYS_CHECK(mask.sky.size() == tilt.sky.plane.size() &&
                   mask.ground.size() == tilt.ground.plane.size() &&
                   mask.horizon.size() == tilt.horizon.plane.size() &&
                   mask.horizon.size() % kAzimuths == 0);
  }
}

const DiffuseGain& DiffuseTable::gain(std::size_t tilt_index, int turn) const {
  Cell& cell = cells_[tilt_index * kAzimuths + static_cast<std::size_t>(turn)];
  std::call_once(cell.once, [&] {
    cell.gain = std::make_unique<const DiffuseGain>(integrate(light_[tilt_index], *parts_, turn));
  });
  return *cell.gain;
}

void DiffuseTable::at(int tilt_index, double azimuth_rad, DiffuseGain& out) const {
  const double turns = azimuth_rad / base::kTwoPi;
  const double place = (turns - std::floor(turns)) * kAzimuths;
  const int low = static_cast<int>(place) % kAzimuths;
  const int high = (low + 1) % kAzimuths;
  const auto tilt = static_cast<std::size_t>(tilt_index);
  mix_gains(gain(tilt, low), gain(tilt, high), place - std::floor(place), out);
}
}  // namespace ovendays::gains
