// SPDX-License-Identifier: MIT
// The texts and counts of a season that its table, pictures and page share.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "words.h"

namespace ovendays::report {

/// How a cause is shown: its column heading, its letter in pictures, and its meaning.
struct CauseWord {
  season::Cause cause;
  char letter;
  const char* heading;
  const char* meaning;
};
/// The causes in the order of the table's columns, without kNone.
const std::array<CauseWord, 9>& cause_words();

/// Texts and counts of one season.
struct SeasonSummary {
  std::string headline;  ///< the answer in one sentence, see answer.h
  std::string where;     ///< site, place, spot
  std::string oven;
  std::string weather;
  std::string sun;      ///< how many hours of strong sun reach the spot
  std::string hottest;  ///< highest air temperature of the empty oven
  std::string boiling;
  std::string audit;
  bool causes_known = true;                ///< false if the run did not search for causes
  std::vector<season::TaskCounts> counts;  ///< by task
  std::vector<std::string> notes;
  std::vector<std::string> cautions;
};
/// Computes the summary of a season.
SeasonSummary summarize(const results::StoredSeason& season, TemperatureUnit unit);

/// The usual loading window, "09:00-12:30"; a dash if the task is never cooked.
std::string window_text(const season::TaskCounts& counts);
/// The likely range of a year's days, "186-225"; empty where none was made.
std::string range_text(const season::TaskRange& range);
/// Whether the season has ranges.
bool has_ranges(const results::StoredSeason& season);
/// How the ranges were made, in a sentence; empty where there are none.
std::string range_note(const results::StoredSeason& season);

/// The requirements of a task, "82 °C for 15 min by 18:30".
std::string task_asks(const results::StoredTask& task, TemperatureUnit unit);
}  // namespace ovendays::report
