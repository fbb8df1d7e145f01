// SPDX-License-Identifier: MIT
// Writing that fails or is cut off: the old file stays whole, the new one never appears by halves.
// The program writes NAME.PID.part and renames it; a child's number is known before it begins, so
// that a test can lay a pipe, or a device that is always full, in the way.
#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <array>
#include <functional>
#include <vector>

#include "catch.h"
#include "run_program.h"

using namespace ovendays;
using test::contains;
using test::ScratchFolder;
namespace fs = std::filesystem;

namespace {
const std::string kNormals = std::string(OVENDAYS_SOURCE_DIR) + "/weather/high_desert.toml";

struct Child {
  pid_t id = -1;
  /// @return the exit code, or 128 + number where a signal ended it
  [[nodiscard]] int wait() const {
    int status = 0;
    ::waitpid(id, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  }
};

// Starts the program in the folder once `prepare` has laid out what needs the child's number.
Child start(const ScratchFolder& folder,
            std::vector<std::string> words,
            const std::function<void(pid_t)>& prepare) {
  std::array<int, 2> gate{};
  if (::pipe(gate.data()) != 0) throw std::runtime_error("no pipe");
  const Child child{::fork()};
  if (child.id == 0) {
    char go = 0;
    if (::read(gate[0], &go, 1) != 1 || ::chdir(folder.path().c_str()) != 0) ::_exit(99);
    const int err = ::open("err", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    const int out = ::open("/dev/null", O_WRONLY);
    ::dup2(out, STDOUT_FILENO);
    ::dup2(err, STDERR_FILENO);
    ::alarm(60);
    std::vector<char*> list = {const_cast<char*>("ovendays")};
    for (std::string& word : words) list.push_back(word.data());
    list.push_back(nullptr);
    ::execv(OVENDAYS_BINARY, list.data());
    ::_exit(98);
  }
  prepare(child.id);
  if (::write(gate[1], "g", 1) != 1) throw std::runtime_error("the child is gone");
  ::close(gate[0]);
  ::close(gate[1]);
  return child;
}

std::string part_name(const std::string& target, pid_t child) {
  return target + "." + std::to_string(child) + ".part";
}

struct Cut {
  int code;
  std::string part;  ///< name of the unfinished file
};

// Lets the program write into a pipe, takes the first bytes, and sends the signal: at that moment
// it is in the middle of its file, which is larger than a pipe holds.
Cut cut_off_in_the_middle(const ScratchFolder& folder, int signal) {
  std::string part;
  const Child child =
      start(folder, {"weather", "make", kNormals, "--out", "year.epw"}, [&](pid_t id) {
        part = part_name("year.epw", id);
        REQUIRE(::mkfifo((folder / part).c_str(), 0600) == 0);
      });
  const int reader = ::open((folder / part).c_str(), O_RDONLY);
  std::array<char, 9> first{};
  CHECK(::read(reader, first.data(), 8) == 8);
  CHECK(std::string(first.data()) == "LOCATION");
  ::kill(child.id, signal);
  const int code = child.wait();
  ::close(reader);
  return {code, part};
}
}  // namespace

TEST_CASE("a run killed in the middle of its file leaves the old one whole", "[cli][regression]") {
  const ScratchFolder folder;
  folder.write("year.epw", "old");
  const Cut cut = cut_off_in_the_middle(folder, SIGKILL);
  CHECK(cut.code == 128 + SIGKILL);
  CHECK(test::bytes_of(folder / "year.epw") == "old");
  // Nobody can tidy up after SIGKILL; what is left has a name of its own.
  CHECK(folder.names() == std::set<std::string>{"err", "year.epw", cut.part});
}

TEST_CASE("a run killed before its first file is done leaves none", "[cli][regression]") {
  const ScratchFolder folder;
  const Cut cut = cut_off_in_the_middle(folder, SIGKILL);
  CHECK_FALSE(fs::exists(folder / "year.epw"));
}

TEST_CASE("a run interrupted in the middle of its file tidies up", "[cli][regression]") {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    const ScratchFolder folder;
    folder.write("year.epw", "old");
    const Cut cut = cut_off_in_the_middle(folder, signal);
    CHECK(cut.code == 128 + signal);
    CHECK(test::bytes_of(folder / "year.epw") == "old");
    CHECK(folder.names() == std::set<std::string>{"err", "year.epw"});
  }
}

TEST_CASE("a full disk is a failed run that leaves the old files whole", "[cli][regression]") {
  if (!fs::exists("/dev/full")) {
    WARN("SKIPPED: there is no /dev/full here");
    return;
  }
  for (const char* name : {"a.h5", "a.csv", "a.svg", "a.html"}) {
    const ScratchFolder folder;
    folder.write(name, "old");
    const Child child =
        start(folder,
              {"season",
               "--demo",
               "--no-causes",
               "--spread",
               "0",
               "--quiet",
               "--out",
               "a.h5",
               "--csv",
               "a.csv",
               "--svg",
               "a.svg",
               "--html",
               "a.html"},
              [&](pid_t id) { fs::create_symlink("/dev/full", folder / part_name(name, id)); });
    const int code = child.wait();
    const std::string err = test::bytes_of(folder / "err");
    INFO(name << "\n" << err);
    CHECK(code == 1);
    CHECK(contains(err, std::string(name) + ": cannot be written: No space left on device"));
    CHECK(test::bytes_of(folder / name) == "old");
    for (const std::string& left : folder.names()) CHECK_FALSE(contains(left, ".part"));
  }
}

TEST_CASE("a device is refused as output", "[cli][regression]") {
  const ScratchFolder folder;
  for (const char* words : {"season --demo --spread 0 --quiet --out /dev/full",
                            "season --demo --spread 0 --quiet --html /dev/full",
                            "new --force /dev/full"}) {
    const test::ProgramRun ran = folder.run(words);
    INFO(words << "\n" << ran.err);
    CHECK(ran.code == 2);
    CHECK(contains(ran.err, "cannot be written: it is not a plain file"));
  }
  CHECK(folder.names().empty());
}

TEST_CASE("a small file system that runs full keeps its old files", "[cli][regression]") {
  const ScratchFolder folder;
  fs::create_directory(folder / "small");
  const std::string small = (folder / "small").string();
  if (::geteuid() != 0 ||
      std::system(("mount -t tmpfs -o size=256k none '" + small + "' 2>/dev/null").c_str()) != 0) {
    WARN("SKIPPED: a file system of 256 kB cannot be mounted here");
    return;
  }
  std::ofstream(small + "/year.epw") << "old";
  const test::ProgramRun ran = folder.run("weather make '" + kNormals + "' --out small/year.epw");
  const std::string kept = test::bytes_of(small + "/year.epw");
  const auto files = std::distance(fs::directory_iterator(small), fs::directory_iterator{});
  CHECK(std::system(("umount '" + small + "'").c_str()) == 0);
  INFO(ran.err);
  CHECK(ran.code == 1);
  CHECK(contains(ran.err, "small/year.epw: cannot be written: No space left on device"));
  CHECK(kept == "old");
  CHECK(files == 1);
}
