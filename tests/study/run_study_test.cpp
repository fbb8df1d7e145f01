// SPDX-License-Identifier: MIT
// Which alternatives are run or taken over, and what the file contains. A fake season, computed
// from the case, makes hundreds of runs fast; one test uses real seasons.
#include "ovendays/study/run_study.h"

#include <sys/resource.h>

#include "catch.h"
#include "made_study.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/study/change_order.h"
#include "ovendays/study/paired_days.h"
#include "study_folder.h"

using  // GCC defines a macro under the address sanitizer, Clang has a feature test.
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define OVENDAYS_CLANG_ADDRESS_SANITIZER 1
#endif
#endif
#ifndef OVENDAYS_CLANG_ADDRESS_SANITIZER
#define OVENDAYS_CLANG_ADDRESS_SANITIZER 0
#endif

    namespace ovendays;
using results::StoredStudy;
using results::StudyDay;
using study::RunOptions;
using study::RunSummary;
using study::Study;
using test::StudyFolder;

namespace {
const char* const kStudy = R"(case = "yard.toml"
[[spot]]
name = "here"
[[spot]]
name = "there"
set."spot.y" = "-3 m"
[[oven]]
name = "one"
[[oven]]
name = "deep"
set."oven.box.inner_height" = "11 in"
[[change]]
name = "dark"
price = 4
set."oven.liner.absorptance" = 0.97
[[change]]
name = "tight"
price = 2
set."oven.box.leak_area" = "1 cm2"
[[change]]
name = "thick"
price = 9
set."oven.layer.1.thickness" = "3 in"
)";

// Arbitrary days that depend on every input of the case.
study::StudySeason pretended(const season::Case& c) {
  const double score = 90.0 + 20.0 * c.oven.liner.absorptance - 3e4 * c.oven.box.leak_area_m2 +
                       100.0 * c.oven.box.wall[0].thickness_m + 4.0 * c.spot.mouth.y +
                       50.0 * c.oven.box.inner_height_m;
  return {test::made_days(c.tasks.size(),
                          [score](std::size_t t, int d) {
                            return (d * 7 + static_cast<int>(t) * 13) % 150 < score;
                          }),
          {}};
}

struct Watched {
  RunOptions options;
  int runs = 0;
  int saves = 0;
};

// Runs a study that fails with an exception at the start of season `die_at`; 0 means never.
void watch(Watched& watched, const std::string& target, int die_at = 0) {
  watched.options.simulate = [&watched, die_at](const season::Case& c,
                                                const weather::WeatherYear&,
                                                const std::function<void(double)>&) {
    if (++watched.runs == die_at) throw std::runtime_error("killed");
    return pretended(c);
  };
  watched.options.save = [&watched, target](const StoredStudy& so_far) {
    ++watched.saves;
    results::write_study(target, so_far);
  };
}

std::vector<StoredStudy> earlier(const std::string& file) {
  return {results::read_study_file(file)};
}
}  // namespace

TEST_CASE("a study killed at any point and restarted yields the same bytes", "[study][unit]") {
  const StudyFolder folder;
  const Study study = folder.study(kStudy);
  const std::string whole = folder.file("whole.h5");
  Watched once;
  watch(once, whole);
  const RunSummary all = study::run_study(study, {}, once.options);
  CHECK(all.run == static_cast<std::size_t>(once.runs));
  CHECK(all.kept == 0);
  CHECK(all.study.alternatives.size() > study.plan().planned());  // changes together as well
  const std::string bytes = base::read_file(whole);
  const std::string part = folder.file("part.h5");
  for (int die_at = 2; die_at <= once.runs; ++die_at) {
    std::filesystem::remove(part);
    Watched killed;
    watch(killed, part, die_at);
    CHECK_THROWS(study::run_study(study, {}, killed.options));
    Watched again;
    watch(again, part);
    const RunSummary rest = study::run_study(study, earlier(part), again.options);
    CHECK(base::read_file(part) == bytes);
    // Saving is spaced out in time, so that more than the last one may have to be run again.
    CHECK(rest.run + rest.kept == all.run);
    CHECK(rest.kept >= 1);
  }
  Watched idle;
  watch(idle, whole);
  CHECK(study::run_study(study, earlier(whole), idle.options).run == 0);
  CHECK(idle.runs == 0);
  CHECK(base::read_file(whole) == bytes);
}

