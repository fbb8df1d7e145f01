// SPDX-License-Identifier: MIT
#include "gains.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "join_pieces.h"
#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

using Areas = DiffuseGain::Areas;

double fourth(double x) { return x * x * x * x; }

/// Between the ends of a sky segment.
sky::SkyState mix(const sky::SkyState& a, const sky::SkyState& b, double share) {
  sky::SkyState m;
  const auto at = [share](double x, double y) { return x + (y - x) * share; };
  m.to_sun = base::normalized((1.0 - share) * a.to_sun + share * b.to_sun);
  m.zenith_rad = at(a.zenith_rad, b.zenith_rad);
  m.dni_Wm2 = at(a.dni_Wm2, b.dni_Wm2);
  m.dhi_Wm2 = at(a.dhi_Wm2, b.dhi_Wm2);
  m.ghi_Wm2 = at(a.ghi_Wm2, b.ghi_Wm2);
  m.circumsolar_normal_Wm2 = at(a.circumsolar_normal_Wm2, b.circumsolar_normal_Wm2);
  m.isotropic_horizontal_Wm2 = at(a.isotropic_horizontal_Wm2, b.isotropic_horizontal_Wm2);
  m.horizon_Wm2 = at(a.horizon_Wm2, b.horizon_Wm2);
  m.clear_dni_Wm2 = at(a.clear_dni_Wm2, b.clear_dni_Wm2);
  m.clear_dhi_Wm2 = at(a.clear_dhi_Wm2, b.clear_dhi_Wm2);
  m.clear_circumsolar_normal_Wm2 =
      at(a.clear_circumsolar_normal_Wm2, b.clear_circumsolar_normal_Wm2);
  m.clear_isotropic_horizontal_Wm2 =
      at(a.clear_isotropic_horizontal_Wm2, b.clear_isotropic_horizontal_Wm2);
  m.clear_horizon_Wm2 = at(a.clear_horizon_Wm2, b.clear_horizon_Wm2);
  m.dry_bulb_K = at(a.dry_bulb_K, b.dry_bulb_K);
  m.sky_K = at(a.sky_K, b.sky_K);
  m.wind_ms = at(a.wind_ms, b.wind_ms);
  return m;
}

/// The light of one instant, with or without its cloud.
struct Light {
  double dni, dhi, ghi, circumsolar, isotropic, horizon;
  [[nodiscard]] bool any() const { return dhi > 0.0 || dni > 0.0; }
};
Light light_of(const sky::SkyState& s, bool clear) {
  if (!clear) {
    return {s.dni_Wm2,
            s.dhi_Wm2,
            s.ghi_Wm2,
            s.circumsolar_normal_Wm2,
            s.isotropic_horizontal_Wm2,
            s.horizon_Wm2};
  }
  return {s.clear_dni_Wm2,
          s.clear_dhi_Wm2,
          s.clear_dni_Wm2 * std::max(0.0, std::cos(s.zenith_rad)) + s.clear_dhi_Wm2,
          s.clear_circumsolar_normal_Wm2,
          s.clear_isotropic_horizontal_Wm2,
          s.clear_horizon_Wm2};
}

void add_light(double light_Wm2, const Areas& areas_m2, Areas& sum_W) {
  for (std::size_t s = 0; s < sum_W.size(); ++s) sum_W[s] += light_Wm2 * areas_m2[s];
}

/// What the ground and each facing of the obstructions send out or receive [W/m2].
struct Surrounding {
  double visible = 1.0;
  double ground_Wm2 = 0.0;  ///< radiosity of the ground
  std::array<double, spot::kFacings> facing_Wm2{};
};

Surrounding surrounding_of(
    const sky::SkyState& s, const Light& light, double visible, double sky_view, double albedo) {
  Surrounding around;
  around.visible = visible;
  if (!light.any()) return around;
  const double beam = light.dni * std::max(0.0, std::cos(s.zenith_rad));
  // The ground by the oven stands in the same shade as the oven.
  around.ground_Wm2 = albedo * (beam * visible + light.dhi * sky_view);
  const double upright_Wm2 = 0.5 * light.dhi + 0.5 * albedo * light.ghi;
  const std::array<double, 4> towards = {s.to_sun.y, s.to_sun.x, -s.to_sun.y, -s.to_sun.x};
  for (std::size_t f = 0; f < 4; ++f) {
    around.facing_Wm2[f] = light.dni * std::max(0.0, towards[f]) + upright_Wm2;
  }
  around.facing_Wm2[static_cast<std::size_t>(spot::Facing::kDown)] = around.ground_Wm2;
  return around;
}

