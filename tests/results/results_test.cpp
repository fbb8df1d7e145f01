// SPDX-License-Identifier: MIT
// The file gives back what was put in, says so when it cannot, and never harms an old file.
#include "ovendays/results/results.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <utility>

#include "catch.h"
#include "made_season.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"

using namespace ovendays;
using test::made_season;

namespace {
namespace fs = std::filesystem;

// A folder of this test's own, gone with it.
struct Folder {
  fs::path path;
  Folder() : path(fs::temp_directory_path() / ("ovendays_results_" + std::to_string(::getpid()))) {
    fs::create_directories(path);
  }
  ~Folder() {
    fs::permissions(path, fs::perms::owner_all, fs::perm_options::add);
    fs::remove_all(path);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string file(const char* name) const { return (path / name).string(); }
  [[nodiscard]] long count() const {
    return std::distance(fs::directory_iterator(path), fs::directory_iterator{});
  }
};

std::string season_refusal(const std::string& file) {
  try {
    results::read_results(file);
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}

void require_same_days(const season::SeasonResult& a, const season::SeasonResult& b) {
  REQUIRE(a.days.size() == b.days.size());
  for (std::size_t i = 0; i < a.days.size(); ++i) {
    const season::DayTask &x = a.days[i], &y = b.days[i];
    const bool same = x.outcome == y.outcome && x.cause == y.cause && x.load_s == y.load_s &&
                      x.finish_s == y.finish_s && x.margin_s == y.margin_s &&
                      x.peak_core_K == y.peak_core_K && x.shortfall_K == y.shortfall_K &&
                      x.hold_share == y.hold_share && x.danger_s == y.danger_s &&
                      x.evaporated_kg == y.evaporated_kg && x.window_first_s == y.window_first_s &&
                      x.window_last_s == y.window_last_s && x.window_count == y.window_count;
    if (!same) FAIL("task day " << i << " differs");
  }
}

void require_same_mask(const spot::SpotMask& a, const spot::SpotMask& b) {
  REQUIRE(a.sky.size() == b.sky.size());
  for (std::size_t i = 0; i < a.sky.size(); ++i) {
    REQUIRE(a.sky[i].azimuth_rad == b.sky[i].azimuth_rad);
    REQUIRE(a.sky[i].solid_angle_sr == b.sky[i].solid_angle_sr);
    REQUIRE(a.sky[i].direction.z == b.sky[i].direction.z);
  }
  REQUIRE(a.sky_visible == b.sky_visible);
  REQUIRE(a.sky_blocked == b.sky_blocked);
  REQUIRE(a.ground_visible == b.ground_visible);
  REQUIRE(a.ground_blocked == b.ground_blocked);
  REQUIRE(a.horizon_visible == b.horizon_visible);
  REQUIRE(a.sky_view_factor == b.sky_view_factor);
}
}  // namespace

TEST_CASE("what is written is read back", "[results][unit]") {
  const Folder folder;
  const test::MadeSeason made = made_season();
  results::write_results(folder.file("a.h5"), made.c, made.year, made.result);
  const results::StoredSeason back = results::read_results(folder.file("a.h5"));
  const season::SeasonResult& r = back.result;
  REQUIRE(back.program_version == results::program_version());
  REQUIRE(back.case_text == made.c.text);
  REQUIRE(back.case_sha256 == base::sha256_hex(made.c.text));
  REQUIRE(r.site_name == made.result.site_name);
  REQUIRE(r.oven_name == made.result.oven_name);
  REQUIRE(r.notes == made.result.notes);
  REQUIRE(r.task_names == made.result.task_names);
  REQUIRE(r.place.latitude_rad == made.result.place.latitude_rad);
  REQUIRE(r.place.utc_offset_s == made.result.place.utc_offset_s);
  REQUIRE(r.audit.steps == made.result.audit.steps);
  REQUIRE(r.audit.residual_J == made.result.audit.residual_J);
  require_same_days(r, made.result);
  require_same_mask(r.mask_january, made.result.mask_january);
  require_same_mask(r.mask_july, made.result.mask_july);
  for (std::size_t i = 0; i < r.hours.size(); ++i) {
    const season::HourTrace &x = r.hours[i], &y = made.result.hours[i];
    if (x.absorbed_W != y.absorbed_W || x.air_K != y.air_K || x.wind_ms != y.wind_ms ||
        x.beam_mouth_Wm2 != y.beam_mouth_Wm2 || x.aim_tilt_rad != y.aim_tilt_rad) {
      FAIL("hour " << i << " differs");
    }
  }
}

TEST_CASE("tasks and weather are read back", "[results][unit]") {
  const Folder folder;
  const test::MadeSeason made = made_season();
  results::write_results(folder.file("a.h5"), made.c, made.year, made.result);
  const results::StoredSeason back = results::read_results(folder.file("a.h5"));
  REQUIRE(back.tasks.size() == 5);
  REQUIRE(back.tasks[2].spoils);
  REQUIRE(back.tasks[2].rule == "four-hour");
  REQUIRE(back.tasks[2].rule_limit_s == 4 * 3600.0);  // what the four-hour rule is named for
  REQUIRE(back.tasks[0].rule.empty());
  REQUIRE(back.tasks[0].hold_s == 900.0);
  const weather::WeatherYear& year = back.weather;
  REQUIRE(year.sha256 == made.year.sha256);
  REQUIRE(year.notes.size() == 2);
  REQUIRE(year.notes[0].line == 12);
  REQUIRE(year.notes[1].text == "no rain given");
  REQUIRE(year.hours[8000].date.year == 1998);
  REQUIRE(year.hours[8000].date.month == made.year.hours[8000].date.month);
  REQUIRE(year.hours[77].filled);
  REQUIRE_FALSE(year.hours[78].precipitation_m == made.year.hours[79].precipitation_m);
  REQUIRE_FALSE(year.hours[25].albedo.has_value());
  // Single precision holds 24 bits: 6e-8 of the value.
  REQUIRE_THAT(year.hours[4012].dry_bulb_K,
               test::within_rel(made.year.hours[4012].dry_bulb_K, 6e-8));
  REQUIRE(year.hours[4012].dni_Wm2 == made.year.hours[4012].dni_Wm2);
}

TEST_CASE("ranges are read back, also where a task or the season has none", "[results][unit]") {
  const Folder folder;
  const test::MadeSeason made = made_season(false);
  results::StoredSeason stored = results::stored_season(made.c, made.year, made.result);
  results::write_results(folder.file("none.h5"), stored);
  CHECK(results::read_results(folder.file("none.h5")).tasks[1].draws == 0.0);
  CHECK(results::read_results(folder.file("none.h5")).tasks[1].low_days == -1.0);
  std::vector<season::TaskRange> ranges(stored.tasks.size());
  ranges[1] = {.draws = 12,
               .low_days = 83,
               .median_days = 136,
               .high_days = 164,
               .typical_load_s = 36000,
               .done_in_s = 7561,
               .slow_s = 10437};
  ranges[2] = {.draws = 12, .low_days = 0, .median_days = 0, .high_days = 0};  // never cooked
  results::add_ranges(ranges, stored);
  results::write_results(folder.file("a.h5"), stored);
  const results::StoredSeason back = results::read_results(folder.file("a.h5"));
  CHECK(back.tasks[0].draws == 0.0);
  CHECK(back.tasks[1].draws == 12.0);
  CHECK(back.tasks[1].low_days == 83.0);
  CHECK(back.tasks[1].median_days == 136.0);
  CHECK(back.tasks[1].high_days == 164.0);
  CHECK(back.tasks[1].typical_load_s == 36000.0);
  CHECK(back.tasks[1].done_in_s == 7561.0);
  CHECK(back.tasks[1].slow_s == 10437.0);
  CHECK(back.tasks[2].high_days == 0.0);
  CHECK(back.tasks[2].done_in_s == -1.0);
  results::write_results(folder.file("b.h5"), back);
  CHECK(base::read_file(folder.file("b.h5")) == base::read_file(folder.file("a.h5")));
}

TEST_CASE("a season without masks is read back without", "[results][unit]") {
  const Folder folder;
  const test::MadeSeason made = made_season(false);
  results::write_results(folder.file("a.h5"), made.c, made.year, made.result);
  REQUIRE(results::read_results(folder.file("a.h5")).result.mask_july.sky.empty());
}

TEST_CASE("acceptance tables are kept to single precision", "[results][unit]") {
  const Folder folder;
  const test::MadeSeason made = made_season(false);
  results::StoredSeason stored = results::stored_season(made.c, made.year, made.result);
  for (const std::string& load : made.result.load_names) {
    results::StoredTable table{.load = load, .grid = 5, .error = 0.004, .nodes = {}};
    for (int i = 0; i < 25; ++i) {
      optics::Acceptance node;
      node.absorbed_m2[oven::kLiner] = 0.01 * i;
      node.absorbed_m2[oven::kVesselTop] = 0.1;
      node.outer_ir_m2 = 0.001 * i;
      table.nodes.push_back(node);
    }
    stored.tables.push_back(table);
  }
  results::write_results(folder.file("a.h5"), stored);
  const results::StoredSeason back = results::read_results(folder.file("a.h5"));
  REQUIRE(back.tables.size() == 2);
  REQUIRE(back.tables[1].load == "black pot");
  REQUIRE(back.tables[1].error == 0.004);
  const optics::Acceptance& node = back.tables[1].nodes[23];
  REQUIRE_THAT(node.absorbed_m2[oven::kLiner], test::within_rel(0.23, 6e-8));  // 24 bits
  REQUIRE_THAT(node.outer_ir_m2, test::within_rel(0.023, 6e-8));
  REQUIRE_THAT(node.absorbed_m2[oven::kVesselTop], test::within_rel(0.1, 6e-8));
}

TEST_CASE("the same season gives the same bytes, also by way of the file",
          "[results][determinism]") {
  const Folder folder;
  const test::MadeSeason made = made_season();
  results::write_results(folder.file("a.h5"), made.c, made.year, made.result);
  ::sleep(1);  // a time stamp of whole seconds would differ now
  results::write_results(folder.file("b.h5"), made.c, made.year, made.result);
  results::write_results(folder.file("c.h5"), results::read_results(folder.file("a.h5")));
  const std::string first = base::read_file(folder.file("a.h5"));
  REQUIRE(first == base::read_file(folder.file("b.h5")));
  REQUIRE(first == base::read_file(folder.file("c.h5")));
}

TEST_CASE("a failed write leaves the old file whole and nothing beside it", "[results][unit]") {
  const Folder folder;
  const test::MadeSeason made = made_season();
  const std::string file = folder.file("a.h5");
  base::write_file(file, "an older season");
  SECTION("folder closed") {
    if (::geteuid() == 0) {
      WARN("SKIPPED: the super-user may write into any folder");
      return;
    }
    fs::permissions(folder.path, fs::perms::owner_read | fs::perms::owner_exec);
  }
  SECTION("no room for it") {
    // The file under way is a link to a device that is always full.
    const std::string part = file + "." + std::to_string(::getpid()) + ".part";
    if (!fs::exists("/dev/full") || ::symlink("/dev/full", part.c_str()) != 0) {
      WARN("SKIPPED: no /dev/full here");
      return;
    }
  }
  SECTION("folder missing") {
    REQUIRE_THROWS_AS(
        results::write_results(folder.file("none/a.h5"), made.c, made.year, made.result),
        base::RunError);
    return;
  }
  std::string said;
  try {
    results::write_results(file, made.c, made.year, made.result);
  } catch (const base::RunError& error) {
    said = error.what();
  }
  CHECK(test::contains(said, file));
  CHECK(test::contains(said, "cannot be written: "));
  CHECK(base::read_file(file) == "an older season");
  CHECK(folder.count() == 1);
}

TEST_CASE("what is no season, or a damaged one, is refused with the reason", "[results][unit]") {
  const Folder folder;
  const std::string file = folder.file("a.h5");
  CHECK(test::contains(season_refusal(file), "a.h5"));
  base::write_file(file, "text");
  CHECK(test::contains(season_refusal(file), "is not a readable season"));
  CHECK_FALSE(season_refusal(folder.path.string()).empty());

  const test::MadeSeason made = made_season();
  results::write_results(file, made.c, made.year, made.result);
  const std::string whole = base::read_file(file);
  base::write_file(file, std::string_view(whole).substr(0, whole.size() / 2));
  CHECK_FALSE(season_refusal(file).empty());
  base::write_file(file, whole + "\n");
  CHECK(test::contains(season_refusal(file), "cut short"));
}

TEST_CASE("no flipped bit passes unseen", "[results][unit]") {
  const Folder folder;
  const std::string file = folder.file("a.h5");
  const test::MadeSeason made = made_season(false);
  results::write_results(file, made.c, made.year, made.result);
  const std::string whole = base::read_file(file);
  for (std::size_t i = 0; i <= 60; ++i) {
    std::string changed = whole;
    const std::size_t at = i * (whole.size() - 1) / 60;
    changed[at] = static_cast<char>(static_cast<unsigned char>(changed[at]) ^ 0x10U);
    base::write_file(file, changed);
    INFO("byte " << at << " of " << whole.size());
    REQUIRE_FALSE(season_refusal(file).empty());
  }
}
