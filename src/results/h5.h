// SPDX-License-Identifier: MIT
// A wrapper of the HDF5 C library: handles close themselves and errors are thrown. Files have the
// layout that netCDF-4 expects: creation order is tracked, every dimension is a dimension scale
// with values of its own, and there are no compound types. Private to results.
#pragma once

#include <hdf5.h>

#include <cstdint>
#include <map>
#include <memory>
#include <span>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace ovendays::results::h5 {

/// An error reported by HDF5; the message does not name the file.
class Failure : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};
/// Throws a Failure with the innermost reason on HDF5's error stack.
[[noreturn]] void fail(const std::string& what);

/// Keeps HDF5 from printing errors during its lifetime, since they are thrown.
class QuietErrors {
 public:
  QuietErrors();
  ~QuietErrors();
  QuietErrors(const QuietErrors&) = delete;
  QuietErrors& operator=(const QuietErrors&) = delete;

 private:
  H5E_auto2_t printer_ = nullptr;
  void* data_ = nullptr;
};

class Handle {
 public:
  using Closer = herr_t (*)(hid_t);
  Handle() = default;
  /// @throws Failure where `id` is negative
  Handle(hid_t id, Closer closer, const std::string& what) : id_(id), closer_(closer) {
    if (id < 0) fail(what);
  }
  ~Handle() { close(); }
  Handle(Handle&& other) noexcept
      : id_(std::exchange(other.id_, -1)), closer_(std::exchange(other.closer_, nullptr)) {}
  Handle& operator=(Handle&& other) noexcept {
    if (this != &other) {
      close();
      id_ = std::exchange(other.id_, -1);
      closer_ = std::exchange(other.closer_, nullptr);
    }
    return *this;
  }
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  [[nodiscard]] hid_t get() const { return id_; }
  /// Closes the object. The status matters for files, whose last bytes are written here.
  herr_t close() { return id_ < 0 ? 0 : closer_(std::exchange(id_, -1)); }

 private:
  hid_t id_ = -1;
  Closer closer_ = nullptr;
};

/// Opens a file in memory, or makes an empty one where `bytes` is null.
Handle memory_file(const std::string* bytes, hid_t creation);
/// Type of texts of any length, UTF-8.
Handle text_type();

/// Type of T in the file, which is little-endian, and in memory.
template <class T>
hid_t file_type() {
  if constexpr (std::is_same_v<T, float>) return H5T_IEEE_F32LE;
  if constexpr (std::is_same_v<T, double>) return H5T_IEEE_F64LE;
  if constexpr (std::is_same_v<T, std::uint8_t>) return H5T_STD_U8LE;
  if constexpr (std::is_same_v<T, std::uint16_t>) return H5T_STD_U16LE;
  if constexpr (std::is_same_v<T, std::int32_t>) return H5T_STD_I32LE;
}
template <class T>
hid_t memory_type() {
  if constexpr (std::is_same_v<T, float>) return H5T_NATIVE_FLOAT;
  if constexpr (std::is_same_v<T, double>) return H5T_NATIVE_DOUBLE;
  if constexpr (std::is_same_v<T, std::uint8_t>) return H5T_NATIVE_UINT8;
  if constexpr (std::is_same_v<T, std::uint16_t>) return H5T_NATIVE_UINT16;
  if constexpr (std::is_same_v<T, std::int32_t>) return H5T_NATIVE_INT32;
}

/// CF's long_name and units; empty units are left out (texts, flags).
struct Label {
  std::string long_name;
  std::string units;
};

/// Words of an enumeration (CF's flag_meanings), without blanks; word i means value i.
using Flags = std::vector<std::string>;

/// A new file. It is made in memory, because HDF5 cannot close a file on a disk that is full.
/// Objects are named by path; "/" is the root group, which holds all dimensions.
class Writer {
 public:
  Writer();
  /// Closes the file. @return its bytes
  std::string finish();

