// SPDX-License-Identifier: MIT
// The acceptance tables.
#include <numeric>

#include "file_parts.h"
#include "ovendays/base/check.h"

namespace ovendays::results {
namespace {
const std::vector<std::string> kGrid = {"node_row", "node_column"};

void write_axes(h5::Writer& out, int grid) {
  std::vector<std::int32_t> index(static_cast<std::size_t>(grid));
  std::iota(index.begin(), index.end(), 0);
  out.dimension<std::int32_t>("node_row", index, {"row of the grid of directions", "1"});
  out.dimension<std::int32_t>("node_column", index, {"column of the grid of directions", "1"});
  std::vector<float> x, y, z;
  for (int row = 0; row < grid; ++row) {
    for (int column = 0; column < grid; ++column) {
      const base::Direction towards = optics::AcceptanceTable::node_direction(row, column, grid);
      x.push_back(static_cast<float>(towards.x));
      y.push_back(static_cast<float>(towards.y));
      z.push_back(static_cast<float>(towards.z));
    }
  }
  out.values<float>("acceptance/direction_x", x, kGrid, {"towards the light, to the right", "1"});
  out.values<float>("acceptance/direction_y", y, kGrid, {"towards the light, up the slope", "1"});
  out.values<float>("acceptance/direction_z", z, kGrid, {"towards the light, outward", "1"});
}
}  // namespace

void write_tables(h5::Writer& out, const std::vector<StoredTable>& tables) {
  out.group("acceptance", "acceptance of the oven by direction, frame of the glazing");
  const int grid = tables.front().grid;
  write_axes(out, grid);
  std::vector<float> absorbed, outer;
  std::vector<double> errors;
  for (const StoredTable& table : tables) {
    OVENDAYS_CHECK(table.grid == grid &&
                   table.nodes.size() == static_cast<std::size_t>(grid) * std::size_t(grid));
    for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
      for (const optics::Acceptance& node : table.nodes) {
        absorbed.push_back(static_cast<float>(node.absorbed_m2[s]));
      }
    }
    for (const optics::Acceptance& node : table.nodes) {
      outer.push_back(static_cast<float>(node.outer_ir_m2));
    }
    errors.push_back(table.error);
  }
  out.values<float>("acceptance/absorbed_m2",
                    absorbed,
                    {"load", "surface", "node_row", "node_column"},
                    {"power absorbed over beam-normal irradiance", "m2"});
  out.values<float>("acceptance/outer_ir_m2",
                    outer,
                    {"load", "node_row", "node_column"},
                    {"infrared acceptance of the outermost pane", "m2"});
  out.values<double>("acceptance/error",
                     errors,
                     {"load"},
                     {"error of the table over its value on the axis, root mean square", "1"});
}

std::vector<StoredTable> read_tables(const h5::Reader& in) {
  const std::vector<std::string> loads = in.texts("load");
  const std::size_t grid = in.count("node_row");
  const std::size_t nodes = grid * grid;
  const auto absorbed =
      in.values<float>("acceptance/absorbed_m2", loads.size() * oven::kSurfaces * nodes);
  const auto outer = in.values<float>("acceptance/outer_ir_m2", loads.size() * nodes);
  const auto errors = in.values<double>("acceptance/error", loads.size());
  std::vector<StoredTable> tables;
  for (std::size_t load = 0; load < loads.size(); ++load) {
    StoredTable table{.load = loads[load],
                      .grid = static_cast<int>(grid),
                      .error = errors[load],
                      .nodes = std::vector<optics::Acceptance>(nodes)};
    for (std::size_t node = 0; node < nodes; ++node) {
      for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
        table.nodes[node].absorbed_m2[s] = absorbed[(load * oven::kSurfaces + s) * nodes + node];
      }
      table.nodes[node].outer_ir_m2 = outer[load * nodes + node];
    }
    tables.push_back(std::move(table));
  }
  return tables;
}
}  // namespace ovendays::results
