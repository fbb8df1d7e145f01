// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <utility>

#include "flap_panels.h"
#include "ovendays/base/units.h"
#include "ovendays/oven/design.h"

namespace ovendays::oven {
namespace {
using base::Dimension;

std::string length_text(double length_m) {
  return base::quantity_text(length_m, Dimension::kLength);
}

class Checker {
 public:
  explicit Checker(const OvenDesign& design) : design_(design) {}

  std::vector<DesignFault> all() {
    check_layers();
    check_frame();
    check_tray();
    check_masses();
    check_flaps();
    check_vessels();
    check_notches();
    return std::move(faults_);
  }

 private:
  void fault(const char* table, std::size_t index, const char* key, DesignFault text) {
    text.table = table;
    text.index = index;
    text.key = key;
    faults_.push_back(std::move(text));
  }
  static DesignFault words(std::string got, std::string allowed) {
    return {"", 0, "", std::move(got), std::move(allowed)};
  }

  void check_layers() {
    if (design_.box.wall.empty())
      fault("", 0, "layer", words("no layer for the wall", "1 or more"));
    if (design_.box.floor.empty()) {
      fault("", 0, "layer", words("no layer for the floor", "1 or more"));
    }
    const std::size_t panes = design_.panes.size();
    if (panes < 1 || panes > static_cast<std::size_t>(kMostPanes)) {
      fault("", 0, "pane", words(std::to_string(panes) + " panes", "1 to 3"));
    }
  }

  void check_frame() {
    const double narrowest_m =
        std::min(design_.box.inner_width_m,
                 design_.box.inner_depth_m / std::cos(design_.box.glazing_slope_rad));
    if (2.0 * design_.box.frame_m < narrowest_m) return;
    fault("box",
          0,
          "frame",
          words(length_text(design_.box.frame_m) + " closes the opening",
                "less than " + length_text(0.5 * narrowest_m)));
  }

  void check_tray() {
    if (!design_.tray) return;
    const Tray& tray = *design_.tray;
    const Box& box = design_.box;
    if (tray.width_m > box.inner_width_m) {
      fault(
          "tray",
          0,
          "width",
          words(length_text(tray.width_m), "at most the box's " + length_text(box.inner_width_m)));
    }
    if (tray.depth_m > box.inner_depth_m) {
      fault(
          "tray",
          0,
          "depth",
          words(length_text(tray.depth_m), "at most the box's " + length_text(box.inner_depth_m)));
    }
    if (tray.height_m >= box.inner_height_m) {
      fault("tray",
            0,
            "height",
            words(length_text(tray.height_m),
                  "below the glass at " + length_text(box.inner_height_m)));
    }
  }

  // Sheets far thinner than any foil follow their surroundings within milliseconds, and the
  // integration fails. Judgement: 10 g/m2 is aluminium of 4 um; a tenth of that, of the least
  // specific heat that is allowed, still integrates.
  void check_masses() {
    const Box& box = design_.box;
    check_mass("liner",
               design_.liner.mass_kg,
               box.inner_width_m * box.inner_depth_m,
               "a floor of the box of ");
    if (!design_.tray) return;
    const Tray& tray = *design_.tray;
    check_mass("tray", tray.mass_kg, tray.width_m * tray.depth_m, "a tray of ");
  }

  void check_mass(const char* table, double mass_kg, double area_m2, const char* what) {
    constexpr double kLeast_kgm2 = 0.01;
    const double least_kg = kLeast_kgm2 * area_m2;
    if (mass_kg >= least_kg) return;
    fault(table,
          0,
          "mass",
          words(base::quantity_text(mass_kg, Dimension::kMass) + " on " + what +
                    base::quantity_text(area_m2, Dimension::kArea),
                "at least " + base::quantity_text(least_kg, Dimension::kMass) + " (10 g/m2)"));
  }

