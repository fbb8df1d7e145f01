// SPDX-License-Identifier: MIT
// The batch integrator for any machine, with vectors of 16 bytes and no fused operations.
#define OVENDAYS_ISA portable
#include "batch_integrator.h"
