// SPDX-License-Identifier: MIT
// `ovendays rate` as a user runs it.
#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>

#include "catch.h"
#include "ovendays/base/file.h"

using namespace ovendays;
using test::contains;

namespace {
namespace fs = std::filesystem;

struct Ran {
  int code;
  std::string text;  ///< both streams
};

class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "ovendays_rate_XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] Ran run(const std::string& command) const {
    const std::string out = (path_ / "said").string();
    const std::string line = "cd '" + path_.string() + "' && '" + OVENDAYS_BINARY + "' " + command +
                             " > '" + out + "' 2>&1";
    const int status = std::system(line.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, base::read_file(out)};
  }
  [[nodiscard]] std::string read(const char* name) const {
    return base::read_file((path_ / name).string());
  }
  [[nodiscard]] bool has(const char* name) const { return fs::exists(path_ / name); }

 private:
  fs::path path_;
};
}  // namespace

TEST_CASE("rate prints the three figures of the starter case and writes them", "[study][unit]") {
  const Folder folder;
  REQUIRE(folder.run("new my.toml").code == 0);
  const Ran ran = folder.run("rate my.toml --out rating.toml");
  INFO(ran.text);
  REQUIRE(ran.code == 0);
  for (const char* part : {"F1 ", "F2 ", "P50 ", "from memory", "Written: rating.toml"})
    CHECK(contains(ran.text, part));
  CHECK(contains(folder.read("rating.toml"), "F1_Km2W = 0."));
  for (std::size_t at = 0; at < ran.text.size();) {  // fits a terminal
    const std::size_t end = std::min(ran.text.find('\n', at), ran.text.size());
    CHECK(end - at <= 80);
    at = end + 1;
  }
  // The same figures every time.
  CHECK(folder.run("rate my.toml --out rating.toml").text == ran.text);
}

TEST_CASE("errors on rate's command line exit with code 2 and a message", "[study][unit]") {
  const Folder folder;
  REQUIRE(folder.run("new my.toml").code == 0);
  const auto refused = [&](const char* command, const char* word) {
    const Ran ran = folder.run(command);
    INFO(command << "\n" << ran.text);
    CHECK(ran.code == 2);
    CHECK(contains(ran.text, word));
  };
  refused("rate", "needs a case file");
  refused("rate my.toml --vesel x", "did you mean --vessel?");
  refused("rate my.toml --vessel 'blak pot'", "did you mean black pot?");
  refused("rate my.toml --irradiance '500 W/m2'", "allowed");
  refused("rate my.toml --air '20 kg'", "is not a temperature");
  refused("rate my.toml --out my.toml", "it is also read");
  refused("rate my.toml --out none/a.toml", "there is no folder");
  refused("rate none.toml", "cannot be read");
}

TEST_CASE("rate uses the conditions given as options", "[study][unit]") {
  const Folder folder;
  REQUIRE(folder.run("new my.toml").code == 0);
  const Ran ran = folder.run(
      "rate my.toml --irradiance '700 W/m2' --air '20 C' --wind '2 m/s' --vessel 'loaf pan'");
  INFO(ran.text);
  CHECK(ran.code == 0);
  CHECK(contains(ran.text, "700 W/m2 on the glass, air 20 C, wind 2.0 m/s"));
  CHECK(contains(ran.text, "'loaf pan'"));
}
