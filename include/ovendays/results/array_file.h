// SPDX-License-Identifier: MIT
// Files of arrays over named dimensions: the results of a map, a spread or a series of seasons of
// one case. The layout is that of a season's file (HDF5, netCDF-4, CF names), so other programs can
// open and label them. This program does not read them back.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "ovendays/season/case.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::results {

/// A dimension and its coordinates, which are numbers, or words if `words` is not empty.
struct ArrayDimension {
  std::string name;
  std::string long_name;
  std::string units;  ///< of the numbers; empty for words
  std::vector<double> numbers;
  std::vector<std::string> words;
};

/// An array over dimensions, row-major; NaN where there is no value.
struct NamedArray {
  std::string name;
  std::string long_name;
  std::string units;
  std::vector<std::string> dimensions;  ///< names of ArrayFile::dimensions
  std::vector<double> values;           ///< stored in single precision
};

struct ArrayFile {
  std::string title;
  std::vector<std::pair<std::string, std::string>> notes;  ///< attributes of the whole file
  std::vector<ArrayDimension> dimensions;
  std::vector<NamedArray> arrays;
};

/// Writes the arrays together with text and digest of the case and name and digest of the weather.
/// The file is written under another name and renamed into place. The same arrays give the same
/// bytes. Arrays of more than 64 bytes carry a Fletcher-32 checksum.
/// @throws base::RunError with the file's name and HDF5's or the system's reason
/// Thread-safe: as the HDF5 library is; one call at a time.
void write_arrays(const std::string& file,
                  const ArrayFile& content,
                  const season::Case& c,
                  const weather::WeatherYear& year);
}  // namespace ovendays::results
