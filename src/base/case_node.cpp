// SPDX-License-Identifier: MIT
// The getters of CaseNode. Each looks its key up first, so that the key counts as known even if the
// file does not have it.
#include "ovendays/base/case_node.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "case_access.h"
#include "ovendays/base/constants.h"

namespace ovendays::base {
namespace {
std::optional<double> clock_seconds(const toml::node& node) {
  if (const auto time = node.value_exact<toml::time>()) {
    return time->hour * kSecondsPerHour + time->minute * 60.0 + time->second;
  }
  const auto text = node.value_exact<std::string>();
  if (!text) return std::nullopt;
  const std::size_t colon = text->find(':');
  const auto digits = [](const std::string& part) {
    return !part.empty() && part.size() <= 2 &&
           part.find_first_not_of("0123456789") == std::string::npos;
  };
  if (colon == std::string::npos) return std::nullopt;
  const std::string hours = text->substr(0, colon);
  const std::string minutes = text->substr(colon + 1);
  if (!digits(hours) || minutes.size() != 2 || !digits(minutes)) return std::nullopt;
  // 24:00 means the end of the day; later times do not exist.
  const int total = std::stoi(hours) * 60 + std::stoi(minutes);
  if (std::stoi(minutes) > 59 || total > 24 * 60) return std::nullopt;
  return total * 60.0;
}
}  // namespace

bool CaseNode::has(const std::string& key) const {
  return table_ != nullptr && Access::table(*this)->contains(key);
}

std::size_t CaseNode::count(const std::string& key) const {
  if (!has(key)) return 0;
  const toml::array* array = Access::table(*this)->get(key)->as_array();
  return array != nullptr ? array->size() : 1;
}

bool CaseNode::present() const { return table_ != nullptr; }

int CaseNode::line() const { return table_ != nullptr ? anchor_line_ : 0; }

int CaseNode::line_of(const std::string& key) const {
  return has(key) ? state_->line_of(*Access::table(*this)->get(key)) : anchor_line_;
}

std::string CaseNode::file_of(const std::string& key) const {
  const std::string& around = Access::file(*this);
  return has(key) ? file_at(state_->source_of(*Access::table(*this)->get(key)), around) : around;
}

void CaseNode::skip(const std::string& key) const { Access::look_up(*this, key); }

std::string CaseNode::file_text(const std::string& path, std::size_t most_bytes) const {
  return state_->read(path, most_bytes);
}

std::vector<std::string> CaseNode::skip_and_list_keys(const std::string& key) const {
  const toml::node* value = Access::look_up(*this, key);
  const toml::table* table = value == nullptr ? nullptr : value->as_table();
  std::vector<std::string> keys;
  if (table == nullptr) return keys;
  for (const auto& [name, unused] : *table) keys.emplace_back(name.str());
  return keys;
}

std::optional<double> CaseNode::optional_quantity(const std::string& key,
                                                  Dimension dim,
                                                  Range allowed) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return std::nullopt;
  return Access::quantity(*this, key, *value, {dim, allowed});
}

double CaseNode::quantity(const std::string& key,
                          Dimension dim,
                          Range allowed,
                          double fallback) const {
  return optional_quantity(key, dim, allowed).value_or(fallback);
}

double CaseNode::required_quantity(const std::string& key, Dimension dim, Range allowed) const {
  if (Access::look_up(*this, key) == nullptr) {
    fault(key, "missing", kind_and_range(allowed, dim));
  }
  // The fallback is finite and inside the range: reading continues, and later checks compute with
  // it.
  const double fallback = std::isfinite(allowed.least)  ? allowed.least
                          : std::isfinite(allowed.most) ? allowed.most
                                                        : 0.0;
  return quantity(key, dim, allowed, fallback);
}

std::vector<double> CaseNode::quantities(const std::string& key,
                                         Dimension dim,
                                         Range allowed,
                                         std::size_t count) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return {};
  const toml::array* array = value->as_array();
  const std::size_t size = array != nullptr ? array->size() : 1;
  if (count > 0 && size != count) {
    fault(key, std::to_string(size) + " values", std::to_string(count) + " values");
    return {};
  }
  // One bad value invalidates the list, but the others are still checked to report all faults.
  std::vector<double> values;
  values.reserve(size);
  for (std::size_t i = 0; i < size; ++i) {
    const toml::node& item = array != nullptr ? *array->get(i) : *value;
    if (const auto si = Access::quantity(*this, key, item, {dim, allowed})) values.push_back(*si);
  }
  return values.size() == size ? values : std::vector<double>{};
}

