// SPDX-License-Identifier: MIT
// The water of a test: how much of it fits in how many vessels. Private to study.
#pragma once

#include "ovendays/heat/model.h"
#include "ovendays/study/rating.h"

namespace ovendays::study {
/// The vessel that a test uses. nullptr where the oven has none.
/// @throws base::InputError where `name` is not empty and names none
const oven::Vessel* test_vessel(const oven::OvenDesign& design, const std::string& name);
/// As few vessels as hold the water, as many as the tray takes.
TestLoad fill_vessels(const oven::OvenDesign& design, const oven::Vessel& vessel, double wanted_kg);
/// Water, stirred by its own convection, which can leave as steam.
heat::FoodLoad water(double mass_kg);
}  // namespace ovendays::study
