// SPDX-License-Identifier: MIT
#include "drawing.h"

#include <cmath>

#include "palette.h"
#include "words.h"

namespace ovendays::report {
namespace {
constexpr double kTitleLine = 17.0;
constexpr double kNarrow = 500.0;

std::string points_of(const Polyline& points) {
  std::string text;
  for (const auto& [x, y] : points) {
    text += text.empty() ? "" : " ";
    text += number(x);
    text += ',';
    text += number(y);
  }
  return text;
}
}  // namespace

std::string number(double value) {
  std::string text = fixed(value, 1);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text;
}

void Drawing::text(const TextPlace& at, const std::string& words) {
  body_ += std::string("<text class=\"") + at.kind + "\" x=\"" + number(at.x) + "\" y=\"" +
           number(at.y) + "\" text-anchor=\"" + at.anchor + "\">" + escaped(words) + "</text>\n";
}

void Drawing::box(const Box& box, const std::string& kind, double round) {
  body_ += "<rect class=\"" + kind + "\" x=\"" + number(box.x) + "\" y=\"" + number(box.y) +
           "\" width=\"" + number(box.width) + "\" height=\"" + number(box.height) + "\"";
  if (round > 0.0) body_ += " rx=\"" + number(round) + "\"";
  body_ += "/>\n";
}

void Drawing::line(double x1, double y1, double x2, double y2, const std::string& kind) {
  body_ += "<line class=\"" + kind + "\" x1=\"" + number(x1) + "\" y1=\"" + number(y1) +
           "\" x2=\"" + number(x2) + "\" y2=\"" + number(y2) + "\"/>\n";
}

void Drawing::circle(double x, double y, double radius, const std::string& kind) {
  body_ += "<circle class=\"" + kind + "\" cx=\"" + number(x) + "\" cy=\"" + number(y) + "\" r=\"" +
           number(radius) + "\"/>\n";
}

void Drawing::polyline(const Polyline& points, const std::string& kind) {
  // NaN breaks the line, for example before a cook begins.
  Polyline run;
  const auto put = [&] {
    if (run.size() > 1)
      body_ += "<polyline class=\"" + kind + "\" points=\"" + points_of(run) + "\"/>\n";
    run.clear();
  };
  for (const auto& point : points) {
    if (std::isnan(point.second)) {
      put();
    } else {
      run.push_back(point);
    }
  }
  put();
}

void Drawing::polygon(const Polyline& points, const std::string& kind) {
  body_ += "<polygon class=\"" + kind + "\" points=\"" + points_of(points) + "\"/>\n";
}

void Drawing::open(const std::string& hint) {
  body_ += "<g><title>" + escaped(hint) + "</title>\n";
}
void Drawing::close() { body_ += "</g>\n"; }

void Drawing::open_window(const Box& box) {
  const std::string x = number(box.x);
  const std::string y = number(box.y);
  const std::string size = number(box.width) + "\" height=\"" + number(box.height);
  body_ += "<svg x=\"" + x + "\" y=\"" + y + "\" width=\"" + size + "\" viewBox=\"" + x + " " + y +
           " " + number(box.width) + " " + number(box.height) + "\">\n";
}
void Drawing::close_window() { body_ += "</svg>\n"; }

std::string Drawing::framed(const std::string& attributes, const std::string& content) const {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"pic\" role=\"img\" aria-label=\"" +
         escaped(label_) + "\" " + attributes + ">\n" + content + "</svg>\n";
}

std::string Drawing::inlined() const {
  return framed("viewBox=\"0 0 " + number(width_) + " " + number(height_) + "\"", body_);
}

std::string Drawing::file(const std::string& title) const {
  // Narrow pictures, drawn for a telephone, are saved at twice their size.
  const bool wide = width_ >= kNarrow;
  const auto columns = static_cast<std::size_t>((width_ - 20.0) / (wide ? 9.6 : 7.2));
  Drawing head(width_, label_);
  double y = 22.0;
  for (const std::string& line : wrap(title, columns)) {
    head.text({wide ? 24.0 : 10.0, y, "start", wide ? "title headline" : "title"}, line);
    y += wide ? 1.3 * kTitleLine : kTitleLine;
  }
  const double top = title.empty() ? 0.0 : y - 8.0;
  const double whole = top + height_;
  const double scale = wide ? 1.0 : 2.0;
  const std::string size = "width=\"" + number(scale * width_) + "\" height=\"" +
                           number(scale * whole) + "\" viewBox=\"0 0 " + number(width_) + " " +
                           number(whole) + "\"";
  const std::string style = "<style>\n" + palette_css(".pic") + picture_style() +
                            "</style>\n<rect class=\"ground\" width=\"" + number(width_) +
                            "\" height=\"" + number(whole) + "\"/>\n";
  return framed(size,
                style + head.body_ + "<g transform=\"translate(0 " + number(top) + ")\">\n" +
                    body_ + "</g>\n");
}

namespace {
constexpr const char* kFixedStyle =
    ".pic text{font-family:system-ui,'Segoe UI','DejaVu Sans',sans-serif;font-size:11px;"
    "fill:var(--ink)}\n"
    ".pic .title{font-size:13px;font-weight:650}.pic .soft{fill:var(--soft)}\n"
    ".pic .small{font-size:9.5px;fill:var(--soft)}.pic .tiny{font-size:7.5px;fill:var(--ink)}\n"
    ".pic .wide{font-size:13px}.pic .headline{font-size:17px}\n"
    ".pic .strong{font-weight:650;fill:var(--ink)}.pic .ground{fill:var(--paper)}\n"
    ".pic .grid{stroke:var(--line);stroke-width:1;fill:none}\n"
    ".pic .axis{stroke:var(--soft);stroke-width:1;fill:none}\n"
    ".pic .edge{stroke:var(--soft);stroke-width:.8}\n"
    ".pic .cut{stroke:var(--paper);stroke-width:.6}\n"
    ".pic .band{fill:var(--band)}.pic .sun{fill:var(--sun)}.pic .shade{fill:var(--shade)}\n"
    ".pic .sky{fill:var(--sky)}.pic .ink{fill:var(--ink)}\n"
    ".pic .halo{fill:var(--paper);fill-opacity:.8}.pic .sky0{fill:var(--dome)}\n"
    ".pic .mark{stroke:var(--ink);stroke-width:1.2;stroke-dasharray:4 3;fill:none}\n"
    ".pic .done{fill:var(--o0)}.pic .unsafe{fill:none;stroke:var(--o1);stroke-width:1.6}\n"
    ".pic .short{fill:var(--o2)}.pic .hollow{fill:none;stroke:var(--o3);stroke-width:.8}\n"
    ".pic .lost{fill:var(--shade);fill-opacity:.28;stroke:var(--shade);stroke-width:1.2}\n"
    ".pic .path{fill:none;stroke:var(--ink);stroke-width:1.6;stroke-linejoin:round}\n"
    ".pic .thin{stroke-width:1}.pic .dash{stroke-dasharray:5 3}.pic .dot{stroke-dasharray:1.5 3}\n"
    ".pic text.on{fill:#1f140e}\n"
    ".pic .wall{fill:none;stroke:var(--ink);stroke-width:3;stroke-linecap:square}\n"
    ".pic .house{fill:var(--line);stroke:var(--ink);stroke-width:1.6}\n"
    ".pic .roof{fill:none;stroke:var(--ink);stroke-width:1.2;stroke-dasharray:6 4}\n"
    ".pic .crown{fill:var(--sky);fill-opacity:.25;stroke:var(--ink);stroke-width:1;"
    "stroke-dasharray:2 2}\n"
    ".pic .level{fill:none;stroke:var(--ink);stroke-width:.9;stroke-opacity:.75}\n"
    ".pic .pin{fill:var(--ink);stroke:var(--paper);stroke-width:1.2}\n"
    ".pic text.pinned{fill:var(--paper);font-weight:650}\n";

// Writes one CSS rule for each colour of a series, such as ".pic .s3{fill:var(--s3)}".
void each(std::string& css,
          const std::string& before,
          const std::string& property,
          const std::string& variable,
          std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) {
    const std::string n = std::to_string(i);
    for (const std::string& part : {before, n, "{" + property, ":var(--" + variable, n})
      css += part;
    css += ")}";
  }
  css += "\n";
}
}  // namespace

std::string picture_style() {
  std::string css = kFixedStyle;
  for (int i = 1; i <= 5; ++i) {
    css += ".pic .d" + std::to_string(i) +
           "{fill:var(--hidden);fill-opacity:" + fixed(0.05 + 0.15 * i, 2) + "}";
  }
  css += "\n";
  each(css, ".pic .s", "fill", "s", kSteps);
  each(css, ".pic text.t", "fill", "t", kSteps);
  each(css, ".pic .c", "fill", "c", season::kCauses);
  each(css, ".pic text.k", "fill", "k", season::kCauses);
  each(css, ".pic .l", "fill:none;stroke-width:1.8;stroke", "l", kLines);
  each(css, ".pic text.n", "fill", "l", kLines);
  return css;
}
}  // namespace ovendays::report
