// SPDX-License-Identifier: MIT
// What hostile bytes are fed to: one entry a reader. An entry returns where the reader accepts the
// bytes or refuses them as it promises to (base::InputError with one printable line a fault),
// checks what was accepted, and lets everything else out: a crash, a hang or an exception is a
// finding.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace ovendays::fuzz {

struct Entry {
  std::string name;  ///< of the target and of its folder of seeds
  void (*run)(std::string_view bytes) = nullptr;
  /// False where a finding may be the HDF5 library's own: not among the targets run by default.
  bool by_default = true;
};

const std::vector<Entry>& entries();
/// @throws std::logic_error where there is none of that name
const Entry& entry(const std::string& name);

/// @throws std::logic_error: a finding
void require(bool holds, const std::string& what);

/// Bytes as a file that has a name but stands in no folder.
class MemoryFile {
 public:
  explicit MemoryFile(std::string_view bytes);
  ~MemoryFile();
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;
  [[nodiscard]] std::string path() const;

 private:
  int descriptor_;
};

/// Runs a reader; true where it accepted, false where it refused as it promises to.
bool accepted(const std::function<void()>& read);

// The entries, by the kind of file.
void read_any_weather(std::string_view bytes);
void read_epw_rows(std::string_view bytes);    ///< after a sound header
void read_tmy3_rows(std::string_view bytes);   ///< after a sound header
void read_nsrdb_rows(std::string_view bytes);  ///< after a sound header
void read_pvgis_rows(std::string_view bytes);  ///< after a sound header
/// Edits of a sound year: "e" (EPW), "t" (TMY3), "n" (NSRDB) or "p" (PVGIS), "+" where long gaps
/// are allowed, then lines "ROW FIELD VALUE", "ROW -" (leave the row out) or "ROW =" (have it
/// twice).
void read_edited_year(std::string_view bytes);
void read_horizon(std::string_view bytes);
void read_normals(std::string_view bytes);
void read_case(std::string_view bytes);
/// A study: its case with the first [[oven]] and the first three [[change]].
void read_edited_case(std::string_view bytes);
void read_quantity(std::string_view bytes);  ///< the first byte chooses the dimension
void read_results(std::string_view bytes);
/// Edits of a sound file of results, sealed again: four bytes of place, little end first, one byte.
void read_edited_results(std::string_view bytes);
}  // namespace ovendays::fuzz