TEST_CASE("what is simulated is what was digested, though every file changes meanwhile",
          "[study][unit]") {
  const StudyFolder folder;
  folder.write("tank.toml", "name = \"tank\"\nwidth = \"1 m\"\n");
  folder.write("site.toml", "weather = \"weather.epw\"\nalbedo = 0.25\n");
  folder.write("hills.csv", "A,H_hor\n0,1\n180,3\n");
  const Study study = folder.study(R"(case = "yard.toml"
[[site]]
name = "home"
[[site]]
name = "field"
use = "site.toml"
[[spot]]
name = "garden"
[[spot]]
name = "hills"
set."spot.horizon" = { file = "hills.csv" }
[[change]]
name = "dark"
set."oven.liner.absorptance" = 0.97
[[change]]
name = "tight"
set."oven.box.leak_area" = "1 cm2"
)");
  // Everything that is left to read is another thing, or nothing at all, from the first run on.
  const auto spoil = [&folder] {
    folder.write("site.toml", "weather = \"weather.epw\"\nalbedo = 0.6\n");
    folder.write("hills.csv", "A,H_hor\n0,30\n180,30\n");
    std::filesystem::remove(folder.file("weather.epw"));
    folder.write("yard.toml", folder.read("yard.toml") + "\n# other\n[[oven.pane]]\n");
  };
  std::vector<std::string> ran;
  RunOptions options;
  options.progress = [&](double, const std::string&) { spoil(); };
  options.simulate = [&](const season::Case& c,
                         const weather::WeatherYear& year,
                         const std::function<void(double)>&) {
    ran.push_back(study.digest_of(c, year));
    return pretended(c);
  };
  const StoredStudy done = study::run_study(study, {}, options).study;
  REQUIRE(ran.size() == done.alternatives.size());
  REQUIRE(ran.size() == 7);  // four combinations, two changes, both together
  for (std::size_t i = 0; i < ran.size(); ++i) {
    INFO(done.alternatives[i].name);
    CHECK(ran[i] == done.alternatives[i].sha256);
  }
}

TEST_CASE("only what has changed is run again", "[study][unit]") {
  const StudyFolder folder;
  const std::string file = folder.file("s.h5");
  Watched first;
  watch(first, file);
  study::run_study(folder.study(kStudy), {}, first.options);
  std::string text = kStudy;
  text.replace(text.find("3 in"), 4, "4 in");
  text.replace(text.find("price = 4"), 9, "price = 5");  // no input of a season
  text += "[[routine]]\nname = \"all day\"\n";
  Watched second;
  watch(second, file);
  const RunSummary again = study::run_study(folder.study(text), earlier(file), second.options);
  CHECK(again.study.alternatives[4].name == "dark");
  for (const results::StudyAlternative& each : again.study.alternatives) CHECK(each.done());
  // The thick one alone, and together with what the order tries it with.
  const auto thick = std::count_if(
      again.study.alternatives.begin(), again.study.alternatives.end(), [](const auto& each) {
        return std::find(each.changes.begin(), each.changes.end(), 2) != each.changes.end();
      });
  CHECK(second.runs == thick);
}

TEST_CASE("parts run separately and gathered equal an undivided run to the byte", "[study][unit]") {
  const StudyFolder folder;
  const Study alone = folder.study(std::string(kStudy) + "[study]\ntogether = false\n");
  const std::string whole = folder.file("whole.h5");
  Watched one;
  watch(one, whole);
  study::run_study(alone, {}, one.options);
  for (const std::size_t count : {2U, 3U, 7U, 9U}) {
    std::vector<StoredStudy> parts;
    std::vector<std::string> names;
    for (std::size_t i = count; i >= 1; --i) {  // in no order
      names.push_back(folder.file("part" + std::to_string(i) + ".h5"));
      Watched part;
      watch(part, names.back());
      part.options.share = {i, count};
      study::run_study(alone, {}, part.options);
      parts.push_back(results::read_study_file(names.back()));
    }
    const std::string joined = folder.file("joined.h5");
    results::write_study(joined, results::gathered(parts, names));
    CHECK(base::read_file(joined) == base::read_file(whole));
  }
}

