#include "catch.h"
#include "job_text.h"

using namespace lobewright;
using namespace job_text;

namespace {

std::string complaint(const std::string& text) {
    return complaints(read(text));
}

const MotionProfile& moved(const Outcome<Job>& job) {
    return std::get<MotionProfile>(job->profiles.at("moved"));
}
const ArcsProfile& flanked(const Outcome<Job>& job) {
    return std::get<ArcsProfile>(job->profiles.at("flanked"));
}

/// The whole job with a profile more, of segments.
std::string with_segments(const std::string& segments) {
    return whole_job() + "[profile.pump]\nshape = \"segments\"\nbase_radius = 15\nsegments = " + segments +
           "\n";
}

}  // namespace

TEST_CASE("a motion has both angles, or neither and takes them from the card") {
    const std::string lacks_one = unset(whole_job(), "profile.moved", "closing_angle");
    CHECK_THAT(complaint(lacks_one),
               ContainsSubstring("[profile.moved] has no 'closing_angle': add it; without both, they are "
                                 "solved from the timing card"));
    const std::string neither = unset(lacks_one, "profile.moved", "opening_angle");
    CHECK_THAT(complaint(neither),
               ContainsSubstring("the profile 'moved' has no opening_angle and closing_angle and the lobe no "
                                 "cylinder"));
    const std::string timed = added(unset(neither, "lobe", "at"), "lobe", "cylinder = 1\nvalve = \"inlet\"");
    REQUIRE(read(timed).ok());
    CHECK(*moved(read(timed)).opening_share == 0.5);
    CHECK(*moved(read(added(timed, "profile.moved", "opening_share = 0.45"))).opening_share == 0.45);
    CHECK_FALSE(moved(read(whole_job())).opening_share);
    for (const char* bad : {"0.099", "0.901", "\"0.5\""})
        CHECK_FALSE(read(added(timed, "profile.moved", std::string("opening_share = ") + bad)).ok());
    CHECK_THAT(complaint(added(whole_job(), "profile.moved", "opening_share = 0.5")),
               ContainsSubstring("opening_share is given beside the angles that it shares out"));
}

TEST_CASE("opening and closing may have laws of their own") {
    const std::string apart = added(unset(whole_job(), "profile.moved", "law"), "profile.moved",
                                    "opening_law = \"power-polynomial\"\nclosing_law = \"cycloidal\"");
    const auto job = read(apart);
    INFO(complaints(job));
    REQUIRE(job.ok());
    CHECK(moved(job).law == LawKind::power_polynomial);
    CHECK(moved(job).law_of_closing() == LawKind::cycloidal);
    CHECK(moved(read(whole_job())).law_of_closing() == LawKind::power_polynomial);
    CHECK_THAT(complaint(added(apart, "profile.moved", "law = \"cycloidal\"")),
               ContainsSubstring("law is given beside opening_law or closing_law"));
    CHECK_THAT(complaint(unset(apart, "profile.moved", "closing_law")),
               ContainsSubstring("[profile.moved] has no 'closing_law'"));
    CHECK_THAT(complaint(set(apart, "profile.moved", "opening_law", "\"parabolic\"")),
               ContainsSubstring("the parabolic law has no 'powers': remove it"));
    CHECK_THAT(complaint(set(apart, "profile.moved", "closing_law", "\"cycloid\"")),
               ContainsSubstring("did you mean \"cycloidal\"?"));
}

TEST_CASE("of action angle, flank and nose any two are read") {
    const std::string both =
        added(unset(whole_job(), "profile.flanked", "action_angle"), "profile.flanked", "nose_radius = 2.0");
    const auto job = read(both);
    INFO(complaints(job));
    REQUIRE(job.ok());
    CHECK(*flanked(job).flank_radius == 25.0);
    CHECK(*flanked(job).nose_radius == 2.0);
    CHECK_FALSE(flanked(job).action_angle);
    // Such a profile needs no card.
    CHECK(read(set(both, "lobe", "profile", "\"flanked\"")).ok());
    CHECK_THAT(
        complaint(added(whole_job(), "profile.flanked", "nose_radius = 2.0")),
        ContainsSubstring("action_angle, flank_radius and nose_radius are all given: give two of them"));
}

TEST_CASE("flanks that differ are a table of both") {
    const auto with = [](const std::string& flanks) {
        return set(whole_job(), "profile.flanked", "flank_radius", flanks);
    };
    const auto job = read(with("{ opening = 22.0, closing = \"straight\" }"));
    INFO(complaints(job));
    REQUIRE(job.ok());
    CHECK(*flanked(job).flank_radius == 22.0);
    CHECK(*flanked(job).closing_flank_radius == straight_flank);
    CHECK_FALSE(flanked(read(with("{ opening = 22, closing = 22 }"))).closing_flank_radius);
    CHECK_THAT(complaint(with("{ opening = 22.0 }")),
               ContainsSubstring("[profile.flanked.flank_radius] has no 'closing': give both flanks"));
    CHECK_THAT(complaint(with("{ opening = 22.0, closing = 0 }")),
               ContainsSubstring("'profile.flanked.flank_radius.closing' is 0: give a radius"));
    CHECK_THAT(complaint(with("{ opening = 22.0, closing = 28.0, nose = 2 }")),
               ContainsSubstring("unknown key 'profile.flanked.flank_radius.nose'"));
}

