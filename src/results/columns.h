// SPDX-License-Identifier: MIT
// Tables that map members of structs to arrays of the file. Writing and reading use the same
// tables.
#pragma once

#include <optional>
#include <span>

#include "ovendays/results/results.h"

namespace ovendays::results {
/// Hours of a year of 365 days.
inline constexpr std::size_t kHours = std::size_t{season::kDays} * 24;

template <class Row, class Value>
struct Column {
  const char* name;
  const char* long_name;
  const char* units;
  Value Row::*member;
  bool may_lack = false;  ///< a negative value means "none" and is NaN in the file
};
using HourColumn = Column<season::HourTrace, float>;
using DayColumn = Column<season::DaySummary, float>;
using TaskDayColumn = Column<season::DayTask, float>;
using WeatherColumn = Column<weather::WeatherHour, double>;
using SparseColumn = Column<weather::WeatherHour, std::optional<double>>;
using TaskColumn = Column<StoredTask, double>;
using TaskText = Column<StoredTask, std::string>;

std::span<const HourColumn> hour_columns();
std::span<const DayColumn> day_columns();
std::span<const TaskDayColumn> task_day_columns();
std::span<const WeatherColumn> weather_columns();
std::span<const SparseColumn> sparse_columns();
std::span<const TaskColumn> task_columns();
std::span<const TaskText> task_texts();

/// SHA-256 of the weather as the file holds it (single precision, hour by hour), by which a report
/// recognises seasons with the same weather.
std::string weather_digest(const weather::WeatherYear& year);
}  // namespace ovendays::results
