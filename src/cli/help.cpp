// SPDX-License-Identifier: MIT
#include <algorithm>
#include <sstream>

#include "arguments.h"

namespace ovendays::cli {
namespace {
constexpr std::size_t kWidth = 80;

// Breaks text into lines of kWidth columns; lines after the first are indented.
std::string wrapped(const std::string& text, std::size_t indent) {
  std::istringstream words(text);
  std::string out;
  std::size_t column = indent;
  for (std::string word; words >> word;) {
    if (column > indent && column + 1 + word.size() > kWidth) {
      out += '\n';
      out.append(indent, ' ');
      column = indent;
    }
    if (column > indent) {
      out += ' ';
      ++column;
    }
    out += word;
    column += word.size();
  }
  return out;
}

std::string option_head(const OptionSpec& option) {
  std::string head = "  --";
  head += option.name;
  if (option.value.empty()) return head;
  head += ' ';
  return head + option.value;
}

// Prints two columns. The second starts where the longest entry of the first ends.
void add_rows(std::string& text, const std::vector<std::pair<std::string, std::string>>& rows) {
  std::size_t indent = 8;
  for (const auto& row : rows) indent = std::max(indent, row.first.size() + 2);
  for (const auto& row : rows) {
    std::string head = row.first;
    head.resize(indent, ' ');
    text += head + wrapped(row.second, indent) + "\n";
  }
}
}  // namespace

std::string program_about() {
  return "ovendays computes on how many days of a year a home-built box solar oven can do your "
         "cooking. It needs a weather year, what stands around the oven, the oven's design and the "
         "cook's routine.";
}

std::string program_help() {
  std::string text = wrapped(program_about(), 0) + "\n\nCommands\n";
  for (const CommandSpec& command : commands()) {
    std::string head(2, ' ');
    head += command.name;
    head.resize(std::max<std::size_t>(18, head.size() + 1), ' ');
    text += head + wrapped(command.summary, head.size()) + "\n";
  }
  return text +
         "  help COMMAND    options and examples of one command\n\n"
         "Options\n"
         "  --help          print this text\n"
         "  --version       print the version\n\n"
         "Try\n"
         "  ovendays season --demo\n"
         "  ovendays new my-yard.toml\n\n"
         "Exit codes: 0 success, 1 the run failed, 2 wrong input or options.\n";
}

std::string command_help(const CommandSpec& command) {
  std::string text;
  for (const std::string& line : command.synopsis) {
    text.append(text.empty() ? "Use: ovendays " : "     ovendays ");
    text += line;
    text += '\n';
  }
  text += '\n';
  text += wrapped(command.about, 0);
  text += "\n\nOptions\n";
  std::vector<std::pair<std::string, std::string>> rows;
  for (const OptionSpec& option : command.options)
    rows.emplace_back(option_head(option), option.help);
  rows.emplace_back("  --help", "print this text");
  add_rows(text, rows);
  if (!command.words.empty()) {
    text += "\n" + command.words_heading + "\n";
    rows.clear();
    for (const OptionSpec& word : command.words) rows.emplace_back("  " + word.name, word.help);
    add_rows(text, rows);
  }
  text += "\nExamples\n";
  for (const std::string& example : command.examples) text += "  " + example + "\n";
  return text;
}
}  // namespace ovendays::cli