TEST_CASE("ramps of arcs have a lift and an angle for each side") {
    const auto with = [](const std::string& ramps) {
        return added(whole_job(), "profile.flanked", "ramps = " + ramps);
    };
    const auto job = read(with("{ lift = 0.12, opening = 20.0, closing = 24.0 }"));
    INFO(complaints(job));
    REQUIRE(job.ok());
    CHECK(flanked(job).ramps->lift == 0.12);
    CHECK_NEAR(flanked(job).ramps->opening.degrees(), 20.0, 1e-12);
    CHECK_NEAR(flanked(job).ramps->closing.degrees(), 24.0, 1e-12);
    CHECK_NEAR(flanked(read(with("{ lift = 0.12, opening = 20 }"))).ramps->closing.degrees(), 20.0, 1e-12);
    for (const char* bad : {"{ opening = 20 }", "{ lift = 0.12 }", "{ lift = 0, opening = 20 }",
                            "{ lift = 6.0, opening = 20 }", "{ lift = 0.12, opening = 360 }", "0.12"})
        CHECK_FALSE(read(with(bad)).ok());
    CHECK_THAT(complaint(added(whole_job(), "profile.moved", "ramps = { lift = 0.1, opening = 20 }")),
               ContainsSubstring("a profile of shape \"motion\" has no 'ramps': remove it"));
}

TEST_CASE("segments are read in running order, and lead back to the base circle within a turn") {
    const auto job = read(with_segments(
        "[{ over = 60, to = 5, law = \"cycloidal\" }, { over = 40 }, { over = 50, to = 0, law = "
        "\"power-polynomial\", powers = [2, 6] }]"));
    INFO(complaints(job));
    REQUIRE(job.ok());
    const auto& pump = std::get<SegmentsProfile>(job->profiles.at("pump"));
    REQUIRE(pump.segments.size() == 3);
    CHECK_NEAR(pump.segments[0].over.degrees(), 60.0, 1e-12);
    CHECK(*pump.segments[0].to == 5.0);
    CHECK_FALSE(pump.segments[1].to);
    CHECK(pump.segments[2].law == LawKind::power_polynomial);
    CHECK(pump.segments[2].powers == std::vector<int>{2, 6});
    const struct {
        const char* segments;
        const char* says;
    } bad[] = {
        {"[]", "never lift"},
        {"[{ over = 60 }]", "never lift"},
        {"[{ over = 60, to = 5, law = \"cycloidal\" }]", "doesn't end at 0: end with one that comes back"},
        {"[{ over = 60, to = 5, law = \"cycloidal\" }, { over = 301, to = 0, law = \"cycloidal\" }]",
         "make 361 degrees together: they share one turn of 360"},
        {"[{ to = 5, law = \"cycloidal\" }]", "'profile.pump.segments[0]' has no 'over'"},
        {"[{ over = 60, to = 5 }]", "'profile.pump.segments[0]' has no 'law'"},
        {"[{ over = 60, to = 5, law = \"cycloidal\" }, { over = 9, law = \"cycloidal\" }]",
         "a segment without 'to', which stays where it is, has no 'law': remove it"},
        {"[{ over = 60, to = 5, law = \"cycloidal\" }, { over = 9, to = 5, law = \"cycloidal\" }]",
         "the follower is at this lift already: leave out 'to' and 'law' for a stay"},
        {"[{ over = 60, to = -5, law = \"cycloidal\" }]", "give at least 0"},
        {"[{ over = 60, to = 5, law = \"cycloidal\", powers = [2, 4] }]",
         "the cycloidal law has no 'powers'"},
        {"[{ over = 60, to = 5, law = \"power-polynomial\" }]", "has no 'powers'"},
        {"[3]", "'profile.pump.segments[0]' is a number"},
        {"5", "is a number"},
    };
    for (const auto& each : bad) {
        INFO(each.segments);
        CHECK_THAT(complaint(with_segments(each.segments)), ContainsSubstring(each.says));
    }
    CHECK_THAT(complaint(whole_job() + "[profile.pump]\nshape = \"segments\"\nbase_radius = 15\n"),
               ContainsSubstring("[profile.pump] has no 'segments': add them"));
}

namespace {

/// The whole job with a profile more, of the largest area.
std::string with_fullest(const std::string& keys) {
    return whole_job() + "[profile.full]\nshape = \"fullest\"\nbase_radius = 15\n" + keys + "\n";
}
const std::string both_angles = "opening_angle = 70\nclosing_angle = 72\n";
const std::string all_limits =
    "limits = { velocity = 0.25, acceleration = 0.012, deceleration = 0.0045, jerk = 0.002, smallest_radius "
    "= "
    "3, contact_stress = 900, float_speed = 6500 }\n";
const std::string two_limits = "limits = { deceleration = 0.0045, jerk = 0.002 }\n";

const FullestProfile& fullest(const Outcome<Job>& job) {
    return std::get<FullestProfile>(job->profiles.at("full"));
}

}  // namespace

