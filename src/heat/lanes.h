// SPDX-License-Identifier: MIT
// The entry of the lane engine in each instruction set it is compiled for. Private to heat.
#pragma once

#include "ovendays/heat/integrator.h"

namespace ovendays::heat {
using LaneEngine =
    void (*)(const HeatModel&, Run*, RunSummary*, std::size_t, const IntegratorOptions&);
namespace plain {
void run_lanes(const HeatModel& model,
               Run* runs,
               RunSummary* summaries,
               std::size_t count,
               const IntegratorOptions& options);
}
#ifdef OVENDAYS_HAVE_X86_LEVELS
namespace x86_v3 {
void run_lanes(const HeatModel& model,
               Run* runs,
               RunSummary* summaries,
               std::size_t count,
               const IntegratorOptions& options);
}
namespace x86_v4 {
void run_lanes(const HeatModel& model,
               Run* runs,
               RunSummary* summaries,
               std::size_t count,
               const IntegratorOptions& options);
}
#endif
}  // namespace ovendays::heat
