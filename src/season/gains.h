// SPDX-License-Identifier: MIT
// From sky, spot and optics to what drives the oven: for a day, the surroundings and the sun
// absorbed by each surface, under every load the oven can hold. Private to season.
#pragma once

#include <array>
#include <functional>
#include <memory>
#include <vector>

#include "diffuse_table.h"
#include "ovendays/heat/forcing.h"
#include "ovendays/optics/acceptance.h"
#include "ovendays/season/case.h"
#include "ovendays/sky/sky_year.h"
#include "ovendays/spot/scene.h"
#include "ovendays/task/aim.h"

namespace ovendays::season {

/// Points along each side of the mouth from which the sun is looked for.
inline constexpr int kMouthGrid = 5;

/// What one load of the oven takes in wherever it stands; shared by all seasons of the oven.
struct LoadTable {
  optics::AcceptanceTable table;
  std::vector<PatchLight> light;  ///< by notch
  DiffuseTable open;              ///< had nothing stood around; of *open_mask
  std::shared_ptr<const spot::SpotMask> open_mask;
};

/// The same at the spot.
struct LoadOptics {
  std::shared_ptr<const LoadTable> anywhere;
  std::vector<DiffuseTable> diffuse;  ///< one per distinct mask of the spot
};

/// Everything of the year that gains are made from. Immutable once set up.
struct GainSetup {
  const Case* c = nullptr;
  const spot::Scene* scene = nullptr;
  std::vector<spot::SpotMask> masks;  ///< distinct ones
  std::array<std::size_t, 12> mask_of_month{};
  spot::SpotMask open_mask;
  std::vector<LoadOptics> loads;   ///< "empty" first
  std::vector<LoadOptics> stowed;  ///< the same with flaps laid in; empty where never needed
  double mouth_width_m = 0.4, mouth_length_m = 0.4;
  double wall_skin_m2 = 0.5;
};

/// What is taken away when asking for a cause.
struct Without {
  bool obstruction = false;
  bool cloud = false;
  bool aim = false;
  bool wind = false;
};

/// One day, 0 h to 24 h.
struct GainDay {
  // As finely as the sky is cut; empty where nobody asked to keep it.
  std::vector<heat::AirSegment> air;
  std::vector<std::vector<heat::GainSegment>> gains;  ///< by load
  /// For the results, one per piece: at start and end.
  struct Light {
    double visible[2], beam_mouth_Wm2[2], open_beam_mouth_Wm2[2], diffuse_mouth_Wm2[2], dni_Wm2[2];
  };
  std::vector<Light> light;

  std::vector<task::Aim> aims;
  /// What drives the oven: air and gains in as few pieces as serve (join_pieces.h).
  struct Joined {
    std::vector<heat::AirSegment> air;
    std::vector<std::vector<heat::GainSegment>> gains;  ///< by load
  } joined;
};

/// A day under every load: its aims and what drives the oven. @param look sees the day with all its
/// pieces and their light, which are not kept; empty: light is not told
GainDay make_gain_day(const GainSetup& setup,
                      const sky::SkyDay& day,
                      const Without& without,
                      const std::function<void(const GainDay&)>& look);
/// @param whole keeps all pieces and their light
GainDay make_gain_day(const GainSetup& setup,
                      const sky::SkyDay& day,
                      const Without& without,
                      bool whole = true);
}  // namespace ovendays::season
