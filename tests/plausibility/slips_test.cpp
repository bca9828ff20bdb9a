// Each slip of the pen is asked about once, with its figures; the figure that the question gives cures it.
#include "catch.h"
#include "plausible_jobs.h"
#include "program.h"

#include <lobewright/job_file.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <set>

using namespace lobewright;
using namespace plausible_jobs;

namespace {

/// A part of a job's text, and what stands there instead.
struct Change {
    std::string part;
    std::string by;
};

/// A slip in a sound job: the code of its one question, words of it (figures worked out by hand), and the
/// change of the slip that the question advises, after which nothing is asked.
struct Slip {
    std::string name;
    std::string job;
    Change slip;
    std::string code;
    std::vector<std::string> words;
    std::string cured;  ///< in place of `slip.by`; empty: the question advises no one figure
};

const std::string card = "inlet = { opens_before_tdc = 14, closes_after_bdc = 46, clearance = 0.10 }";

std::vector<Slip> slips_of_size() {
    return {
        {"a file in inches that says mm: a shaft of 1.6 mm",
         inch_four(),
         {"units = \"inch\"", "units = \"mm\""},
         "size",
         {"the largest lobe is 1.62 mm across", "write units = \"inch\", and it is 41.15 mm across"},
         "units = \"inch\""},
        {"a file in mm that says inches",
         by_angles(),
         {"units = \"mm\"", "units = \"inch\""},
         "size",
         {"the largest lobe is 16.8 in across", "write units = \"mm\", and it is 16.8 mm across"},
         "units = \"mm\""},
        {"a bar of 50 inches",
         inch_four(),
         {"blank_diameter = 1.7", "blank_diameter = 43.0"},
         "blank-size",
         {"the blank is 43 in across, and nothing on the shaft is more than 1.62 in",
          "if 43 is in mm, write 1.69291"},
         "blank_diameter = 1.69291"},
        {"a bar ten times too thick",
         four(),
         {"blank_diameter = 17.0", "blank_diameter = 170.0"},
         "blank-size",
         {"the blank is 170 mm across", "more than 16.8 mm", "give the diameter over the lobes"},
         "blank_diameter = 17.0"},
        {"a bar that measures another bar's size",
         four(),
         {"blank_diameter = 17.0", "blank_diameter = 17.0\nblank_measured = 18.05"},
         "blank-measured",
         {"the bar measures 18.05 mm, and blank_diameter says 17 mm", "measure it again"},
         "blank_diameter = 17.0\nblank_measured = 17.05"},
        {"a lift in inches",
         by_angles(),
         {"lift = 2.4", "lift = 0.0945"},
         "lift",
         {"a lift of 0.0945 mm is 0.016 times the base circle's radius of 6 mm",
          "if 0.0945 is in inches, write 2.4003"},
         "lift = 2.4003"},
        {"the nose's distance given for the lift",
         with(with(with(by_angles(), "flank_radius = 16.0", "flank_radius = 60.0"), "action_angle = 120.0",
                   "action_angle = 160.0"),
              "blank_diameter = 17.0", "blank_diameter = 30.0"),
         {"lift = 2.4", "lift = 8.4"},
         "lift",
         {"a lift of 8.4 mm is 1.4 times", "write lift = 2.4"},
         "lift = 2.4"},
        {"a width in inches",
         single_lathe(),
         {"z = 36.0\nwidth = 6.0", "z = 36.0\nwidth = 0.24"},
         "lobe-width",
         {"lobe 'exhaust' is 0.24 mm wide", "if 0.24 is in inches, write 6.096"},
         "z = 36.0\nwidth = 6.096"},
        {"smoothing that smooths the lobe away",
         traced(),
         {"smoothing = 0.002", "smoothing = 0.2"},
         "smoothing",
         {"smoothing may move a reading by 0.2 mm", "the lift is 2.4"},
         "smoothing = 0.002"},
    };
}

std::vector<Slip> slips_of_timing() {
    return {
        {"an inlet card read at the wrong end",
         four(),
         {card, "inlet = { opens_before_tdc = 50, closes_after_bdc = 10, clearance = 0.10 }"},
         "card-turned-round",
         {"opens 50 degrees before TDC and closes 10 after BDC", "both valves are open for 74 degrees",
          "write opens_before_tdc = 10 and closes_after_bdc = 50", "they are for 34 degrees"},
         "inlet = { opens_before_tdc = 10, closes_after_bdc = 50, clearance = 0.10 }"},
        {"an exhaust card read at the wrong end",
         four(),
         {"opens_before_bdc = 58, closes_after_tdc = 24", "opens_before_bdc = 24, closes_after_tdc = 58"},
         "card-turned-round",
         {"the exhaust opens 24 degrees before BDC and closes 58 after TDC",
          "both valves are open for 72 degrees", "write opens_before_bdc = 58 and closes_after_tdc = 24",
          "they are for 38 degrees"},
         "opens_before_bdc = 58, closes_after_tdc = 24"},
        {"a sign lost on a card",
         four(),
         {"opens_before_bdc = 58", "opens_before_bdc = -58"},
         "valve-duration",
         {"it is open for 146 crank degrees", "negative on the other side of their dead centre"},
         "opens_before_bdc = 58"},
        {"a card whose valves are open together for too long",
         with(by_angles(), "[profile.inlet]",
              "[engine]\nfiring_order = [1]\ninlet = { opens_before_tdc = 70, closes_after_bdc = 80 }\n"
              "exhaust = { opens_before_bdc = 80, closes_after_tdc = 20 }\n[profile.inlet]"),
         {"closes_after_tdc = 20", "closes_after_tdc = 75"},
         "valve-overlap",
         {"both are open for 145 degrees round TDC"},
         "closes_after_tdc = 20"},
        {"a clearance in inches",
         four(),
         {"closes_after_bdc = 46, clearance = 0.10", "closes_after_bdc = 46, clearance = 0.006"},
         "valve-clearance",
         {"the inlet's clearance is 0.006 mm", "if 0.006 is in inches, write 0.1524"},
         "closes_after_bdc = 46, clearance = 0.1524"},
        {"a clearance in mm in a file in inches",
         inch_four(),
         {"clearance = 0.010", "clearance = 0.25"},
         "valve-clearance",
         {"the inlet's clearance is 0.25 in, and its valve lifts 0.39 in", "if 0.25 is in mm, write 0.00984"},
         "clearance = 0.00984"},
        {"crank turns for a turn of the cam",
         single_lathe(),
         {"cam_per_crank = 0.5", "cam_per_crank = 0.25"},
         "cam-speed",
         {"the cam turns 0.25 times for a turn of the crank", "write 0.5 (a two-stroke's 1)"},
         "cam_per_crank = 0.5"},
        {"the ways from firing to firing",
         four(),
         {"firing_order = [1, 3, 4, 2]", "firing_angles = [0, 180, 180, 180]"},
         "firing-angles",
         {"cylinders 2 and 3 and 4 fire together, at 180 degrees", "write [0, 180, 360, 540]"},
         "firing_angles = [0, 180, 360, 540]"},
        {"an action angle that doesn't keep the card",
         single_lathe(),
         {"action_angle = 130.0 ", "action_angle = 140.0 "},
         "card-not-kept",
         {"the inlet is open for 260.3 crank degrees, and the card says 240", "leave action_angle out"},
         "# action_angle = 130.0 "},
        {"a ramp lower than the clearance",
         four(),
         {"clearance = 0.12 }", "clearance = 0.16 }"},
         "ramp-low",
         {"the opening_ramp lifts the follower by 0.14 mm", "the clearance takes 0.16 mm",
          "give it a lift of 0.2 mm"},
         "clearance = 0.12 }"},
        {"an action angle in degrees of the crank",
         by_angles(),
         {"action_angle = 120.0", "action_angle = 240.0"},
         "action-angle",
         {"240 degrees of the cam is 480 of a four-stroke's crank", "write 120"},
         "action_angle = 120.0"},
    };
}

std::vector<Slip> slips_along_the_shaft() {
    return {
        {"a lobe before the drive end",
         by_angles(),
         {"at = 10.0\nz = 10.0", "at = 10.0\nz = 1.0"},
         "before-drive-end",
         {"lobe '1' would begin at z = -2 mm", "move it by 2 mm or more"},
         "at = 10.0\nz = 3.0"},
        {"a journal larger than the bar",
         four(),
         {"z = 74.0\nwidth = 10.0\ndiameter = 10.0", "z = 74.0\nwidth = 10.0\ndiameter = 25.0"},
         "journal-over-blank",
         {"the journal at 74 mm is 25 mm across, and the blank over the lobes 17 mm"},
         "z = 74.0\nwidth = 10.0\ndiameter = 17.0"},
        {"tappets wider than their spacing",
         four(),
         {"face_diameter = 12.0", "face_diameter = 15.0"},
         "tappets-meet",
         {"the tappets of lobes '1 exhaust' and '1 inlet' stand 14 mm apart, and half of each makes 15 mm",
          "give faces of 14 mm or less", "(and 5 more like it)"},
         "face_diameter = 14.0"},
        {"a tappet that rides on the next lobe",
         with(by_angles(), "[[lobe]]\nname = \"3\"\nwidth = 6.0\nprofile = \"inlet\"\nfollower = \"tappet\"",
              "[follower.ball]\nkind = \"domed\"\nradius = 40.0\n[[lobe]]\nname = \"3\"\nwidth = 6.0\n"
              "profile = \"inlet\"\nfollower = \"ball\""),
         {"at = 250.0\nz = 50.0", "at = 250.0\nz = 38.0"},
         "tappet-over-lobe",
         {"the tappet of lobe '2', 12 mm across, reaches over lobe '3'", "a face of 10 mm or less"},
         "at = 250.0\nz = 39.0"},
        {"limits that are meant for another follower",
         with(
             by_angles(),
             "shape = \"arcs\"\nbase_radius = 6.0\nlift = 2.4\naction_angle = 120.0\nflank_radius = 16.0",
             "shape = \"fullest\"\nbase_radius = 6.0\nopening_angle = 60.0\nclosing_angle = 60.0\nfollower = "
             "\"tappet\"\nlimits = { deceleration = 0.002, jerk = 0.0008, smallest_radius = 1.0 }\n"
             "[follower.wide]\nkind = \"flat\"\nface_diameter = 13.0"),
         {"follower = \"tappet\"\nat = 250.0", "follower = \"wide\"\nat = 250.0"},
         "other-follower",
         {"the limits of profile 'inlet' are meant for follower 'tappet', and lobe '3' has 'wide'"},
         ""},
        {"a cylinder's number copied",
         four(),
         {"name = \"4 inlet\"\nprofile = \"inlet\"\nfollower = \"tappet\"\ncylinder = 4",
          "name = \"4 inlet\"\nprofile = \"inlet\"\nfollower = \"tappet\"\ncylinder = 3"},
         "cylinder-twice",
         {"cylinder 3 has 2 inlet lobes, and cylinder 4 has none", "is lobe '4 inlet' meant for cylinder 4?"},
         "name = \"4 inlet\"\nprofile = \"inlet\"\nfollower = \"tappet\"\ncylinder = 4"},
        {"noses that all point one way",
         with(by_angles(), "at = 130.0", "at = 10.0"),
         {"at = 250.0", "at = 10.0"},
         "one-angle",
         {"the noses of all 3 lobes point at 10 degrees"},
         "at = 250.0"},
    };
}

std::vector<Slip> slips_of_valve_gear() {
    return {
        {"a rocker's ratio turned round",
         inch_four(),
         {"valve_ratio = 1.5", "valve_ratio = 0.4"},
         "valve-ratio",
         {"the valve moves 0.4 times as far as the follower", "if 0.4 is the other way round, write 2.5"},
         ""},
        {"a rocker's ratio in percent",
         inch_four(),
         {"valve_ratio = 1.5", "valve_ratio = 15"},
         "valve-ratio",
         {"15 times"},
         "valve_ratio = 1.5"},
        {"a mass in grams",
         four(),
         {"moving_mass = 0.012", "moving_mass = 12"},
         "moving-mass",
         {"what moves weighs 12 kg", "if it is in grams, write 0.012"},
         "moving_mass = 0.012"},
        {"a rate in N/m",
         four(),
         {"spring_rate = 4.0 ", "spring_rate = 4000.0 "},
         "spring-rate",
         {"4000 N/mm", "if it is in N/m, write 4"},
         "spring_rate = 4 "},
        {"a pressure in psi",
         inch_four(),
         {"allowable_stress = 1200", "allowable_stress = 100000"},
         "allowable-stress",
         {"100000 MPa", "if it is in psi, write 689"},
         "allowable_stress = 689"},
        {"a pressure in GPa",
         four(),
         {"allowable_stress = 900 ", "allowable_stress = 0.9 "},
         "allowable-stress",
         {"0.9 MPa", "if it is in GPa, write 900"},
         "allowable_stress = 900 "},
        {"a speed with three noughts too many",
         four(),
         {"crank_speed = 6000 ", "crank_speed = 600000 "},
         "crank-speed",
         {"the crank turns at 600000 rev/min"},
         "crank_speed = 6000 "},
    };
}

std::vector<Slip> slips_of_cutting() {
    return {
        {"a cutter in inches",
         four_radial(),
         {"[cutter.em20]\nkind = \"end-mill\"\ndiameter = 20.0",
          "[cutter.em20]\nkind = \"end-mill\"\ndiameter = 0.75"},
         "cutter-size",
         {"cutter em20 is 0.75 mm across", "if 0.75 is in inches, write 19.05"},
         "[cutter.em20]\nkind = \"end-mill\"\ndiameter = 19.05"},
        {"a reach shorter than the flutes",
         four_radial(),
         {"reach = 55.0", "reach = 30.0"},
         "cutter-reach",
         {"by 30 mm, less than its flutes of 38 mm"},
         "reach = 55.0"},
        {"a holder slimmer than the shank",
         four_radial(),
         {"holder_diameter = 50.0", "holder_diameter = 15.0"},
         "cutter-holder",
         {"15 mm, is slimmer than its shank of 20 mm"},
         "holder_diameter = 50.0"},
        {"rapids that pass the blank at a hair's breadth",
         four(),
         {"clearance = 3.0", "clearance = 0.118"},
         "rapid-clearance",
         {"rapids pass the blank at 0.118 mm", "if 0.118 is in inches, write 2.9972"},
         "clearance = 2.9972"},
        {"rapids that pass the blank a hand's breadth away",
         inch_four(),
         {"clearance = 0.12", "clearance = 3.0"},
         "rapid-clearance",
         {"rapids pass the blank at 3 in", "if 3 is in mm, write 0.11811"},
         "clearance = 0.11811"},
        {"a tolerance that eats the clearance",
         four(),
         {"tolerance = 0.002 ", "tolerance = 0.06 "},
         "tolerance",
         {"the surface may be 0.06 mm off, the heel too", "leaves the follower 0.1 mm", "0.01 mm or less"},
         "tolerance = 0.01 "},
        {"a tolerance in mm in a file in inches",
         inch_four(),
         {"tolerance = 0.0002", "tolerance = 0.005"},
         "tolerance",
         {"the surface may be 0.005 in off", "if 0.005 is in mm, write 0.0002"},
         "tolerance = 0.0002"},
        {"a pass as deep as the cutter is thick",
         four(),
         {"rough_depth = 1.13 ", "rough_depth = 8 "},
         "rough-depth",
         {"a roughing pass may be 8 mm deep"},
         "rough_depth = 1.13 "},
        {"a pass in inches",
         four(),
         {"rough_depth = 1.13 ", "rough_depth = 0.03 "},
         "rough-depth",
         {"at 0.03 mm a pass, 2.5 mm of stock take 83 passes", "if 0.03 is in inches, write 0.762"},
         "rough_depth = 0.762 "},
        {"a lobe that no operation names",
         with(single_grinder(), "name = \"rough\"\n", "name = \"rough\"\nlobes = [\"inlet\"]\n"),
         {"name = \"grind\"\n", "name = \"grind\"\nlobes = [\"inlet\"]\n"},
         "uncut-lobe",
         {"no operation cuts lobe 'exhaust'"},
         "name = \"grind\"\n"},
        {"a spindle a hundred times too fast",
         four(),
         {"spindle_speed = 210", "spindle_speed = 16000"},
         "spindle-speed",
         // pi x 0.05 m x 16000 = 2513.27 m/min; 25 m/min are 159 rev/min
         {"cutter disc50, 50 mm across, runs at 2513.27 m/min", "at 25 m/min it would be 159 rev/min"},
         "spindle_speed = 159"},
        {"a wheel that crawls",
         inch_four(),
         {"spindle_speed = 1600", "spindle_speed = 160"},
         "spindle-speed",
         // pi x 14 x 0.0254 m x 160 / 60 = 2.979 m/s; 25 m/s are 1343 rev/min
         {"runs at 2.98 m/s", "a wheel (teeth = 0) at 25 m/s it would be 1343 rev/min"},
         "spindle_speed = 1343"},
        {"a wheel without its marking",
         inch_four(),
         {"fastest = 35\n", ""},
         "wheel-marking",
         // pi x 14 x 0.0254 m x 1600 / 60 = 29.79 m/s
         {"its rim runs at 29.8 m/s", "write it as fastest"},
         "fastest = 35\n"},
        {"a feed with two noughts too many",
         four(),
         {"surface_feed = 110.0 ", "surface_feed = 8000.0 "},
         "feed-per-tooth",
         // 8000 / (210 x 14) = 2.7211 mm; 0.03 mm are 88.2 mm/min
         {"8000 mm a minute is 2.7211 mm for each of the cutter's 14 teeth", "0.03 mm a tooth would be 88.2"},
         "surface_feed = 88.2 "},
        {"an axis limit in rev/min",
         four(),
         {"rotary_speed = 7200", "rotary_speed = 20"},
         "axis-limit",
         {"a turn takes 18 minutes", "if it is in rev/min, write 7200"},
         "rotary_speed = 7200"},
        {"an axis limit in m/min",
         four(),
         {"radial_speed = 2000", "radial_speed = 2"},
         "axis-limit",
         {"the axis runs at 2 mm a minute at most", "if it is in m a minute, write 2000"},
         "radial_speed = 2000"},
    };
}

std::vector<Slip> slips_of_hand_work() {
    return {
        {"an infeed of one and a half millimetres",
         single_lathe(),
         {"infeed = 0.10", "infeed = 1.5"},
         "infeed",
         {"each pass takes 1.5 mm off the radius", "give 0.1 mm to 0.25 mm"},
         "infeed = 0.25"},
        {"an infeed in inches",
         single_lathe(),
         {"infeed = 0.10", "infeed = 0.004"},
         "infeed",
         {"each pass takes 0.004 mm", "if 0.004 is in inches, write 0.1016"},
         "infeed = 0.1016"},
        {"an infeed in mm in a file in inches",
         inch_four(),
         {"infeed = 0.02", "infeed = 0.5"},
         "infeed",
         {"each pass takes 0.5 in", "if 0.5 is in mm, write 0.01969"},
         "infeed = 0.01969"},
        {"ridges like a file's teeth",
         four(),
         {"cusp = 0.005 ", "cusp = 0.5 "},
         "ridge",
         {"ridges of 0.5 mm may stand between the cuts"},
         "cusp = 0.005 "},
        {"more left on than any stone takes off",
         four(),
         {"cusp = 0.005 ", "allowance = 0.6\ncusp = 0.005 "},
         "hand-allowance",
         {"0.6 mm is left on all round, for stone, lap or grinder", "give what they take off, 0.1 mm or so"},
         "allowance = 0.1\ncusp = 0.005 "},
    };
}

std::vector<Slip> all_slips() {
    std::vector<Slip> all;
    for (const auto& some : {slips_of_size(), slips_of_timing(), slips_along_the_shaft(),
                             slips_of_valve_gear(), slips_of_cutting(), slips_of_hand_work()})
        all.insert(all.end(), some.begin(), some.end());
    return all;
}

void check_all(const std::vector<Slip>& slips) {
    for (const Slip& each : slips) {
        INFO(each.name);
        const Diagnostics asked = questions(with(each.job, each.slip.part, each.slip.by));
        INFO(told(asked));
        REQUIRE(asked.size() == 1);
        const Diagnostic& question = asked.front();
        CHECK(question.code == each.code);
        CHECK(question.severity != Severity::error);
        CHECK_FALSE(question.remedy.empty());
        CHECK(question.place.line > 0);
        for (const std::string& words : each.words)
            CHECK_THAT(to_text(question), ContainsSubstring(words));
        if (each.cured.empty()) continue;
        INFO("cured by " << each.cured);
        const Diagnostics after = questions(with(each.job, each.slip.part, each.cured));
        INFO(told(after));
        CHECK(after.empty());
    }
}

}  // namespace

