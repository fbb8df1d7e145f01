// SPDX-License-Identifier: MIT
// Warnings about layers of wall and floor that get hotter than their material stands.
#include "service_limits.h"

#include <algorithm>

#include "catch.h"
#include "made_case.h"
#include "setup.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
oven::Layer layer(const std::string& name, double thickness_m, double conductivity_WmK) {
  oven::Layer made;
  made.material.name = name;
  made.material.conductivity_WmK = conductivity_WmK;
  made.material.conductivity_slope_1K = 0.0;
  made.material.service_limit_K = 1e9;
  made.thickness_m = thickness_m;
  return made;
}

/// Insulation between two boards, of which none has a limit.
season::Case layered_case() {
  season::Case c = small_case({"eggs"});
  c.oven.box.wall = {
      layer("board", 0.004, 0.08), layer("wool", 0.040, 0.04), layer("plywood", 0.010, 0.125)};
  c.oven.box.floor = {layer("cork", 0.020, 0.05), layer("softwood", 0.026, 0.13)};
  return c;
}

std::vector<std::string> limit_notes(const season::SeasonResult& r) {
  std::vector<std::string> notes;
  std::copy_if(
      r.notes.begin(), r.notes.end(), std::back_inserter(notes), [](const std::string& note) {
        return note.find("service limit") != std::string::npos;
      });
  return notes;
}
}  // namespace

TEST_CASE("#16 - across a wall in steady heat flow each layer takes its share of the resistance",
          "[season][reference]") {
  // ISO 6946: in steady flow the temperature falls across each layer in proportion to its thermal
  // resistance d / lambda. Wall: 0.05, 1.00 and 0.08 m2K/W of 1.13; floor: 0.40 and 0.20 of 0.60.
  const season::Case c = layered_case();
  const weather::WeatherYear year = made_weather();
  season::Setup setup(c, 1);
  season::make_setup(c, year, quick_options(), setup);
  constexpr double kInside_K = 400.0;
  constexpr double kOutside_K = 300.0;
  heat::State state = heat::uniform_state(kInside_K);
  for (const auto& [first, links_WK] : {std::pair{heat::kNodeWall1, setup.empty.wall_WK},
                                        std::pair{heat::kNodeFloor1, setup.empty.floor_WK}}) {
    double whole_KW = 0.0;
    for (const double link_WK : links_WK) whole_KW += 1.0 / link_WK;
    double passed_KW = 0.0;
    for (std::size_t i = 0; i < links_WK.size(); ++i) {
      passed_KW += 1.0 / links_WK[i];
      state[static_cast<std::size_t>(first) + i] =
          kInside_K + (kOutside_K - kInside_K) * passed_KW / whole_KW;
    }
  }
  std::vector<double> faces_K;
  for (const season::LayerFace& face : setup.layer_faces)
    faces_K.push_back(face.temperature_K(heat::StateView(state)));
  const std::vector<double> expected_K = {400.0,
                                          400.0 - 100.0 * 0.05 / 1.13,
                                          400.0 - 100.0 * 1.05 / 1.13,
                                          400.0,
                                          400.0 - 100.0 * 0.40 / 0.60};
  REQUIRE(faces_K.size() == expected_K.size());
  for (std::size_t i = 0; i < faces_K.size(); ++i)
    CHECK_THAT(faces_K[i], within_abs(expected_K[i], 1e-9));
}

TEST_CASE(
    "#16 - a season warns of every layer of wall and floor that gets too hot, and of no other",
    "[season][unit]") {
  season::Case c = layered_case();
  const weather::WeatherYear year = made_weather();
  CHECK(limit_notes(run(c, year)).empty());
  // 70 C: below what the empty box reaches inside, above what the outside of the wool does.
  constexpr double kLimit_K = base::kZeroCelsius_K + 70.0;
  c.oven.box.wall[1].material.service_limit_K = kLimit_K;
  c.oven.box.wall[2].material.service_limit_K = kLimit_K;
  c.oven.box.floor[0].material.service_limit_K = kLimit_K;
  const std::vector<std::string> notes = limit_notes(run(c, year));
  REQUIRE(notes.size() == 2);
  CHECK(notes[0].rfind("Wall layer 2, wool, reaches ", 0) == 0);
  CHECK(notes[1].rfind("Floor layer 1, cork, reaches ", 0) == 0);
  for (const std::string& note : notes)
    CHECK(note.find("its service limit is 70 C (158 F).") != std::string::npos);
}
