// SPDX-License-Identifier: MIT
// Reports of one day minute by minute, and of one day's aiming card: terminal table, CSV, picture
// and page. Nothing is printed here. Times are HH:MM in local standard time. Thread-safe: yes.
#pragma once

#include <string>

#include "ovendays/report/report.h"
#include "ovendays/season/aim_card.h"
#include "ovendays/season/day_trace.h"

namespace ovendays::report {

/// Events and a plot of temperatures and sun. No line is longer than options.width (at least 72).
std::string day_table(const season::DayTrace& trace, const ReportOptions& options = {});

/// CSV with one row a minute from 00:00 to 24:00. Columns: time, sun_elevation_deg,
/// sun_azimuth_deg, visible_share, beam_mouth_Wm2, open_beam_mouth_Wm2, diffuse_mouth_Wm2,
/// aim_azimuth_deg, glazing_tilt_deg, wind_ms, and in degC or degF ambient, empty_oven_air,
/// oven_air, liner, vessel, core (empty before loading and after the cook's end).
std::string day_csv(const season::DayTrace& trace, const ReportOptions& options = {});

/// SVG 1.1 picture: temperatures above and light below, with loading, target, finish, re-aims and
/// shaded times.
std::string day_svg(const season::DayTrace& trace, const ReportOptions& options = {});

/// The picture and the events as a self-contained HTML page.
std::string day_page(const season::DayTrace& trace, const ReportOptions& options = {});

/// The aiming card for a terminal.
std::string aim_table(const season::AimCard& card, const ReportOptions& options = {});

/// The aiming card as an HTML page that prints on one sheet.
std::string aim_page(const season::AimCard& card, const ReportOptions& options = {});
}  // namespace ovendays::report
