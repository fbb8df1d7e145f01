// SPDX-License-Identifier: MIT
// Estimates by how much the time stamps of a file are out of step with the computed sun.
//
// Closure method: (GHI - DHI)/DNI is cos z whatever the stamps say, so the shift d that minimises
// sum (GHI - DHI - DNI cos z(t + d))^2 is the clock error. With the hour angle H,
// cos z(t + d) = a + b cos d - c sin d, where a = sin lat sin dec and b and c are cos lat cos dec
// times cos H and sin H. So a scan over all shifts of a day needs no trigonometry per hour.
// Shape method, if the three irradiances do not close: the centre of each day's irradiance on clear
// days lies at solar noon.
#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"
#include "ovendays/weather/weather_check.h"

namespace ovendays::weather {
namespace {
constexpr double kRadPerSecond = base::kTwoPi / base::kSecondsPerDay;
constexpr double kScanStep_s = 600.0;
constexpr int kScanHalfWidth = 72;             // 12 h
constexpr std::size_t kFewestBeamHours = 150;  // about a month of sunshine
constexpr double kBeamFloor_Wm2 = 50.0;        // below, rounding and sunrise hours dominate
constexpr double kWorstClosure = 0.12;         // rms of the residual over rms of the beam
constexpr double kClosureFloor_s = 30.0;       // difference between instants and hourly means
constexpr double kShapeFloor_s = 300.0;        // asymmetry of clear mornings and afternoons
constexpr double kClearPart = 0.3;             // share of days, the clearest, used for the shape
constexpr std::size_t kFewestClearDays = 20;

/// Hour angle and declination of the sun, with declination and equation of time interpolated
/// linearly between the local noons of the days.
class DaySun {
 public:
  explicit DaySun(const WeatherYear& year) : longitude_rad_(year.place.longitude_rad) {
    for (int day = 0; day < 366; ++day) {
      // A day after the last one, in the same calendar year, closes the interpolation.
      const WeatherHour& hour = year.at(std::min(day, 364), 12);
      const double extra_s = day > 364 ? base::kSecondsPerDay : 0.0;
      const base::UtcTime noon =
          base::utc_from_local(hour.date, 43200.0 + extra_s, year.place.utc_offset_s);
      const sun::SunPosition sun = sun::sun_position(noon, year.place);
      noon_[static_cast<std::size_t>(day)] = noon.unix_s;
      declination_rad_[static_cast<std::size_t>(day)] = sun.declination_rad;
      equation_s_[static_cast<std::size_t>(day)] = sun.equation_of_time_s;
    }
  }

  struct Angles {
    double hour_angle_rad;
    double declination_rad;
  };
  /// @param day index 0..364 of the day that the instant belongs to
  [[nodiscard]] Angles at(int day, double unix_s) const {
    const auto d = static_cast<std::size_t>(day);
    // Months of a typical year come from different calendar years. Where the next day of the year
    // is not one day later, the day before gives the rate of change.
    const bool next = std::fabs(noon_[d + 1] - noon_[d] - base::kSecondsPerDay) < 1.0;
    const std::size_t from = next || d == 0 ? d : d - 1;
    const double part = (unix_s - noon_[d]) / base::kSecondsPerDay;
    const double declination =
        declination_rad_[d] + part * (declination_rad_[from + 1] - declination_rad_[from]);
    const double equation = equation_s_[d] + part * (equation_s_[from + 1] - equation_s_[from]);
    const double angle = (unix_s - 43200.0 + equation) * kRadPerSecond + longitude_rad_;
    return {std::remainder(angle, base::kTwoPi), declination};
  }