/// One stretch of time with one aim: everything that stays while the ends vary.
struct Stretch {
  const task::Aim* aim;
  base::Frame frame;
  spot::MouthGrid mouth;
  bool stowed = false;
  bool out = true;                   ///< the oven stands outside
  std::vector<DiffuseGain> diffuse;  ///< by load
};

/// One end of a piece.
struct PieceEnd {
  const sky::SkyState* state = nullptr;
  sky::SkyState between;  ///< room for a state that is no segment's end
  heat::Surroundings air;
  std::vector<Areas> absorbed;  ///< [W] by load
  double visible = 1.0;
  double beam_mouth_Wm2 = 0.0, open_beam_mouth_Wm2 = 0.0, diffuse_mouth_Wm2 = 0.0, dni_Wm2 = 0.0;
};

class DayMaker {
 public:
  /// @param room where the day is made
  DayMaker(const GainSetup& setup,
           const sky::SkyDay& day,
           const Without& without,
           bool tell_light,
           GainDay& room)
      : setup_(setup),
        day_(day),
        without_(without),
        tell_light_(tell_light),
        month_(day.date.month),
        vapour_Pa_(base::saturation_pressure_Pa(day.dew_point_K)),
        made_(room) {}

  void make() {
    made_.aims = without_.aim ? task::perfect_aims(setup_.c->oven, day_)
                              : task::day_aims(setup_.c->routine, setup_.c->oven, day_);
    made_.air.clear();
    made_.light.clear();
    made_.gains.resize(setup_.loads.size());
    for (auto& gains : made_.gains) gains.clear();
    for (const sky::SkySegment& segment : day_.segments) add_segment(segment);
    join_pieces(made_);
  }

 private:
  [[nodiscard]] const spot::SpotMask& mask() const {
    return without_.obstruction
               ? setup_.open_mask
               : setup_.masks[setup_.mask_of_month[static_cast<std::size_t>(month_ - 1)]];
  }

  void add_segment(const sky::SkySegment& segment) {
    // Cut where the aim changes and where the oven is put out.
    cuts_s_.assign(1, segment.start_s);
    const auto cut = [&](double t) {
      if (t > segment.start_s + 1.0 && t < segment.end_s - 1.0) cuts_s_.push_back(t);
    };
    for (const task::Aim& aim : made_.aims) cut(aim.from_s);
    cut(setup_.c->routine.set_out_s);
    cuts_s_.push_back(segment.end_s);
    std::sort(cuts_s_.begin(), cuts_s_.end());
    for (std::size_t i = 0; i + 1 < cuts_s_.size(); ++i) {
      if (cuts_s_[i + 1] > cuts_s_[i]) add_piece(segment, cuts_s_[i], cuts_s_[i + 1]);
    }
  }

  void add_piece(const sky::SkySegment& segment, double from_s, double to_s) {
    set_state(segment, from_s, *left_);
    const bool goes_on =
        !made_.air.empty() && (right_->state == left_->state || *right_->state == *left_->state);
    if (goes_on) std::swap(left_, right_);
    set_state(segment, to_s, *right_);
    const bool same_stretch =
        set_stretch(0.5 * (from_s + to_s), 0.5 * (left_->state->wind_ms + right_->state->wind_ms));
    heat::AirSegment air;
    air.start_s = from_s;
    air.end_s = to_s;
    air.glazing_tilt_rad = stretch_.aim->glazing_tilt_rad;
    air.vapour_Pa = vapour_Pa_;
    const bool sheltered = !setup_.c->oven.flaps.empty() && !stretch_.stowed;
    air.pane_wind_factor = sheltered ? heat::kFlapWindFactor : 1.0;
    // Most pieces begin as the one before them ended.
    if (!goes_on || !same_stretch) tell_end(*left_);
    tell_end(*right_);
    air.start = left_->air;
    air.end = right_->air;
    made_.air.push_back(air);
    if (tell_light_) tell_piece_light();
    for (std::size_t l = 0; l < setup_.loads.size(); ++l) {
      made_.gains[l].push_back({surfaces_of(left_->absorbed[l]), surfaces_of(right_->absorbed[l])});
    }
  }

  /// What the surfaces absorb, without the infrared that rows of areas end with.
  static std::array<double, oven::kSurfaces> surfaces_of(const Areas& absorbed) {
    return {
        absorbed[0], absorbed[1], absorbed[2], absorbed[3], absorbed[4], absorbed[5], absorbed[6]};
  }

