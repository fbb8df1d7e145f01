// SPDX-License-Identifier: MIT
#include "day_forcing.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "merge_segments.h"
#include "ovendays/base/air.h"
#include "ovendays/base/target_clones.h"
#include "ovendays/gains/surroundings.h"

namespace ovendays::season {
namespace {

using gains::Light;
using gains::SurroundingLight;
using optics::AcceptanceRow;

/// How the oven stands. It stays the same from one segment to the next until the oven is set out or
/// turned, or its flaps are moved.
struct OvenPose {
  const task::Aim* aim = nullptr;
  base::Frame frame;
  spot::MouthGrid mouth;
  bool stowed = false;
  bool out = true;                          ///< the oven stands outside
  std::vector<gains::DiffuseGain> diffuse;  ///< by load
  double light_left = 1.0;                  ///< by dust
};

/// One end of a fine segment.
struct SegmentEnd {
  const sky::SkyState* state = nullptr;
  sky::SkyState between;  ///< storage for a state inside a sky segment
  heat::Surroundings air;
  std::vector<AcceptanceRow> absorbed_W;  ///< by load
  double visible = 1.0;
  double beam_mouth_Wm2 = 0.0, open_beam_mouth_Wm2 = 0.0, diffuse_mouth_Wm2 = 0.0, dni_Wm2 = 0.0;
};

/// Cuts a day into fine segments.
class DayMaker {
 public:
  /// @param fine receives the day; its vectors are reused
  DayMaker(const ForcingSetup& setup,
           const sky::SkyDay& day,
           const Without& without,
           const AimGroup& group,
           bool with_light,
           std::span<const task::Aim> aims,
           FineDay& fine)
      : setup_(setup),
        day_(day),
        without_(without),
        group_(group),
        with_light_(with_light),
        aims_(aims),
        month_(day.date.month),
        vapour_Pa_(base::saturation_pressure_Pa(day.dew_point_K)),
        air_(fine.segments.air),
        gains_(fine.segments.gains),
        light_(fine.light) {}

  void make() {
    air_.clear();
    light_.clear();
    gains_.resize(setup_.loads.size());
    for (auto& gains : gains_) gains.clear();
    for (const sky::SkySegment& segment : day_.segments) add_sky_segment(segment);
  }

 private:
  [[nodiscard]] std::size_t mask_index() const {
    return setup_.mask_of_month[static_cast<std::size_t>(month_ - 1)];
  }
  [[nodiscard]] double sky_view() const {
    const spot::SpotMask& mask =
        without_.obstruction ? setup_.open_mask : setup_.masks[mask_index()];
    return mask.sky_view_factor;
  }

  /// Cuts a sky segment where the aim changes and where the oven is set out.
  void add_sky_segment(const sky::SkySegment& segment) {
    // Cuts within a second of an end would make segments too short to matter.
    cuts_s_.assign(1, segment.start_s);
    const auto cut = [&](double t) {
      if (t > segment.start_s + 1.0 && t < segment.end_s - 1.0) cuts_s_.push_back(t);
    };
    for (const task::Aim& aim : aims_) cut(aim.from_s);
    cut(setup_.c->routine.set_out_s);
    cuts_s_.push_back(segment.end_s);
    std::sort(cuts_s_.begin(), cuts_s_.end());
    for (std::size_t i = 0; i + 1 < cuts_s_.size(); ++i) {
      if (cuts_s_[i + 1] > cuts_s_[i]) add_segment(segment, cuts_s_[i], cuts_s_[i + 1]);
    }
  }

  void add_segment(const sky::SkySegment& segment, double from_s, double to_s) {
    set_state(segment, from_s, *left_);
    const bool goes_on =
        !air_.empty() && (right_->state == left_->state || *right_->state == *left_->state);
    if (goes_on) std::swap(left_, right_);
    set_state(segment, to_s, *right_);
    const bool same_pose =
        set_pose(0.5 * (from_s + to_s), 0.5 * (left_->state->wind_ms + right_->state->wind_ms));
    heat::AirSegment air;
    air.start_s = from_s;
    air.end_s = to_s;
    air.glazing_tilt_rad = pose_.aim->glazing_tilt_rad;
    air.vapour_Pa = vapour_Pa_;
    // Flaps shelter the glass from the wind while they are up.
    const bool sheltered = !setup_.c->oven.flaps.empty() && !pose_.stowed;
    air.pane_wind_factor = sheltered ? heat::kFlapWindFactor : 1.0;
    // Most segments begin as the previous one ended, so that end need not be computed again.
    if (!goes_on || !same_pose) compute(*left_);
    compute(*right_);
    air.start = left_->air;
    air.end = right_->air;
    air_.push_back(air);
    if (with_light_) add_light_segment();
    for (std::size_t l = 0; l < setup_.loads.size(); ++l) {
      if (group_.loads[l])
        gains_[l].push_back({by_surface(left_->absorbed_W[l]), by_surface(right_->absorbed_W[l])});
    }
  }

