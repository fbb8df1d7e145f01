// SPDX-License-Identifier: MIT
// One door to Catch2, version 2.13 (Debian 12) or 3 (later): include this, never Catch2 itself.
#pragma once

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#define OVENDAYS_CATCH_NS Catch::Matchers
#else
#include <catch2/catch.hpp>
#define OVENDAYS_CATCH_NS Catch
#endif

#include <string>

namespace ovendays::test {
/// Within an absolute tolerance.
inline auto within_abs(double target, double margin) {
  return OVENDAYS_CATCH_NS::WithinAbs(target, margin);
}
/// Within a relative tolerance.
inline auto within_rel(double target, double margin) {
  return OVENDAYS_CATCH_NS::WithinRel(target, margin);
}
/// A figure to be tested against, with the reason for the tolerance spelled out at the call.
inline bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}
}  // namespace ovendays::test
