// SPDX-License-Identifier: MIT
// Typed, unit-aware access to a TOML case file. A CaseNode is a view of one TOML table. It converts
// quantities to SI, keeps track of which keys were read, and collects all the faults of a file so
// that they can be reported together.
//
// Use: CaseFile file("case.toml"); CaseNode root = file.root(); read the values needed;
//      file.finish() adds a fault for every key that was never read and throws InputError if there
//      are any faults.
// A getter that finds a fault records it and returns the fallback, so that reading can continue.
// A message reads "case.toml:14: oven.flap.flare_angle: 190 deg, allowed 0 to 90 deg".
// Calling a getter marks the key as known, whether or not the file has it: for an unknown key,
// finish() lists the known keys of the same table and suggests the closest spelling.
// Not thread-safe: a file and its nodes belong to one thread.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/error.h"
#include "ovendays/base/file_texts.h"
#include "ovendays/base/units.h"

namespace ovendays::base {

/// The closed range of values that are accepted, in SI. Infinite ends are omitted from messages.
struct Range {
  double least;
  double most;
};

class CaseFile;
class CaseEdits;
class CaseEditor;  // private to the implementation: applies edits to a TOML tree

/// Refers to one edit of a study file: {"change", 2} is its third [[change]] table.
struct CaseEdit {
  std::string array;
  std::size_t index = 0;
};

/// A view of one table of a case file. Copies are cheap and share the file's state.
class CaseNode {
 public:
  /// True if this table has the key. Does not mark it as read.
  [[nodiscard]] bool has(const std::string& key) const;
  /// The number of nodes that tables(key) would return, found without creating them. Does not mark
  /// the key as read.
  [[nodiscard]] std::size_t count(const std::string& key) const;
  /// True if the table exists in the file. A node for an absent table is valid and empty.
  [[nodiscard]] bool present() const;
  /// The full dotted name of this table, such as "oven.flap"; empty for the root.
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Line where this table starts, 1-based; 0 if the table is absent.
  [[nodiscard]] int line() const;
  /// Line of the key's value; that of this table if the key is absent.
  [[nodiscard]] int line_of(const std::string& key) const;
  /// Name of the file that holds the key's value; this table's file if the key is absent. The two
  /// differ where edits were applied, see CaseFile::edited().
  [[nodiscard]] std::string file_of(const std::string& key) const;
  /// Marks the key, with everything below it, as read. For parts of a file that another reader
  /// handles.
  void skip(const std::string& key) const;
  /// The text of a file that the case names, read as the case's includes are (from the FileTexts
  /// that the case was opened with, if any).
  /// @param path as it is to be opened, that is, relative paths already joined with their folder
  /// @param most_bytes the largest size accepted [bytes]
  /// @throws InputError as read_file() or FileTexts::text_of()
  [[nodiscard]] std::string file_text(const std::string& path, std::size_t most_bytes) const;
  /// The same as skip(); also returns the keys of the table at `key`, if there is one.
  [[nodiscard]] std::vector<std::string> skip_and_list_keys(const std::string& key) const;

  /// A quantity, written as a TOML number (in SI, angles in degrees) or as a string with a unit.
  /// @return the SI value; `fallback` if the key is absent or its value is at fault
  [[nodiscard]] double quantity(const std::string& key,
                                Dimension dim,
                                Range allowed,
                                double fallback) const;
  /// The same for a key that must be present. After a fault the result is a finite value inside the
  /// range.
  [[nodiscard]] double required_quantity(const std::string& key,
                                         Dimension dim,
                                         Range allowed) const;
  /// The same; nullopt if the key is absent or its value is at fault.
  [[nodiscard]] std::optional<double> optional_quantity(const std::string& key,
                                                        Dimension dim,
                                                        Range allowed) const;
  /// An array of quantities. A single value counts as an array of one.
  /// @param count the number of values required; 0 accepts any number
  /// @return SI values; empty if the key is absent or if any value or the count is at fault
  [[nodiscard]] std::vector<double> quantities(const std::string& key,
                                               Dimension dim,
                                               Range allowed,
                                               std::size_t count) const;

  /// A string; `fallback` if the key is absent or its value is at fault.
  [[nodiscard]] std::string text(const std::string& key, const std::string& fallback) const;
  /// The same for a key that must be present and not empty.
  [[nodiscard]] std::string required_text(const std::string& key) const;
  /// A boolean.
  [[nodiscard]] bool flag(const std::string& key, bool fallback) const;
  /// A whole number inside a range.
  [[nodiscard]] long integer(const std::string& key, Range allowed, long fallback) const;
  /// An array of strings. A single string counts as an array of one.
  [[nodiscard]] std::vector<std::string> texts(const std::string& key) const;
  /// One of a list of words. Any other value is a fault whose message lists the words.
  /// @return the index of the word in `words`
  [[nodiscard]] std::size_t choice(const std::string& key,
                                   const std::vector<std::string>& words,
                                   std::size_t fallback) const;
  /// A time of day [s], 0..86400, written as "HH:MM" or as a TOML local time HH:MM:SS.
  [[nodiscard]] double clock(const std::string& key, double fallback_s) const;
  /// An array of times of day [s]. A single time counts as an array of one.
  [[nodiscard]] std::vector<double> clocks(const std::string& key) const;

