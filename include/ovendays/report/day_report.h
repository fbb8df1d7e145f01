// SPDX-License-Identifier: MIT
// One day at the minute, and one day's aiming card: for a terminal, as CSV, as a picture, as a
// page. Nothing is printed here. Times are HH:MM local standard time. Thread-safe: yes, all of it.
#pragma once

#include <string>

#include "ovendays/report/report.h"
#include "ovendays/season/aim_card.h"
#include "ovendays/season/day_trace.h"

namespace ovendays::report {

/// What happened and a plot of temperatures and sun; no line longer than options.width (72 least).
std::string day_table(const season::DayTrace& trace, const ReportOptions& options = {});

/// A row a minute, 00:00 to 24:00: time, sun_elevation_deg, sun_azimuth_deg, visible_share,
/// beam_mouth_Wm2, open_beam_mouth_Wm2, diffuse_mouth_Wm2, aim_azimuth_deg, glazing_tilt_deg,
/// wind_ms, and in degC or degF ambient,
/// empty_oven_air, oven_air, liner, vessel, core (empty before loading and after the cook's end).
std::string day_csv(const season::DayTrace& trace, const ReportOptions& options = {});

/// Temperatures above, light below, with loading, target, finish, re-aims and shaded times.
/// SVG 1.1.
std::string day_svg(const season::DayTrace& trace, const ReportOptions& options = {});

/// The same with its events, as a page that stands alone.
std::string day_page(const season::DayTrace& trace, const ReportOptions& options = {});

/// The card for a terminal.
std::string aim_table(const season::AimCard& card, const ReportOptions& options = {});

/// The card on one sheet of paper.
std::string aim_page(const season::AimCard& card, const ReportOptions& options = {});
}  // namespace ovendays::report
