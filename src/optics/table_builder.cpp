// SPDX-License-Identifier: MIT
// Builds acceptance tables, job by job.
#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"
#include "ovendays/optics/acceptance.h"
#include "ray_bundle.h"

namespace ovendays::optics {
// The members of Plan are not in the anonymous namespace, because in a unity build GCC would warn
// that Plan has a member of a type without linkage.
struct TableNode {
  int row = 0;
  int column = 0;
};

struct TableMirror {
  bool left_right = false;
  bool front_back = false;
};

namespace {
constexpr int kNodesPerJob = 4;
// More rays are traced within 26 deg of the axis, where the sun is if the oven is aimed at it.
constexpr int kFineRays = 4;
constexpr double kFineCosine = 0.9;
// Below this absorptance of the liner, light is reflected so often that more rays are needed.
constexpr double kBrightLiner = 0.5;
constexpr double kCheckShift = 0.1;  // gives a sample that shares no ray with that of the nodes
/// Light that a pane with dew on it passes, over that of a dry one; judgement, no source. Moist
/// food in an open vessel keeps the pane dewed for most of its cook.
constexpr double kDewedPane = 0.97;

bool same_flap(const oven::Flap& a, const oven::Flap& b) {
  return a.length_m == b.length_m && a.hinge_width_m == b.hinge_width_m &&
         a.outer_width_m == b.outer_width_m && a.flare_angle_rad == b.flare_angle_rad &&
         a.reflectance == b.reflectance && a.scatter_rad == b.scatter_rad &&
         a.emittance == b.emittance;
}

bool same_flaps(const oven::OvenDesign& design, oven::Edge one, oven::Edge other) {
  std::vector<oven::Flap> a;
  std::vector<oven::Flap> b;
  for (const oven::Flap& flap : design.flaps) {
    if (flap.edge == one) a.push_back(flap);
    if (flap.edge == other) b.push_back(flap);
  }
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), same_flap);
}

// Box, tray and vessel are in the middle and symmetric. The oven is therefore symmetric if its
// flaps are; a sloped glazing makes front and back different.
TableMirror mirror_of(const oven::OvenDesign& design, bool flaps_stowed) {
  using oven::Edge;
  TableMirror mirror;
  mirror.left_right = flaps_stowed || same_flaps(design, Edge::kLeft, Edge::kRight);
  mirror.front_back = design.box.glazing_slope_rad == 0.0 &&
                      (flaps_stowed || same_flaps(design, Edge::kFront, Edge::kBack));
  return mirror;
}

// A cell is used if its corner nearest to the centre is above the horizon, and a node if one of its
// cells is.
bool needed(const TableNode& node, int grid) {
  const double half = 0.5 * (grid - 1);
  const double u = std::max(0.0, std::abs(node.column - half) - 1.0) / half;
  const double v = std::max(0.0, std::abs(node.row - half) - 1.0) / half;
  return u * u + v * v < 1.0;
}

std::vector<TableNode> nodes_to_trace(int grid, const TableMirror& mirror) {
  std::vector<TableNode> nodes;
  const int middle = grid / 2;
  for (int row = mirror.front_back ? middle : 0; row < grid; ++row) {
    for (int column = mirror.left_right ? middle : 0; column < grid; ++column) {
      if (needed({row, column}, grid)) nodes.push_back({row, column});
    }
  }
  return nodes;
}

// Directions between the nodes, evenly spread over the hemisphere: equal steps of z have equal
// solid angles.
std::vector<base::Direction> check_directions(int count) {
  std::vector<base::Direction> out;
  for (int i = 0; i < count; ++i) {
    const auto even = base::additive_point<2>(static_cast<std::uint64_t>(i));
    const double z = 1.0 - even[0];
    const double sine = std::sqrt(1.0 - z * z);
    out.push_back(
        {sine * std::cos(base::kTwoPi * even[1]), sine * std::sin(base::kTwoPi * even[1]), z});
  }
  return out;
}
}  // namespace

struct TableBuilder::Plan {
  std::vector<std::shared_ptr<const Scene>> scenes;
  OpticsOptions options;
  TableMirror mirror;
  std::vector<TableNode> nodes;
  std::vector<base::Direction> checks;
  RayNumbers numbers;
  RayNumbers fine_numbers;
  std::optional<RayNumbers> check_numbers;  // only if checks were requested
  std::vector<AcceptanceTable> tables;
  std::vector<double> light_share;  ///< by load: what dust and dew leave of the light
  std::vector<std::vector<Acceptance>> check_values;  // by check and load

  Plan(std::vector<std::shared_ptr<const Scene>> all, const OpticsOptions& wanted)
      : scenes(std::move(all)),
        options(wanted),
        checks(check_directions(wanted.error_checks)),
        numbers(start_runs(*scenes.front(), wanted.rays), RayNumbers::Purpose::kSunlight),
        fine_numbers(start_runs(*scenes.front(), kFineRays * wanted.rays),
                     RayNumbers::Purpose::kSunlight),
        check_values(checks.size()) {
    if (checks.empty()) return;
    check_numbers.emplace(start_runs(*scenes.front(), kFineRays * wanted.rays),
                          RayNumbers::Purpose::kSunlight,
                          kCheckShift);
  }

  [[nodiscard]] int node_jobs() const {
    return (static_cast<int>(nodes.size()) + kNodesPerJob - 1) / kNodesPerJob;
  }
  [[nodiscard]] std::vector<Acceptance> trace(const base::Direction& towards,
                                              const RayNumbers& with) const;
  void put(const TableNode& node, std::size_t load, const Acceptance& value);
};