  /// The sky at a time of a segment.
  void set_state(const sky::SkySegment& segment, double time_s, PieceEnd& end) const {
    const double share = (time_s - segment.start_s) / (segment.end_s - segment.start_s);
    if (share <= 0.0 || share >= 1.0) {
      end.state = share <= 0.0 ? &day_.start(segment) : &day_.end(segment);
      return;
    }
    end.between = mix(day_.start(segment), day_.end(segment), share);
    end.state = &end.between;
  }

  void tell_piece_light() {
    made_.light.push_back({{left_->visible, right_->visible},
                           {left_->beam_mouth_Wm2, right_->beam_mouth_Wm2},
                           {left_->open_beam_mouth_Wm2, right_->open_beam_mouth_Wm2},
                           {left_->diffuse_mouth_Wm2, right_->diffuse_mouth_Wm2},
                           {left_->dni_Wm2, right_->dni_Wm2}});
  }

  /// Aim, flaps and diffuse gains in force at a time; looked up again only where they change.
  /// @return whether it is the stretch of the piece before
  bool set_stretch(double time_s, double wind_ms) {
    const task::Aim* aim = &task::aim_at(made_.aims, time_s);
    const double wind_here_ms = wind_ms * setup_.c->spot.wind_factor;
    const bool stowed =
        !without_.wind && !setup_.stowed.empty() && wind_here_ms > setup_.c->routine.flaps_wind_ms;
    const bool out = time_s >= setup_.c->routine.set_out_s;
    const bool same_out = stretch_.out == out;
    stretch_.out = out;
    if (stretch_.aim == aim && stretch_.stowed == stowed && !stretch_.mouth.points.empty())
      return same_out;
    stretch_.aim = aim;
    stretch_.stowed = stowed;
    stretch_.frame =
        oven::mouth_frame(setup_.c->spot.mouth, aim->azimuth_rad, aim->glazing_tilt_rad);
    stretch_.mouth =
        spot::mouth_grid(stretch_.frame, setup_.mouth_width_m, setup_.mouth_length_m, kMouthGrid);
    stretch_.diffuse.resize(setup_.loads.size());
    const std::size_t mask = setup_.mask_of_month[static_cast<std::size_t>(month_ - 1)];
    for (std::size_t l = 0; l < setup_.loads.size(); ++l) {
      const LoadOptics& optics = stowed ? setup_.stowed[l] : setup_.loads[l];
      const DiffuseTable& table =
          without_.obstruction ? optics.anywhere->open : optics.diffuse[mask];
      table.at(aim->notch, aim->azimuth_rad, stretch_.diffuse[l]);
    }
    return false;
  }

  void tell_end(PieceEnd& made) const {
    const sky::SkyState& s = *made.state;
    const Light light = light_of(s, without_.cloud);
    const double beam_normal = light.dni + light.circumsolar;
    made.absorbed.assign(setup_.loads.size(), Areas{});
    made.visible = tell_light_ || beam_normal > 0.0 ? visible_share(s) : 1.0;
    const Surrounding around =
        surrounding_of(s, light, made.visible, mask().sky_view_factor, day_.albedo);
    const base::Vec3 sun = stretch_.frame.local_from_world(s.to_sun);
    const bool lit = light.any();
    if (lit && stretch_.out) absorb(sun, beam_normal * made.visible, light, around, made.absorbed);
    if (tell_light_) tell_light(sun, lit ? beam_normal : 0.0, light, around, made);
    made.air = surroundings(s, light, around);
  }

  [[nodiscard]] double visible_share(const sky::SkyState& s) const {
    if (without_.obstruction || s.to_sun.z <= 0.0) return 1.0;
    return setup_.scene->visible_share(stretch_.mouth, s.to_sun, month_);
  }

