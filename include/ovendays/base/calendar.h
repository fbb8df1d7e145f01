// SPDX-License-Identifier: MIT
// Instants and dates. Local times are local STANDARD time all year; daylight saving never enters.
// A typical year is one of 365 (or 366) days whose months may stem from different calendar years.
#pragma once

#include <string>

namespace ovendays::base {

/// An instant, seconds of UTC since 1970-01-01T00:00:00Z (leap seconds not counted).
struct UtcTime {
  double unix_s = 0.0;
};

/// A date of the proleptic Gregorian calendar. month 1..12, day 1..31.
struct Date {
  int year = 2001;
  int month = 1;
  int day = 1;
  bool operator==(const Date&) const = default;
};

bool is_leap_year(int year);
/// Days in a month of a year [1]. @param month 1..12
int days_in_month(int year, int month);
/// Days since 1970-01-01 (negative before).
long days_from_date(const Date& date);
Date date_from_days(long days_since_1970);
/// Day of the year, 1 January is 1.
int day_of_year(const Date& date);
/// Day index 0..364 in a 365-day year (29 February maps to 28 February's index).
int day_index_365(int month, int day);
/// Month 1..12 of day index 0..364 of a 365-day year, and the day in it.
Date date_from_day_index_365(int day_index, int year = 2001);

/// The instant at `seconds_of_day` [s] local standard time of a date. @param utc_offset_s east
/// positive
UtcTime utc_from_local(const Date& date, double seconds_of_day, double utc_offset_s);

/// "Jan" .. "Dec". @param month 1..12
const char* month_name(int month);
/// "07:30" from seconds of the day, rounded to the minute; 24:00 is possible.
std::string clock_text(double seconds_of_day);
}  // namespace ovendays::base
