// SPDX-License-Identifier: MIT
// The part of the season command that --spread adds: many seasons with varied inputs.
#pragma once

#include <vector>

#include "arguments.h"
#include "ovendays/season/case.h"
#include "terminal.h"

namespace ovendays::cli {
class SpreadPart {
 public:
  /// Reads the options. @throws UsageError, also for options that need --spread without it
  explicit SpreadPart(const Arguments& arguments);
  void add_to(Outputs& outputs) const;
  /// Reads the second and further weather years, if --weather is given more than once.
  /// @throws base::InputError, also where a year is of another place
  void read_years(const season::Case& c, const weather::WeatherYear& first);
  /// Runs the draws and writes the files that the options name.
  /// @return the table to print; empty without --spread
  [[nodiscard]] std::string run(const season::Case& c, int width) const;
  /// The "Written: ..." lines for these files.
  [[nodiscard]] std::string written() const;
  static std::vector<OptionSpec> options();

 private:
  const Arguments& arguments_;
  long draws_ = 0;
  std::vector<std::string> files_;  ///< weather files after the first
  std::vector<weather::WeatherYear> years_;
};
}  // namespace ovendays::cli
