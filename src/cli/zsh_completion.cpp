// SPDX-License-Identifier: MIT
#include "completion.h"

namespace ovendays::cli {
namespace {
constexpr const char* kZshHead = R"zsh(#compdef ovendays
# zsh completion for ovendays. Written by the build from the program's own table of options.

# _ovendays_picture NAME...: one of the names, "=" and a file
_ovendays_picture() {
  if compset -P '*='; then
    _files
  else
    compadd -S '=' -- "$@"
  fi
}

)zsh";

constexpr const char* kZshTail = R"zsh(
_ovendays() {
  if (( CURRENT == 2 )); then
    _ovendays_commands
    compadd -- --help --version
    return
  fi
  shift words
  (( CURRENT-- ))
  case "$words[1] $words[2] " in
    'help '*) (( CURRENT == 2 )) && _ovendays_commands ;;
)zsh";

constexpr const char* kZshEnd = R"zsh(  esac
}

_ovendays "$@"
)zsh";

// Within single quotes, and within the brackets and colons of _arguments.
std::string zsh_escaped(const std::string& text, const std::string& special) {
  std::string out;
  for (const char c : text) {
    if (c == '\'') {
      out += "'\\''";
      continue;
    }
    if (special.find(c) != std::string::npos) out += '\\';
    out += c;
  }
  return out;
}

std::string zsh_action(const Offer& offer) {
  switch (offer.kind) {
    case Offer::Kind::kNothing:
      return " ";
    case Offer::Kind::kWords:
      return "(" + joined(offer.words, " ") + ")";
    case Offer::Kind::kFiles:
      if (offer.words.empty()) return "_files";
      return "_files -g \"" + joined(offer.words, " ", "*.") + "\"";
    case Offer::Kind::kFolders:
      return "_files -/";
    case Offer::Kind::kPicture:
      return "_ovendays_picture " + joined(offer.words, " ");
  }
  return " ";
}

// '--out=[help]:FILE.h5:action'
std::string zsh_option(const CommandSpec& command, const OptionSpec& option) {
  std::string line = "'";
  if (option.repeats) line += '*';
  line += "--" + option.name;
  if (!option.value.empty()) line += '=';
  line += "[" + zsh_escaped(option.help, "[]:\\") + "]";
  if (!option.value.empty()) {
    line += ":" + zsh_escaped(option.value, ":\\") + ":" + zsh_action(value_offer(command, option));
  }
  return line + "'";
}

std::string zsh_command(const CommandSpec& command) {
  const bool two = command.name.find(' ') != std::string::npos;
  std::string text = "    '" + command.name + " '*)\n";
  if (two) text += "      shift words\n      (( CURRENT-- ))\n";
  // The second word of "weather make" stands where a file of "weather" would.
  for (const CommandSpec& other : commands()) {
    if (!other.name.starts_with(command.name + " ")) continue;
    text += "      (( CURRENT == 2 )) && compadd -- " + other.name.substr(command.name.size() + 1) +
            "\n";
  }
  text += "      _arguments \\\n";
  for (const OptionSpec& option : command.options)
    text += "        " + zsh_option(command, option) + " \\\n";
  text += "        '--help[show the help of this command]' \\\n";
  return text + "        '" + (command.most_files > 1 ? "*" : "") +
         ":file:" + zsh_action(argument_offer(command)) + "'\n      ;;\n";
}

std::string zsh_commands() {
  std::string text = "_ovendays_commands() {\n  local -a known=(\n";
  for (const CommandSpec& command : commands()) {
    if (command.name.find(' ') != std::string::npos) continue;
    text += "    '" + command.name + ":" + zsh_escaped(command.summary, "\\") + "'\n";
  }
  return text +
         "    'help:all about one command'\n  )\n  _describe -t commands 'command' known\n}\n";
}
}  // namespace

std::string zsh_completion() {
  std::string text = kZshHead + zsh_commands() + kZshTail;
  for (const CommandSpec& command : commands()) text += zsh_command(command);
  return text + kZshEnd;
}
}  // namespace ovendays::cli
