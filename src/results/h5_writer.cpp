// SPDX-License-Identifier: MIT
#include <hdf5_hl.h>

#include <cstring>
#include <limits>

#include "h5.h"
#include "ovendays/base/check.h"

namespace ovendays::results::h5 {
namespace {
// Smaller arrays are stored as they are, because filters would cost more than they save.
constexpr std::size_t kFilteredBytes = 64;
// Higher levels hardly pack shuffled numbers better (level 7 saves 1 % of a season) but take twice
// the time.
constexpr unsigned kDeflateLevel = 1;

void require(herr_t status, const std::string& what) {
  if (status < 0) fail(what);
}

// netCDF-4 expects creation order. Times are left out, so that equal seasons give equal bytes.
void order_and_no_times(hid_t list) {
  const unsigned both = H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED;
  require(H5Pset_attr_creation_order(list, both), "attribute order");
  require(H5Pset_obj_track_times(list, false), "no times");
}

Handle file_list() {
  Handle list(H5Pcreate(H5P_FILE_CREATE), H5Pclose, "property list");
  order_and_no_times(list.get());
  require(H5Pset_link_creation_order(list.get(), H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED),
          "link order");
  return list;
}

Handle space_of(const std::vector<std::size_t>& shape) {
  if (shape.empty()) return {H5Screate(H5S_SCALAR), H5Sclose, "space"};
  const std::vector<hsize_t> lengths(shape.begin(), shape.end());
  return {H5Screate_simple(static_cast<int>(lengths.size()), lengths.data(), nullptr),
          H5Sclose,
          "space"};
}

Handle dataset_list(const std::vector<std::size_t>& shape, std::size_t bytes) {
  Handle list(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "property list");
  order_and_no_times(list.get());
  if (bytes <= kFilteredBytes || shape.empty()) return list;
  // One chunk: arrays are read whole.
  const std::vector<hsize_t> chunk(shape.begin(), shape.end());
  require(H5Pset_chunk(list.get(), static_cast<int>(chunk.size()), chunk.data()), "chunks");
  require(H5Pset_shuffle(list.get()), "shuffle");
  require(H5Pset_deflate(list.get(), kDeflateLevel), "deflate");
  require(H5Pset_fletcher32(list.get()), "fletcher32");
  return list;
}

// HDF5 converts texts in a buffer that it clears for every array. The default size, a megabyte,
// would cost more than the writing.
Handle transfer_list() {
  constexpr std::size_t kBuffer = std::size_t{32} << 10;
  Handle list(H5Pcreate(H5P_DATASET_XFER), H5Pclose, "property list");
  require(H5Pset_buffer(list.get(), kBuffer, nullptr, nullptr), "transfer buffer");
  return list;
}

struct AttributeValue {
  hid_t type;
  const void* data;
  std::size_t count;  // 0: a scalar
};

void put_attribute(hid_t object, const std::string& name, const AttributeValue& value) {
  const std::vector<std::size_t> shape(value.count > 0 ? 1 : 0, value.count);
  const Handle space = space_of(shape);
  const Handle attribute(
      H5Acreate2(object, name.c_str(), value.type, space.get(), H5P_DEFAULT, H5P_DEFAULT),
      H5Aclose,
      name);
  require(H5Awrite(attribute.get(), value.type, value.data), name);
}

void put_text(hid_t object, const std::string& name, const std::string& text) {
  const Handle type = text_type();
  const char* start = text.c_str();
  put_attribute(object, name, {type.get(), &start, 0});
}

void put_label(hid_t object, const Label& label) {
  if (!label.long_name.empty()) put_text(object, "long_name", label.long_name);
  if (!label.units.empty()) put_text(object, "units", label.units);
}
}  // namespace

Writer::Writer() {
  const Handle list = file_list();
  file_ = memory_file(nullptr, list.get());
}

std::string Writer::finish() {
  require(H5Fflush(file_.get(), H5F_SCOPE_LOCAL), "cannot be finished");
  const ssize_t size = H5Fget_file_image(file_.get(), nullptr, 0);
  if (size < 0) fail("cannot be finished");
  constexpr std::size_t kSealRoom = 256;  // so that adding the seal does not copy the file
  std::string bytes;
  bytes.reserve(static_cast<std::size_t>(size) + kSealRoom);
  bytes.resize(static_cast<std::size_t>(size));
  if (H5Fget_file_image(file_.get(), bytes.data(), bytes.size()) < 0) fail("cannot be finished");
  scales_.clear();
  require(file_.close(), "cannot be finished");
  return bytes;
}

void Writer::group(const std::string& path, const std::string& title) {
  const Handle list(H5Pcreate(H5P_GROUP_CREATE), H5Pclose, "property list");
  order_and_no_times(list.get());
  require(H5Pset_link_creation_order(list.get(), H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED),
          "link order");
  const Handle made(
      H5Gcreate2(file_.get(), path.c_str(), H5P_DEFAULT, list.get(), H5P_DEFAULT), H5Gclose, path);
  put_text(made.get(), "title", title);
}

Handle Writer::raw_array(const std::string& path,
                         const Raw& raw,
                         const std::vector<std::size_t>& shape,
                         const Label& label,
                         const void* none) {
  const Handle space = space_of(shape);
  const Handle list = dataset_list(shape, raw.bytes);
  if (none != nullptr) require(H5Pset_fill_value(list.get(), raw.memory_type, none), path);
  Handle made(H5Dcreate2(file_.get(),
                         path.c_str(),
                         raw.file_type,
                         space.get(),
                         H5P_DEFAULT,
                         list.get(),
                         H5P_DEFAULT),
              H5Dclose,
              path);
  const Handle transfer = transfer_list();
  require(H5Dwrite(made.get(), raw.memory_type, H5S_ALL, H5S_ALL, transfer.get(), raw.data), path);
  put_label(made.get(), label);
  if (none != nullptr) put_attribute(made.get(), "_FillValue", {raw.file_type, none, 1});
  return made;
}

Handle Writer::text_array(const std::string& path,
                          const std::vector<std::string>& texts,
                          bool scalar,
                          const Label& label) {
  std::vector<const char*> starts;
  starts.reserve(texts.size());
  for (const std::string& text : texts) starts.push_back(text.c_str());
  const Handle type = text_type();
  const std::vector<std::size_t> shape(scalar ? 0 : 1, texts.size());
  return raw_array(path, {starts.data(), type.get(), type.get(), 0}, shape, label, nullptr);
}

void Writer::dimension(const std::string& name,
                       const std::vector<std::string>& values,
                       const Label& label) {
  make_scale(name, text_array(name, values, false, label), values.size());
}

void Writer::make_scale(const std::string& name, Handle dataset, std::size_t length) {
  require(H5DSset_scale(dataset.get(), name.c_str()), name);
  scales_[name] = Scale{std::move(dataset), length};
}

std::vector<std::size_t> Writer::lengths(const std::vector<std::string>& dimensions,
                                         std::size_t count) const {
  std::vector<std::size_t> shape;
  std::size_t product = 1;
  for (const std::string& name : dimensions) {
    const auto found = scales_.find(name);
    OVENDAYS_CHECK(found != scales_.end());
    shape.push_back(found->second.length);
    product *= found->second.length;
  }
  OVENDAYS_CHECK(product == count);
  return shape;
}

void Writer::attach(const Handle& dataset,
                    const std::string& path,
                    const std::vector<std::string>& dimensions) {
  for (unsigned i = 0; i < dimensions.size(); ++i) {
    const Scale& scale = scales_.at(dimensions[i]);
    require(H5DSattach_scale(dataset.get(), scale.dataset.get(), i), path);
  }
}

void Writer::values_or_none(const std::string& path,
                            std::span<const float> data,
                            const std::vector<std::string>& dimensions,
                            const Label& label) {
  const float none = std::numeric_limits<float>::quiet_NaN();
  attach(array(path, data, label, lengths(dimensions, data.size()), &none), path, dimensions);
}

void Writer::flags(const std::string& path,
                   std::span<const std::uint8_t> data,
                   const std::vector<std::string>& dimensions,
                   const Label& label,
                   const Flags& words) {
  const Handle made = array(path, data, label, lengths(dimensions, data.size()), nullptr);
  std::vector<std::uint8_t> numbers;
  std::string meanings;
  for (const std::string& word : words) {
    numbers.push_back(static_cast<std::uint8_t>(numbers.size()));
    meanings += (meanings.empty() ? "" : " ") + word;
  }
  put_attribute(made.get(), "flag_values", {H5T_STD_U8LE, numbers.data(), numbers.size()});
  put_text(made.get(), "flag_meanings", meanings);
  attach(made, path, dimensions);
}

void Writer::text(const std::string& path, const std::string& text, const Label& label) {
  text_array(path, {text}, true, label);
}

void Writer::texts(const std::string& path,
                   const std::vector<std::string>& texts,
                   const std::string& dimension,
                   const Label& label) {
  OVENDAYS_CHECK(scales_.at(dimension).length == texts.size());
  attach(text_array(path, texts, false, label), path, {dimension});
}

void Writer::attribute(const std::string& path, const std::string& name, const std::string& value) {
  const Handle object(H5Oopen(file_.get(), path.c_str(), H5P_DEFAULT), H5Oclose, path);
  put_text(object.get(), name, value);
}

void Writer::attribute(const std::string& path, const std::string& name, double value) {
  const Handle object(H5Oopen(file_.get(), path.c_str(), H5P_DEFAULT), H5Oclose, path);
  put_attribute(object.get(), name, {H5T_NATIVE_DOUBLE, &value, 0});
}

void Writer::attribute(const std::string& path, const std::string& name, std::int32_t value) {
  const Handle object(H5Oopen(file_.get(), path.c_str(), H5P_DEFAULT), H5Oclose, path);
  put_attribute(object.get(), name, {H5T_NATIVE_INT32, &value, 0});
}
}  // namespace ovendays::results::h5
