// SPDX-License-Identifier: MIT
// Infrared exchange by Monte Carlo ray tracing in the cavity. The panes have no depth here: what
// happens between them is a one-dimensional balance that is solved once.
#include "ovendays/optics/exchange.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"
#include "ovendays/base/target_clones.h"
#include "ray_numbers.h"
#include "scene.h"

namespace ovendays::optics {
namespace {
// Below this share of its initial weight a ray plays Russian roulette, see Tracer.
constexpr double kFaint = 0.02;
constexpr std::uint32_t kMostBounces = 10000;  // ends rays that are caught between perfect mirrors
constexpr double kNegligible = 1e-16;          // power between the panes that is no longer followed
constexpr auto kCount = static_cast<std::size_t>(oven::kSurfaces);

// Where infrared power ends up: absorbed by each surface, or outside.
struct Ends {
  std::array<double, kCount> at{};
  double outside = 0.0;
  void add(const Ends& other, double times) {
    for (std::size_t i = 0; i < kCount; ++i) at[i] += times * other.at[i];
    outside += times * other.outside;
  }
};

// The same for power that starts in a gap between panes or meets the glazing: some of it also goes
// into the cavity, where rays have to be traced.
struct GapEnds {
  Ends ends;
  double into_cavity = 0.0;
};

// Follows unit power that starts at an interface of the stack (0 is outside, panes.size() is the
// cavity) from pane to pane until it is negligible. All angles are treated alike, so that this is a
// problem in one dimension.
GapEnds through_panes(std::span<const oven::Pane> panes, std::size_t interface, bool inward) {
  const std::size_t n = panes.size();
  std::vector<double> in(n + 1, 0.0);
  std::vector<double> out(n + 1, 0.0);
  (inward ? in : out)[interface] = 1.0;
  GapEnds result;
  for (double left = 1.0; left > kNegligible;) {
    result.ends.outside += out[0];
    result.into_cavity += in[n];
    std::vector<double> next_in(n + 1, 0.0);
    std::vector<double> next_out(n + 1, 0.0);
    for (std::size_t k = 0; k < n; ++k) {  // pane k is between the interfaces k and k + 1
      const oven::Pane& pane = panes[k];
      const double reflected = 1.0 - pane.ir_emittance - pane.ir_transmittance;
      result.ends.at[k] += pane.ir_emittance * (in[k] + out[k + 1]);
      next_in[k + 1] += pane.ir_transmittance * in[k] + reflected * out[k + 1];
      next_out[k] += pane.ir_transmittance * out[k + 1] + reflected * in[k];
    }
    in = std::move(next_in);
    out = std::move(next_out);
    left = 0.0;
    for (std::size_t k = 0; k <= n; ++k) left += in[k] + out[k];
  }
  return result;
}

// Something that emits into the cavity: a panel, the side or the top of the pot, or the glazing.
struct Emitter {
  enum class Kind { kPanel, kPotSide, kPotTop, kGlazing };
  Kind kind = Kind::kPanel;
  const Panel* panel = nullptr;
  double area_m2 = 0.0;
  double emittance = 1.0;
};

struct EmissionPoint {
  Point at;
  Direction normal;
};

// The point that two evenly spread numbers in [0, 1) select. The mapping preserves area.
EmissionPoint emission_point(const Emitter& emitter,
                             const Scene& scene,
                             const RayNumbers::Pair& even) {
  const oven::OvenGeometry& geometry = scene.geometry();
  if (emitter.kind == Emitter::Kind::kPanel) {
    return {emitter.panel->point(even.u, even.v), emitter.panel->plane.normal};
  }
  if (emitter.kind == Emitter::Kind::kGlazing) {
    return {{(2.0 * even.u - 1.0) * geometry.glass_half_width_m,
             (2.0 * even.v - 1.0) * geometry.glass_half_length_m,
             0.0},
            {0.0, 0.0, -1.0}};
  }
  const oven::Cylinder& pot = *geometry.pot;
  Direction tangent;
  Direction bitangent;
  tangents(pot.axis, tangent, bitangent);
  const double turn = base::kTwoPi * even.v;
  const Direction outward = std::cos(turn) * tangent + std::sin(turn) * bitangent;
  if (emitter.kind == Emitter::Kind::kPotSide) {
    const Vec3 climb = (even.u * pot.height_m) * pot.axis;
    return {pot.base_centre + climb + pot.radius_m * outward, outward};
  }
  const double reach_m = pot.radius_m * std::sqrt(even.u);
  return {pot.base_centre + pot.height_m * pot.axis + reach_m * outward, pot.axis};
}

std::vector<Emitter> emitters_of(const Scene& scene, int surface) {
  std::vector<Emitter> out;
  for (const Panel& panel : scene.cavity()) {
    if (panel.skin.surface != surface) continue;
    out.push_back({Emitter::Kind::kPanel, &panel, panel.area_m2, 1.0 - panel.skin.ir_reflectance});
  }
  if (!scene.geometry().pot) return out;
  const oven::Cylinder& pot = *scene.geometry().pot;
  const double r = pot.radius_m;
  if (pot.side_surface == surface) {
    const double side_m2 = base::kTwoPi * r * pot.height_m;
    out.push_back({Emitter::Kind::kPotSide, nullptr, side_m2, 1.0 - pot.ir_reflectance});
  }
  if (pot.top_surface == surface) {
    const double top_m2 = base::kPi * r * r;
    out.push_back({Emitter::Kind::kPotTop, nullptr, top_m2, 1.0 - pot.top_ir_reflectance});
  }
  return out;
}

class Exchange {
 public:
  Exchange(const oven::OvenGeometry& geometry, std::span<const oven::Pane> panes, int rays)
      : scene_(geometry, panes, nullptr),
        glazing_(through_panes(panes, panes.size(), false)),
        numbers_({rays}, RayNumbers::Purpose::kEmission) {}

