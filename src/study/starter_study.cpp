// SPDX-License-Identifier: MIT
#include "ovendays/study/study.h"

namespace ovendays::study {

std::string starter_study() {  // NOLINT(readability-function-size): a text
  return R"toml(# A study for ovendays: one case, and what about it is to be compared. Prices are invented;
# change what is yours. Run it:  ovendays compare THIS_FILE.toml
# A second run does only what is missing or has changed since.

# The case that everything starts from. ("ovendays new my-yard.toml" writes one.)
case = "my-yard.toml"

[study]
name = "What to change about my oven"
money = "EUR"               # what prices are in; any word
# count = ["bread loaf"]    # tasks that count in totals, ranks and the order of changes; all if left out
# together = false          # true: also find the best order in which to make the changes below

# --- What to change -----------------------------------------------------------------------------
# Each change is tried alone, then together with others in the order that brings most for its price.
#   set."PATH" = VALUE      puts a value in place of the case's
#   add."PATH" = {TABLE}    adds a table to a list: a second pane, one more tree
#   drop = ["PATH"]         takes something away
# A path is what stands in the case, from the top: "oven.box.leak_area". In a list of tables say which
# one, by its name ("oven.vessel.black pot.mass") or its number from 1 ("oven.layer.1.thickness").

[[change]]
name = "second pane"
price = 22
add."oven.pane" = { thickness = "1/8 in", index = 1.526, extinction = "26 1/m" }

[[change]]
name = "flaps 6 in longer"
price = 9
set."oven.flap.1.length" = "24 in"

[[change]]
name = "new foil, laid smooth"
price = 4
set."oven.flap.1.reflectance" = 0.84

[[change]]
name = "twice the insulation"
price = 12
set."oven.layer.1.thickness" = "4 in"

[[change]]
name = "darker pot"
price = 6
set."oven.vessel.black pot.absorptance" = 0.96

[[change]]
name = "turn it every 15 min"
price = 0
set."routine.re_aim_every" = "15 min"

[[change]]
name = "3 m out from the roof"
price = 0
set."spot.y" = "-3 m"

# --- What it saves ------------------------------------------------------------------------------
[kitchen]
tariff = 0.30               # money for a kWh of what the kitchen cooks with
oven_price = 60             # what the oven of the case has cost

# Energy of one cook in the kitchen and how often it is wanted. Left out: a published figure for an
# electric hob or oven, and each task equally often, one task a day in all.
# [[kitchen.task]]
# name = "bread loaf"
# energy = "1.1 kWh"
# cooks_a_week = 2

# --- Which of many ------------------------------------------------------------------------------
# Lists that are crossed with one another: every site with every spot, every oven, every routine.
# The first of each makes the alternative that all others are held against, and that changes start
# from. An entry has a name, and any of: use (a table, or a file that holds it, in place of the
# case's), set, add, drop as above.
# [[site]]
# name = "at home"
# [[site]]
# name = "at the coast"
# use = { weather = "coast.epw" }
#
# [[spot]]
# name = "carport"
# [[spot]]
# name = "open lawn"
# drop = ["spot.bay"]
#
# [[oven]]
# name = "as built"
# [[oven]]
# name = "small box"
# price = 35                # what it has cost, in place of oven_price
# use = "small-oven.toml"
#
# [[routine]]
# name = "all day at home"
# [[routine]]
# name = "set and forget"
# set = { "routine.re_aim" = "once", "routine.re_aim_at" = ["12:00"] }
)toml";
}
}  // namespace ovendays::study
