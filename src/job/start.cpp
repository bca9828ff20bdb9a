#include <lobewright/start.h>

namespace lobewright {
namespace {

// Each job is put together from these parts; a part ends with an empty line.

constexpr const char* how_to_begin =
    R"(# The engine is invented: put your own figures in, one at a time, and let `lobewright check` read the file again
# after each. A wrong key, a wrong figure or a lobe that can't be is told by line and column, with what to do about it.
#
# Everything is seen from the drive end of the shaft, looking along it: z grows away from you, and angles on the shaft
# grow counter-clockwise ("ccw") from its datum, the keyway or dowel. Angles are degrees; lengths are in `units`.

layout = 1

)";

constexpr const char* single_shaft =
    R"([job]
title = "Basalt single"
units = "mm"                # or "inch"; for every length in this file and in all that is made from it

[shaft]
turns = "ccw"               # the way it runs, seen from the drive end: "ccw" or "cw"
blank_diameter = 17.0       # of the bar over the lobes, before cutting
length = 70.0

[[shaft.journal]]           # places that no cutter may touch; z is the middle
z = 6.0
width = 10.0
diameter = 10.0
[[shaft.journal]]
z = 60.0
width = 10.0
diameter = 10.0

)";

constexpr const char* single_lobes =
    R"(# One [[lobe]] for each lobe, in any order. Without an [engine], write at = 125.0 (where the nose points, as a shaft
# angle) instead of cylinder and valve.
[[lobe]]
name = "inlet"
profile = "inlet"           # a [profile.inlet]
follower = "tappet"         # a [follower.tappet]
cylinder = 1
valve = "inlet"
z = 25.0                    # middle of the lobe, from the drive end
width = 6.0

[[lobe]]
name = "exhaust"
profile = "exhaust"
follower = "tappet"
cylinder = 1
valve = "exhaust"
z = 41.0
width = 6.0

)";

constexpr const char* tappet =
    R"([follower.tappet]
kind = "flat"               # flat, roller, domed, knife or pivoted
face_diameter = 12.0

)";

constexpr const char* contact =
    R"(# For stresses, and for the speed at which the follower would leave the lobe. Without [contact] nothing is said of them.
[contact]
spring_preload = 15.0       # N at the follower, valve shut
spring_rate = 4.0           # N/mm
moving_mass = 0.012         # kg of all that moves, reduced to the follower
crank_speed = 5000          # rev/min
cam_material = "steel"      # "steel", "cast-iron", or { young_gpa = 207, poisson = 0.3 }
follower_material = "steel"
allowable_stress = 900      # MPa: what you trust the surfaces with

)";

constexpr const char* fixture_title =
    R"(# A job for cutting a camshaft on a bare lathe: the shaft swings off centre in a fixture with an index wheel.
# `lobewright index THIS-FILE --method lathe` writes the settings, cut by cut.
)";

constexpr const char* fixture_engine =
    R"(# The timing card, in crank degrees; the clearance is at the valve. It puts the lobes round the shaft.
[engine]
cam_per_crank = 0.5
cylinders = 1
inlet = { opens_before_tdc = 7, closes_after_bdc = 47, clearance = 0.10 }
exhaust = { opens_before_bdc = 47, closes_after_tdc = 7, clearance = 0.10 }

# Two flanks and a nose of circular arcs. The fixture cuts one flank radius for all lobes: its offset + base_radius.
# An action angle that is twice a whole number of divisions of the wheel, and a nose that points to a mark, bring the
# flanks on marks: here 130 = 2 x 13 x 5 degrees. Leave action_angle out to have it solved from the timing card.
[profile.inlet]
shape = "arcs"
base_radius = 6.0
lift = 2.4                  # nose above base circle
action_angle = 130.0        # cam degrees, from where one flank leaves the base circle to where the other does
flank_radius = 22.0         # = 16.0 + 6.0; the nose radius is solved, and filed

[profile.exhaust]
shape = "arcs"
base_radius = 6.0
lift = 2.4
action_angle = 130.0
flank_radius = 22.0

)";

constexpr const char* fixture =
    R"(# The fixture and the lathe.
[hand.lathe]
method = "offset-fixture"
offset = 16.0               # shaft's axis to lathe's axis; leave it out to be told which offsets would do
divisions = 72              # marks of the index wheel
infeed = 0.10               # per pass, on the way down a flank
travel = "along"            # the slide locked at its stop, and the tool fed along the lobe; or "plunge"
feed = 0.05                 # along, a turn of the spindle
allowance = 0.0             # left on for stone, lap or grinder
dial = "radius"             # what dial or read-out shows: "radius", or "diameter" if it counts double
dial_zero = 0.0             # what it shows with the tool's point on the lathe's axis
zero = 0.0                  # shaft angle that points straight out from the lathe's axis at mark 0
counts = "ccw"              # the way round the shaft in which the marks' numbers grow
tool_width = 3.0
wheel_diameter = 80.0       # it swings with the shaft
swing_over_bed = 180.0
swing_over_cross_slide = 115.0
)";

