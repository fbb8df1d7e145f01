// SPDX-License-Identifier: MIT
#include "make_air.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "chance.h"
#include "make_radiation.h"
#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"

namespace ovendays::weather {
namespace {
using Months = std::array<double, 12>;
constexpr int kPasses = 40;  // month means are mended this often; each pass leaves about half
// Nothing is made beyond what has been seen on earth (WMO archive of extremes, from memory; wind as
// an hour's mean at 10 m: our own choice).
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

/// The value of a day when the months' values stand at their middles and run linearly between.
double along_months(const Months& months, int day) {
  const std::size_t m = month_of_day(day);
  const double length = kMonthStart[m + 1] - kMonthStart[m];
  const double place = (day + 0.5 - kMonthStart[m]) / length - 0.5;  // -0.5..0.5
  const std::size_t other = place < 0.0 ? (m + 11) % 12 : (m + 1) % 12;
  const double other_length = kMonthStart[other + 1] - kMonthStart[other];
  const double part = std::fabs(place) * length / (0.5 * (length + other_length));
  return months[m] + part * (months[other] - months[m]);
}

/// Clock hours past midnight at the instant of an hour's air values, in mean solar time.
double solar_hour(const sun::Place& place, int hour) {
  const double lead_h = place.longitude_rad * base::kDegPerRad / 15.0 - place.utc_offset_s / 3600.0;
  return hour + 1.0 + lead_h;
}

// Erbs, Klein and Beckman, ASHRAE Journal 25(6):60, 1983: the mean day's course of temperature,
// here stretched to run from 0 at its lowest to 1 at its highest.
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

/// Where an hour of the day stands in a daily series whose days stand at `anchor_h` o'clock.
struct DayPlace {
  int from = 0;  ///< days after its own; the next one follows
  double part = 0.0;
};
using DayPlaces = std::array<DayPlace, 24>;

template <typename HourOf>
DayPlaces places_of(HourOf hour_of, double anchor_h) {
  DayPlaces places;
  for (int h = 0; h < 24; ++h) {
    const double x = (hour_of(h) - anchor_h) / 24.0;
    places[static_cast<std::size_t>(h)] = {static_cast<int>(std::floor(x)), x - std::floor(x)};
  }
  return places;
}

/// A daily series. The year is a ring: its ends stand also before its start and after its end.
class DaySeries {
 public:
  double& operator[](std::size_t day) { return days_[day + kEnd]; }
  double operator[](std::size_t day) const { return days_[day + kEnd]; }
  /// Once all days are set: those beyond the ends.
  void close() {
    std::copy_n(days_.end() - 2 * kEnd, kEnd, days_.begin());
    std::copy_n(days_.begin() + kEnd, kEnd, days_.end() - kEnd);
  }
  /// Between its days.
  [[nodiscard]] double at(std::size_t day, const DayPlace& place) const {
    const double* from = days_.data() + kEnd + static_cast<int>(day) + place.from;
    return from[0] + place.part * (from[1] - from[0]);
  }

