// SPDX-License-Identifier: MIT
// Differences day by day on patterns small enough to count by hand.
#include "ovendays/study/paired_days.h"

#include <numeric>

#include "catch.h"
#include "made_study.h"

using namespace ovendays;

namespace {
constexpr int kFeb1 = 31;
constexpr int kMar1 = 59;

// The first cooks rice on the 31 days of January and bread never; the other loses the first three
// of January, and gains 1-10 February for rice and 1-2 March for bread.
results::StoredStudy two() {
  results::StoredStudy study = test::made_study();
  test::add_alternative(study, "first", {}, [](std::size_t t, int d) { return t == 0 && d < 31; });
  test::add_alternative(study, "other", {}, [](std::size_t t, int d) {
    if (t == 1) return d >= kMar1 && d < kMar1 + 2;
    return (d >= 3 && d < 31) || (d >= kFeb1 && d < kFeb1 + 10);
  });
  return study;
}
}  // namespace

TEST_CASE("days gained and lost are counted separately in their months", "[study][unit]") {
  const results::StoredStudy study = two();
  const study::PairedDays rice =
      study::paired_days(study.alternatives[0], study.alternatives[1], 0);
  CHECK(rice.gained[12] == 10);
  CHECK(rice.lost[12] == 3);
  CHECK(rice.net() == 7);
  CHECK(rice.lost[0] == 3);
  CHECK(rice.gained[1] == 10);
  CHECK(rice.net(0) == -3);
  CHECK(std::accumulate(rice.gained.begin(), rice.gained.begin() + 12, 0) == 10);
  const study::PairedDays all = study::counted_pairs(study, study.alternatives[1]);
  CHECK(all.gained[12] == 12);
  CHECK(all.gained[2] == 2);
  CHECK(all.lost[12] == 3);
}

TEST_CASE("days gained are counted by the first alternative's cause", "[study][unit]") {
  // 1-10 February are days 31 to 40: those that three divides (33, 36, 39) were lost to
  // obstruction, the other seven to cloud.
  const results::StoredStudy study = two();
  const study::PairedDays rice =
      study::paired_days(study.alternatives[0], study.alternatives[1], 0);
  CHECK(rice.gained_from[static_cast<std::size_t>(season::Cause::kObstruction)] == 3);
  CHECK(rice.gained_from[static_cast<std::size_t>(season::Cause::kCloud)] == 7);
  CHECK(std::accumulate(rice.gained_from.begin(), rice.gained_from.end(), 0) == 10);
}

TEST_CASE("tasks that do not count are left out of totals", "[study][unit]") {
  results::StoredStudy study = two();
  study.tasks[1].counts = false;
  CHECK(study::counted_days(study, study.alternatives[1])[12] == 38);
  CHECK(study::counted_pairs(study, study.alternatives[1]).gained[12] == 10);
}

TEST_CASE("an alternative equal to the first gains and loses nothing", "[study][identity]") {
  results::StoredStudy study = two();
  study.alternatives[1].days = study.alternatives[0].days;
  const study::PairedDays same = study::counted_pairs(study, study.alternatives[1]);
  CHECK(same.gained == study::Months{});
  CHECK(same.lost == study::Months{});
}

TEST_CASE("gains less losses are the difference of the counts in every month",
          "[study][identity]") {
  results::StoredStudy study = test::made_study();
  for (int k = 2; k < 9; ++k) {
    test::add_alternative(study, "pattern", {}, [k](std::size_t t, int d) {
      return (d * d + static_cast<int>(t)) % k < k / 2;
    });
  }
  for (const results::StudyAlternative& each : study.alternatives) {
    const study::Months first = study::counted_days(study, study.alternatives[0]);
    const study::Months other = study::counted_days(study, each);
    const study::PairedDays paired = study::counted_pairs(study, each);
    for (std::size_t m = 0; m < 13; ++m) CHECK(paired.net(m) == other[m] - first[m]);
  }
}

TEST_CASE("ranking puts most task-days first, keeps the order of ties, and omits what was not run",
          "[study][unit]") {
  results::StoredStudy study = test::made_study();
  for (const int days : {100, 200, 100}) {
    test::add_alternative(study, "some", {}, [days](std::size_t, int d) { return d < days; });
  }
  test::add_alternative(study, "not run", {}, nullptr);
  CHECK(study::ranked(study, 0, 4) == std::vector<std::size_t>{1, 0, 2});
  CHECK(study::ranked(study, 2, 4) == std::vector<std::size_t>{2});
}
