// SPDX-License-Identifier: MIT
#include "completion.h"

#include <algorithm>
#include <cctype>
#include <sstream>

namespace ovendays::cli {
namespace {
// "CASE.toml" -> "toml"; empty for a placeholder without an ending.
std::string ending_of(const std::string& placeholder) {
  const std::size_t dot = placeholder.rfind('.');
  return dot == std::string::npos ? "" : placeholder.substr(dot + 1);
}

bool is_placeholder(const std::string& word) {
  const std::string stem = word.substr(0, word.find('.'));
  return !stem.empty() && std::all_of(stem.begin(), stem.end(), [](unsigned char c) {
    return std::isupper(c) != 0;
  });
}

bool takes_value(const CommandSpec& command, const std::string& word) {
  return std::any_of(
      command.options.begin(), command.options.end(), [&word](const OptionSpec& option) {
        return "--" + option.name == word && !option.value.empty();
      });
}

// The placeholders of a line of the synopsis that are no option's value.
std::vector<std::string> file_placeholders(const CommandSpec& command, const std::string& line) {
  std::vector<std::string> found;
  std::istringstream words(line);
  bool value_next = false;
  for (std::string word; words >> word;) {
    std::erase_if(word, [](char c) { return c == '[' || c == ']'; });
    if (!value_next && is_placeholder(word)) found.push_back(word);
    value_next = takes_value(command, word);
  }
  return found;
}
}  // namespace

Offer value_offer(const CommandSpec& command, const OptionSpec& option) {
  using Kind = Offer::Kind;
  if (!option.choices.empty()) return {Kind::kWords, option.choices};
  if (option.value == "FOLDER") return {Kind::kFolders};
  if (option.value == "NAME=FILE") {
    Offer offer{Kind::kPicture};
    for (const OptionSpec& word : command.words) offer.words.push_back(word.name);
    return offer;
  }
  if (option.value.substr(0, option.value.find('.')) != "FILE") return {};
  const std::string ending = ending_of(option.value);
  return {Kind::kFiles, ending.empty() ? std::vector<std::string>{} : std::vector{ending}};
}

Offer argument_offer(const CommandSpec& command) {
  if (command.most_files == 0) return {};
  Offer offer{Offer::Kind::kFiles};
  for (const std::string& line : command.synopsis) {
    for (const std::string& word : file_placeholders(command, line)) {
      const std::string ending = ending_of(word);
      if (ending.empty()) return {Offer::Kind::kFiles};
      const bool known =
          std::find(offer.words.begin(), offer.words.end(), ending) != offer.words.end();
      if (!known) offer.words.push_back(ending);
    }
  }
  return offer;
}

std::string joined(const std::vector<std::string>& words,
                   const std::string& between,
                   const std::string& before,
                   const std::string& after) {
  std::string text;
  for (const std::string& word : words) {
    if (!text.empty()) text += between;
    text.append(before).append(word).append(after);
  }
  return text;
}
}  // namespace ovendays::cli