TEST_CASE("a slip in a size is asked about once, and the figure that was meant cures it") {
    check_all(slips_of_size());
}

TEST_CASE("a slip in the timing is asked about once, and the figure that was meant cures it") {
    check_all(slips_of_timing());
}

TEST_CASE("a slip along the shaft is asked about once, and the figure that was meant cures it") {
    check_all(slips_along_the_shaft());
}

TEST_CASE("a slip in the valve gear is asked about once, and the figure that was meant cures it") {
    check_all(slips_of_valve_gear());
}

TEST_CASE("a slip in the cutting is asked about once, and the figure that was meant cures it") {
    check_all(slips_of_cutting());
}

TEST_CASE("a slip in cutting by hand is asked about once, and the figure that was meant cures it") {
    check_all(slips_of_hand_work());
}

TEST_CASE("a law that doesn't keep its card is told the angles that do, and they do") {
    for (const char* opening : {"59.0", "66.0", "72.0"}) {
        const std::string slip =
            with(four(), "opening_angle = 62.0 ", std::string("opening_angle = ") + opening);
        const Diagnostics asked = questions(slip);
        INFO(told(asked));
        REQUIRE(asked.size() == 1);
        REQUIRE(asked.front().code == "card-not-kept");
        const std::string& remedy = asked.front().remedy;  // opening_angle = A and closing_angle = B keep it
        const std::size_t both = remedy.find(" and "), end = remedy.find(" keep it");
        REQUIRE(end != std::string::npos);
        std::string cured =
            with(slip, std::string("opening_angle = ") + opening, remedy.substr(0, both) + " ");
        cured = with(cured, "closing_angle = 64.5", remedy.substr(both + 5, end - both - 5));
        INFO(told(questions(cured)));
        CHECK(questions(cured).empty());
    }
}

