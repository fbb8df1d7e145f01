// SPDX-License-Identifier: MIT
// A file that is asked for twice reads as it did the first time, or not at all.
#include "ovendays/base/file_texts.h"

#include <filesystem>
#include <string>

#include "catch.h"
#include "ovendays/base/error.h"
#include "scratch_folder.h"

using namespace ovendays;

namespace {
std::string refused(base::FileTexts& files, const std::string& path, std::size_t most_bytes) {
  try {
    (void)files.text_of(path, most_bytes);
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}
}  // namespace

TEST_CASE("a file that changes or vanishes reads as it did the first time", "[base][unit]") {
  const test::Scratch folder;
  base::FileTexts files;
  const std::string path = folder.file("a.toml");
  CHECK(test::contains(refused(files, path, 100), "a.toml: cannot be read"));
  folder.write("a.toml", "first");
  CHECK(files.text_of(path, 100) == "first");
  folder.write("a.toml", "second");
  CHECK(files.text_of(path, 100) == "first");
  std::filesystem::remove(path);
  CHECK(files.text_of(path, 5) == "first");
  CHECK(test::contains(refused(files, path, 4), "larger than 4 bytes"));
}

TEST_CASE("a text too large to keep is read again only as long as it is the same", "[base][unit]") {
  const test::Scratch folder;
  base::FileTexts files(8);
  folder.write("kept", "12345");
  folder.write("large", "6789");  // the two together are 9 bytes
  CHECK(files.text_of(folder.file("kept"), 100) == "12345");
  CHECK(files.text_of(folder.file("large"), 100) == "6789");
  CHECK(files.text_of(folder.file("large"), 100) == "6789");
  folder.write("kept", "other");
  folder.write("large", "othr");
  CHECK(files.text_of(folder.file("kept"), 100) == "12345");
  CHECK(test::contains(refused(files, folder.file("large"), 100),
                       "large: has changed since it was first read"));
}
