// SPDX-License-Identifier: MIT
#include <algorithm>

#include "h5.h"

namespace ovendays::results::h5 {
namespace {
// Frees texts that HDF5 has allocated while reading.
struct TextBlock {
  std::vector<char*> starts;
  hid_t type = -1;
  hid_t space = -1;
  ~TextBlock() { H5Dvlen_reclaim(type, space, H5P_DEFAULT, starts.data()); }
};

std::size_t count_of(const Handle& space, const std::string& path) {
  const hssize_t count = H5Sget_simple_extent_npoints(space.get());
  if (count < 0) fail(path);
  return static_cast<std::size_t>(count);
}

// HDF5 converts between types of numbers silently. A text in place of a number, or the reverse,
// means that the file is damaged.
void require_class(hid_t type, bool text, const std::string& path) {
  const bool is_text = H5Tget_class(type) == H5T_STRING && H5Tis_variable_str(type) > 0;
  const H5T_class_t kind = H5Tget_class(type);
  const bool is_number = kind == H5T_INTEGER || kind == H5T_FLOAT;
  if (text ? !is_text : !is_number) throw Failure(path + ": not of the kind expected");
}
}  // namespace

Reader::Reader(const std::string& bytes) : file_(memory_file(&bytes, H5P_DEFAULT)) {}

bool Reader::has(const std::string& path) const {
  return H5Lexists(file_.get(), path.c_str(), H5P_DEFAULT) > 0;
}

Handle Reader::open(const std::string& path) const {
  return {H5Dopen2(file_.get(), path.c_str(), H5P_DEFAULT), H5Dclose, path};
}

std::size_t Reader::count(const std::string& path) const {
  const Handle dataset = open(path);
  const Handle space(H5Dget_space(dataset.get()), H5Sclose, path);
  return count_of(space, path);
}

void Reader::raw_values(const std::string& path, void* data, hid_t type, std::size_t count) const {
  const Handle dataset = open(path);
  const Handle space(H5Dget_space(dataset.get()), H5Sclose, path);
  const Handle stored(H5Dget_type(dataset.get()), H5Tclose, path);
  require_class(stored.get(), false, path);
  if (count_of(space, path) != count) {
    throw Failure(path + ": " + std::to_string(count_of(space, path)) + " values, expected " +
                  std::to_string(count));
  }
  if (H5Dread(dataset.get(), type, H5S_ALL, H5S_ALL, H5P_DEFAULT, data) < 0) fail(path);
}

std::vector<std::string> Reader::texts(const std::string& path) const {
  const Handle dataset = open(path);
  const Handle space(H5Dget_space(dataset.get()), H5Sclose, path);
  const Handle stored(H5Dget_type(dataset.get()), H5Tclose, path);
  require_class(stored.get(), true, path);
  const Handle type = text_type();
  TextBlock block{std::vector<char*>(count_of(space, path), nullptr), type.get(), space.get()};
  if (block.starts.empty()) return {};
  if (H5Dread(dataset.get(), type.get(), H5S_ALL, H5S_ALL, H5P_DEFAULT, block.starts.data()) < 0) {
    fail(path);
  }
  std::vector<std::string> texts;
  for (const char* start : block.starts) texts.emplace_back(start == nullptr ? "" : start);
  return texts;
}

std::string Reader::text(const std::string& path) const {
  const std::vector<std::string> all = texts(path);
  if (all.size() != 1) throw Failure(path + ": not one text");
  return all.front();
}

Reader::Attribute Reader::single_attribute(const std::string& path,
                                           const std::string& name,
                                           bool is_text) const {
  const std::string whole = path + "@" + name;
  Attribute found{
      whole,
      Handle(H5Aopen_by_name(file_.get(), path.c_str(), name.c_str(), H5P_DEFAULT, H5P_DEFAULT),
             H5Aclose,
             whole)};
  const Handle stored(H5Aget_type(found.handle.get()), H5Tclose, whole);
  require_class(stored.get(), is_text, whole);
  const Handle space(H5Aget_space(found.handle.get()), H5Sclose, whole);
  if (count_of(space, whole) != 1)
    throw Failure(whole + (is_text ? ": not one text" : ": not one number"));
  return found;
}

std::string Reader::text_attribute(const std::string& path, const std::string& name) const {
  const Attribute attribute = single_attribute(path, name, true);
  const Handle space(H5Aget_space(attribute.handle.get()), H5Sclose, attribute.whole);
  const Handle type = text_type();
  TextBlock block{{nullptr}, type.get(), space.get()};
  if (H5Aread(attribute.handle.get(), type.get(), block.starts.data()) < 0) fail(attribute.whole);
  return block.starts[0] == nullptr ? "" : block.starts[0];
}

double Reader::number_attribute(const std::string& path, const std::string& name) const {
  const Attribute attribute = single_attribute(path, name, false);
  double value = 0.0;
  if (H5Aread(attribute.handle.get(), H5T_NATIVE_DOUBLE, &value) < 0) fail(attribute.whole);
  return value;
}
}  // namespace ovendays::results::h5
