// SPDX-License-Identifier: MIT
// Real weather files for tests that want them: they are no part of the repository.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string>

#include "catch.h"

namespace ovendays::test {

/// The path of a file such as "weather/723170TYA.CSV" in the folder that OVENDAYS_SHARED names, or
/// in the nearest folder "shared" beside the repository or above it; nullopt where there is none.
inline std::optional<std::string> find_shared(const std::string& name) {
  namespace fs = std::filesystem;
  // NOLINTNEXTLINE(concurrency-mt-unsafe): read once, nothing changes the environment
  if (const char* folder = std::getenv("OVENDAYS_SHARED")) {
    const fs::path file = fs::path(folder) / name;
    return fs::exists(file) ? std::optional(file.string()) : std::nullopt;
  }
  fs::path folder = fs::path(OVENDAYS_SOURCE_DIR).parent_path();
  while (true) {
    const fs::path file = folder / "shared" / name;
    if (fs::exists(file)) return file.string();
    if (folder == folder.parent_path()) return std::nullopt;
    folder = folder.parent_path();
  }
}

/// The same, and a word in the log where the test has to be left out.
inline std::optional<std::string> want_shared(const std::string& name) {
  auto file = find_shared(name);
  if (!file) WARN("SKIPPED: no shared/" + name + " near the repository (OVENDAYS_SHARED)");
  return file;
}
}  // namespace ovendays::test
