// SPDX-License-Identifier: MIT
#include "completion.h"

namespace ovendays::cli {
namespace {
constexpr const char* kFishHead =
    R"fish(# fish completion for ovendays. Written by the build from the program's own table of options.

# True where the words typed so far name the command.
function __ovendays_using
    set -l words (commandline -opc)
    set -e words[1]
    set -l wanted (string split ' ' -- $argv[1])
    set -l length (count $wanted)
    test (count $words) -ge $length; or return 1
    test "$words[1..$length]" = "$wanted"
end

function __ovendays_no_command
    set -l words (commandline -opc)
    test (count $words) -eq 1
end

# Folders and files with one of the endings.
function __ovendays_files
    for ending in $argv
        __fish_complete_suffix $ending
    end
end

complete -c ovendays -f
)fish";

std::string fish_quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'' || c == '\\') out += '\\';
    out += c;
  }
  return out + "'";
}

// The switches of "complete" that offer a value; -x says that no other file is meant.
std::string fish_switches(const Offer& offer) {
  switch (offer.kind) {
    case Offer::Kind::kNothing:
      return " -x";
    case Offer::Kind::kWords:
      return " -x -a '" + joined(offer.words, " ") + "'";
    case Offer::Kind::kFiles:
      if (offer.words.empty()) return " -r -F";
      return " -x -a '(__ovendays_files " + joined(offer.words, " ", ".") + ")'";
    case Offer::Kind::kFolders:
      return " -x -a '(__fish_complete_directories)'";
    case Offer::Kind::kPicture:
      return " -r -F -a '" + joined(offer.words, " ", "", "=") + "'";
  }
  return " -x";
}

std::string fish_argument(const std::string& condition, const Offer& offer) {
  if (offer.kind != Offer::Kind::kFiles) return "";
  const std::string start = "complete -c ovendays -n " + fish_quoted(condition);
  if (offer.words.empty()) return start + " -F\n";
  return start + " -a '(__ovendays_files " + joined(offer.words, " ", ".") + ")'\n";
}

std::string fish_command(const CommandSpec& command) {
  std::string using_it = "__ovendays_using " + fish_quoted(command.name);
  std::string text;
  for (const CommandSpec& other : commands()) {
    if (!other.name.starts_with(command.name + " ")) continue;
    text += "complete -c ovendays -n " + fish_quoted(using_it) + " -a " +
            other.name.substr(command.name.size() + 1) + " -d " + fish_quoted(other.summary) + "\n";
    using_it += "; and not __ovendays_using " + fish_quoted(other.name);
  }
  text += fish_argument(using_it, argument_offer(command));
  for (const OptionSpec& option : command.options) {
    text += "complete -c ovendays -n " + fish_quoted(using_it) + " -l " + option.name;
    if (!option.value.empty()) text += fish_switches(value_offer(command, option));
    text += " -d " + fish_quoted(option.help) + "\n";
  }
  return text;
}
}  // namespace

std::string fish_completion() {
  std::string text = kFishHead;
  for (const CommandSpec& command : commands()) {
    if (command.name.find(' ') != std::string::npos) continue;
    text += "complete -c ovendays -n '__ovendays_no_command; or __ovendays_using help' -a " +
            command.name + " -d " + fish_quoted(command.summary) + "\n";
  }
  text +=
      "complete -c ovendays -n __ovendays_no_command -a help -d 'all about one command'\n"
      "complete -c ovendays -n __ovendays_no_command -l version -d 'show the version'\n"
      "complete -c ovendays -l help -d 'show help'\n";
  for (const CommandSpec& command : commands()) text += fish_command(command);
  return text;
}
}  // namespace ovendays::cli
