#include "basalt.h"

#include <lobewright/law.h>
#include <lobewright/soundness.h>

using namespace lobewright;

namespace {

constexpr double per_degree = std::numbers::pi / 180.0;

Segment stay(double degrees) {
    return {basalt::cam_degrees(degrees), std::nullopt, LawKind::polynomial_345, {}};
}
Segment move(double degrees, double to, LawKind law, std::vector<int> powers = {}) {
    return {basalt::cam_degrees(degrees), to, law, std::move(powers)};
}

/// The pump of the page on the job file.
SegmentsProfile pump() {
    return {15.0, {move(60.0, 5.0, LawKind::cycloidal), stay(40.0), move(50.0, 0.0, LawKind::parabolic)}};
}

}  // namespace

TEST_CASE("cam angle 0 is the middle of the first stay at the greatest lift, or the first touch of it") {
    const SolvedLobe lobe = basalt::solved(pump(), basalt::roller(6.0));
    const LiftEvents ends = events_at(lobe.motion, 0.0);
    CHECK_NEAR(ends.opens.degrees(), -80.0, 1e-9);
    CHECK_NEAR(ends.closes.degrees(), 70.0, 1e-9);
    CHECK_NEAR(lobe.action_angle.degrees(), 150.0, 1e-9);
    SegmentsProfile touch{
        25.0,
        {move(50.0, 3.0, LawKind::cycloidal), stay(30.0), move(40.0, 6.0, LawKind::cycloidal),
         move(45.0, 2.0, LawKind::cycloidal), stay(10.0), move(60.0, 6.0, LawKind::cycloidal), stay(20.0),
         move(70.0, 0.0, LawKind::cycloidal)}};
    const SolvedLobe twice = basalt::solved(touch, basalt::roller(6.0));
    CHECK_NEAR(events_at(twice.motion, 0.0).opens.degrees(), -120.0, 1e-9);
    CHECK_NEAR(twice.motion.at(CamAngle{}).lift, 6.0, 1e-12);
    CHECK_NEAR(twice.motion.at(basalt::cam_degrees(50.0)).lift, 2.0, 1e-12);
    // Stays in a row are one.
    SegmentsProfile rows = pump();
    rows.segments.insert(rows.segments.begin() + 1, stay(20.0));
    CHECK_NEAR(events_at(basalt::solved(rows, basalt::roller(6.0)).motion, 0.0).opens.degrees(), -90.0, 1e-9);
}

TEST_CASE("segments move by their laws, a fall by its law run backwards from the higher end") {
    SegmentsProfile profile = pump();
    profile.segments[2] = move(50.0, 1.0, LawKind::power_polynomial, {2, 6});
    profile.segments.push_back(move(40.0, 0.0, LawKind::polynomial_345));
    const SolvedLobe lobe = basalt::solved(profile, basalt::roller(6.0));
    const auto lift = [&](double degrees) { return lobe.motion.at(basalt::cam_degrees(degrees)); };
    const double pi = std::numbers::pi;
    for (const double x : {0.1, 0.5, 0.8}) {
        CHECK_NEAR(lift(-80.0 + 60.0 * x).lift, 5.0 * (x - std::sin(2 * pi * x) / (2 * pi)), 1e-12);
        // 2-6: y = 1 + c₂ x² + c₆ x⁶ with c₂ = -6/4, c₆ = 2/4, x from the higher end.
        const double y = 1.0 - 1.5 * x * x + 0.5 * std::pow(x, 6);
        CHECK_NEAR(lift(20.0 + 50.0 * x).lift, 1.0 + 4.0 * y, 1e-12);
        CHECK_NEAR(lift(20.0 + 50.0 * x).velocity,
                   4.0 * (-3.0 * x + 3.0 * std::pow(x, 5)) / (50.0 * per_degree), 1e-11);
        const double u = 1.0 - x;
        CHECK_NEAR(lift(70.0 + 40.0 * x).lift, u * u * u * (10.0 - 15.0 * u + 6.0 * u * u), 1e-12);
    }
    CHECK(lift(0.0).velocity == 0.0);
    CHECK_NEAR(lobe.lift, 5.0, 1e-12);
}

