// SPDX-License-Identifier: MIT
// Manual pages and completions as the build wrote them, against the table of commands.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "arguments.h"
#include "catch.h"

using namespace ovendays;
using namespace ovendays::cli;

namespace {
namespace fs = std::filesystem;
const fs::path kFolder = OVENDAYS_DOCUMENTS;

std::string content_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  INFO(file);
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string page_of(const CommandSpec& command) {
  std::string name = "ovendays-" + command.name + ".1";
  for (char& c : name) {
    if (c == ' ') c = '-';
  }
  return name;
}

// As it stands in a page: every hyphen is a minus sign.
std::string typed(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '-' ? std::string("\\-") : std::string(1, c);
  return out;
}
}  // namespace

TEST_CASE("every command has a manual page that names all its options", "[package][unit]") {
  std::set<std::string> pages;
  for (const auto& file : fs::directory_iterator(kFolder / "man1"))
    pages.insert(file.path().filename().string());
  CHECK(pages.size() == commands().size() + 1);  // and the program's own
  CHECK(pages.contains("ovendays.1"));
  for (const CommandSpec& command : commands()) {
    INFO(command.name);
    REQUIRE(pages.contains(page_of(command)));
    const std::string page = content_of(kFolder / "man1" / page_of(command));
    for (const OptionSpec& option : command.options) {
      INFO(option.name);
      CHECK(test::contains(page, ".TP\n\\fB\\-\\-" + typed(option.name) + "\\fR"));
    }
    for (const std::string& line : command.synopsis)
      CHECK(test::contains(page, ".B ovendays\n" + typed(line) + "\n"));
    for (const OptionSpec& word : command.words)
      CHECK(test::contains(page, "\\fB" + typed(word.name) + "\\fR"));
  }
}

TEST_CASE("the program's manual page names every command", "[package][unit]") {
  const std::string page = content_of(kFolder / "man1" / "ovendays.1");
  for (const CommandSpec& command : commands())
    CHECK(test::contains(page, "\\fB" + typed(command.name) + "\\fR"));
}

TEST_CASE("the completions of every shell know all commands and options", "[package][unit]") {
  const std::string bash = content_of(kFolder / "ovendays.bash");
  const std::string zsh = content_of(kFolder / "_ovendays");
  const std::string fish = content_of(kFolder / "ovendays.fish");
  for (const CommandSpec& command : commands()) {
    INFO(command.name);
    CHECK(test::contains(bash, "    '" + command.name + " '*)"));
    CHECK(test::contains(zsh, "    '" + command.name + " '*)"));
    CHECK(test::contains(fish, "__ovendays_using \\'" + command.name + "\\'"));
    for (const OptionSpec& option : command.options) {
      INFO(option.name);
      CHECK(test::contains(bash, "--" + option.name + " "));
      CHECK(test::contains(zsh, "--" + option.name));
      CHECK(test::contains(fish, " -l " + option.name + " "));
    }
  }
}
