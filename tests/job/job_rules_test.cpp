#include "catch.h"
#include "job_text.h"
#include "program.h"

#include <algorithm>
#include <clocale>
#include <locale>
#include <random>

using namespace lobewright;
using namespace job_text;

namespace {

/// The only complaint, as the user reads it.
std::string complaint(const std::string& text) {
    return complaints(read(text));
}

std::string at(Spot spot) {
    return "dir/job.toml:" + std::to_string(spot.line) + ':' + std::to_string(spot.column) + ": ";
}

}  // namespace

TEST_CASE("all complaints come in one run, from the top of the file") {
    std::string text = set(whole_job(), "shaft", "turns", "\"anti-clockwise\"");
    text = set(text, "profile.nosed", "lift", "-1");
    text = set(text, "lobe", "profile", "\"inlet\"");
    text = unset(text, "cut", "spindle_speed");
    text = added(text, "machine", "coolant = true");
    const auto job = read(text);
    INFO(complaints(job));
    REQUIRE(job.diagnostics().size() == 5);
    CHECK(
        std::is_sorted(job.diagnostics().begin(), job.diagnostics().end(),
                       [](const Diagnostic& a, const Diagnostic& b) { return a.place.line < b.place.line; }));
}

TEST_CASE("a complaint says where, what, and what to do") {
    CHECK(complaint(set(whole_job(), "shaft", "turns", "\"cww\"")) ==
          "dir/job.toml:6:9: 'shaft.turns' is \"cww\": did you mean \"ccw\"? Known: \"ccw\", \"cw\"\n");
    CHECK(complaint(set(whole_job(), "profile.nosed", "lift", "-1")) ==
          "dir/job.toml:41:8: 'profile.nosed.lift' is -1: give at least 0.001 and at most 10000\n");
    CHECK_THAT(complaint(set(whole_job(), "cut", "surface_feed", "1e-308")),
               ContainsSubstring("'cut.surface_feed' is 1e-308: give at least 0.001 and at most 1000000"));
    CHECK(complaint(set(whole_job(), "lobe", "follower", "\"tapet\"")) ==
          at(value_of(whole_job(), "lobe", "follower")) +
              "there is no [follower.tapet]: did you mean \"tappet\"?\n");
    CHECK_THAT(complaint(set(whole_job(), "lobe", "follower", "\"valve\"")),
               ContainsSubstring(
                   "add it, or name one of \"tappet\", \"rocker\", \"bucket\", \"blade\", \"finger\""));
}

TEST_CASE("a table that isn't known, or has another shape than it should, is refused") {
    CHECK_THAT(complaint(whole_job() + "[cuter.em8]\ndiameter = 8\n"),
               ContainsSubstring("unknown key 'cuter': did you mean 'cutter'?"));
    CHECK_THAT(complaint(without(without(whole_job(), "lobe"), "lobe")),
               ContainsSubstring("dir/job.toml:1:1: the file has no 'lobe': add at least one [[lobe]]"));
    CHECK_THAT(complaint("layout = 1\n"), ContainsSubstring("the file has no 'shaft'"));
    CHECK_THAT(complaint("layout = 1\n"), ContainsSubstring("the file has no 'job'"));
    CHECK_THAT(complaint("layout = 1\n"), ContainsSubstring("the file has no 'profile'"));
    CHECK_THAT(complaint("lobe = 3\n" + whole_job()), ContainsSubstring("dir/job.toml"));
    CHECK_THAT(complaint("layout = 1\nlobe = [1]\nprofile = { a = 1 }\nshaft = 2\n"),
               ContainsSubstring("'lobe[0]' is a number: write tables: [[lobe]]") &&
                   ContainsSubstring("'profile.a' is a number: write a table: [profile.a]") &&
                   ContainsSubstring("'shaft' is a number: give a table"));
}

