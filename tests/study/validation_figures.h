// SPDX-License-Identifier: MIT
// Every figure that has been published of a measured oven and that the model can be held against,
// with what the model gives for it. The measured tests check the aims; tests/validation.sh prints
// the table.
#pragma once

#include <string>
#include <vector>

namespace ovendays::test {

struct ValidationFigure {
  std::string oven;  ///< id of the measured oven in the ledger, "SYS-20"
  std::string what;
  bool loaded;      ///< with food or water; else the empty oven
  bool kept_aside;  ///< not looked at when coefficients were chosen
  double measured;
  /// Of all ways to fill in what the source leaves open (number of pots, of panes), the smallest
  /// and the largest result.
  double least, most;
  /// How much too fast (loaded: heating rate, power, F2) or too hot (empty: rise above the air) the
  /// model is: 1 is right. Of a band the geometric mean of both ends.
  double ratio;
};

/// Runs all of them; takes some seconds.
std::vector<ValidationFigure> validation_figures();

struct ValidationSummary {
  int count = 0;
  double median = 0.0;     ///< of the ratios
  double rms_ln = 0.0;     ///< root mean square of ln(ratio)
  double within_25 = 0.0;  ///< share of ratios within a factor 1.25
  double within_35 = 0.0, within_50 = 0.0;
};
ValidationSummary summarize(const std::vector<ValidationFigure>& figures,
                            bool (*counts)(const ValidationFigure&));

/// What is left of ln(ratio) of the loaded ovens when each is judged by the mean of all others:
/// root mean square over the ovens. It tells how far a new oven may be off for reasons that the
/// model does not know.
double leave_one_out_ln(const std::vector<ValidationFigure>& figures);
}  // namespace ovendays::test
