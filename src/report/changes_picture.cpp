// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "ovendays/study/change_order.h"
#include "ovendays/study/paired_days.h"
#include "study_pictures.h"
#include "study_words.h"
#include "words.h"

namespace ovendays::report {
namespace {
using results::StoredStudy;
using study::PairedDays;

constexpr double kChangesWidth = 720, kChangesMargin = 20, kChangeNames = 200, kChangeRow = 30,
                 kChangeBar = 15, kNumbers = 150;
constexpr std::size_t kChangeNameColumns = 32;

std::string price_text(const StoredStudy& study, double price) {
  if (price <= 0.0) return "free";
  return fixed(price, price == std::round(price) ? 0 : 2) +
         (study.money.empty() ? "" : " " + study.money);
}

std::string plus(int days) { return (days > 0 ? "+" : "") + std::to_string(days); }

// Gained days extend to the right of a zero line, lost days to the left; all rows share one scale.
struct Bars {
  double zero_x;
  double per_day;
};

Bars bars_for(const std::vector<PairedDays>& all) {
  int most_gained = 0;
  int most_lost = 0;
  for (const PairedDays& each : all) {
    most_gained = std::max(most_gained, each.gained[12]);
    most_lost = std::max(most_lost, each.lost[12]);
  }
  const double room = kChangesWidth - 2 * kChangesMargin - kChangeNames - kNumbers;
  const double per_day = room / std::max(1, most_gained + most_lost);
  return {kChangesMargin + kChangeNames + most_lost * per_day, per_day};
}

void draw_alone(Drawing& d, const StoredStudy& study, double& y) {
  std::vector<PairedDays> paired;
  std::vector<std::size_t> places = study::ranked(
      study, study.combinations(), std::min(study.planned(), study.alternatives.size()));
  paired.reserve(places.size());
  for (const std::size_t place : places) {
    paired.push_back(study::counted_pairs(study, study.alternatives[place]));
  }
  const Bars bars = bars_for(paired);
  d.text({kChangesMargin, y, "start", "strong"}, "Each alone: task-days a year gained and lost");
  const double top = y + 8;
  y += 14;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const results::StudyAlternative& each = study.alternatives[places[i]];
    const double price = study.changes[static_cast<std::size_t>(each.changes.front())].price;
    const int gained = paired[i].gained[12];
    const int lost = paired[i].lost[12];
    const auto range = study::net_range(study, study.alternatives.front(), each);
    d.open(each.name + ": " + std::to_string(gained) + " gained, " + std::to_string(lost) +
           " lost" + (range ? ", net likely " + range_text(range) : ""));
    d.text({kChangesMargin, y + 12, "start", ""}, shortened(each.name, kChangeNameColumns));
    if (gained > 0) d.box({bars.zero_x, y, gained * bars.per_day, kChangeBar}, "done", 2);
    if (lost > 0) {
      d.box({bars.zero_x - lost * bars.per_day, y, lost * bars.per_day, kChangeBar}, "lost", 2);
    }
    d.text({kChangesWidth - kChangesMargin - 80, y + 12, "end", "strong"},
           plus(paired[i].net()) + (range && !range->clear() ? " ?" : ""));
    d.text({kChangesWidth - kChangesMargin, y + 12, "end", "soft"}, price_text(study, price));
    d.close();
    y += kChangeRow;
  }
  d.line(bars.zero_x, top, bars.zero_x, y - kChangeRow + kChangeBar + 6, "axis");
}

void draw_order(Drawing& d, const StoredStudy& study, double& y) {
  const study::BestOrder order = study::best_order(study);
  if (order.changes.empty()) return;
  const int begin = study::counted_days(study, study.alternatives.front())[12];
  const int end = order.days.back();
  const double room = kChangesWidth - 2 * kChangesMargin - kChangeNames - kNumbers;
  const double per_day = room / std::max(1, end - begin);
  d.text(
      {kChangesMargin, y, "start", "strong"},
      "Together, in the best order: from " + grouped(begin) + " to " + grouped(end) + " task-days");
  y += 14;
  double spent = 0.0;
  int before = begin;
  for (std::size_t i = 0; i < order.changes.size(); ++i) {
    const results::StudyChange& change = study.changes[static_cast<std::size_t>(order.changes[i])];
    spent += change.price;
    const double x = kChangesMargin + kChangeNames + (before - begin) * per_day;
    d.open(change.name + ": " + plus(order.gain[i]) + ", " + price_text(study, spent) + " in all");
    d.text({kChangesMargin, y + 12, "start", ""},
           shortened(std::to_string(i + 1) + ". " + change.name, kChangeNameColumns));
    d.box({kChangesMargin + kChangeNames, y + kChangeBar / 2 - 1, room, 2}, "band");
    d.box({x, y, std::max(1.5, order.gain[i] * per_day), kChangeBar}, "done", 2);
    d.text({kChangesWidth - kChangesMargin - 80, y + 12, "end", "strong"}, plus(order.gain[i]));
    d.text({kChangesWidth - kChangesMargin, y + 12, "end", "soft"}, price_text(study, spent));
    d.close();
    before = order.days[i];
    y += kChangeRow;
  }
}
}  // namespace

Drawing changes_picture(const StoredStudy& study) {
  Drawing d(kChangesWidth, "What each change brings");
  double y = 18;
  if (!study.alternatives.front().done()) {
    d.text({kChangesMargin, y, "start", ""},
           std::string("The first alternative, with which changes are compared, ") +
               (study.alternatives.front().failed() ? "could not be run." : "has not been run."));
    d.set_height(2 * y);
    return d;
  }
  d.text({kChangesWidth - kChangesMargin - 80, y, "end", "soft"}, "net");
  d.text({kChangesWidth - kChangesMargin, y, "end", "soft"}, "price");
  draw_alone(d, study, y);
  y += 18;
  d.text({kChangesWidth - kChangesMargin - 80, y, "end", "soft"}, "more");
  d.text({kChangesWidth - kChangesMargin, y, "end", "soft"}, "spent");
  draw_order(d, study, y);
  d.set_height(y + 4);
  return d;
}
}  // namespace ovendays::report