  void absorb(const base::Vec3& sun,
              double beam_Wm2,
              const Light& light,
              const Surrounding& around,
              std::vector<Areas>& absorbed) const {
    const bool beam = beam_Wm2 > 0.0 && sun.z > 0.0;
    optics::AcceptanceTable::Cell cell;
    int grid = 0;
    for (std::size_t l = 0; l < setup_.loads.size(); ++l) {
      const LoadOptics& optics = stretch_.stowed ? setup_.stowed[l] : setup_.loads[l];
      const optics::AcceptanceTable& table = optics.anywhere->table;
      const DiffuseGain& d = stretch_.diffuse[l];
      Areas sum{};
      if (beam && table.grid() != grid) {  // all loads' tables mostly have the same
        grid = table.grid();
        cell = table.cell_of(sun);
      }
      if (beam) add_light(beam_Wm2, table.row_in(cell), sum);
      add_light(light.isotropic, d.isotropic_m2, sum);
      add_light(light.horizon, d.horizon_m2, sum);
      add_light(around.ground_Wm2, d.ground_m2, sum);
      for (std::size_t f = 0; f < spot::kFacings; ++f)
        add_light(around.facing_Wm2[f], d.facing_m2[f], sum);
      // A dark horizon band may not outweigh the rest.
      for (std::size_t s = 0; s < sum.size(); ++s) absorbed[l][s] = std::max(0.0, sum[s]);
    }
  }

  void tell_light(const base::Vec3& sun,
                  double beam_normal,
                  const Light& light,
                  const Surrounding& around,
                  PieceEnd& out) const {
    const DiffuseGain& d = stretch_.diffuse[0];
    out.open_beam_mouth_Wm2 = beam_normal * std::max(0.0, sun.z);
    out.beam_mouth_Wm2 = out.open_beam_mouth_Wm2 * around.visible;
    double diffuse = light.isotropic * d.plane_isotropic + light.horizon * d.plane_horizon +
                     around.ground_Wm2 * d.plane_ground;
    for (std::size_t f = 0; f < spot::kFacings; ++f)
      diffuse += around.facing_Wm2[f] * d.plane_facing[f];
    out.diffuse_mouth_Wm2 = std::max(0.0, diffuse);
    out.dni_Wm2 = light.dni;
  }

  [[nodiscard]] heat::Surroundings surroundings(const sky::SkyState& s,
                                                const Light& light,
                                                const Surrounding& around) const {
    heat::Surroundings out;
    out.ambient_K = s.dry_bulb_K;
    const double sky_K4 = fourth(s.sky_K);
    const double air_K4 = fourth(s.dry_bulb_K);
    const double share = stretch_.diffuse[0].sky_share;
    out.pane_env_K4 = share * sky_K4 + (1.0 - share) * air_K4;
    const double skin_share = 0.5 * mask().sky_view_factor;  // upright walls see half a sky
    out.skin_env_K4 = skin_share * sky_K4 + (1.0 - skin_share) * air_K4;
    out.wind_ms = without_.wind ? 0.0 : s.wind_ms * setup_.c->spot.wind_factor;
    if (stretch_.out && light.any()) {
      // Upright faces looking evenly all round: mean of max(0, cos) over azimuth is 1/pi.
      const double beam =
          (light.dni + light.circumsolar) * around.visible * std::sin(s.zenith_rad) / base::kPi;
      const double diffuse =
          0.5 * light.isotropic * mask().sky_view_factor + 0.5 * around.ground_Wm2;
      out.skin_gain_W =
          setup_.c->oven.box.skin_absorptance * setup_.wall_skin_m2 * (beam + diffuse);
    }
    return out;
  }

  const GainSetup& setup_;
  const sky::SkyDay& day_;
  Without without_;
  bool tell_light_;
  int month_;
  double vapour_Pa_;
  GainDay& made_;
  std::vector<double> cuts_s_;  ///< of the segment being added
  std::array<PieceEnd, 2> ends_;
  PieceEnd* left_ = &ends_[0];  ///< of the piece last made
  PieceEnd* right_ = &ends_[1];
  Stretch stretch_{};
};

OVENDAYS_CLONES void make(DayMaker maker) { maker.make(); }
}  // namespace

GainDay make_gain_day(const GainSetup& setup,
                      const sky::SkyDay& day,
                      const Without& without,
                      const std::function<void(const GainDay&)>& look) {
  thread_local GainDay room;  // a day's finest pieces make way for the next day's
  make({setup, day, without, look != nullptr, room});
  if (look) look(room);
  GainDay kept;
  kept.aims = std::move(room.aims);
  kept.joined = room.joined;
  return kept;
}

GainDay make_gain_day(const GainSetup& setup,
                      const sky::SkyDay& day,
                      const Without& without,
                      bool whole) {
  if (!whole) return make_gain_day(setup, day, without, nullptr);
  GainDay all;
  make_gain_day(setup, day, without, [&all](const GainDay& made) { all = made; });
  return all;
}
}  // namespace ovendays::season
