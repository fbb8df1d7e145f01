// SPDX-License-Identifier: MIT
#include "rating_load.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"

namespace ovendays::study {
namespace {

/// Share of a vessel's outer height to which water fills it; judgement.
constexpr double kFillShare = 0.9;
constexpr double kWater_kgm3 = 1000.0;
constexpr double kRound = 1e-9;

// Water that a vessel holds, from its outer dimensions; walls are thin.
double holds_kg(const oven::Vessel& vessel) {
  return kFillShare * kWater_kgm3 * vessel.volume_m3();
}

struct Stand {
  double width_m;
  double depth_m;
};
Stand stand_of(const oven::OvenDesign& design) {
  if (design.tray) return {design.tray->width_m, design.tray->depth_m};
  return {design.box.inner_width_m, design.box.inner_depth_m};
}

// kRound keeps a size that divides the room exactly from losing a row to rounding.
int rows_of(double room_m, double size_m) { return static_cast<int>(room_m / size_m + kRound); }

std::string names_of(const oven::OvenDesign& design) {
  std::string names;
  for (const oven::Vessel& vessel : design.vessels)
    names += (names.empty() ? "" : ", ") + vessel.name;
  return names.empty() ? "a vessel; the oven has none" : names;
}
}  // namespace

const oven::Vessel* rating_vessel(const oven::OvenDesign& design, const std::string& name) {
  if (!name.empty()) {
    if (const oven::Vessel* vessel = design.vessel(name)) return vessel;
    throw base::InputError(base::Fault{"", 0, "vessel", "'" + name + "'", names_of(design)});
  }
  const oven::Vessel* best = nullptr;
  for (const oven::Vessel& vessel : design.vessels) {
    const bool better = best == nullptr || (vessel.lid && !best->lid) ||
                        (vessel.lid == best->lid && holds_kg(vessel) > holds_kg(*best));
    if (better) best = &vessel;
  }
  return best;
}

int most_vessels(const oven::OvenDesign& design, const oven::Vessel& vessel) {
  const Stand stand = stand_of(design);
  if (vessel.kind == oven::VesselKind::kPan) {
    const int straight =
        rows_of(stand.width_m, vessel.width_m) * rows_of(stand.depth_m, vessel.depth_m);
    const int turned =
        rows_of(stand.width_m, vessel.depth_m) * rows_of(stand.depth_m, vessel.width_m);
    return std::max({1, straight, turned});
  }
  int most = std::max(
      1, rows_of(stand.width_m, vessel.diameter_m) * rows_of(stand.depth_m, vessel.diameter_m));
  // Largest diameter of 1, 2, ... equal circles that fit in a unit square (known packings).
  constexpr std::array<double, 9> kPacked = {
      1.0, 0.58578, 0.50866, 0.5, 0.41421, 0.37536, 0.34891, 0.34108, 0.33333};
  const double side_m = std::min(stand.width_m, stand.depth_m);
  for (std::size_t i = 0; i < kPacked.size(); ++i) {
    if (vessel.diameter_m <= kPacked[i] * side_m + kRound)
      most = std::max(most, static_cast<int>(i) + 1);
  }
  return most;
}

oven::Vessel several_as_one(const oven::OvenDesign& design, const oven::Vessel& vessel, int count) {
  oven::Vessel one = vessel;
  if (count <= 1) return one;
  const Stand stand = stand_of(design);
  one.mass_kg *= count;
  one.rim_m =
      count * (vessel.kind == oven::VesselKind::kPot ? base::kPi * vessel.diameter_m
                                                     : 2.0 * (vessel.width_m + vessel.depth_m));
  const double area_m2 = count * vessel.base_m2();
  if (vessel.kind == oven::VesselKind::kPot) {
    const double diameter_m = std::sqrt(4.0 * area_m2 / base::kPi);
    if (diameter_m <= std::min(stand.width_m, stand.depth_m)) {
      one.diameter_m = diameter_m;
      return one;
    }
  }
  // Pots that fill the tray closely cannot be merged into one circle that fits, so use a rectangle.
  const double scale = std::sqrt(area_m2 / (stand.width_m * stand.depth_m));
  one.kind = oven::VesselKind::kPan;
  one.width_m = scale * stand.width_m;
  one.depth_m = scale * stand.depth_m;
  return one;
}

RatingLoad fill_vessels(const oven::OvenDesign& design,
                        const oven::Vessel& vessel,
                        double wanted_kg) {
  RatingLoad load;
  load.vessel = vessel.name;
  load.wanted_kg = wanted_kg;
  const double each_kg = holds_kg(vessel);
  const int needed = static_cast<int>(std::ceil(wanted_kg / each_kg - kRound));
  load.vessels = std::clamp(needed, 1, most_vessels(design, vessel));
  load.water_kg = std::min(wanted_kg, load.vessels * each_kg);
  return load;
}

heat::FoodLoad water(double mass_kg) {
  heat::FoodLoad load;
  load.mass_kg = mass_kg;
  load.specific_heat_JkgK = base::kWaterSpecificHeat_JkgK;
  load.water_kg = mass_kg;
  return load;
}
}  // namespace ovendays::study
