#include "catch.h"
#include "job_text.h"

#include <lobewright/number_text.h>

using namespace lobewright;
using namespace job_text;

namespace {

/// Every number of a job, in a fixed order, in mm and degrees.
struct Numbers {
    std::vector<double> values;

    void add(double value) { values.push_back(value); }
    void add(const std::optional<double>& value) { values.push_back(value.value_or(-1.0)); }
    template <class Frame>
    void add(Angle<Frame> angle) {
        values.push_back(angle.degrees());
    }
    template <class Frame>
    void add(const std::optional<Angle<Frame>>& angle) {
        values.push_back(angle ? angle->degrees() : -1.0);
    }
    template <class... Several>
    void all(const Several&... several) {
        (add(several), ...);
    }

    void profile(const ArcsProfile& p) {
        all(p.base_radius, p.lift, p.action_angle, p.flank_radius, p.closing_flank_radius, p.nose_radius);
        if (p.ramps) all(p.ramps->lift, p.ramps->opening, p.ramps->closing);
    }
    void profile(const SegmentsProfile& p) {
        add(p.base_radius);
        for (const Segment& segment : p.segments)
            all(segment.over, segment.to);
    }
    void profile(const FullestProfile& p) {
        const FullestLimits& l = p.limits;
        all(p.base_radius, p.lift, p.opening_angle, p.closing_angle, l.velocity, l.acceleration,
            l.deceleration, l.jerk, l.smallest_radius, l.contact_stress, l.float_speed);
        for (const auto& ramp : {p.opening_ramp, p.closing_ramp})
            if (ramp) all(ramp->lift, ramp->angle);
    }
    void profile(const MotionProfile& p) {
        all(p.base_radius, p.lift, p.opening_angle, p.dwell_angle, p.closing_angle);
        for (const auto& ramp : {p.opening_ramp, p.closing_ramp})
            if (ramp) all(ramp->lift, ramp->angle);
    }
    void profile(const TableProfile& p) {
        all(p.base_radius, p.smoothing, p.dial_zero);
        for (const Reading& reading : p.readings)
            all(reading.cam_angle, reading.lift);
    }
    void cutting(const Job& job) {
        for (const auto& [name, c] : job.cutters)
            all(c.diameter, c.corner_radius, c.end_dish, c.flute_length, c.width, c.neck_diameter,
                c.shank_diameter, c.reach, c.holder_diameter, c.largest_chip, c.smallest_chip, c.fastest,
                c.wear_per_lobe);
        const ToolChange& place = *job.machine->tool_change;
        all(place.radial, place.axial);
        for (const auto& travel : {job.machine->limits.radial_travel, job.machine->limits.axial_travel})
            all(travel->least, travel->greatest);
        const AxisLimits& l = job.machine->limits;
        all(l.radial_speed, l.axial_speed, l.rotary_speed, l.radial_acceleration, l.rotary_acceleration,
            l.blocks_per_second, l.radial_jump, l.rotary_jump, l.rotary_travel);
        const Cut& c = *job.cut;
        all(c.tolerance, c.allowance, c.rough_depth, c.surface_feed, c.rough_surface_feed, c.spindle_speed,
            c.clearance, c.overlap, c.side_shift, c.blend);
        for (const auto& [name, h] : job.hand)
            all(h.zero, h.offset, h.infeed, h.dial_zero, h.vernier, h.tool_width, h.wheel_diameter,
                h.swing_over_bed, h.swing_over_cross_slide, h.ratio, h.cusp, h.step, h.handwheel_divisions,
                h.feed, h.heel_infeed, h.allowance, h.spindle_speed, h.dial_turn);
    }
};

std::vector<double> numbers_of(const Job& job) {
    Numbers n;
    n.all(job.shaft.blank_diameter, job.shaft.blank_measured, job.shaft.length);
    for (const Hole& hole : job.shaft.holes)
        n.all(hole.z, hole.at, hole.diameter);
    for (const Journal& journal : job.shaft.journals)
        n.all(journal.z, journal.width, journal.diameter);
    for (const auto& timing : {job.engine->inlet, job.engine->exhaust})
        n.all(timing->opens, timing->closes, timing->clearance, timing->at_lift);
    for (const auto& [name, profile] : job.profiles)
        std::visit([&](const auto& p) { n.profile(p); }, profile);
    for (const auto& [name, f] : job.followers)
        n.all(f.radius, f.offset, f.face_diameter, f.face_offset, f.pivot_radius, f.arm_length, f.valve_ratio,
              f.direction, f.pad_depth, f.face_tilt);
    for (const LobeEntry& lobe : job.lobes)
        n.all(lobe.at, lobe.z, lobe.width);
    const ContactLoad& load = *job.contact;
    n.all(load.spring_preload, load.spring_rate, load.moving_mass, load.crank_speed,
          load.follower_material.young_mpa, load.allowable_stress);
    n.cutting(job);
    return n.values;
}

struct LengthKey {
    const char* section;
    const char* key;
    double mm;
};

// Every length in the whole job; what is not here must mean the same in both units.
// clang-format off
const std::vector<LengthKey> lengths = {
    {"shaft", "blank_diameter", 17.0}, {"shaft", "blank_measured", 17.05}, {"shaft.hole", "z", 20.0},
    {"shaft.hole", "diameter", 1.5}, {"shaft", "length", 120.0},
    {"shaft.journal", "z", 6.0}, {"shaft.journal", "width", 10.0}, {"shaft.journal", "diameter", 10.0},
    {"engine.inlet", "clearance", 0.1}, {"engine.exhaust", "clearance", 0.12},
    {"profile.flanked", "base_radius", 6.0}, {"profile.flanked", "lift", 2.4},
    {"profile.flanked", "flank_radius", 25.0},
    {"profile.nosed", "base_radius", 6.0}, {"profile.nosed", "lift", 2.4}, {"profile.nosed", "nose_radius", 2.0},
    {"profile.moved", "base_radius", 6.0}, {"profile.moved", "lift", 2.4},
    {"profile.moved.opening_ramp", "lift", 0.12}, {"profile.moved.closing_ramp", "lift", 0.15},
    {"profile.traced", "base_radius", 6.0}, {"profile.traced", "smoothing", 0.002}, {"profile.traced", "dial_zero", 0.001},
    {"follower.tappet", "face_diameter", 12.0}, {"follower.tappet", "face_offset", 0.5},
    {"follower.rocker", "radius", 5.0}, {"follower.rocker", "offset", 1.5},
    {"follower.bucket", "radius", 80.0}, {"follower.bucket", "offset", -1.0},
    {"follower.blade", "offset", 0.5},
    {"follower.finger", "pivot_radius", 30.0}, {"follower.finger", "arm_length", 28.0},
    {"follower.finger", "radius", 8.0},
    {"cutter.em10", "diameter", 10.0}, {"cutter.em10", "corner_radius", 0.5}, {"cutter.em10", "flute_length", 22.0},
    {"cutter.em10", "shank_diameter", 10.0}, {"cutter.em10", "reach", 40.0}, {"cutter.em10", "holder_diameter", 30.0},
    {"cutter.em10", "largest_chip", 0.05}, {"cutter.em10", "smallest_chip", 0.005},
    {"machine.tool_change", "radial", 60.0}, {"machine.tool_change", "axial", 150.0},
    {"cutter.ball", "diameter", 8.0}, {"cutter.ball", "flute_length", 20.0},
    {"cutter.wheel", "diameter", 200.0}, {"cutter.wheel", "width", 8.0}, {"cutter.wheel", "wear_per_lobe", 0.002},
    {"cutter.disc", "diameter", 32.0}, {"cutter.disc", "width", 5.0}, {"cutter.disc", "neck_diameter", 12.0},
    {"machine.limits", "radial_speed", 2000}, {"machine.limits", "axial_speed", 1900},
    {"machine.limits", "radial_acceleration", 300}, {"machine.limits", "radial_jump", 10},
    {"cut", "tolerance", 0.002}, {"cut", "allowance", 0.05}, {"cut", "rough_depth", 0.5},
    {"cut", "surface_feed", 120.0}, {"cut", "rough_surface_feed", 80.0}, {"cut", "clearance", 2.5},
    {"cut", "blend", 0.0005},
    {"hand.lathe", "offset", 19.0}, {"hand.lathe", "infeed", 0.1}, {"hand.lathe", "dial_zero", 2.0},
    {"hand.lathe", "tool_width", 2.0}, {"hand.lathe", "wheel_diameter", 90.0},
    {"hand.lathe", "swing_over_bed", 180.0}, {"hand.lathe", "swing_over_cross_slide", 110.0},
    {"hand.lathe", "cusp", 0.01}, {"hand.head", "cusp", 0.005}, {"hand.head", "infeed", 0.5},
    {"hand.head", "tool_width", 5.0}, {"hand.head", "dial_turn", 2.0}, {"hand.head", "allowance", 0.03},
    {"hand.lathe", "feed", 0.05}, {"hand.lathe", "heel_infeed", 0.3}, {"hand.lathe", "allowance", 0.02},
    {"hand.table", "infeed", 0.4},
};
// clang-format on

std::string in_inches(double mm) {
    return fixed(mm / 25.4, 15);
}

}  // namespace