 private:
  double longitude_rad_;
  std::array<double, 366> noon_{};
  std::array<double, 366> declination_rad_{};
  std::array<double, 366> equation_s_{};
};

struct BeamHour {
  int index;        ///< in the year
  double beam_Wm2;  ///< horizontal, GHI - DHI
  double dni_Wm2;
  double a, b, c;  ///< cos z(t + d) = a + b cos d - c sin d
};

std::vector<BeamHour> beam_hours(const WeatherYear& year, const DaySun& days, double shift_s) {
  std::vector<BeamHour> beams;
  beams.reserve(5000);
  const double sin_lat = std::sin(year.place.latitude_rad);
  const double cos_lat = std::cos(year.place.latitude_rad);
  for (std::size_t i = 0; i < year.hours.size(); ++i) {
    const WeatherHour& hour = year.hours[i];
    const double beam = hour.ghi_Wm2 - hour.dhi_Wm2;
    if (hour.dni_Wm2 < kBeamFloor_Wm2 || beam < kBeamFloor_Wm2 || hour.filled) continue;
    const double time_s = hour.sun_time(year.place.utc_offset_s).unix_s + shift_s;
    const auto [angle, declination] = days.at(static_cast<int>(i / 24), time_s);
    const double across = cos_lat * std::cos(declination);
    beams.push_back({static_cast<int>(i),
                     beam,
                     hour.dni_Wm2,
                     sin_lat * std::sin(declination),
                     across * std::cos(angle),
                     across * std::sin(angle)});
  }
  return beams;
}

double misfit(const std::vector<BeamHour>& beams, double shift_s) {
  const double cos_d = std::cos(shift_s * kRadPerSecond);
  const double sin_d = std::sin(shift_s * kRadPerSecond);
  double sum = 0.0;
  for (const BeamHour& h : beams) {
    const double cos_z = std::max(0.0, h.a + h.b * cos_d - h.c * sin_d);
    const double residual = h.beam_Wm2 - h.dni_Wm2 * cos_z;
    sum += residual * residual;
  }
  return sum;
}

/// The minimum of the parabola through the misfits at shift_s and step_s on either side of it, and
/// its curvature. The result moves by at most one step.
double refine(const std::vector<BeamHour>& beams, double shift_s, double step_s, double* curve) {
  const double left = misfit(beams, shift_s - step_s);
  const double middle = misfit(beams, shift_s);
  const double right = misfit(beams, shift_s + step_s);
  *curve = (left - 2.0 * middle + right) / (step_s * step_s);
  if (*curve <= 0.0) return shift_s;
  return shift_s + std::clamp(0.5 * (left - right) / (*curve * step_s), -step_s, step_s);
}

bool closure_shift(const WeatherYear& year, const DaySun& days, ClockCheck& check) {
  std::vector<BeamHour> beams = beam_hours(year, days, 0.0);
  if (beams.size() < kFewestBeamHours) return false;
  double best_s = 0.0;
  double least = misfit(beams, 0.0);
  for (int step = -kScanHalfWidth; step <= kScanHalfWidth; ++step) {
    const double sum = misfit(beams, step * kScanStep_s);
    if (sum < least) {
      least = sum;
      best_s = step * kScanStep_s;
    }
  }
  // The declination changes by up to 0.2 deg in half a day, so it is recomputed at the best shift.
  double curve = 0.0;
  for (const double step_s : {kScanStep_s, 120.0}) {
    beams = beam_hours(year, days, best_s);
    best_s += refine(beams, 0.0, step_s, &curve);
  }
  double beam_squares = 0.0;
  for (const BeamHour& h : beams) beam_squares += h.beam_Wm2 * h.beam_Wm2;
  least = misfit(beams, 0.0);
  if (curve <= 0.0 || least > kWorstClosure * kWorstClosure * beam_squares) return false;
  const double variance = least / static_cast<double>(beams.size() - 1);
  check.shift_s = best_s;
  check.uncertainty_s = std::hypot(std::sqrt(2.0 * variance / curve), kClosureFloor_s);
  return true;
}

struct ShapeDay {
  double clearness = 0.0;  ///< GHI over the sum of cos z, for ranking only
  double middle_s = 0.0;   ///< centre of the day's irradiance, relative to solar noon
};

/// The shapes of all days from solar midnight to solar midnight, with time stamps moved by shift_s.
std::vector<ShapeDay> shape_days(const WeatherYear& year, const DaySun& days, double shift_s) {
  std::vector<ShapeDay> shapes;
  const double sin_lat = std::sin(year.place.latitude_rad);
  const double cos_lat = std::cos(year.place.latitude_rad);
  double east = 0.0;
  double noonward = 0.0;
  double sun_sum = 0.0;
  double ghi_sum = 0.0;
  double previous = base::kPi;
  bool whole = false;
  for (std::size_t i = 0; i < year.hours.size(); ++i) {
    const WeatherHour& hour = year.hours[i];
    const double time_s = hour.sun_time(year.place.utc_offset_s).unix_s + shift_s;
    const auto [angle, declination] = days.at(static_cast<int>(i / 24), time_s);
    if (angle < previous) {
      if (whole && sun_sum > 1.0 && ghi_sum > 500.0) {
        shapes.push_back({ghi_sum / sun_sum, std::atan2(east, noonward) / kRadPerSecond});
      }
      whole = i > 0;
      east = noonward = sun_sum = ghi_sum = 0.0;
    }
    previous = angle;
    east += hour.ghi_Wm2 * std::sin(angle);
    noonward += hour.ghi_Wm2 * std::cos(angle);
    ghi_sum += hour.ghi_Wm2;
    const double cos_z =
        sin_lat * std::sin(declination) + cos_lat * std::cos(declination) * std::cos(angle);
    sun_sum += std::max(0.0, cos_z);
  }
  return shapes;
}

/// Median of the centres of the clearest days, and its standard error. False if there are too few.
bool clear_middle(std::vector<ShapeDay> shapes, double& middle_s, double& spread_s) {
  const auto count = static_cast<std::size_t>(kClearPart * static_cast<double>(shapes.size()));
  if (count < kFewestClearDays) return false;
  std::sort(shapes.begin(), shapes.end(), [](const ShapeDay& a, const ShapeDay& b) {
    return a.clearness > b.clearness;
  });
  shapes.resize(count);
  std::sort(shapes.begin(), shapes.end(), [](const ShapeDay& a, const ShapeDay& b) {
    return a.middle_s < b.middle_s;
  });
  middle_s = shapes[count / 2].middle_s;
  // Half of the interquartile range is 0.67 standard deviations, and the standard error of a median
  // is 1.25 times that of a mean.
  const double half_width = 0.5 * (shapes[3 * count / 4].middle_s - shapes[count / 4].middle_s);
  spread_s = 1.25 * half_width / 0.67 / std::sqrt(static_cast<double>(count));
  return true;
}

// Estimates the shift from the shape of clear days. A second pass is needed because the first one
// may split days at the wrong midnight.
bool shape_shift(
    const WeatherYear& year, const DaySun& days, double start_s, double& shift_s, double& error_s) {
  double east = 0.0;
  double noonward = 0.0;
  for (std::size_t i = 0; i < year.hours.size(); ++i) {
    const WeatherHour& hour = year.hours[i];
    const double time_s = hour.sun_time(year.place.utc_offset_s).unix_s;
    const double angle = days.at(static_cast<int>(i / 24), time_s).hour_angle_rad;
    east += hour.ghi_Wm2 * std::sin(angle);
    noonward += hour.ghi_Wm2 * std::cos(angle);
  }
  if (east == 0.0 && noonward == 0.0) return false;
  shift_s = start_s != 0.0 ? start_s : -std::atan2(east, noonward) / kRadPerSecond;
  for (int pass = 0; pass < 2; ++pass) {
    double middle_s = 0.0;
    if (!clear_middle(shape_days(year, days, shift_s), middle_s, error_s)) return false;
    shift_s -= middle_s;
  }
  error_s = std::hypot(error_s, kShapeFloor_s);
  return true;
}
}  // namespace

ClockCheck check_clock(const WeatherYear& year) {
  ClockCheck check;
  const DaySun days(year);
  check.by_closure = closure_shift(year, days, check);
  double shape_error_s = 0.0;
  const bool shaped = shape_shift(
      year, days, check.by_closure ? check.shift_s : 0.0, check.shape_shift_s, shape_error_s);
  check.possible = check.by_closure || shaped;
  if (!check.by_closure && shaped) {
    check.shift_s = check.shape_shift_s;
    check.uncertainty_s = shape_error_s;
  }
  check.off = check.possible && std::fabs(check.shift_s) > kClockTolerance_s &&
              std::fabs(check.shift_s) > 3.0 * check.uncertainty_s;
  return check;
}

void require_sound_clock(const WeatherYear& year, const ClockCheck& clock, bool shift_was_stated) {
  if (!clock.off || shift_was_stated) return;
  const long minutes = std::lround(clock.shift_s / 60.0);
  throw base::InputError(
      {year.file,
       0,
       "site.clock_shift",
       "the stamps are out of step with the sun: " + std::to_string(std::labs(minutes)) +
           " min must be " + (minutes < 0 ? "taken from" : "added to") + " them",
       "up to " + std::to_string(std::lround(kClockTolerance_s / 60.0)) +
           " min; state site.clock_shift = \"" + std::to_string(minutes) +
           " min\" (or \"0 min\" to keep the stamps), or correct site.utc_offset or "
           "site.longitude"});
}
}  // namespace ovendays::weather
