// SPDX-License-Identifier: MIT
// The standard normal distribution, both ways. Thread-safe: yes.
#pragma once

namespace ovendays::base {
/// The distribution function, 0..1.
double normal_share(double deviate);
/// Its inverse, by bisection of -8..8 until nothing is left to halve. @param share above 0, below 1
double normal_deviate(double share);
}  // namespace ovendays::base
