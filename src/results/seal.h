// SPDX-License-Identifier: MIT
// The seal: a line at the very end of a file, behind the part that HDF5 reads, with the SHA-256 of
// everything before it. HDF5's own checksums protect the arrays only, and a flipped bit elsewhere
// can crash the process inside the library. The seal is therefore checked before HDF5 sees the
// file.
#pragma once

#include <string>

namespace ovendays::results {
/// The line for these bytes. @param kind of file: "season", "study"
std::string seal_of(const std::string& bytes, const std::string& kind = "season");
/// @return what is wrong; empty if the seal is right
std::string seal_complaint(const std::string& file_bytes, const std::string& kind = "season");
}  // namespace ovendays::results
