// SPDX-License-Identifier: MIT
// Builds an SVG picture. Its units are pixels of a telephone: most pictures are 360 wide and grow
// with the page. Elements have CSS classes (the parameter `kind`) instead of colours, so that one
// drawing serves light pages, dark pages and paper.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace ovendays::report {

/// Position of a text, its anchor ("start", "middle" or "end"), and its class.
struct TextPlace {
  double x, y;
  const char* anchor;
  const char* kind;
};
struct Box {
  double x, y, width, height;
};
using Polyline = std::vector<std::pair<double, double>>;
/// Width of most pictures, that of a telephone.
inline constexpr double kPhoneWidth = 360;

class Drawing {
 public:
  /// @param label what the picture shows, for screen readers
  Drawing(double width, std::string label) : width_(width), label_(std::move(label)) {}

  void text(const TextPlace& at, const std::string& words);
  void box(const Box& box, const std::string& kind, double round = 0.0);
  void line(double x1, double y1, double x2, double y2, const std::string& kind);
  void circle(double x, double y, double radius, const std::string& kind);
  /// Draws a line through the points; NaN breaks it.
  void polyline(const Polyline& points, const std::string& kind);
  void polygon(const Polyline& points, const std::string& kind);
  /// Gives a tooltip to everything drawn until close().
  void open(const std::string& hint);
  void close();
  /// Clips everything drawn until close_window() to the box.
  void open_window(const Box& box);
  void close_window();
  /// Sets the height of the picture.
  void set_height(double height) { height_ = height; }

  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double height() const { return height_; }
  /// The SVG element for a page that includes picture_style().
  [[nodiscard]] std::string inlined() const;
  /// A complete SVG file with title, style and background; narrow pictures are doubled in size.
  [[nodiscard]] std::string file(const std::string& title) const;

 private:
  [[nodiscard]] std::string framed(const std::string& attributes, const std::string& content) const;
  double width_;
  double height_ = 100.0;
  std::string label_;
  std::string body_;
};

/// CSS for inlined pictures, without the palette.
std::string picture_style();

/// A coordinate with few digits, because a picture has thousands of them.
std::string number(double value);
}  // namespace ovendays::report
