#include "plausible_jobs.h"

#include "catch.h"

#include <lobewright/job_file.h>
#include <lobewright/number_text.h>
#include <lobewright/start.h>

using namespace lobewright;

namespace plausible_jobs {
namespace {

/// Readings every degree of a 3-4-5 rise and fall of 2.4 mm over 60 degrees each.
std::string readings() {
    std::string text = "cam_angle,lift\n";
    for (int angle = -60; angle <= 60; ++angle) {
        const double x = 1.0 - std::abs(angle) / 60.0;
        const double share = x * x * x * (10.0 - 15.0 * x + 6.0 * x * x);
        text += std::to_string(angle) + "," + fixed(2.4 * share, 6) + "\n";
    }
    return text;
}

std::string lobe(const std::string& name, const std::string& keys) {
    return "[[lobe]]\nname = \"" + name + "\"\nwidth = 6.0\n" + keys + '\n';
}

const std::string mm_header = "layout = 1\n[job]\ntitle = \"Basalt\"\nunits = \"mm\"\n";

/// A nine-cylinder radial: one ring of four equal lobes, an eighth of the crank's speed, roller tappets all
/// round.
std::string radial_ring() {
    return mm_header + R"([shaft]
turns = "ccw"
blank_diameter = 66.0
[engine]
cam_per_crank = 0.125
cylinders = 9
firing_order = [1, 3, 5, 7, 9, 2, 4, 6, 8]
inlet = { opens_before_tdc = 15, closes_after_bdc = 45, clearance = 0.15 }
[profile.ring]
shape = "motion"
base_radius = 30.0
lift = 2.2
law = "polynomial-345"
opening_angle = 19.1
closing_angle = 19.1
[follower.roller]
kind = "roller"
radius = 4.0
)" +
           lobe("inlet ring",
                "profile = \"ring\"\nfollower = \"roller\"\ncylinder = 1\nvalve = \"inlet\"\n"
                "z = 10.0\nrepeat = 4");
}

/// Two rows of tappets at 60 degrees, closer along the shaft than their faces are wide.
std::string vee_twin() {
    return mm_header + R"([shaft]
turns = "cw"
blank_diameter = 17.0
[profile.both]
shape = "arcs"
base_radius = 6.0
lift = 2.4
action_angle = 124.0
flank_radius = 18.0
[follower.left]
kind = "flat"
face_diameter = 13.0
direction = 30.0
[follower.right]
kind = "flat"
face_diameter = 13.0
direction = -30.0
)" + lobe("1", "profile = \"both\"\nfollower = \"left\"\nat = 20.0\nz = 10.0") +
           lobe("2", "profile = \"both\"\nfollower = \"right\"\nat = 140.0\nz = 20.0");
}

/// A machine's cam: it lifts more than its base circle's radius, slowly.
std::string machine_cam() {
    return mm_header + R"([shaft]
turns = "ccw"
blank_diameter = 180.0
[profile.feed]
shape = "motion"
base_radius = 35.0
lift = 48.0
law = "modified-sine"
opening_angle = 150.0
closing_angle = 170.0
dwell_angle = 20.0
[follower.roller]
kind = "roller"
radius = 12.0
[contact]
spring_preload = 80.0
spring_rate = 3.0
moving_mass = 1.5
crank_speed = 60
)" + lobe("feed", "profile = \"feed\"\nfollower = \"roller\"\nat = 0.0\nz = 20.0");
}

/// Journals larger than the lobes, no valve clearance, two equal inlet valves.
std::string tunnel_bearings() {
    return mm_header + R"([shaft]
turns = "ccw"
blank_diameter = 43.0
[[shaft.journal]]
z = 10.0
width = 18.0
diameter = 50.0
[engine]
firing_order = [1]
inlet = { opens_before_tdc = 18, closes_after_bdc = 58, clearance = 0.0 }
[profile.inlet]
shape = "arcs"
base_radius = 14.0
lift = 7.0
flank_radius = 60.0
[follower.bucket]
kind = "flat"
face_diameter = 34.0
)" + lobe("front", "profile = \"inlet\"\nfollower = \"bucket\"\ncylinder = 1\nvalve = \"inlet\"\nz = 40.0") +
           lobe("rear",
                "profile = \"inlet\"\nfollower = \"bucket\"\ncylinder = 1\nvalve = \"inlet\"\nz = 76.0");
}

}  // namespace

std::string four() {
    return example_text("basalt-four");
}
std::string four_radial() {
    return example_text("basalt-four-radial");
}
std::string single_lathe() {
    return example_text("basalt-single-lathe");
}

