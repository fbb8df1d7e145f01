// SPDX-License-Identifier: MIT
#include "commands.h"

namespace ovendays::cli {

const std::vector<CommandSpec>& commands() {
  static const std::vector<CommandSpec> all = {new_command(),
                                               season_command(),
                                               report_command(),
                                               compare_command(),
                                               gather_command(),
                                               day_command(),
                                               aim_command(),
                                               map_command(),
                                               turning_command(),
                                               wait_command(),
                                               rate_command(),
                                               weather_make_command(),
                                               weather_command()};
  return all;
}
}  // namespace ovendays::cli
