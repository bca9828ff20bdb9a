#include "catch.h"
#include "job_text.h"

using namespace lobewright;
using namespace job_text;

namespace {

/// A key of the file: values that are accepted (the ends of its range among them), values that are not (just
/// outside, zero, of another kind), and whether it must be there.
struct Key {
    const char* section;
    const char* key;
    std::vector<std::string> good;
    std::vector<std::string> bad;
    bool required = false;
};

const std::vector<std::string> no_length = {"0", "-0.001", "10000.001", "\"6\"", "true", "[6]", "nan"};
const std::vector<std::string> no_signed_length = {"-10000.001", "10000.001", "\"6\"", "inf"};
const std::vector<std::string> no_text = {"1", "true", "\"\""};
const std::vector<std::string> no_angle = {"-360.001", "360.001", "\"0\""};

// clang-format off
const std::vector<Key> keys = {
    {"", "layout", {"1", "1.0"}, {"0", "2", "\"1\"", "1.5"}, true},
    {"job", "title", {"\"\"", "\"Basalt °\""}, {"1"}},
    {"job", "units", {"\"mm\"", "\"inch\""}, {"\"cm\"", "\"Inch\"", "25.4"}, true},
    {"shaft", "turns", {"\"ccw\"", "\"cw\""}, {"\"left\"", "1", "\"CCW\""}, true},
    {"shaft", "blank_diameter", {"16.8", "10000", "17"}, no_length},
    {"shaft", "blank_measured", {"16.8", "10000", "17"}, no_length},
    {"shaft", "length", {"33", "10000"}, no_length},
    {"shaft.journal", "width", {"0.001", "12"}, no_length, true},
    {"shaft.journal", "diameter", {"0.001", "10000"}, no_length, true},
    {"shaft.hole", "z", {"0", "33.5"}, no_signed_length, true},
    {"shaft.hole", "diameter", {"0.001", "10000"}, no_length, true},
    {"shaft.hole", "lobe", {"\"1 inlet\""}, {"1", "\"\"", "\"2 inlet\""}, true},
    {"shaft.hole", "from_nose", {"-360", "360"}, no_angle, true},
    {"engine", "cam_per_crank", {"0.001", "1", "0.125"}, {"0", "1.001", "-0.5", "\"1/2\""}},
    {"engine", "cylinders", {"4", "4.0"}, {"0", "65", "4.5", "\"4\""}},
    {"engine", "firing_order", {"[1, 2, 3, 4]", "[4, 3, 2, 1]"},
     {"[1, 2, 3]", "[1, 2, 3, 3]", "[1, 2, 3, 4, 4]", "\"1342\"", "1"}, true},
    {"engine.inlet", "opens_before_tdc", {"-180", "180", "-5.5"}, {"-180.001", "180.001", "\"14\""}, true},
    {"engine.inlet", "closes_after_bdc", {"-180", "180"}, {"-180.001", "180.001", "\"46\""}, true},
    {"engine.inlet", "clearance", {"0", "100"}, {"-0.001", "100.001", "\"0.1\""}},
    {"engine.exhaust", "opens_before_bdc", {"-180", "180"}, {"-180.001", "180.001", "[1]"}, true},
    {"engine.exhaust", "closes_after_tdc", {"-180", "180"}, {"-180.001", "180.001", "false"}, true},
    {"engine.exhaust", "clearance", {"0", "100"}, {"-0.001", "100.001", "\"0.1\""}},
    {"profile.flanked", "shape", {"\"arcs\""}, {"\"arc\"", "1"}, true},
    {"profile.flanked", "base_radius", {"0.001", "6"}, no_length, true},
    {"profile.flanked", "lift", {"0.001", "2.4"}, no_length, true},
    {"profile.flanked", "action_angle", {"0.001", "359.999"}, {"0", "360", "-120", "\"120\""}},
    {"profile.flanked", "flank_radius", {"\"straight\"", "-30", "25", "1000000"},
     {"0", "\"flat\"", "true", "-1000000.1", "1000000.1"}, true},
    {"profile.nosed", "nose_radius", {"0.001", "10000"}, no_length, true},
    {"profile.moved", "shape", {"\"motion\""}, {"\"motoin\""}, true},
    {"profile.moved", "base_radius", {"0.001", "6"}, no_length, true},
    {"profile.moved", "lift", {"0.151", "2.4"}, no_length, true},
    {"profile.moved", "law", {"\"power-polynomial\""}, {"\"power polynomial\"", "345"}, true},
    {"profile.moved", "powers", {"[2, 3]", "[2, 4, 6, 8, 10, 12, 14, 16, 18, 200]"},
     {"[2]", "[]", "[3, 4]", "[2, 4, 4]", "[2, 6, 4]", "[2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]", "2"}, true},
    {"profile.moved", "opening_angle", {"0.001", "247"}, {"0", "-64", "360", "\"64\""}, true},
    {"profile.moved", "dwell_angle", {"0", "180"}, {"-0.001", "360", "\"3\""}},
    {"profile.moved", "closing_angle", {"0.001", "251"}, {"0", "360", "\"68\""}, true},
    {"profile.moved.opening_ramp", "lift", {"0.001", "2.399"}, no_length, true},
    {"profile.moved.opening_ramp", "angle", {"0.001", "200"}, {"0", "360", "-1", "\"18\""}, true},
    {"profile.moved.closing_ramp", "lift", {"0.001", "2.399"}, no_length, true},
    {"profile.moved.closing_ramp", "angle", {"0.001", "200"}, {"0", "360", "-1", "\"18\""}, true},
    {"profile.traced", "shape", {"\"table\""}, {"\"tabel\""}, true},
    {"profile.traced", "base_radius", {"0.001", "10000"}, no_length, true},
    {"profile.traced", "file", {"\"a.csv\"", "\"/a/b.csv\""}, no_text, true},
    {"profile.traced", "smoothing", {"0", "10000"}, {"-0.001", "10000.001", "\"0\""}},
    {"profile.traced", "dial_zero", {"-10000", "0", "0.03"}, {"-10001", "10001", "\"0\""}},
    {"follower.tappet", "kind", {"\"flat\""}, {"\"flta\"", "1"}, true},
    {"follower.tappet", "face_diameter", {"0.001", "10000"}, no_length},
    {"follower.tappet", "face_offset", {"-10000", "0", "10000"}, no_signed_length},
    {"follower.tappet", "valve_ratio", {"0.001", "100"}, {"0", "-1", "100.001", "\"1\""}},
    {"follower.tappet", "direction", {"-360", "360", "0"}, no_angle},
    {"follower.rocker", "kind", {"\"roller\"", "\"domed\""}, {"\"rollar\""}, true},
    {"follower.rocker", "radius", {"0.001", "10000"}, no_length, true},
    {"follower.rocker", "offset", {"-10000", "0", "10000"}, no_signed_length},
    {"follower.bucket", "radius", {"0.001", "10000"}, no_length, true},
    {"follower.bucket", "offset", {"-10000", "10000"}, no_signed_length},
    {"follower.blade", "offset", {"-10000", "10000"}, no_signed_length},
    {"follower.finger", "pivot_radius", {"0.001", "10000"}, no_length, true},
    {"follower.finger", "arm_length", {"0.001", "10000"}, no_length, true},
    {"follower.finger", "radius", {"0.001", "10000"}, no_length, true},
    {"follower.finger", "side", {"\"ccw\"", "\"cw\""}, {"\"far\"", "0"}, true},
    {"shaft", "material", {"\"soft-steel\"", "\"tempered-steel\"", "\"hardened-steel\"", "\"cast-iron\""},
     {"\"steel\"", "\"soft steel\"", "0"}},
    {"lobe", "name", {"\"a\"", "\"Ä 1\""}, {"1", "\"\"", "[\"a\"]"}, true},
    {"lobe", "profile", {"\"flanked\"", "\"moved\""}, {"1", "\"\"", "\"flancked\"", "\"x\""}, true},
    {"lobe", "follower", {"\"tappet\"", "\"finger\""}, {"1", "\"\"", "\"tapet\"", "\"x\""}, true},
    {"lobe", "at", {"-360", "360", "0"}, no_angle, true},
    {"lobe", "z", {"14", "24", "36"}, no_signed_length, true},
    {"lobe", "width", {"0.001", "14"}, no_length, true},
    {"lobe", "repeat", {"1", "64", "3.0"}, {"0", "65", "1.5", "\"2\""}},
    {"contact", "spring_preload", {"0", "1000000"}, {"-1", "1000001", "\"40 N\""}, true},
    {"contact", "spring_rate", {"0", "1000000"}, {"-1", "1000001", "\"12\""}, true},
    {"contact", "moving_mass", {"0", "10000"}, {"-1", "10001", "\"30 g\""}, true},
    {"contact", "crank_speed", {"1", "1000000"}, {"0", "1000001", "\"9000\""}, true},
    {"contact", "cam_material", {"\"steel\"", "\"cast-iron\"", "{ young_gpa = 207, poisson = 0.3 }"},
     {"\"cast iron\"", "1", "[1]"}},
    {"contact", "allowable_stress", {"0.001", "100000"}, {"0", "100001", "\"1000\""}},
    {"contact.follower_material", "young_gpa", {"1", "2000"}, {"0", "2001", "\"207\""}, true},
    {"contact.follower_material", "poisson", {"0", "0.499"}, {"-0.001", "0.5", "\"0.3\""}, true},
    {"cutter.em10", "kind", {"\"end-mill\""}, {"\"endmill\"", "1"}, true},
    {"cutter.em10", "diameter", {"1", "10000"}, no_length, true},
    {"cutter.em10", "corner_radius", {"0", "5"}, {"-0.001", "5.001", "\"0\""}},
    {"cutter.em10", "end_dish", {"0", "10"}, {"-0.001", "10.001", "\"1\""}},
    {"cutter.em10", "flute_length", {"0.001", "10000"}, no_length},
    {"cutter.em10", "teeth", {"0", "1000"}, {"-1", "1001", "2.5", "\"4\""}},
    {"cutter.em10", "shank_diameter", {"0.001", "10000"}, no_length},
    {"cutter.em10", "reach", {"0.001", "10000"}, no_length},
    {"cutter.em10", "holder_diameter", {"0.001", "10000"}, no_length},
    {"cutter.em10", "material", {"\"hss\"", "\"carbide\""}, {"\"HSS\"", "\"steel\"", "1"}},
    {"cutter.em10", "number", {"1", "9999"}, {"0", "10000", "1.5", "\"7\""}},
    {"cutter.em10", "offset_number", {"1", "9999"}, {"0", "10000", "1.5", "\"7\""}},
    {"cutter.em10", "fastest", {"0.01", "500"}, {"0", "500.001", "\"35\""}},
    {"cutter.em10", "largest_chip", {"0.0051", "10"}, {"0.005", "10.001", "\"0.05\""}},
    {"cutter.em10", "smallest_chip", {"0.00001", "0.0499"}, {"0", "10.001", "\"0.005\""}},
    {"cutter.wheel", "wear_per_lobe", {"0", "10"}, {"-0.001", "10.001", "\"0.01\""}},
    {"cutter.wheel", "dress_every", {"1", "10000"}, {"0", "10001", "1.5", "\"4\""}},
    {"cutter.ball", "diameter", {"0.001", "10000"}, no_length, true},
    {"cutter.ball", "flute_length", {"0.001", "10000"}, no_length},
    {"cutter.disc", "kind", {"\"disc\""}, {"\"disk\""}, true},
    {"cutter.disc", "diameter", {"12.001", "10000"}, no_length, true},
    {"cutter.disc", "width", {"0.001", "10000"}, no_length, true},
    {"cutter.disc", "neck_diameter", {"0.001", "31.999"}, {"0", "32", "-1", "\"12\""}},
    {"machine", "post", {"\"my.toml\""}, no_text, true},
    {"machine", "cutter_axis", {"\"parallel\""}, {"\"paralel\"", "1"}, true},
    {"machine", "cutter_zero", {"\"centre\"", "\"edge\""}, {"\"center\"", "0"}},
    {"machine", "spindle_side", {"\"far\"", "\"drive\""}, {"\"near\"", "0"}},
    {"machine", "rotary_positive", {"\"ccw\"", "\"cw\""}, {"\"+\"", "1"}, true},
    {"machine.limits", "radial_speed", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"1\""}},
    {"machine.limits", "axial_speed", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"1\""}},
    {"machine.limits", "rotary_speed", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"1\""}},
    {"machine.limits", "radial_acceleration", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"1\""}},
    {"machine.limits", "rotary_acceleration", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"1\""}},
    {"machine.limits", "blocks_per_second", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"1\""}},
    {"machine.limits", "radial_jump", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"1\""}},
    {"machine.limits", "rotary_jump", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"1\""}},
    {"machine.limits", "rotary_travel", {"1", "10000000"}, {"0", "-360", "10000001", "\"720\""}},
    {"machine.limits", "radial_travel", {"[-10000, 10000]", "[0, 0.001]"},
     {"[]", "[5]", "[5, 5]", "[6, 5]", "[0, 1, 2]", "200"}},
    {"machine.limits", "axial_travel", {"[-10000, 10000]"}, {"[5]", "[6, 5]", "200"}},
    {"machine.tool_change", "radial", {"0.001", "10000"}, no_length, true},
    {"machine.tool_change", "axial", {"-10000", "10000"}, no_signed_length, true},
    {"cut", "cutter", {"\"em10\"", "\"disc\""}, {"1", "\"\"", "\"dics\"", "\"x\""}, true},
    {"cut", "tolerance", {"0.0006", "10"}, {"0", "-0.001", "10.001", "\"0.002\""}, true},
    {"cut", "allowance", {"0", "100"}, {"-0.001", "100.001", "\"0\""}},
    {"cut", "rough_depth", {"0.001", "100"}, {"0", "100.001", "\"0\""}},
    {"cut", "surface_feed", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"120\""}, true},
    {"cut", "rough_surface_feed", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"120\""}},
    {"cut", "spindle_speed", {"0.001", "1000000"}, {"0", "-1", "1000001", "\"3000\""}, true},
    {"cut", "direction", {"\"climb\"", "\"conventional\""}, {"\"up\"", "1"}},
    {"cut", "clearance", {"0.001", "10000"}, no_length},
    {"cut", "overlap", {"0", "180"}, {"-0.001", "180.001", "\"5\""}},
    {"cut", "spring_passes", {"0", "100"}, {"-1", "101", "1.5", "\"1\""}},
    {"cut", "order", {"\"by-stage\"", "\"by-lobe\""}, {"\"by_lobe\"", "1"}},
    {"cut", "along", {"\"steps\"", "\"helix\""}, {"\"spiral\"", "1"}},
    {"cut", "side_shift", {"0", "-0"}, {"0.5", "-1", "\"0\""}},  // the cutter is parallel
    {"cut", "blend", {"0", "0.0019"}, {"-0.001", "0.002", "\"0\""}},
    {"hand.lathe", "method", {"\"offset-fixture\""}, {"\"lathe\"", "1"}, true},
    {"hand.lathe", "offset", {"0.001", "10000"}, no_length},
    {"hand.lathe", "divisions", {"2", "100000"}, {"1", "100001", "7.5", "\"72\""}, true},
    {"hand.lathe", "vernier", {"0.001", "90"}, {"0", "90.001", "\"1\""}},
    {"hand.lathe", "infeed", {"0.001", "100"}, {"0", "100.001", "\"0.1\""}},
    {"hand.lathe", "dial", {"\"radius\"", "\"diameter\""}, {"\"radial\"", "1"}},
    {"hand.lathe", "dial_zero", {"-10000", "10000"}, no_signed_length},
    {"hand.lathe", "zero", {"-360", "360"}, no_angle},
    {"hand.lathe", "counts", {"\"ccw\"", "\"cw\""}, {"\"up\"", "1"}},
    {"hand.lathe", "tool_width", {"0.001", "10000"}, no_length},
    {"hand.lathe", "wheel_diameter", {"0.001", "10000"}, no_length},
    {"hand.lathe", "swing_over_bed", {"0.001", "10000"}, no_length},
    {"hand.lathe", "swing_over_cross_slide", {"0.001", "10000"}, no_length},
    {"hand.lathe", "cusp", {"0.001", "10"}, {"0", "10.001", "\"0\""}},
    {"hand.lathe", "travel", {"\"plunge\"", "\"along\""}, {"\"across\"", "1"}},
    {"hand.lathe", "feed", {"0.001", "10"}, {"0", "10.001", "\"0.1\""}},
    {"hand.lathe", "heel_infeed", {"0.001", "100"}, {"0", "100.001", "\"0.1\""}},
    {"hand.lathe", "allowance", {"0", "10"}, {"-0.001", "10.001", "\"0.1\""}},
    {"hand.lathe", "spindle_speed", {"1", "1000000"}, {"0", "1000001", "\"100\""}},
    {"hand.head", "dial", {"\"radius\"", "\"diameter\"", "\"depth\""}, {"\"down\"", "1"}},
    {"hand.head", "dial_turn", {"0.001", "10000"}, no_length},
    {"hand.head", "allowance", {"0", "10"}, {"-0.001", "10.001", "\"0.1\""}},
    {"hand.head", "method", {"\"dividing-head\""}, {"\"dividing head\""}, true},
    {"hand.head", "ratio", {"1", "1000"}, {"0", "1001", "\"40:1\""}},
    {"hand.head", "plates", {"[[1]]", "[[10000, 2], [3]]"}, {"[]", "15", "\"15-20\""}, true},
    {"hand.head", "cusp", {"0.001", "10"}, {"0", "10.001", "\"0\""}, true},
    {"hand.head", "cutter", {"\"em10\"", "\"ball\""}, {"1", "\"\"", "\"em12\""}, true},
    {"hand.head", "infeed", {"0.001", "100"}, {"0", "100.001", "\"0.5\""}},
    {"hand.head", "tool_width", {"0.001", "10000"}, no_length},
    {"hand.table", "step", {"0.001", "90"}, {"0", "90.001", "\"2\""}, true},
    {"hand.table", "vernier", {"0.001", "90"}, {"0", "90.001", "\"1'\""}},
    {"hand.table", "ratio", {"1", "1000"}, {"0", "1001", "\"90\""}},
    {"hand.table", "handwheel_divisions", {"1", "100000"}, {"0", "100001", "\"40\""}},
    {"hand.table", "cutter_axis", {"\"radial\""}, {"\"tangential\"", "1"}},
};
// clang-format on

