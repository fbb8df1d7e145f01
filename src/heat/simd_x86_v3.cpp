// SPDX-License-Identifier: MIT
// The batch integrator for AVX2 and FMA (x86-64-v3).
#define OVENDAYS_ISA x86_v3
#include "batch_integrator.h"
