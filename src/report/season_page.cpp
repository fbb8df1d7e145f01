// SPDX-License-Identifier: MIT
#include <sstream>

#include "page_parts.h"
#include "palette.h"

namespace ovendays::report {
namespace {
constexpr const char* kSeasonStyle = R"css(
.months { table-layout: fixed; border-spacing: 2px; border-collapse: separate; margin: .6rem 0; }
.months th, .months td { padding: .3rem 0; text-align: center; }
.months .name { width: 24%; text-align: left; padding-right: .5rem; color: var(--ink);
  font-weight: 400; line-height: 1.25; }
.months td { border-radius: 4px; }
.months .year { width: 3rem; font-weight: 650; }
.months .range { width: 4.5rem; white-space: nowrap; }
@media screen and (max-width: 44rem) {
  .months, .months thead, .months tbody { display: block; }
  .months tr { display: grid; grid-template-columns: repeat(12, 1fr) 2.1rem; gap: 2px;
    margin-bottom: .5rem; }
  .months th, .months td { font-size: .8rem; width: auto !important; }
  .months .name { grid-column: 1 / -1; font-size: .95rem; padding: .1rem 0; }
  .months thead .name { display: none; }
  .months thead th { font-size: .64rem; }
}
.chooser { border: 0; padding: 0; margin: .5rem 0; min-width: 0; }
.chooser > input { position: absolute; opacity: 0; pointer-events: none; }
.chooser > label { display: inline-block; max-width: 100%; margin: 0 .35rem .45rem 0; padding: .3rem .75rem;
  border: 1px solid var(--soft); border-radius: 1rem; cursor: pointer; font-size: .92rem; }
.panel { border-top: 1px solid var(--line); padding-top: .8rem; margin-top: .3rem; }
.panel h3.task { font-size: 1.1rem; }
@media print {
  .chooser > label { display: none; }
  .panel { break-inside: avoid; margin-bottom: 1rem; }
  .panel .pair { grid-template-columns: 1fr 1fr 1fr; margin: .2rem 0; }
  .panel .pair > div { grid-column: 1 / -1; }
  .panel dl { grid-template-columns: max-content 1fr max-content 1fr; margin: 0; }
  .panel .bet { display: inline; }
}
)css";

// One line that says what was simulated.
std::string setting(const PageInput& input) {
  const season::SeasonResult& r = input.season.result;
  return "Spot: " + r.spot_name + ", " + r.site_name + ". Oven: " + r.oven_name +
         ". Simulated from one typical year of weather; real years differ by ten days or more in "
         "either direction.";
}
}  // namespace

std::string season_style(std::size_t tasks) {
  std::ostringstream css;
  css << kSeasonStyle;
  for (std::size_t i = 0; i < kSteps; ++i) {
    css << ".months .s" << i << "{background:var(--s" << i << ");color:var(--t" << i << ")}";
  }
  css << "\n";
  // On a screen only the panel of the checked radio button is visible; paper shows all panels.
  for (std::size_t task = 0; task < tasks; ++task) {
    const std::string button = "label[for=pick" + std::to_string(task) + "]";
    css << "@media screen{#pick" << task << ":not(:checked) ~ #panel" << task
        << "{display:none}}\n#pick" << task << ":checked ~ " << button
        << "{background:var(--ink);color:var(--paper);font-weight:650}\n#pick" << task
        << ":focus-visible ~ " << button << "{outline:3px solid var(--o0);outline-offset:2px}\n";
  }
  return css.str();
}

std::string season_page(const results::StoredSeason& season, const ReportOptions& options) {
  const SeasonSummary summary = summarize(season, options.unit);
  const PageInput input{season, summary, options.unit};
  Html page;
  page.element("h1", summary.headline);
  page.element("p class=\"soft\"", setting(input));
  month_table(page, input);
  task_panels(page, input);
  spot_pictures(page, input);
  small_print(page, input);
  return whole_page({season.result.spot_name + ", " + season.result.site_name + ": a season",
                     page.take(),
                     season_style(summary.counts.size())});
}
}  // namespace ovendays::report