TEST_CASE("a key of another kind is refused by its name") {
    struct Case {
        const char* section;
        const char* line;
        const char* wanted;
    };
    // clang-format off
    const std::vector<Case> cases = {
        {"follower.tappet", "radius = 5.0", "a flat follower has no 'radius': remove it"},
        {"follower.tappet", "offset = 5.0", "a flat follower has no 'offset': remove it"},
        {"follower.rocker", "face_diameter = 5.0", "a roller follower has no 'face_diameter': remove it"},
        {"follower.bucket", "arm_length = 5.0", "a domed follower has no 'arm_length': remove it"},
        {"follower.blade", "radius = 5.0", "a knife follower has no 'radius': remove it"},
        {"follower.finger", "offset = 5.0", "a pivoted follower has no 'offset': remove it"},
        {"profile.flanked", "opening_angle = 60", "a profile of shape \"arcs\" has no 'opening_angle': remove it"},
        {"profile.moved", "nose_radius = 2", "a profile of shape \"motion\" has no 'nose_radius': remove it"},
        {"profile.traced", "lift = 2", "a profile of shape \"table\" has no 'lift': remove it"},
        {"cutter.em10", "width = 2", "a cutter of kind \"end-mill\" has no 'width': remove it"},
        {"cutter.ball", "corner_radius = 4", "a cutter of kind \"ball-nose\" has no 'corner_radius': remove it"},
        {"cutter.disc", "flute_length = 4", "a cutter of kind \"disc\" has no 'flute_length': remove it"},
        {"hand.lathe", "plates = [[15]]", "the method offset-fixture has no 'plates': remove it"},
        {"hand.head", "offset = 4", "the method dividing-head has no 'offset': remove it"},
        {"hand.table", "travel = \"along\"", "the method rotary-table has no 'travel': remove it"},
        {"hand.lathe", "dial_turn = 2", "the method offset-fixture has no 'dial_turn': remove it"},
        {"hand.table", "cutter = \"em10\"", "a method with a radial cutter has no 'cutter': remove it"},
    };
    // clang-format on
    for (const Case& each : cases) {
        const std::string text = added(whole_job(), each.section, each.line);
        const Spot spot{header_of(text, each.section).line + 1, 1};
        CHECK(complaint(text) == at(spot) + each.wanted + '\n');
    }
    const std::string other_law = set(whole_job(), "profile.moved", "law", "\"cycloidal\"");
    CHECK_THAT(complaint(other_law), ContainsSubstring("the cycloidal law has no 'powers': remove it"));
    CHECK(read(unset(other_law, "profile.moved", "powers")).ok());
}

TEST_CASE("a radial machine has neither cutter_zero nor spindle_side, but may shift its cutter") {
    std::string text = set(whole_job(), "machine", "cutter_axis", "\"radial\"");
    CHECK_THAT(complaint(text),
               ContainsSubstring("a machine with a radial cutter has no 'cutter_zero': remove it") &&
                   ContainsSubstring("a machine with a radial cutter has no 'spindle_side': remove it"));
    text = unset(unset(text, "machine", "cutter_zero"), "machine", "spindle_side");
    CHECK(read(set(text, "cut", "side_shift", "-1.5"))->cut->side_shift == -1.5);
}

TEST_CASE("a cutter's length has the tool's number where it has none of its own") {
    CHECK(read(whole_job())->cutters.at("em10").offset_number == 17);
    CHECK(read(unset(whole_job(), "cutter.em10", "offset_number"))->cutters.at("em10").offset_number == 7);
    CHECK(read(whole_job())->cutters.at("disc").number == 1);
    CHECK(read(whole_job())->cutters.at("disc").offset_number == 1);
}

TEST_CASE("an end of a travel that is none is refused where it stands") {
    const std::string text = set(whole_job(), "machine.limits", "radial_travel", "[-5, 10001]");
    CHECK_THAT(complaint(text), ContainsSubstring("'machine.limits.radial_travel' holds 10001"));
    CHECK_THAT(complaint(set(text, "machine.limits", "radial_travel", "[5, -5]")),
               ContainsSubstring("is not two words, the least first: write [least, greatest]"));
}

TEST_CASE("a finish pass alone may have a depth of its own, a finish after roughing has none") {
    const std::string text = added(whole_job(), "cut", "finish_depth = 1.5");
    CHECK_THAT(complaint(text), ContainsSubstring("rough_depth and finish_depth are both given"));
    CHECK(read(unset(text, "cut", "rough_depth"))->cut->finish_depth == 1.5);
    const std::string alone = unset(text, "cut", "rough_depth");
    for (const char* bad : {"0", "100.001", "\"1\""})
        CHECK_FALSE(read(set(alone, "cut", "finish_depth", bad)).ok());
}

