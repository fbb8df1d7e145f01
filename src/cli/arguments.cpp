// SPDX-License-Identifier: MIT
#include "arguments.h"

#include <algorithm>
#include <boost/program_options.hpp>
#include <charconv>

namespace ovendays::cli {
namespace {
namespace po = boost::program_options;

po::options_description description_of(const CommandSpec& command) {
  po::options_description description;
  for (const OptionSpec& option : command.options) {
    if (option.value.empty()) {
      description.add_options()(option.name.c_str(), "");
    } else {
      description.add_options()(option.name.c_str(), po::value<std::string>(), "");
    }
  }
  description.add_options()("file", po::value<std::vector<std::string>>(), "");
  return description;
}

// Whether an option may be given several times.
bool may_repeat(const CommandSpec& command, const std::string& name) {
  return std::any_of(
      command.options.begin(), command.options.end(), [&name](const OptionSpec& option) {
        return option.repeats && option.name == name;
      });
}

std::vector<std::string> option_names(const CommandSpec& command) {
  std::vector<std::string> names;
  for (const OptionSpec& option : command.options) names.push_back("--" + option.name);
  names.emplace_back("--help");
  return names;
}

// Suggests the closest known option and points to the help.
[[noreturn]] void unknown_option(const CommandSpec& command, const std::string& word) {
  const std::string name = word.substr(0, word.find('='));
  throw UsageError("unknown option " + name + suggestion(name, option_names(command)) +
                   " See: ovendays help " + command.name);
}

// There are no short options, because a value such as -7 must not be taken for one. Long options
// must be written in full, so that adding an option never changes the meaning of a script.
po::parsed_options parsed(const CommandSpec& command, const std::vector<std::string>& words) {
  namespace style = po::command_line_style;
  const po::options_description description = description_of(command);
  po::positional_options_description positions;
  positions.add("file", -1);
  try {
    return po::command_line_parser(words)
        .options(description)
        .positional(positions)
        .style(style::allow_long | style::long_allow_adjacent | style::long_allow_next)
        .run();
  } catch (const po::unknown_option& error) {
    unknown_option(command, error.get_option_name());
  } catch (const po::error_with_option_name& error) {
    const std::string name = error.get_option_name();
    for (const OptionSpec& option : command.options) {
      if ("--" + option.name != name) continue;
      if (option.value.empty()) throw UsageError(name + " takes no value");
      std::string text = name;
      text += " needs a value: ";
      text += name;
      text += ' ';
      text += option.value;
      throw UsageError(text);
    }
    throw UsageError(error.what());
  } catch (const po::error& error) {
    throw UsageError(error.what());
  }
}
}  // namespace

Arguments::Arguments(const CommandSpec& command, const std::vector<std::string>& words)
    : command_(command.name) {
  for (const po::option& option : parsed(command, words).options) {
    if (option.position_key >= 0) {
      const std::string& file = option.value.front();
      if (file.size() > 1 && file[0] == '-') unknown_option(command, file);
      files_.push_back(file);
      continue;
    }
    const std::string value = option.value.empty() ? std::string() : option.value.front();
    std::vector<std::string>& given = values_[option.string_key];
    given.push_back(value);
    if (given.size() > 1 && !may_repeat(command, option.string_key)) {
      throw UsageError("--" + option.string_key + " is given twice");
    }
  }
  if (files_.size() > command.most_files) {
    throw UsageError("unexpected argument '" + files_[command.most_files] + "': ovendays " +
                     command.name + " takes " + (command.most_files == 1 ? "one file" : "no file") +
                     " (put a value that contains blanks in quotes)");
  }
}

std::optional<std::string> Arguments::value(const std::string& option) const {
  const auto found = values_.find(option);
  if (found == values_.end()) return std::nullopt;
  if (found->second.front().empty()) throw UsageError("--" + option + " is empty");
  return found->second.front();
}

std::vector<std::string> Arguments::values(const std::string& option) const {
  const auto found = values_.find(option);
  if (found == values_.end()) return {};
  for (const std::string& each : found->second) {
    if (each.empty()) throw UsageError("--" + option + " is empty");
  }
  return found->second;
}

std::optional<long> Arguments::integer(const std::string& option, long least, long most) const {
  const std::optional<std::string> text = value(option);
  if (!text) return std::nullopt;
  long number = 0;
  const char* end = text->data() + text->size();
  const auto [stop, error] = std::from_chars(text->data(), end, number);
  if (error != std::errc{} || stop != end || number < least || number > most) {
    throw UsageError("--" + option + ": '" + *text + "', allowed " + std::to_string(least) +
                     " to " + std::to_string(most));
  }
  return number;
}

std::optional<double> Arguments::quantity(const std::string& option,
                                          base::Dimension dimension,
                                          double least,
                                          double most) const {
  const std::optional<std::string> text = value(option);
  if (!text) return std::nullopt;
  const std::optional<double> number = base::parse_quantity(*text, dimension);
  if (!number) throw UsageError("--" + option + ": " + base::quantity_complaint(*text, dimension));
  if (!(*number >= least && *number <= most)) {
    throw UsageError("--" + option + ": " + *text + ", allowed " +
                     base::quantity_text(least, dimension) + " to " +
                     base::quantity_text(most, dimension));
  }
  return number;
}

const std::string& Arguments::only_file(const std::string& what) const {
  if (files_.empty()) {
    throw UsageError("ovendays " + command_ + " needs " + what + ". See: ovendays help " +
                     command_);
  }
  return files_.front();
}
}  // namespace ovendays::cli
