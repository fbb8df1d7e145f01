// SPDX-License-Identifier: MIT
// What drives runs, as the lanes take it: each segment's values at its start and rates, worked out
// once for all the runs that it drives, as precise as the packs. Private to heat.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "ovendays/heat/integrator.h"

namespace ovendays::heat {

template <class Plain>
struct ReadySegment {
  double start_s, end_s;
  struct Air {
    Plain ambient_K, pane_env_K4, skin_env_K4, skin_gain_W, wind_ms;
  } base, rate;  ///< at the start, and per second
  Plain gain_W[oven::kSurfaces], gain_rate_Ws[oven::kSurfaces];
  Plain tilt_cosine, tilt_sine_power, tilt_free, vapour_Pa, pane_wind_factor;
  bool lid_open;
  /// The longest first step after the jump of sun and wind with which the segment begins [s].
  Plain first_step_s;
  int mark;  ///< number of the mark (see Mark) at its end, or -1
};

/// The segments of every run of a list; runs with one forcing share them, and what none of them
/// reaches is left out. Not inlined: it must not be compiled for one instruction set and run on all
/// (see pack.h).
template <class Plain>
class ReadyForcings {
 public:
  ReadyForcings(const Run* runs, std::size_t count);
  ReadyForcings(const ReadyForcings&) = delete;
  ReadyForcings& operator=(const ReadyForcings&) = delete;
  ~ReadyForcings();
  struct Segments {
    const ReadySegment<Plain>* first;
    const ReadySegment<Plain>* past;  ///< beyond the last
  };
  /// Those of a run, from its start or earlier to its end or later.
  [[gnu::always_inline]] const Segments& of(std::size_t run) const { return of_run_[run]; }

 private:
  std::vector<std::vector<ReadySegment<Plain>>> kept_;
  std::vector<Segments> segments_;
  const Segments* of_run_ = nullptr;  ///< those
};
extern template class ReadyForcings<double>;
extern template class ReadyForcings<float>;
}  // namespace ovendays::heat
