// SPDX-License-Identifier: MIT
// Snell, Fresnel's first face and the absorption path against a general solar library's one-face
// incidence modifier (data/optics/*.csv). Not a check of whole panes.
#include <array>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "catch.h"
#include "ovendays/base/constants.h"
#include "ovendays/optics/pane_optics.h"

using namespace ovendays;
using test::within_abs;

namespace {
struct Cover {
  double index;
  double extinction_1m;
  double thickness_m;
};

double one_face(const Cover& cover, double c) {
  const auto face = optics::fresnel(c, cover.index);
  const double path_m = cover.thickness_m / optics::cos_refracted(c, cover.index);
  return (1.0 - 0.5 * (face.perpendicular + face.parallel)) *
         std::exp(-cover.extinction_1m * path_m);
}

std::vector<std::vector<double>> rows(const std::string& name) {
  std::ifstream file(std::string(OVENDAYS_TEST_DATA) + "/" + name);
  REQUIRE(file.good());
  std::vector<std::vector<double>> out;
  std::string line;
  while (std::getline(file, line)) {
    if (line.empty() || line[0] == '#' || line[0] == 'n') continue;
    std::istringstream cells(line);
    std::string cell;
    out.emplace_back();
    while (std::getline(cells, cell, ',')) out.back().push_back(std::stod(cell));
  }
  return out;
}

struct Band {
  double least_zenith_deg;
  double most_zenith_deg;
};

// Mean of the modifier over a band of the sky or ground, weighted by the cosine of incidence.
double band_mean(const Cover& cover, double tilt_deg, const Band& band) {
  constexpr int zeniths = 400;
  constexpr int turns = 360;
  const double tilt = tilt_deg * base::kRadPerDeg;
  const double from = band.least_zenith_deg * base::kRadPerDeg;
  const double step = (band.most_zenith_deg - band.least_zenith_deg) * base::kRadPerDeg / zeniths;
  const double straight = one_face(cover, 1.0);
  double passed = 0.0;
  double met = 0.0;
  for (int i = 0; i < zeniths; ++i) {
    const double zenith = from + (i + 0.5) * step;
    for (int k = 0; k < turns; ++k) {
      const double turn = base::kPi * (k + 0.5) / turns;
      const double c =
          std::cos(tilt) * std::cos(zenith) + std::sin(tilt) * std::sin(zenith) * std::cos(turn);
      if (c <= 0.0) continue;
      met += c * std::sin(zenith);
      passed += c * std::sin(zenith) * one_face(cover, c) / straight;
    }
  }
  return met > 0.0 ? passed / met : 0.0;
}
}  // namespace

TEST_CASE("the one-face modifier agrees at every degree", "[optics][reference]") {
  const auto table = rows("iam.csv");
  REQUIRE(table.size() == 364U);
  for (const auto& row : table) {
    const Cover cover{row[0], row[1], row[2]};
    const double c = row[3] == 90.0 ? 0.0 : std::cos(row[3] * base::kRadPerDeg);
    CAPTURE(row[0], row[1], row[2], row[3]);
    // eight printed digits
    REQUIRE_THAT(one_face(cover, c) / one_face(cover, 1.0), within_abs(row[4], 2e-8));
  }
}

TEST_CASE("the one-face modifier agrees over sky and ground", "[optics][reference]") {
  const auto table = rows("iam_diffuse.csv");
  REQUIRE(table.size() == 18U);
  for (const auto& row : table) {
    const Cover cover{row[0], row[1], row[2]};
    const double tilt_deg = row[3];
    CAPTURE(row[0], row[2], tilt_deg);
    // the library integrates by steps of half a degree and more; both sums are good to this
    constexpr double coarse = 0.0015;
    REQUIRE_THAT(band_mean(cover, tilt_deg, {0.0, 90.0}), within_abs(row[4], coarse));
    if (tilt_deg >= 20.0) {  // below, the horizon is seen at grazing angles only
      REQUIRE_THAT(band_mean(cover, tilt_deg, {89.5, 90.0}), within_abs(row[5], coarse));
      REQUIRE_THAT(band_mean(cover, tilt_deg, {90.0, 180.0}), within_abs(row[6], coarse));
    }
  }
}
