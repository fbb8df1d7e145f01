// SPDX-License-Identifier: MIT
// The lane engine with AVX2 (x86-64-v3); see plus_product() of pack.h on what is fused.
#define OVENDAYS_ISA x86_v3
#include "lanes_entry.h"
