// SPDX-License-Identifier: MIT
// Files that are wrong in every way we could think of, given to the program itself. Each row of the
// tables says how a sound file is spoilt, the exit code (2: what was given is bad), and what the
// message must say. Nothing may be written. Expectations are ours: no outside source.
#include <algorithm>
#include <functional>
#include <vector>

#include "catch.h"
#include "ovendays/base/random.h"
#include "run_program.h"

using namespace ovendays;
using test::contains;
using test::ProgramRun;
using test::ScratchFolder;
namespace fs = std::filesystem;

namespace {
constexpr int kHeaderLines = 8;
constexpr std::size_t kMillion = 1'000'000;

// A year of invented weather, made by the program once for all tests.
const std::string& sound_weather() {
  static const std::string text = [] {
    const ScratchFolder folder;
    const ProgramRun made = folder.run(std::string("weather make '") + OVENDAYS_SOURCE_DIR +
                                       "/weather/high_desert.toml' --out made.epw");
    if (made.code != 0) throw std::runtime_error("no weather could be made: " + made.err);
    return test::bytes_of(folder / "made.epw");
  }();
  return text;
}

// A small case that runs: one task at one loading time.
const std::string kSoundCase = R"toml([site]
weather = "sound.epw"
[routine]
earliest = "11:00"
latest = "11:00"
[[oven.layer]]
side = "both"
material = "corrugated cardboard with foil"
thickness = "2 in"
[[oven.vessel]]
name = "black pot"
kind = "pot"
diameter = "8.5 in"
height = "4 in"
mass = "0.9 kg"
[[task]]
name = "soup"
vessel = "black pot"
mass = "4 lb"
target = "165 F"
)toml";

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::logic_error("not in the text: " + from);
  return text.replace(at, from.size(), to);
}

std::string replaced_all(const std::string& text, const std::string& from, const std::string& to) {
  std::string out;
  std::size_t at = 0;
  for (std::size_t next = 0; (next = text.find(from, at)) != std::string::npos;) {
    out += text.substr(at, next - at) + to;
    at = next + from.size();
  }
  return out + text.substr(at);
}

// Field `number` (from 0) of line 21, the row of 1 January 12:00 to 13:00.
std::string with_field(std::size_t number, const std::string& value) {
  std::vector<std::string> lines = lines_of(sound_weather());
  std::string& line = lines[20];
  std::size_t at = 0;
  for (std::size_t i = 0; i < number; ++i) at = line.find(',', at) + 1;
  line.replace(at, line.find(',', at) - at, value);
  return joined(lines);
}

// The rows in an order drawn by a fixed key (Fisher and Yates).
std::string shuffled_rows() {
  std::vector<std::string> lines = lines_of(sound_weather());
  base::KeyedRandom chance(7);
  for (std::size_t i = lines.size() - 1; i > kHeaderLines; --i) {
    std::swap(lines[i], lines[kHeaderLines + chance.bits() % (i - kHeaderLines + 1)]);
  }
  return joined(lines);
}

std::string in_utf16(const std::string& text) {
  std::string out = "\xFF\xFE";
  for (const char c : text) out += {c, '\0'};
  return out;
}

std::string garbage() {
  base::KeyedRandom chance(11);
  std::string bytes(5000, '\0');
  for (char& byte : bytes) byte = static_cast<char>(chance.bits() & 0xFFU);
  bytes.front() = '\xFE';  // never the beginning of UTF-8
  return bytes;
}

std::string repeated(const std::string& part, std::size_t times) {
  std::string text;
  text.reserve(part.size() * times);
  for (std::size_t i = 0; i < times; ++i) text += part;
  return text;
}

struct Row {
  const char* what;
  std::function<std::string()> bytes;
  int code;
  const char* message;  ///< part of what is said; of standard output where the code is 0
};