std::string single_grinder() {
    return example_text("basalt-single-grinder");
}

std::string inch_four() {
    std::string text = R"(layout = 1
[job]
title = "Basalt, in inches"
units = "inch"
[shaft]
turns = "cw"
blank_diameter = 1.7
[engine]
firing_order = [1, 3, 4, 2]
inlet = { opens_before_tdc = 10, closes_after_bdc = 50, clearance = 0.010 }
exhaust = { opens_before_bdc = 50, closes_after_tdc = 10, clearance = 0.012 }
[profile.both]
shape = "motion"
base_radius = 0.55
lift = 0.26
law = "cycloidal"
opening_angle = 71.5
closing_angle = 71.5
[follower.lifter]
kind = "roller"
radius = 0.35
valve_ratio = 1.5
[contact]
spring_preload = 250
spring_rate = 40
moving_mass = 0.25
crank_speed = 5500
allowable_stress = 1200
[cutter.wheel]
kind = "disc"
diameter = 14.0
width = 0.75
fastest = 35
[machine]
post = "rs274ngc-xza"
cutter_axis = "parallel"
rotary_positive = "ccw"
limits = { radial_speed = 80, axial_speed = 80, rotary_speed = 7200 }
[cut]
cutter = "wheel"
tolerance = 0.0002
rough_depth = 0.001
surface_feed = 60.0
spindle_speed = 1600
clearance = 0.12
[hand.table]
method = "rotary-table"
step = 2.0
infeed = 0.02
)";
    for (int i = 0; i < 8; ++i) {
        text += "[[lobe]]\nname = \"" + std::to_string(i + 1) +
                "\"\nprofile = \"both\"\nfollower = \"lifter\"\ncylinder = " + std::to_string(i / 2 + 1) +
                "\nvalve = \"" + (i % 2 == 0 ? "inlet" : "exhaust") + "\"\nz = " + fixed(1.0 + 1.25 * i, 2) +
                "\nwidth = 0.6\n";
    }
    return text;
}

std::string by_angles() {
    return mm_header + R"([shaft]
turns = "ccw"
blank_diameter = 17.0
[profile.inlet]
shape = "arcs"
base_radius = 6.0
lift = 2.4
action_angle = 120.0
flank_radius = 16.0
[follower.tappet]
kind = "flat"
face_diameter = 12.0
)" + lobe("1", "profile = \"inlet\"\nfollower = \"tappet\"\nat = 10.0\nz = 10.0") +
           lobe("2", "profile = \"inlet\"\nfollower = \"tappet\"\nat = 130.0\nz = 30.0") +
           lobe("3", "profile = \"inlet\"\nfollower = \"tappet\"\nat = 250.0\nz = 50.0");
}

std::string traced() {
    return mm_header + R"([shaft]
turns = "ccw"
[profile.traced]
shape = "table"
base_radius = 12.0
file = "traced.csv"
smoothing = 0.002
[follower.tappet]
kind = "flat"
)" + lobe("1", "profile = \"traced\"\nfollower = \"tappet\"\nat = 10.0\nz = 10.0");
}

std::vector<NamedText> all() {
    std::vector<NamedText> jobs{{"basalt-four", four()},
                                {"basalt-four-radial", four_radial()},
                                {"basalt-single", single_lathe()},
                                {"inch four", inch_four()},
                                {"by angles", by_angles()},
                                {"traced", traced()},
                                {"radial ring", radial_ring()},
                                {"vee twin", vee_twin()},
                                {"machine cam", machine_cam()},
                                {"tunnel bearings", tunnel_bearings()},
                                {"ground single", single_grinder()}};
    for (const std::string& purpose : starting_purposes())
        jobs.push_back({"start " + purpose, *starting_job(purpose)});
    return jobs;
}

Diagnostics questions(const std::string& text) {
    const auto job = read_job(text, "job.toml", [](const std::string&) { return Outcome(readings()); });
    for (const Diagnostic& each : job.diagnostics())
        UNSCOPED_INFO(to_text(each));
    REQUIRE(job.ok());
    const auto lobes = solve_lobes(*job);
    for (const Diagnostic& each : lobes.diagnostics())
        UNSCOPED_INFO(to_text(each));
    REQUIRE(lobes.ok());
    return implausible_figures(*job, *lobes);
}

std::string told(const Diagnostics& questions) {
    std::string text;
    for (const Diagnostic& each : questions)
        text += each.code + ": " + to_text(each) + '\n';
    return text;
}

}  // namespace plausible_jobs
