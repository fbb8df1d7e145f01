// SPDX-License-Identifier: MIT
#include <algorithm>

#include "ovendays/base/calendar.h"
#include "ovendays/study/waiting.h"
#include "season_summary.h"
#include "text_table.h"

namespace ovendays::report {
namespace {
constexpr std::size_t kMonthColumn = 4;
constexpr std::size_t kYearColumn = 6;
constexpr std::size_t kRangeColumn = 8;

// Nine causes stand closer together than eight.
std::size_t column_of(const CauseWord& word, std::size_t causes) {
  return std::string_view(word.heading).size() + (causes < cause_words().size() ? 2 : 1);
}

// Lays out the season's table. All sections share a first column of task names, which wraps names
// that are too long.
class Page {
 public:
  Page(const results::StoredSeason& season, const SeasonSummary& summary, std::size_t width)
      : season_(season), summary_(summary), width_(width) {
    std::size_t most =
        width_ - 12 * kMonthColumn - kYearColumn - (has_ranges(season) ? kRangeColumn : 0);
    std::size_t causes = 0;
    const std::vector<CauseWord> shown = causes_shown();
    for (const CauseWord& word : shown) causes += column_of(word, shown.size());
    most = std::min(most, width_ - causes);
    for (const std::string& name : season.result.task_names) {
      name_width_ = std::max(name_width_, columns_of(name));
    }
    name_width_ = std::min(name_width_, most);
  }

  void paragraph(const std::string& label, const std::string& text) {
    const std::size_t indent = label.empty() ? 0 : kLabel;
    std::string start = pad_right(label, indent);
    for (const std::string& line : wrap(text, width_ - indent)) {
      out_ += start + line + "\n";
      start = std::string(indent, ' ');
    }
  }
  void gap() { out_ += "\n"; }
  void heading(const std::string& text) { out_ += "\n" + text + "\n"; }
  void items(const std::vector<std::string>& texts) {
    for (const std::string& text : texts) {
      const char* start = "- ";
      for (const std::string& line : wrap(text, width_ - 2)) {
        out_ += start + line + "\n";
        start = "  ";
      }
    }
  }
  /// A table row: a name, then right-aligned cells in columns of the given widths.
  void row(const std::string& name,
           const std::vector<std::string>& cells,
           const std::vector<std::size_t>& widths) {
    // Further lines of a long name are indented by two columns.
    const std::vector<std::string> names = columns_of(name) <= name_width_
                                               ? std::vector<std::string>{name}
                                               : wrap(name, name_width_ - 2);
    std::string line = pad_right(shortened(names[0], name_width_), name_width_);
    for (std::size_t i = 0; i < cells.size(); ++i) line += pad_left(cells[i], widths[i]);
    out_ += line + "\n";
    for (std::size_t i = 1; i < names.size(); ++i) {
      out_ += "  " + shortened(names[i], name_width_ - 2) + "\n";
    }
  }

