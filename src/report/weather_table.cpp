// SPDX-License-Identifier: MIT
#include <cmath>

#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"
#include "ovendays/report/weather_report.h"
#include "text_table.h"

namespace ovendays::report {
namespace {
constexpr std::size_t kLabel = 9;

void put_paragraph(std::string& out,
                   const std::string& label,
                   const std::string& text,
                   std::size_t width) {
  std::string start = pad_right(label, kLabel);
  for (const std::string& line : wrap(text, width - kLabel)) {
    out += start + line + "\n";
    start = std::string(kLabel, ' ');
  }
}

void items(std::string& out, const std::vector<std::string>& texts, std::size_t width) {
  for (const std::string& text : texts) {
    const char* start = "- ";
    for (const std::string& line : wrap(text, width - 2)) {
      out += start + line + "\n";
      start = "  ";
    }
  }
}

// Says how far the clock is off and, if it matters, which clock_shift corrects it.
std::string clock_words(const weather::ClockCheck& clock) {
  if (!clock.possible) return "too little sun in the file to check its clock";
  const double minutes = clock.shift_s / 60.0;
  const std::string spread = " (give or take " + fixed(clock.uncertainty_s / 60.0, 0) +
                             " min, from " +
                             (clock.by_closure ? "closure" : "the middle of clear days") + ")";
  if (!clock.off) {
    return "in step with the sun: " + fixed(minutes, 0) + " min off" + spread;
  }
  return "OUT OF STEP with the sun by " + fixed(std::abs(minutes), 0) + " min" + spread +
         "; a clock_shift of '" + fixed(minutes, 0) + " min' would correct it";
}

std::string closure_words(const weather::WeatherCheck& check) {
  if (check.closure_hours_tested == 0) return "no hour could be tested";
  return grouped(check.closure_hours_failed) + " of " + grouped(check.closure_hours_tested) +
         " sunny hours have a GHI that differs from DHI + DNI cos z, " +
         fixed(check.closure_energy_failed_kWhm2, 1) + " kWh/m2";
}

std::string month_row(const std::string& name, const weather::MonthSums& sums) {
  const auto celsius = [](double kelvin) { return fixed(kelvin - base::kZeroCelsius_K, 1); };
  return pad_right(name, 6) + pad_left(std::to_string(sums.hours), 7) +
         pad_left(fixed(sums.ghi_kWhm2, 0), 8) + pad_left(fixed(sums.dni_kWhm2, 0), 8) +
         pad_left(fixed(sums.dhi_kWhm2, 0), 8) + pad_left(celsius(sums.dry_bulb_min_K), 9) +
         pad_left(celsius(sums.dry_bulb_mean_K), 8) + pad_left(celsius(sums.dry_bulb_max_K), 8) +
         pad_left(fixed(sums.wind_mean_ms, 1), 8) + "\n";
}

std::string month_lines(const weather::WeatherCheck& check) {
  std::string out =
      "                  GHI     DNI     DHI   lowest    mean highest    wind\n"
      "        hours  kWh/m2  kWh/m2  kWh/m2       °C      °C      °C     m/s\n";
  for (int month = 1; month <= 12; ++month) {
    out += month_row(base::month_name(month), check.months[static_cast<std::size_t>(month - 1)]);
  }
  return out + month_row("year", check.months[12]);
}

// Prefixes notes with their line in the file, so that the reader can look at it.
std::vector<std::string> with_lines(const std::vector<weather::WeatherNote>& notes) {
  std::vector<std::string> texts;
  texts.reserve(notes.size());
  for (const weather::WeatherNote& note : notes) {
    texts.push_back((note.line > 0 ? "line " + std::to_string(note.line) + ": " : std::string()) +
                    note.text);
  }
  return texts;
}

void section(std::string& out,
             const std::string& heading,
             const std::vector<std::string>& texts,
             std::size_t width) {
  if (texts.empty()) return;
  out += "\n" + heading + "\n";
  items(out, texts, width);
}
}  // namespace

std::string weather_table(const weather::WeatherYear& year,
                          const weather::WeatherCheck& check,
                          int width) {
  const std::size_t columns = table_width(width);
  std::string out;
  put_paragraph(out, "Site", year.place.name + " (" + place_text(year.place) + ")", columns);
  put_paragraph(out,
                "File",
                year.file + ", " + weather::format_name(year.format) + ", " +
                    grouped(year.hours_in_file) + " hours, " + grouped(year.filled_hours) +
                    " filled",
                columns);
  if (!year.sha256.empty()) put_paragraph(out, "SHA-256", year.sha256, columns);
  put_paragraph(out, "Clock", clock_words(check.clock), columns);
  put_paragraph(out, "Closure", closure_words(check), columns);
  put_paragraph(out,
                "Night",
                grouped(check.night_hours_with_beam) +
                    " hours with light while the sun is below the horizon, " +
                    fixed(check.night_energy_kWhm2, 1) + " kWh/m2",
                columns);
  put_paragraph(out,
                "Excess",
                grouped(check.beyond_extraterrestrial_hours) +
                    " hours with more light than outside the atmosphere",
                columns);
  out += '\n';
  out += month_lines(check);
  section(out, "Findings", with_lines(check.findings), columns);
  section(out, "Missing", check.missing, columns);
  section(out, "Notes", with_lines(year.notes), columns);
  return out;
}
}  // namespace ovendays::report
