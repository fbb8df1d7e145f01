// SPDX-License-Identifier: MIT
#include "answer.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"
#include "ovendays/report/report.h"
#include "words.h"

namespace ovendays::report {
namespace {

constexpr int kYearMonths = 12;
constexpr std::size_t kMostNames = 3;

// Months beyond December continue in January, so that a run may cross the end of the year.
int ring(int month) { return (month - 1) % kYearMonths + 1; }

int cooked_in(const season::TaskCounts& counts, int month) {
  return counts.outcomes[static_cast<std::size_t>(ring(month) - 1)][0];
}

// A month is good if the task gets done on at least half of its days.
bool good(const season::TaskCounts& counts, int month) {
  return 2 * cooked_in(counts, month) >= base::days_in_month(2001, ring(month));
}

// Days in seven on which the task gets done, over a run of months.
int in_seven(const season::TaskCounts& counts, int first_month, int months) {
  int cooked = 0;
  int days = 0;
  for (int month = first_month; month < first_month + months; ++month) {
    cooked += cooked_in(counts, month);
    days += base::days_in_month(2001, ring(month));
  }
  return static_cast<int>(std::lround(7.0 * cooked / days));
}

// Shares are given in days per week, because people plan by the week.
std::string often(int least, int most) {
  if (least >= 7) return "nearly every day";
  if (least == most) return "on " + std::to_string(least) + " days in 7";
  return "on " + std::to_string(least) + " to " + std::to_string(most) + " days in 7";
}

std::string when(const Bet& bet) {
  if (bet.kind == Bet::Kind::kAllYear) return "all year";
  const std::string first = long_month_name(bet.first_month);
  if (bet.months == 1) return "in " + first;
  const std::string last = long_month_name(ring(bet.first_month + bet.months - 1));
  return bet.months == 2 ? "in " + first + " and " + last : "from " + first + " to " + last;
}

// Names the season in the middle of a run of months; empty in the tropics and for long runs.
std::string season_word(const Bet& bet, double latitude_rad) {
  constexpr double kTropic_rad = 23.44 * base::kRadPerDeg;
  if (bet.kind != Bet::Kind::kMonths || bet.months > 7 || std::abs(latitude_rad) < kTropic_rad)
    return "";
  const double middle = bet.first_month + 0.5 * (bet.months - 1) + (latitude_rad < 0.0 ? 6.0 : 0.0);
  constexpr std::array<const char*, 4> kWords = {"winter", "spring", "summer", "autumn"};
  const double turns = std::fmod(middle + 0.5, 12.0) / 3.0;  // winter begins in December
  return kWords[static_cast<std::size_t>(turns) % 4];
}

// Guesses the grammatical number: "eggs" and "dry beans" are plural, "hummus" and "stew with
// onions" are not.
bool plural(const std::string& name) {
  std::string head = name;
  for (const char* part : {",", " with ", " in ", " of ", " on "})
    head = head.substr(0, head.find(part));
  return head.ends_with("s") && !head.ends_with("ss") && !head.ends_with("us") &&
         !head.ends_with("is");
}

// Tasks with the same kind of bet over the same months.
struct Group {
  Bet bet;
  int least_in_seven = 7, most_in_seven = 0;
  int least_days = season::kDays, most_days = 0;
  int days = 0;  // of all its tasks
  std::vector<std::string> names;

