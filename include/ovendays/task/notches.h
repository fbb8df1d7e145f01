// SPDX-License-Identifier: MIT
// The notches in which a task can be cooked: those in which its food does not spill and its vessel
// neither slides nor meets the glass (see oven/shelf.h).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/oven/shelf.h"
#include "ovendays/task/task.h"

namespace ovendays::task {

/// For each notch of an oven, whether it may be chosen. Empty: all of them may.
using NotchSet = std::vector<bool>;

/// Volume of what can spill from the task's vessel [m3]: mass over density of stirred food. Solid
/// food (dough, eggs, potatoes without free liquid) does not spill: 0.
double liquid_m3(const Task& task);

/// How the task's vessel stands in each notch. Empty where the oven lacks the vessel.
std::vector<oven::Stand> task_stands(const oven::OvenDesign& oven, const Task& task);

/// The notches that the task can use, empty where it can use all.
NotchSet usable_notches(const oven::OvenDesign& oven, const Task& task);
/// True where a set holds none of the notches.
bool no_notch(const NotchSet& notches);

/// What keeps a task out of some notches.
struct NotchLimit {
  oven::TiltLimit limit = oven::TiltLimit::kNone;
  double from_rad = 0.0;  ///< tilt of the vessel from which it spills or slides
};
/// That of the gentlest notch that cannot be used; nullopt where all can be.
std::optional<NotchLimit> notch_limit(const oven::OvenDesign& oven, const Task& task);
/// What would have to change for a task to use more notches.
enum class NotchHelp {
  kNone,  ///< nothing: the task can use all notches
  kRack,  ///< the vessel tilts with the box: a level rack, where it has room below the glass
  kRoom,  ///< on its level rack the vessel meets the glass or a wall: a smaller vessel, a larger
          ///< box
  kSettings,  ///< the level rack's settings leave too much tilt: finer ones
};
/// That for the gentlest notch that cannot be used.
NotchHelp notch_help(const oven::OvenDesign& oven, const Task& task);
/// Several limits in a few words: "would spill or slide from 25.7 deg on", the smallest angle.
std::string limit_text(const std::vector<NotchLimit>& limits);
}  // namespace ovendays::task
