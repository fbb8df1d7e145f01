// SPDX-License-Identifier: MIT
// How a node reaches into its TOML table, resolves includes, and words its faults.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "case_state.h"

namespace ovendays::base {

/// "a list", "a text", ... for messages.
const char* kind_of(const toml::node& node);
/// At most 60 characters, the rest as "...".
std::string shortened(const std::string& text);
/// "'text'", shortened.
std::string quoted(const std::string& text);
/// "0 to 90 deg", "10 mm to 3 m", "at least 0.1 m", "" where both ends are infinite.
std::string range_text(Range range, Dimension dim);
/// "a length, 10 mm to 3 m": what to say where the kind of value is wrong.
std::string kind_and_range(Range range, Dimension dim);
inline int line_at(const toml::node& node) { return static_cast<int>(node.source().begin.line); }
/// The file a part of a tree was read from; `other` where the part was made.
inline const std::string& file_at(const toml::source_region& source, const std::string& other) {
  return source.path != nullptr ? *source.path : other;
}

struct CaseNode::Access {
  static const toml::table* table(const CaseNode& node);
  /// Marks the key as known and finds its value; null where absent.
  static const toml::node* ask(const CaseNode& node, const std::string& key);
  static const std::string& file(const CaseNode& node);
  /// Records `words` with file, line (those of the value) and full name filled in.
  static void fault_at(const CaseNode& node,
                       const std::string& key,
                       const toml::node& value,
                       Fault words);
  /// The same at the key's value, or at the table where the key is empty or absent.
  static void fault_at(const CaseNode& node, const std::string& key, Fault words);
  static void wrong_kind(const CaseNode& node,
                         const std::string& key,
                         const toml::node& value,
                         const std::string& wanted);
  /// A value as a quantity inside the range, or nullopt with the fault recorded.
  static std::optional<double> quantity(const CaseNode& node,
                                        const std::string& key,
                                        const toml::node& value,
                                        const std::pair<Dimension, Range>& wanted);
  /// An empty node below `parent`.
  static CaseNode child(const CaseNode& parent, const std::string& key);
  /// Attaches a table or an include to `node`; false with the fault recorded otherwise.
  static bool resolve(const CaseNode& parent,
                      const std::string& key,
                      const toml::node& value,
                      CaseNode& node);

 private:
  static void record(const CaseNode& node, const std::string& key, Fault words);
  static std::string path_of(const CaseNode& node, const std::string& key);
  static void attach(CaseNode& node, const toml::table& table, int document);
  static std::optional<int> included(const CaseNode& node,
                                     const std::string& key,
                                     const toml::value<std::string>& name);
  static bool chain_allows(const State& state,
                           int document,
                           const std::string& path,
                           std::string& why);
};
}  // namespace ovendays::base
