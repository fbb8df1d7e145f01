// SPDX-License-Identifier: MIT
// A picture in SVG, drawn in its own units, which are pixels on a telephone: most pictures are 360
// wide and grow with the page. Colours come from the palette by class, so that one drawing serves
// light, dark and paper.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace ovendays::report {

/// Where a text stands: its anchor "start", "middle" or "end", and its class.
struct Spot2 {
  double x, y;
  const char* anchor;
  const char* kind;
};
struct Box {
  double x, y, width, height;
};
using Polyline = std::vector<std::pair<double, double>>;
/// Most pictures are as wide as a telephone.
inline constexpr double kPhoneWidth = 360;

class Drawing {
 public:
  /// @param label what the picture shows, read out by a screen reader
  Drawing(double width, std::string label) : width_(width), label_(std::move(label)) {}

  void text(const Spot2& at, const std::string& words);
  void box(const Box& box, const std::string& kind, double round = 0.0);
  void line(double x1, double y1, double x2, double y2, const std::string& kind);
  void circle(double x, double y, double radius, const std::string& kind);
  /// Points joined; a NaN breaks the line.
  void polyline(const Polyline& points, const std::string& kind);
  void polygon(const Polyline& points, const std::string& kind);
  /// Everything up to close() is told by `hint` when pointed at.
  void open(const std::string& hint);
  void close();
  /// What is drawn up to close_window() is cut off at the box's edges.
  void open_window(const Box& box);
  void close_window();
  /// The picture's height, once it is known.
  void set_height(double height) { height_ = height; }

  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double height() const { return height_; }
  /// For a page that has picture_style() already.
  [[nodiscard]] std::string inlined() const;
  /// A file of its own: with a title, the style and a ground, twice the size where it is narrow.
  [[nodiscard]] std::string file(const std::string& title) const;

 private:
  [[nodiscard]] std::string framed(const std::string& attributes, const std::string& content) const;
  double width_;
  double height_ = 100.0;
  std::string label_;
  std::string body_;
};

/// The rules that a page with inlined pictures needs, palette not included.
std::string picture_style();

/// "M0.0 ..": numbers short enough for thousands of them.
std::string number(double value);
}  // namespace ovendays::report
