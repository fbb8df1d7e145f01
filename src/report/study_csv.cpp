// SPDX-License-Identifier: MIT
#include "ovendays/report/study_report.h"
#include "ovendays/study/draw_gains.h"
#include "ovendays/study/paired_days.h"
#include "words.h"

namespace ovendays::report {
namespace {
std::string month_columns(const std::string& before) {
  std::string text;
  for (int month = 1; month <= 12; ++month) {
    text += "," + before + (month < 10 ? "0" : "") + std::to_string(month);
  }
  return text;
}

// The columns that identify an alternative; they are the same in all its rows.
std::string identity(const results::StoredStudy& study, const results::StudyAlternative& each) {
  std::string text = csv_cell(each.name);
  for (std::size_t axis = 0; axis < results::kAxes; ++axis) {
    text += "," + csv_cell(study.axes[axis][static_cast<std::size_t>(each.at[axis])]);
  }
  std::string changes;
  double price = 0.0;
  for (const int place : each.changes) {
    const results::StudyChange& change = study.changes[static_cast<std::size_t>(place)];
    changes += (changes.empty() ? "" : " + ") + change.name;
    price += change.price;
  }
  return text + "," + csv_cell(changes) + "," + fixed(price, 2);
}
}  // namespace

std::string study_csv(const results::StoredStudy& study) {
  std::string text =
      "alternative,site,spot,oven,routine,changes,price,task,counts,days,gained,lost,net_low,net_"
      "high" +
      month_columns("days_") + month_columns("net_") + "\n";
  const results::StudyAlternative& first = study.alternatives.front();
  for (const results::StudyAlternative& each : study.alternatives) {
    if (!each.done()) continue;
    const std::string start = identity(study, each);
    for (std::size_t t = 0; t < study.tasks.size(); ++t) {
      const study::Months days = study::cooked_days(each, t);
      text += start + "," + csv_cell(study.tasks[t].name) +
              (study.tasks[t].counts ? ",yes," : ",no,") + std::to_string(days[12]);
      const bool paired = first.done();
      const study::PairedDays pairs =
          paired ? study::paired_days(first, each, t) : study::PairedDays{};
      const auto add = [&text, paired](int value) {
        text += "," + (paired ? std::to_string(value) : "");
      };
      add(pairs.gained[12]);
      add(pairs.lost[12]);
      const auto range = study::net_range(study, first, each, t);
      text += range ? "," + fixed(range->low_days, 0) + "," + fixed(range->high_days, 0) : ",,";
      for (std::size_t month = 0; month < 12; ++month) text += "," + std::to_string(days[month]);
      for (std::size_t month = 0; month < 12; ++month) add(pairs.net(month));
      text += "\n";
    }
  }
  return text;
}
}  // namespace ovendays::report
