// SPDX-License-Identifier: MIT
#include "weather_support.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>

#include "catch.h"
#include "ovendays/base/constants.h"

namespace ovendays::test {
namespace {
constexpr double kRad = base::kRadPerDeg;

template <typename... Values>
std::string format(const char* pattern, Values... values) {
  std::array<char, 400> text{};
  std::snprintf(text.data(), text.size(), pattern, values...);
  return text.data();
}

std::string value_text(const std::string& stated, double value) {
  return stated.empty() ? format("%.3f", value) : stated;
}

// The rows of the plan's year after its change function, without skipped ones.
std::vector<FileRow> rows_of(const FilePlan& plan) {
  std::vector<FileRow> rows;
  const long first = base::days_from_date({plan.year, 1, 1});
  const long end = base::days_from_date({plan.year + 1, 1, 1});
  for (long day = first; day < end; ++day) {
    for (int hour = 0; hour < 24; ++hour) {
      FileRow row;
      row.date = base::date_from_days(day);
      row.hour = hour;
      row.sky =
          plain_sky(base::utc_from_local(
                        row.date, hour * 3600.0 + plan.minute * 60.0, plan.rows_zone_h * 3600.0),
                    plan.place);
      if (plan.change) plan.change(row);
      if (!row.skip) rows.push_back(row);
    }
  }
  return rows;
}

std::string irradiance(const FileRow& row) {
  return value_text(row.ghi, row.sky.ghi_Wm2) + "," + value_text(row.dni, row.sky.dni_Wm2) + "," +
         value_text(row.dhi, row.sky.dhi_Wm2);
}
}  // namespace

std::optional<std::string> shared_file(const std::string& name) {
  std::vector<std::filesystem::path> folders;
  if (const char* stated = std::getenv("OVENDAYS_SHARED")) folders.emplace_back(stated);
  std::filesystem::path up = OVENDAYS_SOURCE_DIR;
  while (up.has_relative_path()) {
    up = up.parent_path();
    folders.push_back(up / "shared");
  }
  for (const auto& folder : folders) {
    std::error_code none;
    if (std::filesystem::exists(folder / name, none)) return (folder / name).string();
  }
  return std::nullopt;
}

bool have_shared(const std::string& name) {
  if (shared_file(name)) return true;
  WARN("SKIPPED: no shared/" + name + " beside the repository (OVENDAYS_SHARED may name it)");
  return false;
}

weather::SiteOverrides nsrdb_site() {
  weather::SiteOverrides site;
  site.latitude_rad = 40.53 * kRad;
  site.longitude_rad = -108.54 * kRad;
  site.elevation_m = 2168.0;
  site.utc_offset_s = -7.0 * 3600.0;
  return site;
}

sun::Place inland_place() {
  return {"Testfield", 40.0 * kRad, -110.0 * kRad, 1500.0, -7.0 * 3600.0};
}

SkyInstant plain_sky(base::UtcTime time, const sun::Place& place) {
  const double cos_z = std::cos(sun::sun_position(time, place).zenith_rad);
  if (cos_z <= 0.0) return {};
  return {60.0 + 700.0 * cos_z, 700.0, 60.0};
}

std::string epw_file(const FilePlan& plan) {
  std::string text = format("LOCATION,%s,-,-,test,-,%.3f,%.3f,%.2f,%.0f\n",
                            plan.place.name.c_str(),
                            plan.place.latitude_rad / kRad,
                            plan.place.longitude_rad / kRad,
                            plan.header_zone_h,
                            plan.place.elevation_m);
  text += "DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\n";
  text += "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,x\nCOMMENTS 2,y\n";
  text += "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n";
  for (const FileRow& row : rows_of(plan)) {
    text += format("%d,%d,%d,%d,60,?9,%s,%s,50,%s00,9999,9999,9999,",
                   row.date.year,
                   row.date.month,
                   row.date.day,
                   row.hour + 1,
                   row.dry_bulb.c_str(),
                   row.dew_point.c_str(),
                   row.pressure_hPa.c_str());
    text += irradiance(row);
    text += ",999999,999999,999999,9999,999," + row.wind +
            ",99,99,9999,99999,9,999999999,999,0.999,999,99,999,999,99\n";
  }
  return text;
}

std::string tmy3_file(const FilePlan& plan) {
  std::string text = format("999999,\"TEST, FIELD\",XX,%.1f,%.3f,%.3f,%.0f\n",
                            plan.header_zone_h,
                            plan.place.latitude_rad / kRad,
                            plan.place.longitude_rad / kRad,
                            plan.place.elevation_m);
  text +=
      "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),GHI source,DNI (W/m^2),DHI (W/m^2),"
      "Wspd (m/s),Dry-bulb (C),Dew-point (C),Pressure (mbar),Alb (unitless),"
      "Lprecip depth (mm),Lprecip quantity (hr)\n";
  for (const FileRow& row : rows_of(plan)) {
    text += format("%02d/%02d/%04d,%02d:00,%s,?,%s,%s,",
                   row.date.month,
                   row.date.day,
                   row.date.year,
                   row.hour + 1,
                   value_text(row.ghi, row.sky.ghi_Wm2).c_str(),
                   value_text(row.dni, row.sky.dni_Wm2).c_str(),
                   value_text(row.dhi, row.sky.dhi_Wm2).c_str());
    text += row.wind + "," + row.dry_bulb + "," + row.dew_point + "," + row.pressure_hPa +
            ",0,-9900,-9900\n";
  }
  return text;
}

std::string nsrdb_file(const FilePlan& plan, bool site_lines) {
  std::string text;
  if (site_lines) {
    text += "Source,Location ID,City,State,Country,Latitude,Longitude,Time Zone,Elevation,";
    text += "Local Time Zone\n";
    text += format("NSRDB,4711,-,-,-,%.3f,%.3f,%.0f,%.0f,%.0f\n",
                   plan.place.latitude_rad / kRad,
                   plan.place.longitude_rad / kRad,
                   plan.rows_zone_h,
                   plan.place.elevation_m,
                   plan.header_zone_h);
  } else {
    text += ",";
  }
  text += "Year,Month,Day,Hour,Minute,Temperature,DHI,DNI,GHI,Dew Point,Pressure,Wind Speed,";
  text += "Surface Albedo\n";
  int count = 0;
  for (const FileRow& row : rows_of(plan)) {
    if (!site_lines) text += std::to_string(count++) + ",";
    text += format("%d,%d,%d,%d,%.0f,%s,%s,%s,%s,",
                   row.date.year,
                   row.date.month,
                   row.date.day,
                   row.hour,
                   plan.minute,
                   row.dry_bulb.c_str(),
                   value_text(row.dhi, row.sky.dhi_Wm2).c_str(),
                   value_text(row.dni, row.sky.dni_Wm2).c_str(),
                   value_text(row.ghi, row.sky.ghi_Wm2).c_str());
    text += row.dew_point + "," + row.pressure_hPa + "," + row.wind + ",0.25\n";
  }
  return text;
}

std::string pvgis_file(const FilePlan& plan, std::optional<double> offset_h) {
  std::string text = format(
      "Latitude (decimal degrees): %.3f\r\nLongitude (decimal degrees): %.3f\r\n"
      "Elevation (m): %.1f\r\n",
      plan.place.latitude_rad / kRad,
      plan.place.longitude_rad / kRad,
      plan.place.elevation_m);
  if (offset_h) text += format("Irradiance Time Offset (h): %.4f\r\n", *offset_h);
  text += "month,year\r\n";
  for (int month = 1; month <= 12; ++month) text += format("%d,%d\r\n", month, plan.year);
  text += "time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP\r\n";
  for (const FileRow& row : rows_of(plan)) {
    text += format("%04d%02d%02d:%02d00,%s,60.0,",
                   row.date.year,
                   row.date.month,
                   row.date.day,
                   row.hour,
                   row.dry_bulb.c_str());
    text += irradiance(row) + ",300.0," + row.wind + ",180.0," + row.pressure_hPa + "00.0\r\n";
  }
  text += "\r\nT2m: 2-m air temperature (degree Celsius)\r\nG(h): Global irradiance\r\n\r\nEnd\r\n";
  return text;
}

std::string fault_of(const std::string& text, const weather::SiteOverrides& overrides) {
  try {
    weather::read_weather_text(text, "year", overrides);
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}

bool has_note(const weather::WeatherYear& year, const std::string& part) {
  for (const weather::WeatherNote& note : year.notes) {
    if (note.text.find(part) != std::string::npos) return true;
  }
  return false;
}
}  // namespace ovendays::test
