// SPDX-License-Identifier: MIT
// What terminal, picture and page say alike, gathered once.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "words.h"

namespace ovendays::report {

/// A heading for a cause, its letter in pictures, and what it means.
struct CauseWord {
  season::Cause cause;
  char letter;
  const char* heading;
  const char* meaning;
};
/// In the order of the columns; kNone is left out.
const std::array<CauseWord, 8>& cause_words();

struct Facts {
  std::string headline;  ///< the finding in one sentence, see answer.h
  std::string where;     ///< site, place, spot
  std::string oven;
  std::string weather;
  std::string sun;      ///< how much of the beam reaches the spot
  std::string hottest;  ///< the empty oven at its hottest
  std::string boiling;
  std::string audit;
  bool causes_known = true;                ///< false where the run did not look for them
  std::vector<season::TaskCounts> counts;  ///< by task
  std::vector<std::string> notes;
  std::vector<std::string> cautions;
};
Facts gather(const results::StoredSeason& season, TemperatureUnit unit);

/// "09:00-12:30", the usual loading window; a dash where it is never cooked.
std::string window_text(const season::TaskCounts& counts);
/// "82 °C held 15 min by 18:30": what a task asks for.
std::string task_asks(const results::StoredTask& task, TemperatureUnit unit);
}  // namespace ovendays::report
