// SPDX-License-Identifier: MIT
// HT-n are the rows of the ledger of published values for heat transfer.
#include "ovendays/optics/exchange.h"

#include <array>
#include <cmath>

#include "catch.h"
#include "ovendays/base/constants.h"

using namespace ovendays;
using optics::ExchangeAreas;
using oven::OvenDesign;
using test::within_abs;
using test::within_rel;

namespace {
constexpr int kManyRays = 65536;
constexpr double kSampling = 0.005;  // of the largest coupling, with that many rays

oven::Facet wall(const std::array<base::Point, 4>& corners, int surface) {
  oven::Facet facet;
  facet.corner = corners;
  facet.normal = base::normalized(base::cross(corners[1] - corners[0], corners[2] - corners[0]));
  facet.surface = surface;
  return facet;
}

// Unit cube under the glazing, all black; floor, one side and the other sides told apart.
oven::OvenGeometry unit_cube() {
  oven::OvenGeometry cube;
  cube.glass_half_width_m = 0.5;
  cube.glass_half_length_m = 0.5;
  const double h = 0.5;
  cube.cavity = {wall({{{-h, -h, -1}, {h, -h, -1}, {h, h, -1}, {-h, h, -1}}}, oven::kTray),
                 wall({{{h, -h, -1}, {-h, -h, -1}, {-h, -h, 0}, {h, -h, 0}}}, oven::kVessel),
                 wall({{{h, h, -1}, {h, -h, -1}, {h, -h, 0}, {h, h, 0}}}, oven::kLiner),
                 wall({{{-h, h, -1}, {h, h, -1}, {h, h, 0}, {-h, h, 0}}}, oven::kVesselTop),
                 wall({{{-h, -h, -1}, {-h, h, -1}, {-h, h, 0}, {-h, -h, 0}}}, oven::kLiner)};
  cube.area_m2 = {1.0, 0.0, 0.0, 2.0, 1.0, 1.0, 1.0};
  return cube;
}

oven::Pane black_pane() {
  oven::Pane pane;
  pane.ir_emittance = 1.0;
  return pane;
}

double row_sum(const ExchangeAreas& areas, std::size_t row) {
  double sum = areas.outside_m2[row];
  for (const double part_m2 : areas.between_m2[row]) sum += part_m2;
  return sum;
}
}  // namespace

TEST_CASE("parallel grey plates exchange as the closed form says", "[optics][reference]") {
  // HT-14: closed form; plates at 100 and 50 degC, W/m2
  const double flux = base::kStefanBoltzmann_Wm2K4 * (std::pow(373.15, 4) - std::pow(323.15, 4));
  REQUIRE_THAT(optics::parallel_plates(0.90, 0.84) * flux, within_rel(369.6, 1e-3));
  REQUIRE_THAT(optics::parallel_plates(0.95, 0.88) * flux, within_rel(404.6, 1e-3));
  REQUIRE_THAT(optics::parallel_plates(0.90, 0.04) * flux, within_rel(19.16, 1e-3));
}

TEST_CASE("faces of a cube see each other by the tabulated view factors", "[optics][reference]") {
  // opposite faces 0.19982, adjacent 0.20004: closed forms of the handbooks (from memory)
  const std::vector<oven::Pane> panes{black_pane()};
  const ExchangeAreas areas = optics::exchange_areas(unit_cube(), panes, kManyRays);
  REQUIRE_THAT(areas.between_m2[oven::kPane0][oven::kTray], within_abs(0.19982, 1e-3));
  REQUIRE_THAT(areas.between_m2[oven::kVessel][oven::kVesselTop], within_abs(0.19982, 1e-3));
  REQUIRE_THAT(areas.between_m2[oven::kPane0][oven::kVessel], within_abs(0.20004, 1e-3));
  REQUIRE_THAT(areas.between_m2[oven::kTray][oven::kVesselTop], within_abs(0.20004, 1e-3));
  REQUIRE_THAT(areas.between_m2[oven::kPane0][oven::kLiner], within_abs(2 * 0.20004, 2e-3));
  // flat black faces lose all they emit to the others: rows sum to the area (HT-15)
  for (const int face : {oven::kPane0, oven::kTray, oven::kVessel, oven::kVesselTop}) {
    REQUIRE_THAT(row_sum(areas, static_cast<std::size_t>(face)), within_abs(1.0, 2e-3));
  }
}

TEST_CASE("exchange is symmetric and an isothermal enclosure exchanges nothing",
          "[optics][identity]") {
  const OvenDesign design = oven::default_design();
  for (const oven::Vessel& vessel : design.vessels) {
    const auto geometry = oven::build_geometry(design, &vessel, false);
    const ExchangeAreas areas = optics::exchange_areas(geometry, design.panes);
    CHECK(areas.asymmetry < 0.03);  // two samples of 4096 rays
    for (std::size_t i = 0; i < oven::kSurfaces; ++i) {
      CHECK(areas.between_m2[i][i] == 0.0);
      CHECK(areas.outside_m2[i] == 0.0);  // glass lets no infrared out
      for (std::size_t k = 0; k < oven::kSurfaces; ++k) {
        // HT-15: net power is G (T^4 - T^4) = 0 both ways because G is one number
        CHECK(areas.between_m2[i][k] == areas.between_m2[k][i]);
        CHECK(areas.between_m2[i][k] >= 0.0);
      }
    }
  }
}

