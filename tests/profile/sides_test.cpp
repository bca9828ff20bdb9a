#include "basalt.h"

#include <lobewright/soundness.h>

#include <random>

using namespace lobewright;

namespace {

constexpr double per_degree = std::numbers::pi / 180.0;

ArcsProfile unequal(double base, double lift, double action, double opening, double closing) {
    ArcsProfile arcs = basalt::arcs_with_flank(base, lift, action, opening);
    arcs.closing_flank_radius = closing;
    return arcs;
}

ArcsProfile with_both(double base, double lift, double flank, double nose) {
    ArcsProfile arcs = basalt::arcs_with_flank(base, lift, 0.0, flank);
    arcs.action_angle.reset();
    arcs.nose_radius = nose;
    return arcs;
}

/// Curvatures of a contour's pieces by name.
double radius_of(const SolvedLobe& lobe, const std::string& name) {
    for (const ContourPiece& piece : lobe.contour.pieces())
        if (piece.name == name) return 1.0 / piece.at(0.5 * (piece.start + piece.end)).curvature;
    FAIL("no piece " << name);
    return 0.0;
}

/// Every piece ends where and as the next one starts.
void check_joints(const SolvedLobe& lobe) {
    const auto& pieces = lobe.contour.pieces();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const ContourPoint end = pieces[i].at(pieces[i].end);
        const ContourPiece& next = pieces[(i + 1) % pieces.size()];
        const ContourPoint start = next.at(next.start);
        INFO(pieces[i].name << " to " << next.name);
        CHECK(length(end.point - start.point) < 1e-9);
        CHECK(length(end.normal - start.normal) < 1e-9);
    }
}

void check_motion_joints(const SolvedLobe& lobe) {
    const auto& pieces = lobe.motion.pieces();
    for (std::size_t i = 0; i + 1 < pieces.size(); ++i) {
        const Lift end = pieces[i].at(pieces[i].end), start = pieces[i + 1].at(pieces[i + 1].start);
        INFO(pieces[i].name << " to " << pieces[i + 1].name);
        CHECK_NEAR(end.lift, start.lift, 1e-10);
        CHECK_NEAR(end.velocity, start.velocity, 1e-9);
    }
}

std::vector<Follower> followers() {
    return {basalt::endless_flat(), basalt::roller(5.0, 2.0), basalt::domed(60.0),
            basalt::pivoted(8.0, 40.0, 35.0, Sense::ccw), basalt::pivoted(8.0, 40.0, 35.0, Sense::cw)};
}

}  // namespace

// Bevan, Theory of Machines, example 5, p. 300: the action angle of 110 degrees from the flank of 5.600944 in
// (printed distance of centres 4.477 in) and the nose of 0.125 in. Khurmi's suction valve: 56.5 degrees on
// either side of a nose of 2.5 mm, flank 116.910372 mm.
TEST_CASE("flank and nose together give the textbooks' action angles back") {
    const SolvedLobe bevan = basalt::solved(with_both(1.125, 0.5, 5.600944, 0.125), basalt::endless_flat());
    CHECK_NEAR(bevan.action_angle.degrees(), 110.0, 1e-5);
    const SolvedLobe khurmi = basalt::solved(with_both(20.0, 10.0, 116.910372, 2.5), basalt::endless_flat());
    CHECK_NEAR(khurmi.action_angle.degrees(), 113.0, 1e-6);
    CHECK_NEAR(khurmi.arcs->action_angle.degrees(), 113.0, 1e-6);
}

