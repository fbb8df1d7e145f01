// SPDX-License-Identifier: MIT
#include "ovendays/base/calendar.h"

#include <array>
#include <cmath>
#include <cstdio>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::base {
namespace {
constexpr std::array<int, 12> kMonthDays = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
constexpr std::array<const char*, 12> kMonthNames = {
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
}  // namespace

bool is_leap_year(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

int days_in_month(int year, int month) {
  OVENDAYS_CHECK(month >= 1 && month <= 12);
  return kMonthDays[static_cast<std::size_t>(month - 1)] +
         (month == 2 && is_leap_year(year) ? 1 : 0);
}

// Years are counted from 1 March, which puts the leap day at the end of a year. The Gregorian
// calendar repeats every 400 years, or 146,097 days; 719,468 days lie between 1 March of the year 0
// and 1 January 1970.
long days_from_date(const Date& date) {
  const long year = date.month <= 2 ? date.year - 1L : date.year;
  const long era = (year >= 0 ? year : year - 399) / 400;
  const long year_of_era = year - era * 400;
  const long month_from_march = (date.month + 9) % 12;
  const long day_of_march_year = (153 * month_from_march + 2) / 5 + date.day - 1;
  const long day_of_era =
      year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_march_year;
  return era * 146097 + day_of_era - 719468;
}

Date date_from_days(long days_since_1970) {
  const long days = days_since_1970 + 719468;
  const long era = (days >= 0 ? days : days - 146096) / 146097;
  const long day_of_era = days - era * 146097;
  const long year_of_era =
      (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  const long day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  const long month_from_march = (5 * day_of_year + 2) / 153;
  Date date;
  date.day = static_cast<int>(day_of_year - (153 * month_from_march + 2) / 5 + 1);
  date.month =
      static_cast<int>(month_from_march < 10 ? month_from_march + 3 : month_from_march - 9);
  date.year = static_cast<int>(year_of_era + era * 400 + (date.month <= 2 ? 1 : 0));
  return date;
}

int day_of_year(const Date& date) {
  return static_cast<int>(days_from_date(date) - days_from_date({date.year, 1, 1})) + 1;
}

int day_index_365(int month, int day) {
  if (month == 2 && day == 29) day = 28;
  return day_of_year({2001, month, day}) - 1;
}

Date date_from_day_index_365(int day_index, int year) {
  Date date = date_from_days(days_from_date({2001, 1, 1}) + day_index);
  date.year = year;
  return date;
}

UtcTime utc_from_local(const Date& date, double seconds_of_day, double utc_offset_s) {
  return {static_cast<double>(days_from_date(date)) * kSecondsPerDay + seconds_of_day -
          utc_offset_s};
}

const char* month_name(int month) {
  OVENDAYS_CHECK(month >= 1 && month <= 12);
  return kMonthNames[static_cast<std::size_t>(month - 1)];
}

std::string clock_text(double seconds_of_day) {
  const long minutes = std::lround(seconds_of_day / 60.0);
  std::array<char, 40> text{};
  const char* sign = minutes < 0 ? "-" : "";
  const long magnitude = minutes < 0 ? -minutes : minutes;
  std::snprintf(text.data(), text.size(), "%s%02ld:%02ld", sign, magnitude / 60, magnitude % 60);
  return text.data();
}
}  // namespace ovendays::base
