#include "basalt.h"

#include <lobewright/number_text.h>

#include <functional>

using namespace lobewright;

namespace {

/// Every number of a text, in order.
std::vector<double> figures(const std::string& text) {
    std::vector<double> found;
    for (std::size_t i = 0; i < text.size();) {
        std::size_t end = i;
        while (end < text.size() && std::string("-.0123456789").find(text[end]) != std::string::npos)
            ++end;
        if (const auto value = parse_decimal(text.substr(i, end - i)); end > i && value)
            found.push_back(*value);
        i = std::max(end, i + 1);
    }
    return found;
}

/// A job with places for the keys that refusals name.
Job with_places(Job job) {
    int line = 1;
    for (const char* key :
         {"profile.profile", "profile.profile.base_radius", "profile.profile.lift",
          "profile.profile.action_angle", "profile.profile.nose_radius", "profile.profile.flank_radius",
          "profile.profile.powers", "profile.profile.opening_angle", "profile.profile.opening_ramp",
          "profile.profile.closing_ramp", "profile.profile.file", "profile.profile.smoothing",
          "follower.follower", "follower.follower.offset", "follower.follower.pivot_radius", "engine.inlet",
          "engine.inlet.clearance", "lobe[0]"})
        job.places[key] = Place{job.file, line++, 1};
    return job;
}

/// The job's one complaint: that code, at the place of that key, with a remedy.
Diagnostic refused(const Job& job, const std::string& code, const std::string& key) {
    const auto lobes = solve_lobes(job);
    REQUIRE_FALSE(lobes.ok());
    REQUIRE(lobes.diagnostics().size() == 1);
    const Diagnostic diagnostic = lobes.diagnostics().front();
    INFO(to_text(diagnostic));
    CHECK(diagnostic.code == code);
    CHECK(diagnostic.place.line == job.place_of(key).line);
    CHECK_FALSE(diagnostic.what.empty());
    CHECK_FALSE(diagnostic.remedy.empty());
    return diagnostic;
}

void accepted(const Job& job) {
    const auto lobes = solve_lobes(job);
    for (const Diagnostic& diagnostic : lobes.diagnostics())
        UNSCOPED_INFO(to_text(diagnostic));
    CHECK(lobes.ok());
}

template <class Kind>
Kind& profile(Job& job) {
    return std::get<Kind>(job.profiles.at("profile"));
}
Follower& follower(Job& job) {
    return job.followers.at("follower");
}

Job law_job(const MotionProfile& motion, const Follower& on, Sense turns = Sense::ccw) {
    return with_places(basalt::job(motion, on, turns));
}
Job arcs_job(const ArcsProfile& arcs, const Follower& on, Sense turns = Sense::ccw) {
    return with_places(basalt::job(arcs, on, turns));
}

Job timed_job(ArcsProfile arcs, double opens, double closes, double clearance) {
    arcs.action_angle.reset();
    Job job = arcs_job(arcs, basalt::flat());
    Engine engine;
    engine.firing_angles = {CrankAngle{}};
    engine.inlet = ValveTiming{CrankAngle::from_degrees(opens), CrankAngle::from_degrees(closes), clearance};
    job.engine = engine;
    job.lobes.front().at.reset();
    job.lobes.front().cylinder = 1;
    return job;
}

}  // namespace

// Published exercise (tutorbin.com): 4 cm cycloidal in 60 degrees; least s + s'' -19.290787 cm, hence the
// base radius.
TEST_CASE(
    "an undercut flat-follower lobe is refused with the smallest base radius, which is the textbook's") {
    Job job = law_job(basalt::law(LawKind::cycloidal, 190.0, 40.0, 60.0, 60.0), basalt::flat());
    const Diagnostic d = refused(job, "undercut", "profile.profile.base_radius");
    CHECK(d.fault == Fault::check_failed);
    const double least = figures(d.remedy).at(0);
    CHECK_NEAR(least, 192.90787, 1.1e-4);
    profile<MotionProfile>(job).base_radius = least;
    accepted(job);
    profile<MotionProfile>(job).base_radius = least - 0.0002;
    refused(job, "undercut", "profile.profile.base_radius");
}

