// SPDX-License-Identifier: MIT
#include "ovendays/study/run_study.h"

#include <chrono>
#include <map>

#include "draw_seasons.h"
#include "ovendays/base/error.h"
#include "ovendays/study/change_order.h"
#include "ovendays/study/draw_gains.h"
#include "ovendays/study/paired_days.h"

namespace ovendays::study {
namespace {
using results::StoredStudy;
using results::StudyAlternative;

// Limits how often the study is saved: saving may take at most a twentieth of the time.
class Saver {
 public:
  explicit Saver(const std::function<void(const StoredStudy&)>& save) : save_(save) {}
  void added(const StoredStudy& study) {
    constexpr double kMostShare = 0.05;
    if (Clock::now() - last_ < cost_ / kMostShare) return;
    now(study);
  }
  void now(const StoredStudy& study) {
    if (!save_) return;
    const Clock::time_point begin = Clock::now();
    save_(study);
    last_ = Clock::now();
    cost_ = last_ - begin;
  }

 private:
  using Clock = std::chrono::steady_clock;
  const std::function<void(const StoredStudy&)>& save_;
  Clock::time_point last_{};
  std::chrono::duration<double> cost_{0.0};
};

class Runner {
 public:
  Runner(const Study& study, const std::vector<StoredStudy>& before, const RunOptions& options)
      : study_(study), options_(options), saver_(options.save), weather_(study.files()) {
    summary_.study = study.plan();
    for (const StoredStudy& old : before) {
      for (const StudyAlternative& each : old.alternatives) {
        if (each.done()) known_.emplace(each.sha256, &each);
      }
    }
  }

  RunSummary run() {
    const std::size_t planned = summary_.study.alternatives.size();
    take_over();
    for (std::size_t i = 0; i < planned; ++i) {
      if (!options_.share.has(i)) continue;
      if (fill(summary_.study.alternatives[i]) != Attempt::kRun) ++summary_.failed;
    }
    if (options_.share.whole() && study_.together()) try_together();
    if (options_.save) options_.save(summary_.study);
    return std::move(summary_);
  }

 private:
  // Takes over all earlier results first, so that a killed run never leaves fewer results than
  // before.
  void take_over() {
    std::vector<StudyAlternative>& all = summary_.study.alternatives;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const bool mine = options_.share.has(i);
      const bool kept = take_known(all[i]);
      if (kept && mine) ++summary_.kept;
      if (!kept && mine) ++to_run_;
    }
  }

  // Takes the days from an earlier file, or from an alternative of this study with the same inputs.
  bool take_known(StudyAlternative& alternative) {
    const auto twin = ran_.find(alternative.sha256);
    if (twin != ran_.end()) {
      take(summary_.study.alternatives[twin->second], alternative);
      return true;
    }
    const auto found = known_.find(alternative.sha256);
    if (found == known_.end()) return false;
    const StoredStudy& study = summary_.study;
    const StudyAlternative& known = *found->second;
    if (known.days.size() != study.tasks.size() * season::kDays) return false;
    if (known.draw_gains.size() != study.tasks.size() * static_cast<std::size_t>(study.draws)) {
      return false;
    }
    take(known, alternative);
    return true;
  }

  static void take(const StudyAlternative& from, StudyAlternative& alternative) {
    alternative.days = from.days;
    alternative.draw_gains = from.draw_gains;
  }

  // What became of one attempt to run an alternative.
  enum class Attempt { kRun, kRefused, kFailed };

  Attempt fill(StudyAlternative& alternative) {
    if (alternative.done() || take_known(alternative)) return Attempt::kRun;
    const auto report_progress = [&](double share_of_one) {
      if (!options_.progress) return;
      const double done = static_cast<double>(tried_) + share_of_one;
      options_.progress(done / static_cast<double>(to_run_), alternative.name);
    };
    report_progress(0.0);
    const Attempt attempt = simulate(alternative, report_progress);
    ++tried_;
    if (attempt == Attempt::kRun) {
      ran_[alternative.sha256] = place_of(alternative);
      ++summary_.run;
    }
    saver_.added(summary_.study);
    return attempt;
  }

