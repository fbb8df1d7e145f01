// SPDX-License-Identifier: MIT
#include "ovendays/oven/design.h"

namespace ovendays::oven {

// One text, best read whole.
const char* example_oven_toml() {  // NOLINT(readability-function-size)
  return R"toml(# The oven. Write lengths, weights and angles with their units: "18 in", "2 lb", "60 deg".
[oven]
name = "box oven, four foil flaps"

[oven.box]                    # measured inside
inner_width = "18 in"
inner_depth = "18 in"         # from the front (the side that faces the sun) to the back
inner_height = "9 in"         # at the front
glazing_slope = "0 deg"       # glass against floor; a wedge-shaped box has more
frame = "0 in"                # opaque rim that narrows the opening on each side
leak_area = "2 cm2"           # all gaps of lid and door together
skin_absorptance = 0.7        # outside paint: 0.3 white, 0.9 black
skin_emittance = 0.9

# Wall and floor from the inside out. side = "wall", "floor" or "both".
[[oven.layer]]
side = "both"
material = "corrugated cardboard with foil"
thickness = "2 in"

[[oven.layer]]
side = "both"
material = "plywood"
thickness = "0.25 in"

[oven.liner]                  # blackened sheet that faces the inside
absorptance = 0.93
emittance = 0.9
specular_share = 0.0          # of what it reflects: bare foil 1, paint 0
mass = "0.3 kg"
specific_heat = "900 J/(kg K)"
thickness = "0.3 mm"
conductivity = "230 W/(m K)"  # aluminium; steel 50

[oven.tray]                   # present = false leaves it out
width = "16 in"
depth = "16 in"
height = "0.4 in"             # above the floor; the pot on its rack just clears the glass
mass = "0.4 kg"
specific_heat = "900 J/(kg K)"
absorptance = 0.93
emittance = 0.9
floor_conductance = 0.5       # W/K through its feet and the air below
thickness = "0.9 mm"          # of the sheet; thin sheet carries little heat to the pot
conductivity = "230 W/(m K)"  # aluminium; steel 50

[[oven.pane]]                 # tempered glass; a second table adds a second pane, outermost first
thickness = "1/8 in"
index = 1.526
extinction = "26 1/m"         # 26 common glass, 4 to 10 low-iron
ir_emittance = 0.84
ir_transmittance = 0.0        # clear films only
gap = "15 mm"                 # air gap to the next pane inward
density = "2500 kg/m3"
specific_heat = "840 J/(kg K)"

[[oven.flap]]                 # edge = "front", "right", "back", "left" or "all" for four alike
edge = "all"
length = "18 in"              # from hinge to outer edge
hinge_width = "0 in"          # 0: as wide as the glass
outer_width = "0 in"          # 0: as the hinge
flare_angle = "60 deg"        # 90 upright, 0 laid out flat
reflectance = 0.78            # kitchen foil laid by hand
scatter = "2 deg"             # how far foil throws a ray astray
emittance = 0.05

[oven.corners]                # foil triangles between neighbouring flaps
present = false
reflectance = 0.78
scatter = "2 deg"
emittance = 0.05

[[oven.vessel]]
name = "black pot"
kind = "pot"                  # upright and round
diameter = "8.5 in"
height = "4 in"
mass = "0.9 kg"               # with its lid
specific_heat = "480 J/(kg K)"
absorptance = 0.92
emittance = 0.9
lid = true
foot_gap = "1 mm"             # mean air gap under the foot; a flat, heavy foot 0.5 mm, a dented one 2 mm
lid_inner_emittance = 0.9     # underside of the lid: enamel 0.9, bare metal 0.3
lid_transmittance = 0.0       # share of the sun that a glass lid lets through to the food: about 0.8
lid_rim_contact = "10 W/(m2 K)"   # lid to pot at the rim, over the lid's area
lid_steam = 0.05              # steam past the lid over an open pot's: 0.02 heavy and tight, 0.12 loose

[[oven.vessel]]
name = "loaf pan"
kind = "pan"                  # rectangular
width = "9 in"
depth = "5 in"
height = "2.75 in"
mass = "0.4 kg"
absorptance = 0.85
lid = false                   # the dough itself takes the sun
foot_gap = "1 mm"

[[oven.vessel]]
name = "cookie sheet"
kind = "pan"
width = "13 in"
depth = "9 in"
height = "0.5 in"
mass = "0.45 kg"
lid = false
foot_gap = "1 mm"

[oven.as_built]               # what a finished oven loses against its drawing, in the mean over its use
cleanliness = 0.96            # light left by dust on glass and foil: 0.90 neglected, 1 just washed
flap_set = 0.93               # light left by foil that sags and by gaps: 1 for rigid mirrors

[oven.aim]
turns = true                  # on a cart or a lazy turntable
notches = ["0 deg", "10 deg", "20 deg", "30 deg", "40 deg", "50 deg"]   # tilts of the whole box

[oven.shelf]                  # what the pot stands on while the box is tilted
level = true                  # a rack inside that is set level in each notch; false: fixed, the pot tilts too
step = "10 deg"               # between the rack's settings (a bent rack, a wedge); 0: it swings freely
friction = 0.5                # a pot slides where tan(tilt) is more: 27 deg. Behind a ledge: 5
)toml";
}
}  // namespace ovendays::oven
