// SPDX-License-Identifier: MIT
#include "ovendays/base/calendar.h"
#include "pictures.h"

namespace ovendays::report {
namespace {
constexpr double kCalendarLeft = 29, kCalendarTop = 18, kPitch = 10.6, kCalendarRow = 15,
                 kCellWide = 9.4, kCellHigh = 12.6;
using season::DayTask;
using season::Outcome;

// Shown where a mouse rests; the picture says the same in short.
std::string hint_of(int day_index, const DayTask& day) {
  const auto clock = [](float time_s) { return base::clock_text(static_cast<double>(time_s)); };
  std::string text = date_text(day_index) + ": " + season::outcome_name(day.outcome);
  if (day.outcome == Outcome::kCooked) {
    return text + ", load " + clock(day.load_s) + ", done " + clock(day.finish_s);
  }
  for (const CauseWord& word : cause_words()) {
    if (word.cause == day.cause) text += std::string(", ") + word.heading;
  }
  return text;
}

// The four outcomes have four shapes: full; a thick frame; a frame half filled; a thin frame.
void draw_shape(Drawing& d, double x, double y, Outcome outcome) {
  switch (outcome) {
    case Outcome::kCooked:
      d.box({x, y, kCellWide, kCellHigh}, "done", 1.5);
      break;
    case Outcome::kUnsafe:
      d.box({x + 0.7, y + 0.7, kCellWide - 1.4, kCellHigh - 1.4}, "unsafe", 1.5);
      break;
    case Outcome::kShort:
      d.box({x + 0.4, y + 0.4, kCellWide - 0.8, kCellHigh - 0.8}, "hollow", 1.5);
      d.box({x + 0.4, y + kCellHigh - 3.2, kCellWide - 0.8, 2.8}, "short");
      break;
    case Outcome::kNoGo:
      d.box({x + 0.4, y + 0.4, kCellWide - 0.8, kCellHigh - 0.8}, "hollow", 1.5);
      break;
  }
}

char letter_of(season::Cause cause) {
  for (const CauseWord& word : cause_words()) {
    if (word.cause == cause) return word.letter;
  }
  return ' ';
}

void draw_day(Drawing& d, int day_index, const DayTask& day) {
  const base::Date date = base::date_from_day_index_365(day_index);
  const double x = kCalendarLeft + (date.day - 1) * kPitch;
  const double y = kCalendarTop + (date.month - 1) * kCalendarRow;
  d.open(hint_of(day_index, day));
  draw_shape(d, x, y, day.outcome);
  const char letter = letter_of(day.cause);
  if (letter != ' ') d.text({x + kCellWide / 2, y + 8.2, "middle", "tiny"}, std::string(1, letter));
  d.close();
}

struct Key {
  Outcome outcome;
  const char* words;
  double width;
};

// Explains only the letters that occur in this calendar.
double draw_calendar_keys(Drawing& d,
                          const results::StoredSeason& season,
                          std::size_t task,
                          double y) {
  constexpr Key kKeys[] = {{Outcome::kCooked, "cooked", 68},
                           {Outcome::kUnsafe, "unsafe (too slow)", 112},
                           {Outcome::kShort, "short", 52},
                           {Outcome::kNoGo, "oven indoors", 80}};
  double x = kCalendarLeft;
  for (const Key& key : kKeys) {
    draw_shape(d, x, y, key.outcome);
    d.text({x + kCellWide + 4, y + 10, "start", "small"}, key.words);
    x += key.width;
  }
  std::array<bool, season::kCauses> seen{};
  for (int day = 0; day < season::kDays; ++day) {
    seen[static_cast<std::size_t>(season.result.at(task, day).cause)] = true;
  }
  std::string letters;
  for (const CauseWord& word : cause_words()) {
    if (!seen[static_cast<std::size_t>(word.cause)]) continue;
    letters += (letters.empty() ? "" : ", ") + std::string(1, word.letter) + " " + word.heading;
  }
  if (letters.empty()) return y + 18;
  d.text({kCalendarLeft, y + 26, "start", "small"}, "Lost to: " + letters);
  return y + 34;
}
}  // namespace

Drawing calendar_picture(const results::StoredSeason& season, std::size_t task) {
  const season::TaskCounts counts = season::count_task(season.result, task);
  Drawing d(kPhoneWidth,
            "Calendar of " + season.result.task_names[task] + ": done on " +
                days_text(counts.outcomes[12][0]) + " of the year");
  for (const int day : {1, 5, 10, 15, 20, 25, 30}) {
    d.text(
        {kCalendarLeft + (day - 1) * kPitch + kCellWide / 2, kCalendarTop - 5, "middle", "small"},
        std::to_string(day));
  }
  for (int month = 1; month <= 12; ++month) {
    d.text({kCalendarLeft - 5, kCalendarTop + (month - 1) * kCalendarRow + 10, "end", "soft"},
           base::month_name(month));
  }
  for (int day = 0; day < season::kDays; ++day) draw_day(d, day, season.result.at(task, day));
  d.set_height(draw_calendar_keys(d, season, task, kCalendarTop + 12 * kCalendarRow + 4));
  return d;
}
}  // namespace ovendays::report
