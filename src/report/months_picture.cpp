// SPDX-License-Identifier: MIT
#include <algorithm>

#include "ovendays/base/calendar.h"
#include "palette.h"
#include "pictures.h"

namespace ovendays::report {
namespace {
constexpr double kMonthsMargin = 24, kMonthsNames = 200, kCell = 46, kMonthsRow = 36,
                 kMonthsGap = 3, kYear = 106;
constexpr double kMonthsWidth = 2 * kMonthsMargin + kMonthsNames + 12 * kCell + 14 + kYear;
constexpr std::size_t kMonthsNameColumns = 28;

double month_column_x(int month) { return kMonthsMargin + kMonthsNames + (month - 1) * kCell; }

// A long name takes two lines of the row; what does not fit even then is in the hint.
void draw_task_name(Drawing& d, const std::string& name, double baseline) {
  const std::vector<std::string> lines = wrap(name, kMonthsNameColumns);
  d.open(name);
  if (lines.size() == 1) {
    d.text({kMonthsMargin, baseline, "start", "wide"}, shortened(name, kMonthsNameColumns));
  } else {
    std::string rest = lines[1];
    for (std::size_t i = 2; i < lines.size(); ++i) rest += " " + lines[i];
    d.text({kMonthsMargin, baseline - 8, "start", "wide"}, shortened(lines[0], kMonthsNameColumns));
    d.text({kMonthsMargin, baseline + 8, "start", "wide"}, shortened(rest, kMonthsNameColumns));
  }
  d.close();
}

// The bar shows the year's days as a share of all days, the line across it the likely range.
void draw_year(
    Drawing& d, const std::string& name, int days, const season::TaskRange& range, double y) {
  const double x = month_column_x(13) + 14;
  const double room = kYear - 36;
  d.open(name + ": " + days_text(days) + " of the year" +
         (range.draws > 0 ? ", likely " + range_text(range) : ""));
  d.box({x, y + 8, room, kMonthsRow - kMonthsGap - 16}, "band", 3);
  if (days > 0)
    d.box({x, y + 8, std::max(2.0, room * days / season::kDays), kMonthsRow - kMonthsGap - 16},
          "done",
          3);
  if (range.draws > 0) {
    const double middle = y + 0.5 * (kMonthsRow - kMonthsGap);
    const double from = x + room * range.low_days / season::kDays;
    const double to = x + room * range.high_days / season::kDays;
    d.line(from, middle, to, middle, "path");
    d.line(from, middle - 5, from, middle + 5, "path");
    d.line(to, middle - 5, to, middle + 5, "path");
  }
  d.text({kMonthsWidth - kMonthsMargin, y + kMonthsRow / 2 + 3, "end", "wide strong"},
         std::to_string(days));
  d.close();
}

void draw_task(Drawing& d,
               const std::string& name,
               const season::TaskCounts& counts,
               const season::TaskRange& range,
               double y) {
  const double baseline = y + kMonthsRow / 2 + 3;
  draw_task_name(d, name, baseline);
  for (int month = 1; month <= 12; ++month) {
    const int days = counts.outcomes[static_cast<std::size_t>(month - 1)][0];
    const int of = base::days_in_month(2001, month);
    const std::string step = std::to_string(step_of(static_cast<double>(days) / of));
    const std::string letters = "wide t" + step;
    d.open(name + ", " + base::month_name(month) + ": " + std::to_string(days) + " of " +
           days_text(of));
    d.box({month_column_x(month), y, kCell - kMonthsGap, kMonthsRow - kMonthsGap}, "s" + step, 3);
    d.text({month_column_x(month) + (kCell - kMonthsGap) / 2, baseline, "middle", letters.c_str()},
           std::to_string(days));
    d.close();
  }
  draw_year(d, name, counts.outcomes[12][0], range, y);
}

void draw_months_scale(Drawing& d, double y) {
  constexpr double kStep = 15;
  const double x = month_column_x(1) + 52;
  for (std::size_t i = 0; i < kSteps; ++i) {
    d.box({x + static_cast<double>(i) * kStep, y, kStep, 11}, "s" + std::to_string(i));
  }
  d.text({month_column_x(1), y + 9.5, "start", "wide soft"}, "no day");
  d.text({x + kSteps * kStep + 8, y + 9.5, "start", "wide soft"}, "every day of the month");
}
}  // namespace

Drawing months_picture(const results::StoredSeason& season, const SeasonSummary& summary) {
  Drawing d(kMonthsWidth, summary.headline);
  double y = 18;
  d.text({kMonthsMargin, y, "start", "wide soft"}, "Days it gets done");
  for (int month = 1; month <= 12; ++month) {
    d.text({month_column_x(month) + (kCell - kMonthsGap) / 2, y, "middle", "wide soft"},
           base::month_name(month));
  }
  d.text({kMonthsWidth - kMonthsMargin, y, "end", "wide soft"}, "year");
  y += 8;
  for (std::size_t task = 0; task < summary.counts.size(); ++task) {
    draw_task(d, season.result.task_names[task], summary.counts[task], season.tasks[task], y);
    y += kMonthsRow;
  }
  draw_months_scale(d, y + 8);
  d.set_height(y + 8 + 12 + 12);
  return d;
}
}  // namespace ovendays::report
