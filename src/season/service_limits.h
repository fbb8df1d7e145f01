// SPDX-License-Identifier: MIT
// Warnings about materials of wall and floor that get hotter than they stand. Private to season.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "ovendays/heat/integrator.h"
#include "ovendays/heat/model.h"
#include "ovendays/oven/design.h"

namespace ovendays::season {

/// The inner face of one layer of the wall or the floor, which is the hottest place of the layer
/// while the sun heats the box. The heat model has no node there, so the temperature is
/// interpolated linearly in thermal resistance between the two nodes on either side: exact where
/// the heat flow is steady and the conductivity does not depend on temperature.
struct LayerFace {
  std::string place;  ///< "Wall layer 2" ("Floor layer 1", ...), counted from the inside
  oven::Material material;
  std::size_t inner_node;  ///< heat::Node next to it, towards the inside
  std::size_t outer_node;
  double share;  ///< of the resistance between the two nodes that lies inside the face, 0..1

  [[nodiscard]] double temperature_K(const heat::StateView& state) const {
    return state[inner_node] + share * (state[outer_node] - state[inner_node]);
  }
};

/// The faces of all layers of a box, the wall's first, from the inside out.
std::vector<LayerFace> layer_faces(const oven::Box& box, const heat::HeatModel& model);

/// "121 C (250 F)", for notes that are made before the reader has chosen a unit.
std::string in_both_units(double temperature_K);

/// One sentence for each layer whose inner face gets hotter than the service limit of its material.
/// @param peak_K highest temperature of each face
std::vector<std::string> service_limit_notes(std::span<const LayerFace> faces,
                                             std::span<const double> peak_K);
}  // namespace ovendays::season