  // Traces the emission of all parts of one surface. The result [m2] adds up to their exposed area
  // times emittance. Each part gets a contiguous section of the rays in proportion to its area,
  // because any section of the sequence is evenly spread.
  [[nodiscard]] OVENDAYS_CLONES Ends emit(const std::vector<Emitter>& emitters,
                                          std::optional<double> exposed_m2) const {
    double all_m2 = 0.0;
    for (const Emitter& emitter : emitters) all_m2 += emitter.area_m2;
    Ends ends;
    double seen_m2 = 0.0;
    double done_m2 = 0.0;
    int id = 0;
    for (const Emitter& emitter : emitters) {
      done_m2 += emitter.area_m2;
      const int end = static_cast<int>(std::lround(done_m2 / all_m2 * numbers_.run_size(0)));
      const double share_m2 = emitter.area_m2 / std::max(1, end - id);
      for (; id < end; ++id) {
        const auto ray = static_cast<std::uint32_t>(id);
        const EmissionPoint start = emission_point(emitter, scene_, numbers_.start(ray));
        if (scene_.covered(start.at, start.normal)) continue;
        seen_m2 += share_m2;
        trace(start, emitter.emittance * share_m2, ray, ends);
      }
    }
    // The exposed area is known exactly from the geometry. The area that the sample points
    // represent is only an estimate of it, so the result is scaled.
    Ends scaled;
    scaled.add(ends, exposed_m2.value_or(all_m2) / seen_m2);
    return scaled;
  }

  [[nodiscard]] const Scene& scene() const { return scene_; }

 private:
  void trace(const EmissionPoint& start, double weight_m2, std::uint32_t id, Ends& ends) const {
    const double faint_m2 = kFaint * weight_m2;
    std::uint32_t bounce = 0;
    Direction tangent;
    Direction bitangent;
    tangents(start.normal, tangent, bitangent);
    const Direction& first = numbers_.diffuse(id, bounce++);
    Point at = start.at;
    Direction heading = first.x * tangent + first.y * bitangent + first.z * start.normal;
    Axes room;
    while (weight_m2 > 0.0) {
      const InsideHit hit = scene_.hit_inside(at, heading, room);
      at += std::max(0.0, hit.distance_m) * heading;
      if (hit.skin == nullptr) {  // The glazing reflects like a mirror what comes back from it.
        ends.add(glazing_.ends, weight_m2);
        weight_m2 *= glazing_.into_cavity;
        at.z = 0.0;
        heading.z = -heading.z;
        continue;
      }
      double kept_m2 = weight_m2 * hit.skin->ir_reflectance;
      if (kept_m2 < faint_m2) {  // Russian roulette: the mean stays right
        const double number = base::KeyedRandom(id, bounce).uniform();
        kept_m2 = bounce < kMostBounces && number < hit.skin->ir_reflectance ? weight_m2 : 0.0;
      }
      ends.at[static_cast<std::size_t>(hit.skin->surface)] += weight_m2 - kept_m2;
      weight_m2 = kept_m2;
      if (hit.skin->specular_share > 0.0 &&
          numbers_.choice(id, bounce) < hit.skin->specular_share) {
        heading = mirrored(heading, hit.axes->normal);
      } else {
        const Direction& local = numbers_.diffuse(id, bounce);
        heading = local_to_world(local, *hit.axes);
      }
      ++bounce;
    }
  }

