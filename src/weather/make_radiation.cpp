// SPDX-License-Identifier: MIT
#include "make_radiation.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "chance.h"
#include "markov_tables.h"
#include "ovendays/base/constants.h"

namespace ovendays::weather {
namespace {
constexpr int kSubInstants = 6;  // an hour's sun is the mean of its six ten-minute middles
constexpr int kDrawsPerMonth = 400;
constexpr double kGoodMonth = 0.002;  // relative; a draw this close to its month needs no other
constexpr int kRedraws = 20;
constexpr double kLeastClearness = 0.01;

// W/m2 hour, that is Wh/m2: hours have the same length.
double day_extraterrestrial(const std::vector<SunHour>& suns, int day) {
  double sum = 0.0;
  for (int h = 0; h < 24; ++h) {
    sum +=
        suns[static_cast<std::size_t>(day) * 24 + static_cast<std::size_t>(h)].extraterrestrial_Wm2;
  }
  return sum;
}

// The library holds one matrix for each range of the month's mean.
std::size_t class_of(double month_mean) {
  std::size_t c = 0;
  while (c + 1 < kClearnessLibrary.size() && month_mean > kClearnessLibrary[c].month_most) ++c;
  return c;
}

// The next day's clearness: a state by the row's probabilities, and a place within the state.
double next_day(const ClearnessClass& table, double today, Chance& chance) {
  const double width = (table.most - table.least) / kClearnessStates;
  const int state = std::clamp(
      static_cast<int>(std::floor((today - table.least) / width)), 0, kClearnessStates - 1);
  const auto& row = table.probability[static_cast<std::size_t>(state)];
  double total = 0.0;
  for (const double p : row) total += p;
  double left = chance.uniform() * total;
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

// Many sequences are drawn and the one nearest to the month's mean kept; what is left is scaled.
std::vector<double> draw_month(
    double mean, double yesterday, std::span<const double> weights, std::uint64_t seed, int month) {
  const ClearnessClass& table = kClearnessLibrary[class_of(mean)];
  std::vector<double> best;
  double best_gap = 1e9;
  std::vector<double> days(weights.size());
  for (int draw = 0; draw < kDrawsPerMonth && best_gap > kGoodMonth * mean; ++draw) {
    Chance chance(
        seed, Stream::kDayClearness, static_cast<std::uint64_t>(month * kDrawsPerMonth + draw));
    double today = yesterday;
    for (double& day : days) day = today = next_day(table, today, chance);
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

// Aguiar and Collares-Pereira 1992: mean and spread of an hour's clearness in a day of clearness K.
struct HourModel {
  double mean;
  double deviation;
  double clear;  ///< most
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

// Draws outside 0..clear are drawn again, as the model's authors do, but not for ever: a dull or a
// brilliant day can have hours whose mean lies at the limit itself.
std::array<double, 24> draw_day_shape(double day, std::span<const SunHour> suns, Chance& chance) {
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
      next = phi * y + kick * chance.normal();
      clearness = model.mean + model.deviation * next;
    }
    y = next;
    shape[h] = std::clamp(clearness, kLeastClearness, model.clear);
  }
  return shape;
}

// Scales the hours to the day's energy, none above its clear value.
std::array<double, 24> scaled_day(double day,
                                  const std::array<double, 24>& shape,
                                  std::span<const SunHour> suns) {
  double target = 0.0;
  for (const SunHour& sun : suns) target += day * sun.extraterrestrial_Wm2;
  std::array<double, 24> hours{};
  const auto scaled = [&](double factor) {
    double sum = 0.0;
    for (std::size_t h = 0; h < 24; ++h) {
      const double clear = 0.88 * std::cos(0.4 * suns[h].hour_angle_rad);
      hours[h] = std::min(clear, factor * shape[h]);
      sum += hours[h] * suns[h].extraterrestrial_Wm2;
    }
    return sum;
  };
  double low = 0.0;
  double high = 1000.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (scaled(middle) < target ? low : high) = middle;
  }
  scaled(0.5 * (low + high));
  return hours;
}

// Hottel, Solar Energy 18:129, 1976: beam transmittance of a clear standard atmosphere, 23 km
// visibility, up to 2.5 km. Air can be clearer than that: a tenth more is let through.
double most_beam_Wm2(const SunHour& sun, double elevation_m) {
  const double km = std::clamp(elevation_m / 1000.0, 0.0, 2.5);
  const double a0 = 0.4237 - 0.00821 * (6.0 - km) * (6.0 - km);
  const double a1 = 0.5055 + 0.00595 * (6.5 - km) * (6.5 - km);
  const double k = 0.2711 + 0.01858 * (2.5 - km) * (2.5 - km);
  const double cos_z = std::max(0.01, sun.mean_cos / sun.up);
  return 1.1 * sun.normal_Wm2 * (a0 + a1 * std::exp(-k / cos_z));
}

// While the sun is up, beam by its mean cosine there gives the energy that was split off; the
// hour's beam is its mean over the whole hour, as in measured years, of which the sun is up a part
// at dawn and dusk.
MadeIrradiance split(double clearness, const SunHour& sun, double elevation_m) {
  MadeIrradiance made;
  if (sun.extraterrestrial_Wm2 <= 0.0) return made;
  made.ghi_Wm2 = clearness * sun.extraterrestrial_Wm2;
  const double beam = made.ghi_Wm2 * (1.0 - erbs_diffuse_part(clearness));
  const double while_up_Wm2 = std::min(beam / sun.mean_cos, most_beam_Wm2(sun, elevation_m));
  made.dni_Wm2 = sun.up * while_up_Wm2;
  made.dhi_Wm2 = made.ghi_Wm2 - while_up_Wm2 * sun.mean_cos;
  return made;
}
}  // namespace

double erbs_diffuse_part(double clearness) {
  const double k = clearness;
  if (k <= 0.22) return 1.0 - 0.09 * k;
  if (k > 0.80) return 0.165;
  return 0.9511 - 0.1604 * k + 4.388 * k * k - 16.638 * k * k * k + 12.336 * k * k * k * k;
}

std::vector<SunHour> sun_hours(const sun::Place& place) {
  std::vector<SunHour> suns(kHours);
  for (int i = 0; i < kHours; ++i) {
    SunHour& hour = suns[static_cast<std::size_t>(i)];
    const base::Date date = base::date_from_day_index_365(i / 24, kMadeYear);
    const double start_s = (i % 24) * 3600.0;
    const base::UtcTime middle = base::utc_from_local(date, start_s + 1800.0, place.utc_offset_s);
    for (int k = 0; k < kSubInstants; ++k) {
      const double offset_s = (k + 0.5) * 3600.0 / kSubInstants - 1800.0;
      const auto sun = sun::sun_position({middle.unix_s + offset_s}, place);
      const double cos_z = std::max(0.0, std::cos(sun.zenith_rad));
      hour.mean_cos += cos_z / kSubInstants;
      hour.up += cos_z > 0.0 ? 1.0 / kSubInstants : 0.0;
      hour.normal_Wm2 = sun::extraterrestrial_normal_Wm2(sun.distance_au);
    }
    hour.extraterrestrial_Wm2 = hour.normal_Wm2 * hour.mean_cos;
    const auto sun = sun::sun_position(middle, place);
    const double solar_s = middle.unix_s - 43200.0 + sun.equation_of_time_s;
    hour.hour_angle_rad = std::remainder(
        solar_s * base::kTwoPi / base::kSecondsPerDay + place.longitude_rad, base::kTwoPi);
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
    std::vector<std::array<double, 24>> shapes(count);
    for (std::size_t d = 0; d < count; ++d) {
      Chance chance(seed, Stream::kHourClearness, first + d);
      const std::span day_suns(suns.data() + (first + d) * 24, 24);
      shapes[d] = draw_day_shape(days[first + d], day_suns, chance);
    }
    // Days that cannot reach their energy below the clear limit leave the month short: the others
    // are raised until the month's sum is right.
    const double target_Whm2 = 1000.0 * normals.ghi_kWhm2day[m] * static_cast<double>(count);
    double factor = 1.0;
    for (int pass = 0; pass < 8; ++pass) {
      double sum_Whm2 = 0.0;
      for (std::size_t d = 0; d < count; ++d) {
        const std::span day_suns(suns.data() + (first + d) * 24, 24);
        const auto clearness = scaled_day(factor * days[first + d], shapes[d], day_suns);
        for (std::size_t h = 0; h < 24; ++h) {
          const MadeIrradiance made = split(clearness[h], day_suns[h], normals.place.elevation_m);
          hours[(first + d) * 24 + h] = made;
          sum_Whm2 += made.ghi_Wm2;
        }
      }
      if (sum_Whm2 <= 0.0) break;
      factor *= target_Whm2 / sum_Whm2;
    }
  }
  return hours;
}
}  // namespace ovendays::weather