TEST_CASE("keys that exclude each other, or need each other, say so") {
    CHECK_THAT(
        complaint(added(whole_job(), "profile.flanked", "nose_radius = 2")),
        ContainsSubstring("action_angle, flank_radius and nose_radius are all given: give two of them"));
    CHECK_THAT(complaint(added(whole_job(), "lobe", "cylinder = 1\nvalve = \"inlet\"")),
               ContainsSubstring(
                   "the lobe has both 'at' and a cylinder or valve: give 'at', or cylinder and valve"));
    CHECK_THAT(complaint(added(unset(whole_job(), "lobe", "at"), "lobe", "cylinder = 1")),
               ContainsSubstring("'lobe[0]' has no 'valve'"));
    CHECK_THAT(complaint(added(unset(whole_job(), "lobe", "at"), "lobe", "valve = \"inlet\"")),
               ContainsSubstring("'lobe[0]' has no 'cylinder'"));
    CHECK_THAT(complaint(added(whole_job(), "engine", "firing_angles = [0, 180, 360, 540]")),
               ContainsSubstring("firing_order and firing_angles are both given"));
    CHECK_THAT(complaint(added(whole_job(), "hand.head", "step = 2")),
               ContainsSubstring("cusp and step are both given: give one of them"));
    CHECK_THAT(complaint(set(whole_job(), "cut", "blend", "0.002")),
               ContainsSubstring("'cut.blend' is not less than 'cut.tolerance'"));
    CHECK_THAT(complaint(set(whole_job(), "profile.moved.closing_ramp", "lift", "2.4")),
               ContainsSubstring("the lift of 'profile.moved.closing_ramp' is not less than the whole lift"));
    CHECK_THAT(complaint(set(whole_job(), "profile.moved", "closing_angle", "252")),
               ContainsSubstring("the angles of [profile.moved] make 361 degrees together"));
    const std::string late = set(whole_job(), "engine.inlet", "opens_before_tdc", "-1");
    CHECK_THAT(complaint(set(late, "engine.inlet", "closes_after_bdc", "-179")),
               ContainsSubstring("the inlet valve closes before it opens"));
}

TEST_CASE("the engine must have what a lobe asks of it") {
    std::string text = added(unset(whole_job(), "lobe", "at"), "lobe", "valve = \"inlet\"\ncylinder = 5");
    CHECK_THAT(complaint(text), ContainsSubstring("the engine has no cylinder 5: give 1 to 4"));
    text = added(unset(whole_job(), "lobe", "at"), "lobe", "valve = \"inlet\"\ncylinder = 4");
    CHECK(read(text).ok());
    CHECK_THAT(
        complaint(without(text, "engine.inlet")),
        ContainsSubstring("[engine] has no timing for the inlet valve: add inlet = { opens_before_tdc"));
    for (const char* section : {"engine.inlet", "engine.exhaust", "engine"})
        text = without(text, section);
    CHECK_THAT(complaint(text), ContainsSubstring("there is no [engine] to place the lobe"));
}

TEST_CASE("an arcs profile without an action angle needs the timing of a cylinder") {
    const std::string text = set(whole_job(), "lobe", "profile", "\"nosed\"");
    CHECK(complaint(text) ==
          at(value_of(text, "lobe", "profile")) +
              "the profile 'nosed' has no action_angle and the lobe no cylinder: give the profile "
              "an action_angle, or the lobe a cylinder and valve to take it from the timing\n");
    CHECK(read(added(unset(text, "lobe", "at"), "lobe", "cylinder = 1\nvalve = \"inlet\"")).ok());
    CHECK(read(added(text, "profile.nosed", "action_angle = 120")).ok());
}

TEST_CASE("two lobes may not share a name") {
    const std::string text = set(whole_job(), "lobe", "name", "\"1 exhaust\"");
    const Spot first = value_of(text, "lobe", "name");
    CHECK(complaint(text) == at({first.line + 8, first.column}) +
                                 "there is a lobe '1 exhaust' already, in line " +
                                 std::to_string(first.line) + ": give each lobe a name of its own\n");
}

