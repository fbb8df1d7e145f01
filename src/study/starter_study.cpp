// SPDX-License-Identifier: MIT
#include "ovendays/study/study.h"

namespace ovendays::study {

std::string starter_study() {  // NOLINT(readability-function-size): a text
  return R"toml(# A study for ovendays: variants of one case, to be compared. All prices are invented; put in your
# own. Run it:  ovendays compare THIS_FILE.toml
# A second run simulates only what is missing or has changed since.

# The case that all variants start from. ("ovendays new my-yard.toml" writes one.)
case = "my-yard.toml"

[study]
name = "What to change about my oven"
money = "EUR"               # currency of the prices; any word
# count = ["bread loaf"]    # tasks that count in totals, ranks and the order of changes; default: all
# together = false          # default true: also find the best order in which to make the changes

# --- What to change -----------------------------------------------------------------------------
# Each change is tried alone, then combined with others in the order that gains most for its price.
#   set."PATH" = VALUE      replaces a value of the case
#   add."PATH" = {TABLE}    adds a table to a list: a second pane, one more tree
#   drop = ["PATH"]         removes something
# A path names an entry of the case from the top: "oven.box.leak_area". In a list of tables choose one
# by its name ("oven.vessel.black pot.mass") or its number from 1 ("oven.layer.1.thickness").

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
name = "level rack"         # gains nothing where the case has one already, as the starter case does
price = 8
set."oven.shelf.level" = true

[[change]]
name = "turn it every 15 min"
price = 0
set."routine.re_aim_every" = "15 min"

# [[change]]                # where the case's routine has a wash_every already, a longer one
# name = "wash glass and foil each month"
# price = 0
# set."routine.wash_every" = "30 days"

[[change]]
name = "3 m out from the roof"
price = 0
set."spot.y" = "-3 m"

# --- What it saves ------------------------------------------------------------------------------
[kitchen]
tariff = 0.30               # price of a kWh of the kitchen's energy
oven_price = 60             # price of the case's oven

# Energy of one cook in the kitchen, and how often it is wanted. Default: a published figure for an
# electric hob or oven, and each task equally often, one task a day in all.
# [[kitchen.task]]
# name = "bread loaf"
# energy = "1.1 kWh"
# cooks_a_week = 2

# --- Which of many ------------------------------------------------------------------------------
# Lists whose entries are combined: every site with every spot, every oven and every routine. The
# first entries make the alternative that all others are compared with and that changes start from.
# An entry has a name and any of: use (a table, or a file that contains it, to replace that of the
# case), and set, add, drop as above.
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
# price = 35                # price of this oven, in place of oven_price
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
