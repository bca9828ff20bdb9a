/// Jobs and lobes for the tests of cutting by hand, worked out here by the textbooks' formulas, not by the
/// library.
#pragma once

#include "profile/motion/motion_piece.h"
#include "sampled_contour.h"

#include <lobewright/hand.h>

#include <cmath>
#include <functional>
#include <numbers>
#include <string>
#include <vector>

namespace hand_jobs {

using namespace lobewright;
using profile::piece_of;
using profile::standing_piece;

inline double rad(double degrees) {
    return degrees * std::numbers::pi / 180.0;
}

/// Three-arc lobe with a flat follower, by the triangle of the centres of base circle, flank and nose, as
/// Bevan (The Theory of Machines, example 5 on page 300) has it.
struct Arcs {
    double base = 6.0, lift = 2.4, action_degrees = 120.0, flank = 25.0;

    [[nodiscard]] double half() const { return rad(action_degrees) / 2; }
    [[nodiscard]] double nose() const {
        const double e = flank - base, height = base + lift;
        return (flank * flank - e * e - height * height - 2 * e * height * std::cos(half())) /
               (2 * (flank - height - e * std::cos(half())));
    }
    [[nodiscard]] double nose_centre() const { return base + lift - nose(); }
    /// Between the flank's start and the joint with the nose, in cam angle: (R - r1) sin φ = r sin(α - φ).
    [[nodiscard]] double flank_turn() const {
        const double e = flank - base;
        return std::atan2(nose_centre() * std::sin(half()), e + nose_centre() * std::cos(half()));
    }
};

inline ContourPiece arc(std::string name, Vec2 centre, double radius, double from, double to) {
    return {std::move(name), from, to,
            [=](double t) {
                return ContourPoint{centre + radius * unit(t), unit(t), 1 / radius, radius};
            },
            true};
}

inline SolvedLobe arcs_lobe(const Arcs& arcs, double at_degrees, const std::string& name,
                            std::size_t entry = 0, Sense turns = Sense::ccw, int repeat = 1) {
    const double a = arcs.half(), joint = a - arcs.flank_turn(), e = arcs.flank - arcs.base,
                 period = full_turn / repeat;
    std::vector<ContourPiece> pieces;
    for (int k = 0; k < repeat; ++k) {
        const double nose = period * k;
        pieces.push_back(arc("flank", -e * unit(nose - a), arcs.flank, nose - a, nose - joint));
        pieces.push_back(
            arc("nose", arcs.nose_centre() * unit(nose), arcs.nose(), nose - joint, nose + joint));
        pieces.push_back(arc("flank", -e * unit(nose + a), arcs.flank, nose + joint, nose + a));
        pieces.push_back(arc("base circle", {}, arcs.base, nose + a, nose + period - a));
    }
    // The turn from a flank's tangent point; the nose's own centre line.
    const auto flank = [=](double tangent) {
        return [=](const auto& t) { return e * (1.0 - sine_and_cosine(t - tangent).second); };
    };
    const auto nose = [rest = arcs.nose() - arcs.base, r = arcs.nose_centre()](const auto& t) {
        return rest + r * sine_and_cosine(t).second;
    };
    SolvedLobe lobe;
    lobe.name = name;
    lobe.entry = entry;
    lobe.at = ShaftAngle::from_degrees(at_degrees);
    lobe.turns = turns;
    lobe.z = 20 + 10 * static_cast<double>(entry);
    lobe.width = 6;
    lobe.repeat = repeat;
    lobe.base_radius = arcs.base;
    lobe.lift = arcs.lift;
    lobe.action_angle = CamAngle::from_degrees(arcs.action_degrees);
    lobe.contour = Contour(pieces);
    lobe.motion = Motion(
        {standing_piece("base circle", -period / 2, -a, 0), piece_of("opening flank", -a, -joint, flank(-a)),
         piece_of("nose", -joint, joint, nose), piece_of("closing flank", joint, a, flank(a)),
         standing_piece("base circle", a, period / 2, 0)},
        period);
    lobe.arcs = ArcGeometry{arcs.base, arcs.lift, lobe.action_angle, arcs.flank, arcs.nose()};
    return lobe;
}

/// A lobe for a flat follower whose lift is lift · 64 x³ (1 - x)³ over `action_degrees`, as the contour that
/// this support function makes: h n + h' t. Its curvature stays positive for the sizes used in the tests.
inline SolvedLobe smooth_lobe(double base, double lift, double action_degrees, double at_degrees,
                              const std::string& name, std::size_t entry = 0) {
    const double action = rad(action_degrees);
    const auto law = [=](const auto& beta) {
        const auto x = beta / action + 0.5;
        return 64.0 * lift * whole_power(x * (1.0 - x), 3);
    };
    const MotionPiece event = piece_of("event", -action / 2, action / 2, law);
    const auto contour = [=](double beta) {
        const Lift here = event.at(beta);
        const Vec2 n = unit(beta);
        const double radius = base + here.lift + here.acceleration;
        return ContourPoint{(base + here.lift) * n + here.velocity * quarter_turn(n), n, 1 / radius, radius};
    };
    SolvedLobe lobe;
    lobe.name = name;
    lobe.entry = entry;
    lobe.at = ShaftAngle::from_degrees(at_degrees);
    lobe.z = 20 + 10 * static_cast<double>(entry);
    lobe.width = 6;
    lobe.base_radius = base;
    lobe.lift = lift;
    lobe.action_angle = CamAngle::from_degrees(action_degrees);
    lobe.contour = sampled_contour::of({{"event", -action / 2, action / 2, contour, false},
                                        arc("base circle", {}, base, action / 2, full_turn - action / 2)});
    // The law is even in β, so that either way round gives the same motion.
    lobe.motion = Motion({standing_piece("base circle", -std::numbers::pi, -action / 2, 0), event,
                          standing_piece("base circle", action / 2, std::numbers::pi, 0)},
                         full_turn);
    return lobe;
}

/// A job with these lobes, each with a profile of its own name, and one method "bench".
inline Job job_of(const std::vector<SolvedLobe>& lobes, const HandMethod& method, double blank_diameter,
                  Units units = Units::mm) {
    Job job;
    job.file = "basalt.toml";
    job.title = "Basalt trial";
    job.units = units;
    job.shaft.blank_diameter = blank_diameter;
    for (const SolvedLobe& lobe : lobes) {
        LobeEntry entry;
        entry.name = lobe.name;
        entry.profile = lobe.name;
        entry.at = lobe.at;
        entry.z = lobe.z;
        entry.width = lobe.width;
        entry.repeat = lobe.repeat;
        if (job.lobes.size() <= lobe.entry) job.lobes.resize(lobe.entry + 1);
        job.lobes[lobe.entry] = entry;
    }
    job.hand["bench"] = method;
    return job;
}

inline HandMethod fixture(double offset, int divisions) {
    HandMethod method;
    method.kind = HandKind::offset_fixture;
    method.offset = offset;
    method.divisions = divisions;
    method.infeed = 0.1;
    return method;
}

inline HandMethod head(std::optional<double> cusp, std::optional<double> step_degrees) {
    HandMethod method;
    method.kind = HandKind::dividing_head;
    method.ratio = 40;
    method.plates = {{15, 16, 17, 18, 19, 20}, {21, 23, 27, 29, 31, 33}, {37, 39, 41, 43, 47, 49}};
    method.cusp = cusp;
    if (step_degrees) method.step = ShaftAngle::from_degrees(*step_degrees);
    return method;
}

}  // namespace hand_jobs
