// SPDX-License-Identifier: MIT
// Runs the blocks of a year, sharing out their preparation and their tasks over threads. Private to
// season.
#pragma once

#include <array>
#include <atomic>
#include <exception>
#include <mutex>
#include <vector>

#include "day_block.h"
#include "ovendays/season/parallel.h"

namespace ovendays::season {

/// A block is prepared shortly before it is cooked on and released after its last task, so that
/// only a few blocks take up memory at any time.
class BlockSchedule {
 public:
  /// @param result its days, hours and day summaries are resized and filled by run()
  BlockSchedule(const Setup& setup,
                const SeasonOptions& options,
                Progress& progress,
                SeasonResult& result);
  /// Runs all days as they are; the causes of lost days are left to CauseSearch.
  /// @throws base::RunError naming the day; of several failures the same one is thrown at any
  /// number of threads
  void run();

  /// By day of the year.
  [[nodiscard]] std::vector<AuditTotal> audits() const;
  /// State of the empty oven at the start of each day of the year.
  [[nodiscard]] std::vector<Midnight> midnights() const;
  /// The highest temperature of each of Setup::layer_faces in the empty oven.
  [[nodiscard]] std::vector<double> peak_face_K() const;
  /// See SeasonResult::memory_K.
  [[nodiscard]] double memory_K() const;

 private:
  struct Job {
    enum class Kind { kPrepare, kCook } kind;
    std::size_t block = 0, task = 0;
  };
  [[nodiscard]] std::vector<Job> jobs_in_order() const;
  /// Place of a job's failure in the order in which failures are reported.
  [[nodiscard]] std::size_t rank(const Job& job) const;
  void do_job(const Job& job);
  /// Prepares a block unless that is done, and blocks while another thread does it. Never throws.
  void ensure_prepared(std::size_t block);
  void prepare(std::size_t block);
  void trace_block(const DayBlock& block);

  const Setup& setup_;
  const SeasonOptions& options_;
  Progress& progress_;
  SeasonResult& result_;
  std::size_t tasks_;
  std::vector<DayBlock> blocks_;
  std::array<std::once_flag, kBlocks> prepared_;
  std::atomic<bool> preparation_failed_ = false;
  std::vector<std::exception_ptr> failures_;  ///< by rank
  std::array<std::atomic<int>, kBlocks> tasks_left_{};
  std::array<double, kBlocks> memory_K_{};
  std::array<std::vector<double>, kBlocks> peak_face_K_;
};
}  // namespace ovendays::season
