// SPDX-License-Identifier: MIT
// Error against time of one cook, side by side in one run: our integrator, SUNDIALS CVODE and
// SciPy's BDF on the same equations. work_precision REPETITIONS FILE.csv "HEADER"
#include "work_precision.h"

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <optional>

namespace ovendays::bench {
namespace {
constexpr double kSettle_s = 120.0;
/// Ours; the program's own is among them. The bend goes along, as twenty tolerances.
constexpr double kTolerances_K[] = {0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001, 0.0005};

heat::IntegratorOptions options_of(double tolerance_K, heat::Precision precision) {
  const heat::IntegratorOptions own;
  heat::IntegratorOptions options;
  options.precision = precision;
  options.tolerance_K = tolerance_K;
  options.bend_K = own.bend_K / own.tolerance_K * tolerance_K;
  return options;
}

/// Temperatures at whole minutes from the steps' own interpolation.
class MinuteWatcher : public heat::StepWatcher {
 public:
  MinuteWatcher(const CookScene& scene, std::size_t minutes)
      : scene_(scene), start_s_(scene.run().start_s), states(minutes + 1, scene.start) {}
  bool on_step(const heat::Step& step) override {
    while (next_ < states.size() && at_s() <= step.end_s + test::kSameTime_s) {
      const double share = std::min(1.0, (at_s() - step.start_s) / (step.end_s - step.start_s));
      for (int n = 0; n < heat::kNodes; ++n) {
        if (scene_.model.present[static_cast<std::size_t>(n)])
          states[next_][static_cast<std::size_t>(n)] = step.at(n, share);
      }
      ++next_;
    }
    return true;
  }

 private:
  [[nodiscard]] double at_s() const { return start_s_ + 60.0 * static_cast<double>(next_); }
  const CookScene& scene_;
  double start_s_;
  std::size_t next_ = 1;

