// SPDX-License-Identifier: MIT
// Commands, their options, and the arguments that a user gave. One table of options drives both the
// parser and the help text, so that the two cannot disagree.
#pragma once

#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "ovendays/base/units.h"

namespace ovendays::cli {

/// Reports a wrong command line; the program prints it and exits with code 2.
class UsageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

struct OptionSpec {
  std::string name;   ///< without dashes
  std::string value;  ///< name of its value in the help text; empty for a flag
  std::string help;
  bool repeats = false;                   ///< whether it may be given more than once
  std::vector<std::string> choices = {};  ///< all allowed values, if there are only a few
};

class Arguments;
struct CommandSpec {
  std::string name;                   ///< "season", "weather make"
  std::vector<std::string> synopsis;  ///< forms of use, without the program's name
  std::string summary;                ///< one line
  std::string about;                  ///< a paragraph
  std::vector<OptionSpec> options;
  std::vector<std::string> examples;
  /// Values that an option accepts by name, with their meaning, printed under a heading of their
  /// own; may be empty.
  std::string words_heading = {};
  std::vector<OptionSpec> words = {};
  std::size_t most_files = 1;  ///< largest number of arguments that are not options
  void (*run)(const Arguments& arguments) = nullptr;
};

/// All commands. A two-word name precedes its first word ("weather make" before "weather"), because
/// the first match wins.
const std::vector<CommandSpec>& commands();

class Arguments {
 public:
  /// @throws UsageError for unknown, repeated or incomplete options (with the nearest name)
  Arguments(const CommandSpec& command, const std::vector<std::string>& words);
  [[nodiscard]] bool has(const std::string& option) const { return values_.contains(option); }
  /// Value of an option, the first where it is given several times; nullopt where it is missing.
  /// @throws UsageError for an empty value
  [[nodiscard]] std::optional<std::string> value(const std::string& option) const;
  /// All values of a repeatable option, in the order given.
  [[nodiscard]] std::vector<std::string> values(const std::string& option) const;
  [[nodiscard]] const std::vector<std::string>& files() const { return files_; }
  /// Value of an option as a whole number from `least` to `most`. @throws UsageError
  [[nodiscard]] std::optional<long> integer(const std::string& option, long least, long most) const;
  /// Value of an option as a quantity with a unit, in SI, from `least` to `most`.
  /// @throws UsageError
  [[nodiscard]] std::optional<double> quantity(const std::string& option,
                                               base::Dimension dimension,
                                               double least,
                                               double most) const;
  /// The file argument of a command that needs one.
  /// @param what what the command needs, for the message, such as "a case file"
  /// @throws UsageError where it is missing
  [[nodiscard]] const std::string& only_file(const std::string& what) const;

 private:
  std::string command_;
  std::map<std::string, std::vector<std::string>> values_;
  std::vector<std::string> files_;
};

/// The known name that is closest in spelling (optimal string alignment distance), or empty where
/// none is close enough to be a likely typing error.
std::string nearest(const std::string& name, const std::vector<std::string>& known);
/// Ends a message about an unknown name: ", did you mean NAME?", or "." where nothing is close.
std::string suggestion(const std::string& name, const std::vector<std::string>& known);

/// What the program does, in one paragraph.
std::string program_about();
/// Help text of the program, and of one command.
std::string program_help();
std::string command_help(const CommandSpec& command);
}  // namespace ovendays::cli
