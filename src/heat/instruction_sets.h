// SPDX-License-Identifier: MIT
// The entry points of the batch integrator, one for each SIMD instruction set it is compiled for.
// Private to heat.
#pragma once

#include "ovendays/heat/integrator.h"

namespace ovendays::heat {
using BatchFunction =
    void (*)(const HeatModel&, Run*, RunSummary*, std::size_t, const IntegratorOptions&);
namespace portable {
void integrate_batch(const HeatModel& model,
                     Run* runs,
                     RunSummary* summaries,
                     std::size_t count,
                     const IntegratorOptions& options);
}
#ifdef OVENDAYS_HAVE_X86_LEVELS
namespace x86_v3 {
void integrate_batch(const HeatModel& model,
                     Run* runs,
                     RunSummary* summaries,
                     std::size_t count,
                     const IntegratorOptions& options);
}
namespace x86_v4 {
void integrate_batch(const HeatModel& model,
                     Run* runs,
                     RunSummary* summaries,
                     std::size_t count,
                     const IntegratorOptions& options);
}
#endif
}  // namespace ovendays::heat
