// SPDX-License-Identifier: MIT
#include "completion.h"

namespace ovendays::cli {
namespace {
constexpr const char* kBashHead =
    R"bash(# bash completion for ovendays                              -*- shell-script -*-
# Written by the build from the program's own table of options.

# Adds the lines of standard input that begin with what is typed.
_ovendays_add() {
  local word
  while IFS= read -r word; do COMPREPLY+=("$word"); done
}

# _ovendays_words WORD...
_ovendays_words() { _ovendays_add < <(compgen -W "$*" -- "$value"); }

# _ovendays_files ENDING...: folders and files with one of the endings, any file where none is given
_ovendays_files() {
  local ending
  compopt -o filenames 2>/dev/null
  if [ $# -eq 0 ]; then
    _ovendays_add < <(compgen -f -- "$value")
    return
  fi
  _ovendays_add < <(compgen -d -- "$value")
  for ending in "$@"; do _ovendays_add < <(compgen -f -X "!*.$ending" -- "$value"); done
}

_ovendays_folders() {
  compopt -o filenames 2>/dev/null
  _ovendays_add < <(compgen -d -- "$value")
}

# _ovendays_picture NAME...: one of the names, "=" and a file
_ovendays_picture() {
  if [[ $value == *=* ]]; then
    value=${value#*=}
    _ovendays_files
    return
  fi
  compopt -o nospace 2>/dev/null
  _ovendays_words "${@/%/=}"
}

)bash";

// After the commands' table: where the cursor is, and what belongs there.
constexpr const char* kBashTail = R"bash(
_ovendays() {
  local words=() word last value option='' command='' options='' with_value='' glue='' i
  COMPREPLY=()
  # Readline cuts words at "=": they are put together again.
  for ((i = 1; i <= COMP_CWORD; i++)); do
    word=${COMP_WORDS[i]}
    if [[ ${#words[@]} -gt 0 && $COMP_WORDBREAKS == *=* && ( $word == = || $glue ) ]]; then
      words[${#words[@]}-1]+=$word
    else
      words+=("$word")
    fi
    glue=
    [[ $word == = ]] && glue=1
  done
  last=${words[${#words[@]}-1]}
  value=$last
  if [[ ${#words[@]} -eq 1 || ( ${#words[@]} -eq 2 && ${words[0]} == help ) ]]; then
    _ovendays_words "$_ovendays_commands"
    [[ ${#words[@]} -eq 1 ]] && _ovendays_words help --help --version
    return
  fi
  _ovendays_command "${words[@]:0:${#words[@]}-1}"
  if [[ $last == --*=* ]]; then
    option=${last%%=*}
    value=${last#*=}
  elif [[ " $with_value " == *" ${words[${#words[@]}-2]} "* ]]; then
    option=${words[${#words[@]}-2]}
  fi
  if [[ $option ]]; then
    _ovendays_value "$command $option"
  elif [[ $last == -* ]]; then
    _ovendays_words "$options"
  else
    _ovendays_value "$command"
  fi
  # Without "=" among the characters that cut words, the whole word is replaced.
  if [[ $COMP_WORDBREAKS != *=* && $last != "$value" ]]; then
    COMPREPLY=("${COMPREPLY[@]/#/${last%"$value"}}")
  fi
}

complete -F _ovendays ovendays
)bash";

std::string bash_call(const Offer& offer) {
  switch (offer.kind) {
    case Offer::Kind::kNothing:
      return "";
    case Offer::Kind::kWords:
      return "_ovendays_words " + joined(offer.words, " ");
    case Offer::Kind::kFiles:
      return "_ovendays_files " + joined(offer.words, " ");
    case Offer::Kind::kFolders:
      return "_ovendays_folders";
    case Offer::Kind::kPicture:
      return "_ovendays_picture " + joined(offer.words, " ");
  }
  return "";
}

// Sets command, options and with_value. The table's order puts "weather make" before "weather".
std::string bash_command_function() {
  std::string text =
      "# Finds the command among the words and what options it has.\n"
      "_ovendays_command() {\n  case \"${1-} ${2-} \" in\n";
  for (const CommandSpec& command : commands()) {
    std::string all, with_value;
    for (const OptionSpec& option : command.options) {
      all += "--" + option.name + " ";
      if (!option.value.empty()) with_value += "--" + option.name + " ";
    }
    text.append("    '").append(command.name).append(" '*)\n      command='").append(command.name);
    text.append("'\n      options='").append(all).append("--help'\n      with_value='");
    text.append(with_value).append("'\n      ;;\n");
  }
  return text + "  esac\n}\n\n";
}

std::string bash_value_function() {
  std::string text =
      "# Offers what \"COMMAND --OPTION\", or COMMAND itself, can take.\n"
      "_ovendays_value() {\n  case $1 in\n";
  const auto add = [&text](const std::string& what, const Offer& offer, const std::string& more) {
    const std::string call = bash_call(offer);
    if (call.empty()) return;
    text += "    '" + what + "') " + more + call + " ;;\n";
  };
  for (const CommandSpec& command : commands()) {
    // The second word of "weather make" stands where a file of "weather" would.
    std::string seconds;
    for (const CommandSpec& other : commands()) {
      if (other.name.starts_with(command.name + " "))
        seconds += "_ovendays_words " + other.name.substr(command.name.size() + 1) + "; ";
    }
    add(command.name, argument_offer(command), seconds);
    for (const OptionSpec& option : command.options)
      add(command.name + " --" + option.name, value_offer(command, option), "");
  }
  return text + "  esac\n}\n";
}

std::string bash_first_words() {
  std::string text;
  for (const CommandSpec& command : commands()) {
    if (command.name.find(' ') == std::string::npos) text += command.name + " ";
  }
  text.pop_back();
  return "_ovendays_commands='" + text + "'\n\n";
}
}  // namespace

std::string bash_completion() {
  return kBashHead + bash_first_words() + bash_command_function() + bash_value_function() +
         kBashTail;
}
}  // namespace ovendays::cli
