// SPDX-License-Identifier: MIT
// The forcing in the form that the integrator reads: for each segment the values at its start and
// their rates of change, in the precision of the packs. Runs that share a forcing share these too.
// Private to heat.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "ovendays/heat/integrator.h"

namespace ovendays::heat {

template <class Scalar>
struct LinearSegment {
  double start_s, end_s;
  struct Air {
    Scalar ambient_K, pane_env_K4, skin_env_K4, skin_gain_W, wind_ms;
  } base, rate;  ///< at the start, and per second
  Scalar gain_W[oven::kSurfaces], gain_rate_Ws[oven::kSurfaces];
  Scalar tilt_cosine, tilt_sine_power, tilt_free, vapour_Pa, pane_wind_factor;
  bool lid_open;
  /// Upper bound of the first step [s], because sun and wind may jump where the segment begins.
  Scalar first_step_s;
  int mark;  ///< number of the mark at its end (see Mark in integrator.h), or -1
};

/// The segments of every run of a batch. Each distinct forcing is converted once, and only the part
/// of it that some run reaches. Defined in a source file of its own, so that it is compiled for
/// every machine and not for one instruction set (see pack.h).
template <class Scalar>
class LinearSegments {
 public:
  /// @param light_factor on all gains, see HeatModel
  LinearSegments(const Run* runs, std::size_t count, double light_factor);
  LinearSegments(const LinearSegments&) = delete;
  LinearSegments& operator=(const LinearSegments&) = delete;
  ~LinearSegments();
  struct Segments {
    const LinearSegment<Scalar>* first;
    const LinearSegment<Scalar>* past;  ///< one beyond the last
  };
  /// @return the segments of a run; they cover at least the time from its start to its end
  [[gnu::always_inline]] const Segments& of(std::size_t run) const { return of_run_[run]; }

 private:
  std::vector<std::vector<LinearSegment<Scalar>>> per_forcing_;
  std::vector<Segments> segments_;
  const Segments* of_run_ = nullptr;  ///< segments_.data(), so that of() needs no library call
};
extern template class LinearSegments<double>;
extern template class LinearSegments<float>;
}  // namespace ovendays::heat
