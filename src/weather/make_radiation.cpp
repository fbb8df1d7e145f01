// SPDX-License-Identifier: MIT
#include "make_radiation.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "markov_tables.h"
#include "ovendays/base/constants.h"
#include "random_draws.h"

namespace ovendays::weather {
namespace {
constexpr int kSubInstants = 6;  // the sun of an hour is averaged over six ten-minute intervals
constexpr int kDrawsPerMonth = 400;
constexpr double kGoodMonth =
    0.002;  // a draw this close to the month's mean (relative) is accepted
constexpr int kRedraws = 20;
constexpr double kLeastClearness = 0.01;

// Extraterrestrial radiation of a day [Wh/m2], the sum of its hourly means.
double day_extraterrestrial(const std::vector<SunHour>& suns, int day) {
  double sum = 0.0;
  for (int h = 0; h < 24; ++h) {
    sum +=
        suns[static_cast<std::size_t>(day) * 24 + static_cast<std::size_t>(h)].extraterrestrial_Wm2;
  }
  return sum;
}

// Index of the matrix whose range of monthly means contains `month_mean`.
std::size_t class_of(double month_mean) {
  std::size_t c = 0;
  while (c + 1 < kClearnessLibrary.size() && month_mean > kClearnessLibrary[c].month_most) ++c;
  return c;
}

// Draws the clearness of the next day: a state by the probabilities of the matrix row, and a
// uniform position within the state.
double next_day(const ClearnessClass& table, double today, RandomDraws& draws) {
  const double width = (table.most - table.least) / kClearnessStates;
  const int state = std::clamp(
      static_cast<int>(std::floor((today - table.least) / width)), 0, kClearnessStates - 1);
  const auto& row = table.probability[static_cast<std::size_t>(state)];
  double total = 0.0;
  for (const double p : row) total += p;
  double left = draws.uniform() * total;
  for (std::size_t next = 0; next < row.size(); ++next) {
    if (left < row[next]) {
      return table.least + width * (static_cast<double>(next) + left / row[next]);
    }
    left -= row[next];
  }
  return table.most;
}

double weighted_mean(std::span<const double> values, std::span<const double> weights) {
  double sum = 0.0;
  double weight = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    sum += weights[i] * values[i];
    weight += weights[i];
  }
  return weight > 0.0 ? sum / weight : 0.0;
}

// Draws many sequences for a month, keeps the one whose mean is nearest to the month's, and scales
// the remaining difference away.
std::vector<double> draw_month(
    double mean, double yesterday, std::span<const double> weights, std::uint64_t seed, int month) {
  const ClearnessClass& table = kClearnessLibrary[class_of(mean)];
  std::vector<double> best;
  double best_gap = 1e9;
  std::vector<double> days(weights.size());
  for (int draw = 0; draw < kDrawsPerMonth && best_gap > kGoodMonth * mean; ++draw) {
    RandomDraws draws(
        seed, Stream::kDayClearness, static_cast<std::uint64_t>(month * kDrawsPerMonth + draw));
    double today = yesterday;
    for (double& day : days) day = today = next_day(table, today, draws);
    const double gap = std::fabs(weighted_mean(days, weights) - mean);
    if (gap < best_gap) {
      best_gap = gap;
      best = days;
    }
  }
  const double factor = mean / weighted_mean(best, weights);
  for (double& day : best) day = std::clamp(day * factor, kLeastClearness, table.most);
  return best;
}

// Aguiar and Collares-Pereira 1992: distribution of an hour's clearness on a day of given
// clearness.
struct HourModel {
  double mean;
  double deviation;
  double clear;  ///< upper limit
};

HourModel hour_model(double day, const SunHour& sun) {
  const double sin_h = sun.mean_cos / sun.up;
  const double lambda = -0.19 + 1.12 * day + 0.24 * std::exp(-8.0 * day);
  const double epsilon = 0.32 - 1.6 * (day - 0.5) * (day - 0.5);
  const double kappa = 0.19 + 2.27 * day * day - 2.51 * day * day * day;
  const double a = 0.14 * std::exp(-20.0 * (day - 0.35) * (day - 0.35));
  const double b = 3.0 * (day - 0.45) * (day - 0.45) + 16.0 * std::pow(day, 5.0);
  // cos(pi (h - 12.5) / 30) with the solar hour h is the cosine of 0.4 of the hour angle.
  return {lambda + epsilon * std::exp(-kappa / sin_h),
          a * std::exp(b * (1.0 - sin_h)),
          0.88 * std::cos(0.4 * sun.hour_angle_rad)};
}

// Draws the clearness of the hours of a day. A value outside 0..clear is drawn again, as in the
// paper, but only kRedraws times: on very dull and very clear days the mean itself may be at the
// limit.
std::array<double, 24> draw_day_shape(double day,
                                      std::span<const SunHour> suns,
                                      RandomDraws& draws) {
  const double phi = 0.38 + 0.06 * std::cos(7.4 * day - 2.5);
  const double kick = std::sqrt(1.0 - phi * phi);
  std::array<double, 24> shape{};
  double y = 0.0;
  for (std::size_t h = 0; h < 24; ++h) {
    if (suns[h].up <= 0.0) continue;
    const HourModel model = hour_model(day, suns[h]);
    double clearness = -1.0;
    double next = 0.0;
    for (int draw = 0; draw < kRedraws && (clearness < 0.0 || clearness > model.clear); ++draw) {
      next = phi * y + kick * draws.normal();
      clearness = model.mean + model.deviation * next;
    }
    y = next;
    shape[h] = std::clamp(clearness, kLeastClearness, model.clear);
  }
  return shape;
}

// The hours of a day with the sun up, with what is needed to scale them to the day's energy.
struct LitHours {
  std::size_t count = 0;
  std::array<double, 24> shape{};  ///< clearness as drawn
  std::array<double, 24> clear{};  ///< upper limit of the clearness
  std::array<double, 24> extraterrestrial_Wm2{};
  std::array<std::size_t, 24> hour{};  ///< of the day