TEST_CASE("any two of action angle, flank and nose give the same lobe, whatever the flank") {
    std::mt19937 random(7);
    const auto between = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(random()) / 4294967295.0;
    };
    int lobes = 0;
    for (int i = 0; i < 200; ++i) {
        const double base = between(10.0, 20.0), lift = base * between(0.2, 0.5), action = between(100, 160);
        const double flanks[] = {base * between(2.0, 8.0), straight_flank, -base * between(3.0, 9.0)};
        const ArcsProfile one = basalt::arcs_with_flank(base, lift, action, flanks[i % 3]);
        const auto first = solve_lobes(basalt::job(one, basalt::roller(5.0)));
        if (!first) continue;
        ++lobes;
        const ArcGeometry& arcs = *first->front().arcs;
        const SolvedLobe again =
            basalt::solved(with_both(base, lift, arcs.flank_radius, arcs.nose_radius), basalt::roller(5.0));
        CHECK_NEAR(again.action_angle.degrees(), action, 1e-6);
        CHECK_NEAR(again.lift, first->front().lift, 1e-9);
    }
    CHECK(lobes > 100);
}

TEST_CASE(
    "flanks that differ keep their radii, share nose and action, and join smoothly, for every follower") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const Follower& follower : followers()) {
            const SolvedLobe lobe = basalt::solved(unequal(12.0, 4.0, 130.0, 40.0, 70.0), follower, turns);
            CHECK_NEAR(radius_of(lobe, "opening flank"), 40.0, 1e-9);
            CHECK_NEAR(radius_of(lobe, "closing flank"), 70.0, 1e-9);
            CHECK_NEAR(radius_of(lobe, "nose"), lobe.opening_arcs->nose_radius, 1e-9);
            CHECK(lobe.opening_arcs->nose_radius == lobe.closing_arcs->nose_radius);
            CHECK_NEAR(lobe.action_angle.degrees(), 130.0, 1e-9);
            CHECK_NEAR(0.5 * (lobe.opening_arcs->action_angle + lobe.closing_arcs->action_angle).degrees(),
                       130.0, 1e-9);
            // A sharper flank gets to the nose in less of the turn.
            CHECK(lobe.opening_arcs->action_angle > lobe.closing_arcs->action_angle);
            CHECK_FALSE(lobe.arcs.has_value());
            CHECK_NEAR(lobe.contour.polar_radius(ShaftAngle{}), 16.0, 1e-9);
            check_joints(lobe);
            check_motion_joints(lobe);
        }
    }
}

TEST_CASE("each side of a lobe with two flanks is the half of the symmetrical lobe with its flank and nose") {
    const SolvedLobe lobe = basalt::solved(unequal(12.0, 4.0, 130.0, 40.0, 70.0), basalt::roller(5.0, 1.5));
    const double nose = lobe.opening_arcs->nose_radius;
    const SolvedLobe opening = basalt::solved(with_both(12.0, 4.0, 40.0, nose), basalt::roller(5.0, 1.5));
    const SolvedLobe closing = basalt::solved(with_both(12.0, 4.0, 70.0, nose), basalt::roller(5.0, 1.5));
    for (double beta = 1.0; beta < 180.0; beta += 1.0) {
        // On a ccw shaft the opening flank lies on the ccw side of the nose.
        CHECK_NEAR(lobe.contour.polar_radius(ShaftAngle::from_degrees(beta)),
                   opening.contour.polar_radius(ShaftAngle::from_degrees(beta)), 1e-9);
        CHECK_NEAR(lobe.contour.polar_radius(ShaftAngle::from_degrees(-beta)),
                   closing.contour.polar_radius(ShaftAngle::from_degrees(-beta)), 1e-9);
    }
    for (double alpha = -60.0; alpha < -20.0; alpha += 1.0)
        CHECK_NEAR(lobe.motion.at(basalt::cam_degrees(alpha)).lift,
                   opening.motion.at(basalt::cam_degrees(alpha)).lift, 1e-9);
}

