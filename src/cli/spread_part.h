// SPDX-License-Identifier: MIT
// season --spread: how sure the days are.
#pragma once

#include <vector>

#include "arguments.h"
#include "ovendays/season/case.h"
#include "terminal.h"

namespace ovendays::cli {
class SpreadPart {
 public:
  /// @throws UsageError, also where an option of the spread is given without --spread
  explicit SpreadPart(const Arguments& arguments);
  void add_to(Outputs& outputs) const;
  /// Reads the other weather years, where --weather is given more than once.
  /// @throws base::InputError, also where they are of another place
  void read_years(const season::Case& c, const weather::WeatherYear& first);
  /// Runs the draws and writes what was asked for. @return the table; empty without --spread
  [[nodiscard]] std::string run(const season::Case& c, int width) const;
  /// "Written: ..." lines.
  [[nodiscard]] std::string written() const;
  static std::vector<OptionSpec> options();

 private:
  const Arguments& arguments_;
  long draws_ = 0;
  std::vector<std::string> files_;  ///< weather after the first
  std::vector<weather::WeatherYear> years_;
};
}  // namespace ovendays::cli
