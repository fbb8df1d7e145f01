// SPDX-License-Identifier: MIT
#include "service_limits.h"

#include <array>
#include <cmath>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

/// Nodes from the liner to the outer skin and, at each, the share of the layers' resistance that
/// lies inside it. The model's links give these shares; a change of its grid needs none here.
struct ResistanceScale {
  std::array<std::size_t, 5> node;
  std::array<double, 5> share;
};

ResistanceScale resistance_scale(std::size_t first_node, const std::array<double, 4>& links_WK) {
  ResistanceScale scale{
      {heat::kNodeLiner, first_node, first_node + 1, first_node + 2, first_node + 3}, {}};
  for (std::size_t i = 0; i < links_WK.size(); ++i)
    scale.share[i + 1] = scale.share[i] + 1.0 / links_WK[i];
  for (double& share : scale.share) share /= scale.share.back();
  return scale;
}

void add_faces(const std::string& place,
               const std::vector<oven::Layer>& layers,
               const ResistanceScale& scale,
               std::vector<LayerFace>& faces) {
  double total_m2KW = 0.0;
  for (const oven::Layer& layer : layers)
    total_m2KW += layer.thickness_m / layer.material.conductivity_WmK;
  double inside_m2KW = 0.0;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const double depth = inside_m2KW / total_m2KW;
    std::size_t outer = 1;
    while (outer + 1 < scale.share.size() && scale.share[outer] <= depth) ++outer;
    const double from = scale.share[outer - 1];
    faces.push_back({place + " layer " + std::to_string(i + 1),
                     layers[i].material,
                     scale.node[outer - 1],
                     scale.node[outer],
                     (depth - from) / (scale.share[outer] - from)});
    inside_m2KW += layers[i].thickness_m / layers[i].material.conductivity_WmK;
  }
}
}  // namespace

std::string in_both_units(double temperature_K) {
  const double celsius = temperature_K - base::kZeroCelsius_K;
  return std::to_string(std::lround(celsius)) + " C (" +
         std::to_string(std::lround(celsius * 9.0 / 5.0 + 32.0)) + " F)";
}

std::vector<LayerFace> layer_faces(const oven::Box& box, const heat::HeatModel& model) {
  std::vector<LayerFace> faces;
  add_faces("Wall", box.wall, resistance_scale(heat::kNodeWall1, model.wall_WK), faces);
  add_faces("Floor", box.floor, resistance_scale(heat::kNodeFloor1, model.floor_WK), faces);
  return faces;
}

std::vector<std::string> service_limit_notes(std::span<const LayerFace> faces,
                                             std::span<const double> peak_K) {
  OVENDAYS_CHECK(faces.size() == peak_K.size());
  std::vector<std::string> notes;
  for (std::size_t i = 0; i < faces.size(); ++i) {
    const oven::Material& material = faces[i].material;
    if (peak_K[i] <= material.service_limit_K) continue;
    notes.push_back(faces[i].place + ", " + material.name + ", reaches " +
                    in_both_units(peak_K[i]) +
                    " at its inner face in the empty oven; its service "
                    "limit is " +
                    in_both_units(material.service_limit_K) + ".");
  }
  return notes;
}
}  // namespace ovendays::season