TEST_CASE("combinations are run after gathering as in an undivided run", "[study][unit]") {
  const StudyFolder folder;
  const Study study = folder.study(kStudy);
  Watched one;
  watch(one, folder.file("whole.h5"));
  study::run_study(study, {}, one.options);
  std::vector<StoredStudy> parts;
  for (std::size_t i = 1; i <= 2; ++i) {
    Watched part;
    watch(part, folder.file("part.h5"));
    part.options.share = {i, 2};
    parts.push_back(study::run_study(study, {}, part.options).study);
  }
  Watched rest;
  watch(rest, folder.file("joined.h5"));
  const RunSummary after =
      study::run_study(study, {results::gathered(parts, {"a", "b"})}, rest.options);
  CHECK(after.run == after.study.alternatives.size() - study.plan().planned());
  CHECK(folder.read("joined.h5") == folder.read("whole.h5"));
}

TEST_CASE("one alternative that fails is recorded and the others are run", "[study][unit]") {
  const StudyFolder folder;
  const Study study = folder.study(kStudy);
  const std::string file = folder.file("s.h5");
  Watched once;
  watch(once, file);
  const auto fails_if = [&once](const auto& fails) {
    once.options.simulate = [fails](const season::Case& c,
                                    const weather::WeatherYear&,
                                    const std::function<void(double)>&) {
      if (fails(c)) throw base::RunError("the integration failed");
      return pretended(c);
    };
  };
  // The change "tight" fails alone, so the order is found without it.
  fails_if([](const season::Case& c) { return c.oven.box.leak_area_m2 < 1.1e-4; });
  const RunSummary run = study::run_study(study, {}, once.options);
  CHECK(run.failed == 1);
  const StoredStudy stored = results::read_study_file(file);
  for (const results::StudyAlternative& each : stored.alternatives) {
    INFO(each.name);
    CHECK(each.failure == (each.name == "tight" ? "the integration failed" : ""));
    CHECK(each.done() == !each.failed());
  }
  const study::BestOrder order = study::best_order(stored);
  CHECK(order.complete);
  CHECK(order.failed == std::vector<int>{1});
  CHECK(order.changes.size() == 2);
  // A later run tries it again, and nothing else.
  const std::string bytes = base::read_file(file);
  const RunSummary again = study::run_study(study, earlier(file), once.options);
  CHECK(again.run == 0);
  CHECK(again.failed == 1);
  CHECK(base::read_file(file) == bytes);
  fails_if([](const season::Case&) { return false; });
  const RunSummary mended = study::run_study(study, earlier(file), once.options);
  CHECK(mended.failed == 0);
  CHECK(study::best_order(mended.study).changes.size() == 3);
  // Without the first there is nothing to compare with, but the other seven are there.
  int left = 1;
  fails_if([&left](const season::Case&) { return left-- > 0; });
  const RunSummary headless = study::run_study(study, {}, once.options);
  CHECK(headless.run == 6);
  CHECK(headless.failed == 1);
  CHECK_FALSE(study::best_order(headless.study).complete);
}

TEST_CASE("changes that are not valid together are left out of the order", "[study][unit]") {
  const StudyFolder folder;
  std::string text = "case = \"yard.toml\"\n";
  for (const char* name : {"a", "b", "c"}) {
    text += std::string("[[change]]\nname = \"") + name +
            "\"\nprice = 1\nadd.\"oven.pane\" = { thickness = \"3 mm\" }\n";
  }
  const Study study = folder.study(text);
  const std::string file = folder.file("s.h5");
  Watched run;
  watch(run, file);
  run.options.simulate =
      [](const season::Case& c, const weather::WeatherYear&, const std::function<void(double)>&) {
        const int days = 100 * static_cast<int>(c.oven.panes.size());
        return study::StudySeason{
            test::made_days(c.tasks.size(), [days](std::size_t, int d) { return d < days; }), {}};
      };
  const RunSummary summary = study::run_study(study, {}, run.options);
  CHECK(summary.failed == 0);  // a finding, no failure
  const StoredStudy stored = results::read_study_file(file);
  const results::StudyAlternative* all = study::with_changes(stored, {0, 1, 2});
  REQUIRE(all != nullptr);
  CHECK(test::contains(all->failure, "oven.pane: 4 panes, allowed 1 to 3"));
  const study::BestOrder order = study::best_order(stored);
  CHECK(order.complete);
  CHECK(order.changes == std::vector<int>{0, 1});
  CHECK(order.failed == std::vector<int>{2});
}