  Scene scene_;
  GapEnds glazing_;
  RayNumbers numbers_;
};

// Emission of both faces of a pane. The outer face of the outermost pane is left out: it radiates
// to the sky and the surroundings, which the heat model treats itself.
Ends pane_ends(std::span<const oven::Pane> panes,
               std::size_t pane,
               const Ends& from_glazing,
               double opening_m2) {
  const double power_m2 = panes[pane].ir_emittance * opening_m2;
  Ends out;
  const auto add = [&](const GapEnds& gap) {
    out.add(gap.ends, power_m2);
    out.add(from_glazing, power_m2 * gap.into_cavity / opening_m2);
  };
  if (pane > 0) add(through_panes(panes, pane, false));
  add(through_panes(panes, pane + 1, true));
  return out;
}

double emitted_m2(const Ends& ends) {
  double sum_m2 = ends.outside;
  for (const double part_m2 : ends.at) sum_m2 += part_m2;
  return sum_m2;
}

// The exchange areas G_ij and G_ji are two estimates of the same number. If i emits E_i with N rays
// and the share p = G / E_i of them ends on j, the variance of the estimate is E_i^2 p / N =
// E_i G / N for small p. It is proportional to the emission, so that the estimates are averaged
// with weights 1 / E.
ExchangeAreas symmetric(const std::array<Ends, kCount>& ends) {
  ExchangeAreas out;
  double largest_m2 = 0.0;
  double off_m2 = 0.0;
  for (std::size_t i = 0; i < kCount; ++i) {
    out.outside_m2[i] = ends[i].outside;
    for (std::size_t k = 0; k < i; ++k) {
      const double i_m2 = emitted_m2(ends[i]);
      const double k_m2 = emitted_m2(ends[k]);
      if (i_m2 <= 0.0 || k_m2 <= 0.0) continue;
      const double mean_m2 = (ends[i].at[k] * k_m2 + ends[k].at[i] * i_m2) / (i_m2 + k_m2);
      off_m2 = std::max(off_m2, std::abs(ends[i].at[k] - ends[k].at[i]));
      largest_m2 = std::max(largest_m2, mean_m2);
      out.between_m2[i][k] = mean_m2;
      out.between_m2[k][i] = mean_m2;
    }
  }
  out.asymmetry = largest_m2 > 0.0 ? off_m2 / largest_m2 : 0.0;
  return out;
}
}  // namespace

ExchangeAreas exchange_areas(const oven::OvenGeometry& geometry,
                             std::span<const oven::Pane> panes,
                             int rays) {
  OVENDAYS_CHECK(!panes.empty() && rays > 0);
  const Exchange exchange(geometry, panes, rays);
  std::array<Ends, kCount> ends{};
  const double opening_m2 = exchange.scene().glass_area_m2();
  const Ends from_glazing =
      exchange.emit({{Emitter::Kind::kGlazing, nullptr, opening_m2, 1.0}}, std::nullopt);
  for (std::size_t k = 0; k < panes.size(); ++k) {
    ends[k] = pane_ends(panes, k, from_glazing, opening_m2);
  }
  for (const int surface : {oven::kLiner, oven::kTray, oven::kVessel, oven::kVesselTop}) {
    const auto s = static_cast<std::size_t>(surface);
    const std::vector<Emitter> emitters = emitters_of(exchange.scene(), surface);
    if (!emitters.empty()) ends[s] = exchange.emit(emitters, geometry.area_m2[s]);
  }
  return symmetric(ends);
}

double parallel_plates(double emittance_1, double emittance_2) {
  return 1.0 / (1.0 / emittance_1 + 1.0 / emittance_2 - 1.0);
}
}  // namespace ovendays::optics
