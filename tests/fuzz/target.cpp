// SPDX-License-Identifier: MIT
// The door that libFuzzer knocks at; which entry it leads to is settled when it is compiled.
#include <cstddef>
#include <cstdint>

#include "entries.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const ovendays::fuzz::Entry& target = ovendays::fuzz::entry(OVENDAYS_FUZZ_ENTRY);
  target.run({reinterpret_cast<const char*>(data), size});
  return 0;
}