constexpr const char* head_title =
    R"(# A job for cutting a camshaft on a mill by hand: the shaft in a dividing head, flats under the end of a cutter.
# `lobewright index THIS-FILE --method head` writes turns, holes and depth of every flat.
)";

constexpr const char* head_engine =
    R"(# The timing card, in crank degrees; the clearance is at the valve. It puts the lobes round the shaft.
[engine]
cam_per_crank = 0.5
cylinders = 1
inlet = { opens_before_tdc = 12, closes_after_bdc = 44, clearance = 0.10 }
exhaust = { opens_before_bdc = 48, closes_after_tdc = 12, clearance = 0.10 }

# Two flanks and a nose of circular arcs. Without an action_angle it is the one that opens and closes the valve as the
# timing card asks. Flats leave ridges that a fine stone takes off; on a hollow flank they can't be cut.
[profile.inlet]
shape = "arcs"
base_radius = 6.0
lift = 2.4                  # nose above base circle
flank_radius = 20.0         # or nose_radius; the other one is solved

[profile.exhaust]
shape = "arcs"
base_radius = 6.0
lift = 2.3
flank_radius = 20.0

)";

constexpr const char* head =
    R"(# The dividing head.
[hand.head]
method = "dividing-head"
ratio = 40                  # turns of the crank in one turn of the shaft
plates = [[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33], [37, 39, 41, 43, 47, 49]]   # circles of each plate
cusp = 0.005                # highest ridge to leave; or step = 2.0 degrees
zero = 0.0                  # shaft angle that faces the cutter at the head's zero
counts = "ccw"              # the way round the shaft in which turns and holes count
cutter_axis = "radial"      # the end of a cutter cuts flats; "parallel", with cutter = "...", is for its side
)";

constexpr const char* twin_shaft =
    R"([job]
title = "Basalt twin"
units = "mm"                # or "inch"; for every length in this file and in all that is made from it

[shaft]
turns = "ccw"               # the way it runs, seen from the drive end: "ccw" or "cw"
blank_diameter = 17.0       # of the bar over the lobes, before cutting
length = 108.0

[[shaft.journal]]           # places that no cutter may touch; z is the middle
z = 6.0
width = 10.0
diameter = 10.0
[[shaft.journal]]
z = 102.0
width = 10.0
diameter = 10.0

# The timing card, in crank degrees; the clearance is at the valve. It puts the lobes round the shaft.
[engine]
cam_per_crank = 0.5
cylinders = 2
firing_angles = [0, 360]    # by cylinder, crank degrees; or firing_order = [1, 2] where they fire evenly
inlet = { opens_before_tdc = 12, closes_after_bdc = 44, clearance = 0.10 }
exhaust = { opens_before_bdc = 58, closes_after_tdc = 24, clearance = 0.12 }

# Geometry first: two flanks and a nose of circular arcs. Without an action_angle it is the one that opens and closes
# the valve as the timing card asks.
[profile.inlet]
shape = "arcs"
base_radius = 6.0
lift = 2.4                  # nose above base circle
flank_radius = 18.0         # or nose_radius; the other one is solved

# Motion first: the tappet's lift is a law of the angle, and the lobe is what gives it. Ramps take up the clearance.
[profile.exhaust]
shape = "motion"
base_radius = 6.0
lift = 2.2                  # the whole of it, ramps included
law = "power-polynomial"    # or simple-harmonic, cycloidal, polynomial-345, polynomial-4567, modified-sine, ...
powers = [2, 8, 14, 20]     # of this law alone
opening_angle = 62.0        # cam degrees, from the ramp's end to the peak
closing_angle = 64.5
opening_ramp = { lift = 0.14, angle = 16.0 }
closing_ramp = { lift = 0.14, angle = 20.0 }

)";

constexpr const char* twin_lobes =
    R"(# One [[lobe]] for each lobe, in any order. Without an [engine], write at = 125.0 (where the nose points, as a shaft
# angle) instead of cylinder and valve.
[[lobe]]
name = "1 exhaust"
profile = "exhaust"         # a [profile.exhaust]
follower = "tappet"         # a [follower.tappet]
cylinder = 1
valve = "exhaust"
z = 24.0                    # middle of the lobe, from the drive end
width = 6.0

[[lobe]]
name = "1 inlet"
profile = "inlet"
follower = "tappet"
cylinder = 1
valve = "inlet"
z = 42.0
width = 6.0

[[lobe]]
name = "2 inlet"
profile = "inlet"
follower = "tappet"
cylinder = 2
valve = "inlet"
z = 66.0
width = 6.0

[[lobe]]
name = "2 exhaust"
profile = "exhaust"
follower = "tappet"
cylinder = 2
valve = "exhaust"
z = 84.0
width = 6.0

)";

constexpr const char* mill_title =
    R"(# A job for a vertical mill with a rotary axis: the shaft lies along X, A turns it, the end of a square mill cuts.
# `lobewright cut THIS-FILE -o twin.ngc` writes the program, and only if it has proven it.
)";

constexpr const char* mill =
    R"(# The lobe touches the cutter's flat end up to 4 mm to either side of the shaft's axis: the end must be that wide.
