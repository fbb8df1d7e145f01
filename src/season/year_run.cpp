// SPDX-License-Identifier: MIT
#include "year_run.h"

#include <algorithm>
#include <cmath>

#include "trace.h"

namespace ovendays::season {
namespace {

/// What one day leaves to the next: the empty oven at the first loading time against the same day
/// begun at midnight with the oven as cool as the air, on the days in the middle of a month among
/// those of a week.
double overnight_memory_K(const Setup& setup, const SeasonOptions& options, const WeekRun& week) {
  if (setup.load_times_s.empty()) return 0.0;
  std::vector<heat::Run> fresh;
  std::vector<const heat::State*> carried;
  for (std::size_t i = 0; i < week.days(); ++i) {
    const int day = week.first_day() + static_cast<int>(i);
    if (setup.sky_day(day).date.day != 15) continue;
    heat::Run& run = fresh.emplace_back();
    run.forcing = forcing_of(week.driven_by().days[i], 0);
    run.start_s = 0.0;
    run.end_s = setup.load_times_s.front();
    run.state = heat::uniform_state(setup.sky_day(day).states.front().dry_bulb_K);
    carried.push_back(&week.empty(i).at_load.front());
  }
  std::vector<heat::RunSummary> summaries(fresh.size());
  heat::integrate(setup.empty, fresh, summaries, options.integrator);
  double left_K = 0.0;
  for (std::size_t i = 0; i < fresh.size(); ++i) {
    for (std::size_t n = 0; n < heat::kNodes; ++n) {
      const double apart_K = std::abs((*carried[i])[n] - fresh[i].state[n]);
      if (setup.empty.present[n]) left_K = std::max(left_K, apart_K);
    }
  }
  return left_K;
}

/// Raises each peak to another day's where that is higher; days on which the oven was not run have
/// no peaks.
void raise_peaks(std::vector<double>& peaks, const std::vector<double>& others) {
  peaks.resize(std::max(peaks.size(), others.size()), 0.0);
  for (std::size_t i = 0; i < others.size(); ++i) peaks[i] = std::max(peaks[i], others[i]);
}

std::size_t day_of(const WeekRun& week, std::size_t day) {
  return static_cast<std::size_t>(week.first_day()) + day;
}
}  // namespace

YearRun::YearRun(const Setup& setup,
                 const SeasonOptions& options,
                 Progress& progress,
                 SeasonResult& result)
    : setup_(setup),
      options_(options),
      progress_(progress),
      result_(result),
      tasks_(setup.c->tasks.size()),
      faults_(kStretches + kStretches * tasks_) {
  weeks_.reserve(kStretches);
  for (std::size_t w = 0; w < kStretches; ++w) {
    const int first = static_cast<int>(w) * kDaysSideBySide;
    weeks_.emplace_back(setup, first, std::min(kDaysSideBySide, kDays - first), options);
    to_cook_[w] = static_cast<int>(tasks_);
  }
  result.days.resize(tasks_ * kDays);
  if (!options.days_only) result.hours.resize(std::size_t{kDays} * 24);
}

void YearRun::run() {
  const std::vector<Job> jobs = jobs_in_order();
  parallel(static_cast<int>(jobs.size()), setup_.threads, [&](int i) {
    do_job(jobs[static_cast<std::size_t>(i)]);
  });
  for (const std::exception_ptr& fault : faults_) {
    if (fault) std::rethrow_exception(fault);
  }
  for (const WeekRun& week : weeks_) {
    for (std::size_t t = 0; t < tasks_; ++t) {
      for (std::size_t i = 0; i < week.days(); ++i)
        result_.days[t * kDays + day_of(week, i)] = week.result(t, i);
    }
  }
}

/// On several threads all but one have a block to prepare ahead of the blocks that are cooked on.
std::vector<YearRun::Job> YearRun::jobs_in_order() const {
  const auto ahead = static_cast<std::size_t>(std::clamp(setup_.threads - 1, 1, kStretches - 1));
  std::vector<Job> jobs;
  for (std::size_t w = 0; w < kStretches + ahead; ++w) {
    if (w < kStretches) jobs.push_back({Job::Kind::kPrepare, w});
    for (std::size_t t = 0; w >= ahead && t < tasks_; ++t)
      jobs.push_back({Job::Kind::kCook, w - ahead, t});
  }
  return jobs;
}

std::size_t YearRun::rank(const Job& job) const {
  if (job.kind == Job::Kind::kPrepare) return job.week;
  return kStretches + job.week * tasks_ + job.task;
}

void YearRun::do_job(const Job& job) {
  try {
    be_ready(job.week);
    // Where a stretch could not be made ready, that is told, whatever its cooks would be.
    if (job.kind != Job::Kind::kCook || unready_) return;
    weeks_[job.week].cook(job.task);
    if (--to_cook_[job.week] == 0) weeks_[job.week].let_go();
    progress_.add(1);
  } catch (...) {
    faults_[rank(job)] = std::current_exception();
  }
}

void YearRun::be_ready(std::size_t week) {
  std::call_once(ready_[week], [&] {
    try {
      prepare(week);
    } catch (...) {
      faults_[rank({Job::Kind::kPrepare, week})] = std::current_exception();
      unready_ = true;
    }
  });
}

void YearRun::prepare(std::size_t w) {
  WeekRun& week = weeks_[w];
  week.prepare();
  for (std::size_t i = 0; i < week.days(); ++i)
    raise_peaks(peak_face_K_[w], week.empty(i).peak_face_K);
  if (options_.days_only) return;
  trace_week(week);
  memory_K_[w] = overnight_memory_K(setup_, options_, week);
}

/// What reached the oven, and the empty one's temperatures.
void YearRun::trace_week(const WeekRun& week) {
  const StretchDays& drive = week.driven_by();
  for (std::size_t i = 0; i < week.days(); ++i) {
    const std::span<HourTrace> hours = std::span(result_.hours).subspan(day_of(week, i) * 24, 24);
    const std::span<const HourTrace> light = std::span(drive.hours).subspan(i * 24, 24);
    std::copy(light.begin(), light.end(), hours.begin());
    DaySummary& summary = result_.day[day_of(week, i)];
    summary = drive.summaries[i];
    trace_oven(week.empty(i), setup_.empty.present[heat::kNodeTray], hours, summary);
  }
}

std::vector<AuditTotal> YearRun::audits() const {
  std::vector<AuditTotal> all;
  for (const WeekRun& week : weeks_) {
    for (std::size_t i = 0; i < week.days(); ++i) all.push_back(week.audit(i));
  }
  return all;
}

std::vector<Midnight> YearRun::nights() const {
  std::vector<Midnight> all;
  for (const WeekRun& week : weeks_)
    all.insert(all.end(), week.nights().begin(), week.nights().end());
  return all;
}

std::vector<double> YearRun::peak_face_K() const {
  std::vector<double> peaks;
  for (const std::vector<double>& of_block : peak_face_K_) raise_peaks(peaks, of_block);
  return peaks;
}

double YearRun::memory_K() const { return *std::max_element(memory_K_.begin(), memory_K_.end()); }
}  // namespace ovendays::season
