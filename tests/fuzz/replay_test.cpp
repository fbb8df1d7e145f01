// SPDX-License-Identifier: MIT
// The seeds of the fuzz targets, replayed by any compiler, whole and spoilt in ways that do not
// depend on chance.
#include <algorithm>
#include <filesystem>
#include <new>
#include <stdexcept>

#include "catch.h"
#include "entries.h"
#include "made_year.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/base/random.h"
#include "ovendays/season/case.h"
#include "ovendays/spot/spot.h"
#include "ovendays/weather/weather_make.h"

using namespace ovendays;
namespace fs = std::filesystem;

namespace {
std::vector<std::string> seed_files(const std::string& name) {
  std::vector<std::string> files;
  for (const auto& each : fs::directory_iterator(fs::path(OVENDAYS_TEST_DATA) / name)) {
    files.push_back(each.path().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

// Entries that make a whole year or a whole file of results for every replay.
bool slow(const std::string& name) {
  return name == "edited_year" || name == "normals" || name == "edited_results";
}

// Cut short, with one byte changed, or with a stretch taken out.
std::string spoilt(const std::string& bytes, std::uint64_t number) {
  base::KeyedRandom chance(number, bytes.size());
  std::string out = bytes;
  if (out.empty()) return out;
  const std::size_t at = chance.bits() % out.size();
  if (number % 3 == 0) out.resize(at);
  if (number % 3 == 1) out[at] = static_cast<char>(chance.bits() & 0xFFU);
  if (number % 3 == 2) out.erase(at, 1 + chance.bits() % 40);
  return out;
}
}  // namespace

TEST_CASE("every seed is read or refused as promised", "[fuzz][regression]") {
  for (const fuzz::Entry& entry : fuzz::entries()) {
    const std::vector<std::string> files = seed_files(entry.name);
    INFO(entry.name);
    CHECK(files.size() >= 3);
    for (const std::string& file : files) {
      INFO(file);
      const std::string bytes = base::read_file(file);
      CHECK(bytes.size() < 4096);
      CHECK_NOTHROW(entry.run(bytes));
    }
  }
}

TEST_CASE("spoilt seeds are read or refused as promised", "[fuzz][regression]") {
  for (const fuzz::Entry& entry : fuzz::entries()) {
    if (!entry.by_default || slow(entry.name)) continue;
    for (const std::string& file : seed_files(entry.name)) {
      const std::string bytes = base::read_file(file);
      for (std::uint64_t number = 0; number < 60; ++number) {
        INFO(file << ", spoilt in way " << number);
        CHECK_NOTHROW(entry.run(spoilt(bytes, number)));
      }
    }
  }
}

// An entry that took everything for refused would find nothing.
TEST_CASE("the sound seeds are accepted", "[fuzz][unit]") {
  const auto seed = [](const char* name) { return std::string(OVENDAYS_TEST_DATA) + "/" + name; };
  using weather::WeatherFormat;
  for (const auto format :
       {WeatherFormat::kEpw, WeatherFormat::kTmy3, WeatherFormat::kNsrdb, WeatherFormat::kPvgis}) {
    CHECK_NOTHROW(weather::read_weather_text(fuzz::made_year(format), "year"));
  }
  CHECK_NOTHROW(spot::read_horizon_csv(seed("horizon/service.csv")));
  CHECK_NOTHROW(weather::read_normals(seed("normals/desert.toml")));
  CHECK_NOTHROW(weather::read_normals(seed("normals/polar.toml")));
  for (const char* name : {"spot", "oven", "routine", "tasks", "mark_crlf"}) {
    CHECK_NOTHROW(season::read_case(seed("case/") + name + ".toml"));
  }
}

TEST_CASE("what an entry finds is told", "[fuzz][unit]") {
  CHECK_THROWS_AS(fuzz::require(false, "a finding"), std::logic_error);
  CHECK(fuzz::accepted([] {}));
  CHECK_FALSE(fuzz::accepted([] { throw base::InputError(base::Fault{"a", 1, "", "bad", ""}); }));
  CHECK_THROWS_AS(fuzz::accepted([] { throw base::InputError(std::vector<base::Fault>{}); }),
                  std::logic_error);
  CHECK_THROWS_AS(fuzz::accepted([] { throw std::bad_alloc(); }), std::bad_alloc);
}
