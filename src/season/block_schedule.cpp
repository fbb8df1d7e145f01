// SPDX-License-Identifier: MIT
#include "block_schedule.h"

#include <algorithm>
#include <cmath>

#include "hourly_trace.h"

namespace ovendays::season {
namespace {

/// What one day leaves to the next (SeasonResult::memory_K), on the days of a block that are the
/// 15th of a month: each is run a second time from midnight with the oven at air temperature.
double overnight_memory_K(const Setup& setup, const SeasonOptions& options, const DayBlock& block) {
  if (setup.load_times_s.empty()) return 0.0;
  std::vector<heat::Run> fresh;
  std::vector<const heat::State*> carried;
  for (std::size_t i = 0; i < block.days(); ++i) {
    const int day = block.first_day() + static_cast<int>(i);
    if (setup.sky_day(day).date.day != 15) continue;
    heat::Run& run = fresh.emplace_back();
    run.forcing = forcing_of(block.forcing().days[0][i], 0);
    run.start_s = 0.0;
    run.end_s = setup.load_times_s.front();
    run.state = heat::uniform_state(setup.sky_day(day).states.front().dry_bulb_K);
    carried.push_back(&block.empty(i).at_load.front());
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

/// Raises each peak to another day's where that is higher. A day on which the oven was not run has
/// no peaks.
void raise_peaks(std::vector<double>& peaks, const std::vector<double>& others) {
  peaks.resize(std::max(peaks.size(), others.size()), 0.0);
  for (std::size_t i = 0; i < others.size(); ++i) peaks[i] = std::max(peaks[i], others[i]);
}

std::size_t day_of(const DayBlock& block, std::size_t day) {
  return static_cast<std::size_t>(block.first_day()) + day;
}
}  // namespace

BlockSchedule::BlockSchedule(const Setup& setup,
                             const SeasonOptions& options,
                             Progress& progress,
                             SeasonResult& result)
    : setup_(setup),
      options_(options),
      progress_(progress),
      result_(result),
      tasks_(setup.c->tasks.size()),
      failures_(kBlocks + kBlocks * tasks_) {
  blocks_.reserve(kBlocks);
  for (std::size_t b = 0; b < kBlocks; ++b) {
    const int first = static_cast<int>(b) * kDaysPerBlock;
    blocks_.emplace_back(setup, first, std::min(kDaysPerBlock, kDays - first), options);
    tasks_left_[b] = static_cast<int>(tasks_);
  }
  result.days.resize(tasks_ * kDays);
  if (!options.days_only) result.hours.resize(std::size_t{kDays} * 24);
}

void BlockSchedule::run() {
  const std::vector<Job> jobs = jobs_in_order();
  parallel(static_cast<int>(jobs.size()), setup_.threads, [&](int i) {
    do_job(jobs[static_cast<std::size_t>(i)]);
  });
  for (const std::exception_ptr& failure : failures_) {
    if (failure) std::rethrow_exception(failure);
  }
  for (const DayBlock& block : blocks_) {
    for (std::size_t t = 0; t < tasks_; ++t) {
      for (std::size_t i = 0; i < block.days(); ++i)
        result_.days[t * kDays + day_of(block, i)] = block.result(t, i);
    }
  }
}

// Blocks are prepared a few jobs ahead of their cooks, one block for each thread but one, so that
// no thread waits for a preparation and few blocks are in memory at a time.
std::vector<BlockSchedule::Job> BlockSchedule::jobs_in_order() const {
  const auto ahead = static_cast<std::size_t>(std::clamp(setup_.threads - 1, 1, kBlocks - 1));
  std::vector<Job> jobs;
  for (std::size_t b = 0; b < kBlocks + ahead; ++b) {
    if (b < kBlocks) jobs.push_back({Job::Kind::kPrepare, b});
    for (std::size_t t = 0; b >= ahead && t < tasks_; ++t)
      jobs.push_back({Job::Kind::kCook, b - ahead, t});
  }
  return jobs;
}

// Preparations come before cooks: a block that cannot be prepared is the first thing to report.
std::size_t BlockSchedule::rank(const Job& job) const {
  if (job.kind == Job::Kind::kPrepare) return job.block;
  return kBlocks + job.block * tasks_ + job.task;
}

void BlockSchedule::do_job(const Job& job) {
  try {
    ensure_prepared(job.block);
    // After a failed preparation no more cooks are run, so that the reported failure does not
    // depend on the order in which threads get to them.
    if (job.kind != Job::Kind::kCook || preparation_failed_) return;
    blocks_[job.block].cook(job.task);
    if (--tasks_left_[job.block] == 0) blocks_[job.block].release();
    progress_.add(1);
  } catch (...) {
    failures_[rank(job)] = std::current_exception();
  }
}

void BlockSchedule::ensure_prepared(std::size_t block) {
  std::call_once(prepared_[block], [&] {
    try {
      prepare(block);
    } catch (...) {
      failures_[rank({Job::Kind::kPrepare, block})] = std::current_exception();
      preparation_failed_ = true;
    }
  });
}

void BlockSchedule::prepare(std::size_t b) {
  DayBlock& block = blocks_[b];
  block.prepare();
  for (std::size_t i = 0; i < block.days(); ++i)
    raise_peaks(peak_face_K_[b], block.empty(i).peak_face_K);
  if (options_.days_only) return;
  trace_block(block);
  memory_K_[b] = overnight_memory_K(setup_, options_, block);
}

// The light comes with the forcing, which seasons may share; the temperatures are this oven's own.
void BlockSchedule::trace_block(const DayBlock& block) {
  const BlockForcing& forcing = block.forcing();
  for (std::size_t i = 0; i < block.days(); ++i) {
    const std::span<HourTrace> hours = std::span(result_.hours).subspan(day_of(block, i) * 24, 24);
    const std::span<const HourTrace> light = std::span(forcing.hours).subspan(i * 24, 24);
    std::copy(light.begin(), light.end(), hours.begin());
    const auto light_factor = static_cast<float>(setup_.empty.light_factor);
    for (HourTrace& hour : hours) {
      for (float& absorbed_W : hour.absorbed_W) absorbed_W *= light_factor;
    }
    DaySummary& summary = result_.day[day_of(block, i)];
    summary = forcing.summaries[i];
    trace_oven(block.empty(i), setup_.empty.present[heat::kNodeTray], hours, summary);
  }
}

std::vector<AuditTotal> BlockSchedule::audits() const {
  std::vector<AuditTotal> all;
  for (const DayBlock& block : blocks_) {
    for (std::size_t i = 0; i < block.days(); ++i) all.push_back(block.audit(i));
  }
  return all;
}

std::vector<Midnight> BlockSchedule::midnights() const {
  std::vector<Midnight> all;
  for (const DayBlock& block : blocks_)
    all.insert(all.end(), block.midnights().begin(), block.midnights().end());
  return all;
}

std::vector<double> BlockSchedule::peak_face_K() const {
  std::vector<double> peaks;
  for (const std::vector<double>& of_block : peak_face_K_) raise_peaks(peaks, of_block);
  return peaks;
}

double BlockSchedule::memory_K() const {
  return *std::max_element(memory_K_.begin(), memory_K_.end());
}
}  // namespace ovendays::season
