// SPDX-License-Identifier: MIT
#include <chrono>
#include <cmath>

#include "catch.h"
#include "ovendays/base/case_node.h"
#include "ovendays/base/constants.h"
#include "ovendays/spot/scene.h"

namespace base = ovendays::base;
namespace spot = ovendays::spot;
using ovendays::test::contains;
using ovendays::test::within_abs;
using ovendays::test::within_rel;

namespace {
struct Read {
  spot::Spot spot;
  std::string faults;
};

Read read(const std::string& text) {
  base::CaseFile file(text, std::string(OVENDAYS_TEST_DATA) + "/case.toml");
  Read result;
  result.spot = spot::read_spot(file.root().table("spot"));
  try {
    file.finish();
  } catch (const base::InputError& error) {
    result.faults = error.what();
  }
  return result;
}
}  // namespace

TEST_CASE("the example spot is read without faults", "[spot][unit]") {
  const Read got = read(spot::example_spot_toml());
  REQUIRE(got.faults.empty());
  REQUIRE(got.spot.obstructions.size() == 3);
  REQUIRE(got.spot.roofed);  // by the carport
  const auto& bay = std::get<spot::Bay>(got.spot.obstructions[0]);
  REQUIRE_THAT(bay.facing_rad, within_abs(base::kPi, 1e-12));
  REQUIRE_FALSE(bay.left_wall);
  const auto& tree = std::get<spot::Tree>(got.spot.obstructions[2]);
  REQUIRE(tree.transmission[0] == 0.6);
  REQUIRE(tree.transmission[6] == 0.2);
  REQUIRE_THAT(got.spot.horizon.at(base::kPi / 2.0), within_abs(6.0 * base::kRadPerDeg, 1e-12));
  REQUIRE(got.spot.wind_factor > 0.05);
  REQUIRE(got.spot.wind_factor < 0.5);
}

TEST_CASE("a case without a spot stands on open ground", "[spot][unit]") {
  const Read got = read("");
  REQUIRE(got.faults.empty());
  REQUIRE(spot::Scene(got.spot).open());
  REQUIRE_FALSE(got.spot.roofed);
}

TEST_CASE("obstructions are read with any unit under the names of their members", "[spot][unit]") {
  const Read got = read(
      "[spot]\nx = \"10 ft\"\nheight = \"36 in\"\nterrain = \"open\"\nshelter = \"25 %\"\n"
      "[[spot.overhang]]\nname = \"eave\"\nx = 1\ny = 2\nwidth = 3\ndepth = 4\nturn = 30\n"
      "underside = \"8 ft\"\nthickness = \"4 in\"\nreflectance = 0.7\n"
      "[[spot.block]]\nx = 20\ny = 2\nwidth = 3\ndepth = 4\nheight = 5\nbase = 1\nturn = \"-15 "
      "deg\"\n"
      "[[spot.wall]]\nx1 = 9\ny1 = 9\nx2 = 12\ny2 = 9\nbase = 0.5\ntop = 2\n"
      "[[spot.tree]]\nx = 30\ny = 0\ncrown_top = 6\ncrown_width = 4\ntransmission = 0.3\n");
  REQUIRE(got.faults.empty());
  REQUIRE_THAT(got.spot.mouth.x, within_rel(3.048, 1e-12));
  REQUIRE_THAT(got.spot.mouth.z, within_rel(0.9144, 1e-12));
  const auto& eave = std::get<spot::Overhang>(got.spot.obstructions[0]);
  REQUIRE(eave.name == "eave");
  REQUIRE_THAT(eave.underside_m, within_rel(2.4384, 1e-12));
  REQUIRE_THAT(eave.turn_rad, within_rel(base::kPi / 6.0, 1e-12));
  REQUIRE(std::get<spot::Tree>(got.spot.obstructions[3]).transmission[11] == 0.3);
  // A stated shelter leaves three quarters of the open profile, (0.9144/10)^0.14.
  REQUIRE_THAT(got.spot.wind_factor, within_rel(0.75 * std::pow(0.09144, 0.14), 1e-12));
}