  [[nodiscard]] double mean_days() const { return days / static_cast<double>(names.size()); }
  void add(const Bet& more, const std::string& name) {
    bet = more;
    least_in_seven = std::min(least_in_seven, more.in_seven);
    most_in_seven = std::max(most_in_seven, more.in_seven);
    least_days = std::min(least_days, more.days);
    most_days = std::max(most_days, more.days);
    days += more.days;
    names.push_back(name);
  }
};

bool alike(const Bet& a, const Bet& b) {
  return a.kind == b.kind &&
         (a.kind != Bet::Kind::kMonths || (a.first_month == b.first_month && a.months == b.months));
}

// Lists at most kMostNames names; the rest become "3 more".
std::string listed(const std::vector<std::string>& names) {
  std::vector<std::string> shown = names;
  if (shown.size() > kMostNames) {
    shown.resize(kMostNames - 1);
    shown.push_back(std::to_string(names.size() - kMostNames + 1) + " more");
  }
  std::string text;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    if (i > 0) text += i + 1 == shown.size() ? " and " : ", ";
    text += shown[i];
  }
  return text;
}

std::string clause(const Group& group, double latitude_rad, bool lead) {
  const bool many = group.names.size() > 1 || plural(group.names[0]);
  std::string text = listed(group.names) + (many ? " are " : " is ");
  switch (group.bet.kind) {
    case Bet::Kind::kNever:
      return text + "out of reach on every day";
    case Bet::Kind::kLuck:
      text += "a matter of luck, " + std::to_string(group.least_days);
      if (group.most_days != group.least_days) text += " to " + std::to_string(group.most_days);
      return text + (group.most_days == 1 ? " day" : " days") + " of the year";
    case Bet::Kind::kAllYear:
    case Bet::Kind::kMonths:
      break;
  }
  // Only later clauses may name a season ("a summer thing").
  const std::string share = often(group.least_in_seven, group.most_in_seven);
  const std::string word = lead ? "" : season_word(group.bet, latitude_rad);
  if (word.empty()) return text + "a good bet " + share + " " + when(group.bet);
  return text + (word == "autumn" ? "an " : "a ") + word + " thing, " + share + " " +
         when(group.bet);
}

// Chooses at most three groups: the easiest, the largest in between, and the hardest.
std::vector<Group> chosen(std::vector<Group> groups) {
  std::stable_sort(groups.begin(), groups.end(), [](const Group& a, const Group& b) {
    return a.mean_days() > b.mean_days();
  });
  if (groups.size() <= 3) return groups;
  const auto largest =
      std::max_element(groups.begin() + 1, groups.end() - 1, [](const Group& a, const Group& b) {
        return a.names.size() < b.names.size();
      });
  return {groups.front(), *largest, groups.back()};
}

// "153 more days of bread, 94 of rice" of the tasks whose notches are limited in one way.
std::string gains_text(const results::StoredSeason& season,
                       const std::vector<season::TaskCounts>& counts,
                       const std::string& limit) {
  constexpr int kFewDays = 5;
  constexpr auto kTilt = static_cast<std::size_t>(season::Cause::kTilt);
  struct Gain {
    int days;
    std::size_t task;
  };
  std::vector<Gain> gains;
  for (std::size_t task = 0; task < counts.size(); ++task) {
    const int days = counts[task].causes[kYearMonths][kTilt];
    if (days >= kFewDays && season.tasks[task].notch_limit == limit) gains.push_back({days, task});
  }
  std::stable_sort(
      gains.begin(), gains.end(), [](const Gain& a, const Gain& b) { return a.days > b.days; });
  std::vector<std::string> texts;
  texts.reserve(gains.size());
  for (const Gain& gain : gains) {
    texts.push_back(std::to_string(gain.days) + (texts.empty() ? " days of " : " of ") +
                    short_name(season.result.task_names, gain.task));
  }
  return texts.empty() ? "" : listed(texts);
}

// Says what the notches would bring that pots cannot use, where it is more than a few days. The
// counts are gross: what brings a day back may lose another.
std::string notch_sentences(const results::StoredSeason& season,
                            const std::vector<season::TaskCounts>& counts) {
  std::string text;
  for (const auto& [help, change] :
       {std::pair{task::NotchHelp::kRack,
                  "A rack that keeps the pot level, where it has room below the glass,"},
        {task::NotchHelp::kRoom,
         "More room for the pot on its level rack (a lower or narrower pot, or a deeper box)"},
        {task::NotchHelp::kSettings, "Finer settings of the level rack"}}) {
    const std::string gains = gains_text(season, counts, results::notch_limit_key(help));
    if (!gains.empty()) text += std::string(" ") + change + " would gain up to " + gains + ".";
  }
  return text;
}
}  // namespace

Bet bet_of(const season::TaskCounts& counts) {
  Bet bet;
  bet.days = counts.outcomes[12][0];
  // Among runs of the same length, take the one with more days.
  int most = -1;
  for (int first = 1; first <= kYearMonths; ++first) {
    int months = 0;
    int cooked = 0;
    while (months < kYearMonths && good(counts, first + months))
      cooked += cooked_in(counts, first + months++);
    if (months < bet.months || (months == bet.months && cooked <= most)) continue;
    bet.first_month = first;
    bet.months = months;
    most = cooked;
  }
  if (bet.months == kYearMonths) {
    bet.kind = Bet::Kind::kAllYear;
    bet.first_month = 1;
  } else if (bet.months > 0) {
    bet.kind = Bet::Kind::kMonths;
  } else {
    bet.kind = bet.days > 0 ? Bet::Kind::kLuck : Bet::Kind::kNever;
  }
  if (bet.months > 0) bet.in_seven = in_seven(counts, bet.first_month, bet.months);
  return bet;
}

std::string bet_text(const Bet& bet) {
  if (bet.kind == Bet::Kind::kNever) return "out of reach on every day";
  if (bet.kind == Bet::Kind::kLuck)
    return "a matter of luck, " + days_text(bet.days) + " of the year";
  return "a good bet " + often(bet.in_seven, bet.in_seven) + " " + when(bet);
}

std::string short_name(const std::vector<std::string>& names, std::size_t task) {
  const auto head = [](const std::string& name) { return name.substr(0, name.find(',')); };
  const std::string mine = head(names[task]);
  const auto same = std::count_if(
      names.begin(), names.end(), [&](const std::string& name) { return head(name) == mine; });
  return same == 1 && !mine.empty() ? mine : names[task];
}

std::string answer(const results::StoredSeason& season,
                   const std::vector<season::TaskCounts>& counts) {
  std::vector<Group> groups;
  for (std::size_t task = 0; task < counts.size(); ++task) {
    const Bet bet = bet_of(counts[task]);
    auto group = std::find_if(
        groups.begin(), groups.end(), [&](const Group& g) { return alike(g.bet, bet); });
    if (group == groups.end()) group = groups.emplace(groups.end());
    group->add(bet, short_name(season.result.task_names, task));
  }
  std::string text;
  for (const Group& group : chosen(std::move(groups))) {
    text += text.empty() ? "At this spot " : "; ";
    text += clause(group, season.result.place.latitude_rad, !text.ends_with("; "));
  }
  return text + "." + notch_sentences(season, counts);
}

std::string season_answer(const results::StoredSeason& season) {
  std::vector<season::TaskCounts> counts;
  for (std::size_t task = 0; task < season.tasks.size(); ++task)
    counts.push_back(season::count_task(season.result, task));
  return answer(season, counts);
}
}  // namespace ovendays::report
