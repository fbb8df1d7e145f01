// SPDX-License-Identifier: MIT
#include <cmath>

#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/vec.h"
#include "pictures.h"

namespace ovendays::report {
namespace {
constexpr double kRadius = 142, kCentreX = 180, kCentreY = 160;
constexpr int kSteps_h = 12;  // steps of a sun path in one hour

struct Place2 {
  double x, y;
};

// The projection is linear in elevation, from the rim (horizon) to the centre (zenith).
Place2 place_in_dome(double azimuth_rad, double elevation_rad) {
  const double r = kRadius * (1.0 - elevation_rad / (0.5 * base::kPi));
  return {kCentreX + r * std::sin(azimuth_rad), kCentreY - r * std::cos(azimuth_rad)};
}

// Low patches are wide, so their curved edges need a few more corners.
void draw_patch(Drawing& d, const sky::Patch& patch, double visible) {
  // Five tones are as many as a reader can tell apart.
  const int darkness = static_cast<int>(std::lround(5.0 * (1.0 - visible)));
  if (darkness <= 0) return;
  const double low_rad = patch.elevation_rad - patch.half_height_rad;
  const double high_rad = std::min(0.5 * base::kPi, patch.elevation_rad + patch.half_height_rad);
  const int pieces = patch.half_width_rad > 0.15 ? 6 : 1;
  Polyline corners;
  for (int i = 0; i <= pieces; ++i) {
    const double part = patch.half_width_rad * (2.0 * i / pieces - 1.0);
    const Place2 p = place_in_dome(patch.azimuth_rad + part, low_rad);
    corners.emplace_back(p.x, p.y);
  }
  for (int i = pieces; i >= 0; --i) {
    const double part = patch.half_width_rad * (2.0 * i / pieces - 1.0);
    const Place2 p = place_in_dome(patch.azimuth_rad + part, high_rad);
    corners.emplace_back(p.x, p.y);
  }
  d.polygon(corners, "d" + std::to_string(darkness));
}

// Interpolates the sun's position between the mid-hours of the file (Catmull-Rom cubic).
base::Direction sun_at(const season::SeasonResult& result, int day_index, double time_h) {
  const auto middle = [&](int hour) {
    const int wrapped = ((hour % 24) + 24) % 24;
    const std::size_t index =
        static_cast<std::size_t>(day_index) * 24 + static_cast<std::size_t>(wrapped);
    const season::HourTrace& h = result.hours[index];
    return base::direction_from_sky(static_cast<double>(h.sun_azimuth_rad),
                                    0.5 * base::kPi - static_cast<double>(h.sun_zenith_rad));
  };
  const int before = static_cast<int>(std::floor(time_h - 0.5));
  const double t = time_h - 0.5 - before;
  const base::Vec3 p0 = middle(before - 1);
  const base::Vec3 p1 = middle(before);
  const base::Vec3 p2 = middle(before + 1);
  const base::Vec3 p3 = middle(before + 2);
  return base::normalized(p1 + 0.5 * t *
                                   ((p2 - p0) + t * (2.0 * p0 - 5.0 * p1 + 4.0 * p2 - p3 +
                                                     t * (3.0 * (p1 - p2) + p3 - p0))));
}

struct SunPath {
  int month, day;
  const char* words;
  const char* kind;
};
constexpr SunPath kPaths[] = {{6, 21, "21 Jun", "path"},
                              {3, 20, "20 Mar, 23 Sep", "path dash"},
                              {12, 21, "21 Dec", "path dot"}};

// Numbers have a pale background, so that they stay readable over hidden sky.
void draw_hour(Drawing& d, const base::Direction& sun, int hour, bool told) {
  const Place2 p = place_in_dome(base::azimuth_of(sun), std::asin(sun.z));
  d.circle(p.x, p.y, 2.2, "ink");
  if (!told) return;
  d.box({p.x - 7, p.y - 15, 14, 11}, "halo", 3);
  d.text({p.x, p.y - 6, "middle", "small strong"}, std::to_string(hour));
}

void draw_path(Drawing& d, const season::SeasonResult& result, const SunPath& path) {
  const int day = base::day_index_365(path.month, path.day);
  Polyline points;
  for (int i = 0; i <= 24 * kSteps_h; ++i) {
    const base::Direction sun = sun_at(result, day, static_cast<double>(i) / kSteps_h);
    const Place2 p = place_in_dome(base::azimuth_of(sun), std::asin(sun.z));
    points.emplace_back(p.x, sun.z >= 0.0 ? p.y : std::nan(""));
  }
  d.open(path.words);
  d.polyline(points, path.kind);
  for (int hour = 0; hour <= 24; ++hour) {
    const base::Direction sun = sun_at(result, day, hour);
    if (sun.z > 0.02) draw_hour(d, sun, hour, hour % 3 == 0);
  }
  d.close();
}

// Elevations are labelled on the side away from the noon sun.
void draw_frame(Drawing& d, double latitude_rad) {
  const double away = latitude_rad < 0.0 ? 1.0 : -1.0;
  for (const double elevation_deg : {0.0, 30.0, 60.0}) {
    d.circle(kCentreX,
             kCentreY,
             kRadius * (1.0 - elevation_deg / 90.0),
             elevation_deg == 0.0 ? "axis" : "grid");
  }
  d.line(kCentreX - kRadius, kCentreY, kCentreX + kRadius, kCentreY, "grid");
  d.line(kCentreX, kCentreY - kRadius, kCentreX, kCentreY + kRadius, "grid");
  d.text({kCentreX, kCentreY - kRadius - 5, "middle", "strong"}, "N");
  d.text({kCentreX, kCentreY + kRadius + 13, "middle", "strong"}, "S");
  d.text({kCentreX + kRadius + 6, kCentreY + 4, "start", "strong"}, "E");
  d.text({kCentreX - kRadius - 6, kCentreY + 4, "end", "strong"}, "W");
  d.text({kCentreX + 3, kCentreY + away * kRadius / 3 - 2, "start", "small"}, "60°");
  d.text({kCentreX + 3, kCentreY + away * 2 * kRadius / 3 - 2, "start", "small"}, "30°");
}

double draw_dome_keys(Drawing& d) {
  const double y = kCentreY + kRadius + 30;
  double x = 20;
  for (const SunPath& path : kPaths) {
    d.line(x, y - 3, x + 26, y - 3, path.kind);
    d.text({x + 30, y, "start", "small"}, path.words);
    x += path.month == 3 ? 118 : 78;
  }
  d.box({x - 8, y - 10, 13, 10}, "sky0");
  d.box({x - 8, y - 10, 13, 10}, "d5 edge");
  d.text({x + 8, y, "start", "small"}, "hidden");
  return y + 10;
}
}  // namespace

bool masks_differ(const season::SeasonResult& result) {
  return result.mask_january.sky_visible != result.mask_july.sky_visible;
}

Drawing dome_picture(const results::StoredSeason& season, const spot::SpotMask& mask) {
  Drawing d(kPhoneWidth,
            "The sky from " + season.result.spot_name +
                " as a map, north up: what hides it, and the sun's paths in June, March and "
                "December with the hours of standard time");
  d.circle(kCentreX, kCentreY, kRadius, "sky0");
  for (std::size_t i = 0; i < mask.sky.size(); ++i) draw_patch(d, mask.sky[i], mask.sky_visible[i]);
  draw_frame(d, season.result.place.latitude_rad);
  for (const SunPath& path : kPaths) draw_path(d, season.result, path);
  d.set_height(draw_dome_keys(d));
  return d;
}
}  // namespace ovendays::report
