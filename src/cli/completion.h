// SPDX-License-Identifier: MIT
// Completion scripts for three shells, written from the table of commands that the help is made of.
#pragma once

#include <string>
#include <vector>

#include "arguments.h"

namespace ovendays::cli {

/// What a shell can offer where a value or a file is expected.
struct Offer {
  enum class Kind {
    kNothing,  ///< a number, a date, a name out of the user's case
    kWords,    ///< one of `words`
    kFiles,    ///< files with one of the endings in `words`, any file where there is none
    kFolders,
    kPicture  ///< NAME=FILE, with the names in `words`
  };
  Kind kind = Kind::kNothing;
  std::vector<std::string> words = {};
};

/// What to offer for the value of an option; kNothing where it takes none.
Offer value_offer(const CommandSpec& command, const OptionSpec& option);
/// What to offer for the arguments that are no options.
Offer argument_offer(const CommandSpec& command);

/// The words with `between` between them, each with something before and after it.
std::string joined(const std::vector<std::string>& words,
                   const std::string& between,
                   const std::string& before = "",
                   const std::string& after = "");

std::string bash_completion();
std::string zsh_completion();
std::string fish_completion();
}  // namespace ovendays::cli
