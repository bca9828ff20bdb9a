#include "job_text.h"

#include <algorithm>
#include <stdexcept>

namespace job_text {
namespace {

struct Line {
    std::size_t start = 0;
    std::size_t size = 0;
    int number = 0;
};

/// Calls found(Line) for each line until it says true.
template <class Found>
Line find_line(const std::string& text, Found found) {
    Line line;
    while (line.start < text.size()) {
        line.size = text.find('\n', line.start) - line.start;
        ++line.number;
        if (found(std::string_view(text).substr(line.start, line.size))) return line;
        line.start += line.size + 1;
    }
    throw std::runtime_error("the line is not in the text");
}

std::string bare(const std::string& section) {
    return section == "lobe" || section.starts_with("shaft.") ? "[[" + section + "]]" : '[' + section + ']';
}

Line header_line(const std::string& text, const std::string& section) {
    return find_line(text, [&](std::string_view line) { return line == bare(section); });
}

Line key_line(const std::string& text, const std::string& section, const std::string& key) {
    bool inside = section.empty();
    return find_line(text, [&](std::string_view line) {
        if (line.starts_with('[')) inside = line == bare(section);
        return inside && line.starts_with(key + " = ");
    });
}

}  // namespace

Spot header_of(const std::string& text, const std::string& section) {
    const bool list = bare(section).starts_with("[[");
    const auto last = static_cast<int>(section.rfind('.') + 1);  // a table stands where its own name does
    return {header_line(text, section).number, list ? 1 : last + 2};
}

Spot value_of(const std::string& text, const std::string& section, const std::string& key) {
    return {key_line(text, section, key).number, static_cast<int>(key.size()) + 4};
}

std::string set(std::string text, const std::string& section, const std::string& key,
                const std::string& value) {
    const Line line = key_line(text, section, key);
    return text.replace(line.start, line.size, key + " = " + value);
}

std::string unset(std::string text, const std::string& section, const std::string& key) {
    const Line line = key_line(text, section, key);
    return text.erase(line.start, line.size + 1);
}

std::string doubled(std::string text, const std::string& section, const std::string& key) {
    const Line line = key_line(text, section, key);
    return text.insert(line.start, text.substr(line.start, line.size + 1));
}

std::string added(std::string text, const std::string& section, const std::string& new_line) {
    const Line line = header_line(text, section);
    return text.insert(line.start + line.size + 1, new_line + '\n');
}

std::string without(std::string text, const std::string& section) {
    const Line line = header_line(text, section);
    const std::size_t end = std::min(text.find("\n[", line.start), text.size() - 1);
    return text.erase(line.start, end + 1 - line.start);
}

lobewright::Outcome<lobewright::Job> read(const std::string& text) {
    return lobewright::read_job(text, "dir/job.toml", [](const std::string&) {
        return lobewright::Outcome<std::string>(lift_table);
    });
}

std::string complaints(const lobewright::Outcome<lobewright::Job>& outcome) {
    std::string text;
    for (const auto& complaint : outcome.diagnostics())
        text += lobewright::to_text(complaint) + '\n';
    return text;
}

std::string whole_job() {
    return R"(layout = 1
[job]
title = "Basalt"
units = "mm"
[shaft]
turns = "cw"
material = "soft-steel"
blank_diameter = 17.0
blank_measured = 17.05
length = 120.0
[[shaft.journal]]
z = 6.0
width = 10.0
diameter = 10.0
[[shaft.hole]]
z = 20.0
lobe = "1 exhaust"
from_nose = 180.0
diameter = 1.5
[engine]
cam_per_crank = 0.5
cylinders = 4
firing_order = [1, 3, 4, 2]
[engine.inlet]
opens_before_tdc = 14
closes_after_bdc = 46
clearance = 0.1
[engine.exhaust]
opens_before_bdc = 48
closes_after_tdc = 12
clearance = 0.12
[profile.flanked]
shape = "arcs"
base_radius = 6.0
lift = 2.4
action_angle = 120.0
flank_radius = 25.0
[profile.nosed]
shape = "arcs"
base_radius = 6.0
lift = 2.4
nose_radius = 2.0
[profile.moved]
shape = "motion"
base_radius = 6.0
lift = 2.4
law = "power-polynomial"
powers = [2, 10, 18, 26]
opening_angle = 64.0
dwell_angle = 3.0
closing_angle = 68.0
[profile.moved.opening_ramp]
lift = 0.12
angle = 18.0
[profile.moved.closing_ramp]
lift = 0.15
angle = 24.0
[profile.traced]
shape = "table"
base_radius = 6.0
file = "traced.csv"
smoothing = 0.002
dial_zero = 0.001
[follower.tappet]
kind = "flat"
face_diameter = 12.0
face_offset = 0.5
valve_ratio = 1.4
direction = 30.0
[follower.rocker]
kind = "roller"
radius = 5.0
offset = 1.5
[follower.bucket]
kind = "domed"
radius = 80.0
offset = -1.0
[follower.blade]
kind = "knife"
offset = 0.5
[follower.finger]
kind = "pivoted"
pivot_radius = 30.0
arm_length = 28.0
radius = 8.0
side = "cw"
[[lobe]]
name = "1 inlet"
profile = "moved"
follower = "tappet"
at = 10.0
z = 20.0
width = 6.0
repeat = 2
[[lobe]]
name = "1 exhaust"
profile = "moved"
follower = "rocker"
cylinder = 1
valve = "exhaust"
z = 30.0
width = 6.0
[contact]
spring_preload = 40.0
spring_rate = 12.0
moving_mass = 0.03
crank_speed = 9000
cam_material = "steel"
allowable_stress = 1000
[contact.follower_material]
young_gpa = 110
poisson = 0.26
[cutter.em10]
kind = "end-mill"
diameter = 10.0
corner_radius = 0.5
flute_length = 22.0
end_dish = 1.5
teeth = 4
shank_diameter = 10.0
reach = 40.0
holder_diameter = 30.0
number = 7
offset_number = 17
fastest = 3.5
largest_chip = 0.05
material = "carbide"
smallest_chip = 0.005
[cutter.ball]
kind = "ball-nose"
diameter = 8.0
flute_length = 20.0
teeth = 2
[cutter.disc]
kind = "disc"
diameter = 32.0
width = 5.0
neck_diameter = 12.0
teeth = 12
[cutter.wheel]
kind = "disc"
diameter = 200.0
width = 8.0
teeth = 0
fastest = 35
wear_per_lobe = 0.002
dress_every = 4
[machine]
post = "rs274ngc-xza"
cutter_axis = "parallel"
cutter_zero = "edge"
spindle_side = "drive"
rotary_positive = "cw"
[machine.tool_change]
radial = 60.0
axial = 150.0
[machine.limits]
radial_speed = 2000
axial_speed = 1900
rotary_speed = 7200
radial_acceleration = 300
rotary_acceleration = 3600
blocks_per_second = 400
radial_jump = 10
rotary_jump = 20
radial_travel = [-5, 200]
axial_travel = [-10, 300]
rotary_travel = 7200
[cut]
cutter = "disc"
tolerance = 0.002
allowance = 0.05
rough_depth = 0.5
surface_feed = 120.0
rough_surface_feed = 80.0
spindle_speed = 3000
direction = "conventional"
clearance = 2.5
overlap = 4.0
order = "by-lobe"
spring_passes = 1
along = "helix"
side_shift = 0.0
blend = 0.0005
[hand.lathe]
method = "offset-fixture"
offset = 19.0
divisions = 72
vernier = 0.5
infeed = 0.1
dial = "diameter"
dial_zero = 2.0
zero = 15.0
counts = "cw"
tool_width = 2.0
wheel_diameter = 90.0
swing_over_bed = 180.0
swing_over_cross_slide = 110.0
cusp = 0.01
travel = "along"
feed = 0.05
heel_infeed = 0.3
allowance = 0.02
spindle_speed = 90
[hand.head]
method = "dividing-head"
ratio = 60
plates = [[15, 16], [21, 23, 27]]
cusp = 0.005
cutter_axis = "parallel"
cutter = "em10"
infeed = 0.5
tool_width = 5.0
dial = "diameter"
dial_turn = 2.0
allowance = 0.03
[hand.table]
method = "rotary-table"
step = 2.0
vernier = 0.0166667
ratio = 90
handwheel_divisions = 40
infeed = 0.4
cutter_axis = "radial"
)";
}

}  // namespace job_text
