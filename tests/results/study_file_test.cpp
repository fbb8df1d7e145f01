// SPDX-License-Identifier: MIT
// A study's file gives back what was put in, and says so when it cannot.
#include "ovendays/results/study_file.h"

#include "catch.h"
#include "made_study.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "scratch_folder.h"

using namespace ovendays;
using results::StoredStudy;
using test::contains;

namespace {
StoredStudy full_study() {
  StoredStudy study = test::made_study();
  study.tasks[1].counts = false;
  study.causes = false;
  study.draws = 3;
  study.seed = 18446744073709551615U;
  study.axes = {{{"home", "coast"}, {"garden"}, {"box", "wedge"}, {"all day"}}};
  study.oven_prices = {40.0, 55.5};
  study.changes = {{"pane", 22.0, {}}, {"foil", 3.5, {2}}, {"mirror", 30.0, {1}}};
  const auto cooks = [](std::size_t t, int d) { return (d + static_cast<int>(t)) % 3 == 0; };
  test::add_alternative(study, "home, box", {}, cooks);
  test::add_alternative(study, "coast, wedge", {}, nullptr);
  test::add_alternative(study, "pane", {0}, cooks);
  test::add_alternative(study, "foil", {1}, nullptr);
  test::add_alternative(study, "mirror", {2}, cooks);
  test::add_alternative(study, "pane + foil", {0, 1}, cooks);
  study.alternatives[1].at = {1, 0, 1, 0};
  study.alternatives[3].failure = "the integration failed";
  for (results::StudyAlternative& each : study.alternatives) {
    if (each.done()) each.draw_gains = {0, -122, 122, 7, static_cast<std::int16_t>(each.at[0]), -1};
  }
  return study;
}

std::string study_refusal(const std::string& file) {
  try {
    (void)results::read_study_file(file);
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}
}  // namespace

TEST_CASE("a study comes back as it was written", "[results][identity]") {
  const test::Scratch folder;
  const StoredStudy study = full_study();
  results::write_study(folder.file("s.h5"), study);
  const StoredStudy back = results::read_study_file(folder.file("s.h5"));
  CHECK(back.name == study.name);
  CHECK(back.study_text == study.study_text);
  CHECK(back.money == study.money);
  CHECK(back.tariff_per_J == study.tariff_per_J);
  CHECK(back.oven_prices == study.oven_prices);
  CHECK(back.causes == study.causes);
  CHECK(back.draws == study.draws);
  CHECK(back.seed == study.seed);
  CHECK(back.axes == study.axes);
  REQUIRE(back.tasks.size() == 2);
  CHECK(back.tasks[1].counts == study.tasks[1].counts);
  CHECK(back.tasks[0].kitchen_source == study.tasks[0].kitchen_source);
  REQUIRE(back.changes.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(back.changes[i].price == study.changes[i].price);
    CHECK(back.changes[i].excludes == study.changes[i].excludes);
  }
  REQUIRE(back.alternatives.size() == study.alternatives.size());
  for (std::size_t i = 0; i < study.alternatives.size(); ++i) {
    CHECK(back.alternatives[i].name == study.alternatives[i].name);
    CHECK(back.alternatives[i].sha256 == study.alternatives[i].sha256);
    CHECK(back.alternatives[i].at == study.alternatives[i].at);
    CHECK(back.alternatives[i].changes == study.alternatives[i].changes);
    CHECK(back.alternatives[i].days == study.alternatives[i].days);
    CHECK(back.alternatives[i].draw_gains == study.alternatives[i].draw_gains);
    CHECK(back.alternatives[i].failure == study.alternatives[i].failure);
  }
  CHECK(back.combinations() == 2);
  CHECK(back.planned() == 5);
  results::write_study(folder.file("again.h5"), back);
  CHECK(folder.read("again.h5") == folder.read("s.h5"));
}

TEST_CASE("a file that is no study, damaged or cut short is refused", "[results][unit]") {
  const test::Scratch folder;
  results::write_study(folder.file("s.h5"), full_study());
  const std::string bytes = folder.read("s.h5");
  CHECK(contains(study_refusal(folder.file("none.h5")), "cannot be read"));
  folder.write("text.h5", "not a study");
  CHECK(
      contains(study_refusal(folder.file("text.h5")), "does not end as a study of ovendays does"));
  folder.write("cut.h5", bytes.substr(0, bytes.size() / 2));
  CHECK(contains(study_refusal(folder.file("cut.h5")), "cut short"));
  for (std::size_t at = 0; at < bytes.size(); at += bytes.size() / 17) {
    std::string damaged = bytes;
    damaged[at] = static_cast<char>(damaged[at] ^ 0x20);
    folder.write("damaged.h5", damaged);
    CHECK_FALSE(study_refusal(folder.file("damaged.h5")).empty());
  }
}
