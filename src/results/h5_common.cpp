// SPDX-License-Identifier: MIT
#include "h5.h"

namespace ovendays::results::h5 {
namespace {
constexpr std::size_t kGrowth = std::size_t{1} << 20;  // bytes by which the file in memory grows

// The walk begins with the innermost record, which has the actual reason.
herr_t take_first(unsigned number, const H5E_error2_t* record, void* text) {
  if (number == 0 && record->desc != nullptr) *static_cast<std::string*>(text) = record->desc;
  return 0;
}
}  // namespace

void fail(const std::string& what) {
  std::string reason;
  H5Ewalk2(H5E_DEFAULT, H5E_WALK_UPWARD, take_first, &reason);
  throw Failure(reason.empty() ? what : what + ": " + reason);
}

Handle memory_file(const std::string* bytes, hid_t creation) {
  // HDF5 requires a name even for a file that never reaches a disk.
  const char* name = "season in memory";
  const Handle access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose, "property list");
  if (H5Pset_fapl_core(access.get(), kGrowth, false) < 0) fail("memory file");
  if (bytes == nullptr) {
    return {H5Fcreate(name, H5F_ACC_TRUNC, creation, access.get()), H5Fclose, "memory file"};
  }
  std::string image = *bytes;  // HDF5 only copies it but requires it to be writable
  if (H5Pset_file_image(access.get(), image.data(), image.size()) < 0) fail("memory file");
  return {H5Fopen(name, H5F_ACC_RDONLY, access.get()), H5Fclose, "cannot be opened"};
}

Handle text_type() {
  Handle type(H5Tcopy(H5T_C_S1), H5Tclose, "text type");
  if (H5Tset_size(type.get(), H5T_VARIABLE) < 0) fail("text type");
  if (H5Tset_cset(type.get(), H5T_CSET_UTF8) < 0) fail("text type");
  return type;
}

QuietErrors::QuietErrors() {
  H5Eget_auto2(H5E_DEFAULT, &printer_, &data_);
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
}

QuietErrors::~QuietErrors() { H5Eset_auto2(H5E_DEFAULT, printer_, data_); }
}  // namespace ovendays::results::h5