TEST_CASE("a convex pot in black surroundings loses emittance times area", "[optics][identity]") {
  OvenDesign design = oven::default_design();
  design.tray.reset();
  design.liner.emittance = 1.0;
  design.panes = {black_pane()};
  for (const double emittance : {0.2, 0.9}) {
    design.box.glazing_slope_rad = emittance;  // level glass or not, it is the same pot
    oven::Vessel pot = design.vessels[0];
    pot.emittance = emittance;
    const auto geometry = oven::build_geometry(design, &pot, false);
    const ExchangeAreas areas = optics::exchange_areas(geometry, design.panes, kManyRays);
    const double own_m2 = emittance * geometry.area_m2[oven::kVessel];
    REQUIRE_THAT(row_sum(areas, oven::kVessel), within_rel(own_m2, kSampling));
  }
}

TEST_CASE("a pan on its tray is closed: no power is lost or found beneath it",
          "[optics][identity]") {
  OvenDesign design = oven::default_design();
  design.liner.emittance = 1.0;
  design.tray->emittance = 1.0;
  design.panes = {black_pane()};
  oven::Vessel pan = design.vessels[1];
  pan.lid = true;
  pan.emittance = 1.0;
  const auto geometry = oven::build_geometry(design, &pan, false);
  const ExchangeAreas areas = optics::exchange_areas(geometry, design.panes, kManyRays);
  // convex, black: pan and tray lose all they emit to others
  REQUIRE_THAT(row_sum(areas, oven::kVessel),
               within_rel(geometry.area_m2[oven::kVessel], kSampling));
  REQUIRE_THAT(row_sum(areas, oven::kTray), within_rel(geometry.area_m2[oven::kTray], kSampling));
  REQUIRE_THAT(row_sum(areas, oven::kPane0), within_rel(geometry.area_m2[oven::kPane0], kSampling));
}

TEST_CASE("an empty grey box is a two-surface enclosure", "[optics][identity]") {
  OvenDesign design = oven::default_design();
  design.tray.reset();
  design.liner.emittance = 0.9;
  design.panes = {black_pane()};
  const auto geometry = oven::build_geometry(design, nullptr, false);
  const ExchangeAreas areas = optics::exchange_areas(geometry, design.panes, kManyRays);
  const double glass_m2 = geometry.area_m2[oven::kPane0];
  const double liner_m2 = geometry.area_m2[oven::kLiner];
  // F = 1 from the flat glass; (1 - e2) / (e2 A2) of the liner, radiosity taken as uniform over it
  const double exact_m2 = 1.0 / (1.0 / glass_m2 + 0.1 / (0.9 * liner_m2));
  REQUIRE_THAT(areas.between_m2[oven::kPane0][oven::kLiner], within_rel(exact_m2, 0.01));
}

TEST_CASE("neighbouring panes exchange as parallel plates", "[optics][identity]") {
  OvenDesign design = oven::default_design();
  design.panes.resize(2);
  design.panes[1].ir_emittance = 0.3;
  const auto geometry = oven::build_geometry(design, nullptr, false);
  const ExchangeAreas areas = optics::exchange_areas(geometry, design.panes);
  const double exact_m2 = geometry.area_m2[oven::kPane0] * optics::parallel_plates(0.84, 0.3);
  REQUIRE_THAT(areas.between_m2[oven::kPane0][oven::kPane1], within_rel(exact_m2, 1e-12));
  CHECK(areas.between_m2[oven::kPane0][oven::kLiner] == 0.0);  // the inner pane stands between
  CHECK(areas.between_m2[oven::kPane1][oven::kLiner] > 0.0);
}

TEST_CASE("a film lets its share of infrared out", "[optics][identity]") {
  OvenDesign design = oven::default_design();
  design.tray.reset();
  design.liner.emittance = 1.0;
  oven::Pane film;
  film.ir_emittance = 0.6;
  film.ir_transmittance = 0.3;
  design.panes = {film};
  const auto geometry = oven::build_geometry(design, nullptr, false);
  const ExchangeAreas one = optics::exchange_areas(geometry, design.panes, kManyRays);
  const double glass_m2 = geometry.area_m2[oven::kPane0];
  // black walls send the glazing its own area; what it reflects comes back to them
  REQUIRE_THAT(one.outside_m2[oven::kLiner], within_rel(0.3 * glass_m2, kSampling));
  REQUIRE_THAT(one.between_m2[oven::kLiner][oven::kPane0], within_rel(0.6 * glass_m2, kSampling));
  // behind glass the film shows the walls to the glass and hides nothing else
  design.panes = {oven::Pane{}, film};
  const ExchangeAreas two = optics::exchange_areas(geometry, design.panes, kManyRays);
  CHECK(two.outside_m2[oven::kLiner] == 0.0);
  // 0.3 through the film, 0.84 taken by the glass, the rest to and fro between them (0.16, 0.1)
  const double shown_m2 = glass_m2 * 0.3 * 0.84 / (1.0 - 0.16 * 0.1);
  REQUIRE_THAT(two.between_m2[oven::kLiner][oven::kPane0], within_rel(shown_m2, kSampling));
}
