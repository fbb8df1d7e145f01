// SPDX-License-Identifier: MIT
// The standard normal distribution (mean 0, standard deviation 1). Pure functions, thread-safe.
#pragma once

namespace ovendays::base {
/// Cumulative distribution function [1]: the probability of a value below `deviate`, 0..1.
double normal_cdf(double deviate);
/// Quantile function, the inverse of normal_cdf(). Found by bisection of -8..8 to rounding.
/// @param probability above 0, below 1
double normal_quantile(double probability);
}  // namespace ovendays::base
