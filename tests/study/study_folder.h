// SPDX-License-Identifier: MIT
// A folder with the starter case as yard.toml, a made weather year beside it, and a study.
#pragma once

#include <string>

#include "ovendays/base/file.h"
#include "ovendays/season/case.h"
#include "ovendays/study/study.h"
#include "scratch_folder.h"

namespace ovendays::test {

class StudyFolder : public Scratch {
 public:
  StudyFolder() {
    write("weather.epw",
          base::read_file(std::string(OVENDAYS_SOURCE_DIR) + "/weather/high_desert.epw"));
    std::string text = season::starter_case();
    const std::string name = "high_desert.epw";
    write("yard.toml", text.replace(text.find(name), name.size(), "weather.epw"));
  }
  [[nodiscard]] study::Study study(const std::string& text) const {
    write("study.toml", text);
    return {file("study.toml"), study::Causes::kLeftOut};
  }
};
}  // namespace ovendays::test