TEST_CASE("the same job in mm and in inches is the same job") {
    std::string text = set(whole_job(), "job", "units", "\"inch\"");
    for (const LengthKey& length : lengths)
        text = set(text, length.section, length.key, in_inches(length.mm));
    const auto travel = [](double from, double to) {
        return '[' + in_inches(from) + ", " + in_inches(to) + ']';
    };
    text = set(text, "machine.limits", "radial_travel", travel(-5.0, 200.0));
    text = set(text, "machine.limits", "axial_travel", travel(-10.0, 300.0));
    for (const double z : {20.0, 30.0}) {  // both lobes
        const std::string old = "\nz = " + fixed(z, 1) + "\nwidth = 6.0\n";
        REQUIRE(text.find(old) != std::string::npos);
        text.replace(text.find(old), old.size(),
                     "\nz = " + in_inches(z) + "\nwidth = " + in_inches(6.0) + '\n');
    }
    const auto mm = read(whole_job());
    const auto inch = read_job(text, "dir/job.toml", [](const std::string&) {
        return Outcome<std::string>("cam_angle,lift\n-60,0\n0," + in_inches(2.0) + "\n60,0\n");
    });
    INFO(complaints(inch));
    REQUIRE(inch.ok());
    CHECK(inch->units == Units::inch);
    const auto wanted = numbers_of(*mm), found = numbers_of(*inch);
    REQUIRE(found.size() == wanted.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
        INFO("number " << i);
        CHECK_NEAR(found[i], wanted[i], 1e-12 * (1.0 + std::abs(wanted[i])));
    }
}

TEST_CASE("in an inch job, ranges and figures of complaints are in inches") {
    const std::string text =
        set(set(whole_job(), "job", "units", "\"inch\""), "profile.nosed", "lift", "400");
    CHECK_THAT(complaints(read(text)),
               ContainsSubstring("'profile.nosed.lift' is 400: give at least 0.00003937 and at most "
                                 "393.700787402"));
    const std::string overlap = set(set(whole_job(), "job", "units", "\"inch\""), "lobe", "z", "25");
    CHECK_THAT(
        complaints(read(overlap)),
        ContainsSubstring("lobe '1 exhaust' (z 27 to 33 in) overlaps lobe '1 inlet' (z 22 to 28 in): move it "
                          "to z = 31 in or more"));
}

TEST_CASE("infinite flanks are straight in both units") {
    for (const char* units : {"\"mm\"", "\"inch\""}) {
        const auto job = read(set(
            set(set(whole_job(), "job", "units", units), "profile.flanked", "flank_radius", "\"straight\""),
            "shaft", "blank_measured", "17"));
        REQUIRE(job.ok());
        CHECK(std::get<ArcsProfile>(job->profiles.at("flanked")).flank_radius == straight_flank);
    }
}