  void months();
  void plan();
  void lost_days();
  void causes();
  [[nodiscard]] std::vector<CauseWord> causes_shown() const;
  void waits();
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  static constexpr std::size_t kLabel = 9;
  const results::StoredSeason& season_;
  const SeasonSummary& summary_;
  std::size_t width_;
  std::size_t name_width_ = 6;
  std::string out_;
};

std::string count_text(int count) { return count == 0 ? "-" : std::to_string(count); }

std::vector<std::size_t> month_widths() {
  std::vector<std::size_t> widths(12, kMonthColumn);
  widths.push_back(kYearColumn);
  return widths;
}

void Page::months() {
  heading("Days on which each task gets done");
  const bool ranges = has_ranges(season_);
  std::vector<std::size_t> widths = month_widths();
  std::vector<std::string> cells = month_heads();
  if (ranges) {
    widths.push_back(kRangeColumn);
    cells.emplace_back("likely");
  }
  row("", cells, widths);
  for (std::size_t task = 0; task < summary_.counts.size(); ++task) {
    for (std::size_t month = 0; month < 13; ++month) {
      cells[month] = count_text(summary_.counts[task].outcomes[month][0]);
    }
    if (ranges) cells.back() = range_text(season_.tasks[task]);
    row(season_.result.task_names[task], cells, widths);
  }
  if (ranges) paragraph("", range_note(season_));
}

void Page::plan() {
  const bool ranges = has_ranges(season_);
  heading(ranges ? "When to load, and the time to plan for" : "When to load");
  if (ranges) {
    const std::vector<std::size_t> widths = {13, 11, 12, 14};
    row("", {"load from-to", "loaded at", "done in", "slow end"}, widths);
    for (std::size_t task = 0; task < summary_.counts.size(); ++task) {
      const results::StoredTask& t = season_.tasks[task];
      row(season_.result.task_names[task],
          {window_text(summary_.counts[task]),
           clock_or_dash(t.done_in_s < 0 ? -1 : t.typical_load_s),
           duration_text(t.done_in_s),
           duration_text(t.slow_s)},
          widths);
    }
    return paragraph("",
                     "load from-to: the usual first and last loading time that works; done in: "
                     "from loading at the time beside it, in the middle of all draws and days; "
                     "slow end: one time in five it takes longer.");
  }
  const std::vector<std::size_t> widths = {13, 12};
  row("", {"load from-to", "at best"}, widths);
  for (std::size_t task = 0; task < summary_.counts.size(); ++task) {
    const season::TaskCounts& c = summary_.counts[task];
    row(season_.result.task_names[task],
        {window_text(c), duration_text(c.usual_duration_s)},
        widths);
  }
  paragraph("",
            "at best: from loading to done when loaded at the quickest time of the day, the middle "
            "of all days; at other times it takes longer.");
}

void Page::lost_days() {
  heading("Days without success");
  const std::vector<std::size_t> widths = {8, 7, 7, 7};
  row("", {"unsafe", "short", "no-go", "wait"}, widths);
  for (std::size_t task = 0; task < summary_.counts.size(); ++task) {
    const season::TaskCounts& c = summary_.counts[task];
    row(season_.result.task_names[task],
        {count_text(c.outcomes[12][1]),
         count_text(c.outcomes[12][2]),
         count_text(c.outcomes[12][3]),
         count_text(c.longest_wait_days)},
        widths);
  }
  paragraph(
      "",
      "unsafe: hot enough, but slower than the safety rule below allows; short: not hot enough, or "
      "not for long enough, in time; no-go: the oven stays indoors (wind, rain, nobody home); "
      "wait: "
      "longest run of days without success.");
}

void Page::waits() {
  heading("Chance in percent that at least one of three days in a row works");
  const std::vector<std::size_t> widths = month_widths();
  std::vector<std::string> cells = month_heads();
  row("", cells, widths);
  constexpr std::size_t kDaysAhead = 3;
  for (std::size_t task = 0; task < summary_.counts.size(); ++task) {
    const study::WaitingTimes waits =
        study::waiting_times(study::days_cooked(season_.result, task));
    for (std::size_t month = 0; month < 13; ++month) {
      cells[month] = chance_text(waits.chance[month][kDaysAhead - 1]);
    }
    row(season_.result.task_names[task], cells, widths);
  }
  paragraph("",
            "The first of the three days is any day of the month. For one to seven days and the "
            "longest wait, run: ovendays wait.");
}

// Most ovens have no trouble with tilt, so its column comes only where a day was lost to it.
std::vector<CauseWord> Page::causes_shown() const {
  constexpr auto kTilt = static_cast<std::size_t>(season::Cause::kTilt);
  const bool tilt =
      std::any_of(summary_.counts.begin(), summary_.counts.end(), [](const season::TaskCounts& c) {
        return c.causes[12][kTilt] > 0;
      });
  std::vector<CauseWord> shown;
  for (const CauseWord& word : cause_words()) {
    if (tilt || word.cause != season::Cause::kTilt) shown.push_back(word);
  }
  return shown;
}

void Page::causes() {
  heading("Days lost, by cause");
  if (!summary_.causes_known) return paragraph("", "This run did not look for causes.");
  const std::vector<CauseWord> shown = causes_shown();
  std::vector<std::size_t> widths;
  std::vector<std::string> cells;
  std::string meanings;
  for (const CauseWord& word : shown) {
    cells.emplace_back(word.heading);
    widths.push_back(column_of(word, shown.size()));
    meanings += (meanings.empty() ? "" : "; ") + std::string(word.heading) + ": " + word.meaning;
  }
  row("", cells, widths);
  for (std::size_t task = 0; task < summary_.counts.size(); ++task) {
    std::size_t column = 0;
    for (const CauseWord& word : shown) {
      const auto cause = static_cast<std::size_t>(word.cause);
      cells[column++] = count_text(summary_.counts[task].causes[12][cause]);
    }
    row(season_.result.task_names[task], cells, widths);
  }
  paragraph("", meanings + ".");
}
}  // namespace

std::string season_table(const results::StoredSeason& season, const ReportOptions& options) {
  const SeasonSummary summary = summarize(season, options.unit);
  const std::size_t width = table_width(options.width);
  Page page(season, summary, width);
  page.paragraph("", summary.headline);
  page.gap();
  page.paragraph("Site", summary.where);
  page.paragraph("Oven", summary.oven + "; " + summary.boiling);
  page.paragraph("Weather", summary.weather);
  page.paragraph("Sun", summary.sun);
  page.paragraph("Hottest", summary.hottest);
  page.months();
  page.plan();
  page.lost_days();
  page.waits();
  page.causes();
  if (!summary.notes.empty()) {
    page.heading("Notes");
    page.items(summary.notes);
  }
  page.heading("Energy balance");
  page.paragraph("", summary.audit + ".");
  page.heading("Cautions");
  page.items(summary.cautions);
  return page.take();
}
}  // namespace ovendays::report
