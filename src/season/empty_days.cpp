// SPDX-License-Identifier: MIT
#include "empty_days.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

constexpr double kNoon_s = 43200.0;

/// Records the empty oven's states at loading times and ends of hours, and its peaks.
class EmptyWatcher : public heat::StepWatcher {
 public:
  EmptyWatcher(EmptyDay& day, const Midnight& begins, const Setup& setup, heat::StepWatcher* also)
      : day_(day), load_times_s_(setup.load_times_s), faces_(setup.layer_faces), also_(also) {
    day_.peak_face_K.assign(faces_.size(), 0.0);
    while (reached_loading(0.0)) day_.at_load.push_back(begins.state);
  }
  bool on_step(const heat::Step& step) override {
    if (also_ != nullptr) also_->on_step(step);
    const double hours = step.end_s / base::kSecondsPerHour;
    const double whole = std::round(hours);
    if (std::abs(hours - whole) < 1e-6 && whole >= 1.0) {
      day_.hour_end[static_cast<std::size_t>(whole) - 1] = step.y1.copy();
    } else {
      // The hour ends within the step, because the segments of weather whose clock is some minutes
      // off are not cut at full hours.
      const double next = std::floor(step.end_s / base::kSecondsPerHour);
      const double share =
          (next * base::kSecondsPerHour - step.start_s) / (step.end_s - step.start_s);
      if (next >= 1.0 && share > 0.0) {
        heat::State& state = day_.hour_end[static_cast<std::size_t>(next) - 1];
        for (int node = 0; node < heat::kNodes; ++node)
          state[static_cast<std::size_t>(node)] = step.at(node, share);
      }
    }
    while (reached_loading(step.end_s)) day_.at_load.push_back(step.y1.copy());
    day_.peak_air_K = std::max(day_.peak_air_K, step.y1[heat::kNodeAir]);
    for (std::size_t i = 0; i < faces_.size(); ++i)
      day_.peak_face_K[i] = std::max(day_.peak_face_K[i], faces_[i].temperature_K(step.y1));
    return true;
  }

 private:
  /// Has the next loading time been reached?
  [[nodiscard]] bool reached_loading(double time_s) const {
    const std::size_t next = day_.at_load.size();
    return next < load_times_s_.size() && time_s >= load_times_s_[next];
  }

  EmptyDay& day_;
  std::span<const double> load_times_s_;
  std::span<const LayerFace> faces_;
  heat::StepWatcher* also_;
};

template <class Job>
void check(const Setup& setup,
           std::span<const Job> jobs,
           std::span<const heat::RunSummary> summaries) {
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    if (summaries[i].failed()) {
      fail_run("the empty oven", setup.sky_day(jobs[i].day_index).date, summaries[i]);
    }
  }
}
}  // namespace

heat::Forcing forcing_of(const DayForcing& day, std::size_t load) {
  return {day.merged.air, day.merged.gains[load]};
}

const heat::AirSegment& air_at(const DayForcing& day, double time_s) {
  const std::vector<heat::AirSegment>& air = day.merged.air;
  const auto later = std::find_if(
      air.begin(), air.end(), [time_s](const heat::AirSegment& a) { return a.end_s > time_s; });
  return later == air.end() ? air.back() : *later;
}

void fail_run(const std::string& what, const base::Date& date, const heat::RunSummary& run) {
  throw base::RunError(what + " on " + base::month_name(date.month) + " " +
                       std::to_string(date.day) + ": the integration failed at " +
                       base::clock_text(run.end_s));
}

std::vector<Midnight> run_nights(const Setup& setup,
                                 std::span<const NightJob> jobs,
                                 const heat::IntegratorOptions& options) {
  std::vector<heat::Run> runs;
  for (const NightJob& job : jobs) {
    heat::Run& run = runs.emplace_back();
    run.forcing = forcing_of(*job.before, 0);
    // Twelve hours are enough to forget the start, as SeasonResult::memory_K shows for each season.
    run.start_s = kNoon_s;
    run.end_s = base::kSecondsPerDay;
    run.state = heat::uniform_state(air_at(*job.before, kNoon_s).start.ambient_K);
  }
  std::vector<heat::RunSummary> summaries(jobs.size());
  heat::integrate(setup.empty, runs, summaries, options);
  check(setup, jobs, summaries);
  std::vector<Midnight> nights;
  for (std::size_t i = 0; i < jobs.size(); ++i)
    nights.push_back({runs[i].state, summaries[i].next_step_s});
  return nights;
}

std::vector<EmptyDay> run_empty_days(const Setup& setup,
                                     std::span<const EmptyJob> jobs,
                                     Until until,
                                     const heat::IntegratorOptions& options) {
  std::vector<EmptyDay> days(jobs.size());
  std::vector<EmptyWatcher> watchers;
  for (std::size_t i = 0; i < jobs.size(); ++i)
    watchers.emplace_back(days[i], jobs[i].begins, setup, jobs[i].also);
  // Lid openings of no length make a step end at every loading time without opening the lid.
  std::vector<heat::LidOpening> cuts;
  for (const double t : setup.load_times_s) cuts.push_back({t, t});
  std::vector<heat::Run> runs(jobs.size());
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    runs[i].forcing = forcing_of(*jobs[i].today, 0);
    runs[i].start_s = 0.0;
    runs[i].end_s = base::kSecondsPerDay;
    if (until == Until::kLastLoading && !setup.load_times_s.empty())
      runs[i].end_s = setup.load_times_s.back();
    runs[i].state = jobs[i].begins.state;
    // The night's last step size saves the controller from starting small again.
    runs[i].first_step_s = jobs[i].begins.next_step_s;
    runs[i].lid_open = cuts;
    runs[i].watcher = &watchers[i];
  }
  std::vector<heat::RunSummary> summaries(jobs.size());
  heat::integrate(setup.empty, runs, summaries, options);
  check(setup, jobs, summaries);
  for (std::size_t i = 0; i < jobs.size(); ++i) days[i].run = summaries[i];
  return days;
}
}  // namespace ovendays::season
