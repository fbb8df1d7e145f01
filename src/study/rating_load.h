// SPDX-License-Identifier: MIT
// The load of a rating: how much water the test prescribes, and how many vessels it needs.
#pragma once

#include "ovendays/heat/model.h"
#include "ovendays/study/rating.h"

namespace ovendays::study {
/// Chooses the vessel of a test: the named one, or else the largest with a lid.
/// @return nullptr where the oven has no vessels
/// @throws base::InputError where no vessel has that name
const oven::Vessel* rating_vessel(const oven::OvenDesign& design, const std::string& name);
/// Fills as few vessels as hold the water, but no more than fit on the tray.
/// @param wanted_kg water that the procedure prescribes [kg]
RatingLoad fill_vessels(const oven::OvenDesign& design,
                        const oven::Vessel& vessel,
                        double wanted_kg);
/// A load of water, stirred by its own convection, that can evaporate.
heat::FoodLoad water(double mass_kg);
}  // namespace ovendays::study
