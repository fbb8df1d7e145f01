// SPDX-License-Identifier: MIT
// The masks: which parts of sky and ground the spot sees.
#include <algorithm>
#include <array>
#include <numeric>

#include "file_parts.h"
#include "ovendays/base/check.h"

namespace ovendays::results {
namespace {
using spot::SpotMask;
using Blocked = std::array<double, spot::kFacings>;
constexpr std::size_t kFacings = spot::kFacings;
const std::string kGroup = "sky_mask/";

struct Side {
  const char* name;  // "sky" or "ground"; the dimension is NAME_patch
  std::vector<sky::Patch> SpotMask::*patches;
  std::vector<double> SpotMask::*visible;
  std::vector<Blocked> SpotMask::*blocked;
};
constexpr std::array<Side, 2> kSides = {{
    {"sky", &SpotMask::sky, &SpotMask::sky_visible, &SpotMask::sky_blocked},
    {"ground", &SpotMask::ground, &SpotMask::ground_visible, &SpotMask::ground_blocked},
}};

struct PatchColumn {
  const char* name;
  const char* long_name;
  const char* units;
  double sky::Patch::*member;
};
constexpr std::array<PatchColumn, 5> kPatchColumns = {{
    {"_azimuth_rad", "azimuth clockwise from north", "rad", &sky::Patch::azimuth_rad},
    {"_elevation_rad", "elevation of the centre", "rad", &sky::Patch::elevation_rad},
    {"_half_height_rad", "half of the height", "rad", &sky::Patch::half_height_rad},
    {"_half_width_rad", "half of the width in azimuth", "rad", &sky::Patch::half_width_rad},
    {"_solid_angle_sr", "solid angle", "sr", &sky::Patch::solid_angle_sr},
}};

struct AxisColumn {
  const char* name;
  const char* long_name;
  double base::Vec3::*member;
};
constexpr std::array<AxisColumn, 3> kAxisColumns = {{
    {"_east", "east part of the direction", &base::Vec3::x},
    {"_north", "north part of the direction", &base::Vec3::y},
    {"_up", "upward part of the direction", &base::Vec3::z},
}};

void index_dimension(h5::Writer& out, const std::string& name, std::size_t count) {
  std::vector<std::int32_t> index(count);
  std::iota(index.begin(), index.end(), 0);
  out.dimension<std::int32_t>(name, index, {"number of the " + name, "1"});
}

void write_directions(h5::Writer& out,
                      const std::string& name,
                      const std::string& dimension,
                      const std::vector<base::Direction>& directions) {
  for (const AxisColumn& axis : kAxisColumns) {
    std::vector<double> numbers;
    numbers.reserve(directions.size());
    for (const base::Direction& towards : directions) numbers.push_back(towards.*axis.member);
    out.values<double>(kGroup + name + axis.name, numbers, {dimension}, {axis.long_name, "1"});
  }
}

std::vector<base::Direction> read_directions(const h5::Reader& in,
                                             const std::string& name,
                                             std::size_t count) {
  std::vector<base::Direction> directions(count);
  for (const AxisColumn& axis : kAxisColumns) {
    const auto numbers = in.values<double>(kGroup + name + axis.name, count);
    for (std::size_t i = 0; i < count; ++i) directions[i].*axis.member = numbers[i];
  }
  return directions;
}

void write_side(h5::Writer& out, const Side& side, const std::array<const SpotMask*, 2>& masks) {
  const std::string name = side.name;
  const std::string dimension = name + "_patch";
  const std::vector<sky::Patch>& patches = masks[0]->*side.patches;
  index_dimension(out, dimension, patches.size());
  std::vector<base::Direction> directions;
  directions.reserve(patches.size());
  for (const sky::Patch& patch : patches) directions.push_back(patch.direction);
  write_directions(out, name, dimension, directions);
  for (const PatchColumn& column : kPatchColumns) {
    std::vector<double> numbers;
    numbers.reserve(patches.size());
    for (const sky::Patch& patch : patches) numbers.push_back(patch.*column.member);
    out.values<double>(
        kGroup + name + column.name, numbers, {dimension}, {column.long_name, column.units});
  }
  std::vector<double> visible, blocked;
  for (const SpotMask* mask : masks) {
    const auto& shares = mask->*side.visible;
    OVENDAYS_CHECK((mask->*side.patches).size() == patches.size());
    visible.insert(visible.end(), shares.begin(), shares.end());
    for (const Blocked& share : mask->*side.blocked) {
      blocked.insert(blocked.end(), share.begin(), share.end());
    }
  }
  out.values<double>(kGroup + name + "_visible",
                     visible,
                     {"mask_month", dimension},
                     {"share of the patch that is seen", "1"});
  out.values<double>(
      kGroup + name + "_blocked",
      blocked,
      {"mask_month", dimension, "facing"},
      {"share covered by surfaces that face each way, times their reflectance", "1"});
}

void read_side(const h5::Reader& in, const Side& side, const std::array<SpotMask*, 2>& masks) {
  const std::string name = side.name;
  const std::size_t count = in.count(name + "_patch");
  std::vector<sky::Patch> patches(count);
  const std::vector<base::Direction> directions = read_directions(in, name, count);
  for (std::size_t i = 0; i < count; ++i) patches[i].direction = directions[i];
  for (const PatchColumn& column : kPatchColumns) {
    const auto numbers = in.values<double>(kGroup + name + column.name, count);
    for (std::size_t i = 0; i < count; ++i) patches[i].*column.member = numbers[i];
  }
  const auto visible = in.values<double>(kGroup + name + "_visible", 2 * count);
  const auto blocked = in.values<double>(kGroup + name + "_blocked", 2 * count * kFacings);
  for (std::size_t m = 0; m < masks.size(); ++m) {
    SpotMask& mask = *masks[m];
    mask.*side.patches = patches;
    mask.*side.visible = {visible.begin() + static_cast<std::ptrdiff_t>(m * count),
                          visible.begin() + static_cast<std::ptrdiff_t>((m + 1) * count)};
    (mask.*side.blocked).resize(count);
    for (std::size_t i = 0; i < count; ++i) {
      std::copy_n(blocked.begin() + static_cast<std::ptrdiff_t>((m * count + i) * kFacings),
                  kFacings,
                  (mask.*side.blocked)[i].begin());
    }
  }
}
}  // namespace

void write_masks(h5::Writer& out, const SpotMask& january, const SpotMask& july) {
  const std::array<const SpotMask*, 2> masks = {&january, &july};
  out.group("sky_mask", "what the oven's mouth sees of sky, horizon and ground");
  const std::vector<std::int32_t> months = {1, 7};
  out.dimension<std::int32_t>("mask_month", months, {"month of the mask", "1"});
  out.dimension("facing",
                {"north", "east", "south", "west", "down"},
                {"the way a surface faces that stands before the sky", ""});
  for (const Side& side : kSides) write_side(out, side, masks);
  index_dimension(out, "horizon", january.horizon.size());
  write_directions(out, "horizon", "horizon", january.horizon);
  std::vector<double> seen;
  std::vector<double> view;
  for (const SpotMask* mask : masks) {
    seen.insert(seen.end(), mask->horizon_visible.begin(), mask->horizon_visible.end());
    view.push_back(mask->sky_view_factor);
  }
  out.values<double>("sky_mask/horizon_visible",
                     seen,
                     {"mask_month", "horizon"},
                     {"share seen of the lowest 6 degrees", "1"});
  out.values<double>("sky_mask/sky_view_factor",
                     view,
                     {"mask_month"},
                     {"sky view factor of a level surface", "1"});
}

void read_masks(const h5::Reader& in, SpotMask& january, SpotMask& july) {
  const std::array<SpotMask*, 2> masks = {&january, &july};
  for (const Side& side : kSides) read_side(in, side, masks);
  const std::size_t count = in.count("horizon");
  const auto directions = read_directions(in, "horizon", count);
  const auto seen = in.values<double>("sky_mask/horizon_visible", 2 * count);
  const auto view = in.values<double>("sky_mask/sky_view_factor", 2);
  for (std::size_t m = 0; m < masks.size(); ++m) {
    masks[m]->horizon = directions;
    masks[m]->horizon_visible = {seen.begin() + static_cast<std::ptrdiff_t>(m * count),
                                 seen.begin() + static_cast<std::ptrdiff_t>((m + 1) * count)};
    masks[m]->sky_view_factor = view[m];
  }
}
}  // namespace ovendays::results
