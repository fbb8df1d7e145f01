// SPDX-License-Identifier: MIT
// The hourly account of a day: what reached the oven and how warm it was empty. Private to season.
#pragma once

#include <span>

#include "empty_days.h"

namespace ovendays::season {
void trace_day(const Setup& setup,
               int day_index,
               const EmptyDay& empty,
               std::span<HourTrace> hours,
               DaySummary& summary);
}  // namespace ovendays::season