  void check_flaps() {
    std::vector<Facet> panels;
    for (std::size_t i = 0; i < design_.flaps.size(); ++i) {
      const Flap& flap = design_.flaps[i];
      const bool across = flap.edge == Edge::kFront || flap.edge == Edge::kBack;
      const double edge_m = across ? design_.glass_width_m() : design_.glass_length_m();
      constexpr double kRound_m = 1e-6;
      if (flap.hinge_width_m > edge_m + kRound_m) {
        fault("flap",
              i,
              "hinge_width",
              words(length_text(flap.hinge_width_m),
                    "at most the glass edge's " + length_text(edge_m)));
      }
      panels.push_back(flap_facet(design_, flap));
      for (std::size_t k = 0; k < i; ++k) {
        if (!panels_cross(panels[i], panels[k])) continue;
        fault("flap",
              i,
              "outer_width",
              words("flap '" + flap.name + "' passes through flap '" + design_.flaps[k].name + "'",
                    "flaps that at most touch"));
      }
    }
  }

  void check_vessels() {
    for (std::size_t i = 0; i < design_.vessels.size(); ++i) {
      const Vessel& vessel = design_.vessels[i];
      if (vessel.name.empty()) fault("vessel", i, "name", words("no name", "a name"));
      if (design_.vessel(vessel.name) != &vessel) {
        fault("vessel", i, "name", words("'" + vessel.name + "' twice", "a name of its own"));
      }
      check_footprint(i, vessel);
      check_headroom(i, vessel);
    }
  }

  void check_footprint(std::size_t index, const Vessel& vessel) {
    const Box& box = design_.box;
    const double width_m = design_.tray ? design_.tray->width_m : box.inner_width_m;
    const double depth_m = design_.tray ? design_.tray->depth_m : box.inner_depth_m;
    const char* stand = design_.tray ? "at most the tray's " : "at most the floor's ";
    if (vessel.kind == VesselKind::kPot) {
      const double room_m = std::min(width_m, depth_m);
      if (vessel.diameter_m > room_m) {
        fault("vessel",
              index,
              "diameter",
              words(length_text(vessel.diameter_m), stand + length_text(room_m)));
      }
      return;
    }
    if (vessel.width_m > width_m) {
      fault("vessel",
            index,
            "width",
            words(length_text(vessel.width_m), stand + length_text(width_m)));
    }
    if (vessel.depth_m > depth_m) {
      fault("vessel",
            index,
            "depth",
            words(length_text(vessel.depth_m), stand + length_text(depth_m)));
    }
  }

  // Under sloped glass the vessel's front rim is nearest to it.
  void check_headroom(std::size_t index, const Vessel& vessel) {
    const double reach_m =
        0.5 * (vessel.kind == VesselKind::kPot ? vessel.diameter_m : vessel.depth_m);
    const double glass_m =
        design_.box.inner_height_m +
        (0.5 * design_.box.inner_depth_m - reach_m) * std::tan(design_.box.glazing_slope_rad);
    const double room_m = glass_m - (design_.tray ? design_.tray->height_m : 0.0);
    if (vessel.height_m < room_m) return;
    fault("vessel",
          index,
          "height",
          words(length_text(vessel.height_m),
                "less than the " + length_text(room_m) + " between its stand and the glass"));
  }

  void check_notches() {
    const std::vector<double>& tilts = design_.aim.notch_tilt_rad;
    if (tilts.empty()) fault("aim", 0, "notches", words("none", "1 or more tilts"));
    for (std::size_t i = 1; i < tilts.size(); ++i) {
      if (tilts[i] > tilts[i - 1]) continue;
      fault("aim",
            0,
            "notches",
            words(base::quantity_text(tilts[i], Dimension::kAngle) + " after " +
                      base::quantity_text(tilts[i - 1], Dimension::kAngle),
                  "tilts that ascend"));
    }
  }

  const OvenDesign& design_;
  std::vector<DesignFault> faults_;
};
}  // namespace

std::vector<DesignFault> check_design(const OvenDesign& design) { return Checker(design).all(); }
}  // namespace ovendays::oven