TEST_CASE("impossible obstructions are rejected with line and reason", "[spot][unit]") {
  const std::string faults =
      read(
          "[spot]\n"
          "[[spot.wall]]\nx1=0\ny1=5\nx2=0\ny2=5\ntop=2\n"
          "[[spot.wall]]\nx1=0\ny1=5\nx2=2\ny2=5\nbase=2\ntop=1\n"
          "[[spot.block]]\nx=0\ny=0\nwidth=2\ndepth=2\nheight=2\n"
          "[[spot.bay]]\nx=0\ny=-1\nfacing=180\nwidth=3\ndepth=5\nheight=2\nlintel=3\n"
          "[[spot.tree]]\nx=9\ny=9\ncrown_base=4\ncrown_top=3\ncrown_width=0\n"
          "transmission=[0.1,0.2,1.5]\nreflectance=2\nleaves=3\n")
          .faults;
  INFO(faults);
  REQUIRE(contains(faults, "case.toml:2: spot.wall: the wall ends where it begins"));
  REQUIRE(contains(faults, "case.toml:14: spot.wall.top: 1 m, allowed above the base, 2 m"));
  REQUIRE(contains(faults, "case.toml:15: spot.block: the oven's mouth stands inside this block"));
  REQUIRE(contains(faults, "case.toml:28: spot.bay.lintel: 3 m, allowed at most the height"));
  REQUIRE(contains(faults, "spot.tree.crown_top: 3 m, allowed above crown_base, 4 m"));
  REQUIRE(contains(faults, "spot.tree.crown_width: 0 m, allowed 1 mm to 1000 m"));
  REQUIRE(contains(faults, "spot.tree.transmission: 1.5, allowed 0 to 1"));
  REQUIRE(contains(faults, "spot.tree.reflectance: 2, allowed 0 to 1"));
  REQUIRE(contains(faults, "spot.tree.leaves: unknown key"));
}

TEST_CASE("a mouth inside an overhang, a crown or a trunk is rejected", "[spot][unit]") {
  const char* const kInside = "the oven's mouth stands inside this ";
  REQUIRE(contains(read("[[spot.overhang]]\nx=0\ny=0\nwidth=2\ndepth=2\nunderside=0.8\n").faults,
                   kInside + std::string("overhang")));
  REQUIRE(
      contains(read("[[spot.tree]]\nx=0\ny=1\ncrown_base=0\ncrown_top=3\ncrown_width=4\n").faults,
               kInside + std::string("tree")));
  REQUIRE(contains(read("[[spot.tree]]\nx=0\ny=0.1\ncrown_top=6\ncrown_width=4\n").faults,
                   kInside + std::string("tree")));
  REQUIRE(read("[[spot.tree]]\nx=0\ny=0.3\ncrown_top=6\ncrown_width=4\n").faults.empty());
}

TEST_CASE("an invalid horizon is rejected", "[spot][unit]") {
  REQUIRE(contains(read("[spot.horizon]\nazimuth=[0,90]\nelevation=[1]\n").faults,
                   "spot.horizon.elevation: 1 values, allowed as many as azimuth, 2"));
  REQUIRE(contains(read("[spot.horizon]\nazimuth=[90,10]\nelevation=[1,2]\n").faults,
                   "spot.horizon.azimuth: 10 deg after 90 deg"));
  REQUIRE(contains(read("[spot.horizon]\nfile=\"none.csv\"\n").faults, "cannot be read"));
  const Read good = read("[spot.horizon]\nfile=\"horizon_south.csv\"\n");
  REQUIRE(good.faults.empty());
  REQUIRE(good.spot.horizon.azimuth_rad.size() == 4);
  REQUIRE(read("[spot.horizon]\nazimuth=[0,180,360]\nelevation=[1,2,1]\n").faults.empty());
}

TEST_CASE("too many obstructions are rejected before they are read", "[spot][unit]") {
  std::string text = "[spot]\n";
  for (int i = 0; i < 50000; ++i) text += "[[spot.wall]]\nx1=0\n";
  const auto start = std::chrono::steady_clock::now();
  const Read got = read(text);
  const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
  REQUIRE(contains(got.faults, "spot.wall: 50000 obstructions in all, allowed at most 2000"));
  REQUIRE(got.spot.obstructions.empty());
  REQUIRE(spent.count() <
          3.0);  // mostly spent in the TOML parser; the bound is generous for a busy machine
}

TEST_CASE("wind grows with height as in the ASHRAE boundary layers", "[spot][reference]") {
  using spot::Terrain;
  // ASHRAE Handbook of Fundamentals, airflow around buildings (figures from memory): open 270 m,
  // 0.14; suburban 370 m, 0.22; city 460 m, 0.33. Worked by hand from the formula.
  REQUIRE_THAT(spot::wind_profile_factor(Terrain::kOpen, 10.0), within_abs(1.0, 1e-12));
  REQUIRE_THAT(spot::wind_profile_factor(Terrain::kSuburban, 10.0), within_abs(0.7177, 0.001));
  REQUIRE_THAT(spot::wind_profile_factor(Terrain::kCity, 10.0), within_abs(0.4484, 0.001));
  // At the top of the boundary layer the wind is the same for every terrain.
  const double top = spot::wind_profile_factor(Terrain::kOpen, 270.0);
  REQUIRE_THAT(spot::wind_profile_factor(Terrain::kSuburban, 370.0), within_rel(top, 1e-12));
  REQUIRE_THAT(spot::wind_profile_factor(Terrain::kCity, 460.0), within_rel(top, 1e-12));
}
