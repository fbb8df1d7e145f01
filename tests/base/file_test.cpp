// SPDX-License-Identifier: MIT
#include "ovendays/base/file.h"

#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <utility>

#include "catch.h"
#include "ovendays/base/error.h"
#include "scratch_folder.h"

namespace base = ovendays::base;
namespace fs = std::filesystem;
namespace test = ovendays::test;

namespace {
std::size_t entries(const fs::path& folder) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}
}  // namespace

TEST_CASE("SHA-256 gives the digests of the standard's examples", "[base][reference]") {
  // FIPS 180-4 examples (NIST): the empty message, "abc", the 448-bit message; a million "a".
  REQUIRE(base::sha256_hex("") ==
          "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  REQUIRE(base::sha256_hex("abc") ==
          "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  REQUIRE(base::sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  REQUIRE(base::sha256_hex(std::string(1000000, 'a')) ==
          "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("SHA-256 pads texts whose length is at the edge of a block", "[base][reference]") {
  // Digests of so many letters "a" by sha256sum of GNU coreutils 9.1.
  const std::pair<std::size_t, const char*> known[] = {
      {55, "9f4390f8d30c2dd92ec9f095b65e2b9ae9b0a925a5258e241c9f1e910f734318"},
      {56, "b35439a4ac6f0948b6d6f9e3c6af0f5f590ce20f1bde7090ef7970686ec6738a"},
      {63, "7d3e74a05d7db15bce4ad9ec0658ea98e3f06eeecf16b4c6fff2da457ddc2f34"},
      {64, "ffe054fe7ae0cb6dc65c3af9b61d5209f439851db43d0ba5997337df154668eb"},
      {119, "31eba51c313a5c08226adf18d4a359cfdfd8d2e816b13f4af952f7ea6584dcfb"},
      {120, "2f3d335432c70b580af0e8e1b3674a7c020d683aa5f73aaaedfdc55af904c21c"}};
  for (const auto& [length, digest] : known) {
    INFO("length " << length);
    CHECK(base::sha256_hex(std::string(length, 'a')) == digest);
  }
}

TEST_CASE("a committed file replaces the old one completely", "[base][unit]") {
  const test::Scratch folder;
  const std::string target = folder.file("out.txt");
  base::write_file(target, "old");
  base::write_file(target, "new and longer");
  REQUIRE(base::read_file(target) == "new and longer");
  REQUIRE(entries(folder.path()) == 1);
}

TEST_CASE("an uncommitted file is deleted and the old one kept", "[base][unit]") {
  const test::Scratch folder;
  const std::string target = folder.file("out.txt");
  base::write_file(target, "old");
  {
    const base::PendingFile pending(target);
    std::ofstream(pending.path()) << "half";
    REQUIRE(entries(folder.path()) == 2);
  }
  REQUIRE(base::read_file(target) == "old");
  REQUIRE(entries(folder.path()) == 1);
}

TEST_CASE("the signal handler's clean-up removes pending files", "[base][unit]") {
  const test::Scratch folder;
  const base::PendingFile pending(folder.file("out.txt"));
  std::ofstream(pending.path()) << "half";
  base::remove_pending_files();
  REQUIRE(entries(folder.path()) == 0);
}

TEST_CASE("a file that cannot be written is a run error", "[base][unit]") {
  const test::Scratch folder;
  REQUIRE_THROWS_AS(base::write_file(folder.path() / "no" / "where.txt", "x"), base::RunError);
}

TEST_CASE("a file that cannot be read is an input error", "[base][unit]") {
  const test::Scratch folder;
  const std::string missing = folder.file("missing.csv");
  REQUIRE_THROWS_AS(base::read_file(missing), base::InputError);
  REQUIRE_THROWS_AS(base::read_file(folder.path()), base::InputError);
  const std::string big = folder.file("big.txt");
  base::write_file(big, std::string(100, 'x'));
  REQUIRE_THROWS_AS(base::read_file(big, 99), base::InputError);
  try {
    (void)base::read_file(missing);
  } catch (const base::InputError& error) {
    REQUIRE(ovendays::test::contains(error.what(), missing + ": cannot be read: "));
  }
}

TEST_CASE("devices and pipes are rejected without blocking", "[base][regression]") {
  const test::Scratch folder;
  const std::string pipe = folder.file("pipe");
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  for (const std::string& file : {pipe, std::string("/dev/zero"), std::string("/dev/null")}) {
    try {
      (void)base::read_file(file);
      FAIL(file);
    } catch (const base::InputError& error) {
      CHECK(error.what() == file + ": cannot be read: it is not a plain file");
    }
  }
}

TEST_CASE("a file that is too large is rejected by its size before reading", "[base][regression]") {
  const test::Scratch folder;
  const std::string sparse = folder.file("sparse");
  std::ofstream(sparse) << "x";
  fs::resize_file(sparse,
                  std::uintmax_t{1} << 40);  // a sparse file, which would take minutes to read
  REQUIRE_THROWS_AS(base::read_file(sparse), base::InputError);
}

TEST_CASE("a message is one line of printable text for any file content", "[base][regression]") {
  using base::printable;
  CHECK(printable("caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x8D\x9E") ==
        "caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x8D\x9E");
  CHECK(printable(std::string_view("a\0b\n\x1B[2J\x7F", 9)) == "a?b??[2J?");
  CHECK(printable("a\nb\tc", '\n') == "a\nb?c");
  CHECK(printable("\xC2\x9B"
                  "31m") == "??31m");  // a single character that starts a control sequence
  // Ill-formed UTF-8 (Unicode 15, table 3-7): overlong, surrogate, above U+10FFFF, truncated.
  CHECK(printable("\xC0\xAF") == "??");
  CHECK(printable("\xE0\x80\xAF") == "???");
  CHECK(printable("\xED\xA0\x80") == "???");
  CHECK(printable("\xF4\x90\x80\x80") == "????");
  CHECK(printable("x\xE2\x82") == "x??");
  const base::Fault odd{"a.csv", 3, "", std::string("'1\0\n2'", 6), ""};
  CHECK(odd.message() == "a.csv:3: '1??2'");
}

TEST_CASE("a fault's message leaves out empty parts", "[base][unit]") {
  using base::Fault;
  const Fault whole{"case.toml", 14, "oven.flap.flare_angle", "190 deg", "0 to 90 deg"};
  REQUIRE(whole.message() == "case.toml:14: oven.flap.flare_angle: 190 deg, allowed 0 to 90 deg");
  REQUIRE(Fault{"a.csv", 0, "", "empty", ""}.message() == "a.csv: empty");
  REQUIRE(Fault{"", 0, "glass", "6", ""}.message() == "glass: 6");
  const base::InputError both({whole, Fault{"a.csv", 0, "", "empty", ""}});
  REQUIRE(both.what() == whole.message() + "\na.csv: empty");
}
