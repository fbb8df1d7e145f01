// SPDX-License-Identifier: MIT
// Sunlight in a stack of panes: reflection at every face by Fresnel's equations for both
// polarisations, absorption along the path (Bouguer's law), and all reflections between the faces.
// The two polarisations are averaged at the end. A plastic film is a thin pane.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "ovendays/oven/design.h"

namespace ovendays::optics {

/// Reflectance of one face for perpendicular and parallel polarisation [1].
struct FaceReflectance {
  double perpendicular = 0.0;
  double parallel = 0.0;
};
/// Fresnel's equations (Duffie and Beckman eqs. 5.1.1-5.1.3).
/// @param cos_incidence 0..1; @param index refractive index of the glass, at least 1
FaceReflectance fresnel(double cos_incidence, double index);
/// Cosine of the angle of refraction in the glass (Snell's law). Parameters as for fresnel().
double cos_refracted(double cos_incidence, double index);

/// How a stack divides light that falls on it from one side [1]. transmitted + reflected +
/// sum(absorbed) = 1 within 1e-12.
struct StackSplit {
  double transmitted = 0.0;
  double reflected = 0.0;
  std::array<double, oven::kMostPanes> absorbed{};  ///< by pane, outermost first
};

/// The split by a single pane. @param cos_incidence 0..1
StackSplit pane_split(const oven::Pane& pane, double cos_incidence);
/// The split by a stack of at most oven::kMostPanes panes, outermost first.
/// @param cos_incidence 0..1; @param from_inside true for light from the cavity
StackSplit stack_split(std::span<const oven::Pane> panes, double cos_incidence, bool from_inside);

/// stack_split() tabulated over cos(incidence), for the ray tracer. Absolute error below 1e-5.
/// Immutable, thread-safe.
class StackTable {
 public:
  explicit StackTable(std::span<const oven::Pane> panes);
  [[nodiscard]] StackSplit from_outside(double cos_incidence) const;
  [[nodiscard]] StackSplit from_inside(double cos_incidence) const;

 private:
  std::vector<StackSplit> outside_;
  std::vector<StackSplit> inside_;
};
}  // namespace ovendays::optics
