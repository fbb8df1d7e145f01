// SPDX-License-Identifier: MIT
#include "ovendays/base/case_node.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <utility>

#include "case_state.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/file.h"

namespace ovendays::base {
namespace {
constexpr int kMostIncludes = 8;  // one inside another

const char* kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::string:
      return "a text";
    case toml::node_type::integer:
      return "a whole number";
    case toml::node_type::floating_point:
      return "a number";
    case toml::node_type::boolean:
      return "true or false";
    default:
      return "a date or time";
  }
}

std::string shortened(const std::string& text) {
  constexpr std::size_t kShown = 60;
  return text.size() <= kShown ? text : text.substr(0, kShown) + "...";
}

std::string quoted(const std::string& text) {
  std::string out = "'";
  out += shortened(text);
  out += '\'';
  return out;
}

bool is_zero(double value) { return value == 0.0; }

// "0 to 90 deg", "10 mm to 3 m", "at least 0.1 m", "" where both ends are infinite.
std::string range_text(Range range, Dimension dim) {
  const bool low = std::isfinite(range.least);
  const bool high = std::isfinite(range.most);
  std::string least = low ? quantity_text(range.least, dim) : "";
  const std::string most = high ? quantity_text(range.most, dim) : "";
  if (low && high) {
    const std::size_t unit_at = most.find(' ');
    const std::string unit = unit_at == std::string::npos ? "" : most.substr(unit_at);
    const std::size_t space = least.find(' ');
    const bool bare_zero = is_zero(range.least) && dim != Dimension::kTemperature;
    if (space != std::string::npos && (bare_zero || least.substr(space) == unit)) {
      least.resize(space);
    }
    return least + " to " + most;
  }
  if (low) return "at least " + least;
  return high ? "at most " + most : "";
}

// "a length, 10 mm to 3 m": what to say where the kind of value is wrong.
std::string kind_and_range(Range range, Dimension dim) {
  const std::string kind = dimension_phrase(dim);
  const std::string limits = range_text(range, dim);
  return limits.empty() ? kind : kind + ", " + limits;
}

int line_at(const toml::node& node) { return static_cast<int>(node.source().begin.line); }

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
  const int total = std::stoi(hours) * 60 + std::stoi(minutes);
  if (std::stoi(minutes) > 59 || total > 24 * 60) return std::nullopt;
  return total * 60.0;
}
}  // namespace

struct CaseNode::Access {
  static const toml::table* table(const CaseNode& node) {
    return static_cast<const toml::table*>(node.table_);
  }
  /// Marks the key as known and finds its value; null where absent.
  static const toml::node* ask(const CaseNode& node, const std::string& key) {
    if (node.table_ == nullptr) return nullptr;
    node.state_->asked[node.table_].keys.insert(key);
    return table(node)->get(key);
  }
  static const std::string& file(const CaseNode& node) {
    return node.state_->documents[static_cast<std::size_t>(node.document_)]->file;
  }
  static std::string path_of(const CaseNode& node, const std::string& key) {
    if (node.path_.empty() || key.empty()) return node.path_ + key;
    return node.path_ + "." + key;
  }
  static void fault_at(const CaseNode& node, const std::string& key, int line, Fault words) {
    words.file = file(node);
    words.line = line;
    words.field = path_of(node, key);
    node.state_->record(node.document_, std::move(words));
  }
  static void wrong_kind(const CaseNode& node,
                         const std::string& key,
                         const toml::node& value,
                         const std::string& wanted) {
    Fault words;
    words.got = kind_of(value);
    words.allowed = wanted;
    fault_at(node, key, line_at(value), std::move(words));
  }

