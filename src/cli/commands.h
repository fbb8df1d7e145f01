// SPDX-License-Identifier: MIT
#pragma once

#include "arguments.h"

namespace ovendays::cli {
CommandSpec compare_command();
CommandSpec gather_command();
CommandSpec aim_command();
CommandSpec day_command();
CommandSpec map_command();
CommandSpec new_command();
CommandSpec rate_command();
CommandSpec report_command();
CommandSpec season_command();
CommandSpec turning_command();
CommandSpec wait_command();
CommandSpec weather_command();
CommandSpec weather_make_command();
}  // namespace ovendays::cli
