// SPDX-License-Identifier: MIT
// Light in a stack of panes. A pane is described by its net transmittance and reflectance, and the
// stack by the fluxes between the panes; both include all internal reflections.
#include "ovendays/optics/pane_optics.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/check.h"

namespace ovendays::optics {
namespace {
constexpr int kIntervals = 2048;
constexpr auto kPanes = static_cast<std::size_t>(oven::kMostPanes);

// One pane for one polarisation: transmittance and reflectance of its two faces together.
struct Slab {
  double transmitted = 1.0;
  double reflected = 0.0;
};

// Sums the geometric series of the reflections inside a pane (Duffie and Beckman eqs. 5.3.1-5.3.3).
// `face` is the reflectance of one face and `path` the transmittance of one passage of the glass.
Slab slab(double face, double path) {
  const double round_trip = 1.0 - face * face * path * path;
  if (round_trip <= 0.0) return {0.0, 1.0};  // 0 / 0: grazing light on glass that does not absorb
  const double transmitted = path * (1.0 - face) * (1.0 - face) / round_trip;
  return {transmitted, face * (1.0 + path * transmitted)};
}

// Solves the downward and upward fluxes between the panes for one polarisation. The first loop goes
// from the last pane up and finds mirror_k, the reflectance of pane k and everything below it, so
// that up_k = mirror_k down_k. The second loop goes down with the fluxes themselves.
StackSplit stack_of(std::span<const Slab> slabs) {
  const std::size_t n = slabs.size();
  std::array<double, kPanes + 1> mirror{};
  for (std::size_t k = n; k-- > 0;) {
    const double below = mirror[k + 1];
    const double t = slabs[k].transmitted;
    const double trapped = 1.0 - slabs[k].reflected * below;
    mirror[k] = slabs[k].reflected + (trapped > 0.0 ? t * t * below / trapped : 0.0);
  }
  StackSplit split;
  split.reflected = mirror[0];
  double down = 1.0;
  for (std::size_t k = 0; k < n; ++k) {
    const double below = mirror[k + 1];
    const double trapped = 1.0 - slabs[k].reflected * below;
    const double next = trapped > 0.0 ? slabs[k].transmitted * down / trapped : 0.0;
    const double lost = 1.0 - slabs[k].transmitted - slabs[k].reflected;
    split.absorbed[k] = std::max(0.0, lost) * (down + below * next);
    down = next;
  }
  split.transmitted = down;
  return split;
}

StackSplit mean(const StackSplit& a, const StackSplit& b) {
  StackSplit out;
  out.transmitted = 0.5 * (a.transmitted + b.transmitted);
  out.reflected = 0.5 * (a.reflected + b.reflected);
  for (std::size_t k = 0; k < kPanes; ++k) out.absorbed[k] = 0.5 * (a.absorbed[k] + b.absorbed[k]);
  return out;
}

// The nodes are at equal steps of the square root of the cosine, which puts most of them near
// grazing incidence, where transmittance changes quickly.
StackSplit look_up(const std::vector<StackSplit>& table, double cos_incidence) {
  const double place = std::sqrt(std::clamp(cos_incidence, 0.0, 1.0)) * kIntervals;
  const int cell = std::min(static_cast<int>(place), kIntervals - 1);
  const double b = place - cell;
  const double a = 1.0 - b;
  const StackSplit& low = table[static_cast<std::size_t>(cell)];
  const StackSplit& high = table[static_cast<std::size_t>(cell) + 1];
  StackSplit out;
  out.transmitted = a * low.transmitted + b * high.transmitted;
  out.reflected = a * low.reflected + b * high.reflected;
  for (std::size_t k = 0; k < kPanes; ++k) {
    out.absorbed[k] = a * low.absorbed[k] + b * high.absorbed[k];
  }
  return out;
}
}  // namespace

// From Snell's law, sin(refracted) = sin(incidence) / index.
double cos_refracted(double cos_incidence, double index) {
  const double sin_squared = std::max(0.0, 1.0 - cos_incidence * cos_incidence);
  return std::sqrt(std::max(0.0, 1.0 - sin_squared / (index * index)));
}

FaceReflectance fresnel(double cos_incidence, double index) {
  const double c = std::clamp(cos_incidence, 0.0, 1.0);
  const double r = cos_refracted(c, index);
  const double perpendicular = (c - index * r) / (c + index * r);
  const double parallel = (index * c - r) / (index * c + r);
  return {perpendicular * perpendicular, parallel * parallel};
}

StackSplit pane_split(const oven::Pane& pane, double cos_incidence) {
  return stack_split({&pane, 1}, cos_incidence, false);
}

// Light from the cavity meets the panes in the opposite order, and absorbed[] is turned back to the
// order from the outside.
StackSplit stack_split(std::span<const oven::Pane> panes, double cos_incidence, bool from_inside) {
  const std::size_t n = panes.size();
  OVENDAYS_CHECK(n <= kPanes);
  std::array<Slab, kPanes> perpendicular{};
  std::array<Slab, kPanes> parallel{};
  for (std::size_t k = 0; k < n; ++k) {
    const oven::Pane& pane = panes[from_inside ? n - 1 - k : k];
    const FaceReflectance face = fresnel(cos_incidence, pane.index);
    const double path_m = pane.thickness_m / cos_refracted(cos_incidence, pane.index);
    const double path = std::exp(-pane.extinction_1m * path_m);
    perpendicular[k] = slab(face.perpendicular, path);
    parallel[k] = slab(face.parallel, path);
  }
  StackSplit split = mean(stack_of({perpendicular.data(), n}), stack_of({parallel.data(), n}));
  if (from_inside)
    std::reverse(split.absorbed.begin(), split.absorbed.begin() + static_cast<long>(n));
  return split;
}

StackTable::StackTable(std::span<const oven::Pane> panes) {
  outside_.reserve(kIntervals + 1);
  inside_.reserve(kIntervals + 1);
  for (int i = 0; i <= kIntervals; ++i) {
    const double root = static_cast<double>(i) / kIntervals;
    outside_.push_back(stack_split(panes, root * root, false));
    inside_.push_back(stack_split(panes, root * root, true));
  }
}

StackSplit StackTable::from_outside(double cos_incidence) const {
  return look_up(outside_, cos_incidence);
}
StackSplit StackTable::from_inside(double cos_incidence) const {
  return look_up(inside_, cos_incidence);
}
}  // namespace ovendays::optics