  /// A value as a quantity inside the range, or nullopt with the fault recorded.
  static std::optional<double> quantity(const CaseNode& node,
                                        const std::string& key,
                                        const toml::node& value,
                                        const std::pair<Dimension, Range>& wanted) {
    const auto& [dim, allowed] = wanted;
    std::optional<double> si;
    std::string got;
    if (value.is_number()) {
      const double number = value.is_integer() ? static_cast<double>(value.as_integer()->get())
                                               : value.as_floating_point()->get();
      if (std::isfinite(number)) si = dim == Dimension::kAngle ? number * kRadPerDeg : number;
      got = dim == Dimension::kTemperature ? number_text(number, "K")
                                           : number_text(number, si_unit_name(dim));
    } else if (const auto* text = value.as_string()) {
      si = parse_quantity(text->get(), dim);
      got = si ? shortened(text->get()) : quantity_complaint(text->get(), dim);
    } else {
      wrong_kind(node, key, value, kind_and_range(allowed, dim));
      return std::nullopt;
    }
    // Ends are inclusive for what was written in degrees or Fahrenheit too.
    const double slack = si ? 1e-12 * std::abs(*si) : 0.0;
    if (si && *si >= allowed.least - slack && *si <= allowed.most + slack) return si;
    Fault words;
    words.got = got;
    words.allowed = range_text(allowed, dim);
    fault_at(node, key, line_at(value), std::move(words));
    return std::nullopt;
  }

  static std::string number_text(double number, const char* unit) {
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%.9g", number);
    return *unit == '\0' ? text.data() : std::string(text.data()) + " " + unit;
  }

  static CaseNode child(const CaseNode& parent, const std::string& key) {
    CaseNode node;
    node.state_ = parent.state_;
    node.path_ = path_of(parent, key);
    node.document_ = parent.document_;
    node.anchor_line_ = parent.anchor_line_;
    return node;
  }
  static void attach(CaseNode& node, const toml::table& table, int document) {
    node.table_ = &table;
    node.document_ = document;
    node.anchor_line_ = line_at(table);
    auto& asked = node.state_->asked[&table];
    asked.path = node.path_;
    asked.document = document;
  }

  /// The document that a text names, or nullopt with the fault recorded.
  static std::optional<int> included(const CaseNode& node,
                                     const std::string& key,
                                     const toml::value<std::string>& name) {
    State& state = *node.state_;
    if (const auto found = state.includes.find(&name); found != state.includes.end()) {
      return found->second < 0 ? std::nullopt : std::optional<int>(found->second);
    }
    state.includes[&name] = -1;
    const std::filesystem::path base = std::filesystem::path(file(node)).parent_path();
    const std::string path = (base / name.get()).lexically_normal().string();
    Fault words;
    if (!chain_allows(state, node.document_, path, words.got)) {
      fault_at(node, key, line_at(name), std::move(words));
      return std::nullopt;
    }
    try {
      const int document = state.add_document(path, read_file(path), node.document_);
      state.includes[&name] = document;
      return document;
    } catch (const InputError& error) {
      for (Fault fault : error.faults()) {
        if (fault.line > 0) {  // a fault inside the included file
          state.record(node.document_, std::move(fault));
          continue;
        }
        words.got = fault.message();
        fault_at(node, key, line_at(name), words);
      }
      return std::nullopt;
    }
  }

  static bool chain_allows(const State& state,
                           int document,
                           const std::string& path,
                           std::string& why) {
    int depth = 0;
    for (int i = document; i >= 0; i = state.documents[static_cast<std::size_t>(i)]->parent) {
      const std::string& open = state.documents[static_cast<std::size_t>(i)]->file;
      if (std::filesystem::path(open).lexically_normal().string() == path) {
        why = "the file " + path + " includes itself";
        return false;
      }
      ++depth;
    }
    if (depth > kMostIncludes) why = "more than 8 files included one inside another";
    return depth <= kMostIncludes;
  }

  /// Attaches a table or an include to `node`; false with the fault recorded otherwise.
  static bool resolve(const CaseNode& parent,
                      const std::string& key,
                      const toml::node& value,
                      CaseNode& node) {
    if (const auto* table = value.as_table()) {
      attach(node, *table, parent.document_);
      return true;
    }
    if (const auto* name = value.as_string()) {
      const auto document = included(parent, key, *name);
      if (!document) return false;
      attach(node, parent.state_->documents[static_cast<std::size_t>(*document)]->table, *document);
      node.anchor_line_ = 1;
      return true;
    }
    wrong_kind(parent, key, value, "a table, or the name of a TOML file that holds it");
    return false;
  }
};

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
  return has(key) ? line_at(*Access::table(*this)->get(key)) : anchor_line_;
}

std::string CaseNode::file_of(const std::string& /*key*/) const { return Access::file(*this); }

