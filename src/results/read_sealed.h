// SPDX-License-Identifier: MIT
// Reading of sealed HDF5 files: the seal is checked before HDF5 sees the bytes. Private to results.
#pragma once

#include <string>

#include "h5.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "seal.h"

namespace ovendays::results {

/// @param kind of file, as sealed: "season", "study"
/// @param read makes the result from a h5::Reader and throws h5::Failure
/// @throws base::InputError if the file is of another kind or damaged
template <class Read>
auto read_sealed(const std::string& file, const std::string& kind, Read read) {
  const std::string bytes = base::read_file(file);
  const auto refuse = [&](const std::string& why) {
    return base::InputError(base::Fault{file, 0, "", "is not a readable " + kind + ": " + why, ""});
  };
  const std::string complaint = seal_complaint(bytes, kind);
  if (!complaint.empty()) throw refuse(complaint);
  const h5::QuietErrors quiet;
  try {
    const h5::Reader in(bytes);
    return read(in);
  } catch (const h5::Failure& failure) {
    throw refuse(failure.what());
  }
}
}  // namespace ovendays::results
