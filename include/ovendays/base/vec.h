// SPDX-License-Identifier: MIT
// Vectors in three dimensions. World axes: x east, y north, z up [m]. Azimuths run clockwise from
// north. Point and Direction are aliases of Vec3 that document what a vector stands for.
#pragma once

#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::base {

/// Three components; plain arithmetic, no invariants.
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
/// Euclidean length.
inline double norm(const Vec3& a) { return std::sqrt(dot(a, a)); }
/// The unit vector along `a`, which must not be zero.
inline Vec3 normalized(const Vec3& a) { return (1.0 / norm(a)) * a; }

using Point = Vec3;      ///< a position [m]
using Direction = Vec3;  ///< a unit vector

/// The unit vector that points to a place in the sky.
/// @param azimuth_rad [rad] clockwise from north
/// @param elevation_rad [rad] above the horizontal
inline Direction direction_from_sky(double azimuth_rad, double elevation_rad) {
  const double c = std::cos(elevation_rad);
  return {c * std::sin(azimuth_rad), c * std::cos(azimuth_rad), std::sin(elevation_rad)};
}

/// Azimuth of a direction [rad], clockwise from north, 0..2 pi. Vertical directions give 0.
inline double azimuth_of(const Direction& d) {
  const double azimuth_rad = std::atan2(d.x, d.y);
  return azimuth_rad < 0.0 ? azimuth_rad + kTwoPi : azimuth_rad;
}

/// An orthonormal coordinate frame. Local coordinates are measured along its axes x, y and z.
/// Functions are named destination-from-source, so that chained transforms read off correctly.
struct Frame {
  Point origin;
  Direction x{1, 0, 0};
  Direction y{0, 1, 0};
  Direction z{0, 0, 1};

  /// Components of a world vector (a direction, not a position) along the frame's axes.
  [[nodiscard]] constexpr Vec3 local_from_world(const Vec3& v) const {
    return {dot(x, v), dot(y, v), dot(z, v)};
  }
  /// The world vector with the given components along the frame's axes.
  [[nodiscard]] constexpr Vec3 world_from_local(const Vec3& v) const {
    return v.x * x + v.y * y + v.z * z;
  }
  /// The world position of a point given in local coordinates; includes the origin.
  [[nodiscard]] constexpr Point world_point_from_local(const Vec3& p) const {
    return origin + world_from_local(p);
  }
};

}  // namespace ovendays::base
