// SPDX-License-Identifier: MIT
// What a case file and all its nodes share: the parsed documents, the keys asked for, the faults.
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

/// A case is written by hand; anything larger is the wrong file, and slow to parse.
inline constexpr std::size_t kMostCaseBytes = std::size_t{1} << 24;

struct CaseNode::State {
  struct Document {
    std::string file;
    std::string text;
    toml::table table;
    int parent = -1;  // the document that includes this one
  };
  struct Asked {
    std::string path;
    int document = 0;
    std::set<std::string> keys;
  };
  struct Recorded {
    int document = 0;
    Fault fault;
  };

  std::vector<std::unique_ptr<Document>> documents;
  std::map<const void*, int> includes;  // by the string node that names the file
  std::unordered_map<const void*, Asked> asked;
  std::vector<Recorded> recorded;
  std::size_t dropped = 0;  // faults beyond the most that are kept

  /// Parses `text` as a new document. @throws InputError with the line of a TOML fault.
  int add_document(const std::string& file, std::string text, int parent);
  void record(int document, Fault fault);
  void record_unknown_keys();
};

/// Parses TOML. @throws InputError with the line; also for nesting that would exhaust the stack.
toml::table parse_toml(const std::string& text, const std::string& file);

}  // namespace ovendays::base
