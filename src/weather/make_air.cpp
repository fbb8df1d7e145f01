// SPDX-License-Identifier: MIT
#include "make_air.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "make_radiation.h"
#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"
#include "random_draws.h"

namespace ovendays::weather {
namespace {
using Months = std::array<double, 12>;
constexpr int kPasses = 40;  // corrections of the monthly means; each one halves what is left
// Limits: temperature records of the WMO archive of extremes (from memory); for the hourly mean
// wind at 10 m our own choice.
constexpr double kColdest_K = 184.0;
constexpr double kHottest_K = 329.8;
constexpr double kDriest_K = 180.0;
constexpr double kMuggiest_K = 308.15;
constexpr double kWindiest_ms = 55.0;

constexpr std::array<std::size_t, kDays> months_of_days() {
  std::array<std::size_t, kDays> months{};
  for (std::size_t m = 0; m < 12; ++m) {
    for (int day = kMonthStart[m]; day < kMonthStart[m + 1]; ++day)
      months[static_cast<std::size_t>(day)] = m;
  }
  return months;
}

std::size_t month_of_day(int day) {
  static constexpr std::array<std::size_t, kDays> kMonths = months_of_days();
  return kMonths[static_cast<std::size_t>(day)];
}

/// Interpolates monthly values to a day. Each value belongs to the middle of its month.
double along_months(const Months& months, int day) {
  const std::size_t m = month_of_day(day);
  const double length = kMonthStart[m + 1] - kMonthStart[m];
  const double place = (day + 0.5 - kMonthStart[m]) / length - 0.5;  // -0.5..0.5
  const std::size_t other = place < 0.0 ? (m + 11) % 12 : (m + 1) % 12;
  const double other_length = kMonthStart[other + 1] - kMonthStart[other];
  const double part = std::fabs(place) * length / (0.5 * (length + other_length));
  return months[m] + part * (months[other] - months[m]);
}

/// Mean solar time [h] at the instant of an hour's air values, which is the end of the hour.
double solar_hour(const sun::Place& place, int hour) {
  const double lead_h = place.longitude_rad * base::kDegPerRad / 15.0 - place.utc_offset_s / 3600.0;
  return hour + 1.0 + lead_h;
}

// Erbs, Klein and Beckman, ASHRAE Journal 25(6):60, 1983: the course of temperature over a mean
// day, here scaled to run from 0 at its minimum to 1 at its maximum.
double day_course(double solar_h) {
  const auto raw = [](double h) {
    const double t = base::kTwoPi * (h - 1.0) / 24.0;
    return 0.4632 * std::cos(t - 3.805) + 0.0984 * std::cos(2.0 * t - 0.360) +
           0.0168 * std::cos(3.0 * t - 0.822) + 0.0138 * std::cos(4.0 * t - 3.513);
  };
  constexpr double lowest = -0.454502;  // at 5.64 h
  constexpr double highest = 0.525119;  // at 15.16 h
  return (raw(solar_h) - lowest) / (highest - lowest);
}
constexpr double kCoolest_h = 5.64;
constexpr double kWarmest_h = 15.16;

/// Interpolation of an hour in a daily series: between the days `from` and `from` + 1, counted from
/// the hour's own day.
struct DayPlace {
  int from = 0;
  double part = 0.0;  ///< weight of the later day
};
using DayPlaces = std::array<DayPlace, 24>;

/// The interpolation of all 24 hours in a series whose values belong to `anchor_h` o'clock.
template <typename HourOf>
DayPlaces places_of(HourOf hour_of, double anchor_h) {
  DayPlaces places;
  for (int h = 0; h < 24; ++h) {
    const double x = (hour_of(h) - anchor_h) / 24.0;
    places[static_cast<std::size_t>(h)] = {static_cast<int>(std::floor(x)), x - std::floor(x)};
  }
  return places;
}

/// A daily series that wraps around. Copies of a few days from either end are kept beyond the other
/// end, so that at() needs no modulo.
class DaySeries {
 public:
  double& operator[](std::size_t day) { return days_[day + kEnd]; }
  double operator[](std::size_t day) const { return days_[day + kEnd]; }
  /// Copies the days beyond the ends. Call it when all days are set.
  void close() {
    std::copy_n(days_.end() - 2 * kEnd, kEnd, days_.begin());
    std::copy_n(days_.begin() + kEnd, kEnd, days_.end() - kEnd);
  }
  /// The interpolated value.
  [[nodiscard]] double at(std::size_t day, const DayPlace& place) const {
    const double* from = days_.data() + kEnd + static_cast<int>(day) + place.from;
    return from[0] + place.part * (from[1] - from[0]);
  }

