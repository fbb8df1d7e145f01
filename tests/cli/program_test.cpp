// SPDX-License-Identifier: MIT
// The program itself, run as a user runs it: exit codes, what it says, what it leaves behind.
#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>

#include "catch.h"
#include "ovendays/base/file.h"
#include "ovendays/heat/integrator.h"
#include "text_lines.h"

using namespace ovendays;
using test::contains;
using test::lines_in;

namespace {
namespace fs = std::filesystem;

struct Ran {
  int code = -1;
  std::string out;
  std::string err;
};

// A folder of this test's own in which the program runs; gone with it.
struct Folder {
  fs::path path;
  Folder() {
    std::string name = (fs::temp_directory_path() / "ovendays_cli_XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path = name;
  }
  ~Folder() { fs::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  /// @param command after the program's name, for the shell
  [[nodiscard]] Ran run(const std::string& command) const {
    const fs::path out = path.string() + ".out";
    const fs::path err = path.string() + ".err";
    const std::string line = "cd '" + path.string() + "' && '" + OVENDAYS_BINARY + "' " + command +
                             " > '" + out.string() + "' 2> '" + err.string() + "'";
    const int status = std::system(line.c_str());
    Ran ran{.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1,
            .out = base::read_file(out.string()),
            .err = base::read_file(err.string())};
    fs::remove(out);
    fs::remove(err);
    return ran;
  }
  void write(const char* name, const std::string& text) const {
    base::write_file((path / name).string(), text);
  }
  [[nodiscard]] bool has(const char* name) const { return fs::exists(path / name); }
  [[nodiscard]] bool empty() const { return fs::is_empty(path); }
};
}  // namespace

TEST_CASE("help and version go to standard output with code 0", "[cli][unit]") {
  const Folder folder;
  for (const char* command : {"--help",
                              "-h",
                              "help",
                              "help season",
                              "season --help",
                              "new -h",
                              "weather --help",
                              "weather make --help",
                              "help weather make"}) {
    const Ran ran = folder.run(command);
    INFO(command << "\n" << ran.err);
    CHECK(ran.code == 0);
    CHECK(ran.err.empty());
    CHECK(contains(ran.out, "ovendays"));
  }
  CHECK(contains(folder.run("help season").out, "--threads"));
  CHECK(contains(folder.run("help weather make").out, "--seed"));
  const std::string version = folder.run("--version").out;
  CHECK(version.rfind("ovendays ", 0) == 0);
  CHECK(contains(version, "\nSIMD instruction set: " + heat::instruction_sets().front() + "\n"));
  CHECK(folder.empty());
}

TEST_CASE("a slip in the command line ends with code 2 and one line", "[cli][unit]") {
  const Folder folder;
  for (const char* command : {"",
                              "seson a.toml",
                              "--hlep",
                              "help seson",
                              "season",
                              "new",
                              "weather",
                              "weather make",
                              "season --demo --unit F",
                              "season --demo --units K",
                              "season --demo --threads none",
                              "season --demo extra.toml",
                              "season --demo --weather a.epw",
                              "season a.toml b.toml",
                              "weather a.epw --clock-shift 3kg"}) {
    const Ran ran = folder.run(command);
    INFO(command << "\n" << ran.err);
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    CHECK(lines_in(ran.err) == 1);
  }
  CHECK(contains(folder.run("seson").err, "did you mean season?"));
  CHECK(contains(folder.run("season --demo --unit F").err, "did you mean --units?"));
  CHECK(folder.empty());
}

TEST_CASE("files that are missing or no files end with code 2", "[cli][unit]") {
  const Folder folder;
  fs::create_directory(folder.path / "folder");
  for (const char* command : {"season none.toml",
                              "season folder",
                              "weather none.epw",
                              "weather folder",
                              "weather make none.toml"}) {
    const Ran ran = folder.run(command);
    INFO(command << "\n" << ran.err);
    CHECK(ran.code == 2);
    CHECK(lines_in(ran.err) == 1);
  }
  CHECK(contains(folder.run("season none.toml").err, "none.toml: cannot be read"));
  CHECK(contains(folder.run("season folder").err, "it is a directory"));
}

TEST_CASE("new writes the starter case once and leaves an old file alone", "[cli][unit]") {
  const Folder folder;
  const Ran first = folder.run("new my.toml");
  INFO(first.err);
  REQUIRE(first.code == 0);
  CHECK(contains(first.out, "ovendays season my.toml"));
  CHECK(contains(base::read_file((folder.path / "my.toml").string()), "[oven"));
  folder.write("my.toml", "mine");
  const Ran second = folder.run("new my.toml");
  CHECK(second.code == 2);
  CHECK(contains(second.err, "is there already"));
  CHECK(base::read_file((folder.path / "my.toml").string()) == "mine");
  CHECK(folder.run("new my.toml --force").code == 0);
  CHECK(folder.run("new none/my.toml").code == 2);
}

TEST_CASE("all faults of a case are told in one go and nothing is written", "[cli][unit]") {
  const Folder folder;
  REQUIRE(folder.run("new my.toml").code == 0);
  std::string text = base::read_file((folder.path / "my.toml").string());
  text += "\n[spott]\nname = \"x\"\n[routin]\nset_out = \"25:00\"\n";
  folder.write("my.toml", text);
  const Ran ran = folder.run("season my.toml --csv my.csv");
  INFO(ran.err);
  CHECK(ran.code == 2);
  CHECK(lines_in(ran.err) == 2);
  CHECK(contains(ran.err, "my.toml:"));
  CHECK(contains(ran.err, "spott"));
  CHECK(contains(ran.err, "routin"));
  CHECK(std::distance(fs::directory_iterator(folder.path), fs::directory_iterator{}) == 1);
}

TEST_CASE("outputs are looked at before the run", "[cli][unit]") {
  const Folder folder;
  fs::create_directory(folder.path / "folder");
  for (const char* command : {"season --demo --out none/a.h5",
                              "season --demo --out folder",
                              "season --demo --csv /dev/null",
                              "season --demo --csv a --svg ./a"}) {
    const Ran ran = folder.run(command);
    INFO(command << "\n" << ran.err);
    CHECK(ran.code == 2);
    CHECK(lines_in(ran.err) == 1);
    CHECK(contains(ran.err, "cannot be written"));
  }
  CHECK(lines_in(folder.run("season --demo --out none/a.h5 --csv folder").err) == 2);
  REQUIRE(folder.run("new my.toml").code == 0);
  CHECK(contains(folder.run("season my.toml --csv my.toml").err, "it is also read"));
  CHECK(contains(base::read_file((folder.path / "my.toml").string()), "[oven"));
}

TEST_CASE("weather is made, checked, and moved by the site's options", "[cli][unit]") {
  const Folder folder;
  const std::string normals = std::string(OVENDAYS_SOURCE_DIR) + "/weather/high_desert.toml";
  const Ran made = folder.run("weather make '" + normals + "' --seed 3 --out made.epw");
  INFO(made.err);
  REQUIRE(made.code == 0);
  const Ran checked = folder.run("weather made.epw");
  INFO(checked.out << checked.err);
  CHECK(checked.code == 0);
  CHECK(contains(checked.out, "Ochre Mesa"));
  CHECK(contains(checked.out, "in step with the sun"));
  CHECK(contains(checked.out, "horizontal infrared"));
  const Ran moved = folder.run("weather made.epw --clock-shift '-45 min'");
  CHECK(moved.code == 0);
  CHECK(contains(moved.out, "OUT OF STEP"));
  // The case whose clock is off is refused by a season.
  CHECK(folder.run("weather made.epw --latitude 95").code == 2);
}

TEST_CASE("a full or closed standard output does not pass for success", "[cli][unit]") {
  const Folder folder;
  if (fs::exists("/dev/full")) {
    const std::string line =
        std::string("'") + OVENDAYS_BINARY + "' --help > /dev/full 2>/dev/null";
    const int status = std::system(line.c_str());
    CHECK(WEXITSTATUS(status) == 1);
  }
  // A reader that is gone before the first byte: no word, no failure.
  const std::string err = (folder.path / "err").string();
  const std::string line = std::string("(sleep 0.2; '") + OVENDAYS_BINARY + "' --help 2>'" + err +
                           "'; echo $? >>'" + err + "') | true";
  CHECK(std::system(line.c_str()) == 0);
  ::usleep(600'000);  // the left side of the pipe may outlive the shell's answer
  CHECK(base::read_file(err) == "0\n");
}

TEST_CASE("an interrupted season leaves nothing and ends with 128 + the signal", "[cli][unit]") {
  const Folder folder;
  for (const int number : {SIGINT, SIGTERM}) {
    const pid_t child = ::fork();
    if (child == 0) {
      const int nowhere = ::open("/dev/null", O_WRONLY);
      ::dup2(nowhere, STDOUT_FILENO);
      ::dup2(nowhere, STDERR_FILENO);
      if (::chdir(folder.path.c_str()) != 0) ::_exit(99);
      ::execl(OVENDAYS_BINARY, "ovendays", "season", "--demo", "--threads", "1", nullptr);
      ::_exit(98);
    }
    ::usleep(300'000);
    ::kill(child, number);
    int status = 0;
    ::waitpid(child, &status, 0);
    REQUIRE(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 128 + number);
    CHECK(folder.empty());
  }
}
