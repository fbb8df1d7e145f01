// SPDX-License-Identifier: MIT
// Manual pages in the language of man(7), written from the table that the help is made of.
#pragma once

#include <string>

#include "arguments.h"

namespace ovendays::cli {

/// What a page names and the table of commands does not.
struct ManContext {
  std::string version;  ///< "0.2.0"
  std::string date;     ///< of that version, "2026-11-30"
  std::string share;    ///< the folder of installed data, "/usr/share/ovendays"
};

/// "ovendays-weather-make" for the command "weather make": the name of its page.
std::string man_name(const CommandSpec& command);
/// The page of the program.
std::string program_man_page(const ManContext& context);
/// The page of one command.
std::string command_man_page(const CommandSpec& command, const ManContext& context);
}  // namespace ovendays::cli
