// SPDX-License-Identifier: MIT
// For a weather file, as comma-separated lines on standard output: per hour the date as in the
// file, GHI, DNI, DHI, dry bulb, wind, the sun, and the plane-of-array irradiance on the planes
// given as tilt:azimuth pairs in degrees (open ground, albedo 0.2, light from the file's hour mean
// and the sun of the hour's middle).
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"
#include "ovendays/sky/sky_model.h"
#include "ovendays/weather/weather_year.h"

namespace {
using namespace ovendays;

struct Plane {
  double tilt_rad;
  double azimuth_rad;
};

double on_plane_Wm2(const weather::WeatherHour& hour,
                    const sun::SunPosition& sun,
                    const Plane& plane) {
  constexpr double kAlbedo = 0.2;
  const base::Direction normal =
      base::direction_from_sky(plane.azimuth_rad, 0.5 * base::kPi - plane.tilt_rad);
  const double cos_incidence = base::dot(normal, sun.direction());
  const double ground = kAlbedo * hour.ghi_Wm2 * 0.5 * (1.0 - std::cos(plane.tilt_rad));
  // As pvlib has it: the beam of an hour whose middle has the sun below the horizon counts all the
  // same.
  const double beam = hour.dni_Wm2 * std::max(0.0, cos_incidence);
  const double extra = sun::extraterrestrial_normal_Wm2(sun.distance_au);
  const sky::PerezParts parts =
      sky::perez_parts({sun.zenith_rad, hour.dni_Wm2, hour.dhi_Wm2, extra});
  const double diffuse = sun.zenith_rad < 0.5 * base::kPi
                             ? sky::perez_tilted_sky_Wm2(parts, plane.tilt_rad, cos_incidence)
                             : 0.0;
  return beam + diffuse + ground;
}

void dump(const std::string& file, const std::vector<Plane>& planes) {
  const weather::WeatherYear year = weather::read_weather(file);
  for (const weather::WeatherHour& hour : year.hours) {
    const sun::SunPosition sun = sun::sun_position(
        hour.sun_time(year.place.utc_offset_s), year.place, {hour.pressure_Pa, hour.dry_bulb_K});
    std::printf("%d,%d,%d,%.1f,%.3f,%.3f,%.3f,%.3f,%.3f,%.6f,%.6f",
                hour.date.year,
                hour.date.month,
                hour.date.day,
                hour.start_s / base::kSecondsPerHour,
                hour.ghi_Wm2,
                hour.dni_Wm2,
                hour.dhi_Wm2,
                hour.dry_bulb_K - base::kZeroCelsius_K,
                hour.wind_ms,
                sun.zenith_rad * base::kDegPerRad,
                sun.azimuth_rad * base::kDegPerRad);
    for (const Plane& plane : planes) std::printf(",%.4f", on_plane_Wm2(hour, sun, plane));
    std::printf("\n");
  }
}
}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fprintf(stderr, "plane_dump FILE TILT:AZIMUTH...\n");
    return 2;
  }
  std::vector<Plane> planes;
  for (int i = 2; i < argc; ++i) {
    char* end = nullptr;
    const double tilt_deg = std::strtod(argv[i], &end);
    planes.push_back(
        {tilt_deg * base::kRadPerDeg, std::strtod(end + 1, nullptr) * base::kRadPerDeg});
  }
  try {
    dump(argv[1], planes);
  } catch (const base::InputError& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 2;
  }
  return 0;
}