TEST_CASE("an undercut under any follower is refused with the smallest base radius, and that is accepted") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const Follower& on :
             {basalt::flat(), basalt::roller(12.0), basalt::roller(12.0, 2.0), basalt::domed(60.0),
              basalt::pivoted(12.0, 70.0, 66.0, Sense::ccw), basalt::pivoted(12.0, 70.0, 66.0, Sense::cw)}) {
            Job job = law_job(basalt::law(LawKind::polynomial_4567, 8.0, 9.0, 55.0, 60.0), on, turns);
            const Diagnostic d = refused(job, "undercut", "profile.profile.base_radius");
            INFO(to_text(d));
            const double least = figures(d.remedy).at(0);
            profile<MotionProfile>(job).base_radius = least;
            accepted(job);
            profile<MotionProfile>(job).base_radius = least - 0.0002;
            refused(job, "undercut", "profile.profile.base_radius");
        }
    }
}

TEST_CASE("a table that is undercut for its scatter alone is refused with the smoothing that evens it out") {
    // Each base is sound for the law itself; the last leaves a nose of 4 mm: 15.5 + 8 - 195/64 x 8 mm / (64
    // degrees)². Too little smoothing follows the dial's steps of 0.01 mm or 0.001 in.
    const double step = GENERATE(0.01, 0.0254);
    const double smoothing = GENERATE(0.0, 0.1, 0.2);  // of the step
    const MotionProfile profile_of_law =
        GENERATE(basalt::law(LawKind::cycloidal, 40.0, 8.0, 64.0, 68.0),
                 basalt::law(LawKind::polynomial_345, 40.0, 8.0, 64.0, 68.0),
                 basalt::law(LawKind::power_polynomial, 15.5, 8.0, 64.0, 68.0, {2, 10, 18, 26}));
    CAPTURE(step, smoothing, static_cast<int>(profile_of_law.law));
    const Job exact = law_job(profile_of_law, basalt::endless_flat());
    const auto lobes = solve_lobes(exact);
    REQUIRE(lobes.ok());
    TableProfile table;
    table.base_radius = profile_of_law.base_radius;
    table.file = "lift.csv";
    for (int degrees = -180; degrees < 180; ++degrees) {
        const double lift = lobes->front().motion.at(CamAngle::from_degrees(degrees)).lift;
        table.readings.push_back({CamAngle::from_degrees(degrees), step * std::round(lift / step), {}});
    }
    accepted(with_places(basalt::job(table, basalt::endless_flat())));  // smoothing absent
    table.smoothing = smoothing * step;
    Job job = with_places(basalt::job(table, basalt::endless_flat()));
    const Diagnostic d = refused(job, "scatter", "profile.profile.smoothing");
    CHECK(d.fault == Fault::check_failed);
    CHECK_THAT(d.what, ContainsSubstring("they are rounded to " + shortest_fixed(step, 4) + " mm"));
    profile<TableProfile>(job).smoothing = figures(d.remedy).at(0);
    accepted(job);
}

TEST_CASE("scatter beyond the readings' rounding asks for smoothing at the file's key") {
    const Job exact = law_job(basalt::law(LawKind::cycloidal, 40.0, 8.0, 64.0, 68.0), basalt::endless_flat());
    const auto lobes = solve_lobes(exact);
    REQUIRE(lobes.ok());
    TableProfile table;
    table.base_radius = 40.0;
    table.file = "lift.csv";
    for (int degrees = -90; degrees <= 90; ++degrees) {
        const double lift = lobes->front().motion.at(CamAngle::from_degrees(degrees)).lift;
        const double noise = std::abs(degrees) < 60 ? 0.004 * std::sin(7.0 * degrees * degrees) : 0.0;
        table.readings.push_back({CamAngle::from_degrees(degrees), lift + noise, {}});
    }
    Job job = with_places(basalt::job(table, basalt::endless_flat()));
    const Diagnostic d = refused(job, "scatter", "profile.profile.file");
    profile<TableProfile>(job).smoothing = figures(d.remedy).at(0);
    accepted(job);
}

TEST_CASE("a remedy in inches cures as typed") {
    Job job = law_job(basalt::law(LawKind::cycloidal, 10.0, 8.0, 60.0, 60.0), basalt::endless_flat());
    job.units = Units::inch;
    const Diagnostic d = refused(job, "undercut", "profile.profile.base_radius");
    CHECK_THAT(d.remedy, ContainsSubstring(" in "));
    profile<MotionProfile>(job).base_radius = figures(d.remedy).at(0) * 25.4;
    accepted(job);
}

TEST_CASE("a contour that leans over its own foot is refused with the base radius that rights it") {
    Job job = law_job(basalt::law(LawKind::cycloidal, 6.0, 25.0, 25.0, 25.0), basalt::knife(4.0));
    const Diagnostic d = refused(job, "overhang", "profile.profile.base_radius");
    profile<MotionProfile>(job).base_radius = figures(d.remedy).at(0);
    accepted(job);
}