 private:
  static constexpr long kEnd = 4;  // an hour is interpolated between days at most two days away
  std::vector<double> days_ = std::vector<double>(kDays + 2 * kEnd);
};

struct DayNoise {
  std::vector<double> high;
  std::vector<double> low;
};

// Richardson, Water Resources Research 17(1):182, 1981: the deviations of daily maximum, minimum
// and radiation follow a first-order autoregression x = A x' + B e (matrices as in Richardson and
// Wright 1984). The radiation has been drawn before, so the shocks e are conditioned to reproduce
// it.
DayNoise draw_noise(const AirInputs& inputs) {
  constexpr double a[3][3] = {
      {0.567, 0.086, -0.002}, {0.253, 0.504, -0.050}, {-0.006, -0.039, 0.244}};
  constexpr double b[3][3] = {{0.781, 0.0, 0.0}, {0.328, 0.637, 0.0}, {0.238, -0.341, 0.873}};
  constexpr double row_square = 0.238 * 0.238 + 0.341 * 0.341 + 0.873 * 0.873;
  DayNoise noise{std::vector<double>(kDays), std::vector<double>(kDays)};
  RandomDraws draws(inputs.seed, Stream::kTemperature, 0);
  std::array<double, 3> x{};
  for (int run = -30; run < kDays; ++run) {  // a month of spin-up removes the initial state
    const auto day = static_cast<std::size_t>((run + kDays) % kDays);
    std::array<double, 3> drift{};
    for (std::size_t i = 0; i < 3; ++i) {
      for (std::size_t j = 0; j < 3; ++j) drift[i] += a[i][j] * x[j];
    }
    std::array<double, 3> e = {draws.normal(), draws.normal(), draws.normal()};
    const double wanted = inputs.day_score[day] - drift[2];
    const double given = b[2][0] * e[0] + b[2][1] * e[1] + b[2][2] * e[2];
    for (std::size_t i = 0; i < 3; ++i) e[i] += b[2][i] * (wanted - given) / row_square;
    x = {drift[0] + b[0][0] * e[0],
         drift[1] + b[1][0] * e[0] + b[1][1] * e[1],
         inputs.day_score[day]};
    if (run < 0) continue;
    noise.high[day] = x[0];
    noise.low[day] = x[1];
  }
  return noise;
}

// Standard deviation of daily temperatures from their month's mean. It is larger in climates with
// large seasonal differences: 1 K plus 9 % of the annual range of monthly means (our own choice, no
// source).
double day_deviation_K(const MonthlyNormals& normals) {
  double least = 1e9;
  double most = -1e9;
  for (std::size_t m = 0; m < 12; ++m) {
    const double mean = 0.5 * (normals.dry_bulb_max_K[m] + normals.dry_bulb_min_K[m]);
    least = std::min(least, mean);
    most = std::max(most, mean);
  }
  return 1.0 + 0.09 * (most - least);
}

/// Hourly temperatures from daily maxima and minima. Maxima belong to the warmest hour of the day
/// and minima to the coolest one; each series is interpolated from day to day, so that there is no
/// step at midnight.
class DayTemperatures {
 public:
  explicit DayTemperatures(const AirInputs& inputs)
      : deviation_K_(day_deviation_K(inputs.normals)), noise_(draw_noise(inputs)) {
    const auto hour_of = [&](int h) { return solar_hour(inputs.normals.place, h); };
    warmest_ = places_of(hour_of, kWarmest_h);
    coolest_ = places_of(hour_of, kCoolest_h);
    for (int h = 0; h < 24; ++h) course_[static_cast<std::size_t>(h)] = day_course(hour_of(h));
  }

  /// Fills the hours [K] from monthly mean maxima and minima [K].
  void fill(const Months& high, const Months& low, std::vector<double>& hours_K) {
    fill_extremes(high, low);
    for (std::size_t day = 0; day < kDays; ++day) {
      for (std::size_t h = 0; h < 24; ++h) {
        const double top = day_high_K_.at(day, warmest_[h]);
        const double bottom = day_low_K_.at(day, coolest_[h]);
        hours_K[day * 24 + h] = bottom + (top - bottom) * course_[h];
      }
    }
  }

