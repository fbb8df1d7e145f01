// SPDX-License-Identifier: MIT
// A line at the very end of the file, after what HDF5 looks at, with the SHA-256 of all before it.
// HDF5's own checksums guard the arrays; a flipped bit in its bookkeeping can end the process
// inside the library, so the whole file is checked before the library sees it.
#pragma once

#include <string>

namespace ovendays::results {
/// The line for these bytes. @param kind of file: "season", "study"
std::string seal_of(const std::string& bytes, const std::string& kind = "season");
/// @return what is wrong; empty where the file ends with its own seal
std::string seal_complaint(const std::string& file_bytes, const std::string& kind = "season");
}  // namespace ovendays::results
