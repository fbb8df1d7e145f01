// SPDX-License-Identifier: MIT
// Instants and dates. Local time is always local STANDARD time: daylight saving time never enters
// the program. A typical year has 365 (or 366) days, and its months may come from different
// calendar years. Every function here is pure and thread-safe.
#pragma once

#include <string>

namespace ovendays::base {

/// An instant in seconds of UTC since 1970-01-01T00:00:00Z. Leap seconds are not counted.
struct UtcTime {
  double unix_s = 0.0;
};

/// A date of the proleptic Gregorian calendar.
struct Date {
  int year = 2001;
  int month = 1;  ///< 1..12
  int day = 1;    ///< 1..31
  bool operator==(const Date&) const = default;
};

/// True for the leap years of the Gregorian calendar.
bool is_leap_year(int year);
/// Number of days in a month of a given year.
/// @param month 1..12, checked
int days_in_month(int year, int month);
/// Days since 1970-01-01, negative for earlier dates.
long days_from_date(const Date& date);
/// The inverse of days_from_date().
Date date_from_days(long days_since_1970);
/// Day of the year; 1 January is 1.
int day_of_year(const Date& date);
/// Index 0..364 of a date in a 365-day year. 29 February shares the index of 28 February.
/// @param month 1..12
int day_index_365(int month, int day);
/// The date that has a given index in a 365-day year, stamped with `year`.
/// @param day_index 0..364
Date date_from_day_index_365(int day_index, int year = 2001);

/// The instant of a local standard time.
/// @param seconds_of_day [s] since the date's local midnight; may be negative or exceed a day
/// @param utc_offset_s [s] local standard time minus UTC, positive east of Greenwich
UtcTime utc_from_local(const Date& date, double seconds_of_day, double utc_offset_s);

/// Abbreviated English month name, "Jan" to "Dec".
/// @param month 1..12, checked
const char* month_name(int month);
/// A time of day as "07:30", rounded to the minute, so that "24:00" can occur.
/// @param seconds_of_day [s] since midnight; negative times get a minus sign
std::string clock_text(double seconds_of_day);
}  // namespace ovendays::base