TEST_CASE("flanks that are alike in two figures are the one flank's lobe") {
    const SolvedLobe one =
        basalt::solved(basalt::arcs_with_flank(12.0, 4.0, 130.0, 50.0), basalt::endless_flat());
    const SolvedLobe two = basalt::solved(unequal(12.0, 4.0, 130.0, 50.0, 50.0), basalt::endless_flat());
    CHECK_NEAR(two.opening_arcs->nose_radius, one.arcs->nose_radius, 1e-9);
    CHECK_NEAR(two.opening_arcs->action_angle.degrees(), 130.0, 1e-9);
}

TEST_CASE("sides that don't come out are refused with a range that does") {
    const auto refusal = [](const ArcsProfile& arcs) {
        const auto lobes = solve_lobes(basalt::job(arcs, basalt::endless_flat()));
        REQUIRE_FALSE(lobes.ok());
        return lobes.diagnostics().front();
    };
    const auto figure_after = [](const std::string& text, const std::string& word) {
        return std::stod(text.substr(text.find(word) + word.size()));
    };
    const Diagnostic nose = refusal(with_both(12.0, 4.0, 40.0, 15.0));
    CHECK(nose.code == "nose-radius");
    const double least = figure_after(nose.remedy, "from "), most = figure_after(nose.remedy, "to ");
    CHECK(solve_lobes(basalt::job(with_both(12.0, 4.0, 40.0, least), basalt::endless_flat())).ok());
    CHECK(solve_lobes(basalt::job(with_both(12.0, 4.0, 40.0, most), basalt::endless_flat())).ok());
    refusal(with_both(12.0, 4.0, 40.0, least - 0.01));
    refusal(with_both(12.0, 4.0, 40.0, most + 0.01));
    const Diagnostic action = refusal(unequal(12.0, 4.0, 60.0, 40.0, 70.0));
    CHECK(action.code == "action-angle");
    const double shortest = figure_after(action.remedy, "from "),
                 longest = figure_after(action.remedy, "to ");
    CHECK(solve_lobes(basalt::job(unequal(12.0, 4.0, shortest, 40.0, 70.0), basalt::endless_flat())).ok());
    CHECK(solve_lobes(basalt::job(unequal(12.0, 4.0, longest, 40.0, 70.0), basalt::endless_flat())).ok());
    CHECK(refusal(unequal(12.0, 4.0, 130.0, 40.0, -70.0)).code == "action-angle");
}

TEST_CASE("ramps leave flanks and nose where they are, and lead to a base circle that is cut deeper") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const Follower& follower : followers()) {
            ArcsProfile arcs = unequal(12.0, 4.0, 130.0, 40.0, 70.0);
            const SolvedLobe plain = basalt::solved(arcs, follower, turns);
            arcs.ramps = ArcRamps{0.15, basalt::cam_degrees(20.0), basalt::cam_degrees(26.0)};
            const SolvedLobe lobe = basalt::solved(arcs, follower, turns);
            INFO("radius " << follower.radius << ", kind " << static_cast<int>(follower.kind));
            CHECK_NEAR(lobe.base_radius, 11.85, 1e-12);
            CHECK_NEAR(lobe.contour.polar_radius(ShaftAngle::from_radians(std::numbers::pi)), 11.85, 1e-9);
            for (double beta = -50.0; beta <= 50.0; beta += 0.5)
                CHECK_NEAR(lobe.contour.polar_radius(ShaftAngle::from_degrees(beta)),
                           plain.contour.polar_radius(ShaftAngle::from_degrees(beta)), 1e-9);
            check_joints(lobe);
            check_motion_joints(lobe);
            CHECK_FALSE(lobe.arcs.has_value());
            CHECK(lobe.opening_arcs->flank_radius == 40.0);
        }
    }
}