TEST_CASE("where no base radius cures, the largest lift is told, and is accepted") {
    // The arm's own reach bounds the base circle.
    Job job = law_job(basalt::law(LawKind::cycloidal, 10.0, 18.0, 50.0, 50.0),
                      basalt::pivoted(6.0, 20.0, 18.0, Sense::ccw));
    const Diagnostic d = refused(job, "undercut", "profile.profile.lift");
    CHECK_THAT(d.what, ContainsSubstring("no base radius cures"));
    profile<MotionProfile>(job).lift = figures(d.remedy).at(0);
    accepted(job);
}

TEST_CASE(
    "an impossible nose is refused with the range that this action angle allows, and both ends are "
    "accepted") {
    for (const Follower& on :
         {basalt::endless_flat(), basalt::roller(5.0), basalt::pivoted(8.0, 40.0, 35.0, Sense::cw)}) {
        for (const double nose : {9.0, 15.9, 30.0}) {
            Job job = arcs_job(basalt::arcs_with_nose(12.0, 4.0, 100.0, nose), on);
            const Diagnostic d = refused(job, "nose-radius", "profile.profile.nose_radius");
            INFO(to_text(d));
            const auto range = figures(d.remedy);
            REQUIRE(range.size() == 2);
            for (const double end : range) {
                profile<ArcsProfile>(job).nose_radius = end;
                accepted(job);
            }
            profile<ArcsProfile>(job).nose_radius = range[1] + 0.001;
            refused(job, "nose-radius", "profile.profile.nose_radius");
        }
    }
}

// From the formula of the nose radius (arcs.h), n -> 0 at the smallest flank radius, (b² + H² - 2bH cos a) /
// (2 (b - H cos a)).
TEST_CASE("a flank that leaves no room for a nose is refused with the smallest that does") {
    Job job = arcs_job(basalt::arcs_with_flank(12.0, 4.0, 120.0, 13.0), basalt::endless_flat());
    const Diagnostic d = refused(job, "flank-radius", "profile.profile.flank_radius");
    const double least = figures(d.remedy).at(0);
    CHECK_NEAR(least, (144.0 + 256.0 - 192.0) / (2.0 * (12.0 - 8.0)), 1.1e-4);
    profile<ArcsProfile>(job).flank_radius = least;
    accepted(job);
}

TEST_CASE("a flat follower refuses straight and hollow flanks, and takes the remedy") {
    for (const double flank : {straight_flank, -50.0}) {
        Job job = arcs_job(basalt::arcs_with_flank(12.0, 4.0, 120.0, flank), basalt::endless_flat());
        const Diagnostic d = refused(job, "flank-radius", "profile.profile.flank_radius");
        CHECK_THAT(d.what, ContainsSubstring("flat follower"));
        profile<ArcsProfile>(job).flank_radius = figures(d.remedy).at(0);
        accepted(job);
    }
}

TEST_CASE("a roller too large for the hollow is refused with the flank that it can ride") {
    Job job = arcs_job(basalt::arcs_with_flank(12.0, 4.0, 120.0, -20.0), basalt::roller(25.0));
    const Diagnostic d = refused(job, "flank-radius", "profile.profile.flank_radius");
    INFO(to_text(d));
    const auto ends = figures(d.remedy);
    REQUIRE(ends.size() >= 2);
    for (const double flank : {ends[0], straight_flank, ends[1]}) {
        profile<ArcsProfile>(job).flank_radius = flank;
        accepted(job);
    }
}

TEST_CASE("too short an action angle for the lift is refused with the shortest that works") {
    Job job = arcs_job(basalt::arcs_with_nose(12.0, 4.0, 60.0, 2.0), basalt::endless_flat());
    const Diagnostic d = refused(job, "action-angle", "profile.profile.action_angle");
    // Design: a convex flank needs b > H cos a.
    const double least = figures(d.remedy).at(0);
    CHECK_NEAR(least, 2.0 * std::acos(12.0 / 16.0) * 180.0 / std::numbers::pi, 2e-3);
    // With the new angle the nose has its own range; the nose that fits is accepted.
    profile<ArcsProfile>(job).action_angle = CamAngle::from_degrees(least + 10.0);
    profile<ArcsProfile>(job).nose_radius = 0.5;
    accepted(job);
}

TEST_CASE("a follower's line that misses its place is refused with the offsets that work") {
    for (const double offset : {20.0, -31.0}) {
        Job job = law_job(basalt::lopsided(12.0), basalt::roller(5.0, offset));
        const auto range = figures(refused(job, "offset", "follower.follower.offset").remedy);
        REQUIRE(range.size() == 2);
        for (const double end : range) {
            follower(job).offset = end;
            accepted(job);
        }
    }
}

