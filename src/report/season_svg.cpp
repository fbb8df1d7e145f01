// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "months_picture.h"
#include "ovendays/base/calendar.h"

namespace ovendays::report {
namespace {
// Sizes in the picture's own units (pixels at full size).
constexpr double kMargin = 28, kNames = 190, kCell = 48, kRow = 38, kGap = 3, kYear = 108;
constexpr double kWidth = 2 * kMargin + kNames + 12 * kCell + 14 + kYear;
constexpr std::size_t kNameColumns = 24, kTitleColumns = 76, kPlaceColumns = 120;

constexpr int kSteps = 24;  // of the scale's own picture
constexpr double kStep = 7;

using Colour = std::array<double, 3>;
// Our own scale from paper to dark umber. Lightness falls all the way, so that it reads the same
// with any colour vision and in grey.
constexpr std::array<Colour, 5> kScale = {
    {{250, 244, 232}, {246, 214, 150}, {230, 158, 76}, {176, 88, 38}, {92, 38, 26}}};

Colour colour_of(double share) {
  const double at = std::clamp(share, 0.0, 1.0) * (kScale.size() - 1);
  const auto low = std::min(static_cast<std::size_t>(at), kScale.size() - 2);
  const double part = at - static_cast<double>(low);
  Colour colour{};
  for (std::size_t i = 0; i < 3; ++i) {
    colour[i] = kScale[low][i] + part * (kScale[low + 1][i] - kScale[low][i]);
  }
  return colour;
}

std::string hex(const Colour& colour) {
  char text[8];
  std::snprintf(text,
                sizeof text,
                "#%02x%02x%02x",
                static_cast<unsigned>(std::lround(colour[0])) & 0xFFU,
                static_cast<unsigned>(std::lround(colour[1])) & 0xFFU,
                static_cast<unsigned>(std::lround(colour[2])) & 0xFFU);
  return text;
}

// Relative luminance, WCAG 2.1.
double luminance(const Colour& colour) {
  const auto linear = [](double value) {
    const double share = value / 255.0;
    return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour[0]) + 0.7152 * linear(colour[1]) + 0.0722 * linear(colour[2]);
}

// Ink or white, whichever contrasts more: at 0.207 both contrasts are 4.1.
const char* letters_on(const Colour& colour) {
  return luminance(colour) > 0.207 ? "#2b1d16" : "#fff";
}

struct Text {
  double x, y;
  const char* kind;  // class
  const char* anchor;
};

class Picture {
 public:
  void text(const Text& at, const std::string& words, const char* fill = nullptr) {
    put("<text class=\"", at.kind);
    put("\" x=\"", fixed(at.x, 1));
    put("\" y=\"", fixed(at.y, 1));
    put("\" text-anchor=\"", at.anchor);
    if (fill != nullptr) put("\" style=\"fill:", fill);
    put("\">", escaped(words));
    out_ += "</text>\n";
  }
  void box(
      double x, double y, double width, double height, const std::string& fill, int round = 3) {
    out_ += "<rect x=\"" + fixed(x, 1) + "\" y=\"" + fixed(y, 1) + "\" width=\"" + fixed(width, 1) +
            "\" height=\"" + fixed(height, 1) + "\" rx=\"" + std::to_string(round) + "\" fill=\"" +
            fill + "\"/>\n";
  }
  void open(const std::string& hint) { out_ += "<g><title>" + escaped(hint) + "</title>\n"; }
  void close() { out_ += "</g>\n"; }
  [[nodiscard]] const std::string& body() const { return out_; }

