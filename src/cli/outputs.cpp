// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "ovendays/base/error.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
namespace fs = std::filesystem;

// Resolves links and "..", so that two names of one file compare equal.
fs::path plain(const std::string& file) {
  std::error_code ignored;
  const fs::path whole = fs::absolute(file, ignored);
  const fs::path path = fs::weakly_canonical(whole, ignored);
  return ignored ? whole : path;
}

// Says why a file cannot be written; empty if it can.
std::string complaint(const std::string& file) {
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (fs::is_directory(status)) return "it is a directory";
  if (fs::exists(status) && !fs::is_regular_file(status)) return "it is not a plain file";
  fs::path folder = fs::path(file).parent_path();
  if (folder.empty()) folder = ".";
  if (!fs::is_directory(folder, error)) return "there is no folder " + folder.string();
  if (::access(folder.c_str(), W_OK | X_OK) != 0) {
    return "the folder " + folder.string() + ": " + std::strerror(errno);
  }
  return "";
}
}  // namespace

void Outputs::add(const std::string& what, const std::string& file) {
  targets_.push_back({what, file});
}

void Outputs::input(const std::string& file) { inputs_.push_back(file); }

void Outputs::check() const {
  std::vector<base::Fault> faults;
  for (std::size_t i = 0; i < targets_.size(); ++i) {
    const Target& target = targets_[i];
    const auto refuse = [&](const std::string& why) {
      faults.push_back({target.file, 0, target.what, "cannot be written: " + why, ""});
    };
    const std::string why = complaint(target.file);
    if (!why.empty()) refuse(why);
    for (const std::string& input : inputs_) {
      if (plain(input) == plain(target.file)) refuse("it is also read");
    }
    for (std::size_t j = 0; j < i; ++j) {
      if (plain(targets_[j].file) == plain(target.file)) {
        refuse("it is also the target of " + targets_[j].what);
      }
    }
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
}
}  // namespace ovendays::cli
