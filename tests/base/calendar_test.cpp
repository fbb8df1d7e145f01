// SPDX-License-Identifier: MIT
#include "ovendays/base/calendar.h"

#include "catch.h"

namespace base = ovendays::base;

TEST_CASE("dates survive the round trip through day numbers over four centuries",
          "[base][identity]") {
  long expected = base::days_from_date({1801, 1, 1});
  for (int year = 1801; year <= 2200; ++year) {
    for (int month = 1; month <= 12; ++month) {
      for (int day = 1; day <= base::days_in_month(year, month); ++day, ++expected) {
        const base::Date date{year, month, day};
        REQUIRE(base::days_from_date(date) == expected);
        const base::Date back = base::date_from_days(expected);
        REQUIRE((back.year == year && back.month == month && back.day == day));
      }
    }
  }
}

TEST_CASE("day numbers agree with known POSIX times", "[base][reference]") {
  // POSIX time: 946684800 s at 2000-01-01 and 1709251200 s at 2024-03-01 UTC.
  REQUIRE(base::days_from_date({1970, 1, 1}) == 0);
  REQUIRE(base::days_from_date({2000, 1, 1}) * 86400 == 946684800);
  REQUIRE(base::days_from_date({2024, 3, 1}) * 86400 == 1709251200);
  REQUIRE(base::days_from_date({1969, 12, 31}) == -1);
  REQUIRE(base::day_of_year({2024, 12, 31}) == 366);
  REQUIRE(base::day_of_year({2023, 12, 31}) == 365);
}

TEST_CASE("leap years follow the Gregorian rule", "[base][unit]") {
  REQUIRE(base::is_leap_year(2000));
  REQUIRE_FALSE(base::is_leap_year(1900));
  REQUIRE(base::is_leap_year(2024));
  REQUIRE_FALSE(base::is_leap_year(2023));
  REQUIRE(base::days_in_month(2024, 2) == 29);
}

TEST_CASE("a typical year has 365 days even if its months come from leap years",
          "[base][identity]") {
  for (int i = 0; i < 365; ++i) {
    const base::Date date = base::date_from_day_index_365(i, 2024);
    REQUIRE(date.year == 2024);
    REQUIRE(base::day_index_365(date.month, date.day) == i);
  }
  REQUIRE(base::day_index_365(2, 29) == base::day_index_365(2, 28));
}

TEST_CASE("local standard time east of Greenwich is earlier in UTC", "[base][unit]") {
  const double noon_s = 43200.0;
  const base::UtcTime utc = base::utc_from_local({2000, 1, 1}, noon_s, 5.5 * 3600.0);
  REQUIRE(utc.unix_s == 946684800.0 + noon_s - 19800.0);
}

TEST_CASE("clock times round to the minute", "[base][unit]") {
  REQUIRE(base::clock_text(27000.0) == "07:30");
  REQUIRE(base::clock_text(27029.0) == "07:30");
  REQUIRE(base::clock_text(86400.0) == "24:00");
  REQUIRE(std::string(base::month_name(12)) == "Dec");
}
