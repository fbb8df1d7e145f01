// SPDX-License-Identifier: MIT
// The part of the season command that says how sure its figures are: seasons with varied inputs.
#pragma once

#include <optional>
#include <vector>

#include "arguments.h"
#include "ovendays/results/results.h"
#include "terminal.h"

namespace ovendays::cli {
class SpreadPart {
 public:
  /// Reads the options: without --spread, few draws on a quarter of the days; with --spread N, N
  /// whole seasons; with --spread 0, none. @throws UsageError, also for options that need --spread
  /// N
  explicit SpreadPart(const Arguments& arguments);
  void add_to(Outputs& outputs) const;
  /// Reads the second and further weather years, if --weather is given more than once.
  /// @throws base::InputError, also where a year is of another place
  void read_years(const season::Case& c, const weather::WeatherYear& first);
  /// Runs the draws, adds the ranges to the season, and writes the files that the options name.
  /// @param stored the season of the case as given
  /// @return the table to print; empty without --spread N
  [[nodiscard]] std::string run(const season::Case& c,
                                const weather::WeatherYear& year,
                                results::StoredSeason& stored,
                                int width) const;
  /// The "Written: ..." lines for these files.
  [[nodiscard]] std::string written() const;
  static std::vector<OptionSpec> options();

 private:
  const Arguments& arguments_;
  [[nodiscard]] bool whole_seasons() const { return draws_ && *draws_ > 0; }

  std::optional<long> draws_;       ///< as --spread says
  std::vector<std::string> files_;  ///< weather files after the first
  std::vector<weather::WeatherYear> years_;
};
}  // namespace ovendays::cli
