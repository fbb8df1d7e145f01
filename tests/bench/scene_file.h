// SPDX-License-Identifier: MIT
// A cook as bytes, to hand it from work_precision to the library that SciPy loads. Both are built
// by the same compiler in the same build folder; the file lives as long as the run.
#pragma once

#include <fstream>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <vector>

#include "ovendays/heat/integrator.h"

namespace ovendays::bench {

struct StoredScene {
  heat::HeatModel model;
  std::vector<heat::AirSegment> air;
  std::vector<heat::GainSegment> gains;
  std::vector<heat::LidOpening> lid;
  heat::State start{};
  double start_s = 0.0, end_s = 0.0;

  [[nodiscard]] heat::Run run() const {
    heat::Run one;
    one.forcing = {air, gains};
    one.start_s = start_s;
    one.end_s = end_s;
    one.state = start;
    one.lid_open = lid;
    return one;
  }
};

template <class T>
void write_bytes(std::ofstream& out, const T* first, std::size_t count) {
  static_assert(std::is_trivially_copyable_v<T>);
  out.write(reinterpret_cast<const char*>(first), static_cast<std::streamsize>(count * sizeof(T)));
}
template <class T>
void read_bytes(std::ifstream& in, T* first, std::size_t count) {
  static_assert(std::is_trivially_copyable_v<T>);
  in.read(reinterpret_cast<char*>(first), static_cast<std::streamsize>(count * sizeof(T)));
}
template <class T>
void write_list(std::ofstream& out, const std::vector<T>& list) {
  const std::size_t count = list.size();
  write_bytes(out, &count, 1);
  write_bytes(out, list.data(), count);
}
template <class T>
void read_list(std::ifstream& in, std::vector<T>& list) {
  std::size_t count = 0;
  read_bytes(in, &count, 1);
  list.resize(count);
  read_bytes(in, list.data(), count);
}

/// @throws std::runtime_error
inline void write_scene(const std::string& file, const StoredScene& scene) {
  std::ofstream out(file, std::ios::binary);
  write_bytes(out, &scene.model, 1);
  write_list(out, scene.air);
  write_list(out, scene.gains);
  write_list(out, scene.lid);
  write_bytes(out, &scene.start, 1);
  write_bytes(out, &scene.start_s, 1);
  write_bytes(out, &scene.end_s, 1);
  if (!out) throw std::runtime_error(file + ": cannot be written");
}

/// @throws std::runtime_error
inline StoredScene read_scene(const std::string& file) {
  StoredScene scene;
  std::ifstream in(file, std::ios::binary);
  read_bytes(in, &scene.model, 1);
  read_list(in, scene.air);
  read_list(in, scene.gains);
  read_list(in, scene.lid);
  read_bytes(in, &scene.start, 1);
  read_bytes(in, &scene.start_s, 1);
  read_bytes(in, &scene.end_s, 1);
  if (!in) throw std::runtime_error(file + ": cannot be read");
  return scene;
}
}  // namespace ovendays::bench
