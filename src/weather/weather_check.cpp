// SPDX-License-Identifier: MIT
#include "ovendays/weather/weather_check.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"
#include "text_scan.h"

namespace ovendays::weather {
namespace {
const double kSineOf5deg = std::sin(5.0 * base::kRadPerDeg);
constexpr double kClosureAbsolute_Wm2 = 15.0;
constexpr double kClosureRelative = 0.15;
constexpr double kNightFloor_Wm2 = 5.0;
// The mean of an hour and the instant in its middle differ most if the sun is low. These margins
// cover the difference.
constexpr double kExtraterrestrialMargin = 1.03;
constexpr double kExtraterrestrialMargin_Wm2 = 10.0;
constexpr double kShapeTolerance_s = 2700.0;
constexpr int kStuckHours = 24;
constexpr double kMostRainInAYear_m = 5.0;

struct Finding {
  double severity = 0.0;
  WeatherNote note;
};

struct HourTally {
  int hours = 0;
  int first_line = 0;
  void count(const WeatherHour& hour) {
    if (hours++ == 0) first_line = hour.line;
  }
};

// Hours are assigned to months by their date, so that the 24:00 row of a TMY3 file counts in the
// month that ends, as in published sums.
std::array<MonthSums, 13> month_sums(const WeatherYear& year) {
  std::array<MonthSums, 13> sums;
  for (const WeatherHour& hour : year.hours) {
    for (const std::size_t m : {static_cast<std::size_t>(hour.date.month - 1), std::size_t{12}}) {
      MonthSums& month = sums[m];
      const bool first = month.hours == 0;
      ++month.hours;
      month.ghi_kWhm2 += hour.ghi_Wm2 * hour.length_s / base::kJoulesPerKWh;
      month.dni_kWhm2 += hour.dni_Wm2 * hour.length_s / base::kJoulesPerKWh;
      month.dhi_kWhm2 += hour.dhi_Wm2 * hour.length_s / base::kJoulesPerKWh;
      month.dry_bulb_mean_K += hour.dry_bulb_K;
      month.wind_mean_ms += hour.wind_ms;
      month.dry_bulb_min_K =
          first ? hour.dry_bulb_K : std::min(month.dry_bulb_min_K, hour.dry_bulb_K);
      month.dry_bulb_max_K =
          first ? hour.dry_bulb_K : std::max(month.dry_bulb_max_K, hour.dry_bulb_K);
    }
  }
  for (MonthSums& month : sums) {
    if (month.hours == 0) continue;
    month.dry_bulb_mean_K /= month.hours;
    month.wind_mean_ms /= month.hours;
  }
  return sums;
}

struct SunTallies {
  HourTally closure;
  HourTally night;
  HourTally beyond;
};

// Start, middle and end are enough to check, because the sun does not rise and set within an hour.
bool sun_down_all_hour(const WeatherHour& hour, const sun::Place& place) {
  constexpr double kDiscEdge_rad = 0.2667 * base::kRadPerDeg;  // radius of the disc
  for (const double part : {0.0, 0.5, 1.0}) {
    const base::UtcTime time =
        base::utc_from_local(hour.date, hour.start_s + part * hour.length_s, place.utc_offset_s);
    const sun::SunPosition sun = sun::sun_position(time, place);
    if (sun.zenith_rad < 0.5 * base::kPi + kDiscEdge_rad) return false;
  }
  return true;
}

// Closure and physical limits are tested if the sun is high enough for the mean of the hour to
// agree with the sun in its middle. Night is tested if the sun is certainly down. The hours between
// are not tested: real files have a little light there, and no result depends on it.
void test_hour(const WeatherHour& hour,
               const sun::Place& place,
               WeatherCheck& check,
               SunTallies& tallies) {
  const sun::SunPosition sun = sun::sun_position(
      hour.sun_time(place.utc_offset_s), place, {hour.pressure_Pa, hour.dry_bulb_K});
  const double cos_z = std::cos(sun.zenith_rad);
  const bool shines = std::max(hour.ghi_Wm2, hour.dni_Wm2) > kNightFloor_Wm2;
  if (cos_z <= kSineOf5deg) {
    if (cos_z < 0.02 && shines && sun_down_all_hour(hour, place)) {
      tallies.night.count(hour);
      check.night_energy_kWhm2 += hour.ghi_Wm2 * hour.length_s / base::kJoulesPerKWh;
    }
    return;
  }
  ++check.closure_hours_tested;
  const double gap = std::fabs(hour.ghi_Wm2 - hour.dhi_Wm2 - hour.dni_Wm2 * cos_z);
  if (gap > kClosureAbsolute_Wm2 && gap > kClosureRelative * hour.ghi_Wm2) {
    tallies.closure.count(hour);
    check.closure_energy_failed_kWhm2 += gap * hour.length_s / base::kJoulesPerKWh;
  }
  const double normal = sun::extraterrestrial_normal_Wm2(sun.distance_au);
  const double most = normal * cos_z * kExtraterrestrialMargin + kExtraterrestrialMargin_Wm2;
  if (hour.ghi_Wm2 > most || hour.dhi_Wm2 > most || hour.dni_Wm2 > normal) {
    tallies.beyond.count(hour);
  }
}

// Whole minutes are as precise as the estimate, and the unit in which a case states its clock
// shift.
std::string minutes_text(double seconds) {
  return std::to_string(std::lround(seconds / 60.0)) + " min";
}

// Severities have no meaning beyond the order of the list. A clock error comes first, because it
// affects every hour; findings about energy follow by their share; mere peculiarities come last.
void find_clock_faults(const WeatherYear& year,
                       const ClockCheck& clock,
                       std::vector<Finding>& out) {
  if (!clock.possible) {
    out.push_back({40.0, {0, "too little sun in the file to check its clock"}});
    return;
  }
  if (clock.off) {
    const bool late = clock.shift_s < 0.0;
    out.push_back({1000.0,
                   {0,
                    std::string("the clock is off: the irradiance comes ") +
                        minutes_text(std::fabs(clock.shift_s)) + " too " +
                        (late ? "late" : "early") + " for the sun at this place (give or take " +
                        minutes_text(std::max(60.0, clock.uncertainty_s)) + "); a clock shift of " +
                        minutes_text(clock.shift_s) +
                        ", or another time zone or longitude, would bring them into step"}});
  }
  const double apart_s = clock.shape_shift_s - clock.shift_s;
  if (clock.by_closure && std::fabs(apart_s) > kShapeTolerance_s) {
    out.push_back(
        {300.0,
         {0,
          "the middle of clear days lies " + minutes_text(std::fabs(apart_s)) +
              (apart_s < 0.0 ? " after" : " before") +
              " solar noon though beam and diffuse close: the beam may have been computed "
              "with a wrong clock, or a hill shades one side"}});
  }
  const double zone_gap_h =
      year.place.utc_offset_s / 3600.0 - year.place.longitude_rad * base::kDegPerRad / 15.0;
  if (std::fabs(zone_gap_h) > 3.0) {
    out.push_back({clock.off ? 900.0 : 30.0,
                   {1,
                    "the time zone is " + number_text(std::round(zone_gap_h * 10.0) / 10.0) +
                        " h from the one that fits the longitude"}});
  }
}

void find_sun_faults(const SunTallies& tallies, WeatherCheck& check, std::vector<Finding>& out) {
  check.closure_hours_failed = tallies.closure.hours;
  check.night_hours_with_beam = tallies.night.hours;
  check.beyond_extraterrestrial_hours = tallies.beyond.hours;
  const double year_kWhm2 = std::max(1.0, check.months[12].ghi_kWhm2);
  const auto per_cent = [&](double kWhm2) {
    return number_text(std::round(1000.0 * kWhm2 / year_kWhm2) / 10.0) + " % of the year's energy";
  };
  if (tallies.closure.hours > 0) {
    const double share = check.closure_energy_failed_kWhm2 / year_kWhm2;
    out.push_back(
        {share > 0.01 ? 200.0 + 100.0 * share : 20.0,
         {tallies.closure.first_line,
          "global, diffuse and beam do not add up in " + hours_text(tallies.closure.hours) +
              " of " + std::to_string(check.closure_hours_tested) + ", " +
              per_cent(check.closure_energy_failed_kWhm2)}});
  }
  if (tallies.night.hours > 0) {
    const double share = check.night_energy_kWhm2 / year_kWhm2;
    const bool harmless = share < 5e-4;
    out.push_back({harmless ? 5.0 : 150.0 + 100.0 * share,
                   {tallies.night.first_line,
                    "irradiance while the sun is down in " + hours_text(tallies.night.hours) +
                        ", " + per_cent(check.night_energy_kWhm2) +
                        (harmless ? " (harmless: the edge of the day)" : "")}});
  }
  if (tallies.beyond.hours > 0) {
    out.push_back({tallies.beyond.hours > 20 ? 120.0 : 25.0,
                   {tallies.beyond.first_line,
                    "more irradiance than arrives outside the atmosphere in " +
                        hours_text(tallies.beyond.hours)}});
  }
}

// Finds values that do not change for a day or more: a stuck instrument, or a substituted constant.
template <typename Value>
void find_stuck(const WeatherYear& year, const char* name, Value value, std::vector<Finding>& out) {
  int run = 1;
  int longest = 1;
  int line = 0;
  for (std::size_t i = 1; i < year.hours.size(); ++i) {
    run = value(year.hours[i]) == value(year.hours[i - 1]) ? run + 1 : 1;
    if (run > longest) {
      longest = run;
      line = year.hours[i - static_cast<std::size_t>(run - 1)].line;
    }
  }
  if (longest < kStuckHours) return;
  const bool always = longest == static_cast<int>(year.hours.size());
  out.push_back({always ? 60.0 : 50.0,
                 {line,
                  std::string(name) + (always ? " is the same in every hour"
                                              : " does not change for " + hours_text(longest))}});
}

// The limits have some tolerance, because rounding and mixed sources often cause small
// contradictions.
void find_air_faults(const WeatherYear& year, std::vector<Finding>& out) {
  HourTally wet;
  HourTally diffuse;
  double pressure_Pa = 0.0;
  double rain_m = 0.0;
  for (const WeatherHour& hour : year.hours) {
    if (hour.dew_point_K > hour.dry_bulb_K + 1.0) wet.count(hour);
    if (hour.dhi_Wm2 > 1.05 * hour.ghi_Wm2 + 10.0) diffuse.count(hour);
    rain_m += hour.precipitation_m.value_or(0.0);
    pressure_Pa += hour.pressure_Pa / static_cast<double>(year.hours.size());
  }
  if (wet.hours > 0) {
    out.push_back({35.0,
                   {wet.first_line,
                    "dew point more than 1 K above the dry bulb in " + hours_text(wet.hours)}});
  }
  if (diffuse.hours > 0) {
    out.push_back(
        {110.0,
         {diffuse.first_line, "diffuse above global irradiance in " + hours_text(diffuse.hours)}});
  }
  if (rain_m > kMostRainInAYear_m) {
    out.push_back({80.0,
                   {0,
                    number_text(std::round(rain_m * 1000.0)) +
                        " mm of rain in the year: more than all but the wettest places have; the "
                        "file may count tenths of a millimetre"}});
  }
  const double standard_Pa = base::standard_pressure_Pa(year.place.elevation_m);
  if (year.elevation_known && std::fabs(pressure_Pa - standard_Pa) > 5000.0) {
    out.push_back(
        {70.0,
         {0,
          "the mean pressure of " + number_text(std::round(pressure_Pa)) +
              " Pa does not fit the elevation of " + number_text(year.place.elevation_m) + " m"}});
  }
  find_stuck(
      year, "dry bulb", [](const WeatherHour& h) { return h.dry_bulb_K; }, out);
  find_stuck(
      year, "pressure", [](const WeatherHour& h) { return h.pressure_Pa; }, out);
  if (year.filled_hours > 0) {
    out.push_back({year.filled_hours > 200 ? 130.0 : 45.0,
                   {0, "values were filled over gaps in " + hours_text(year.filled_hours)}});
  }
}

// Adds a quantity to the list of what is missing, with the number of hours unless it is all of
// them.
template <typename Has>
void note_missing(const WeatherYear& year,
                  const char* name,
                  Has has,
                  std::vector<std::string>& out) {
  int hours = 0;
  for (const WeatherHour& hour : year.hours) hours += has(hour) ? 0 : 1;
  if (hours == 0) return;
  const bool all = hours == static_cast<int>(year.hours.size());
  out.push_back(name + (all ? std::string() : " in " + hours_text(hours)));
}

std::vector<std::string> missing_list(const WeatherYear& year) {
  std::vector<std::string> out;
  using Hour = WeatherHour;
  note_missing(
      year, "rain", [](const Hour& h) { return h.precipitation_m.has_value(); }, out);
  note_missing(
      year,
      "horizontal infrared",
      [](const Hour& h) { return h.horizontal_ir_Wm2.has_value(); },
      out);
  note_missing(
      year, "albedo", [](const Hour& h) { return h.albedo.has_value(); }, out);
  note_missing(
      year, "snow depth", [](const Hour& h) { return h.snow_depth_m.has_value(); }, out);
  note_missing(
      year, "gusts", [](const Hour& h) { return h.gust_ms.has_value(); }, out);
  if (!year.elevation_known) out.emplace_back("elevation");
  return out;
}
}  // namespace

WeatherCheck check_weather(const WeatherYear& year) {
  WeatherCheck check;
  check.months = month_sums(year);
  check.clock = check_clock(year);
  std::vector<Finding> findings;
  find_clock_faults(year, check.clock, findings);
  SunTallies tallies;
  for (const WeatherHour& hour : year.hours) test_hour(hour, year.place, check, tallies);
  find_sun_faults(tallies, check, findings);
  find_air_faults(year, findings);
  std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
    return a.severity > b.severity;
  });
  for (Finding& finding : findings) check.findings.push_back(std::move(finding.note));
  check.missing = missing_list(year);
  return check;
}
}  // namespace ovendays::weather