 private:
  static constexpr long kEnd = 4;  // an hour of one day lies within two days of another's
  std::vector<double> days_ = std::vector<double>(kDays + 2 * kEnd);
};

struct DayNoise {
  std::vector<double> high;
  std::vector<double> low;
};

// Richardson, Water Resources Research 17(1):182, 1981: deviations of daily maximum, minimum and
// radiation as one autoregression x = A x' + B e (matrices as in Richardson and Wright 1984). Here
// the radiation is already drawn, so the shocks e are drawn under the condition that they give it.
DayNoise draw_noise(const AirPlan& plan) {
  constexpr double a[3][3] = {
      {0.567, 0.086, -0.002}, {0.253, 0.504, -0.050}, {-0.006, -0.039, 0.244}};
  constexpr double b[3][3] = {{0.781, 0.0, 0.0}, {0.328, 0.637, 0.0}, {0.238, -0.341, 0.873}};
  constexpr double row_square = 0.238 * 0.238 + 0.341 * 0.341 + 0.873 * 0.873;
  DayNoise noise{std::vector<double>(kDays), std::vector<double>(kDays)};
  Chance chance(plan.seed, Stream::kTemperature, 0);
  std::array<double, 3> x{};
  for (int run = -30; run < kDays; ++run) {  // a month before the year wears the start off
    const auto day = static_cast<std::size_t>((run + kDays) % kDays);
    std::array<double, 3> drift{};
    for (std::size_t i = 0; i < 3; ++i) {
      for (std::size_t j = 0; j < 3; ++j) drift[i] += a[i][j] * x[j];
    }
    std::array<double, 3> e = {chance.normal(), chance.normal(), chance.normal()};
    const double wanted = plan.day_score[day] - drift[2];
    const double given = b[2][0] * e[0] + b[2][1] * e[1] + b[2][2] * e[2];
    for (std::size_t i = 0; i < 3; ++i) e[i] += b[2][i] * (wanted - given) / row_square;
    x = {
        drift[0] + b[0][0] * e[0], drift[1] + b[1][0] * e[0] + b[1][1] * e[1], plan.day_score[day]};
    if (run < 0) continue;
    noise.high[day] = x[0];
    noise.low[day] = x[1];
  }
  return noise;
}

// How far days stray from their month's mean: more where seasons differ more. Our own choice, no
// source: 1 K plus 9 % of the year's range of monthly means.
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

/// The course of the temperature through the days: highs hang at the warmest hour and lows at the
/// coolest one, each series running on from day to day, so that midnight has no step.
class DayTemperatures {
 public:
  explicit DayTemperatures(const AirPlan& plan)
      : deviation_K_(day_deviation_K(plan.normals)), noise_(draw_noise(plan)) {
    const auto hour_of = [&](int h) { return solar_hour(plan.normals.place, h); };
    warmest_ = places_of(hour_of, kWarmest_h);
    coolest_ = places_of(hour_of, kCoolest_h);
    for (int h = 0; h < 24; ++h) course_[static_cast<std::size_t>(h)] = day_course(hour_of(h));
  }