TEST_CASE(
    "a ramp of arcs runs at its lift over seven eighths of its angle, and its quarter starts from rest") {
    ArcsProfile arcs = basalt::arcs_with_flank(12.0, 4.0, 130.0, 50.0);
    arcs.ramps = ArcRamps{0.15, basalt::cam_degrees(20.0), basalt::cam_degrees(26.0)};
    const SolvedLobe lobe = basalt::solved(arcs, basalt::endless_flat());
    CHECK_NEAR(lobe.lift, 4.15, 1e-9);
    const LiftEvents ends = events_at(lobe.motion, 0.0);
    const auto velocity = [&](double from_end) {
        return lobe.motion.at(ends.opens + basalt::cam_degrees(from_end)).velocity;
    };
    const double speed = 0.15 / (0.875 * 20.0 * per_degree);
    CHECK_NEAR(velocity(0.0), 0.0, 1e-12);
    CHECK_NEAR(velocity(2.5), 0.5 * speed, 1e-12);
    for (const double at : {5.0, 10.0, 19.0})
        CHECK_NEAR(velocity(at), speed, 1e-12);
    CHECK_NEAR(-lobe.motion.at(ends.closes - basalt::cam_degrees(15.0)).velocity,
               0.15 / (0.875 * 26.0 * per_degree), 1e-12);
    // The ramp meets the flank where that runs as fast: (F - b) sin θ = v, θ from the tangent point; there
    // the lift is the ramps' and (F - b)(1 - cos θ), and the tangent from there reaches the ramp's own zero,
    // R / 8.
    const double theta = std::asin(speed / 38.0);
    const double joint = -65.0 * per_degree + theta;
    const double run = (0.15 + 38.0 * (1.0 - std::cos(theta))) / speed;
    CHECK_NEAR(ends.opens.radians(), joint - run - 2.5 * per_degree, 1e-9);
}

TEST_CASE("a ramp faster than its flank ever runs is refused with an angle that does") {
    ArcsProfile arcs = basalt::arcs_with_flank(12.0, 4.0, 130.0, 50.0);
    arcs.ramps = ArcRamps{2.0, basalt::cam_degrees(5.0), basalt::cam_degrees(90.0)};
    const auto lobes = solve_lobes(basalt::job(arcs, basalt::endless_flat()));
    REQUIRE_FALSE(lobes.ok());
    const Diagnostic refused = lobes.diagnostics().front();
    CHECK(refused.code == "ramp-too-fast");
    const std::string key = "angle of ";
    arcs.ramps->opening =
        basalt::cam_degrees(std::stod(refused.remedy.substr(refused.remedy.find(key) + key.size())));
    const auto cured = solve_lobes(basalt::job(arcs, basalt::endless_flat()));
    if (!cured) CHECK(cured.diagnostics().front().code != "ramp-too-fast");
}

TEST_CASE("a report tells both flanks, and both laws count") {
    Job job = basalt::job(unequal(12.0, 4.0, 130.0, 40.0, straight_flank), basalt::roller(5.0));
    const LobeReport report = judge(job, {basalt::solved(job)}).lobes.front();
    CHECK_NEAR(*report.flank_radius, 40.0, 1e-9);
    CHECK(*report.closing_flank_radius == straight_flank);
    CHECK_THAT(report_text(job, judge(job, {basalt::solved(job)})),
               ContainsSubstring("opening flank radius") && ContainsSubstring("closing flank radius"));
    MotionProfile laws = basalt::law(LawKind::cycloidal, 20.0, 4.0, 60.0, 60.0);
    laws.closing_law = LawKind::parabolic;
    const SolvedLobe lobe = basalt::solved(laws, basalt::endless_flat());
    const double beta = 60.0 * per_degree;
    CHECK_NEAR(lobe.motion.at(basalt::cam_degrees(-45.0)).acceleration,
               4.0 * 2.0 * std::numbers::pi / (beta * beta), 1e-9);
    CHECK_NEAR(lobe.motion.at(basalt::cam_degrees(45.0)).acceleration, 16.0 / (beta * beta), 1e-9);
    CHECK_NEAR(lobe.motion.at(basalt::cam_degrees(15.0)).acceleration, -16.0 / (beta * beta), 1e-9);
}
