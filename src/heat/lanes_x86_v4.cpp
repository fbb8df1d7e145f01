// SPDX-License-Identifier: MIT
// The lane engine with AVX-512 (x86-64-v4); see plus_product() of pack.h on what is fused.
#define OVENDAYS_ISA x86_v4
#include "lanes_entry.h"
