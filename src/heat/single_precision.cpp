// SPDX-License-Identifier: MIT
#include "single_precision.h"

#include <algorithm>
#include <bit>

namespace ovendays::heat {
namespace {

template <std::size_t kCount>
void narrow_all(const std::array<double, kCount>& from, std::array<float, kCount>& to) {
  std::transform(
      from.begin(), from.end(), to.begin(), [](double x) { return static_cast<float>(x); });
}
}  // namespace

BasicHeatModel<float> to_single_precision(const HeatModel& model) {
  // All members of NetworkNumbers are numbers of one type, so it has the layout of one array.
  constexpr std::size_t kCount = sizeof(NetworkNumbers<double>) / sizeof(double);
  static_assert(sizeof(NetworkNumbers<float>) == kCount * sizeof(float));
  const auto doubles =
      std::bit_cast<std::array<double, kCount>>(static_cast<const NetworkNumbers<double>&>(model));
  std::array<float, kCount> floats{};
  narrow_all(doubles, floats);
  return {static_cast<const NetworkLayout&>(model), std::bit_cast<NetworkNumbers<float>>(floats)};
}

void narrow(const State& state, std::array<float, kNodes>& narrowed) {
  narrow_all(state, narrowed);
}

void widen(const std::array<float, kNodes>& narrowed, State& state) {
  std::copy(narrowed.begin(), narrowed.end(), state.begin());
}
}  // namespace ovendays::heat