  void add(std::size_t its_hour, double its_shape, const SunHour& sun) {
    hour[count] = its_hour;
    shape[count] = its_shape;
    clear[count] = 0.88 * std::cos(0.4 * sun.hour_angle_rad);
    extraterrestrial_Wm2[count++] = sun.extraterrestrial_Wm2;
  }
  [[nodiscard]] double clearness(std::size_t i, double factor) const {
    return std::min(clear[i], factor * shape[i]);
  }
  /// Energy of the day when every hour is scaled by `factor`. Monotonic in the factor, even with
  /// rounding, which the bisection below relies on.
  [[nodiscard]] double energy_Whm2(double factor) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < count; ++i) sum += clearness(i, factor) * extraterrestrial_Wm2[i];
    return sum;
  }
};

LitHours lit_hours(double day, std::span<const SunHour> suns, RandomDraws& draws) {
  const std::array<double, 24> shape = draw_day_shape(day, suns, draws);
  LitHours lit;
  for (std::size_t h = 0; h < 24; ++h) {
    if (suns[h].extraterrestrial_Wm2 > 0.0) lit.add(h, shape[h], suns[h]);
  }
  return lit;
}

// The factor on the hours that gives the day its energy, with every hour capped at its clear value.
// The factor stays at its upper bound if the day cannot reach its energy.
double day_factor(double day, const LitHours& lit) {
  double target = 0.0;
  for (std::size_t i = 0; i < lit.count; ++i) target += day * lit.extraterrestrial_Wm2[i];
  double low = 0.0;
  double high = 1000.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (lit.energy_Whm2(middle) < target ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

// Hottel, Solar Energy 18:129, 1976: beam transmittance of a clear standard atmosphere with 23 km
// visibility, for sites up to 2.5 km. A tenth more is allowed, because air can be clearer than
// that.
double most_beam_Wm2(const SunHour& sun, double elevation_m) {
  const double km = std::clamp(elevation_m / 1000.0, 0.0, 2.5);
  const double a0 = 0.4237 - 0.00821 * (6.0 - km) * (6.0 - km);
  const double a1 = 0.5055 + 0.00595 * (6.5 - km) * (6.5 - km);
  const double k = 0.2711 + 0.01858 * (2.5 - km) * (2.5 - km);
  const double cos_z = std::max(0.01, sun.mean_cos / sun.up);
  return 1.1 * sun.normal_Wm2 * (a0 + a1 * std::exp(-k / cos_z));
}

// Splits global irradiance into beam and diffuse. While the sun is up, the beam times the mean
// cosine gives the horizontal beam energy. The DNI of an hour is the mean over the whole hour, as
// in measured years, so at dawn and dusk it is reduced by the fraction of the hour with the sun up.
MadeIrradiance split(double clearness, const SunHour& sun, double elevation_m) {
  MadeIrradiance made;
  if (sun.extraterrestrial_Wm2 <= 0.0) return made;
  made.ghi_Wm2 = clearness * sun.extraterrestrial_Wm2;
  const double beam = made.ghi_Wm2 * (1.0 - erbs_diffuse_fraction(clearness));
  const double while_up_Wm2 = std::min(beam / sun.mean_cos, most_beam_Wm2(sun, elevation_m));
  made.dni_Wm2 = sun.up * while_up_Wm2;
  made.dhi_Wm2 = made.ghi_Wm2 - while_up_Wm2 * sun.mean_cos;
  return made;
}

// The factor of each day on its hours. Days that cannot reach their energy within the clear limit
// leave the month short, so the other days are raised until the sum of the month is right.
std::vector<double> month_factors(double target_Whm2,
                                  std::span<const double> days,
                                  const std::vector<LitHours>& lit) {
  constexpr int kMonthPasses = 8;
  std::vector<double> factors(days.size(), 0.0);
  double raised = 1.0;
  for (int pass = 0; pass < kMonthPasses; ++pass) {
    double sum_Whm2 = 0.0;
    for (std::size_t d = 0; d < days.size(); ++d) {
      factors[d] = day_factor(raised * days[d], lit[d]);
      for (std::size_t i = 0; i < lit[d].count; ++i)
        sum_Whm2 += lit[d].clearness(i, factors[d]) * lit[d].extraterrestrial_Wm2[i];
    }
    if (sum_Whm2 <= 0.0) break;
    const double before = raised;
    raised *= target_Whm2 / sum_Whm2;
    if (raised == before) break;  // converged
  }
  return factors;
}
}  // namespace

double erbs_diffuse_fraction(double clearness) {
  const double k = clearness;
  if (k <= 0.22) return 1.0 - 0.09 * k;
  if (k > 0.80) return 0.165;
  return 0.9511 - 0.1604 * k + 4.388 * k * k - 16.638 * k * k * k + 12.336 * k * k * k * k;
}

std::vector<SunHour> sun_hours(const sun::Place& place) {
  // If the sun is lower than this in the middle of an hour, it is down for the whole hour: half an
  // hour moves it by at most 7.5 deg, and refraction lifts it by less than a degree.
  constexpr double kNightZenith_rad = 99.0 * base::kRadPerDeg;
  std::vector<SunHour> suns(kHours);
  for (int i = 0; i < kHours; ++i) {
    SunHour& hour = suns[static_cast<std::size_t>(i)];
    const base::Date date = base::date_from_day_index_365(i / 24, kMadeYear);
    const double start_s = (i % 24) * 3600.0;
    const base::UtcTime middle = base::utc_from_local(date, start_s + 1800.0, place.utc_offset_s);
    const auto middle_sun = sun::sun_position(middle, place);
    const double solar_s = middle.unix_s - 43200.0 + middle_sun.equation_of_time_s;
    hour.hour_angle_rad = std::remainder(
        solar_s * base::kTwoPi / base::kSecondsPerDay + place.longitude_rad, base::kTwoPi);
    hour.normal_Wm2 = sun::extraterrestrial_normal_Wm2(middle_sun.distance_au);
    if (middle_sun.zenith_rad > kNightZenith_rad) continue;
    for (int k = 0; k < kSubInstants; ++k) {
      const double offset_s = (k + 0.5) * 3600.0 / kSubInstants - 1800.0;
      const sun::SunZenith sun = sun::sun_zenith({middle.unix_s + offset_s}, place);
      const double cos_z = std::max(0.0, std::cos(sun.zenith_rad));
      hour.mean_cos += cos_z / kSubInstants;
      hour.up += cos_z > 0.0 ? 1.0 / kSubInstants : 0.0;
      hour.normal_Wm2 = sun::extraterrestrial_normal_Wm2(sun.distance_au);
    }
    hour.extraterrestrial_Wm2 = hour.normal_Wm2 * hour.mean_cos;
  }
  return suns;
}

std::array<double, 12> month_clearness(const std::array<double, 12>& ghi_kWhm2day,
                                       const std::vector<SunHour>& suns) {
  std::array<double, 12> months{};
  for (std::size_t m = 0; m < 12; ++m) {
    double sum_Whm2 = 0.0;
    for (int day = kMonthStart[m]; day < kMonthStart[m + 1]; ++day) {
      sum_Whm2 += day_extraterrestrial(suns, day);
    }
    const int days = kMonthStart[m + 1] - kMonthStart[m];
    if (sum_Whm2 > 0.0) months[m] = 1000.0 * ghi_kWhm2day[m] * days / sum_Whm2;
  }
  return months;
}

std::vector<double> draw_days(const std::array<double, 12>& months,
                              const std::vector<SunHour>& suns,
                              std::uint64_t seed) {
  std::vector<double> days;
  days.reserve(kDays);
  double yesterday = months[0];
  for (std::size_t m = 0; m < 12; ++m) {
    std::vector<double> weights;
    for (int day = kMonthStart[m]; day < kMonthStart[m + 1]; ++day) {
      weights.push_back(day_extraterrestrial(suns, day));
    }
    if (months[m] <= 0.0) {
      days.insert(days.end(), weights.size(), 0.0);
      continue;
    }
    const std::vector<double> drawn =
        draw_month(months[m], yesterday, weights, seed, static_cast<int>(m));
    days.insert(days.end(), drawn.begin(), drawn.end());
    yesterday = days.back();
  }
  return days;
}

std::vector<MadeIrradiance> draw_hours(const MonthlyNormals& normals,
                                       const std::vector<SunHour>& suns,
                                       const std::vector<double>& days,
                                       std::uint64_t seed) {
  std::vector<MadeIrradiance> hours(kHours);
  for (std::size_t m = 0; m < 12; ++m) {
    const auto count = static_cast<std::size_t>(kMonthStart[m + 1] - kMonthStart[m]);
    const auto first = static_cast<std::size_t>(kMonthStart[m]);
    const auto suns_of = [&](std::size_t d) {
      return std::span(suns.data() + (first + d) * 24, 24);
    };
    std::vector<LitHours> lit(count);
    for (std::size_t d = 0; d < count; ++d) {
      RandomDraws draws(seed, Stream::kHourClearness, first + d);
      lit[d] = lit_hours(days[first + d], suns_of(d), draws);
    }
    const double target_Whm2 = 1000.0 * normals.ghi_kWhm2day[m] * static_cast<double>(count);
    const std::vector<double> factors =
        month_factors(target_Whm2, std::span(days).subspan(first, count), lit);
    for (std::size_t d = 0; d < count; ++d) {
      for (std::size_t i = 0; i < lit[d].count; ++i) {
        const std::size_t h = lit[d].hour[i];
        hours[(first + d) * 24 + h] =
            split(lit[d].clearness(i, factors[d]), suns_of(d)[h], normals.place.elevation_m);
      }
    }
  }
  return hours;
}
}  // namespace ovendays::weather
