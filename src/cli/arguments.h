// SPDX-License-Identifier: MIT
// Commands, their options, and what a user gave for them. The help text is made from the same list
// that the reader goes by.
#pragma once

#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "ovendays/base/units.h"

namespace ovendays::cli {

/// The command line is at fault: exit code 2.
class UsageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

struct OptionSpec {
  std::string name;   ///< without dashes
  std::string value;  ///< what its value is called in the help; empty: it takes none
  std::string help;
  bool repeats = false;                   ///< may be given more than once
  std::vector<std::string> choices = {};  ///< every value it can take, where there are only a few
};

class Arguments;
struct CommandSpec {
  std::string name;                   ///< "season", "weather make"
  std::vector<std::string> synopsis;  ///< after the program's name
  std::string summary;                ///< one line
  std::string about;                  ///< a paragraph
  std::vector<OptionSpec> options;
  std::vector<std::string> examples;
  /// Words that some option takes, with their meaning, under a heading of their own; may be empty.
  std::string words_heading = {};
  std::vector<OptionSpec> words = {};
  std::size_t most_files = 1;  ///< arguments that are no options
  void (*run)(const Arguments& arguments) = nullptr;
};

/// All commands; a longer name stands before its beginning ("weather make" before "weather").
const std::vector<CommandSpec>& commands();

class Arguments {
 public:
  /// @throws UsageError for unknown, repeated or incomplete options (with the nearest name)
  Arguments(const CommandSpec& command, const std::vector<std::string>& words);
  [[nodiscard]] bool has(const std::string& option) const { return values_.contains(option); }
  /// nullopt where not given; the first of several
  [[nodiscard]] std::optional<std::string> value(const std::string& option) const;
  /// All that was given for an option that repeats, in order.
  [[nodiscard]] std::vector<std::string> values(const std::string& option) const;
  [[nodiscard]] const std::vector<std::string>& files() const { return files_; }
  /// A whole number in a range. @throws UsageError
  [[nodiscard]] std::optional<long> integer(const std::string& option, long least, long most) const;
  /// A quantity with its unit. @throws UsageError
  [[nodiscard]] std::optional<double> quantity(const std::string& option,
                                               base::Dimension dimension,
                                               double least,
                                               double most) const;
  /// The one file of a command that needs one. @param what "a case file"
  [[nodiscard]] const std::string& only_file(const std::string& what) const;

 private:
  std::string command_;
  std::map<std::string, std::vector<std::string>> values_;
  std::vector<std::string> files_;
};

/// The known name nearest by spelling (Damerau's distance with neighbours swapped), where near
/// enough to be meant; empty otherwise.
std::string nearest(const std::string& name, const std::vector<std::string>& known);
/// ", did you mean NAME?" or nothing.
std::string suggestion(const std::string& name, const std::vector<std::string>& known);

/// What the program does, in one paragraph.
std::string program_about();
/// Help of the program, of one command.
std::string program_help();
std::string command_help(const CommandSpec& command);
}  // namespace ovendays::cli