 private:
  void fill_extremes(const Months& high, const Months& low) {
    constexpr double kLeastSwing_K = 1.0;
    const auto on_earth = [](double t_K) { return std::clamp(t_K, kColdest_K, kHottest_K); };
    for (int day = 0; day < kDays; ++day) {
      const auto d = static_cast<std::size_t>(day);
      day_high_K_[d] = on_earth(along_months(high, day) + deviation_K_ * noise_.high[d]);
      day_low_K_[d] = on_earth(along_months(low, day) + deviation_K_ * noise_.low[d]);
      if (day_high_K_[d] - day_low_K_[d] < kLeastSwing_K) {
        const double mean = 0.5 * (day_high_K_[d] + day_low_K_[d]);
        day_high_K_[d] = mean + 0.5 * kLeastSwing_K;
        day_low_K_[d] = mean - 0.5 * kLeastSwing_K;
      }
    }
    day_high_K_.close();
    day_low_K_.close();
  }

  double deviation_K_;
  DayNoise noise_;
  DayPlaces warmest_, coolest_;
  std::array<double, 24> course_{};
  DaySeries day_high_K_, day_low_K_;
};

struct Extremes {
  Months high{}, low{};
};

/// Monthly means of the daily maximum and minimum dry bulb.
Extremes month_extremes(const std::vector<double>& hours_K) {
  Extremes means;
  for (int day = 0; day < kDays; ++day) {
    const std::size_t m = month_of_day(day);
    const int days = kMonthStart[m + 1] - kMonthStart[m];
    const auto first = hours_K.begin() + 24L * day;
    means.high[m] += *std::max_element(first, first + 24) / days;
    means.low[m] += *std::min_element(first, first + 24) / days;
  }
  return means;
}

// Monthly means over all hours, which is how normals are defined.
template <typename Value>
Months month_means(Value value_of_hour) {
  Months means{};
  for (std::size_t m = 0; m < 12; ++m) {
    const double hours = 24.0 * (kMonthStart[m + 1] - kMonthStart[m]);
    const auto end = 24 * static_cast<std::size_t>(kMonthStart[m + 1]);
    double sum = 0.0;
    for (auto i = 24 * static_cast<std::size_t>(kMonthStart[m]); i < end; ++i)
      sum += value_of_hour(i) / hours;
    means[m] = sum;
  }
  return means;
}
}  // namespace

void make_temperature(const AirInputs& inputs, std::vector<WeatherHour>& hours) {
  DayTemperatures days(inputs);
  Months high = inputs.normals.dry_bulb_max_K;
  Months low = inputs.normals.dry_bulb_min_K;
  std::vector<double> hours_K(kHours);
  for (int pass = 0; pass < kPasses; ++pass) {
    days.fill(high, low, hours_K);
    const Extremes got = month_extremes(hours_K);
    const Months high_before = high;
    const Months low_before = low;
    for (std::size_t m = 0; m < 12; ++m) {
      high[m] += 0.7 * (inputs.normals.dry_bulb_max_K[m] - got.high[m]);
      low[m] += 0.7 * (inputs.normals.dry_bulb_min_K[m] - got.low[m]);
    }
    if (high == high_before && low == low_before) break;  // another pass would change nothing
  }
  for (std::size_t i = 0; i < hours.size(); ++i) hours[i].dry_bulb_K = hours_K[i];
}

// The dew point of a day follows from its mean temperature and a humidity that is higher on cloudy
// days (by 12 % per standard deviation of clearness; our own choice, no source). The level of each
// month is corrected until the mean humidity of its hours is that of the normals.
void make_humidity(const AirInputs& inputs, std::vector<WeatherHour>& hours) {
  const DayPlaces places = places_of([](int h) { return h + 1.0; }, 12.0);
  std::vector<double> mean_K(kDays, 0.0);
  std::vector<double> cloudiness(kDays);
  std::vector<double> saturated_Pa(kHours);
  for (std::size_t i = 0; i < kHours; ++i) {
    mean_K[i / 24] += hours[i].dry_bulb_K / 24.0;
    saturated_Pa[i] = base::saturation_pressure_Pa(hours[i].dry_bulb_K);
  }
  for (std::size_t d = 0; d < kDays; ++d) cloudiness[d] = std::exp(-0.12 * inputs.day_score[d]);
  Months level = inputs.normals.relative_humidity;
  std::vector<double> humidity(kDays);
  std::vector<double> dew_K(kDays);
  DaySeries dew;
  for (int pass = 0; pass < kPasses; ++pass) {
    for (int day = 0; day < kDays; ++day) {
      const auto d = static_cast<std::size_t>(day);
      humidity[d] = std::clamp(along_months(level, day) * cloudiness[d], 0.02, 1.0);
    }
    base::dew_points_K(mean_K, humidity, dew_K);
    for (std::size_t d = 0; d < kDays; ++d) dew[d] = std::clamp(dew_K[d], kDriest_K, kMuggiest_K);
    dew.close();
    for (std::size_t i = 0; i < kHours; ++i)
      hours[i].dew_point_K = std::min(hours[i].dry_bulb_K, dew.at(i / 24, places[i % 24]));
    const Months got = month_means([&](std::size_t i) {
      return std::clamp(
          base::saturation_pressure_Pa(hours[i].dew_point_K) / saturated_Pa[i], 0.0, 1.0);
    });
    const Months before = level;
    for (std::size_t m = 0; m < 12; ++m) {
      const double ratio = inputs.normals.relative_humidity[m] / got[m];
      level[m] = std::clamp(level[m] * std::pow(ratio, 0.7), 0.02, 1.5);
    }
    if (level == before) break;
  }
}

// Wind speeds are Rayleigh distributed (Weibull with shape 2: Justus et al., Journal of Applied
// Meteorology 17:350, 1978). They are the quantiles of a normal process with an hourly
// autocorrelation of 0.9. A daily course of 25 % peaks three hours after solar noon (common
// practice, no source).
void make_wind(const AirInputs& inputs, std::vector<WeatherHour>& hours) {
  constexpr double memory = 0.9;
  constexpr double course = 0.25;
  const double kick = std::sqrt(1.0 - memory * memory);
  RandomDraws draws(inputs.seed, Stream::kWind, 0);
  double state = draws.normal();
  std::array<double, 24> day_course{};
  for (int h = 0; h < 24; ++h) {
    const double phase = base::kTwoPi * (solar_hour(inputs.normals.place, h) - 15.0) / 24.0;
    day_course[static_cast<std::size_t>(h)] = 1.0 + course * std::cos(phase);
  }
  for (std::size_t i = 0; i < kHours; ++i) {
    state = memory * state + kick * draws.normal();
    const double share = std::min(normal_cdf(state), 1.0 - 1e-12);
    hours[i].wind_ms = std::sqrt(-std::log(1.0 - share)) * day_course[i % 24];
  }
  const Months got = month_means([&](std::size_t i) { return hours[i].wind_ms; });
  for (int i = 0; i < kHours; ++i) {
    const std::size_t m = month_of_day(i / 24);
    double& wind_ms = hours[static_cast<std::size_t>(i)].wind_ms;
    wind_ms = std::min(kWindiest_ms, wind_ms * inputs.normals.wind_ms[m] / got[m]);
  }
}

// Rain falls on the cloudiest days, in amounts that follow an exponential distribution (as in
// Richardson 1981), over four hours at any time of the day.
void make_rain(const AirInputs& inputs, std::vector<WeatherHour>& hours) {
  if (!inputs.normals.rain_given) return;
  constexpr std::array<double, 4> shower = {1.0 / 6.0, 1.0 / 3.0, 1.0 / 3.0, 1.0 / 6.0};
  for (WeatherHour& hour : hours) hour.precipitation_m = 0.0;
  for (std::size_t m = 0; m < 12; ++m) {
    if (inputs.normals.rain_m[m] <= 0.0) continue;
    std::vector<int> days(static_cast<std::size_t>(kMonthStart[m + 1] - kMonthStart[m]));
    std::iota(days.begin(), days.end(), kMonthStart[m]);
    std::stable_sort(days.begin(), days.end(), [&](int a, int b) {
      return inputs.day_clearness[static_cast<std::size_t>(a)] <
             inputs.day_clearness[static_cast<std::size_t>(b)];
    });
    const long wanted = std::max(1L, std::lround(inputs.normals.rain_days[m]));
    days.resize(std::min(days.size(), static_cast<std::size_t>(wanted)));
    RandomDraws draws(inputs.seed, Stream::kRain, m);
    std::vector<double> amounts(days.size());
    for (double& amount : amounts) amount = -std::log(1.0 - draws.uniform()) + 0.05;
    const double total = std::accumulate(amounts.begin(), amounts.end(), 0.0);
    for (std::size_t k = 0; k < days.size(); ++k) {
      const int first = static_cast<int>(draws.uniform() * 21.0);
      for (std::size_t h = 0; h < shower.size(); ++h) {
        const auto at = static_cast<std::size_t>(days[k] * 24 + first) + h;
        hours[at].precipitation_m = inputs.normals.rain_m[m] * amounts[k] / total * shower[h];
      }
    }
  }
}
}  // namespace ovendays::weather