TEST_CASE("where the whole file is in the other unit, nothing else is asked about it") {
    const Diagnostics asked = questions(with(four(), "units = \"mm\"", "units = \"inch\""));
    INFO(told(asked));
    REQUIRE(asked.size() == 1);
    CHECK(asked.front().code == "size");
    CHECK(asked.front().place.line == 11);
}

TEST_CASE("sizes are asked about where the lobes can't be solved, too") {
    std::string text = with(by_angles(), "flank_radius = 16.0", "nose_radius = 8.3");
    text = with(text, "units = \"mm\"", "units = \"inch\"");
    const auto job = read_job(text, "job.toml", [](const std::string&) { return Outcome<std::string>(""); });
    REQUIRE(job.ok());
    REQUIRE_FALSE(solve_lobes(*job).ok());
    const Diagnostics asked = implausible_figures(*job, {});
    REQUIRE(asked.size() == 1);
    CHECK(asked.front().code == "size");
}

TEST_CASE("the page on the job file lists the questions that can be asked, and no others") {
    const std::string page = file_text(source_folder() / "examples/job-file.md");
    const std::size_t from = page.find("## What is asked about"), to = page.find("## Names that scripts");
    REQUIRE(from < to);
    std::set<std::string> listed, asked;
    for (std::size_t line = page.find("\n| ", from); line < to; line = page.find("\n| ", line + 1)) {
        const std::size_t end = page.find('\n', line + 1);
        const std::size_t cell = page.rfind(" | ", end);
        for (std::size_t tick = page.find('`', cell); tick < end;) {
            const std::size_t close = page.find('`', tick + 1);
            listed.insert(page.substr(tick + 1, close - tick - 1));
            tick = page.find('`', close + 1);
        }
    }
    for (const Slip& each : all_slips())
        asked.insert(each.code);
    CHECK(listed == asked);
}

TEST_CASE("slips in an operation are asked about at their own place") {
    const std::string text = with(single_grinder(), "rough_depth = 0.8\n", "rough_depth = 8\n");
    const Diagnostics asked = questions(text);
    INFO(told(asked));
    REQUIRE(asked.size() == 1);
    CHECK(asked.front().code == "rough-depth");
    CHECK(asked.front().place.line == line_of(text, "rough_depth = 8"));
}
