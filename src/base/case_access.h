// SPDX-License-Identifier: MIT
// The part of CaseNode that knows the TOML library: it looks keys up, resolves includes and phrases
// faults. Private to base.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "case_state.h"

namespace ovendays::base {

/// The kind of a TOML value in words, for messages: "a list", "text", ...
const char* kind_of(const toml::node& node);
/// The first 60 characters, with "..." if there are more.
std::string shortened(const std::string& text);
/// The shortened text in single quotes.
std::string quoted(const std::string& text);
/// A range in words: "0 to 90 deg", "10 mm to 3 m", "at least 0.1 m"; empty if both ends are
/// infinite.
std::string range_text(Range range, Dimension dim);
/// The quantity and its range, for values of the wrong kind: "a length, 10 mm to 3 m".
std::string kind_and_range(Range range, Dimension dim);
/// The file that a part of a tree was read from; `other` if it did not come from a file.
inline const std::string& file_at(const toml::source_region& source, const std::string& other) {
  return source.path != nullptr ? *source.path : other;
}

struct CaseNode::Access {
  /// The node's table; null if it is absent.
  static const toml::table* table(const CaseNode& node);
  /// Finds the value of a key and marks the key as known; null if it is absent.
  static const toml::node* look_up(const CaseNode& node, const std::string& key);
  /// Name of the file that holds the node's table.
  static const std::string& file(const CaseNode& node);
  /// Records a fault, after filling in the full key and the value's file and line.
  static void fault_at(const CaseNode& node,
                       const std::string& key,
                       const toml::node& value,
                       Fault fault);
  /// The same at the key's value, or at the table if the key is empty or absent.
  static void fault_at(const CaseNode& node, const std::string& key, Fault fault);
  /// Records that a value is of another kind than `wanted`.
  static void wrong_kind(const CaseNode& node,
                         const std::string& key,
                         const toml::node& value,
                         const std::string& wanted);
  /// Converts a value to SI and checks its range; records a fault and returns nullopt if it fails.
  static std::optional<double> quantity(const CaseNode& node,
                                        const std::string& key,
                                        const toml::node& value,
                                        const std::pair<Dimension, Range>& wanted);
  /// An empty node below `parent`.
  static CaseNode child(const CaseNode& parent, const std::string& key);
  /// Lets `node` refer to a table or to an included file; records a fault and returns false if the
  /// value is neither.
  static bool resolve(const CaseNode& parent,
                      const std::string& key,
                      const toml::node& value,
                      CaseNode& node);

 private:
  static void record(const CaseNode& node, const std::string& key, Fault fault);
  static std::string path_of(const CaseNode& node, const std::string& key);
  static void attach(CaseNode& node, const toml::table& table, int document);
  /// Index of the included document, which is read at its first use.
  static std::optional<int> included(const CaseNode& node,
                                     const std::string& key,
                                     const toml::value<std::string>& name);
  /// False, with the reason in `why`, if including `path` would form a cycle or nest too deep.
  static bool include_allowed(const State& state,
                              int document,
                              const std::string& path,
                              std::string& why);
};
}  // namespace ovendays::base