TEST_CASE("a part that failed is mended by one in which it was run", "[study][unit]") {
  const StudyFolder folder;
  const Study study = folder.study(kStudy);
  Watched run;
  watch(run, folder.file("s.h5"));
  const StoredStudy whole = study::run_study(study, {}, run.options).study;
  StoredStudy failed = whole;
  failed.alternatives[1].days.clear();
  failed.alternatives[1].failure = "out of patience";
  for (const auto& parts : {std::vector{whole, failed}, std::vector{failed, whole}}) {
    const StoredStudy joined = results::gathered(parts, {"a", "b"});
    CHECK(joined.alternatives[1].days == whole.alternatives[1].days);
    CHECK_FALSE(joined.alternatives[1].failed());
  }
  CHECK(results::gathered({failed, failed}, {"a", "b"}).alternatives[1].failure ==
        "out of patience");
}

TEST_CASE("parts of other studies are not joined", "[study][unit]") {
  const StudyFolder folder;
  StoredStudy a = folder.study(kStudy).plan();
  StoredStudy b = a;
  b.alternatives[2].sha256 = "other";
  try {
    (void)results::gathered({a, b}, {"a.h5", "b.h5"});
    FAIL("it was joined");
  } catch (const base::InputError& error) {
    CHECK(test::contains(error.what(), "b.h5: is not of the same study as a.h5"));
    CHECK(test::contains(error.what(), "'there / one' with other inputs"));
  }
}

TEST_CASE("the order found while running equals the one computed from the file",
          "[study][identity]") {
  const StudyFolder folder;
  const Study study = folder.study(kStudy);
  Watched run;
  watch(run, folder.file("s.h5"));
  const StoredStudy done = study::run_study(study, {}, run.options).study;
  const study::BestOrder order = study::best_order(done);
  CHECK(order.complete);
  REQUIRE(order.changes.size() == 3);
  CHECK(order.days.back() == study::counted_days(done, *study::with_changes(done, {0, 1, 2}))[12]);
}

TEST_CASE("memory does not grow with the number of alternatives", "[study][unit]") {
#if defined(__SANITIZE_ADDRESS__) || OVENDAYS_CLANG_ADDRESS_SANITIZER
  WARN("SKIPPED: the address sanitizer holds freed memory back, so that a peak tells nothing");
  return;
#endif
  const StudyFolder folder;
  std::string text = "case = \"yard.toml\"\n";
  const auto routines = [&text](int from, int to) {
    for (int i = from; i < to; ++i) {
      text += "[[routine]]\nname = \"r" + std::to_string(i) +
              "\"\nset.\"routine.lid_open_for\" = \"" + std::to_string(10 + i) + " s\"\n";
    }
  };
  const auto most_kB = [&folder](const std::string& study_text) {
    const Study study = folder.study(study_text);
    Watched run;
    watch(run, folder.file("s.h5"));
    study::run_study(study, {}, run.options);
    rusage usage{};
    ::getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss;
  };
  routines(0, 10);
  const long few = most_kB(text);
  routines(10, 110);
  const long many = most_kB(text);
  // What is kept of a season of eight tasks is 35 kB, in memory and again while it is written:
  // under 0.15 MB each, where the season itself takes tens of MB.
  CHECK(many - few < 100L * 150L);
}

TEST_CASE("real seasons: a combination equal to the first gains and loses no day",
          "[study][identity]") {
  const StudyFolder folder;
  const Study study = folder.study(R"(case = "yard.toml"
[[routine]]
name = "as it is"
[[routine]]
name = "the same in other words"
set."routine.re_aim_every" = "1800 s"
[[routine]]
name = "never turned"
set."routine.re_aim" = "never"
drop = ["routine.re_aim_every"]
)");
  season::SeasonOptions season;
  season.causes = false;
  season.days_only = true;
  const season::SeasonCache cache;
  season.cache = &cache;
  season.optics.rays = 64;  // coarse: the two are compared, nothing else
  season.optics.grid = 17;
  RunOptions options;
  options.simulate = study::season_simulator(season, 0, 1);
  const StoredStudy done = study::run_study(study, {}, options).study;
  CHECK(done.alternatives[0].sha256 != done.alternatives[1].sha256);
  const study::PairedDays same = study::counted_pairs(done, done.alternatives[1]);
  CHECK(same.gained[12] == 0);
  CHECK(same.lost[12] == 0);
  CHECK(study::counted_pairs(done, done.alternatives[2]).lost[12] > 0);
}
