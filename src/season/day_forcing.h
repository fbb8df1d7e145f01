// SPDX-License-Identifier: MIT
// The forcing of the oven through one day: air, surroundings and absorbed sun under every load, as
// chains of linear segments. Days are cut into fine segments first, which are then merged into the
// fewer ones that the heat model runs through. Private to season.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "ovendays/gains/load_optics.h"
#include "ovendays/heat/forcing.h"
#include "ovendays/season/case.h"
#include "ovendays/sky/sky_year.h"
#include "ovendays/spot/scene.h"
#include "ovendays/task/aim.h"

namespace ovendays::season {

/// Points along each side of the mouth at which the sun's visibility is tested.
inline constexpr int kMouthGrid = 5;

/// One load of the oven at the spot of the case.
struct LoadAtSpot {
  std::shared_ptr<const gains::LoadOptics> optics;
  std::vector<gains::DiffuseTable> diffuse;  ///< one per distinct mask of the spot
};

/// Light that dust leaves on a day, as a share of that of the washed oven (dust.h).
struct DustyLight {
  double flaps_set = 1.0;
  double flaps_stowed = 1.0;
};

/// Inputs of make_day_forcing that all days share. Immutable once set up.
struct ForcingSetup {
  const Case* c = nullptr;
  const spot::Scene* scene = nullptr;
  std::vector<spot::SpotMask> masks;  ///< distinct ones
  std::array<std::size_t, 12> mask_of_month{};
  spot::SpotMask open_mask;
  std::vector<LoadAtSpot> loads;   ///< "empty" first
  std::vector<LoadAtSpot> stowed;  ///< with flaps laid in; empty if the wind never requires it
  double mouth_width_m = 0.4, mouth_length_m = 0.4;
  gains::Skin skin;
  std::vector<DustyLight> dust;  ///< by day; empty where dust is not counted
};

/// Tasks that can use the same notches share their aims, and so the forcing of a day.
struct AimGroup {
  task::NotchSet notches;   ///< empty: all
  std::vector<bool> loads;  ///< those whose gains are needed
  bool operator==(const AimGroup&) const = default;
};

/// The adversities that are removed from a day when the cause of its loss is looked for.
struct Without {
  bool obstruction = false;
  bool cloud = false;
  bool aim = false;
  bool wind = false;
  bool tilt = false;  ///< all notches may be used
};

/// A day in segments from 0 h to 24 h without gaps; air and gains are cut at the same times.
struct Segments {
  std::vector<heat::AirSegment> air;
  std::vector<std::vector<heat::GainSegment>> gains;  ///< by load; empty for one that is not needed
};

/// The light in one fine segment, at its start and end. Only the results need it.
struct LightSegment {
  double visible[2], beam_mouth_Wm2[2], open_beam_mouth_Wm2[2], diffuse_mouth_Wm2[2], dni_Wm2[2];
};

/// A day cut where its sky is, and where the oven is turned or set out.
struct FineDay {
  Segments segments;
  std::vector<LightSegment> light;  ///< of each segment
};

/// A day as the heat model runs through it.
struct DayForcing {
  std::vector<task::Aim> aims;
  Segments merged;  ///< see merge_segments.h
};

/// @param group whose aims and loads to use
/// @param fine if not null, receives the day before its segments are merged, and the light, which
/// is computed only in that case
DayForcing make_day_forcing(const ForcingSetup& setup,
                            const sky::SkyDay& day,
                            const Without& without,
                            const AimGroup& group,
                            FineDay* fine = nullptr);
}  // namespace ovendays::season
