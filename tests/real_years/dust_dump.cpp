// SPDX-License-Identifier: MIT
// Prints the dust on an oven that always stands in the rain, day by day, for the comparison with
// pvlib: first the rain [mm], then the share of the light that dust takes.
#include <cstdio>

#include "dust.h"
#include "ovendays/base/random.h"

int main() {
  using namespace ovendays;
  base::KeyedRandom random(2006);
  std::vector<season::DayRain> year(365);
  for (season::DayRain& day : year)
    day = {random.uniform() < 0.12 ? 0.02 * random.uniform() : 0.0, true};
  task::Routine routine;
  routine.wash_every_s = 73.0 * 86400.0;
  const std::vector<double> shares = season::dust_shares(year, routine);
  for (std::size_t d = 0; d < year.size(); ++d)
    std::printf("%.17g,%.17g\n", 1000.0 * year[d].rain_m, shares[d]);
}
