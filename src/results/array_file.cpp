// SPDX-License-Identifier: MIT
#include "ovendays/results/array_file.h"

#include "h5.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/results/results.h"

namespace ovendays::results {
namespace {

void write_content(h5::Writer& out, const ArrayFile& content) {
  for (const ArrayDimension& d : content.dimensions) {
    const h5::Label label{d.long_name, d.units};
    if (d.words.empty()) {
      out.dimension<double>(d.name, d.numbers, label);
    } else {
      out.dimension(d.name, d.words, label);
    }
  }
  for (const NamedArray& array : content.arrays) {
    const std::vector<float> values(array.values.begin(), array.values.end());
    out.values_or_none(array.name, values, array.dimensions, {array.long_name, array.units});
  }
}

void write_array_parts(h5::Writer& out,
                       const ArrayFile& content,
                       const season::Case& c,
                       const weather::WeatherYear& year) {
  out.attribute("/", "Conventions", std::string("CF-1.8"));
  out.attribute("/", "title", content.title);
  out.attribute("/", "source", std::string("simulated by ovendays ") + program_version());
  out.attribute("/", "ovendays_version", std::string(program_version()));
  for (const auto& [name, text] : content.notes) out.attribute("/", name, text);
  write_content(out, content);
  out.group("inputs", "what it was made with");
  out.text("inputs/case_text", c.text, {"the case as read, includes appended", ""});
  out.attribute("inputs/case_text", "sha256", base::sha256_hex(c.text));
  out.attribute("inputs", "case_file", c.file);
  out.attribute("inputs", "weather_file", year.file);
  out.attribute("inputs", "weather_sha256", year.sha256);
}
}  // namespace

void write_arrays(const std::string& file,
                  const ArrayFile& content,
                  const season::Case& c,
                  const weather::WeatherYear& year) {
  const h5::QuietErrors quiet;
  std::string bytes;
  try {
    h5::Writer out;
    write_array_parts(out, content, c, year);
    bytes = out.finish();
  } catch (const h5::Failure& failure) {
    throw base::RunError(file + ": cannot be made: " + failure.what());
  }
  base::write_file(file, bytes);
}
}  // namespace ovendays::results