// What happens outside the glazing does not depend on the load and is traced once.
std::vector<Acceptance> TableBuilder::Plan::trace(const base::Direction& towards,
                                                  const RayNumbers& with) const {
  Tally outside;
  std::vector<Ray> entering;
  launch(*scenes.front(), with, {towards, options.faint, false}, outside, entering);
  std::vector<Tally> tallies(scenes.size(), outside);
  finish_inside(scenes, with, entering, tallies);
  std::vector<Acceptance> out;
  out.reserve(tallies.size());
  for (const Tally& tally : tallies) out.push_back(tally.acceptance());
  return out;
}

// Stores the value of a node and of its mirror images.
void TableBuilder::Plan::put(const TableNode& node, std::size_t load, const Acceptance& value) {
  const int last = options.grid - 1;
  const auto place = [&](int row, int column) -> Acceptance& {
    return tables[load]
        .nodes_[static_cast<std::size_t>(row) * static_cast<std::size_t>(options.grid) +
                static_cast<std::size_t>(column)];
  };
  Acceptance kept = value;
  for (double& absorbed_m2 : kept.absorbed_m2) absorbed_m2 *= light_share[load];
  place(node.row, node.column) = kept;
  if (mirror.left_right) place(node.row, last - node.column) = kept;
  if (mirror.front_back) place(last - node.row, node.column) = kept;
  if (mirror.left_right && mirror.front_back) place(last - node.row, last - node.column) = kept;
}

TableBuilder::TableBuilder(const oven::OvenDesign& design,
                           const std::vector<const oven::Vessel*>& loads,
                           bool flaps_stowed,
                           const OpticsOptions& options) {
  OVENDAYS_CHECK(!loads.empty() && options.grid >= 3 && options.grid % 2 == 1 && options.rays > 0);
  const auto stack = std::make_shared<const StackTable>(design.panes);
  std::vector<std::shared_ptr<const Scene>> scenes;
  scenes.reserve(loads.size());
  for (const oven::Vessel* load : loads) {
    scenes.push_back(std::make_shared<const Scene>(
        oven::build_geometry(design, load, flaps_stowed), design.panes, stack));
  }
  OpticsOptions adjusted = options;
  if (design.liner.absorptance < kBrightLiner) adjusted.rays *= 2;
  plan_ = std::make_unique<Plan>(std::move(scenes), adjusted);
  plan_->mirror = mirror_of(design, flaps_stowed);
  plan_->nodes = nodes_to_trace(options.grid, plan_->mirror);
  plan_->tables.resize(loads.size());
  for (const oven::Vessel* load : loads) {
    const bool dewed = load != nullptr && !load->lid;
    plan_->light_share.push_back(design.as_built.cleanliness * (dewed ? kDewedPane : 1.0));
  }
  for (AcceptanceTable& table : plan_->tables) {
    table.grid_ = options.grid;
    table.nodes_.resize(static_cast<std::size_t>(options.grid) *
                        static_cast<std::size_t>(options.grid));
  }
}

TableBuilder::~TableBuilder() = default;
TableBuilder::TableBuilder(TableBuilder&&) noexcept = default;
TableBuilder& TableBuilder::operator=(TableBuilder&&) noexcept = default;

int TableBuilder::jobs() const {
  return plan_->node_jobs() + static_cast<int>(plan_->checks.size());
}

void TableBuilder::run(int job) {
  OVENDAYS_CHECK(job >= 0 && job < jobs());
  if (job >= plan_->node_jobs()) {
    const auto check = static_cast<std::size_t>(job - plan_->node_jobs());
    plan_->check_values[check] = plan_->trace(plan_->checks[check], *plan_->check_numbers);
    return;
  }
  const int end = std::min((job + 1) * kNodesPerJob, static_cast<int>(plan_->nodes.size()));
  for (int i = job * kNodesPerJob; i < end; ++i) {
    const TableNode& node = plan_->nodes[static_cast<std::size_t>(i)];
    const base::Direction towards =
        AcceptanceTable::node_direction(node.row, node.column, plan_->options.grid);
    const std::vector<Acceptance> values =
        plan_->trace(towards, towards.z > kFineCosine ? plan_->fine_numbers : plan_->numbers);
    for (std::size_t load = 0; load < values.size(); ++load) plan_->put(node, load, values[load]);
  }
}

std::vector<AcceptanceTable> TableBuilder::take() {
  for (std::size_t load = 0; load < plan_->tables.size(); ++load) {
    AcceptanceTable& table = plan_->tables[load];
    if (plan_->checks.empty()) continue;
    double sum = 0.0;
    for (std::size_t i = 0; i < plan_->checks.size(); ++i) {
      const double off = table.at(plan_->checks[i]).inside_m2() -
                         plan_->light_share[load] * plan_->check_values[i].at(load).inside_m2();
      sum += off * off;
    }
    const double on_axis_m2 = table.at({0.0, 0.0, 1.0}).inside_m2();
    table.error_ = std::sqrt(sum / static_cast<double>(plan_->checks.size())) / on_axis_m2;
  }
  return std::move(plan_->tables);
}

std::vector<AcceptanceTable> build_tables(const oven::OvenDesign& design,
                                          const std::vector<const oven::Vessel*>& loads,
                                          bool flaps_stowed,
                                          const OpticsOptions& options) {
  TableBuilder builder(design, loads, flaps_stowed, options);
  for (int job = 0; job < builder.jobs(); ++job) builder.run(job);
  return builder.take();
}
}  // namespace ovendays::optics
