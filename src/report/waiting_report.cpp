// SPDX-License-Identifier: MIT
#include <algorithm>

#include "matrix_picture.h"
#include "ovendays/base/calendar.h"
#include "ovendays/report/question_report.h"
#include "text_table.h"

namespace ovendays::report {
namespace {

std::string ahead_text(std::size_t days) {
  return days == 1 ? "that day" : "one of " + std::to_string(days) + " days";
}

// The two extremes get sentences of their own, since a date range would be meaningless.
std::string longest_text(const study::WaitingTimes& waits) {
  const int days = waits.longest_days[12];
  if (days == 0) return "No day of the year fails.";
  if (days >= season::kDays) return "No day of the year works.";
  return "Longest wait: " + days_text(days) + ", from " + date_text(waits.longest_from_day) +
         " to " + date_text(waits.longest_from_day + days - 1) + ".";
}
}  // namespace

std::string waiting_table(const std::vector<study::WaitingTimes>& waits,
                          const std::vector<std::string>& tasks,
                          int width) {
  const std::size_t columns = table_width(width);
  std::string out = paragraph(
      "Chance in percent that at least one of several days in a row works. The first of these "
      "days is any day of the month.",
      columns);
  for (std::size_t task = 0; task < tasks.size(); ++task) {
    std::vector<TextRow> rows;
    for (std::size_t k = 1; k <= study::kMostDaysAhead; ++k) {
      TextRow row{ahead_text(k), {}};
      for (std::size_t m = 0; m < 13; ++m) {
        row.cells.push_back(chance_text(waits[task].chance[m][k - 1]));
      }
      rows.push_back(std::move(row));
    }
    TextRow longest{"longest wait", {}};
    for (std::size_t m = 0; m < 13; ++m) {
      longest.cells.push_back(std::to_string(waits[task].longest_days[m]));
    }
    rows.push_back(std::move(longest));
    out += "\n" + tasks[task] + "\n" + text_table(month_heads(), rows, columns) +
           paragraph(longest_text(waits[task]), columns);
  }
  return out + "\n" +
         paragraph(
             "Counted over the days of one year in their order, so spells of weather are those of "
             "the weather file; another year has other spells. The longest wait is the number of "
             "days from a day of the month to the next day that works.",
             columns);
}

std::string waiting_svg(const study::WaitingTimes& waits, const std::string& task) {
  Matrix matrix;
  matrix.label = task + ": chance that one of the next days works";
  matrix.corner = "Works on";
  matrix.columns = month_heads();
  matrix.least = "never";
  matrix.most = "always; numbers are percent";
  for (std::size_t k = 1; k <= study::kMostDaysAhead; ++k) {
    MatrixRow row;
    row.name = ahead_text(k);
    for (std::size_t m = 0; m < 13; ++m) {
      const double chance = waits.chance[m][k - 1];
      row.cells.push_back(
          {chance_text(chance),
           chance,
           matrix.columns[m] + ", " + row.name + ": " + chance_text(chance) + " in 100"});
    }
    matrix.rows.push_back(std::move(row));
  }
  return matrix_picture(matrix).file(task + ": chance that one of the next days works. " +
                                     longest_text(waits));
}
}  // namespace ovendays::report