 private:
  void put(const char* before, const std::string& value) {
    out_ += before;
    out_ += value;
  }
  std::string out_;
};

double column_x(int month) { return kMargin + kNames + (month - 1) * kCell; }

// A long name takes two lines of the row; what does not fit even then is in the hint.
void draw_name(Picture& p, const std::string& name, double baseline) {
  const std::vector<std::string> lines = wrap(name, kNameColumns);
  p.open(name);
  if (lines.size() == 1) {
    p.text({kMargin, baseline, "name", "start"}, shortened(name, kNameColumns));
  } else {
    std::string rest = lines[1];
    for (std::size_t i = 2; i < lines.size(); ++i) rest += " " + lines[i];
    p.text({kMargin, baseline - 9, "name", "start"}, shortened(lines[0], kNameColumns));
    p.text({kMargin, baseline + 8, "name", "start"}, shortened(rest, kNameColumns));
  }
  p.close();
}

void draw_task(Picture& p, const std::string& name, const season::TaskCounts& counts, double y) {
  const double baseline = y + kRow / 2 + 5;
  draw_name(p, name, baseline);
  for (int month = 1; month <= 12; ++month) {
    const int days = counts.outcomes[static_cast<std::size_t>(month - 1)][0];
    const int of = base::days_in_month(2001, month);
    const Colour colour = colour_of(static_cast<double>(days) / of);
    p.open(name + ", " + base::month_name(month) + ": " + std::to_string(days) + " of " +
           days_text(of));
    p.box(column_x(month), y, kCell - kGap, kRow - kGap, hex(colour));
    p.text({column_x(month) + (kCell - kGap) / 2, baseline - 1, "count", "middle"},
           std::to_string(days),
           letters_on(colour));
    p.close();
  }
  const int year = counts.outcomes[12][0];
  const double x = column_x(13) + 14;
  const double room = kYear - 40;
  p.open(name + ": " + days_text(year) + " of the year");
  p.box(x, y + 8, room, kRow - kGap - 16, "#f1e7d6");
  if (year > 0)
    p.box(x, y + 8, std::max(2.0, room * year / season::kDays), kRow - kGap - 16, "#8a4526");
  p.text({kWidth - kMargin, baseline - 1, "count strong", "end"}, std::to_string(year));
  p.close();
}

void draw_scale(Picture& p, double y) {
  const double x = column_x(1) + 52;
  for (int i = 0; i < kSteps; ++i) {
    p.box(x + i * kStep, y, kStep + 0.5, 12, hex(colour_of(i / (kSteps - 1.0))), 0);
  }
  p.text({column_x(1), y + 10.5, "small", "start"}, "no day");
  p.text({x + kSteps * kStep + 8, y + 10.5, "small", "start"}, "every day of the month");
}

std::string frame(double height, const std::string& label, const std::string& body) {
  const std::string size = fixed(kWidth, 0) + "\" height=\"" + fixed(height, 0);
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + size + "\" viewBox=\"0 0 " +
         fixed(kWidth, 0) + " " + fixed(height, 0) +
         "\" class=\"season-months\" role=\"img\" aria-label=\"" + escaped(label) +
         "\">\n<style>\n"
         ".season-months text { font-family: system-ui, 'Segoe UI', 'DejaVu Sans', sans-serif; }\n"
         ".season-months .title { font-size: 20px; font-weight: 650; fill: #2b1d16; }\n"
         ".season-months .sub { font-size: 14px; fill: #5d4c40; }\n"
         ".season-months .name { font-size: 14.5px; fill: #2b1d16; }\n"
         ".season-months .head { font-size: 13px; fill: #5d4c40; }\n"
         ".season-months .count { font-size: 14px; fill: #2b1d16; }\n"
         ".season-months .strong { font-weight: 650; }\n"
         ".season-months .small { font-size: 12px; fill: #5d4c40; }\n"
         "</style>\n<rect width=\"" +
         size + "\" fill=\"#fffdf8\"/>\n" + body + "</svg>\n";
}
// Finding and place; returns where the next thing goes.
double draw_title(Picture& p, const season::SeasonResult& r, const std::string& headline) {
  double y = kMargin + 16;
  for (const std::string& line : wrap(headline, kTitleColumns)) {
    p.text({kMargin, y, "title", "start"}, line);
    y += 26;
  }
  const std::string place = r.spot_name + ", " + r.site_name + ". Oven: " + r.oven_name + ".";
  for (const std::string& line : wrap(place, kPlaceColumns)) {
    p.text({kMargin, y, "sub", "start"}, line);
    y += 20;
  }
  return y + 22;
}
}  // namespace

std::string months_picture(const results::StoredSeason& season, const Facts& facts, Title title) {
  Picture p;
  double y = title == Title::kShown ? draw_title(p, season.result, facts.headline) : kMargin;
  p.text({kMargin, y, "head", "start"}, "Days it gets done");
  for (int month = 1; month <= 12; ++month) {
    p.text({column_x(month) + (kCell - kGap) / 2, y, "head", "middle"}, base::month_name(month));
  }
  p.text({kWidth - kMargin, y, "head", "end"}, "year");
  y += 10;
  for (std::size_t task = 0; task < facts.counts.size(); ++task) {
    draw_task(p, season.result.task_names[task], facts.counts[task], y);
    y += kRow;
  }
  draw_scale(p, y + 14);
  return frame(y + 14 + 12 + kMargin, facts.headline, p.body());
}

std::string season_svg(const results::StoredSeason& season) {
  return months_picture(season, gather(season, TemperatureUnit::kCelsius), Title::kShown);
}
}  // namespace ovendays::report
