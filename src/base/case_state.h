// SPDX-License-Identifier: MIT
// The state that a case file shares with all of its nodes: the parsed documents, the known keys of
// each table, and the faults recorded so far. Private to base.
#pragma once

#include <toml++/toml.h>

#include <map>
#include <memory>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "ovendays/base/case_node.h"

namespace ovendays::base {

/// Cases are written by hand. A larger file is surely the wrong one, and would be slow to parse.
inline constexpr std::size_t kMostCaseBytes = std::size_t{1} << 24;

struct CaseNode::State {
  struct Document {
    std::string file;
    std::string text;
    toml::table table;
    int parent = -1;  // index of the document that includes this one
  };
  struct KnownKeys {  // of one table
    std::string path;
    int document = 0;
    std::set<std::string> keys;
  };
  struct Recorded {
    int document = 0;
    Fault fault;
  };

  std::vector<std::unique_ptr<Document>> documents;
  // Document of each include, keyed by the string node that names the file; -1 if it is broken.
  std::map<const void*, int> includes;
  std::unordered_map<const void*, KnownKeys> known;  // keyed by toml::table
  std::vector<Recorded> recorded;
  std::shared_ptr<FileTexts> files;  // where texts come from; null: from disk
  // A copied TOML value does not know where it was read. This finds the value that it is a copy of,
  // which `originals` keeps alive.
  std::unordered_map<const toml::node*, const toml::node*> origins;
  std::shared_ptr<const void> originals;
  std::size_t dropped = 0;  // faults beyond the number that is kept

  /// The text of a file, from `files` or from disk.
  /// @throws InputError as read_file() or FileTexts::text_of()
  [[nodiscard]] std::string read(const std::string& path, std::size_t most_bytes) const;
  /// Where a value was read: its own place, or that of the value it is a copy of.
  [[nodiscard]] const toml::source_region& source_of(const toml::node& node) const;
  /// Line of a value, 1-based; 0 if it was not read from a file.
  [[nodiscard]] int line_of(const toml::node& node) const {
    return static_cast<int>(source_of(node).begin.line);
  }
  /// Remembers for a copied value, and everything in it, what it is a copy of.
  void track(const toml::node& original, const toml::node& copy);
  /// Parses `text` as a new document and returns its index.
  /// @throws InputError with the line of a TOML fault
  int add_document(const std::string& file, std::string text, int parent);
  void record(int document, Fault fault);
  /// Records a fault for every key that no getter was called for.
  void record_unknown_keys();
};

/// Parses TOML.
/// @throws InputError with the line of a syntax fault or of nesting that would exhaust the stack
toml::table parse_toml(const std::string& text, const std::string& file);

}  // namespace ovendays::base
