// SPDX-License-Identifier: MIT
// Vectors in three dimensions. World axes: x east, y north, z up [m]. A Point is a place, a
// Direction a unit vector; both are Vec3 by layout so that arithmetic stays plain.
#pragma once

#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::base {

struct Vec3 {
  double x = 0.0;
  double y = 0.0;
  double z = 0.0;
  bool operator==(const Vec3&) const = default;

  constexpr Vec3& operator+=(const Vec3& o) {
    x += o.x;
    y += o.y;
    z += o.z;
    return *this;
  }
};

constexpr Vec3 operator+(const Vec3& a, const Vec3& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Vec3 operator-(const Vec3& a, const Vec3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Vec3 operator-(const Vec3& a) { return {-a.x, -a.y, -a.z}; }
constexpr Vec3 operator*(double s, const Vec3& a) { return {s * a.x, s * a.y, s * a.z}; }
constexpr Vec3 operator*(const Vec3& a, double s) { return s * a; }
constexpr double dot(const Vec3& a, const Vec3& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec3 cross(const Vec3& a, const Vec3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double norm(const Vec3& a) { return std::sqrt(dot(a, a)); }
inline Vec3 normalized(const Vec3& a) { return (1.0 / norm(a)) * a; }

using Point = Vec3;
using Direction = Vec3;  ///< unit length

/// Towards azimuth [rad, clockwise from north] and elevation [rad above the horizontal].
inline Direction direction_from_sky(double azimuth_rad, double elevation_rad) {
  const double c = std::cos(elevation_rad);
  return {c * std::sin(azimuth_rad), c * std::cos(azimuth_rad), std::sin(elevation_rad)};
}

/// Azimuth of a direction [rad], clockwise from north, 0..2 pi.
inline double azimuth_of(const Direction& d) {
  const double azimuth_rad = std::atan2(d.x, d.y);
  return azimuth_rad < 0.0 ? azimuth_rad + kTwoPi : azimuth_rad;
}

/// An orthonormal frame with its origin. `local` coordinates are along x, y, z of the frame.
struct Frame {
  Point origin;
  Direction x{1, 0, 0};
  Direction y{0, 1, 0};
  Direction z{0, 0, 1};

  [[nodiscard]] constexpr Vec3 local_from_world(const Vec3& v) const {
    return {dot(x, v), dot(y, v), dot(z, v)};
  }
  [[nodiscard]] constexpr Vec3 world_from_local(const Vec3& v) const {
    return v.x * x + v.y * y + v.z * z;
  }
  [[nodiscard]] constexpr Point world_point_from_local(const Vec3& p) const {
    return origin + world_from_local(p);
  }
};

}  // namespace ovendays::base
