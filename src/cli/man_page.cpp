// SPDX-License-Identifier: MIT
#include "man_page.h"

#include <algorithm>
#include <sstream>

namespace ovendays::cli {
namespace {
// In prose a hyphen stays one; a word that begins with "-" is typed, and needs a real minus sign,
// as does every "-" of an example.
std::string roff(const std::string& text, bool typed) {
  std::string out;
  bool in_option = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == ' ') in_option = false;
    if (c == '-' && (i == 0 || text[i - 1] == ' ' || text[i - 1] == '(')) in_option = true;
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-' && (typed || in_option)) {
      out += "\\-";
    } else if (c == '\'' && typed) {
      out += "\\(aq";
    } else {
      out += c;
    }
  }
  // A line must not begin with what marks a request.
  if (!out.empty() && (out[0] == '.' || out[0] == '\'')) out.insert(0, "\\&");
  return out;
}

std::string upper(std::string text) {
  std::transform(
      text.begin(), text.end(), text.begin(), [](unsigned char c) { return std::toupper(c); });
  return text;
}

std::string page_head(const std::string& name,
                      const std::string& summary,
                      const ManContext& context) {
  return ".\\\" SPDX-License-Identifier: MIT\n.\\\" Written by the build from the program's own "
         "table of options.\n.TH " +
         upper(roff(name, true)) + " 1 \"" + context.date + "\" \"ovendays " + context.version +
         "\" \"User Commands\"\n.SH NAME\n" + roff(name, true) + " \\- " + roff(summary, false) +
         "\n";
}

// A term and what it means.
std::string man_entry(const std::string& name, const std::string& value, const std::string& help) {
  std::string text = ".TP\n\\fB" + roff(name, true) + "\\fR";
  if (!value.empty()) text += " \\fI" + roff(value, true) + "\\fR";
  return text + "\n" + roff(help, false) + "\n";
}

std::string man_examples(const std::vector<std::string>& lines) {
  std::string text = ".SH EXAMPLES\n.EX\n";
  for (const std::string& line : lines) text += roff(line, true) + "\n";
  return text + ".EE\n";
}

std::string exit_status() {
  return ".SH EXIT STATUS\n" + man_entry("0", "", "Done.") + man_entry("1", "", "The run failed.") +
         man_entry("2", "", "Something given on the command line or in a file was wrong.");
}

std::string man_files(const ManContext& context) {
  return ".SH FILES\n" +
         man_entry(context.share + "/weather", "", "Three made weather years of invented places.") +
         man_entry(
             context.share + "/demo-study",
             "",
             "A study to try \"ovendays compare\" with; say with --out where its result goes.");
}

// References to the pages in a list, in alphabetical order.
std::string see_also(std::vector<std::string> names) {
  std::sort(names.begin(), names.end());
  std::string text = ".SH SEE ALSO\n";
  for (std::size_t i = 0; i < names.size(); ++i)
    text += ".BR " + roff(names[i], true) + " (1)" + (i + 1 < names.size() ? "," : "") + "\n";
  return text;
}
}  // namespace

std::string man_name(const CommandSpec& command) {
  std::string name = "ovendays-" + command.name;
  std::replace(name.begin(), name.end(), ' ', '-');
  return name;
}

std::string program_man_page(const ManContext& context) {
  std::string text =
      page_head(
          "ovendays", "days of a year on which a box solar oven gets the cooking done", context) +
      ".SH SYNOPSIS\n.B ovendays\n.I command\n[\\fIoptions\\fR]\n.br\n.B ovendays help\n"
      ".I command\n.SH DESCRIPTION\n" +
      roff(program_about(), false) + "\n.SH COMMANDS\n";
  std::vector<std::string> pages;
  for (const CommandSpec& command : commands()) {
    text += man_entry(command.name, "", command.summary);
    pages.push_back(man_name(command));
  }
  text += man_entry("help", "COMMAND", "all about one command");
  text += ".SH OPTIONS\n" + man_entry("--help", "", "list the commands") +
          man_entry("--version", "", "print the version");
  text += man_examples(
      {"ovendays season --demo",
       "ovendays new my-yard.toml",
       "ovendays season my-yard.toml --weather " + context.share + "/weather/high_desert.epw"});
  return text + exit_status() + man_files(context) + see_also(pages);
}

std::string command_man_page(const CommandSpec& command, const ManContext& context) {
  std::string text = page_head(man_name(command), command.summary, context) + ".SH SYNOPSIS\n";
  for (const std::string& line : command.synopsis) {
    if (&line != &command.synopsis.front()) text += ".br\n";
    text += ".B ovendays\n" + roff(line, true) + "\n";
  }
  text += ".SH DESCRIPTION\n" + roff(command.about, false) + "\n.SH OPTIONS\n";
  for (const OptionSpec& option : command.options)
    text += man_entry("--" + option.name, option.value, option.help);
  text += man_entry("--help", "", "print the help of this command");
  if (!command.words.empty()) {
    text += ".SH " + upper(roff(command.words_heading, false)) + "\n";
    for (const OptionSpec& word : command.words) text += man_entry(word.name, "", word.help);
  }
  text += man_examples(command.examples) + exit_status() + man_files(context);
  std::vector<std::string> pages = {"ovendays"};
  const std::string family = command.name.substr(0, command.name.find(' '));
  for (const CommandSpec& other : commands()) {
    const bool related = other.name == family || other.name.starts_with(family + " ");
    if (related && other.name != command.name) pages.push_back(man_name(other));
  }
  return text + see_also(pages);
}
}  // namespace ovendays::cli