TEST_CASE("the k-th in a firing order fires k·720/n after cylinder 1; firing_angles stand as they are") {
    const auto even = read(set(whole_job(), "engine", "firing_order", "[3, 4, 2, 1]"));
    REQUIRE(even.ok());
    const std::vector<double> wanted = {0.0, 540.0, 180.0, 360.0};  // 1 first, then 3, 4, 2
    REQUIRE(even->engine->firing_angles.size() == 4);
    for (std::size_t i = 0; i < 4; ++i)
        CHECK_NEAR(even->engine->firing_angles[i].degrees(), wanted[i], 1e-9);
    const std::string uneven = added(unset(whole_job(), "engine", "firing_order"), "engine",
                                     "firing_angles = [0, 270, 315.5, 719.9]");
    REQUIRE(read(uneven).ok());
    CHECK_NEAR(read(uneven)->engine->firing_angles[2].degrees(), 315.5, 1e-9);
    CHECK_THAT(
        complaint(set(uneven, "engine", "firing_angles", "[10, 20, 30, 40]")),
        ContainsSubstring("cylinder 1 fires at 10 in 'engine.firing_angles': crank angle 0 is cylinder 1"));
    CHECK_THAT(complaint(set(uneven, "engine", "firing_angles", "[0, 20, 30, 720]")),
               ContainsSubstring("'engine.firing_angles' holds 720: give at least 0 and less than 720"));
    CHECK_THAT(
        complaint(set(uneven, "engine", "firing_angles", "[0, 20, 30]")),
        ContainsSubstring("'engine.firing_angles' is for 3 cylinders, the engine has 4: make them agree"));
    CHECK(read(unset(uneven, "engine", "cylinders"))->engine->cylinders == 4);
}

TEST_CASE("lobes and journals that overlap along the shaft fail the check, with a place that doesn't") {
    const auto overlapping = read(set(whole_job(), "lobe", "z", "25.0"));
    REQUIRE_FALSE(overlapping.ok());
    const Diagnostic& lobes = overlapping.diagnostics().front();
    CHECK(lobes.fault == Fault::check_failed);
    CHECK(lobes.what == "lobe '1 exhaust' (z 27 to 33 mm) overlaps lobe '1 inlet' (z 22 to 28 mm)");
    CHECK(lobes.remedy == "move it to z = 31 mm or more, or make one of them narrower");
    CHECK(lobes.place.line == value_of(whole_job(), "lobe", "z").line + 9);  // in the second lobe
    const auto on_journal = read(set(whole_job(), "lobe", "z", "13.9"));
    CHECK(on_journal.diagnostics().front().what ==
          "lobe '1 inlet' (z 10.9 to 16.9 mm) overlaps the journal at z = 6 (z 1 to 11 mm)");
    CHECK(read(set(whole_job(), "lobe", "z", "14.0")).ok());  // they may touch
    const auto off = read(set(whole_job(), "shaft", "length", "32.9"));
    CHECK(off.diagnostics().front().what ==
          "lobe '1 exhaust' (z 27 to 33 mm) is not within the shaft's length of 32.9 mm");
}

TEST_CASE("a figure that can't be read hides no overlap of the lobes that can be, and makes up none") {
    const auto codes = [](const std::string& text) {
        std::vector<std::string> all;
        const auto job = read(text);
        for (const Diagnostic& each : job.diagnostics())
            all.push_back(each.code);
        return all;
    };
    const std::string overlapping = set(whole_job(), "lobe", "z", "25.0");
    CHECK(codes(set(overlapping, "cut", "tolerance", "inf")) ==
          std::vector<std::string>{"overlap", "not-finite"});
    CHECK(codes(set(overlapping, "lobe", "width", "inf")) == std::vector<std::string>{"not-finite"});
    CHECK(codes(set(whole_job(), "shaft", "length", "inf")) == std::vector<std::string>{"not-finite"});
}

TEST_CASE("a blank smaller than a lobe fails the check, and its remedy is enough") {
    const std::string by_name = unset(whole_job(), "shaft", "blank_measured");
    const auto small = read(set(by_name, "shaft", "blank_diameter", "16.79"));
    REQUIRE_FALSE(small.ok());
    CHECK(small.diagnostics().front().fault == Fault::check_failed);
    CHECK(small.diagnostics().front().what ==
          "the blank is 16.79 mm across, lobe '1 inlet' reaches 8.4 mm from the axis");
    CHECK(small.diagnostics().front().remedy ==
          "take a blank of at least 16.8 mm, or lower base_radius or lift");
    CHECK(read(set(by_name, "shaft", "blank_diameter", "16.8")).ok());
}

