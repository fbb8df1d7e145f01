// SPDX-License-Identifier: MIT
// Light through a stack of panes: Fresnel at every face for both polarisations, absorption by path
// length (Bouguer), all inter-reflections. Polarisations are averaged last. A film is a thin pane.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "ovendays/oven/design.h"

namespace ovendays::optics {

/// Reflectance of one face, perpendicular and parallel [1] (Fresnel; Duffie and Beckman
/// eqs. 5.1.1-5.1.3).
struct FaceReflectance {
  double perpendicular = 0.0;
  double parallel = 0.0;
};
FaceReflectance fresnel(double cos_incidence, double index);
/// Cosine of the angle inside the glass (Snell).
double cos_refracted(double cos_incidence, double index);

/// What a stack does with light that meets it from one side. transmitted + reflected +
/// sum(absorbed) = 1 to 1e-12.
struct StackSplit {
  double transmitted = 0.0;
  double reflected = 0.0;
  std::array<double, oven::kMostPanes> absorbed{};  ///< by pane, outermost first
};

/// One pane alone.
StackSplit pane_split(const oven::Pane& pane, double cos_incidence);
/// A stack, light from the outside (from_inside = false) or from the cavity.
StackSplit stack_split(std::span<const oven::Pane> panes, double cos_incidence, bool from_inside);

/// The stack tabulated over cos(incidence), for the tracer. Error below 1e-5 against stack_split.
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
