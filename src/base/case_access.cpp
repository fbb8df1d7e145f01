// SPDX-License-Identifier: MIT
// Reads values from a TOML table. A fault is recorded with the line of the value, and the caller
// continues with its fallback, so that one run reports every fault of a file.
#include "case_access.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <filesystem>

#include "ovendays/base/constants.h"

namespace ovendays::base {
namespace {
constexpr int kMostIncludes = 8;  // nesting depth
constexpr std::size_t kMostDocuments = 256;

// The size limit of one file holds for all the files of a case together. Otherwise a list that
// includes the same large file a hundred thousand times would exhaust the memory.
template <class State>
std::string read_included(const State& state, const std::string& path) {
  const auto& documents = state.documents;
  const auto refuse = [&path](const std::string& why) {
    return InputError(Fault{path, 0, "", "cannot be read: " + why, ""});
  };
  if (documents.size() >= kMostDocuments) {
    throw refuse("a case may have " + std::to_string(kMostDocuments) + " files in all");
  }
  std::size_t left = kMostCaseBytes;
  for (const auto& document : documents) left -= std::min(left, document->text.size());
  std::string text = state.read(path, kMostCaseBytes);
  if (text.size() <= left) return text;
  throw refuse("with it, the files of this case are larger than " + std::to_string(kMostCaseBytes) +
               " bytes");
}

std::string number_with_unit(double number, const char* unit) {
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%.9g", number);
  return *unit == '\0' ? text.data() : std::string(text.data()) + " " + unit;
}
}  // namespace

const char* kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::string:
      return "text";
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

std::string range_text(Range range, Dimension dim) {
  const bool low = std::isfinite(range.least);
  const bool high = std::isfinite(range.most);
  std::string least = low ? quantity_text(range.least, dim) : "";
  const std::string most = high ? quantity_text(range.most, dim) : "";
  if (low && high) {
    const std::size_t unit_at = most.find(' ');
    const std::string unit = unit_at == std::string::npos ? "" : most.substr(unit_at);
    const std::size_t space = least.find(' ');
    const bool bare_zero = range.least == 0.0 && dim != Dimension::kTemperature;
    if (space != std::string::npos && (bare_zero || least.substr(space) == unit)) {
      least.resize(space);
    }
    return least + " to " + most;
  }
  if (low) return "at least " + least;
  return high ? "at most " + most : "";
}

std::string kind_and_range(Range range, Dimension dim) {
  const std::string kind = dimension_phrase(dim);
  const std::string limits = range_text(range, dim);
  return limits.empty() ? kind : kind + ", " + limits;
}

const toml::table* CaseNode::Access::table(const CaseNode& node) {
  return static_cast<const toml::table*>(node.table_);
}
// Absent keys are registered too, because finish() lists the keys that a table may have.
const toml::node* CaseNode::Access::look_up(const CaseNode& node, const std::string& key) {
  if (node.table_ == nullptr) return nullptr;
  node.state_->known[node.table_].keys.insert(key);
  return table(node)->get(key);
}
const std::string& CaseNode::Access::file(const CaseNode& node) {
  const std::string& document =
      node.state_->documents[static_cast<std::size_t>(node.document_)]->file;
  return node.table_ == nullptr ? document
                                : file_at(node.state_->source_of(*table(node)), document);
}
std::string CaseNode::Access::path_of(const CaseNode& node, const std::string& key) {
  if (node.path_.empty() || key.empty()) return node.path_ + key;
  return node.path_ + "." + key;
}
void CaseNode::Access::record(const CaseNode& node, const std::string& key, Fault fault) {
  fault.field = path_of(node, key);
  node.state_->record(node.document_, std::move(fault));
}
void CaseNode::Access::fault_at(const CaseNode& node,
                                const std::string& key,
                                const toml::node& value,
                                Fault fault) {
  fault.file = file_at(node.state_->source_of(value), file(node));
  fault.line = node.state_->line_of(value);
  record(node, key, std::move(fault));
}
void CaseNode::Access::fault_at(const CaseNode& node, const std::string& key, Fault fault) {
  if (node.has(key)) return fault_at(node, key, *table(node)->get(key), std::move(fault));
  fault.file = file(node);
  fault.line = node.anchor_line_;
  record(node, key, std::move(fault));
}
void CaseNode::Access::wrong_kind(const CaseNode& node,
                                  const std::string& key,
                                  const toml::node& value,
                                  const std::string& wanted) {
  Fault fault;
  fault.got = kind_of(value);
  fault.allowed = wanted;
  fault_at(node, key, value, std::move(fault));
}

std::optional<double> CaseNode::Access::quantity(const CaseNode& node,
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
    got = number_with_unit(number, si_unit_name(dim));
  } else if (const auto* text = value.as_string()) {
    si = parse_quantity(text->get(), dim);
    got = si ? shortened(text->get()) : quantity_complaint(text->get(), dim);
  } else {
    wrong_kind(node, key, value, kind_and_range(allowed, dim));
    return std::nullopt;
  }
  // The slack keeps the ends inclusive when they are written in degrees or Fahrenheit, whose
  // conversion rounds.
  const double slack = si ? 1e-12 * std::abs(*si) : 0.0;
  if (si && *si >= allowed.least - slack && *si <= allowed.most + slack) {
    return std::clamp(*si, allowed.least, allowed.most);
  }
  Fault fault;
  fault.got = got;
  fault.allowed = range_text(allowed, dim);
  fault_at(node, key, value, std::move(fault));
  return std::nullopt;
}

CaseNode CaseNode::Access::child(const CaseNode& parent, const std::string& key) {
  CaseNode node;
  node.state_ = parent.state_;
  node.path_ = path_of(parent, key);
  node.document_ = parent.document_;
  node.anchor_line_ = parent.anchor_line_;
  return node;
}
void CaseNode::Access::attach(CaseNode& node, const toml::table& table, int document) {
  node.table_ = &table;
  node.document_ = document;
  node.anchor_line_ = node.state_->line_of(table);
  auto& known = node.state_->known[&table];
  known.path = node.path_;
  known.document = document;
}

std::optional<int> CaseNode::Access::included(const CaseNode& node,
                                              const std::string& key,
                                              const toml::value<std::string>& name) {
  State& state = *node.state_;
  if (const auto found = state.includes.find(&name); found != state.includes.end()) {
    return found->second < 0 ? std::nullopt : std::optional<int>(found->second);
  }
  state.includes[&name] = -1;  // so that a broken include is reported once only
  const std::filesystem::path base =
      std::filesystem::path(file_at(state.source_of(name), file(node))).parent_path();
  const std::string path = (base / name.get()).lexically_normal().string();
  Fault refusal;
  if (!include_allowed(state, node.document_, path, refusal.got)) {
    fault_at(node, key, name, std::move(refusal));
    return std::nullopt;
  }
  try {
    const int document = state.add_document(path, read_included(state, path), node.document_);
    state.includes[&name] = document;
    return document;
  } catch (const InputError& error) {
    for (Fault fault : error.faults()) {
      if (fault.line > 0) {  // a fault inside the included file
        state.record(node.document_, std::move(fault));
        continue;
      }
      refusal.got = fault.message();
      fault_at(node, key, name, refusal);
    }
    return std::nullopt;
  }
}

bool CaseNode::Access::include_allowed(const State& state,
                                       int document,
                                       const std::string& path,
                                       std::string& why) {
  // Names are compared after normalising "a/../b". A cycle through symbolic links is not seen here,
  // but ends at the depth limit.
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

bool CaseNode::Access::resolve(const CaseNode& parent,
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
}  // namespace ovendays::base
