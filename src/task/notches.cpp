// SPDX-License-Identifier: MIT
#include "ovendays/task/notches.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "ovendays/base/constants.h"
#include "ovendays/base/units.h"

namespace ovendays::task {
namespace {
using oven::Stand;
using oven::TiltLimit;

bool usable(const Stand& stand) { return stand.limit == TiltLimit::kNone; }

/// To a tenth of a degree.
std::string angle_text(double angle_rad) {
  const double tenths = std::round(10.0 * angle_rad * base::kDegPerRad);
  return base::quantity_text(0.1 * tenths * base::kRadPerDeg, base::Dimension::kAngle);
}
}  // namespace

double liquid_m3(const Task& task) {
  if (task.food.shape != heat::FoodShape::kStirred) return 0.0;
  return task.food.mass_kg / task.food.density_kgm3;
}

std::vector<Stand> task_stands(const oven::OvenDesign& oven, const Task& task) {
  const oven::Vessel* vessel = oven.vessel(task.vessel);
  if (vessel == nullptr) return {};
  return oven::stands(oven, *vessel, liquid_m3(task));
}

NotchSet usable_notches(const oven::OvenDesign& oven, const Task& task) {
  NotchSet notches;
  for (const Stand& stand : task_stands(oven, task)) notches.push_back(usable(stand));
  if (std::find(notches.begin(), notches.end(), false) == notches.end()) notches.clear();
  return notches;
}

bool no_notch(const NotchSet& notches) {
  return !notches.empty() && std::find(notches.begin(), notches.end(), true) == notches.end();
}

std::optional<NotchLimit> notch_limit(const oven::OvenDesign& oven, const Task& task) {
  const std::vector<Stand> all = task_stands(oven, task);
  const auto first = std::find_if_not(all.begin(), all.end(), usable);
  if (first == all.end()) return std::nullopt;
  NotchLimit limit{first->limit, 0.0};
  if (limit.limit == TiltLimit::kSpills)
    limit.from_rad = oven::spill_tilt_rad(*oven.vessel(task.vessel), liquid_m3(task));
  if (limit.limit == TiltLimit::kSlides) limit.from_rad = oven::slide_tilt_rad(oven.shelf);
  return limit;
}

NotchHelp notch_help(const oven::OvenDesign& oven, const Task& task) {
  const std::optional<NotchLimit> limit = notch_limit(oven, task);
  if (!limit) return NotchHelp::kNone;
  if (!oven.shelf.level) return NotchHelp::kRack;
  return limit->limit == TiltLimit::kGlass ? NotchHelp::kRoom : NotchHelp::kSettings;
}

std::string limit_text(const std::vector<NotchLimit>& limits) {
  std::string words;
  std::optional<double> from_rad;
  for (const auto& [kind, word] : {std::pair{TiltLimit::kGlass, "touch the glass"},
                                   {TiltLimit::kSpills, "spill"},
                                   {TiltLimit::kSlides, "slide"}}) {
    bool any = false;
    for (const NotchLimit& limit : limits) {
      if (limit.limit != kind) continue;
      any = true;
      if (kind != TiltLimit::kGlass)
        from_rad = std::min(from_rad.value_or(limit.from_rad), limit.from_rad);
    }
    if (any) words += (words.empty() ? "would " : " or ") + std::string(word);
  }
  return words + (from_rad ? " from " + angle_text(*from_rad) + " on" : "");
}
}  // namespace ovendays::task
