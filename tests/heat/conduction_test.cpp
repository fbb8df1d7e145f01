// SPDX-License-Identifier: MIT
// Conduction into a wall and into solid food, cut out of the network, against series solutions:
// Carslaw and Jaeger 1959, Conduction of Heat in Solids (Incropera eq. 5.42, 5.50, 5.51), from
// memory; each is checked here against its initial value.
#include <cmath>
#include <functional>
#include <vector>

#include "catch.h"
#include "lone_parts.h"
#include "oven_days.h"
#include "ovendays/base/constants.h"
#include "ovendays/heat/correlations.h"

using namespace ovendays;
using namespace ovendays::heat;
using namespace ovendays::test;

namespace {

/// Slab with its inner face held at 1 from time 0 and its outer face in air of 0; x, Fo = a t/L^2.
class SlabStep {
 public:
  explicit SlabStep(double biot) : biot_(biot) {
    for (int n = 1; n <= 200; ++n) {
      const double low = (n - 0.5) * base::kPi;
      lambda_.push_back(root_between(low, n * base::kPi - 1e-12, [biot](double l) {
        return l * std::cos(l) + biot * std::sin(l);
      }));
    }
  }
  [[nodiscard]] double at(double x, double fourier) const {
    double sum = 1.0 - x * biot_ / (1.0 + biot_);
    for (const double l : lambda_) {
      sum -= 4.0 / (2.0 * l - std::sin(2.0 * l)) * std::sin(l * x) * std::exp(-l * l * fourier);
    }
    return sum;
  }
  /// Mean over the slab: the heat it holds, over that of all of it at 1.
  [[nodiscard]] double mean(double fourier) const {
    double sum = 1.0 - 0.5 * biot_ / (1.0 + biot_);
    for (const double l : lambda_) {
      sum -= 4.0 / (2.0 * l - std::sin(2.0 * l)) * (1.0 - std::cos(l)) / l *
             std::exp(-l * l * fourier);
    }
    return sum;
  }

 private:
  double biot_;
  std::vector<double> lambda_;
};

/// Heat held by all nodes but those that are held, against an exact one [J]; largest difference.
class StoredAgainst : public StepWatcher {
 public:
  StoredAgainst(const HeatModel& model,
                double zero_K,
                std::function<double(double)> exact_J,
                double from_s)
      : model_(model), zero_K_(zero_K), exact_J_(std::move(exact_J)), from_s_(from_s) {}
  bool on_step(const Step& step) override {
    if (step.end_s < from_s_) return true;
    double stored_J = 0.0;
    for (std::size_t n = 0; n < kNodes; ++n) {
      if (model_.present[n] && model_.capacity_JK[n] < kHeld_JK)
        stored_J += model_.capacity_JK[n] * (step.y1[n] - zero_K_);
    }
    worst_J = std::max(worst_J, std::abs(stored_J - exact_J_(step.end_s)));
    return true;
  }
  double worst_J = 0.0;

 private:
  const HeatModel& model_;
  double zero_K_;
  std::function<double(double)> exact_J_;
  double from_s_;
};

}  // namespace

