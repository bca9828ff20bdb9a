#include "small_job.h"

std::string small_job() {
    return R"(layout = 1
[job]
title = "Basalt test piece"
units = "mm"

[shaft]
turns = "ccw"
blank_diameter = 17.0
length = 60.0

[profile.inlet]
shape = "arcs"
base_radius = 6.0
lift = 2.0
action_angle = 120.0
nose_radius = 2.0

[follower.tappet]
kind = "flat"
face_diameter = 14.0

[[lobe]]
name = "1 inlet"
profile = "inlet"
follower = "tappet"
at = 0.0
z = 20.0
width = 5.0

[[lobe]]
name = "1 exhaust"
profile = "inlet"
follower = "tappet"
at = 110.0
z = 40.0
width = 5.0

[cutter.disc]
kind = "disc"
diameter = 40.0
width = 6.0
neck_diameter = 12.0
teeth = 12

[machine]
post = "rs274ngc-xza"
cutter_axis = "parallel"
rotary_positive = "ccw"
tool_change = { radial = 60.0, axial = 80.0 }
limits = { radial_speed = 2000, axial_speed = 2000, rotary_speed = 7200, radial_acceleration = 300, rotary_acceleration = 3600, blocks_per_second = 400 }

[cut]
cutter = "disc"
tolerance = 0.002
finish_depth = 5.0
surface_feed = 120.0
spindle_speed = 1500

[hand.head]
method = "dividing-head"
ratio = 40
plates = [[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33], [37, 39, 41, 43, 47, 49]]
cusp = 0.01
)";
}