  /// A row of an acceptance table without its last number, which belongs to no surface.
  static std::array<double, oven::kSurfaces> by_surface(const AcceptanceRow& row) {
    return {row[0], row[1], row[2], row[3], row[4], row[5], row[6]};
  }

  /// The sky at a time within a segment.
  void set_state(const sky::SkySegment& segment, double time_s, SegmentEnd& end) const {
    const double share = (time_s - segment.start_s) / (segment.end_s - segment.start_s);
    if (share <= 0.0 || share >= 1.0) {
      end.state = share <= 0.0 ? &day_.start(segment) : &day_.end(segment);
      return;
    }
    end.between = gains::interpolate(day_.start(segment), day_.end(segment), share);
    end.state = &end.between;
  }

  void add_light_segment() {
    light_.push_back({{left_->visible, right_->visible},
                      {left_->beam_mouth_Wm2, right_->beam_mouth_Wm2},
                      {left_->open_beam_mouth_Wm2, right_->open_beam_mouth_Wm2},
                      {left_->diffuse_mouth_Wm2, right_->diffuse_mouth_Wm2},
                      {left_->dni_Wm2, right_->dni_Wm2}});
  }

  /// Sets the pose in force at a time. Tables are looked up again only if it changes.
  /// @return whether the pose is that of the previous segment
  bool set_pose(double time_s, double wind_ms) {
    const task::Aim* aim = &task::aim_at(aims_, time_s);
    const double wind_here_ms = wind_ms * setup_.c->spot.wind_factor;
    const bool stowed =
        !without_.wind && !setup_.stowed.empty() && wind_here_ms > setup_.c->routine.flaps_wind_ms;
    // Before it is set out the oven is in the wind and air of the spot but gets no sun.
    const bool out = time_s >= setup_.c->routine.set_out_s;
    const bool same_out = pose_.out == out;
    pose_.out = out;
    if (pose_.aim == aim && pose_.stowed == stowed) return same_out;
    pose_.aim = aim;
    pose_.stowed = stowed;
    pose_.light_left = light_left(stowed);
    pose_.frame = oven::mouth_frame(setup_.c->spot.mouth, aim->azimuth_rad, aim->glazing_tilt_rad);
    pose_.mouth =
        spot::mouth_grid(pose_.frame, setup_.mouth_width_m, setup_.mouth_length_m, kMouthGrid);
    pose_.diffuse.resize(setup_.loads.size());
    for (std::size_t l = 0; l < setup_.loads.size(); ++l) {
      // What the pane sees of the sky is that of the empty oven (see surroundings()).
      if (l > 0 && !group_.loads[l]) continue;
      const LoadAtSpot& load = stowed ? setup_.stowed[l] : setup_.loads[l];
      const gains::DiffuseTable& table =
          without_.obstruction ? load.optics->open : load.diffuse[mask_index()];
      table.at(aim->notch, aim->azimuth_rad, pose_.diffuse[l]);
    }
    return false;
  }

  /// Light, absorbed power and surroundings at one end of a segment, in the present pose.
  void compute(SegmentEnd& end) const {
    const sky::SkyState& s = *end.state;
    const Light light = gains::light_of(s, without_.cloud);
    const double beam_Wm2 = light.beam_normal_Wm2();
    end.absorbed_W.assign(setup_.loads.size(), AcceptanceRow{});
    end.visible = with_light_ || beam_Wm2 > 0.0 ? visible_share(s) : 1.0;
    const SurroundingLight around = gains::surrounding_light(
        light, s.to_sun, s.zenith_rad, end.visible, sky_view(), day_.albedo);
    const base::Vec3 sun = pose_.frame.local_from_world(s.to_sun);
    const bool lit = light.any();
    if (lit && pose_.out) absorb(sun, beam_Wm2 * end.visible, light, around, end.absorbed_W);
    if (with_light_) compute_light(sun, lit ? beam_Wm2 : 0.0, light, around, end);
    end.air = surroundings(s, light, around);
  }

  [[nodiscard]] double light_left(bool stowed) const {
    if (setup_.dust.empty()) return 1.0;
    const DustyLight& light = setup_.dust[static_cast<std::size_t>(day_.day_index)];
    return stowed ? light.flaps_stowed : light.flaps_set;
  }

