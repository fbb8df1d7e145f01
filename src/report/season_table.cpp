// SPDX-License-Identifier: MIT
#include <algorithm>

#include "facts.h"
#include "ovendays/base/calendar.h"
#include "ovendays/study/waits.h"
#include "text_table.h"

namespace ovendays::report {
namespace {
constexpr std::size_t kMonthColumn = 4;
constexpr std::size_t kYearColumn = 6;

std::size_t column_of(const CauseWord& word) { return std::string_view(word.heading).size() + 2; }

// Lays out one report. Task names share the first column; one that does not fit it is wrapped.
class Page {
 public:
  Page(const results::StoredSeason& season, const Facts& facts, std::size_t width)
      : season_(season), facts_(facts), width_(width) {
    std::size_t most = width_ - 12 * kMonthColumn - kYearColumn;
    std::size_t causes = 0;
    for (const CauseWord& word : cause_words()) causes += column_of(word);
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
  /// A row whose first cell is a name and whose other cells stand in columns of given widths.
  void row(const std::string& name,
           const std::vector<std::string>& cells,
           const std::vector<std::size_t>& widths) {
    std::vector<std::string> names = wrap(name, name_width_);
    std::string line = pad_right(shortened(names[0], name_width_), name_width_);
    for (std::size_t i = 0; i < cells.size(); ++i) line += pad_left(cells[i], widths[i]);
    out_ += line + "\n";
    for (std::size_t i = 1; i < names.size(); ++i) {
      out_ += "  " + shortened(names[i], name_width_ - 2) + "\n";
    }
  }

  void months();
  void cooks();
  void causes();
  void waits();
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  static constexpr std::size_t kLabel = 9;
  const results::StoredSeason& season_;
  const Facts& facts_;
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
  heading("Days on which it gets done");
  const std::vector<std::size_t> widths = month_widths();
  std::vector<std::string> cells = month_heads();
  row("", cells, widths);
  for (std::size_t task = 0; task < facts_.counts.size(); ++task) {
    for (std::size_t month = 0; month < 13; ++month) {
      cells[month] = count_text(facts_.counts[task].outcomes[month][0]);
    }
    row(season_.result.task_names[task], cells, widths);
  }
}

void Page::cooks() {
  heading("How a cook usually goes, and the days it does not");
  const std::vector<std::size_t> widths = {13, 12, 8, 7, 7, 7};
  row("", {"load from-to", "done in", "unsafe", "short", "no-go", "wait"}, widths);
  for (std::size_t task = 0; task < facts_.counts.size(); ++task) {
    const season::TaskCounts& c = facts_.counts[task];
    row(season_.result.task_names[task],
        {window_text(c),
         duration_text(c.usual_duration_s),
         count_text(c.outcomes[12][1]),
         count_text(c.outcomes[12][2]),
         count_text(c.outcomes[12][3]),
         count_text(c.longest_wait_days)},
        widths);
  }
  paragraph(
      "",
      "unsafe: hot enough, but too slowly by the rule below; short: not hot enough in time; "
      "no-go: the oven stayed in (wind, rain or no time); wait: longest run of days without it.");
}

void Page::waits() {
  heading("Chance, in percent, that one of the next three days works");
  const std::vector<std::size_t> widths = month_widths();
  std::vector<std::string> cells = month_heads();
  row("", cells, widths);
  constexpr std::size_t kDaysAhead = 3;
  for (std::size_t task = 0; task < facts_.counts.size(); ++task) {
    const study::Waits waits = study::waits_of(study::days_cooked(season_.result, task));
    for (std::size_t month = 0; month < 13; ++month) {
      cells[month] = chance_text(waits.chance[month][kDaysAhead - 1]);
    }
    row(season_.result.task_names[task], cells, widths);
  }
  paragraph("",
            "For somebody who looks out on a day of the month, that day being the first. One to "
            "seven days, and the longest wait: ovendays wait.");
}

void Page::causes() {
  heading("Days lost, and to what");
  if (!facts_.causes_known) return paragraph("", "The run did not look for causes.");
  std::vector<std::size_t> widths;
  std::vector<std::string> cells;
  std::string meanings;
  for (const CauseWord& word : cause_words()) {
    cells.emplace_back(word.heading);
    widths.push_back(column_of(word));
    meanings += (meanings.empty() ? "" : "; ") + std::string(word.heading) + ": " + word.meaning;
  }
  row("", cells, widths);
  for (std::size_t task = 0; task < facts_.counts.size(); ++task) {
    std::size_t column = 0;
    for (const CauseWord& word : cause_words()) {
      const auto cause = static_cast<std::size_t>(word.cause);
      cells[column++] = count_text(facts_.counts[task].causes[12][cause]);
    }
    row(season_.result.task_names[task], cells, widths);
  }
  paragraph("", meanings + ".");
}
}  // namespace

std::string season_table(const results::StoredSeason& season, const ReportOptions& options) {
  const Facts facts = gather(season, options.unit);
  const std::size_t width = table_width(options.width);
  Page page(season, facts, width);
  page.paragraph("", facts.headline);
  page.gap();
  page.paragraph("Site", facts.where);
  page.paragraph("Oven", facts.oven + "; " + facts.boiling);
  page.paragraph("Weather", facts.weather);
  page.paragraph("Sun", facts.sun);
  page.paragraph("Hottest", facts.hottest);
  page.months();
  page.cooks();
  page.waits();
  page.causes();
  if (!facts.notes.empty()) {
    page.heading("Notes");
    page.items(facts.notes);
  }
  page.heading("Energy bookkeeping");
  page.paragraph("", facts.audit + ".");
  page.heading("Cautions");
  page.items(facts.cautions);
  return page.take();
}
}  // namespace ovendays::report