 public:
  Minutes states;
};

/// One cook alone in double precision, as one of eight, and as one of sixteen in single precision,
/// as a season goes.
struct Way {
  const char* name;
  heat::Precision precision;
  std::size_t pack;
};
constexpr Way kWays[] = {
    {"ovendays, one cook alone", heat::Precision::kDouble, 1},
    {"ovendays, pack of eight", heat::Precision::kDouble, 8},
    {"ovendays, sixteen in single precision", heat::Precision::kSingle, 16},
};

void add_ours(const Problem& problem, int repetitions, std::vector<Point>& points) {
  const CookScene& scene = problem.scene;
  for (const Way& way : kWays) {
    for (const double tolerance_K : kTolerances_K) {
      const heat::IntegratorOptions options = options_of(tolerance_K, way.precision);
      MinuteWatcher watcher(scene, problem.minutes());
      heat::Run run = scene.run();
      run.watcher = &watcher;
      const heat::RunSummary summary = heat::integrate(scene.model, run, options);
      Point point{scene.name, way.name, tolerance_K};
      point.errors = problem.errors(watcher.states);
      point.steps = summary.steps;
      const std::vector<heat::Run> fresh = pack_of(scene, way.pack);
      std::vector<heat::RunSummary> summaries(way.pack);
      point.cook_s = cpu_s(repetitions,
                           [&] {
                             std::vector<heat::Run> runs = fresh;
                             heat::integrate(scene.model, runs, summaries, options);
                           }) /
                     static_cast<double>(way.pack);
      points.push_back(point);
    }
  }
}

/// Time a method takes for an error, between its points in log-log; nullopt beyond them. Of its
/// points only those count that no other of it beats in both.
std::optional<double> time_at(const std::vector<Point>& points,
                              const std::string& sky,
                              const std::string& method,
                              double Errors::*error,
                              double wanted_K) {
  std::vector<Point> own;
  for (const Point& p : points) {
    if (p.sky == sky && p.method == method) own.push_back(p);
  }
  std::sort(
      own.begin(), own.end(), [](const Point& a, const Point& b) { return a.cook_s < b.cook_s; });
  const Point* coarser = nullptr;
  for (const Point& p : own) {
    if (coarser != nullptr && p.errors.*error >= coarser->errors.*error) continue;
    if (p.errors.*error <= wanted_K) {
      if (coarser == nullptr) return std::nullopt;
      const double share = std::log(wanted_K / (coarser->errors.*error)) /
                           std::log((p.errors.*error) / (coarser->errors.*error));
      return coarser->cook_s * std::pow(p.cook_s / coarser->cook_s, share);
    }
    coarser = &p;
  }
  return std::nullopt;
}

void print_table(const std::vector<Point>& points) {
  std::printf("%-13s %-40s %10s %9s %9s %8s %11s\n",
              "sky",
              "method",
              "tolerance",
              "core K",
              "all K",
              "steps",
              "ms a cook");
  for (const Point& p : points) {
    std::printf("%-13s %-40s %10.1e %9.5f %9.5f %8ld %11.4f\n",
                p.sky.c_str(),
                p.method.c_str(),
                p.tolerance,
                p.errors.core_K,
                p.errors.all_K,
                p.steps,
                1e3 * p.cook_s);
  }
}

void save_table(const std::string& file,
                const std::string& header,
                const std::vector<Point>& points) {
  std::ofstream out(file);
  out << "# Error against CPU time of one eight-hour cook; " << header << "\n"
      << "sky,method,tolerance,core_K,all_K,steps,ms_per_cook\n";
  for (const Point& p : points) {
    out << p.sky << ",\"" << p.method << "\"," << p.tolerance << ',' << p.errors.core_K << ','
        << p.errors.all_K << ',' << p.steps << ',' << 1e3 * p.cook_s << '\n';
  }
  if (!out) throw std::runtime_error(file + ": cannot be written");
}

/// At the error of the program's own tolerance, how many times as long each outside solver takes.
void print_ratios(const std::vector<Point>& points) {
  const double own_K = heat::IntegratorOptions{}.tolerance_K;
  struct Measure {
    const char* name;
    double Errors::*error;
  };
  for (const Point& ours : points) {
    if (ours.tolerance != own_K || ours.method.rfind("ovendays", 0) != 0) continue;
    for (const Measure& m : {Measure{"core", &Errors::core_K}, {"all nodes", &Errors::all_K}}) {
      std::printf("%s, %s, %s %.4f K:",
                  ours.sky.c_str(),
                  ours.method.c_str(),
                  m.name,
                  ours.errors.*m.error);
      std::string before;
      for (const Point& other : points) {
        if (other.sky != ours.sky || other.method == before ||
            other.method.rfind("ovendays", 0) == 0)
          continue;
        before = other.method;
        const auto took_s = time_at(points, ours.sky, other.method, m.error, ours.errors.*m.error);
        if (took_s) std::printf(" %s %.1f x;", other.method.c_str(), *took_s / ours.cook_s);
        if (!took_s) std::printf(" %s: beyond its points;", other.method.c_str());
      }
      std::printf("\n");
    }
  }
}

Problem problem_of(SkyKind sky) {
  Problem problem{cook_scene(sky), {}, {}};
  problem.exact = reference(problem.scene, problem.minutes());
  problem.jumps_s = problem.scene.day.jumps_s;
  problem.jumps_s.push_back(problem.scene.run().start_s);
  for (const heat::LidOpening& lid : problem.scene.lid) {
    problem.jumps_s.push_back(lid.from_s);
    problem.jumps_s.push_back(lid.to_s);
  }
  return problem;
}

std::vector<Point> measure(int repetitions) {
  std::vector<Point> points;
  for (const SkyKind sky : {SkyKind::kClear, SkyKind::kBroken}) {
    const Problem problem = problem_of(sky);
    add_ours(problem, repetitions, points);
    add_cvode(problem, test::Joins::kStop, repetitions, points);
    add_scipy(problem, test::Joins::kStop, std::min(repetitions, 3), points);
    add_cvode(problem, test::Joins::kRunThrough, repetitions, points);
    if (sky == SkyKind::kBroken) continue;  // every join is a jump: SciPy's would be the same again
    add_scipy(problem, test::Joins::kRunThrough, std::min(repetitions, 3), points);
  }
  return points;
}

/// All solve the same equations: with its tolerance drawn tight each must come to the reference.
bool all_converge(const std::vector<Point>& points) {
  bool good = true;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool tightest = i + 1 == points.size() || points[i + 1].method != points[i].method ||
                          points[i + 1].sky != points[i].sky;
    if (!tightest || points[i].errors.all_K <= 0.02) continue;
    std::fprintf(stderr,
                 "%s, %s: %.3f K off at its tightest tolerance\n",
                 points[i].sky.c_str(),
                 points[i].method.c_str(),
                 points[i].errors.all_K);
    good = false;
  }
  return good;
}
}  // namespace

Errors Problem::errors(const Minutes& tried) const {
  Errors worst;
  for (std::size_t m = 0; m < exact.size(); ++m) {
    const double at_s = time_s(m);
    const bool settled = std::none_of(jumps_s.begin(), jumps_s.end(), [&](double jump_s) {
      return jump_s <= at_s && at_s < jump_s + kSettle_s;
    });
    for (std::size_t n = 0; n < heat::kNodeWater; ++n) {
      const double off_K = std::abs(tried[m][n] - exact[m][n]);
      if (!scene.model.present[n]) continue;
      if (settled) worst.all_K = std::max(worst.all_K, off_K);
      if (static_cast<int>(n) == scene.model.core_node())
        worst.core_K = std::max(worst.core_K, off_K);
    }
  }
  return worst;
}
}  // namespace ovendays::bench

int main(int argc, char** argv) {
  const long repetitions = argc == 4 ? std::strtol(argv[1], nullptr, 10) : 0;
  if (repetitions < 1 || repetitions > 1000) {
    std::fprintf(stderr, "work_precision REPETITIONS FILE.csv HEADER\n");
    return 2;
  }
  try {
    const auto points = ovendays::bench::measure(static_cast<int>(repetitions));
    ovendays::bench::print_table(points);
    ovendays::bench::print_ratios(points);
    ovendays::bench::save_table(argv[2], argv[3], points);
    return ovendays::bench::all_converge(points) ? 0 : 1;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "work_precision: %s\n", error.what());
    return 1;
  }
}