  [[nodiscard]] double visible_share(const sky::SkyState& s) const {
    if (without_.obstruction || s.to_sun.z <= 0.0) return 1.0;
    return setup_.scene->visible_share(pose_.mouth, s.to_sun, month_);
  }

  void absorb(const base::Vec3& sun,
              double beam_Wm2,
              const Light& light,
              const SurroundingLight& around,
              std::vector<AcceptanceRow>& absorbed_W) const {
    const bool beam = beam_Wm2 > 0.0 && sun.z > 0.0;
    optics::AcceptanceTable::Cell cell;
    int grid = 0;
    for (std::size_t l = 0; l < setup_.loads.size(); ++l) {
      if (!group_.loads[l]) continue;
      const LoadAtSpot& load = pose_.stowed ? setup_.stowed[l] : setup_.loads[l];
      const optics::AcceptanceTable& table = load.optics->table;
      AcceptanceRow beam_W{};
      if (beam && table.grid() != grid) {  // nearly always the same for all loads
        grid = table.grid();
        cell = table.cell_of(sun);
      }
      if (beam) gains::add_light(beam_Wm2, table.row_in(cell), beam_W);
      absorbed_W[l] = gains::absorbed_W(beam_W, light, around, pose_.diffuse[l]);
      if (setup_.dust.empty()) continue;
      for (double& surface_W : absorbed_W[l]) surface_W *= pose_.light_left;
    }
  }

  void compute_light(const base::Vec3& sun,
                     double beam_Wm2,
                     const Light& light,
                     const SurroundingLight& around,
                     SegmentEnd& end) const {
    end.open_beam_mouth_Wm2 = beam_Wm2 * std::max(0.0, sun.z);
    end.beam_mouth_Wm2 = end.open_beam_mouth_Wm2 * around.visible;
    end.diffuse_mouth_Wm2 = gains::diffuse_on_mouth_Wm2(light, around, pose_.diffuse[0]);
    end.dni_Wm2 = light.dni_Wm2;
  }

  /// The pane radiates to what it sees of the sky through the flaps, the skin to half a sky at
  /// most.
  [[nodiscard]] heat::Surroundings surroundings(const sky::SkyState& s,
                                                const Light& light,
                                                const SurroundingLight& around) const {
    heat::Surroundings out;
    out.ambient_K = s.dry_bulb_K;
    out.pane_env_K4 = gains::environment_K4(pose_.diffuse[0].sky_share, s.sky_K, s.dry_bulb_K);
    out.skin_env_K4 =
        gains::environment_K4(gains::upright_sky_share(sky_view()), s.sky_K, s.dry_bulb_K);
    out.wind_ms = without_.wind ? 0.0 : s.wind_ms * setup_.c->spot.wind_factor;
    if (pose_.out)
      out.skin_gain_W = gains::skin_gain_W(setup_.skin, light, around, s.zenith_rad, sky_view());
    return out;
  }

  const ForcingSetup& setup_;
  const sky::SkyDay& day_;
  Without without_;
  const AimGroup& group_;
  bool with_light_;
  std::span<const task::Aim> aims_;
  int month_;
  double vapour_Pa_;
  std::vector<heat::AirSegment>& air_;
  std::vector<std::vector<heat::GainSegment>>& gains_;
  std::vector<LightSegment>& light_;
  std::vector<double> cuts_s_;  ///< of the sky segment that is being added
  std::array<SegmentEnd, 2> ends_;
  SegmentEnd* left_ = &ends_[0];  ///< of the last segment
  SegmentEnd* right_ = &ends_[1];
  OvenPose pose_;
};

OVENDAYS_CLONES void make(DayMaker maker) { maker.make(); }
}  // namespace

DayForcing make_day_forcing(const ForcingSetup& setup,
                            const sky::SkyDay& day,
                            const Without& without,
                            const AimGroup& group,
                            FineDay* fine) {
  // Reused for the next day, because a day has many more fine segments than merged ones.
  thread_local FineDay own_fine;
  thread_local Segments merged;
  FineDay& cut = fine != nullptr ? *fine : own_fine;
  DayForcing forcing;
  const oven::OvenDesign& oven = setup.c->oven;
  const task::NotchSet notches = without.tilt ? task::NotchSet{} : group.notches;
  forcing.aims = without.aim ? task::perfect_aims(oven, day, notches)
                             : task::day_aims(setup.c->routine, oven, day, notches);
  make({setup, day, without, group, fine != nullptr, forcing.aims, cut});
  merge_segments(cut.segments, merged);
  forcing.merged = merged;  // a copy, so that it has no spare capacity
  return forcing;
}
}  // namespace ovendays::season