[cutter.em20]
kind = "end-mill"           # end-mill, ball-nose or disc
diameter = 20.0
corner_radius = 0.0
flute_length = 38.0
teeth = 4
shank_diameter = 20.0
reach = 55.0                # length out of the holder
holder_diameter = 50.0

[machine]
post = "rs274ngc-zxa"       # Z over the shaft, X along it, A turns it; `lobewright posts` lists the others
cutter_axis = "radial"      # the cutter's axis points at the shaft
rotary_positive = "ccw"     # move A by + 10 and look from the drive end: the way that the shaft turns, "ccw" or "cw"
tool_change = { radial = 60.0, axial = 120.0 }  # from the program's zeros: it begins there, and ends there

[machine.limits]            # what the axes can do, as far as you know it
radial_speed = 1500
axial_speed = 3000
rotary_speed = 3600         # degrees per minute
radial_acceleration = 200   # per second, per second
rotary_acceleration = 1800

# High speed steel in soft case-hardening steel, about 25 m/min: look up what your cutter and steel want.
[cut]
cutter = "em20"
tolerance = 0.002           # of the finished surface, along the normal, to either side
allowance = 0.0             # left on for grinding or polishing
rough_depth = 0.8           # rings no deeper than this first; without it, the finish pass alone
surface_feed = 70.0         # mm/min along the lobe's surface
rough_surface_feed = 55.0
spindle_speed = 400
direction = "conventional"  # or "climb", if the rotary axis has no slack
clearance = 3.0             # rapids stay this far outside the blank
overlap = 5.0               # degrees that a pass runs on past its start, on the heel
spring_passes = 1           # repeats of the last pass
side_shift = 4.5            # the cutter's axis beside the shaft's, so that its dead middle doesn't cut
)";

constexpr const char* lathe_title =
    R"(# A job for a lathe with a C axis and a live cutter that points at the shaft: X in diameter, Z along the shaft.
# `lobewright cut THIS-FILE -o twin.ngc` writes the program, and only if it has proven it.
)";

constexpr const char* lathe =
    R"(# The lobe touches the cutter's flat end up to 4 mm to either side of the shaft's axis: the end must be that wide.
[cutter.em16]
kind = "end-mill"           # end-mill, ball-nose or disc
diameter = 16.0
corner_radius = 0.0
flute_length = 32.0
teeth = 4
shank_diameter = 16.0
reach = 42.0                # length out of the holder
holder_diameter = 32.0

[machine]
post = "rs274ngc-xzc"       # X in diameter, Z along the shaft, C turns it; `lobewright posts` lists the others
cutter_axis = "radial"      # the live cutter points at the shaft
rotary_positive = "ccw"     # move C by + 10 and look from the drive end: the way that the shaft turns, "ccw" or "cw"
tool_change = { radial = 60.0, axial = 120.0 }  # from the program's zeros, a radius: it begins and ends there

[machine.limits]            # what the axes can do, as far as you know it
radial_speed = 3000
axial_speed = 5000
rotary_speed = 7200         # degrees per minute
radial_acceleration = 500   # per second, per second
rotary_acceleration = 3600

# Carbide in soft case-hardening steel, about 75 m/min: look up what your cutter and steel want.
[cut]
cutter = "em16"
tolerance = 0.002           # of the finished surface, along the normal, to either side
allowance = 0.0             # left on for grinding or polishing
rough_depth = 0.5           # rings no deeper than this first; without it, the finish pass alone
surface_feed = 200.0        # mm/min along the lobe's surface
rough_surface_feed = 150.0
spindle_speed = 1500        # of the live cutter
direction = "conventional"  # or "climb", if the C axis has no slack
clearance = 3.0             # rapids stay this far outside the blank
overlap = 5.0               # degrees that a pass runs on past its start, on the heel
spring_passes = 1           # repeats of the last pass
side_shift = 3.5            # the cutter's axis beside the shaft's, so that its dead middle doesn't cut
)";

}  // namespace

const std::vector<std::string>& starting_purposes() {
    static const std::vector<std::string> purposes = {"offset-fixture", "dividing-head", "rotary-mill",
                                                      "lathe-c"};
    return purposes;
}

std::optional<std::string> starting_job(std::string_view purpose) {
    std::vector<const char*> parts;
    if (purpose == "offset-fixture")
        parts = {fixture_title, how_to_begin, single_shaft, fixture_engine,
                 tappet,        single_lobes, contact,      fixture};
    if (purpose == "dividing-head")
        parts = {head_title, how_to_begin, single_shaft, head_engine, tappet, single_lobes, contact, head};
    if (purpose == "rotary-mill")
        parts = {mill_title, how_to_begin, twin_shaft, tappet, twin_lobes, contact, mill};
    if (purpose == "lathe-c")
        parts = {lathe_title, how_to_begin, twin_shaft, tappet, twin_lobes, contact, lathe};
    if (parts.empty()) return std::nullopt;
    std::string text;
    for (const char* part : parts)
        text += part;
    return text;
}

}  // namespace lobewright