TEST_CASE("an arm that can't stand on the base circle is refused with the pivot radii that work") {
    for (const double pivot : {5.0, 90.0}) {
        for (const bool arcs : {false, true}) {
            const Follower arm = basalt::pivoted(8.0, pivot, 30.0, Sense::ccw);
            Job job = arcs ? arcs_job(basalt::arcs_with_nose(12.0, 3.0, 120.0, 3.0), arm)
                           : law_job(basalt::lopsided(12.0), arm);
            const auto range =
                figures(refused(job, "arm-does-not-reach", "follower.follower.pivot_radius").remedy);
            REQUIRE(range.size() == 2);
            for (const double end : range) {
                follower(job).pivot_radius = end;
                accepted(job);
            }
        }
    }
}

TEST_CASE(
    "ramps that leave nothing to lift, or run faster than the law, are refused, and the remedy is accepted") {
    Job job = law_job(basalt::lopsided(20.0, 2.0), basalt::endless_flat());
    profile<MotionProfile>(job).opening_ramp = basalt::ramp(2.0, 20.0);
    refused(job, "ramp-too-high", "profile.profile.opening_ramp");
    profile<MotionProfile>(job).opening_ramp = basalt::ramp(1.9, 60.0);
    const Diagnostic d = refused(job, "ramp-too-fast", "profile.profile.opening_ramp");
    // At least r β / (0.875 (L - r)).
    CHECK_NEAR(figures(d.remedy).at(0), 1.9 * 64.0 / (0.875 * 0.1), 2e-3);
    profile<MotionProfile>(job).opening_ramp.reset();
    profile<MotionProfile>(job).closing_ramp = basalt::ramp(0.5, 7.0);
    const Diagnostic closing = refused(job, "ramp-too-fast", "profile.profile.closing_ramp");
    profile<MotionProfile>(job).closing_ramp->angle = CamAngle::from_degrees(figures(closing.remedy).at(0));
    accepted(job);
}

TEST_CASE("an event longer than its part of the turn is refused with what it must lose") {
    Job job = law_job(basalt::law(LawKind::polynomial_345, 60.0, 2.0, 70.0, 60.0), basalt::endless_flat());
    job.lobes.front().repeat = 3;
    const Diagnostic d = refused(job, "event-too-long", "profile.profile.opening_angle");
    CHECK_NEAR(figures(d.remedy).at(0), 10.0, 2e-3);
    profile<MotionProfile>(job).opening_angle = CamAngle::from_degrees(70.0 - figures(d.remedy).at(0));
    accepted(job);

    Job arcs = arcs_job(basalt::arcs_with_nose(40.0, 3.0, 100.0, 8.0), basalt::endless_flat());
    arcs.lobes.front().repeat = 4;
    const Diagnostic angle = refused(arcs, "event-too-long", "profile.profile.action_angle");
    profile<ArcsProfile>(arcs).action_angle = CamAngle::from_degrees(figures(angle.remedy).at(0));
    accepted(arcs);
}

TEST_CASE("a power polynomial of one power, which would start with a step in velocity, is refused") {
    Job job =
        law_job(basalt::law(LawKind::power_polynomial, 60.0, 2.0, 70.0, 60.0, {2}), basalt::endless_flat());
    refused(job, "powers", "profile.profile.powers");
    profile<MotionProfile>(job).powers = {2, 10};
    accepted(job);
}

TEST_CASE("a clearance that swallows the lift is refused with the largest that doesn't") {
    Job job = timed_job(basalt::arcs_with_nose(12.0, 4.0, 0.0, 3.0), 20, 60, 5.0);
    const Diagnostic d = refused(job, "never-opens", "engine.inlet.clearance");
    CHECK_NEAR(figures(d.remedy).at(0), 4.0, 1.1e-4);
    // The valve then opens for an instant; with a clearance that it opens at for long enough the job solves.
    job.engine->inlet->clearance = 0.2;
    accepted(job);
}

TEST_CASE("a timing that no radius and no near lift gives is refused with the durations that can be had") {
    Job job = timed_job(basalt::arcs_with_nose(12.0, 4.0, 0.0, 9.0), -80.0, -80.0, 0.2);
    const Diagnostic d = refused(job, "duration", "engine.inlet");
    INFO(to_text(d));
    const auto range = figures(d.remedy);
    REQUIRE(range.size() == 2);
    for (const double duration : range) {
        job.engine->inlet->opens = job.engine->inlet->closes =
            CrankAngle::from_degrees(0.5 * (duration - 180.0));
        accepted(job);
    }
}

