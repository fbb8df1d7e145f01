// SPDX-License-Identifier: MIT
// The hourly account of a day: the light that reached the oven, and the temperatures of the empty
// oven. Private to season.
#pragma once

#include <span>

#include "empty_days.h"

namespace ovendays::season {
/// Fills in everything that depends on sun, sky and weather.
void trace_light(const FineDay& day,
                 std::span<const task::Aim> aims,
                 const sky::SkyDay& sky,
                 std::span<HourTrace> hours,
                 DaySummary& summary);
/// Fills in the temperatures and the energy balance.
void trace_oven(const EmptyDay& empty,
                bool with_tray,
                std::span<HourTrace> hours,
                DaySummary& summary);
}  // namespace ovendays::season