TEST_CASE("a fullest profile has limits, per degree in the file and per radian inside") {
    const auto job = read(with_fullest(both_angles + "lift = 8\nfollower = \"tappet\"\n" + all_limits +
                                       "opening_ramp = { lift = 0.12, angle = 18 }\nclosing_ramp = { lift = "
                                       "0.15, angle = 24 }"));
    INFO(complaints(job));
    REQUIRE(job.ok());
    const FullestProfile& profile = fullest(job);
    CHECK(profile.base_radius == 15.0);
    CHECK(*profile.lift == 8.0);
    CHECK_NEAR(profile.opening_angle.degrees(), 70.0, 1e-12);
    CHECK_NEAR(profile.closing_angle.degrees(), 72.0, 1e-12);
    CHECK(profile.opening_ramp->lift == 0.12);
    CHECK_NEAR(profile.closing_ramp->angle.degrees(), 24.0, 1e-12);
    CHECK(profile.follower == "tappet");
    const double degrees = 180.0 / std::numbers::pi;
    CHECK_NEAR(*profile.limits.velocity, 0.25 * degrees, 1e-12);
    CHECK_NEAR(*profile.limits.acceleration, 0.012 * degrees * degrees, 1e-10);
    CHECK_NEAR(profile.limits.deceleration, 0.0045 * degrees * degrees, 1e-10);
    CHECK_NEAR(profile.limits.jerk, 0.002 * degrees * degrees * degrees, 1e-9);
    CHECK(*profile.limits.smallest_radius == 3.0);
    CHECK(*profile.limits.contact_stress == 900.0);
    CHECK(*profile.limits.float_speed == 6500.0);
    const auto bare = read(with_fullest(both_angles + two_limits));
    REQUIRE(bare.ok());
    CHECK_FALSE(fullest(bare).lift);
    CHECK_FALSE(fullest(bare).limits.velocity);
    CHECK_FALSE(fullest(bare).opening_share);
    CHECK(fullest(bare).follower.empty());
    const auto from_card = read(with_fullest("opening_share = 0.48\n" + two_limits));
    REQUIRE(from_card.ok());
    CHECK(*fullest(from_card).opening_share == 0.48);
}

TEST_CASE("what a fullest profile lacks, or has too much, is told at its place") {
    const struct {
        std::string keys;
        const char* says;
    } bad[] = {
        {both_angles, "[profile.full] has no 'limits': add them"},
        {both_angles + "limits = 3", "'profile.full.limits' is a number"},
        {both_angles + "limits = { jerk = 0.002 }", "[profile.full.limits] has no 'deceleration': add it"},
        {both_angles + "limits = { deceleration = 0.002 }", "[profile.full.limits] has no 'jerk': add it"},
        {both_angles + "limits = { deceleration = 0.002, jerk = 0.001, velocty = 1 }", "velocity"},
        {both_angles + "limits = { deceleration = 0, jerk = 0.001 }",
         "'profile.full.limits.deceleration' is 0"},
        {both_angles + "limits = { deceleration = 0.002, jerk = 0.001, smallest_radius = 3 }",
         "[profile.full] has no 'follower': add it: smallest_radius is meant for one"},
        {both_angles + "follower = \"tapet\"\n" + two_limits, "tappet"},
        {both_angles + two_limits + "law = \"cycloidal\"", "a profile of shape \"fullest\" has no 'law'"},
        {both_angles + two_limits + "dwell_angle = 3", "a profile of shape \"fullest\" has no 'dwell_angle'"},
        {"opening_angle = 70\n" + two_limits, "[profile.full] has no 'closing_angle'"},
        {"opening_angle = 200\nclosing_angle = 170\n" + two_limits, "make 370 degrees together"},
        {both_angles + "lift = 0.1\nopening_ramp = { lift = 0.12, angle = 18 }\n" + two_limits,
         "the lift of 'profile.full.opening_ramp' is not less than the whole lift"},
    };
    for (const auto& each : bad) {
        INFO(each.keys);
        CHECK_THAT(complaint(with_fullest(each.keys)), ContainsSubstring(each.says));
    }
    const std::string no_contact = without(
        without(
            with_fullest(both_angles + "limits = { deceleration = 0.002, jerk = 0.001, float_speed = 6000 }"),
            "contact"),
        "contact.follower_material");
    CHECK_THAT(complaint(no_contact),
               ContainsSubstring("'profile.full.limits.float_speed' asks for [contact]"));
    CHECK_THAT(complaint(added(whole_job(), "profile.moved", two_limits)),
               ContainsSubstring("a profile of shape \"motion\" has no 'limits': remove it"));
}

TEST_CASE("a lobe of a fullest profile without angles needs a cylinder to take them from the card") {
    const std::string text = set(with_fullest(two_limits), "lobe", "profile", "\"full\"");
    CHECK_THAT(complaint(text), ContainsSubstring("the profile 'full' has no opening_angle and closing_angle "
                                                  "and the lobe no cylinder"));
}
