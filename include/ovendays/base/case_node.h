// SPDX-License-Identifier: MIT
// A view of a TOML table that knows where it stands, takes quantities with units, remembers which
// keys were read, and gathers every fault of a file in one go.
//
// Use: CaseFile file("case.toml"); CaseNode root = file.root(); read what you need;
//      file.finish() reports unknown keys and throws InputError with all faults at once.
// A getter that finds a fault records it and returns the fallback, so that reading goes on.
// A message reads "case.toml:14: oven.flap.flare_angle: 190 deg, allowed 0 to 90 deg".
// Asking for a key makes it known, whether it is there or not: finish() lists the known keys of a
// table beside one that is unknown, and the nearest of them by spelling.
// Thread-safe: no; one file belongs to one thread.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/error.h"
#include "ovendays/base/units.h"

namespace ovendays::base {

/// Closed range for a value, in SI. Infinite ends are left out of messages.
struct Range {
  double least;
  double most;
};

class CaseFile;
class CaseEditor;  // the part of the implementation that changes a tree

/// Which entry of a file changes a case: "change", 2 is the third [[change]].
struct CaseEdit {
  std::string array;
  std::size_t index = 0;
};

class CaseNode {
 public:
  /// True where the key stands in this table (marks nothing as read).
  [[nodiscard]] bool has(const std::string& key) const;
  /// How many tables tables(key) would return, without making them (marks nothing as read).
  [[nodiscard]] std::size_t count(const std::string& key) const;
  /// True where this node stands for a table that is in the file (an absent table is a valid, empty
  /// node).
  [[nodiscard]] bool present() const;
  /// The full dotted name of this table, "oven.flap".
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Line where this table starts, 0 if absent.
  [[nodiscard]] int line() const;
  [[nodiscard]] int line_of(const std::string& key) const;
  /// The file in which the key's value stands (this table's file where the key is absent).
  [[nodiscard]] std::string file_of(const std::string& key) const;
  /// The key counts as read, and so does all below it: it is for another reader.
  void leave(const std::string& key) const;
  /// leave(), and the keys of the table that stands there; empty where none does.
  [[nodiscard]] std::vector<std::string> left_keys(const std::string& key) const;

  /// A quantity: a TOML number (SI; degrees for angles) or a string with a unit.
  /// @return SI value; `fallback` where absent or at fault (fault recorded).
  [[nodiscard]] double quantity(const std::string& key,
                                Dimension dim,
                                Range allowed,
                                double fallback) const;
  /// The same, but absent is a fault.
  [[nodiscard]] double required_quantity(const std::string& key,
                                         Dimension dim,
                                         Range allowed) const;
  /// nullopt where absent or at fault.
  [[nodiscard]] std::optional<double> optional_quantity(const std::string& key,
                                                        Dimension dim,
                                                        Range allowed) const;
  /// An array of quantities; empty where absent or at fault. A single value counts as an array of
  /// one. A wrong count is a fault unless count is 0.
  [[nodiscard]] std::vector<double> quantities(const std::string& key,
                                               Dimension dim,
                                               Range allowed,
                                               std::size_t count) const;

  /// A text in quotes.
  [[nodiscard]] std::string text(const std::string& key, const std::string& fallback) const;
  [[nodiscard]] std::string required_text(const std::string& key) const;
  [[nodiscard]] bool flag(const std::string& key, bool fallback) const;
  [[nodiscard]] long integer(const std::string& key, Range allowed, long fallback) const;
  /// An array of texts; a single text counts as an array of one.
  [[nodiscard]] std::vector<std::string> texts(const std::string& key) const;
  /// One of a list of words; returns its index. Anything else is a fault that lists the words.
  [[nodiscard]] std::size_t choice(const std::string& key,
                                   const std::vector<std::string>& words,
                                   std::size_t fallback) const;
  /// A clock time, "HH:MM" or TOML's own HH:MM:SS, as seconds of the day [s], 0..86400.
  [[nodiscard]] double clock(const std::string& key, double fallback_s) const;
  [[nodiscard]] std::vector<double> clocks(const std::string& key) const;

  /// A sub-table; absent gives an empty node (present() is false). A string value is the name of
  /// another TOML file, relative to this one, that holds the table at its top level ("include").
  /// A file that includes itself, more than 8 files one inside another, more than 256 in all, or
  /// more than 16 MiB of them is a fault.
  [[nodiscard]] CaseNode table(const std::string& key) const;
  /// An array of tables; a single table counts as one. Strings in it are includes.
  [[nodiscard]] std::vector<CaseNode> tables(const std::string& key) const;

  /// Records a fault at a key (or at the table when key is empty). The key counts as read.
  void fault(const std::string& key, const std::string& got, const std::string& allowed) const;

 private:
  friend class CaseFile;
  friend class CaseEditor;
  struct State;
  struct Access;  // the part of the implementation that knows TOML
  CaseNode() = default;
  std::shared_ptr<State> state_;
  const void* table_ = nullptr;  // toml::table, kept out of this header; null where absent
  std::string path_;
  int document_ = 0;     // which file this table stands in: 0 is the root, others are includes
  int anchor_line_ = 0;  // line to name for this table; that of the table around it where absent
};

class CaseFile {
 public:
  /// Reads and parses. @throws InputError when the file cannot be read, is larger than 16 MiB, or
  /// is not TOML.
  explicit CaseFile(const std::string& file);
  /// The same from text that is already in memory; `file` is the name used in messages.
  CaseFile(const std::string& text, const std::string& file);
  /// A case with changes, both told by one file: its key `case` is the case (a table, or the name
  /// of a file that holds it), and each edit is an entry of one of its arrays, applied in turn:
  ///   use = TABLE or FILE     takes the place of the case's table of the array's name
  ///   drop = ["spot.bay"]     these keys are taken out
  ///   set."oven.pane" = ...   the value takes the place of the one at that path, or is put there
  ///   add."oven.pane" = ...   a table more at the end of an array of tables
  /// Within an edit in this order, paths in that of the alphabet. A path's parts are keys; in an
  /// array of tables a number, counted from 1, or the table's name. An include on the path is read.
  /// Faults of an edit are found by finish(), with the line of the edit. text() is then the changed
  /// tree in TOML, the same however the file is laid out.
  /// @throws InputError where the file is not TOML or its case cannot be read
  static CaseFile edited(const std::string& text,
                         const std::string& file,
                         const std::vector<CaseEdit>& edits);
  [[nodiscard]] CaseNode root() const;
  /// The text of the file as read (for the results), includes appended.
  [[nodiscard]] std::string text() const;
  /// Records a fault found outside any node.
  void fault(Fault fault);
  /// Adds "unknown key" faults for all keys nobody read, and throws if there are any faults.
  /// @throws InputError, faults in file order; beyond the first 200 they are counted only.
  void finish();

 private:
  CaseFile() = default;
  std::shared_ptr<CaseNode::State> state_;
};

}  // namespace ovendays::base
