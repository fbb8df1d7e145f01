// SPDX-License-Identifier: MIT
// The hourly account of a day: what reached the oven and how warm it was empty. Private to season.
#pragma once

#include <span>

#include "empty_days.h"

namespace ovendays::season {
/// What reached the oven.
void trace_light(const FineDay& day,
                 std::span<const task::Aim> aims,
                 const sky::SkyDay& sky,
                 std::span<HourTrace> hours,
                 DaySummary& summary);
/// How warm it was.
void trace_oven(const EmptyDay& empty,
                bool with_tray,
                std::span<HourTrace> hours,
                DaySummary& summary);
}  // namespace ovendays::season