// NOLINTNEXTLINE(readability-function-size): a table
std::vector<Row> weather_rows() {
  const auto& sound = sound_weather;
  const char* no_form = "year.epw:1: not a weather file of a known format, allowed EPW, TMY3 CSV";
  return {
      {"empty", [] { return std::string(); }, 2, "year.epw:1: an empty file"},
      {"cut in the middle of a row",
       [&] { return sound().substr(0, sound().size() * 3 / 4); },
       2,
       "fields, allowed 35 fields"},
      {"cut between rows",
       [&] { return sound().substr(0, sound().find('\n', sound().size() / 4) + 1); },
       2,
       "hours: 2"},
      {"rows shuffled", shuffled_rows, 2, "stamp: earlier than in the line before"},
      {"NaN",
       [] { return with_field(13, "nan"); },
       2,
       "year.epw:21: global horizontal: 'nan' is not a number"},
      {"1e308",
       [] { return with_field(6, "1e308"); },
       2,
       "year.epw:21: dry bulb: 1e308, allowed -90 to 65"},
      {"1e400",
       [] { return with_field(6, "1e400"); },
       2,
       "year.epw:21: dry bulb: '1e400' is not a number"},
      {"negative light",
       [] { return with_field(14, "-200"); },
       2,
       "year.epw:21: direct normal: -200, allowed -10 to 1500"},
      {"degrees Fahrenheit",
       [] { return with_field(6, "86"); },
       2,
       "year.epw:21: dry bulb: 86, allowed -90 to 65"},
      {"hectopascals for pascals",
       [] { return with_field(9, "836"); },
       2,
       "year.epw:21: pressure: 836, allowed 31000 to 120000"},
      {"a unit in a number",
       [] { return with_field(21, "3 m/s"); },
       2,
       "year.epw:21: wind speed: '3 m/s' is not a number"},
      {"a NUL byte in a stamp",
       [] { return with_field(1, std::string(1, '\0')); },
       2,
       "year.epw:21: stamp: 2001,?,"},
      {"a control sequence in a field",
       [] { return with_field(6, "\x1b[2J"); },
       2,
       "year.epw:21: dry bulb: '?[2J' is not a number"},
      {"NUL bytes only", [] { return std::string(100'000, '\0'); }, 2, no_form},
      {"binary garbage", garbage, 2, no_form},
      {"UTF-16", [&] { return in_utf16(sound()); }, 2, no_form},
      {"a line of 10 MB",
       [] { return "LOCATION," + std::string(10 * kMillion, 'x') + "\n"; },
       2,
       "year.epw:1: LOCATION: 2 fields, allowed 10 fields"},
      {"a million rows",
       [&] {
         const std::size_t head = sound().find("\n2001,") + 1;
         return sound().substr(0, head) + repeated(sound().substr(head), 115);
       },
       2,
       "year.epw:8769: stamp: the same as in line 9"},
      {"a million short lines", [] { return repeated("x\n", kMillion); }, 2, no_form},
      {"a header that cannot be",
       [&] { return replaced(sound(), ",35.2000,", ",135.2,"); },
       2,
       "year.epw:1: latitude: 135.2, allowed -90 to 90"},
      {"line ends of an old Macintosh",
       [&] { return replaced_all(sound(), "\n", "\r"); },
       2,
       "year.epw:1: elevation: '1600.0?DESIGN CONDITIONS' is not a number"},
      {"line ends of DOS", [&] { return replaced_all(sound(), "\n", "\r\n"); }, 0, "8,760 hours"},
      {"a byte-order mark", [&] { return "\xEF\xBB\xBF" + sound(); }, 0, "8,760 hours"},
      {"no line end at the end",
       [&] { return sound().substr(0, sound().size() - 1); },
       0,
       "8,760 hours"},
      {"a control sequence in the site's name",
       [&] { return replaced(sound(), "Ochre Mesa", "\x1b[2JMesa"); },
       0,
       "?[2JMesa"},
      {"a site's name of 1 MB",
       [&] { return replaced(sound(), "Ochre Mesa", std::string(kMillion, 'y')); },
       0,
       "yyy"}};
}

std::string with_end(const std::string& end) { return kSoundCase + end; }
std::string with_height(const std::string& value) {
  return with_end("[spot]\nheight = " + value + "\n");
}

// NOLINTNEXTLINE(readability-function-size): a table
std::vector<Row> case_rows() {
  return {
      {"empty", [] { return std::string(); }, 2, "a.toml: task: no [[task]]"},
      {"cut short",
       [] { return kSoundCase.substr(0, kSoundCase.size() - 4); },
       2,
       "a.toml:20: not TOML: "},
      {"lines shuffled",
       [] { return replaced(kSoundCase, "name = \"soup\"\n", "") + "[site]\nname = \"soup\"\n"; },
       2,
       "not TOML: "},
      {"NaN", [] { return with_height("nan"); }, 2, "a.toml:22: spot.height: nan m"},
      {"infinite", [] { return with_height("inf"); }, 2, "a.toml:22: spot.height: inf m"},
      {"1e308",
       [] { return with_height("1e308"); },
       2,
       "a.toml:22: spot.height: 1e+308 m, allowed 0.05 to 100 m"},
      {"1e308 in a unit",
       [] { return with_height("\"1e308 km\""); },
       2,
       "a.toml:22: spot.height: "},
      {"negative",
       [] { return with_height("\"-1 m\""); },
       2,
       "a.toml:22: spot.height: -1 m, allowed 0.05 to 100 m"},
      {"a wrong unit",
       [] { return with_height("\"1 kg\""); },
       2,
       "a.toml:22: spot.height: 1 kg is not a length"},
      {"an unknown unit",
       [] { return with_height("\"1 cubit\""); },
       2,
       "a.toml:22: spot.height: 1 cubit is not a length"},
      {"an unknown key",
       [] { return with_end("colour = 1\n"); },
       2,
       "a.toml:21: task.colour: unknown key"},
      {"a million obstructions",
       [] { return with_end(repeated("[[spot.wall]]\n", kMillion)); },
       2,
       "spot.wall: 1000000 obstructions in all, allowed at most 2000"},
      {"a million unknown keys",
       [] {
         std::string keys;
         for (std::size_t i = 0; i < kMillion; ++i) keys += "k" + std::to_string(i) + " = 1\n";
         return with_end(keys);
       },
       2,
       "more faults, not listed"},
      {"17 MiB",
       [] { return with_end(std::string(std::size_t{17} << 20, '#')); },
       2,
       "a.toml: cannot be read: it is larger than 16777216 bytes"},
      {"lists one in another",
       [] { return "a = " + std::string(100'000, '[') + std::string(100'000, ']') + "\n"; },
       2,
       "a.toml:1: not TOML: "},
      {"a key of a hundred thousand dots",
       [] { return repeated("b.", 100'000) + "b = 1\n" + kSoundCase; },
       2,
       "a.toml:1: a key with more than 64 dots"},
      {"a key of 1 MB",
       [] { return std::string(kMillion, 'x') + " = 1\n" + kSoundCase; },
       2,
       "a.toml:1: xxx"},
      {"a NUL byte",
       [] { return replaced(kSoundCase, "11:00", std::string("11\0:0", 5)); },
       2,
       "a.toml:4: not TOML: "},
      {"UTF-16", [] { return in_utf16(kSoundCase); }, 2, "a.toml:1: not TOML: "},
      {"binary garbage", garbage, 2, "a.toml:1: not TOML: "},
      {"an include of a device",
       [] { return "spot = \"/dev/zero\"\n" + kSoundCase; },
       2,
       "a.toml:1: spot: /dev/zero: cannot be read: it is not a plain file"},
      {"an include of itself",
       [] { return "spot = \"a.toml\"\n" + kSoundCase; },
       2,
       "a.toml:1: spot: the file a.toml includes itself"},
      {"an include that is missing",
       [] { return "spot = \"none.toml\"\n" + kSoundCase; },
       2,
       "a.toml:1: spot: none.toml: cannot be read: No such file"},
      {"weather that is missing",
       [] { return replaced(kSoundCase, "sound.epw", "none.epw"); },
       2,
       "none.epw: cannot be read: No such file"},
      {"weather that is a folder",
       [] { return replaced(kSoundCase, "sound.epw", "."); },
       2,
       "cannot be read: it is a directory"},
      {"weather that is a device",
       [] { return replaced(kSoundCase, "sound.epw", "/dev/zero"); },
       2,
       "/dev/zero: cannot be read: it is not a plain file"},
      {"weather that is the case",
       [] { return replaced(kSoundCase, "sound.epw", "a.toml"); },
       2,
       "a.toml:1: not a weather file of a known format"},
      {"line ends of DOS", [] { return replaced_all(kSoundCase, "\n", "\r\n"); }, 0, "soup"},
      {"a byte-order mark", [] { return "\xEF\xBB\xBF" + kSoundCase; }, 0, "soup"},
      {"a comment of 10 MB",
       [] { return with_end("# " + std::string(10 * kMillion, 'x')); },
       0,
       "soup"},
      {"a million empty lines", [] { return with_end(std::string(kMillion, '\n')); }, 0, "soup"}};
}

// The row's expectations of a run whose outputs would be those of `outputs`.
void check_row(const Row& row, const ProgramRun& ran, bool wrote) {
  INFO(row.what << "\nsaid: " << ran.err.substr(0, 1000)
                << "\nprinted: " << ran.out.substr(0, 300));
  CHECK(ran.code == row.code);
  CHECK(contains(row.code == 0 ? ran.out : ran.err, row.message));
  if (row.code == 0) {
    CHECK(ran.err.empty());
    return;
  }
  CHECK(ran.out.empty());
  CHECK(ran.err.size() < 60'000);
  CHECK_FALSE(wrote);
  const bool printable = std::none_of(ran.err.begin(), ran.err.end(), [](char c) {
    return c != '\n' && static_cast<unsigned char>(c) < 32;
  });
  CHECK(printable);
}
}  // namespace

TEST_CASE("malformed weather files are refused with line and reason", "[cli][regression]") {
  const ScratchFolder folder;
  for (const Row& row : weather_rows()) {
    folder.write("year.epw", row.bytes());
    check_row(row, folder.run("weather year.epw"), folder.names().size() != 1);
  }
}

TEST_CASE("malformed case files are refused with line and reason", "[cli][regression]") {
  const ScratchFolder folder;
  folder.write("sound.epw", sound_weather());
  for (const Row& row : case_rows()) {
    folder.write("a.toml", row.bytes());
    const ProgramRun ran =
        folder.run("season a.toml --no-causes --spread 0 --csv a.csv --html a.html");
    const bool wrote = folder.names() != std::set<std::string>{"a.toml", "sound.epw"};
    check_row(row, ran, wrote);
    if (row.code == 0) CHECK(wrote);  // else "nothing written" would say nothing
    for (const char* name : {"a-season.h5", "a.csv", "a.html"}) fs::remove(folder / name);
  }
}

TEST_CASE("a season refuses weather that is malformed before it writes", "[cli][regression]") {
  const ScratchFolder folder;
  folder.write("a.toml", kSoundCase);
  folder.write("sound.epw", with_field(13, "nan"));
  const ProgramRun ran = folder.run("season a.toml --spread 0 --csv a.csv");
  CHECK(ran.code == 2);
  CHECK(contains(ran.err, "sound.epw:21: global horizontal: 'nan' is not a number"));
  CHECK(folder.names() == std::set<std::string>{"a.toml", "sound.epw"});
}

TEST_CASE("a folder, a missing file, a pipe and a device are no input", "[cli][regression]") {
  const ScratchFolder folder;
  fs::create_directory(folder / "folder");
  REQUIRE(std::system(("mkfifo '" + (folder / "pipe").string() + "'").c_str()) == 0);
  struct Bad {
    const char* file;
    const char* reason;
  };
  for (const Bad& bad : {Bad{"none", "No such file or directory"},
                         Bad{"folder", "it is a directory"},
                         Bad{"pipe", "it is not a plain file"},
                         Bad{"/dev/zero", "it is not a plain file"},
                         Bad{"none/none", "No such file or directory"}}) {
    for (const char* command : {"season ", "weather ", "weather make "}) {
      const ProgramRun ran = folder.run(command + std::string(bad.file));
      INFO(command << bad.file << "\n" << ran.err);
      CHECK(ran.code == 2);
      CHECK(ran.err == std::string(bad.file) + ": cannot be read: " + bad.reason + "\n");
    }
  }
  CHECK(folder.names() == std::set<std::string>{"folder", "pipe"});
}

TEST_CASE("files and folders without permission are refused", "[cli][regression]") {
  const ScratchFolder folder;
  std::string before;
  if (::geteuid() == 0) {  // root may read everything: drop to a user of no name
    before =
        "setpriv --reuid=65534 --regid=65534 --clear-groups --inh-caps=-all --bounding-set=-all";
    if (std::system((before + " test -x '" + OVENDAYS_BINARY + "' 2>/dev/null").c_str()) != 0) {
      WARN("SKIPPED: root reads every file, and setpriv cannot drop the right here");
      return;
    }
  }
  folder.write("year.epw", sound_weather());
  folder.write("a.toml", kSoundCase);
  for (const char* name : {"year.epw", "a.toml"}) {
    fs::permissions(folder / name, fs::perms::none);
  }
  fs::permissions(folder.path(), fs::perms(0555));
  for (const char* words : {"season a.toml", "weather year.epw"}) {
    const ProgramRun ran = folder.run(words, before);
    INFO(words << "\n" << ran.err);
    CHECK(ran.code == 2);
    CHECK(contains(ran.err, "cannot be read: Permission denied"));
  }
  for (const char* words : {"new b.toml", "season --demo"}) {
    const ProgramRun ran = folder.run(words, before);
    INFO(words << "\n" << ran.err);
    CHECK(ran.code == 2);
    CHECK(contains(ran.err, "cannot be written: the folder .: Permission denied"));
  }
  fs::permissions(folder.path(), fs::perms(0755));
  CHECK(folder.names() == std::set<std::string>{"a.toml", "year.epw"});
}
