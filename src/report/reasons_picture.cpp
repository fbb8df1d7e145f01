// SPDX-License-Identifier: MIT
#include "axes.h"
#include "pictures.h"

namespace ovendays::report {
namespace {
// Width of a bar; a letter and two digits must fit.
constexpr double kReasonBar = 20;

void draw_reasons(Drawing& d, const Axes& axes, const season::TaskCounts& counts, int month) {
  const auto m = static_cast<std::size_t>(month - 1);
  const double column = axes.width / 12.0;
  const double x = axes.left + (month - 0.5) * column - kReasonBar / 2;
  int below = 0;
  for (const CauseWord& word : cause_words()) {
    const auto cause = static_cast<std::size_t>(word.cause);
    const int days = counts.causes[m][cause];
    if (days == 0) continue;
    const double top = axes.y(below + days);
    const double height = axes.y(below) - top;
    // A bar shows the letter if it is high enough, and also the days if there is room for both.
    const std::string letters = "small k" + std::to_string(cause);
    d.open(std::string(base::month_name(month)) + ", " + word.heading + ": " + days_text(days));
    d.box({x, top, kReasonBar, height}, "cut c" + std::to_string(cause));
    if (height >= 9)
      d.text({x + kReasonBar / 2, top + height / 2 + 3.3, "middle", letters.c_str()},
             std::string(1, word.letter) + (height >= 12 ? std::to_string(days) : ""));
    d.close();
    below += days;
  }
  if (below > 0)
    d.text({x + kReasonBar / 2, axes.y(below) - 3, "middle", "small"}, std::to_string(below));
}

// Causes without lost days are left out of the key.
double draw_reason_keys(Drawing& d, const season::TaskCounts& counts, double left, double y) {
  double x = left;
  for (const CauseWord& word : cause_words()) {
    const auto cause = static_cast<std::size_t>(word.cause);
    if (counts.causes[12][cause] == 0) continue;
    const std::string words =
        std::string(word.heading) + " " + std::to_string(counts.causes[12][cause]);
    const double width = 24 + 5.6 * static_cast<double>(words.size());
    if (x + width > kPhoneWidth) {
      x = left;
      y += 16;
    }
    const std::string letters = "small k" + std::to_string(cause);
    d.box({x, y, 12, 12}, "c" + std::to_string(cause), 2);
    d.text({x + 6, y + 9.3, "middle", letters.c_str()}, std::string(1, word.letter));
    d.text({x + 16, y + 9.5, "start", "small"}, words);
    x += width;
  }
  return y + 18;
}
}  // namespace

Drawing reasons_picture(const results::StoredSeason& season,
                        const SeasonSummary& summary,
                        std::size_t task) {
  const season::TaskCounts& counts = summary.counts[task];
  const int lost = season::kDays - counts.outcomes[12][0];
  Drawing d(kPhoneWidth,
            "Days lost by month, " + season.result.task_names[task] + ": " + days_text(lost) +
                " of the year");
  const Axes axes{.left = 29,
                  .top = 16,
                  .width = kPhoneWidth - 33,
                  .height = 168,
                  .x_least = 0,
                  .x_most = 12,
                  .y_least = 0,
                  .y_most = 31};
  axes.rule(d, 10);
  axes.months(d);
  if (summary.causes_known) {
    for (int month = 1; month <= 12; ++month) draw_reasons(d, axes, counts, month);
    d.set_height(draw_reason_keys(d, counts, axes.left, axes.bottom() + 22));
  } else {
    d.text({kPhoneWidth / 2, 100, "middle", "soft"}, "This run did not look for causes.");
    d.set_height(axes.bottom() + 22);
  }
  return d;
}
}  // namespace ovendays::report