TEST_CASE("a bar is as large as it measures, whatever it is called") {
    const auto small = read(set(whole_job(), "shaft", "blank_measured", "16.79"));
    REQUIRE_FALSE(small.ok());
    CHECK(small.diagnostics().front().what ==
          "the blank is 16.79 mm across, lobe '1 inlet' reaches 8.4 mm from the axis");
    CHECK(small.diagnostics().front().place.line == value_of(whole_job(), "shaft", "blank_measured").line);
    const auto enough = read(set(whole_job(), "shaft", "blank_diameter", "16.79"));
    REQUIRE(enough.ok());
    CHECK(enough->shaft.blank() == 17.05);
    CHECK(read(unset(whole_job(), "shaft", "blank_measured"))->shaft.blank() == 17.0);
    CHECK(read(unset(whole_job(), "shaft", "blank_diameter"))->shaft.blank() == 17.05);
}

TEST_CASE("a hole's direction counts from the datum or from the nose of a lobe that is there") {
    const std::string by_nose = whole_job();
    const auto job = read(by_nose);
    REQUIRE(job.ok());
    CHECK(job->shaft.holes[0].lobe == "1 exhaust");
    CHECK_NEAR(job->shaft.holes[0].at.degrees(), 180.0, 1e-12);
    std::string by_datum = unset(unset(by_nose, "shaft.hole", "lobe"), "shaft.hole", "from_nose");
    CHECK_THAT(complaint(by_datum), ContainsSubstring("'shaft.hole[0]' has no 'at'"));
    by_datum = added(by_datum, "shaft.hole", "at = 95.0");
    CHECK(read(by_datum)->shaft.holes[0].lobe.empty());
    CHECK_NEAR(read(by_datum)->shaft.holes[0].at.degrees(), 95.0, 1e-12);
    CHECK_THAT(complaint(added(by_nose, "shaft.hole", "at = 95.0")),
               ContainsSubstring("the hole has both 'at' and a lobe's nose to count from"));
    CHECK_THAT(complaint(set(by_nose, "shaft.hole", "lobe", "\"3 inlet\"")),
               ContainsSubstring("there is no lobe '3 inlet': name a [[lobe]]"));
    CHECK_THAT(complaint(set(by_nose, "shaft.hole", "z", "120.5")),
               ContainsSubstring("the hole does not lie on the shaft"));
}

TEST_CASE("every key's place can be asked for by its path") {
    const auto job = read(whole_job());
    const auto spot = [&](const char* path) {
        const Place place = job->place_of(path);
        return std::pair(place.line, place.column);
    };
    const auto wanted = [](Spot s) { return std::pair(s.line, s.column); };
    CHECK(spot("shaft.turns") == wanted(value_of(whole_job(), "shaft", "turns")));
    CHECK(spot("profile.nosed.nose_radius") == wanted(value_of(whole_job(), "profile.nosed", "nose_radius")));
    CHECK(spot("profile.moved.opening_ramp.lift") ==
          wanted(value_of(whole_job(), "profile.moved.opening_ramp", "lift")));
    CHECK(spot("lobe[0].profile") == wanted(value_of(whole_job(), "lobe", "profile")));
    CHECK(spot("lobe[1]").first == header_of(whole_job(), "lobe").line + 8);
    CHECK(spot("cutter.em10") == wanted(header_of(whole_job(), "cutter.em10")));
    CHECK(spot("shaft.journal[0].z") == wanted(value_of(whole_job(), "shaft.journal", "z")));
    CHECK(spot("profile.nosed.action_angle") == wanted(header_of(whole_job(), "profile.nosed")));
    CHECK(job->place_of("probe").file == "dir/job.toml");
    CHECK(spot("probe") == std::pair(0, 0));
}