std::string CaseNode::text(const std::string& key, const std::string& fallback) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return fallback;
  if (const auto* text = value->as_string()) return text->get();
  Access::wrong_kind(*this, key, *value, "text in quotes");
  return fallback;
}

std::string CaseNode::required_text(const std::string& key) const {
  const toml::node* value = Access::look_up(*this, key);
  std::string found = text(key, "");
  const bool is_text = value != nullptr && value->is_string();
  if (value == nullptr) fault(key, "missing", "text in quotes");
  if (is_text && found.empty()) fault(key, "empty text", "text in quotes");
  return found;
}

bool CaseNode::flag(const std::string& key, bool fallback) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return fallback;
  if (const auto* boolean = value->as_boolean()) return boolean->get();
  Access::wrong_kind(*this, key, *value, "true or false");
  return fallback;
}

long CaseNode::integer(const std::string& key, Range allowed, long fallback) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return fallback;
  const auto* whole = value->as_integer();
  const std::string limits = range_text(allowed, Dimension::kNumber);
  if (whole == nullptr) {
    Access::wrong_kind(
        *this, key, *value, limits.empty() ? "a whole number" : "a whole number, " + limits);
    return fallback;
  }
  const auto number = static_cast<double>(whole->get());
  if (number >= allowed.least && number <= allowed.most) return static_cast<long>(whole->get());
  fault(key, std::to_string(whole->get()), limits);
  return fallback;
}

std::vector<std::string> CaseNode::texts(const std::string& key) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return {};
  if (const auto* text = value->as_string()) return {text->get()};
  const toml::array* array = value->as_array();
  if (array == nullptr) {
    Access::wrong_kind(*this, key, *value, "a list of texts in quotes");
    return {};
  }
  std::vector<std::string> all;
  for (const toml::node& item : *array) {
    if (const auto* text = item.as_string()) {
      all.push_back(text->get());
    } else {
      Access::wrong_kind(*this, key, item, "text in quotes");
    }
  }
  return all;
}

std::size_t CaseNode::choice(const std::string& key,
                             const std::vector<std::string>& words,
                             std::size_t fallback) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return fallback;
  std::string list;
  for (const std::string& word : words) list += (list.empty() ? "" : ", ") + word;
  const auto* text = value->as_string();
  if (text == nullptr) {
    Access::wrong_kind(*this, key, *value, "one of: " + list);
    return fallback;
  }
  const auto found = std::find(words.begin(), words.end(), text->get());
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  fault(key, quoted(text->get()), "one of: " + list);
  return fallback;
}

double CaseNode::clock(const std::string& key, double fallback_s) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return fallback_s;
  if (const auto seconds = clock_seconds(*value)) return *seconds;
  const auto* text = value->as_string();
  fault(key,
        text != nullptr ? quoted(text->get()) : kind_of(*value),
        "a time of day, \"00:00\" to \"24:00\"");
  return fallback_s;
}

std::vector<double> CaseNode::clocks(const std::string& key) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return {};
  const toml::array* array = value->as_array();
  if (array == nullptr) return {clock(key, 0.0)};
  std::vector<double> all;
  for (const toml::node& item : *array) {
    if (const auto seconds = clock_seconds(item)) {
      all.push_back(*seconds);
    } else {
      Access::wrong_kind(*this, key, item, "a time of day, \"00:00\" to \"24:00\"");
    }
  }
  return all;
}

CaseNode CaseNode::table(const std::string& key) const {
  CaseNode node = Access::child(*this, key);
  const toml::node* value = Access::look_up(*this, key);
  if (value != nullptr) Access::resolve(*this, key, *value, node);
  return node;
}

// A broken include is recorded as a fault and left out; the other tables are still read.
std::vector<CaseNode> CaseNode::tables(const std::string& key) const {
  const toml::node* value = Access::look_up(*this, key);
  if (value == nullptr) return {};
  const toml::array* array = value->as_array();
  const std::size_t size = array != nullptr ? array->size() : 1;
  std::vector<CaseNode> all;
  all.reserve(size);
  for (std::size_t i = 0; i < size; ++i) {
    const toml::node& item = array != nullptr ? *array->get(i) : *value;
    CaseNode node = Access::child(*this, key);
    if (Access::resolve(*this, key, item, node)) all.push_back(std::move(node));
  }
  return all;
}

void CaseNode::fault(const std::string& key,
                     const std::string& got,
                     const std::string& allowed) const {
  Access::look_up(*this, key);
  Fault fault;
  fault.got = got;
  fault.allowed = allowed;
  Access::fault_at(*this, key, std::move(fault));
}
}  // namespace ovendays::base
