// SPDX-License-Identifier: MIT
// The year, a stretch of days and a task at a time, shared out over threads. Private to season.
#pragma once

#include <array>
#include <atomic>
#include <exception>
#include <mutex>
#include <vector>

#include "ovendays/season/parallel.h"
#include "week_run.h"

namespace ovendays::season {

/// A stretch is made ready shortly before it is cooked on and let go behind its last task, so that
/// few take up memory.
class YearRun {
 public:
  /// @param result its days, hours and day summaries are made room for and filled
  YearRun(const Setup& setup,
          const SeasonOptions& options,
          Progress& progress,
          SeasonResult& result);
  /// All days as they are, but for causes.
  /// @throws base::RunError naming the day; of several faults the same one on any number of threads
  void run();

  [[nodiscard]] std::vector<AuditTotal> audits() const;
  /// How each day begins.
  [[nodiscard]] std::vector<Midnight> nights() const;
  /// The highest temperature of each of Setup::layer_faces in the empty oven.
  [[nodiscard]] std::vector<double> peak_face_K() const;
  /// See SeasonResult::memory_K.
  [[nodiscard]] double memory_K() const;

 private:
  struct Job {
    enum class Kind { kPrepare, kCook } kind;
    std::size_t week = 0, task = 0;
  };
  [[nodiscard]] std::vector<Job> jobs_in_order() const;
  /// Among all jobs' faults, those that come first are told first.
  [[nodiscard]] std::size_t rank(const Job& job) const;
  void do_job(const Job& job);
  /// Waits where another thread is at it; never throws.
  void be_ready(std::size_t week);
  void prepare(std::size_t week);
  void trace_week(const WeekRun& week);

  const Setup& setup_;
  const SeasonOptions& options_;
  Progress& progress_;
  SeasonResult& result_;
  std::size_t tasks_;
  std::vector<WeekRun> weeks_;
  std::array<std::once_flag, kStretches> ready_;
  std::atomic<bool> unready_ = false;                   ///< one could not be made ready
  std::vector<std::exception_ptr> faults_;              ///< by rank
  std::array<std::atomic<int>, kStretches> to_cook_{};  ///< tasks left
  std::array<double, kStretches> memory_K_{};
  std::array<std::vector<double>, kStretches> peak_face_K_;
};
}  // namespace ovendays::season
