// SPDX-License-Identifier: MIT
#include "ovendays/task/task.h"

namespace ovendays::task {

// NOLINTNEXTLINE(readability-function-size): the text of a case file
const char* example_tasks_toml() {
  return R"toml(# What is cooked. A task is done when the food's coldest part has been at or above `target` for `hold`,
# and, for baking, the oven's air at or above `oven_air` for `oven_air_for`, all before `finish_by`.
# Where water boils below the target (high up), the target is lowered to 1 C below boiling, and the
# report says so. A target above 100 C is refused, except for food without water (`dry = true`).
# `overdone_after`: left in for longer than this after it is done, the food is overdone; the report says
# on how many days it would be if it stayed in until `finish_by`.
# `spoils = true`: time of the food's core between 5 and 60 C counts; a day on which the food gets hot
# enough but breaks the rule is "unsafe". Rules: "four-hour" (FDA Food Code in kind, 4 h), "two-hour"
# (USDA FSIS, 2 h). This program never says that food is safe: it says which published rule was met.
# Use a thermometer, and follow your local food-safety authority.
#
# NEVER heat a sealed can or jar in a box oven, and do not can or preserve in one: it cannot pass the
# boiling point inside the food, which leaves botulism spores alive, and a sealed jar can burst
# (cooperative extension notices). A task that says so is refused.
#
# Food: mass with its water; specific_heat; shape "stirred" (one temperature), or "slab", "cylinder",
# "sphere" with half_size (half thickness or radius of one piece), conductivity and density: then the
# core decides. `contact` is how well food and vessel touch, `water` what can leave as steam. The food
# must fit into its vessel; only solids in an open one may stand above its rim, to twice its height.
# A `start` below 0 C means frozen food, whose ice has to melt; `water_share` (0 to 1) is the share of
# water in it, left out: what Siebel's formula says of its specific heat.
# Specific heats: Geankoplis, Transport Processes, App. A.4, and Siebel's formula.

[[task]]
name = "soup, a pot heated"
vessel = "black pot"
mass = "4 lb"
specific_heat = 4000.0     # pea soup 4100
water = "3 lb"
start = "41 F"             # from the refrigerator
target = "165 F"           # leftovers and soups: foodsafety.gov chart of safe minimum temperatures
hold = "1 min"
spoils = true
rule = "two-hour"          # reheating: within 2 h (FDA Food Code 3-403.11)
finish_by = "18:30"
source = "foodsafety.gov chart (12 Apr 2019): leftovers and casseroles 165 F; FDA Food Code: reheat within 2 h"

[[task]]
name = "eggs, hard-cooked"
vessel = "black pot"
mass = "500 g"             # nine eggs, dry in the pot
specific_heat = 3180.0
shape = "sphere"
half_size = "22 mm"
density = 1050.0
conductivity = 0.5         # 0.55 p + 0.26 (1 - p) with 75 % water
contact = 30.0             # eggs on a dark towel: touch and air, judgement
start = "41 F"
target = "160 F"           # egg dishes: foodsafety.gov chart; the yolk has set
hold = "10 min"
spoils = true
finish_by = "18:30"
source = "foodsafety.gov chart: egg dishes 160 F; box-oven practice about 2 h for hard eggs"

[[task]]
name = "rice"
vessel = "black pot"
mass = "2.6 lb"            # 2 cups of rice and 4 of water
specific_heat = 3500.0
contact = 150.0
water = "1 lb"
start = "68 F"
target = "200 F"
hold = "25 min"
finish_by = "18:30"
source = "common practice, no source: absorbs its water in 20 to 30 min near boiling; box-oven practice 2 h in all"

[[task]]
name = "dry beans, soaked, simmered"
vessel = "black pot"
mass = "4 lb"              # 1 lb dry, soaked overnight, and water
specific_heat = 3800.0
contact = 200.0
water = "2 lb"
start = "68 F"
target = "195 F"           # a simmer; red kidney beans must be boiled hard for 30 min first (FDA Bad Bug Book, from memory)
hold = "2 h"
finish_by = "18:30"
source = "common practice, no source: 2 h of simmering; box-oven practice 3 to 5 h in all"

[[task]]
name = "stew with meat, slow"
vessel = "black pot"
mass = "4.5 lb"
specific_heat = 3500.0
contact = 200.0
water = "2 lb"
start = "41 F"
target = "180 F"           # above the 165 F of casseroles; tough meat turns tender
hold = "90 min"
spoils = true
finish_by = "18:30"
source = "foodsafety.gov chart: casseroles 165 F; tenderness: common practice, no source"

[[task]]
name = "bread loaf"
vessel = "loaf pan"
mass = "1.6 lb"
specific_heat = 2850.0
shape = "cylinder"
half_size = "1.6 in"
density = 450.0            # risen dough
conductivity = 0.5         # dough 0.3; steam moving inward in the crumb nearly doubles it (judgement)
contact = 40.0
water = "0.16 lb"          # a loaf loses about a tenth of its weight
start = "75 F"
target = "200 F"           # lean bread 200 to 208 F at the core
oven_air = "250 F"         # common practice, no source: bread also bakes at 220 F, only more slowly
oven_air_for = "30 min"
overdone_after = "20 min"  # judgement
finish_by = "18:30"
source = "baking guides: lean bread 200-208 F at the core; oven air: box-oven practice, from memory"

[[task]]
name = "cookies, a dark sheet"
vessel = "cookie sheet"
mass = "1 lb"
specific_heat = 2400.0
shape = "slab"
half_size = "0.2 in"
density = 1100.0
conductivity = 0.35
contact = 60.0
water = "0.08 lb"
start = "60 F"
target = "195 F"
oven_air = "250 F"         # common practice, no source; cookies also bake below it, only more slowly
oven_air_for = "15 min"
overdone_after = "10 min"  # judgement
finish_by = "18:30"
source = "box-oven practice 1 to 1.5 h at 250 F and more, from memory"

[[task]]
name = "drinking water, pasteurised"
vessel = "black pot"
mass = "6.6 lb"            # 3 litres
specific_heat = 4186.0
contact = 300.0
water = "6 lb"
start = "59 F"
target = "149 F"           # 65 C for 6 min in one go
hold = "6 min"
unbroken = true
finish_by = "18:30"
source = "pasteurisation of water at 65 C for 6 min; compare WHO/FWC/WSH/15.02 (bacteria and viruses above 60-70 C)"
)toml";
}
}  // namespace ovendays::task