  /// Hour by hour from months' mean highs and lows [K].
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

/// Month means of the days' highest and lowest dry bulb.
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

// Plain means over all hours, as normals are defined.
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

void make_temperature(const AirPlan& plan, std::vector<WeatherHour>& hours) {
  DayTemperatures days(plan);
  Months high = plan.normals.dry_bulb_max_K;
  Months low = plan.normals.dry_bulb_min_K;
  std::vector<double> hours_K(kHours);
  for (int pass = 0; pass < kPasses; ++pass) {
    days.fill(high, low, hours_K);
    const Extremes got = month_extremes(hours_K);
    const Months high_before = high;
    const Months low_before = low;
    for (std::size_t m = 0; m < 12; ++m) {
      high[m] += 0.7 * (plan.normals.dry_bulb_max_K[m] - got.high[m]);
      low[m] += 0.7 * (plan.normals.dry_bulb_min_K[m] - got.low[m]);
    }
    if (high == high_before && low == low_before) break;  // another pass would change nothing
  }
  for (std::size_t i = 0; i < hours.size(); ++i) hours[i].dry_bulb_K = hours_K[i];
}

// The day's dew point is that of its mean temperature at a humidity that is higher on cloudy days
// (by 12 % per standard deviation of clearness; our own choice, no source).
void make_humidity(const AirPlan& plan, std::vector<WeatherHour>& hours) {
  const DayPlaces places = places_of([](int h) { return h + 1.0; }, 12.0);
  std::vector<double> mean_K(kDays, 0.0);
  std::vector<double> cloudiness(kDays);
  std::vector<double> saturated_Pa(kHours);
  for (std::size_t i = 0; i < kHours; ++i) {
    mean_K[i / 24] += hours[i].dry_bulb_K / 24.0;
    saturated_Pa[i] = base::saturation_pressure_Pa(hours[i].dry_bulb_K);
  }
  for (std::size_t d = 0; d < kDays; ++d) cloudiness[d] = std::exp(-0.12 * plan.day_score[d]);
  Months level = plan.normals.relative_humidity;
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
      const double ratio = plan.normals.relative_humidity[m] / got[m];
      level[m] = std::clamp(level[m] * std::pow(ratio, 0.7), 0.02, 1.5);
    }
    if (level == before) break;
  }
}

// Speeds are Rayleigh distributed (Weibull, shape 2: Justus et al., Journal of Applied Meteorology
// 17:350, 1978) through an hourly autoregression of 0.9, with a daily course of 25 % that is
// highest three hours after solar noon (common practice, no source).
void make_wind(const AirPlan& plan, std::vector<WeatherHour>& hours) {
  constexpr double memory = 0.9;
  constexpr double course = 0.25;
  const double kick = std::sqrt(1.0 - memory * memory);
  Chance chance(plan.seed, Stream::kWind, 0);
  double state = chance.normal();
  std::array<double, 24> day_course{};
  for (int h = 0; h < 24; ++h) {
    const double phase = base::kTwoPi * (solar_hour(plan.normals.place, h) - 15.0) / 24.0;
    day_course[static_cast<std::size_t>(h)] = 1.0 + course * std::cos(phase);
  }
  for (std::size_t i = 0; i < kHours; ++i) {
    state = memory * state + kick * chance.normal();
    const double share = std::min(normal_cdf(state), 1.0 - 1e-12);
    hours[i].wind_ms = std::sqrt(-std::log(1.0 - share)) * day_course[i % 24];
  }
  const Months got = month_means([&](std::size_t i) { return hours[i].wind_ms; });
  for (int i = 0; i < kHours; ++i) {
    const std::size_t m = month_of_day(i / 24);
    double& wind_ms = hours[static_cast<std::size_t>(i)].wind_ms;
    wind_ms = std::min(kWindiest_ms, wind_ms * plan.normals.wind_ms[m] / got[m]);
  }
}

// Rain falls on the cloudiest days, in amounts that follow an exponential distribution (as in
// Richardson 1981), over four hours at any time of the day.
void make_rain(const AirPlan& plan, std::vector<WeatherHour>& hours) {
  if (!plan.normals.rain_given) return;
  constexpr std::array<double, 4> shower = {1.0 / 6.0, 1.0 / 3.0, 1.0 / 3.0, 1.0 / 6.0};
  for (WeatherHour& hour : hours) hour.precipitation_m = 0.0;
  for (std::size_t m = 0; m < 12; ++m) {
    if (plan.normals.rain_m[m] <= 0.0) continue;
    std::vector<int> days(static_cast<std::size_t>(kMonthStart[m + 1] - kMonthStart[m]));
    std::iota(days.begin(), days.end(), kMonthStart[m]);
    std::stable_sort(days.begin(), days.end(), [&](int a, int b) {
      return plan.day_clearness[static_cast<std::size_t>(a)] <
             plan.day_clearness[static_cast<std::size_t>(b)];
    });
    const long wanted = std::max(1L, std::lround(plan.normals.rain_days[m]));
    days.resize(std::min(days.size(), static_cast<std::size_t>(wanted)));
    Chance chance(plan.seed, Stream::kRain, m);
    std::vector<double> amounts(days.size());
    for (double& amount : amounts) amount = -std::log(1.0 - chance.uniform()) + 0.05;
    const double total = std::accumulate(amounts.begin(), amounts.end(), 0.0);
    for (std::size_t k = 0; k < days.size(); ++k) {
      const int first = static_cast<int>(chance.uniform() * 21.0);
      for (std::size_t h = 0; h < shower.size(); ++h) {
        const auto at = static_cast<std::size_t>(days[k] * 24 + first) + h;
        hours[at].precipitation_m = plan.normals.rain_m[m] * amounts[k] / total * shower[h];
      }
    }
  }
}
}  // namespace ovendays::weather
