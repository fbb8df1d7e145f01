// SPDX-License-Identifier: MIT
// Reader of the horizon files of the EU service: notes, one table, more notes. Only the first two
// columns of the table are used; the sun paths beside them are skipped.
#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include "ovendays/base/constants.h"
#include "ovendays/base/file.h"
#include "ovendays/spot/spot.h"

namespace ovendays::spot {
namespace {
struct Row {
  double azimuth_deg;
  double elevation_deg;
};

// Splits a line at commas, semicolons, tabs and spaces. Several in a row count as one separator.
std::vector<std::string_view> cells_of(std::string_view line) {
  std::vector<std::string_view> cells;
  constexpr std::string_view kBetween = ",; \t\r";
  for (std::size_t at = 0; (at = line.find_first_not_of(kBetween, at)) != std::string_view::npos;) {
    const std::size_t end = std::min(line.find_first_of(kBetween, at), line.size());
    cells.push_back(line.substr(at, end - at));
    at = end;
  }
  return cells;
}

std::optional<double> number(std::string_view text) {
  double value = 0.0;
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool whole = result.ec == std::errc() && result.ptr == text.data() + text.size();
  return whole && std::isfinite(value) ? std::optional<double>(value) : std::nullopt;
}

struct Reader {
  std::string file;
  bool in_table = false;
  bool from_north = false;
  std::vector<Row> rows;

  void take(std::string_view line, int number_of_line) {
    // A note such as "A: Azimuth (0 = S, 90 = W, -90 = E)" states where azimuths start.
    if (line.find("Azimuth") != std::string_view::npos) {
      from_north = from_north || line.find("0 = N") != std::string_view::npos;
    }
    const std::vector<std::string_view> cells = cells_of(line);
    if (cells.size() >= 2 && cells[0] == "A" && cells[1] == "H_hor") {
      in_table = true;
      return;
    }
    if (!in_table || cells.empty()) return;
    const auto azimuth = number(cells[0]);
    if (!azimuth) {
      if (!rows.empty()) in_table = false;  // the table has ended and notes follow
      return;
    }
    const auto elevation = cells.size() > 1 ? number(cells[1]) : std::nullopt;
    const auto refuse = [&](const std::string& got, const std::string& allowed) {
      throw base::InputError(base::Fault{file, number_of_line, "", got, allowed});
    };
    if (std::abs(*azimuth) > 360.0) refuse("azimuth " + std::string(cells[0]), "-360 to 360 deg");
    if (!elevation) refuse("no horizon height", "a number in the second column");
    if (*elevation < 0.0 || *elevation > 89.0) {
      refuse("horizon height " + std::string(cells[1]), "0 to 89 deg");
    }
    rows.push_back({*azimuth, *elevation});
  }

  [[nodiscard]] Horizon horizon() const {
    std::vector<Row> sorted = rows;
    for (Row& row : sorted) {
      const double north_deg = row.azimuth_deg + (from_north ? 0.0 : 180.0);
      row.azimuth_deg = north_deg - 360.0 * std::floor(north_deg / 360.0);
    }
    std::stable_sort(sorted.begin(), sorted.end(), [](const Row& a, const Row& b) {
      return a.azimuth_deg < b.azimuth_deg;
    });
    Horizon out;
    for (const Row& row : sorted) {
      const double azimuth = row.azimuth_deg * base::kRadPerDeg;
      // Files often repeat the first direction as the last.
      if (!out.azimuth_rad.empty() && azimuth - out.azimuth_rad.back() < 1e-9) continue;
      out.azimuth_rad.push_back(azimuth);
      out.elevation_rad.push_back(row.elevation_deg * base::kRadPerDeg);
    }
    return out;
  }
};
}  // namespace

Horizon read_horizon_csv(const std::string& file) {
  return read_horizon_csv_text(base::read_file(file, kMostHorizonBytes), file);
}

Horizon read_horizon_csv_text(std::string_view text, const std::string& file) {
  Reader reader;
  reader.file = file;
  int line = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    reader.take(text.substr(at, end - at), ++line);
    at = end + 1;
  }
  if (reader.rows.empty()) {
    throw base::InputError(
        base::Fault{file, 0, "", "no horizon table", "a table with columns A and H_hor"});
  }
  return reader.horizon();
}
}  // namespace ovendays::spot
