// SPDX-License-Identifier: MIT
// Differences between alternatives, with the same draws for both.
#include "ovendays/study/draw_gains.h"

#include <algorithm>
#include <string>

#include "catch.h"
#include "made_case.h"
#include "made_study.h"
#include "ovendays/study/run_study.h"
#include "study_folder.h"

using namespace ovendays;
using namespace ovendays::study;
using test::within_abs;

namespace {
/// Two tasks, of which only rice counts; five draws, all of which gain `gain` days on their
/// quarter.
void add(results::StoredStudy& study, const test::Cooks& cooks, std::int16_t gain) {
  test::add_alternative(study, "a" + std::to_string(study.alternatives.size()), {}, cooks);
  study.alternatives.back().draw_gains.assign(10, gain);
}

results::StoredStudy five_draws() {
  results::StoredStudy study = test::made_study();
  study.draws = 5;
  study.tasks[1].counts = false;
  return study;
}
}  // namespace

TEST_CASE("a difference takes four times what a draw adds on a quarter of the days",
          "[study][unit]") {
  results::StoredStudy study = five_draws();
  // Every day or none, so that resampled days change nothing.
  add(
      study, [](std::size_t t, int) { return t == 1; }, 0);
  add(
      study, [](std::size_t t, int) { return t == 1; }, 10);
  add(
      study, [](std::size_t, int) { return true; }, -10);
  const auto range = [&](std::size_t place, std::optional<std::size_t> task) {
    return net_range(study, study.alternatives[0], study.alternatives[place], task).value();
  };
  // By hand: 10 x 365 / 92 = 39.7, and 10 x 365 / 91 = 40.1 for draws that start later
  CHECK(range(1, std::nullopt).low_days == 40.0);
  CHECK(range(1, std::nullopt).high_days == 40.0);
  CHECK(range(1, std::nullopt).clear());
  CHECK(range(2, std::nullopt).low_days == 325.0);
  CHECK(range(2, 1).low_days == -40.0);
  CHECK(range(2, 1).clear());
  CHECK(range(0, 0).low_days == 0.0);
  CHECK_FALSE(range(0, 0).clear());
  // By hand: sorted -40, 0, 0, 0, 40; P10 lies 0.4 of the way from the first to the second.
  for (const std::size_t place : {std::size_t{0}, std::size_t{1}}) {
    study.alternatives[place].draw_gains.assign(10, 0);
  }
  study.alternatives[1].draw_gains[0] = -10;
  study.alternatives[1].draw_gains[1] = 10;
  CHECK(range(1, 0).low_days == -24.0);
  CHECK(range(1, 0).high_days == 24.0);
  CHECK_FALSE(range(1, 0).clear());
  CHECK(range(1, 1).low_days == 0.0);  // slots 5 to 9 are the second task's
}

TEST_CASE("the weather of the year moves a difference only where the two differ",
          "[study][property]") {
  results::StoredStudy study = five_draws();
  const auto summer = [](std::size_t, int d) { return d % 7 < 3 && d > 100 && d < 250; };
  add(study, summer, 4);
  add(study, summer, 4);
  add(
      study, [&](std::size_t t, int d) { return summer(t, d) && d % 5 != 0; }, 4);
  const NetRange same = *net_range(study, study.alternatives[0], study.alternatives[1]);
  CHECK(same.low_days == 0.0);
  CHECK(same.high_days == 0.0);
  const NetRange other = *net_range(study, study.alternatives[0], study.alternatives[2]);
  CHECK(other.high_days < 0.0);
  CHECK(other.low_days < other.high_days);
  study.draws = 0;
  CHECK_FALSE(net_range(study, study.alternatives[0], study.alternatives[1]));
}

TEST_CASE("draws of an alternative are seasons of the drawn case, and the same at any thread count",
          "[study][determinism]") {
  season::Case c = season::read_case_text(season::starter_case(),
                                          std::string(OVENDAYS_SOURCE_DIR) + "/weather/case.toml");
  std::erase_if(c.tasks, [](const task::Task& t) { return t.name.rfind("bread", 0) != 0; });
  REQUIRE(c.tasks.size() == 1);
  const weather::WeatherYear year = season::load_weather(c);
  season::SeasonOptions options = test::quick_options();
  options.threads = 1;
  const season::SeasonResult as_given = season::run_season(c, year, options);
  const std::vector<std::int16_t> gains =
      draw_gains(c, year, as_given, {.draws = 6, .seed = 3, .season = options});
  REQUIRE(gains.size() == 6);
  options.threads = 4;
  CHECK(gains == draw_gains(c, year, as_given, {.draws = 6, .seed = 3, .season = options}));
  CHECK(gains != draw_gains(c, year, as_given, {.draws = 6, .seed = 4, .season = options}));
  // Whole seasons of two draws, counted on the days of the draw.
  const std::vector<Draw> draws = make_draws(6, 3, 1);
  for (const std::size_t draw : {std::size_t{1}, std::size_t{5}}) {
    const season::SeasonResult whole = season::run_season(with_draw(c, draws[draw]), year, options);
    int gained = 0;
    for (int d = static_cast<int>(draw % 4); d < season::kDays; d += 4) {
      const auto cooked = [d](const season::SeasonResult& result) {
        return result.at(0, d).outcome == season::Outcome::kCooked ? 1 : 0;
      };
      gained += cooked(whole) - cooked(as_given);
    }
    CHECK(gains[draw] == gained);
  }
}

TEST_CASE("a change that does nothing is no gain, and a second pane is a clear one",
          "[study][unit]") {
  const test::StudyFolder folder;
  const std::string text = R"(case = "yard.toml"
[study]
count = ["rice"]
together = false
[[change]]
name = "renamed"
set."oven.name" = "another name"
[[change]]
name = "two panes"
add."oven.pane" = { thickness = "4 mm" }
)";
  folder.write("study.toml", text);
  const Study study(
      folder.file("study.toml"), Causes::kLeftOut, {.threads = 2, .draws = 5, .progress = {}});
  season::SeasonOptions season = test::quick_options();
  RunOptions options;
  options.simulate = season_simulator(season, study.plan().draws, study.plan().seed);
  std::vector<double> shares;
  options.progress = [&](double share, const std::string&) { shares.push_back(share); };
  const results::StoredStudy done = run_study(study, {}, options).study;
  CHECK(std::is_sorted(shares.begin(), shares.end()));
  CHECK(done.alternatives[0].sha256 != folder.study(text).plan().alternatives[0].sha256);
  const NetRange none = *net_range(done, done.alternatives[0], done.alternatives[1]);
  CHECK(none.low_days == 0.0);
  CHECK(none.high_days == 0.0);
  const NetRange panes = *net_range(done, done.alternatives[0], done.alternatives[2]);
  CHECK(panes.low_days > 0.0);
}