  /// A sub-table; an absent one gives an empty node (present() is false). A string is an include:
  /// the name of another TOML file, relative to this one, whose top level is the table.
  /// It is a fault for a file to include itself, for includes to nest more than 8 deep, and for a
  /// case to have more than 256 files or more than 16 MiB in all.
  [[nodiscard]] CaseNode table(const std::string& key) const;
  /// An array of tables. A single table counts as an array of one. Strings in it are includes.
  [[nodiscard]] std::vector<CaseNode> tables(const std::string& key) const;

  /// Records a fault of a key, or of the table if `key` is empty, and marks the key as read.
  /// @param got what was found
  /// @param allowed what would be accepted; may be empty, see Fault
  void fault(const std::string& key, const std::string& got, const std::string& allowed) const;

 private:
  friend class CaseFile;
  friend class CaseEdits;
  friend class CaseEditor;
  struct State;
  struct Access;  // private to the implementation: everything that depends on the TOML library
  CaseNode() = default;
  std::shared_ptr<State> state_;
  const void* table_ = nullptr;  // a toml::table, opaque here; null if absent
  std::string path_;
  int document_ = 0;     // index of the file: 0 is the case file itself, others are includes
  int anchor_line_ = 0;  // line to report for this table; its parent's if it is absent
};

/// A parsed case file with its includes, and the faults found in it so far.
class CaseFile {
 public:
  /// Reads and parses a file.
  /// @throws InputError if the file cannot be read, is larger than 16 MiB, or is not TOML
  explicit CaseFile(const std::string& file);
  /// Parses text that is already in memory.
  /// @param file the name to use in messages; includes are relative to it
  /// @throws InputError if the text is not TOML
  CaseFile(const std::string& text, const std::string& file);
  /// Builds a case from a base case and a list of edits that stand in the same file. For many
  /// cases of one file, use CaseEdits, which parses it once. The file's key `case` is the base: a
  /// table, or the name of a file that holds it. Each edit is one table of one of the file's
  /// arrays, and edits are applied in the order given:
  ///   use = TABLE or FILE     replaces the case's table that has the array's name
  ///   drop = ["spot.bay"]     removes these keys
  ///   set."oven.pane" = ...   replaces the value at that path, or inserts it
  ///   add."oven.pane" = ...   appends a table to an array of tables
  /// Within one edit they are applied in this order, and paths in alphabetical order. The parts of
  /// a path are keys; after an array of tables comes either a number, counted from 1, or the `name`
  /// of one of its tables. A path may lead through an include, which is then read. Faults of edits
  /// carry the line of the edit. text() gives the edited tree as TOML, which is independent of the
  /// layout of the file.
  /// @param files gives the texts of the base case, of includes and of what else the case names, so
  /// that many cases of one study see one state of each file; null: they are read from disk
  /// @throws InputError if the file is not TOML or its base case cannot be read; faults of edits
  /// are only recorded, and finish() throws them
  static CaseFile edited(const std::string& text,
                         const std::string& file,
                         const std::vector<CaseEdit>& edits,
                         std::shared_ptr<FileTexts> files = nullptr);
  /// The top-level table.
  [[nodiscard]] CaseNode root() const;
  /// The text of the file and of its includes, to be stored with the results.
  [[nodiscard]] std::string text() const;
  /// Records a fault that belongs to no node.
  void fault(Fault fault);
  /// Records an "unknown key" fault for every key that was not read, then throws if there are
  /// faults.
  /// @throws InputError with the faults in the order of the file; at most 200 of them are listed,
  /// the rest are counted
  void finish();

 private:
  friend class CaseEdits;
  CaseFile() = default;
  std::shared_ptr<CaseNode::State> state_;
};

/// A file of edits and its base case, parsed once, from which any number of cases are made. See
/// CaseFile::edited(). Thread-safe: yes, if no two threads share a CaseFile that was made.
class CaseEdits {
 public:
  /// @throws InputError as CaseFile::edited()
  CaseEdits(const std::string& text,
            const std::string& file,
            std::shared_ptr<FileTexts> files = nullptr);
  /// The case that CaseFile::edited() makes of the same edits.
  [[nodiscard]] CaseFile apply(const std::vector<CaseEdit>& edits) const;

 private:
  struct Parsed;
  std::shared_ptr<const Parsed> parsed_;
};

}  // namespace ovendays::base
