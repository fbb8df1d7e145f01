// SPDX-License-Identifier: MIT
// The batch integrator for AVX-512 (x86-64-v4).
#define OVENDAYS_ISA x86_v4
#include "batch_integrator.h"
