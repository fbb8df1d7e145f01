// SPDX-License-Identifier: MIT
// The lane engine with what every machine of this kind can run.
#define OVENDAYS_ISA plain
#include "lanes_entry.h"