TEST_CASE("absent keys have the values that job.h documents") {
    const auto job = read(R"(layout = 1
job = { units = "mm" }
shaft = { turns = "ccw" }
profile.a = { shape = "motion", base_radius = 10, lift = 3, law = "cycloidal", opening_angle = 60, closing_angle = 60 }
follower.f = { kind = "flat" }
lobe = [{ name = "1", profile = "a", follower = "f", cylinder = 1, valve = "inlet", z = 1, width = 1 }]
engine.inlet = { opens_before_tdc = 1, closes_after_bdc = 2 }
contact = { spring_preload = 1, spring_rate = 1, moving_mass = 1, crank_speed = 1 }
cutter.c = { kind = "end-mill", diameter = 10 }
machine = { post = "p", cutter_axis = "parallel", rotary_positive = "cw" }
cut = { cutter = "c", tolerance = 0.01, surface_feed = 100, spindle_speed = 1000 }
[hand]
a = { method = "offset-fixture", divisions = 72 }
b = { method = "dividing-head", plates = [[27]], step = 1 }
c = { method = "rotary-table", step = 1 }
)");
    INFO(complaints(job));
    REQUIRE(job.ok());
    CHECK(job->title.empty());
    CHECK(job->engine->cam_per_crank == 0.5);
    CHECK(job->engine->cylinders == 1);
    CHECK(job->engine->firing_angles.size() == 1);
    CHECK(job->engine->inlet->clearance == 0.0);
    const auto& motion = std::get<MotionProfile>(job->profiles.at("a"));
    CHECK(motion.dwell_angle.degrees() == 0.0);
    CHECK_FALSE(motion.closing_law.has_value());
    CHECK_FALSE(motion.opening_ramp.has_value());
    CHECK(job->followers.at("f").valve_ratio == 1.0);
    CHECK(job->lobes[0].repeat == 1);
    CHECK(job->contact->cam_material.young_mpa == 207000.0);
    CHECK(job->contact->follower_material.poisson == 0.3);
    CHECK(job->cutters.at("c").corner_radius == 0.0);
    CHECK(job->cutters.at("c").teeth == 0);
    CHECK(job->machine->cutter_zero == CutterZero::centre);
    CHECK(job->machine->spindle_side == SpindleSide::far);
    CHECK(job->cut->direction == CutDirection::climb);
    CHECK(job->cut->clearance == 3.0);
    CHECK_NEAR(job->cut->overlap.degrees(), 5.0, 1e-12);
    CHECK(job->cut->spring_passes == 0);
    CHECK(job->cut->allowance == 0.0);
    CHECK(job->cut->blend == 0.0);
    CHECK(job->hand.at("a").dial == DialReading::radius);
    CHECK(job->hand.at("a").counts == Sense::ccw);
    CHECK(job->hand.at("a").travel == HandTravel::plunge);
    CHECK(job->hand.at("a").allowance == 0.0);
    CHECK(job->hand.at("a").infeed == 0.1);
    CHECK(job->hand.at("b").infeed == 0.5);
    CHECK(job->hand.at("b").dial == DialReading::radius);
    CHECK(job->hand.at("a").zero.degrees() == 0.0);
    CHECK(job->hand.at("b").ratio == 40.0);
    CHECK(job->hand.at("b").cutter_axis == CutterAxis::radial);
    CHECK(job->hand.at("c").ratio == 0.0);
}

TEST_CASE("an empty text, a comment alone and other texts that are no job are refused with a place") {
    for (const char* text :
         {"", "# nothing\n", "\n\n", "[", "layout", "\xEF\xBB\xBFlayout = 1\n", "layout = 1\r\n"}) {
        INFO(text);
        const auto job = read(text);
        REQUIRE_FALSE(job.ok());
        for (const Diagnostic& each : job.diagnostics()) {
            CHECK(each.place.line >= 1);
            CHECK_FALSE(each.remedy.empty());
        }
    }
}

TEST_CASE("the examples are jobs without a complaint") {
    for (const char* name : {"basalt-four.toml", "basalt-four-radial.toml"}) {
        const auto job = read(file_text(source_folder() / "examples" / name));
        INFO(name << '\n' << complaints(job));
        REQUIRE(job.ok());
        CHECK(job->lobes.size() == 8);
    }
}

TEST_CASE("a locale with a decimal comma changes nothing") {
    struct Comma : std::numpunct<char> {
        char do_decimal_point() const override { return ','; }
        char do_thousands_sep() const override { return '.'; }
        std::string do_grouping() const override { return "\3"; }
    };
    const std::string wrong = set(whole_job(), "profile.nosed", "lift", "10000.001");
    const std::string before = complaint(wrong);
    const std::locale old = std::locale::global(std::locale(std::locale::classic(), new Comma));
    std::setlocale(LC_ALL, "de_DE.UTF-8");
    const auto job = read(whole_job());
    const std::string during = complaint(wrong);
    std::locale::global(old);
    std::setlocale(LC_ALL, "C");
    REQUIRE(job.ok());
    CHECK(job->cut->tolerance == 0.002);
    CHECK(std::get<TableProfile>(job->profiles.at("traced")).readings[0].cam_angle.degrees() < 0.0);
    CHECK(during == before);
    CHECK_THAT(during, ContainsSubstring("is 10000.001"));
}