TEST_CASE("stays on the base circle are base circle, at the ends and in between") {
    SegmentsProfile profile{
        20.0,
        {stay(15.0), move(40.0, 3.0, LawKind::cycloidal), move(40.0, 0.0, LawKind::cycloidal), stay(50.0),
         move(40.0, 2.0, LawKind::cycloidal), move(40.0, 0.0, LawKind::cycloidal), stay(25.0)}};
    const SolvedLobe lobe = basalt::solved(profile, basalt::roller(6.0));
    CHECK_NEAR(events_at(lobe.motion, 0.0).opens.degrees(), -40.0, 1e-9);
    CHECK_NEAR(events_at(lobe.motion, 0.0).closes.degrees(), 40.0, 1e-9);
    CHECK_NEAR(lobe.action_angle.degrees(), 210.0, 1e-9);
    CHECK(lobe.motion.at(basalt::cam_degrees(60.0)).lift == 0.0);
    CHECK_NEAR(lobe.contour.polar_radius(ShaftAngle::from_degrees(-60.0)), 20.0, 1e-9);
    CHECK_NEAR(lobe.motion.at(basalt::cam_degrees(130.0)).lift, 2.0, 1e-12);
}

TEST_CASE("segments longer than a ring's pitch are refused, and undercut ones with their cure") {
    Job job = basalt::job(pump(), basalt::roller(6.0));
    job.lobes.front().repeat = 3;
    const auto ring = solve_lobes(job);
    REQUIRE_FALSE(ring.ok());
    CHECK(ring.diagnostics().front().code == "event-too-long");
    const auto flat = solve_lobes(basalt::job(pump(), basalt::endless_flat()));
    REQUIRE_FALSE(flat.ok());
    const Diagnostic undercut = flat.diagnostics().front();
    CHECK(undercut.code == "undercut");
    const std::string key = "base_radius = ";
    SegmentsProfile cured = pump();
    cured.base_radius = std::stod(undercut.remedy.substr(undercut.remedy.find(key) + key.size()));
    CHECK(solve_lobes(basalt::job(cured, basalt::endless_flat())).ok());
    // tutorbin.com, four laws in 60 degree stretches: a cycloidal rise of 4 needs 19.290787; this one has 5.
    CHECK_NEAR(cured.base_radius, 19.290787 * 5.0 / 4.0, 2e-4);
}

TEST_CASE("a joint where the acceleration jumps is told with its place and size, and a smooth one is not") {
    const auto findings = [](const Profile& profile) {
        const Job job = basalt::job(profile, basalt::roller(6.0));
        std::string all;
        for (const Diagnostic& finding : judge(job, {basalt::solved(job)}).findings)
            if (finding.code == "acceleration-jump") all += finding.what;
        return all;
    };
    // The parabolic fall: 4h/β² = 20 / (50 degrees)² = 0.008 mm per degree² at both ends, twice that in its
    // middle.
    const std::string pump_says = findings(pump());
    CHECK_THAT(pump_says, ContainsSubstring("at 3 joints") && ContainsSubstring("0.016 mm") &&
                              ContainsSubstring("cam angle 45"));
    SegmentsProfile smooth = pump();
    smooth.segments[2].law = LawKind::polynomial_4567;
    CHECK(findings(smooth).empty());
    SegmentsProfile harmonic{
        25.0, {move(60.0, 5.0, LawKind::simple_harmonic), move(60.0, 0.0, LawKind::simple_harmonic)}};
    // Rise and fall alike join smoothly at the top; h π² / (2 β²) steps at both ends: 5 × 4.934802 / 3600.
    CHECK_THAT(findings(harmonic), ContainsSubstring("at 2 joints") && ContainsSubstring("0.00685 mm"));
    CHECK(findings(basalt::law(LawKind::cycloidal, 20.0, 4.0, 60.0, 70.0)).empty());
    CHECK_THAT(findings(basalt::law(LawKind::parabolic, 25.0, 4.0, 70.0, 70.0)),
               ContainsSubstring("at 4 joints"));
}
