// SPDX-License-Identifier: MIT
#include "html.h"

#include "palette.h"
#include "words.h"

namespace ovendays::report {
namespace {
constexpr const char* kPageStyle = R"css(
:root { color-scheme: light dark; }
@media print { :root { color-scheme: light; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 60rem; padding: 1.2rem 1rem 3rem; background: var(--paper);
  color: var(--ink); font: 1rem/1.5 system-ui, "Segoe UI", "DejaVu Sans", sans-serif;
  overflow-wrap: break-word; }
h1 { font-size: 1.45rem; line-height: 1.3; margin: .2rem 0 .7rem; text-wrap: balance; }
h2 { font-size: 1.2rem; margin: 2.2rem 0 .4rem; }
h3 { font-size: 1rem; margin: .2rem 0; }
p { margin: .4rem 0; max-width: 46rem; }
.soft, figcaption, th { color: var(--soft); font-size: .9rem; }
figure { margin: 0; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
.pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(19rem, 100%), 1fr));
  gap: 1.2rem 1.6rem; margin: .8rem 0; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th { font-weight: 600; text-align: right; }
td { text-align: right; }
th, td { padding: .35rem .45rem; }
th:first-child, td:first-child { text-align: left; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .25rem 1rem; margin: .4rem 0; }
dt { color: var(--soft); }
dd { margin: 0; min-width: 0; overflow-wrap: anywhere; }
@media screen and (max-width: 34rem) {
  dl { grid-template-columns: 1fr; }
  dd { margin-bottom: .5rem; }
}
@media screen and (max-width: 34rem) { h1 { font-size: 1.2rem; } }
.times { grid-template-columns: max-content 1fr; }
.times dd { margin: 0; }
li { margin: .35rem 0; max-width: 46rem; }
ul { padding-left: 1.3rem; }
pre { white-space: pre-wrap; background: var(--band); padding: .8rem; border-radius: 6px;
  font-size: .78rem; line-height: 1.4; }
summary { cursor: pointer; }
@page { margin: 14mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 9pt; background: none; }
  h2, h3 { break-after: avoid; }
  details { display: none; }
  .pair { gap: .6rem 1rem; }
  svg, td { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
)css";
}  // namespace

void Html::element(const std::string& tag, const std::string& text) {
  const std::string name = tag.substr(0, tag.find(' '));
  out_ += "<" + tag + ">" + escaped(text) + "</" + name + ">\n";
}

void Html::list(const std::vector<std::string>& texts) {
  raw("<ul>");
  for (const std::string& text : texts) element("li", text);
  raw("</ul>");
}

void Html::pair(const std::string& term, const std::string& text) {
  element("dt", term);
  element("dd", text);
}

void Html::figure(const std::string& heading, const Drawing& drawing, const std::string& note) {
  raw("<figure>");
  element("h3", heading);
  raw(drawing.inlined());
  if (!note.empty()) element("figcaption", note);
  raw("</figure>");
}

std::string whole_page(const PageText& text) {
  Html page;
  page.raw("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">");
  page.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">");
  page.element("title", text.title);
  page.raw("<style>" + palette_css(":root") + kPageStyle + picture_style() + text.more_style +
           "</style>\n</head>\n<body>");
  page.raw(text.body + "</body>\n</html>");
  return page.take();
}
}  // namespace ovendays::report