TEST_CASE("three nodes and a skin follow a step into a wall as the series does",
          "[heat][reference]") {
  const LoneWall wall = lone_wall();
  double capacity_JK = 0.0;
  for (std::size_t i = 0; i < 4; ++i) capacity_JK += wall.model.capacity_JK[kNodeWall1 + i];
  CHECK_THAT(capacity_JK, within_rel(wall.area_m2 * 0.05 * 150.0 * 1400.0, 1e-9));
  const double wind_Wm2K = wind_coefficient_Wm2K(2.4);
  const SlabStep exact(wind_Wm2K * wall.thick_m / wall.conductivity_WmK);
  REQUIRE_THAT(exact.at(0.5, 1e-3), within_abs(0.0, 1e-6));  // cold at first
  AirSegment air = still_air(293.15, 8.0);
  air.start.wind_ms = air.end.wind_ms = 2.4;
  State state = uniform_state(293.15);
  state[kNodeLiner] = 393.15;
  const double places[] = {1.0 / 6.0, 0.5, 5.0 / 6.0, 1.0};
  const double time_scale_s = wall.thick_m * wall.thick_m / wall.diffusivity_m2s;
  // Discretisation, as measured, in kelvin of a step of 100 K, from a tenth and from three tenths
  // of L^2/a on (L^2/a is 2.4 h here): 3.8, 2.7, 0.4, 0.3 and 0.5, 0.9, 0.3, 0.1.
  const double early_K[] = {4.0, 3.0, 0.5, 0.5};
  const double late_K[] = {0.6, 1.0, 0.4, 0.2};
  for (int i = 0; i < 4; ++i) {
    const auto exact_K = [&](double t) {
      return 293.15 + 100.0 * exact.at(places[i], t / time_scale_s);
    };
    const int node = kNodeWall1 + i;
    INFO("wall node " << i);
    CHECK(worst_K(wall.model, air, state, {node, exact_K, 0.1 * time_scale_s}, 1e-3) < early_K[i]);
    CHECK(worst_K(wall.model, air, state, {node, exact_K, 0.3 * time_scale_s}, 1e-3) < late_K[i]);
  }
  const double full_J = capacity_JK * 100.0;
  StoredAgainst stored(
      wall.model,
      293.15,
      [&](double t) { return full_J * exact.mean(t / time_scale_s); },
      0.1 * time_scale_s);
  watch(wall.model, air, state, stored, 1e-3);
  INFO("heat held: off by " << stored.worst_J / full_J << " of " << exact.mean(5.0) << " at last");
  CHECK(stored.worst_J < 0.035 * full_J);  // 0.031 as measured, at the tenth of L^2/a
}

namespace {

/// Core of a slab, cylinder or sphere after a step of the air around it, 1 at first and 0 at last.
class CoreSeries {
 public:
  CoreSeries(FoodShape shape, double biot) {
    for (int n = 0; n < 60; ++n) add_term(shape, biot, n);
  }
  [[nodiscard]] double at(double fourier) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < lambda_.size(); ++i)
      sum += factor_[i] * std::exp(-lambda_[i] * lambda_[i] * fourier);
    return sum;
  }

 private:
  void add_term(FoodShape shape, double biot, int n) {
    const double pi = base::kPi;
    if (shape == FoodShape::kSlab) {
      const double l = root_between(n * pi + 1e-12, (n + 0.5) * pi, [biot](double x) {
        return x * std::sin(x) - biot * std::cos(x);
      });
      keep(l, 4.0 * std::sin(l) / (2.0 * l + std::sin(2.0 * l)));
    } else if (shape == FoodShape::kSphere) {
      const double l = root_between(n * pi + 1e-9, (n + 1) * pi - 1e-9, [biot](double x) {
        return (1.0 - biot) * std::sin(x) - x * std::cos(x);
      });
      keep(l, 4.0 * (std::sin(l) - l * std::cos(l)) / (2.0 * l - std::sin(2.0 * l)));
    } else {
      const auto j0 = [](double x) { return std::cyl_bessel_j(0.0, x); };
      const auto j1 = [](double x) { return std::cyl_bessel_j(1.0, x); };
      // Between a zero of J1 (0, then near (n + 1/4) pi) and the next zero of J0.
      const double low = n == 0 ? 1e-9 : root_between((n + 0.1) * pi, (n + 0.4) * pi, j1);
      const double high = root_between((n + 0.6) * pi, (n + 0.9) * pi, j0);
      const double l = root_between(low, high, [&](double x) { return x * j1(x) - biot * j0(x); });
      keep(l, 2.0 / l * j1(l) / (j0(l) * j0(l) + j1(l) * j1(l)));
    }
  }
  void keep(double lambda, double factor) {
    lambda_.push_back(lambda);
    factor_.push_back(factor);
  }
  std::vector<double> lambda_, factor_;
};

/// A food as make_model() cuts it into shells, alone in a vessel that holds its temperature.
struct LoneFood {
  HeatModel model;
  double biot, time_scale_s;
};

