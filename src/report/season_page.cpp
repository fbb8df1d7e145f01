// SPDX-License-Identifier: MIT
#include <filesystem>

#include "months_picture.h"
#include "ovendays/base/calendar.h"

namespace ovendays::report {
namespace {
constexpr const char* kStyle = R"css(
:root { color-scheme: light dark; --ink: #2b1d16; --soft: #5d4c40; --paper: #fffdf8;
  --line: #e2d6c3; --band: #f8f1e4; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #f2e9dc; --soft: #bfae9c; --paper: #1d1713; --line: #46392f; --band: #28201a; } }
@media print { :root { --ink: #000; --soft: #333; --paper: #fff; --line: #bbb; --band: #fff; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 62rem; padding: 1.2rem 1rem 3rem; background: var(--paper);
  color: var(--ink); font: 1rem/1.5 system-ui, "Segoe UI", "DejaVu Sans", sans-serif; }
h1 { font-size: 1.5rem; line-height: 1.25; margin: 0 0 .6rem; text-wrap: balance; }
h2 { font-size: 1.15rem; margin: 2rem 0 .5rem; }
p { margin: .4rem 0; max-width: 46rem; }
.soft { color: var(--soft); font-size: .92rem; }
.wide { overflow-x: auto; border: 1px solid var(--line); border-radius: 6px; }
.wide svg { display: block; width: 100%; min-width: 46rem; height: auto; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th, td { padding: .38rem .5rem; text-align: right; white-space: nowrap; }
th { font-weight: 600; color: var(--soft); font-size: .88rem; }
th:first-child, td:first-child { text-align: left; position: sticky; left: 0;
  background: var(--paper); white-space: normal; min-width: 8rem; }
tbody tr:nth-child(odd) td { background: var(--band); }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .25rem 1rem; margin: 0; }
dt { color: var(--soft); } dd { margin: 0; overflow-wrap: anywhere; }
@media (max-width: 34rem) { dl { grid-template-columns: 1fr; } dd { margin-bottom: .5rem; } }
li { margin: .35rem 0; max-width: 46rem; }
pre { overflow-x: auto; background: var(--band); padding: .8rem; border-radius: 6px;
  font-size: .82rem; line-height: 1.4; }
)css";

class Html {
 public:
  void raw(const std::string& text) { out_ += text + "\n"; }
  void element(const std::string& tag, const std::string& text) {
    const std::string name = tag.substr(0, tag.find(' '));
    out_ += "<" + tag + ">" + escaped(text) + "</" + name + ">\n";
  }
  void list(const std::vector<std::string>& texts) {
    raw("<ul>");
    for (const std::string& text : texts) element("li", text);
    raw("</ul>");
  }
  void row(const char* cell, const std::vector<std::string>& texts) {
    out_ += "<tr>";
    for (const std::string& text : texts) {
      out_ += std::string("<") + cell + ">" + escaped(text) + "</" + cell + ">";
    }
    out_ += "</tr>\n";
  }
  void open_table(const std::vector<std::string>& heads) {
    raw("<div class=\"wide\"><table>\n<thead>");
    row("th", heads);
    raw("</thead>\n<tbody>");
  }
  void close_table() { raw("</tbody>\n</table></div>"); }
  void pair(const std::string& term, const std::string& text) {
    element("dt", term);
    element("dd", text);
  }
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

void month_table(Html& page, const results::StoredSeason& season, const Facts& facts) {
  page.element("h2", "Days on which it gets done");
  std::vector<std::string> heads = {"Task"};
  for (int month = 1; month <= 12; ++month) heads.emplace_back(base::month_name(month));
  heads.emplace_back("Year");
  page.open_table(heads);
  for (std::size_t task = 0; task < facts.counts.size(); ++task) {
    std::vector<std::string> cells = {season.result.task_names[task]};
    for (const auto& month : facts.counts[task].outcomes) cells.push_back(std::to_string(month[0]));
    page.row("td", cells);
  }
  page.close_table();
}

void cook_table(Html& page,
                const results::StoredSeason& season,
                const Facts& facts,
                TemperatureUnit unit) {
  page.element("h2", "How a cook usually goes, and the days it does not");
  page.open_table({"Task", "Asks for", "Load", "Done in", "Unsafe", "Short", "No-go", "Wait"});
  for (std::size_t task = 0; task < facts.counts.size(); ++task) {
    const season::TaskCounts& c = facts.counts[task];
    page.row("td",
             {season.result.task_names[task],
              task_asks(season.tasks[task], unit),
              window_text(c),
              duration_text(c.usual_duration_s),
              std::to_string(c.outcomes[12][1]),
              std::to_string(c.outcomes[12][2]),
              std::to_string(c.outcomes[12][3]),
              days_text(c.longest_wait_days)});
  }
  page.close_table();
  page.element("p class=\"soft\"",
               "Load between these times; medians over the days it gets done, local standard time "
               "all year. Unsafe: hot "
               "enough, but too slowly by the rule below. Short: not hot enough in time. No-go: "
               "the oven stayed in. Wait: longest run of days without it.");
}

void cause_table(Html& page, const results::StoredSeason& season, const Facts& facts) {
  page.element("h2", "Days lost, and to what");
  if (!facts.causes_known) return page.element("p", "The run did not look for causes.");
  std::vector<std::string> heads = {"Task"};
  std::string meanings;
  for (const CauseWord& word : cause_words()) {
    heads.emplace_back(word.heading);
    meanings += (meanings.empty() ? "" : "; ") + std::string(word.heading) + ": " + word.meaning;
  }
  page.open_table(heads);
  for (std::size_t task = 0; task < facts.counts.size(); ++task) {
    std::vector<std::string> cells = {season.result.task_names[task]};
    for (const CauseWord& word : cause_words()) {
      const auto cause = static_cast<std::size_t>(word.cause);
      cells.push_back(std::to_string(facts.counts[task].causes[12][cause]));
    }
    page.row("td", cells);
  }
  page.close_table();
  page.element("p class=\"soft\"", meanings + ".");
}

void inputs(Html& page, const results::StoredSeason& season) {
  page.element("h2", "What it was made from");
  page.raw("<dl>");
  page.pair("Program", "ovendays " + season.program_version);
  page.pair("Case", std::filesystem::path(season.case_file).filename().string());
  page.pair("Case SHA-256", season.case_sha256);
  page.pair("Weather", std::filesystem::path(season.weather.file).filename().string());
  if (!season.weather.sha256.empty()) page.pair("Weather SHA-256", season.weather.sha256);
  page.raw("</dl>\n<details><summary>The case as it was read</summary>");
  page.element("pre", season.case_text);
  page.raw("</details>");
}
}  // namespace

std::string season_page(const results::StoredSeason& season, const ReportOptions& options) {
  const Facts facts = gather(season, options.unit);
  Html page;
  page.raw("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">");
  page.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">");
  page.element("title", season.result.spot_name + ", " + season.result.site_name + ": a season");
  page.raw(std::string("<style>") + kStyle + "</style>\n</head>\n<body>");
  page.element("h1", facts.headline);
  page.raw("<dl>");
  page.pair("Site", facts.where);
  page.pair("Oven", facts.oven + "; " + facts.boiling);
  page.pair("Weather", facts.weather);
  page.pair("Sun", facts.sun);
  page.pair("Hottest", facts.hottest);
  page.raw("</dl>\n<h2>The year at a glance</h2>\n<div class=\"wide\">");
  page.raw(months_picture(season, facts, Title::kLeftOut) + "</div>");
  month_table(page, season, facts);
  cook_table(page, season, facts, options.unit);
  cause_table(page, season, facts);
  page.element("h2", "Cautions");
  page.list(facts.cautions);
  if (!facts.notes.empty()) {
    page.element("h2", "Notes");
    page.list(facts.notes);
  }
  page.element("h2", "Energy bookkeeping");
  page.element("p", facts.audit + ".");
  inputs(page, season);
  page.raw("</body>\n</html>");
  return page.take();
}
}  // namespace ovendays::report
