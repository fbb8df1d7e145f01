// SPDX-License-Identifier: MIT
// The program run in a folder of its own, with a limit of time: a hang is a failure, not a wait.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <stdexcept>
#include <string>

namespace ovendays::test {

struct ProgramRun {
  int code = -1;  ///< 124 where it took longer than a minute; 128 + number where a signal ended it
  std::string out;
  std::string err;
};

/// The bytes of a file, or nothing where there is none.
inline std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

class ScratchFolder {
 public:
  ScratchFolder() {
    std::string name =
        (std::filesystem::temp_directory_path() / "ovendays_hostile_XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  ~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
    return path_ / name;
  }
  void write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
  }
  [[nodiscard]] std::set<std::string> names() const {
    std::set<std::string> all;
    for (const auto& each : std::filesystem::directory_iterator(path_)) {
      all.insert(each.path().filename().string());
    }
    return all;
  }
  /// @param words for the shell, after the program's name
  /// @param before for the shell, before it ("setpriv ...")
  [[nodiscard]] ProgramRun run(const std::string& words, const std::string& before = "") const {
    const std::string out = path_.string() + ".out";
    const std::string err = path_.string() + ".err";
    const std::string line = "cd '" + path_.string() + "' && " + before + " timeout 300 '" +
                             OVENDAYS_BINARY + "' " + words + " > '" + out + "' 2> '" + err + "'";
    const int status = std::system(line.c_str());
    ProgramRun ran;
    ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    ran.out = bytes_of(out);
    ran.err = bytes_of(err);
    std::filesystem::remove(out);
    std::filesystem::remove(err);
    return ran;
  }

 private:
  std::filesystem::path path_;
};
}  // namespace ovendays::test
