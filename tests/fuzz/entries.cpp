// SPDX-License-Identifier: MIT
#include "entries.h"

#include <sys/mman.h>
#include <unistd.h>

#include <stdexcept>

#include "ovendays/base/error.h"

namespace ovendays::fuzz {

const std::vector<Entry>& entries() {
  static const std::vector<Entry> all = {{"weather", read_any_weather},
                                         {"epw", read_epw_rows},
                                         {"tmy3", read_tmy3_rows},
                                         {"nsrdb", read_nsrdb_rows},
                                         {"pvgis", read_pvgis_rows},
                                         {"edited_year", read_edited_year},
                                         {"horizon", read_horizon},
                                         {"normals", read_normals},
                                         {"case", read_case},
                                         {"edited_case", read_edited_case},
                                         {"quantity", read_quantity},
                                         {"results", read_results},
                                         {"edited_results", read_edited_results, false}};
  return all;
}

const Entry& entry(const std::string& name) {
  for (const Entry& each : entries()) {
    if (each.name == name) return each;
  }
  throw std::logic_error("no entry of the name " + name);
}

void require(bool holds, const std::string& what) {
  if (!holds) throw std::logic_error(what);
}

MemoryFile::MemoryFile(std::string_view bytes) : descriptor_(::memfd_create("bytes", MFD_CLOEXEC)) {
  while (!bytes.empty()) {
    const ssize_t put = ::write(descriptor_, bytes.data(), bytes.size());
    if (put <= 0) throw std::runtime_error("a file in memory cannot be written");
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
}

MemoryFile::~MemoryFile() { ::close(descriptor_); }

std::string MemoryFile::path() const { return "/proc/self/fd/" + std::to_string(descriptor_); }

// Long enough for a list of known keys, short enough to be read.
bool accepted(const std::function<void()>& read) {
  constexpr std::size_t kLongestLine = 4000;
  constexpr std::size_t kMostLines = 202;
  try {
    read();
    return true;
  } catch (const base::InputError& error) {
    const std::string what = error.what();
    require(!error.faults().empty() && !what.empty(), "a refusal without a reason");
    require(base::printable(what, '\n') == what, "a message that is not printable");
    require(error.faults().size() <= kMostLines, "too many faults in one refusal");
    for (const base::Fault& fault : error.faults()) {
      const std::string line = fault.message();
      require(line.find('\n') == std::string::npos, "a message of two lines");
      require(line.size() <= kLongestLine,
              "a message of " + std::to_string(line.size()) + " bytes");
    }
    return false;
  }
}
}  // namespace ovendays::fuzz