  void group(const std::string& path, const std::string& title);
  /// A dimension with its coordinate values, whose number is its length.
  template <class T>
  void dimension(const std::string& name, std::span<const T> values, const Label& label) {
    make_scale(name, array(name, values, label, {values.size()}, nullptr), values.size());
  }
  void dimension(const std::string& name,
                 const std::vector<std::string>& values,
                 const Label& label);
  /// An array over dimensions, row-major.
  template <class T>
  void values(const std::string& path,
              std::span<const T> data,
              const std::vector<std::string>& dimensions,
              const Label& label) {
    attach(array(path, data, label, lengths(dimensions, data.size()), nullptr), path, dimensions);
  }
  /// An array in which NaN means "none".
  void values_or_none(const std::string& path,
                      std::span<const float> data,
                      const std::vector<std::string>& dimensions,
                      const Label& label);
  void flags(const std::string& path,
             std::span<const std::uint8_t> data,
             const std::vector<std::string>& dimensions,
             const Label& label,
             const Flags& words);
  void text(const std::string& path, const std::string& text, const Label& label);
  void texts(const std::string& path,
             const std::vector<std::string>& texts,
             const std::string& dimension,
             const Label& label);
  /// An attribute of a group or an array.
  void attribute(const std::string& path, const std::string& name, const std::string& value);
  void attribute(const std::string& path, const std::string& name, double value);
  void attribute(const std::string& path, const std::string& name, std::int32_t value);

 private:
  struct Scale {
    Handle dataset;
    std::size_t length = 0;
  };
  struct Raw {
    const void* data;
    hid_t file_type;
    hid_t memory_type;
    std::size_t bytes;
  };
  template <class T>
  Handle array(const std::string& path,
               std::span<const T> data,
               const Label& label,
               const std::vector<std::size_t>& shape,
               const void* none) {
    const Raw raw{data.data(), file_type<T>(), memory_type<T>(), data.size_bytes()};
    return raw_array(path, raw, shape, label, none);
  }
  Handle raw_array(const std::string& path,
                   const Raw& raw,
                   const std::vector<std::size_t>& shape,
                   const Label& label,
                   const void* none);
  Handle text_array(const std::string& path,
                    const std::vector<std::string>& texts,
                    bool scalar,
                    const Label& label);
  void make_scale(const std::string& name, Handle dataset, std::size_t length);
  [[nodiscard]] std::vector<std::size_t> lengths(const std::vector<std::string>& dimensions,
                                                 std::size_t count) const;
  void attach(const Handle& dataset,
              const std::string& path,
              const std::vector<std::string>& dimensions);

  Handle file_;
  std::map<std::string, Scale> scales_;
};

/// Reads a file. Every failure names the path within it.
class Reader {
 public:
  /// @param bytes of the whole file
  explicit Reader(const std::string& bytes);
  [[nodiscard]] bool has(const std::string& path) const;
  /// @throws Failure also if the number of values is not `count`
  template <class T>
  [[nodiscard]] std::vector<T> values(const std::string& path, std::size_t count) const {
    std::vector<T> data(count);
    raw_values(path, data.data(), memory_type<T>(), count);
    return data;
  }
  /// Number of values of an array.
  [[nodiscard]] std::size_t count(const std::string& path) const;
  [[nodiscard]] std::string text(const std::string& path) const;
  [[nodiscard]] std::vector<std::string> texts(const std::string& path) const;
  [[nodiscard]] std::string text_attribute(const std::string& path, const std::string& name) const;
  [[nodiscard]] double number_attribute(const std::string& path, const std::string& name) const;

 private:
  /// An attribute with one value, and its full name for messages.
  struct Attribute {
    std::string whole;
    Handle handle;
  };
  [[nodiscard]] Attribute single_attribute(const std::string& path,
                                           const std::string& name,
                                           bool is_text) const;
  [[nodiscard]] Handle open(const std::string& path) const;
  void raw_values(const std::string& path, void* data, hid_t type, std::size_t count) const;

  Handle file_;
};
}  // namespace ovendays::results::h5
