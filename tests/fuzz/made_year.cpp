// SPDX-License-Identifier: MIT
#include "made_year.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"

namespace ovendays::fuzz {
namespace {
using weather::WeatherFormat;

std::string row_of(WeatherFormat format, const base::Date& date, int hour) {
  const double sun = std::max(0.0, std::sin((hour - 5.5) / 12.0 * base::kPi));
  const double dni = 500.0 * sun;
  const double dhi = 80.0 * sun;
  const double ghi = dhi + dni * 0.6 * sun;
  std::array<char, 256> text{};
  const auto print = [&text](const char* form, auto... values) {
    std::snprintf(text.data(), text.size(), form, values...);
  };
  switch (format) {
    case WeatherFormat::kEpw:
      print(
          "2001,%d,%d,%d,60,?0,12.5,4.0,56,101300,0,0,300,%.0f,%.0f,%.0f,0,0,0,0,180,3.1,5,5,9.9,"
          "77777,9,999999999,0,0,0,88,0.2,0,1\n",
          date.month,
          date.day,
          hour + 1,
          ghi,
          dni,
          dhi);
      break;
    case WeatherFormat::kTmy3:
      print("%02d/%02d/2001,%02d:00,%.0f,%.0f,%.0f,12.5,A,4.0,56,1013,3.1,0.2,-9900,-9900\n",
            date.month,
            date.day,
            hour + 1,
            ghi,
            dni,
            dhi);
      break;
    case WeatherFormat::kNsrdb:
      print("2001,%d,%d,%d,30,%.0f,%.0f,%.0f,12.5,4.0,56,1013,3.1,0.2,0\n",
            date.month,
            date.day,
            hour,
            ghi,
            dni,
            dhi);
      break;
    case WeatherFormat::kPvgis:
      print("2001%02d%02d:%02d00,12.5,56,%.1f,%.1f,%.1f,300,3.1,180,101300\n",
            date.month,
            date.day,
            hour,
            ghi,
            dni,
            dhi);
      break;
  }
  return text.data();
}

std::string year_of(WeatherFormat format) {
  std::string text = header_of(format);
  for (int day = 0; day < 365; ++day) {
    const base::Date date = base::date_from_day_index_365(day, 2001);
    for (int hour = 0; hour < 24; ++hour) text += row_of(format, date, hour);
  }
  return text;
}
}  // namespace

std::string header_of(WeatherFormat format) {
  switch (format) {
    case WeatherFormat::kEpw:
      return "LOCATION,Madeville,-,-,made,-,39.25,-104.75,-7.0,1602.0\nDESIGN CONDITIONS,0\n"
             "TYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\n"
             "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,made\nCOMMENTS 2,\n"
             "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n";
    case WeatherFormat::kTmy3:
      return "990001,\"MADEVILLE\",XX,-7.0,39.250,-104.750,1602\n"
             "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),"
             "Dry-bulb source,Dew-point (C),RHum (%),Pressure (mbar),Wspd (m/s),Alb (unitless),"
             "Lprecip depth (mm),Lprecip quantity (hr)\n";
    case WeatherFormat::kNsrdb:
      return "Source,Location ID,City,Latitude,Longitude,Time Zone,Elevation,Local Time Zone\n"
             "NSRDB,77,-,39.25,-104.75,-7,1602,-7\n"
             "Year,Month,Day,Hour,Minute,GHI,DNI,DHI,Temperature,Dew Point,Relative Humidity,"
             "Pressure,Wind Speed,Surface Albedo,Fill Flag\n";
    case WeatherFormat::kPvgis:
      break;
  }
  return "Latitude (decimal degrees): 39.25\nLongitude (decimal degrees): -104.75\n"
         "Elevation (m): 1602.0\nIrradiance Time Offset (h): 0.1761\nmonth,year\n1,2001\n"
         "time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP\n";
}

const std::string& made_year(WeatherFormat format) {
  static const std::array<std::string, 4> years = {year_of(WeatherFormat::kEpw),
                                                   year_of(WeatherFormat::kTmy3),
                                                   year_of(WeatherFormat::kNsrdb),
                                                   year_of(WeatherFormat::kPvgis)};
  return years[static_cast<std::size_t>(format)];
}
}  // namespace ovendays::fuzz