  Attempt simulate(StudyAlternative& alternative, const std::function<void(double)>& progress) {
    try {
      const season::Case c = study_.case_of(alternative);
      StudySeason season = options_.simulate(c, weather_.year_of(c), progress);
      alternative.days = std::move(season.days);
      alternative.draw_gains = std::move(season.draw_gains);
      return Attempt::kRun;
    } catch (const base::InputError& error) {
      return failed(alternative, error.faults().front().message(), Attempt::kRefused);
    } catch (const base::RunError& error) {
      return failed(alternative, error.what(), Attempt::kFailed);
    }
  }

  // The reason is stored as one printable line that is never empty.
  static Attempt failed(StudyAlternative& alternative, const std::string& why, Attempt attempt) {
    alternative.failure = base::printable(why.empty() ? "no reason is known" : why);
    return attempt;
  }

  [[nodiscard]] std::size_t place_of(const StudyAlternative& alternative) const {
    return static_cast<std::size_t>(&alternative - summary_.study.alternatives.data());
  }

  // Combinations of changes are stored in the order in which best_order asks for them. That order
  // depends only on the results, so the file does not depend on earlier runs.
  void try_together() {
    StoredStudy& study = summary_.study;
    MadeIndex index(study);
    best_order(study.changes, [&](const std::vector<int>& made) {
      const StudyAlternative* known = index.find(made);
      if (known == nullptr) {
        study.alternatives.push_back(study_.with_changes(made));
        index.add(study.alternatives.size() - 1);
        try_one(study.alternatives.back());
        known = &study.alternatives.back();
      }
      return day_count(study, *known);
    });
  }

  // Changes that are valid alone may be refused together, which is a finding and no failure.
  void try_one(StudyAlternative& added) {
    try {
      const season::Case c = study_.case_of(added);
      added.sha256 = study_.digest_of(c, weather_.year_of(c));
    } catch (const base::InputError& error) {
      failed(added, error.faults().front().message(), Attempt::kRefused);
      return;
    }
    if (take_known(added)) {
      ++summary_.kept;
      return;
    }
    ++to_run_;
    if (fill(added) != Attempt::kRun) ++summary_.failed;
  }

  const Study& study_;
  const RunOptions& options_;
  Saver saver_;
  WeatherCache weather_;
  std::map<std::string, const StudyAlternative*> known_;
  std::map<std::string, std::size_t> ran_;  // index of each alternative simulated now, by digest
  std::size_t to_run_ = 0;
  std::size_t tried_ = 0;
  RunSummary summary_;
};
}  // namespace

Simulate season_simulator(const season::SeasonOptions& options, int draws, std::uint64_t seed) {
  // The draws of all alternatives share a cache of their own, so that they do not push what the
  // alternatives share out of theirs.
  const auto cache = std::make_shared<const season::SeasonCache>();
  return [options, draws, seed, cache](const season::Case& c,
                                       const weather::WeatherYear& year,
                                       const std::function<void(double)>& progress) {
    // A draw simulates a part of the days, and looks for no causes.
    const double part = 1.0 / (1.0 + static_cast<double>(draws) / kDrawEvery_days);
    season::SeasonOptions with_progress = options;
    if (progress) with_progress.progress = [&](double share) { progress(part * share); };
    const season::SeasonResult result = season::run_season(c, year, with_progress);
    StudySeason kept;
    kept.days.reserve(result.days.size());
    for (const season::DayTask& day : result.days) {
      kept.days.push_back({.outcome = day.outcome,
                           .cause = day.cause,
                           .load_s = day.load_s,
                           .finish_s = day.finish_s});
    }
    if (draws < 1) return kept;
    SpreadOptions spread{.draws = draws, .seed = seed, .season = options};
    spread.season.cache = cache.get();
    if (progress) {
      spread.season.progress = [&](double share) { progress(part + (1.0 - part) * share); };
    }
    kept.draw_gains = draw_gains(c, year, result, spread);
    return kept;
  };
}

RunSummary run_study(const Study& study,
                     const std::vector<StoredStudy>& before,
                     const RunOptions& options) {
  return Runner(study, before, options).run();
}
}  // namespace ovendays::study
