// SPDX-License-Identifier: MIT
#include "dust.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "ovendays/optics/acceptance.h"

namespace ovendays::season {
namespace {

/// True on days of washing: the first one, and each on which another interval is full.
bool washed_on(int day, double every_days) {
  // Rounding must not move an interval of whole days by a day.
  const auto intervals = [&](int d) { return std::floor(d / every_days + 1e-9); };
  return day == 0 || intervals(day) > intervals(day - 1);
}

/// Light absorbed inside the empty oven along the axis, with flaps of less reflectance.
double on_axis_m2(const oven::OvenDesign& design, double reflectance_factor) {
  constexpr int kRays = 8192;
  constexpr double kFaint = 1e-3;
  oven::OvenGeometry geometry = oven::build_geometry(design, nullptr, false);
  for (oven::Facet& flap : geometry.flaps) flap.reflectance *= reflectance_factor;
  const optics::Tracer tracer(geometry, design.panes);
  return tracer.trace({0.0, 0.0, 1.0}, kRays, kFaint).acceptance.inside_m2();
}

std::string percent(double share) {
  char text[16];
  std::snprintf(text, sizeof text, "%.1f %%", 100.0 * share);
  return text;
}
}  // namespace

std::vector<double> dust_shares(std::span<const DayRain> year, const task::Routine& routine) {
  const int days = static_cast<int>(year.size());
  const double every_days = routine.wash_every_s / 86400.0;
  const auto pours = [&](int day) {
    return year[static_cast<std::size_t>((day + days) % days)].rain_m > kCleaningRain_m;
  };
  int damp_days = 0;  // still to come, today included
  for (int day = 1 - kDampDays; day < 0; ++day) damp_days = pours(day) ? kDampDays : damp_days - 1;
  std::vector<double> shares;
  double share = 0.0;
  for (int day = 0; day < days; ++day) {
    damp_days = pours(day) ? kDampDays : damp_days - 1;
    const bool rinsed = pours(day) && year[static_cast<std::size_t>(day)].on_oven;
    if (rinsed || washed_on(day, every_days)) {
      share = 0.0;
    } else if (damp_days <= 0) {
      share = std::min(kMostDust, share + routine.dust_per_day);
    }
    shares.push_back(share);
  }
  return shares;
}

double flap_reflections(const oven::OvenDesign& design) {
  if (design.flaps.empty()) return 0.0;
  constexpr double kLess = 0.95;
  return std::log(on_axis_m2(design, kLess) / on_axis_m2(design, 1.0)) / std::log(kLess);
}

std::vector<DustyLight> dusty_light(std::span<const double> shares, double reflections) {
  std::vector<DustyLight> light;
  light.reserve(shares.size());
  for (const double share : shares)
    light.push_back({std::pow(1.0 - share, 1.0 + reflections), 1.0 - share});
  return light;
}

std::vector<std::string> dust_notes(const task::Routine& routine,
                                    std::span<const DustyLight> light,
                                    bool rain_known) {
  if (light.empty()) return {};
  double mean = 0.0;
  double most = 0.0;
  for (const DustyLight& day : light) {
    mean += (1.0 - day.flaps_set) / static_cast<double>(light.size());
    most = std::max(most, 1.0 - day.flaps_set);
  }
  char every[32];
  std::snprintf(every, sizeof every, "%.3g days", routine.wash_every_s / 86400.0);
  std::string note = "Dust on glass and foil takes " + percent(mean) +
                     " of the light in the mean of the year and " + percent(most) +
                     " at most; both are washed every " + every + ".";
  if (!rain_known) note += " The weather file has no rain data, so no rain lays the dust.";
  return {note};
}
}  // namespace ovendays::season
