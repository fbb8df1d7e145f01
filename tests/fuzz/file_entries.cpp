// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <stdexcept>
#include <string>

#include "entries.h"
#include "made_season.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/base/units.h"
#include "ovendays/results/results.h"
#include "ovendays/season/case.h"
#include "ovendays/spot/spot.h"
#include "ovendays/weather/weather_make.h"
#include "seal.h"

namespace ovendays::fuzz {
namespace {
// The bytes of a sound file of results, without their seal.
std::string made_results() {
  namespace fs = std::filesystem;
  std::string folder = (fs::temp_directory_path() / "ovendays_fuzz_XXXXXX").string();
  if (::mkdtemp(folder.data()) == nullptr) throw std::runtime_error("no temporary folder");
  const std::string file = folder + "/made.h5";
  const test::MadeSeason made = test::made_season();
  results::write_results(file, made.c, made.year, made.result);
  std::string bytes = base::read_file(file);
  fs::remove_all(folder);
  bytes.resize(bytes.size() - results::seal_of("").size());
  return bytes;
}

void read_results_bytes(std::string_view bytes) {
  const MemoryFile file(bytes);
  accepted([&] {
    try {
      (void)results::read_results(file.path());
    } catch (const base::RunError& error) {
      require(std::string_view(error.what()).size() > 0, "a failure without a reason");
    }
  });
}
}  // namespace

void read_horizon(std::string_view bytes) {
  const MemoryFile file(bytes);
  spot::Horizon horizon;
  if (!accepted([&] { horizon = spot::read_horizon_csv(file.path()); })) return;
  require(!horizon.azimuth_rad.empty(), "an empty horizon");
  require(horizon.azimuth_rad.size() == horizon.elevation_rad.size(), "lengths differ");
  require(std::is_sorted(horizon.azimuth_rad.begin(), horizon.azimuth_rad.end()), "not in order");
  for (const double azimuth : horizon.azimuth_rad) {
    require(azimuth >= 0.0 && azimuth <= base::kTwoPi, "azimuth out of range");
  }
  for (double azimuth = -7.0; azimuth < 7.0; azimuth += 0.1) {
    const double elevation = horizon.at(azimuth);
    require(elevation >= 0.0 && elevation < 0.5 * base::kPi, "elevation out of range");
  }
}

void read_normals(std::string_view bytes) {
  const MemoryFile file(bytes);
  weather::MonthlyNormals normals;
  if (!accepted([&] { normals = weather::read_normals(file.path()); })) return;
  const weather::WeatherYear year = weather::make_weather(normals, 1);
  const std::string written = weather::epw_text(year, normals.comment);
  require(accepted([&] { (void)weather::read_weather_text(written, "written"); }),
          "what was made is refused");
}

namespace {
void require_sound_case(const season::Case& c) {
  require(!c.tasks.empty(), "a case without tasks");
  require(!task::loading_times(c.routine).empty(), "a case without a loading time");
  require(std::isfinite(c.spot.wind_factor) && c.spot.wind_factor >= 0.0, "wind factor");
  require(c.spot.obstructions.size() <= spot::kMostObstructions, "too many obstructions");
}
}  // namespace

void read_case(std::string_view bytes) {
  season::Case c;
  // A folder that is not there: an include can still name a whole path, but nothing beside it.
  if (!accepted([&] { c = season::read_case_text(std::string(bytes), "/nowhere/case.toml"); })) {
    return;
  }
  require_sound_case(c);
}

void read_edited_case(std::string_view bytes) {
  const std::string name = "/nowhere/study.toml";
  const std::vector<base::CaseEdit> edits = {
      {"oven", 0}, {"change", 0}, {"change", 1}, {"change", 2}};
  season::Case c;
  const auto read = [&] {
    base::CaseFile file = base::CaseFile::edited(std::string(bytes), name, edits);
    c = season::read_case(file, name);
  };
  if (!accepted(read)) return;
  require_sound_case(c);
  // What a changed case says of itself reads as the same case again, but for included files.
  if (c.text.find("# included file: ") != std::string::npos) return;
  season::Case again;
  require(accepted([&] { again = season::read_case_text(c.text, name); }), "its text is refused");
  require(again.tasks.size() == c.tasks.size(), "its text has other tasks");
}

void read_quantity(std::string_view bytes) {
  constexpr int kDimensions = static_cast<int>(base::Dimension::kEnergy) + 1;
  if (bytes.empty()) return;
  const auto dimension =
      static_cast<base::Dimension>(static_cast<unsigned char>(bytes.front()) % kDimensions);
  bytes.remove_prefix(1);
  const auto value = base::parse_quantity(bytes, dimension);
  require(!base::quantity_complaint(bytes, dimension).empty(), "a complaint without words");
  if (!value) return;
  require(std::isfinite(*value), "a quantity that is not finite");
  require(!base::quantity_text(*value, dimension).empty(), "a quantity without words");
}

void read_results(std::string_view bytes) { read_results_bytes(bytes); }

void read_edited_results(std::string_view bytes) {
  static const std::string made = made_results();
  std::string edited = made;
  for (; bytes.size() >= 5; bytes.remove_prefix(5)) {
    std::size_t place = 0;
    for (std::size_t i = 4; i-- > 0;) place = place * 256 + static_cast<unsigned char>(bytes[i]);
    edited[place % edited.size()] = bytes[4];
  }
  read_results_bytes(edited + results::seal_of(edited));
}
}  // namespace ovendays::fuzz
