// SPDX-License-Identifier: MIT
// The only place that knows the command line and ends the process. Exit codes: 0 done, 1 the run
// failed, 2 something given was wrong.
#include <cstdio>
#include <exception>
#include <new>

#ifdef __GLIBC__
#include <malloc.h>
#endif

#include "commands.h"
#include "ovendays/base/error.h"
#include "ovendays/heat/integrator.h"
#include "ovendays/results/results.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
using Words = std::vector<std::string>;

bool asks_help(const std::string& word) { return word == "--help" || word == "-h"; }

// The command that the first words name; those words are taken off.
const CommandSpec& take_command(Words& words) {
  Words names;
  for (const CommandSpec& command : commands()) {
    const std::size_t blank = command.name.find(' ');
    const bool two = blank != std::string::npos;
    names.push_back(command.name.substr(0, blank));
    if (words[0] != names.back()) continue;
    if (two && (words.size() < 2 || words[1] != command.name.substr(blank + 1))) continue;
    words.erase(words.begin(), words.begin() + (two ? 2 : 1));
    return command;
  }
  names.emplace_back("help");
  const char* kind = words[0].starts_with("-") ? "unknown option " : "unknown command ";
  names.insert(names.end(), {"--help", "--version"});
  throw UsageError(kind + words[0] + suggestion(words[0], names) + " See: ovendays --help");
}

/// The version, and which of the SIMD instruction sets in this build the integrator uses here.
std::string version_text() {
  return std::string("ovendays ") + results::program_version() +
         "\nSIMD instruction set: " + heat::instruction_sets().front() + "\n";
}

void run(Words words) {
  if (words.empty()) throw UsageError("which command? See: ovendays --help");
  if (words[0] == "--version") return print(version_text());
  if (asks_help(words[0])) return print(program_help());
  if (words[0] == "help") {
    words.erase(words.begin());
    return print(words.empty() ? program_help() : command_help(take_command(words)));
  }
  const CommandSpec& command = take_command(words);
  for (const std::string& word : words) {
    if (asks_help(word)) return print(command_help(command));
  }
  command.run(Arguments(command, words));
}

int ended(const std::string& message, int code) {
  std::fprintf(stderr, "ovendays: %s\n", message.c_str());
  return code;
}

int run_and_tell(const Words& words) {
  try {
    run(words);
    return 0;
  } catch (const ReaderGone&) {
    return 0;
  } catch (const UsageError& error) {
    return ended(error.what(), 2);
  } catch (const base::InputError& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 2;
  } catch (const std::bad_alloc&) {
    return ended("out of memory", 1);
  } catch (const std::exception& error) {
    return ended(error.what(), 1);
  }
}

/// A season asks for memory in many pieces and gives them back to ask again: glibc keeps all but
/// the largest until the process ends. Each page given back to the system stops all threads for a
/// moment.
void keep_memory() {
#ifdef __GLIBC__
  constexpr int kMiB = 1 << 20;
  mallopt(M_MMAP_THRESHOLD, 32 * kMiB);
  mallopt(M_TRIM_THRESHOLD, 1024 * kMiB);
  mallopt(M_TOP_PAD, kMiB);
#endif
}
}  // namespace
}  // namespace ovendays::cli

int main(int count, char** words) {
  ovendays::cli::handle_signals();
  ovendays::cli::keep_memory();
  return ovendays::cli::run_and_tell({words + (count > 0 ? 1 : 0), words + count});
}