std::string named(const Key& key) {
    return std::string(key.section) + "." + key.key;
}

}  // namespace

TEST_CASE("a job with every key is accepted") {
    const auto job = read(whole_job());
    INFO(complaints(job));
    REQUIRE(job.ok());
}

TEST_CASE("a key takes every value from the lowest to the highest that it allows") {
    for (const Key& key : keys) {
        for (const std::string& value : key.good) {
            INFO(named(key) << " = " << value);
            const auto job = read(set(whole_job(), key.section, key.key, value));
            INFO(complaints(job));
            // In inches the same figures are 25 times as long: then only the key itself must be fine.
            const bool of_inches = value == "\"inch\"";
            CHECK((job.ok() || (of_inches && job.diagnostics().front().fault == Fault::check_failed)));
        }
    }
}

TEST_CASE("a value outside, or of another kind, is refused once, at its own line and column") {
    for (const Key& key : keys) {
        for (const std::string& value : key.bad) {
            const std::string text = set(whole_job(), key.section, key.key, value);
            const Spot spot = value_of(text, key.section, key.key);
            const auto job = read(text);
            INFO(named(key) << " = " << value << '\n' << complaints(job));
            REQUIRE_FALSE(job.ok());
            REQUIRE(job.diagnostics().size() == 1);
            const Diagnostic& complaint = job.diagnostics().front();
            CHECK(complaint.place.file == "dir/job.toml");
            CHECK(complaint.place.line == spot.line);
            CHECK(complaint.place.column == spot.column);
            CHECK(complaint.fault == Fault::bad_input);
            CHECK_FALSE(complaint.remedy.empty());
        }
    }
}