LoneFood lone_food(FoodShape shape, double contact_Wm2K) {
  FoodLoad food;
  food.shape = shape;
  food.mass_kg = 0.6;
  food.specific_heat_JkgK = 3500.0;
  food.half_size_m = 0.025;
  food.contact_Wm2K = contact_Wm2K;
  const HeatModel whole = test::default_oven(1, "cookie sheet", food);
  LoneFood lone{bare_model(), 0.0, 0.0};
  HeatModel& m = lone.model;
  m.loaded = m.shells = true;
  m.shell_WK = whole.shell_WK;
  m.food_vessel_WK = whole.food_vessel_WK;
  for (const int n : {kNodeFood, kNodeShell1, kNodeShell2, kNodeShell3, kNodeShell4})
    add(m, n, whole.capacity_JK[static_cast<std::size_t>(n)]);
  add(m, kNodeVessel, kHeld_JK);
  const int power = shape == FoodShape::kSlab ? 0 : shape == FoodShape::kCylinder ? 1 : 2;
  const double surface_m2 = (power + 1) * food.mass_kg / food.density_kgm3 / food.half_size_m;
  const double skin_KW = 0.1 * food.half_size_m / (food.conductivity_WmK * surface_m2);
  const double film_Wm2K = 1.0 / (1.0 / whole.food_vessel_WK - skin_KW) / surface_m2;
  lone.biot = film_Wm2K * food.half_size_m / food.conductivity_WmK;
  lone.time_scale_s = food.half_size_m * food.half_size_m * food.density_kgm3 *
                      food.specific_heat_JkgK / food.conductivity_WmK;
  return lone;
}

const char* name_of(FoodShape shape) {
  return shape == FoodShape::kSlab ? "slab" : shape == FoodShape::kCylinder ? "cylinder" : "sphere";
}
}  // namespace

TEST_CASE("the series for cores give the handbook's terms and start at one", "[heat][identity]") {
  // Incropera table 5.1, Bi = 1: sphere pi/2 and 4/pi exactly, so 1.2732 exp(-2.4674 Fo).
  const CoreSeries sphere(FoodShape::kSphere, 1.0);
  CHECK_THAT(sphere.at(1.0),
             within_rel(4.0 / base::kPi * std::exp(-0.25 * base::kPi * base::kPi),
                        1e-6));  // the second term is 1e-8 of it
  for (const FoodShape shape : {FoodShape::kSlab, FoodShape::kCylinder, FoodShape::kSphere}) {
    INFO(name_of(shape));
    CHECK_THAT(CoreSeries(shape, 3.0).at(0.01), within_abs(1.0, 1e-4));  // no heat there yet
  }
}

TEST_CASE("the core of solid food warms as the series does", "[heat][reference]") {
  // Air of 95 degC around food of 20 degC. Discretisation into five shells, as measured: the core
  // is off by at most 0.70 K (slab), 1.3 K (cylinder), 1.95 K (sphere) once a twentieth of R^2/a
  // has passed, most under a film that hardly resists; it is late, by 0.3 %, 0.8 % and 1.4 % of the
  // time to 80 degC.
  const double bound_K[] = {0.8, 1.4, 2.1};
  constexpr FoodShape kShapes[] = {FoodShape::kSlab, FoodShape::kCylinder, FoodShape::kSphere};
  for (std::size_t i = 0; i < 3; ++i) {
    for (const double contact_Wm2K : {30.0, 250.0, 5e5}) {
      const LoneFood lone = lone_food(kShapes[i], contact_Wm2K);
      const CoreSeries exact(kShapes[i], lone.biot);
      State state = uniform_state(293.15);
      state[kNodeVessel] = 368.15;
      const auto exact_K = [&](double t) {
        return 368.15 - 75.0 * exact.at(t / lone.time_scale_s);
      };
      Against core(kNodeShell4, exact_K, 0.05 * lone.time_scale_s);
      core.level_K = 353.15;
      watch(lone.model, still_air(300.0, 12.0), state, core, 1e-3);
      const double exact_s =
          root_between(60.0, 43200.0, [&](double t) { return exact_K(t) - 353.15; });
      INFO(name_of(kShapes[i]) << ", Biot number " << lone.biot << ", exactly " << exact_s << " s");
      CHECK(core.worst_K < bound_K[i]);
      CHECK_THAT(core.reached_s, within_rel(exact_s, 0.015));
    }
  }
}