TEST_CASE("any few changes to a good job are read or refused, never a crash") {
    const unsigned seed = 20240918;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const std::string good = whole_job();
    const std::string letters = "[]{}=.\"'#\n\r\t ,0-+eE9\\\xc3\xff";
    int refused = 0;
    for (int i = 0; i < 3000; ++i) {
        std::string text = good;
        for (auto changes = 1 + random() % 3; changes > 0; --changes) {
            const std::size_t place = random() % text.size();
            switch (random() % 4) {
                case 0:
                    text[place] = letters[random() % letters.size()];
                    break;
                case 1:
                    text.insert(place, 1, letters[random() % letters.size()]);
                    break;
                case 2:
                    text.erase(place, 1 + random() % 8);
                    break;
                default:
                    std::swap(text[place], text[random() % text.size()]);
                    break;
            }
        }
        const auto job = read(text);
        if (job.ok()) continue;
        ++refused;
        for (const Diagnostic& each : job.diagnostics()) {
            if (each.place.file == "dir/job.toml" && each.place.line >= 1 && !each.remedy.empty()) continue;
            FAIL("no place or no remedy: " << to_text(each) << "\nin\n" << text);
        }
    }
    CHECK(refused > 1000);
    CHECK(refused < 3000);
}

TEST_CASE("a probe is an anvil, a ball with its radius or a knife edge") {
    const auto probe = [](const std::string& lines) {
        const auto job = read(whole_job() + "[probe]\n" + lines);
        REQUIRE(job.ok());
        REQUIRE(job->probe);
        return *job->probe;
    };
    CHECK(probe("kind = \"flat\"\nradius = 0.0\n").kind == ProbeKind::flat);
    CHECK(probe("kind = \"knife\"\n").kind == ProbeKind::knife);
    CHECK(probe("kind = \"ball\"\nradius = 2.5\ndirection = 90\n").kind == ProbeKind::ball);
    CHECK_NEAR(probe("kind = \"ball\"\nradius = 2.5\n").radius, 2.5, 1e-12);
    CHECK_NEAR(probe("kind = \"flat\"\ndirection = 90\n").direction.degrees(), 90.0, 1e-12);
    CHECK_FALSE(read(whole_job())->probe);
    CHECK_THAT(complaint(whole_job() + "[probe]\nkind = \"ball\"\n"),
               ContainsSubstring("[probe] has no 'radius'"));
    CHECK_THAT(complaint(whole_job() + "[probe]\nradius = 1\n"), ContainsSubstring("[probe] has no 'kind'"));
    CHECK_THAT(complaint(whole_job() + "[probe]\nkind = \"flat\"\nradius = 1\n"),
               ContainsSubstring("a flat probe has no radius: remove it, or give kind = \"ball\""));
    CHECK_THAT(complaint(whole_job() + "[probe]\nkind = \"knife\"\nradius = 1\n"),
               ContainsSubstring("a knife probe has no radius"));
    CHECK_THAT(complaint(whole_job() + "[probe]\nkind = \"ball\"\nradius = 0.001\n"),
               ContainsSubstring("'probe.radius' is"));
    CHECK_THAT(complaint(whole_job() + "[probe]\nkind = \"bal\"\n"),
               ContainsSubstring("did you mean \"ball\"?"));
    CHECK_THAT(complaint(whole_job() + "[probe]\nkind = \"flat\"\ndirection = 400\n"),
               ContainsSubstring("'probe.direction' is 400"));
}

TEST_CASE("a wheel has no teeth whose material could be told") {
    const std::string said = complaint(added(whole_job(), "cutter.wheel", "material = \"carbide\""));
    CHECK_THAT(said,
               ContainsSubstring("a disc without teeth is a wheel") && ContainsSubstring("remove material"));
    const auto job = read(whole_job());
    CHECK(job->cutters.at("em10").material == EdgeMaterial::carbide);
    CHECK_FALSE(job->cutters.at("wheel").material);
    CHECK(job->shaft.material == ShaftMaterial::soft_steel);
}