TEST_CASE("a key that is missing is missed at its table's header, or is optional") {
    for (const Key& key : keys) {
        const std::string text = unset(whole_job(), key.section, key.key);
        const auto job = read(text);
        INFO(named(key) << '\n' << complaints(job));
        if (!key.required) {
            CHECK(job.ok());
            continue;
        }
        REQUIRE_FALSE(job.ok());
        REQUIRE(job.diagnostics().size() == 1);
        const Diagnostic& complaint = job.diagnostics().front();
        CHECK(complaint.code == "missing-key");
        if (std::string(key.section).empty()) continue;
        CHECK(complaint.place.line == header_of(text, key.section).line);
        CHECK(complaint.place.column == header_of(text, key.section).column);
    }
}

TEST_CASE("a doubled key is refused at its second line") {
    for (const Key& key : keys) {
        const std::string text = doubled(whole_job(), key.section, key.key);
        const auto job = read(text);
        INFO(named(key) << '\n' << complaints(job));
        REQUIRE_FALSE(job.ok());
        CHECK(job.diagnostics().front().place.line == value_of(text, key.section, key.key).line + 1);
    }
}

TEST_CASE("a slip of the pen in any key names the key that was meant, at the slip") {
    for (const Key& key : keys) {
        const std::string name = key.key;
        if (name.size() < 3) continue;
        std::string slip = name;
        std::swap(slip[1], slip[2]);
        if (slip == name) continue;
        const std::string text = std::string(key.section).empty()
                                     ? slip + " = 1\n" + whole_job()
                                     : added(whole_job(), key.section, slip + " = 1");
        const auto job = read(text);
        INFO(named(key) << '\n' << complaints(job));
        REQUIRE_FALSE(job.ok());
        REQUIRE(job.diagnostics().size() == 1);
        CHECK(job.diagnostics().front().code == "unknown-key");
        CHECK_THAT(job.diagnostics().front().remedy, ContainsSubstring("did you mean '" + name + "'?"));
        CHECK(job.diagnostics().front().place.column == 1);
    }
}
