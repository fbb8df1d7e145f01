// SPDX-License-Identifier: MIT
// The heat network's equations behind a C interface, for Python's ctypes. Handles are closed by
// the end of the process.
#include <memory>

#include "driven_equations.h"
#include "scene_file.h"

using namespace ovendays;

namespace {
struct Handle {
  bench::StoredScene scene;
  std::unique_ptr<test::DrivenEquations> equations;
};
Handle& of(void* handle) { return *static_cast<Handle*>(handle); }
}  // namespace

extern "C" {
/// @return nullptr where the file cannot be read
void* scene_open(const char* file, int run_through) {
  try {
    auto handle = std::make_unique<Handle>();
    handle->scene = bench::read_scene(file);
    handle->equations = std::make_unique<test::DrivenEquations>(
        handle->scene.model,
        handle->scene.run(),
        run_through != 0 ? test::Joins::kRunThrough : test::Joins::kStop);
    return handle.release();
  } catch (const std::exception&) {
    return nullptr;
  }
}
int scene_size(void* handle) { return static_cast<int>(of(handle).equations->nodes().size()); }
double scene_start_s(void* handle) { return of(handle).scene.start_s; }
double scene_end_s(void* handle) { return of(handle).scene.end_s; }
void scene_start(void* handle, double* y) { of(handle).equations->pack(of(handle).scene.start, y); }
/// Begins a stretch; returns where it ends [s].
double scene_enter(void* handle, double time_s) {
  of(handle).equations->enter(time_s);
  return of(handle).equations->cut_s();
}
void scene_slope(void* handle, double time_s, const double* y, double* rate) {
  of(handle).equations->slope(time_s, y, rate);
}
}