std::optional<double> CaseNode::optional_quantity(const std::string& key,
                                                  Dimension dim,
                                                  Range allowed) const {
  const toml::node* value = Access::ask(*this, key);
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
  if (Access::ask(*this, key) == nullptr) {
    fault(key, "missing", kind_and_range(allowed, dim));
  }
  // A value inside the range keeps the arithmetic of a faulty case finite.
  const double fallback = std::isfinite(allowed.least)  ? allowed.least
                          : std::isfinite(allowed.most) ? allowed.most
                                                        : 0.0;
  return quantity(key, dim, allowed, fallback);
}

std::vector<double> CaseNode::quantities(const std::string& key,
                                         Dimension dim,
                                         Range allowed,
                                         std::size_t count) const {
  const toml::node* value = Access::ask(*this, key);
  if (value == nullptr) return {};
  const toml::array* array = value->as_array();
  const std::size_t size = array != nullptr ? array->size() : 1;
  if (count > 0 && size != count) {
    fault(key, std::to_string(size) + " values", std::to_string(count) + " values");
    return {};
  }
  std::vector<double> values;
  values.reserve(size);
  for (std::size_t i = 0; i < size; ++i) {
    const toml::node& item = array != nullptr ? *array->get(i) : *value;
    if (const auto si = Access::quantity(*this, key, item, {dim, allowed})) values.push_back(*si);
  }
  return values.size() == size ? values : std::vector<double>{};
}

std::string CaseNode::text(const std::string& key, const std::string& fallback) const {
  const toml::node* value = Access::ask(*this, key);
  if (value == nullptr) return fallback;
  if (const auto* text = value->as_string()) return text->get();
  Access::wrong_kind(*this, key, *value, "a text in quotes");
  return fallback;
}

std::string CaseNode::required_text(const std::string& key) const {
  const toml::node* value = Access::ask(*this, key);
  std::string found = text(key, "");
  const bool is_text = value != nullptr && value->is_string();
  if (value == nullptr) fault(key, "missing", "a text in quotes");
  if (is_text && found.empty()) fault(key, "an empty text", "a text in quotes");
  return found;
}

bool CaseNode::flag(const std::string& key, bool fallback) const {
  const toml::node* value = Access::ask(*this, key);
  if (value == nullptr) return fallback;
  if (const auto* boolean = value->as_boolean()) return boolean->get();
  Access::wrong_kind(*this, key, *value, "true or false");
  return fallback;
}

long CaseNode::integer(const std::string& key, Range allowed, long fallback) const {
  const toml::node* value = Access::ask(*this, key);
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
  const toml::node* value = Access::ask(*this, key);
  if (value == nullptr) return {};
  if (const auto* text = value->as_string()) return {text->get()};
  const toml::array* array = value->as_array();
  if (array == nullptr) {
    Access::wrong_kind(*this, key, *value, "a list of texts");
    return {};
  }
  std::vector<std::string> all;
  for (const toml::node& item : *array) {
    if (const auto* text = item.as_string()) {
      all.push_back(text->get());
    } else {
      Access::wrong_kind(*this, key, item, "a text in quotes");
    }
  }
  return all;
}

std::size_t CaseNode::choice(const std::string& key,
                             const std::vector<std::string>& words,
                             std::size_t fallback) const {
  const toml::node* value = Access::ask(*this, key);
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
  const toml::node* value = Access::ask(*this, key);
  if (value == nullptr) return fallback_s;
  if (const auto seconds = clock_seconds(*value)) return *seconds;
  const auto* text = value->as_string();
  fault(key,
        text != nullptr ? quoted(text->get()) : kind_of(*value),
        "a time of day, \"00:00\" to \"24:00\"");
  return fallback_s;
}

std::vector<double> CaseNode::clocks(const std::string& key) const {
  const toml::node* value = Access::ask(*this, key);
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
  const toml::node* value = Access::ask(*this, key);
  if (value != nullptr) Access::resolve(*this, key, *value, node);
  return node;
}

std::vector<CaseNode> CaseNode::tables(const std::string& key) const {
  const toml::node* value = Access::ask(*this, key);
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
  Access::ask(*this, key);
  Fault words;
  words.got = got;
  words.allowed = allowed;
  Access::fault_at(*this, key, key.empty() ? anchor_line_ : line_of(key), std::move(words));
}
}  // namespace ovendays::base
