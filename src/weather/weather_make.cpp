// SPDX-License-Identifier: MIT
#include "ovendays/weather/weather_make.h"

#include "make_air.h"
#include "make_radiation.h"
#include "ovendays/base/air.h"
#include "random_draws.h"
#include "text_scan.h"

namespace ovendays::weather {
namespace {
// Standard normal deviates of the days' clearness within their month; 0 during a polar night.
std::vector<double> day_scores(const std::vector<double>& days,
                               const std::array<double, 12>& months) {
  std::vector<double> scores;
  scores.reserve(kDays);
  for (std::size_t m = 0; m < 12; ++m) {
    const std::vector<double> month(days.begin() + kMonthStart[m],
                                    days.begin() + kMonthStart[m + 1]);
    const std::vector<double> part =
        months[m] > 0.0 ? normal_scores(month) : std::vector<double>(month.size(), 0.0);
    scores.insert(scores.end(), part.begin(), part.end());
  }
  return scores;
}

std::vector<WeatherHour> bare_hours(const MonthlyNormals& normals,
                                    const std::vector<MadeIrradiance>& sun) {
  const double pressure_Pa = base::standard_pressure_Pa(normals.place.elevation_m);
  std::vector<WeatherHour> hours(kHours);
  for (int i = 0; i < kHours; ++i) {
    const auto at = static_cast<std::size_t>(i);
    WeatherHour& hour = hours[at];
    hour.date = base::date_from_day_index_365(i / 24, kMadeYear);
    hour.start_s = (i % 24) * 3600.0;
    hour.sun_s = 1800.0;
    hour.met_s = 3600.0;
    hour.ghi_Wm2 = sun[at].ghi_Wm2;
    hour.dni_Wm2 = sun[at].dni_Wm2;
    hour.dhi_Wm2 = sun[at].dhi_Wm2;
    hour.pressure_Pa = pressure_Pa;
    hour.albedo = normals.albedo[static_cast<std::size_t>(hour.date.month - 1)];
  }
  return hours;
}
}  // namespace

WeatherYear make_weather(const MonthlyNormals& normals, std::uint64_t seed) {
  const std::vector<SunHour> suns = sun_hours(normals.place);
  const std::array<double, 12> months = month_clearness(normals.ghi_kWhm2day, suns);
  const std::vector<double> days = draw_days(months, suns, seed);
  WeatherYear year;
  year.format = WeatherFormat::kEpw;
  year.file = normals.file;
  year.place = normals.place;
  year.hours = bare_hours(normals, draw_hours(normals, suns, days, seed));
  year.hours_in_file = kHours;
  const AirInputs inputs{normals, days, day_scores(days, months), seed};
  make_temperature(inputs, year.hours);
  make_humidity(inputs, year.hours);
  make_wind(inputs, year.hours);
  make_rain(inputs, year.hours);
  year.notes.push_back(
      {0, "made from monthly normals with seed " + std::to_string(seed) + "; not measured"});
  return year;
}
}  // namespace ovendays::weather