// A duration of 240 degrees of the crank, 120 of the cam, with the valve open above 0.2 mm: a flat tappet on
// a flank of radius F has risen so far F - 12 mm from its centre, cos t = 1 - 0.2 / (F - 12), t past the
// tangent point, so that the action angle is 120 + 2t; the flank leaves room for a nose while F > (144 + 256
// - 384 cos a) / (2 (12 - 16 cos a)), a half of that angle (see arcs.h, k at n = 0).
TEST_CASE("a flank that leaves no room for the card is refused with the least radius that does, none less") {
    const auto action = [](double flank) {
        return std::numbers::pi / 3.0 + std::acos(1.0 - 0.2 / (flank - 12.0));
    };
    const auto room = [&](double flank) {
        const double c = std::cos(action(flank));
        return flank - (400.0 - 384.0 * c) / (2.0 * (12.0 - 16.0 * c));
    };
    double low = 12.5, high = 1000.0;
    for (int i = 0; i < 100; ++i)
        (room(0.5 * (low + high)) > 0.0 ? high : low) = 0.5 * (low + high);
    for (const double given : {12.5, 13.0, 16.0}) {
        Job job = timed_job(basalt::arcs_with_flank(12.0, 4.0, 0.0, given), 20.0, 40.0, 0.2);
        const Diagnostic d = refused(job, "duration", "profile.profile.flank_radius");
        INFO(to_text(d));
        const double least = figures(d.remedy).at(0);
        CHECK_NEAR(least, high, 2e-4);
        for (const double more : {1.0, 1.01, 1.5, 4.0, 40.0}) {
            profile<ArcsProfile>(job).flank_radius = least * more;
            accepted(job);
        }
        profile<ArcsProfile>(job).flank_radius = least - 3e-4;
        refused(job, "duration", "profile.profile.flank_radius");
    }
}

TEST_CASE("a nose that leaves no room for the card is refused with the largest radius that does") {
    for (const Follower& on : {basalt::endless_flat(), basalt::roller(8.0), basalt::domed(40.0)}) {
        Job job = timed_job(basalt::arcs_with_nose(12.0, 4.0, 0.0, 11.0), 20.0, 40.0, 0.2);
        follower(job) = on;
        const Diagnostic d = refused(job, "duration", "profile.profile.nose_radius");
        INFO(to_text(d));
        const double most = figures(d.remedy).at(0);
        for (const double less : {1.0, 0.99, 0.8}) {
            profile<ArcsProfile>(job).nose_radius = most * less;
            accepted(job);
        }
        profile<ArcsProfile>(job).nose_radius = most + 3e-4;
        refused(job, "duration", "profile.profile.nose_radius");
    }
}

TEST_CASE("a lobe that nothing places, or whose action angle nothing settles, is the file's fault") {
    Job job = law_job(basalt::lopsided(), basalt::endless_flat());
    job.lobes.front().at.reset();
    CHECK(refused(job, "at-missing", "lobe[0]").fault == Fault::bad_input);

    Job arcs = arcs_job(basalt::arcs_with_nose(12.0, 4.0, 0.0, 3.0), basalt::endless_flat());
    profile<ArcsProfile>(arcs).action_angle.reset();
    CHECK(refused(arcs, "action-angle-missing", "profile.profile.action_angle").fault == Fault::bad_input);
}

TEST_CASE("all lobes are judged in one run, and lobes that share a profile complain once") {
    Job job = law_job(basalt::law(LawKind::cycloidal, 10.0, 8.0, 60.0, 60.0), basalt::endless_flat());
    job.profiles["other"] = basalt::arcs_with_nose(12.0, 4.0, 100.0, 15.9);
    for (const char* name : {"profile", "other", "other"}) {
        LobeEntry lobe = job.lobes.front();
        lobe.profile = name;
        job.lobes.push_back(lobe);
    }
    const auto lobes = solve_lobes(job);
    REQUIRE_FALSE(lobes.ok());
    CHECK(lobes.diagnostics().size() == 2);
}

TEST_CASE("a flat follower's lobe is undercut as soon as its least radius is none") {
    // Harmonic, 2 mm in 60 degrees: lift and its second derivative by the angle add up to h - h (pi/β)² / 2,
    // which is 2 - 9 at the peak.
    const auto lobe = [](double base) {
        return with_places(
            basalt::job(basalt::law(LawKind::simple_harmonic, base, 2.0, 60, 60), basalt::endless_flat()));
    };
    accepted(lobe(7.004));
    CHECK_FALSE(solve_lobes(lobe(6.996)).ok());
}
