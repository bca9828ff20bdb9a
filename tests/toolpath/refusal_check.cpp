#include "refusal_check.h"

#include "by_definition.h"

#include <algorithm>
#include <limits>

namespace refusal_check {
namespace {

struct Place {
    double z, width, radius;
    const SolvedLobe* cut;
};

struct Section : by_definition::Section {
    bool ends_cut = true;
};

Section section_of(const Job& job) {
    const Cutter& cutter = job.cutters.at("it");
    const double radius = 0.5 * cutter.diameter;
    const double end = cutter.kind == CutterKind::ball_nose ? radius : cutter.corner_radius;
    switch (job.machine->cutter_axis) {
        case CutterAxis::parallel:
            return {{0.0, radius, 0.0}, true};
        case CutterAxis::radial:
            return {{radius - end, end, job.cut->side_shift}, true};
        case CutterAxis::tangential:
            break;
    }
    const bool disc = cutter.kind == CutterKind::disc;
    return {{0.5 * (disc ? cutter.width : *cutter.flute_length - end), 0.0, 0.0}, false};
}

std::vector<Vec2> points_of(const SolvedLobe& lobe, const random_job::Drawn& drawn) {
    return by_definition::points_of(lobe.contour, drawn.job.cut->allowance, 500);
}

bool hollow_refused_rightly(const random_job::Drawn& drawn, const SolvedLobe& lobe) {
    const Section s = section_of(drawn.job);
    const double hollow = lobe.contour.smallest_hollow_radius();
    if (!std::isfinite(hollow)) return false;
    if (hollow - drawn.job.cut->allowance <= s.corner + 1e-6)
        return true;  // no circle gets into a narrower one
    return never_touched(s, points_of(lobe, drawn), 720) > 2e-4;
}

/// The sideways way of the contact on an endless flat: the largest |P·T|.
double contact_travel(const SolvedLobe& lobe, double side) {
    double most = 0.0;
    for (const ContourPiece& piece : lobe.contour.pieces()) {
        for (int i = 0; i <= 2000; ++i) {
            const ContourPoint p = piece.at(piece.start + (piece.end - piece.start) * i / 2000);
            most = std::max(most, std::abs(dot(p.point, quarter_turn(p.normal)) - side));
        }
    }
    return most;
}

/// How steeply the tip's distance runs at worst, against itself: the tangent of the lean of a flank that a
/// corner climbs.
double steepest_run(const Section& s, const std::vector<Vec2>& points) {
    constexpr int turns = 2880;
    const auto tip = [&](int i) { return tip_over(s, points, unit(full_turn * i / turns)); };
    double before = tip(-1), worst = 0.0;
    for (int i = 0; i < turns; ++i) {
        const double here = tip(i);
        worst = std::max(worst, std::abs(here - before) / (full_turn / turns) / std::max(here, 1e-9));
        before = here;
    }
    return worst;
}

bool narrow_refused_rightly(const random_job::Drawn& drawn, const SolvedLobe& lobe) {
    const Section s = section_of(drawn.job);
    if (contact_travel(lobe, s.shift) <= s.half_flat) return false;
    // A corner that leans by 75 degrees runs 3.7 times the distance a radian; sampled coarsely, half of that.
    return !s.ends_cut || steepest_run(s, points_of(lobe, drawn)) > 1.8;
}

bool flutes_refused_rightly(const random_job::Drawn& drawn, const SolvedLobe& lobe) {
    const Cutter& cutter = drawn.job.cutters.at("it");
    const double end = cutter.kind == CutterKind::ball_nose ? 0.5 * cutter.diameter : cutter.corner_radius;
    return cutter.flute_length.value_or(0.0) - end < lobe.width;
}

/// The job without anything that a cutter could touch: one narrow lobe alone, and nothing behind the cutting
/// edges.
random_job::Drawn alone(const random_job::Drawn& drawn, std::size_t index) {
    random_job::Drawn bare = drawn;
    bare.lobes = {drawn.lobes[index]};
    bare.job.shaft.journals.clear();
    Cutter& cutter = bare.job.cutters.at("it");
    if (cutter.neck_diameter) cutter.neck_diameter = 0.01;
    if (cutter.shank_diameter) cutter.shank_diameter = 0.01;
    cutter.reach.reset();
    return bare;
}

/// Alone it can be cut; swept along that path, the cutter as it is touches something, or comes as near as the
/// allowance on it and twice the tolerance.
bool neighbour_refused_rightly(const random_job::Drawn& drawn, std::size_t index,
                               random_job::Source& random) {
    const random_job::Drawn bare = alone(drawn, index);
    const auto path = plan_toolpath(bare.job, bare.lobes, bare.grid);
    if (!path.ok()) return false;
    const auto positions = sweep::positions_of(*path);
    const double near = drawn.job.cut->allowance + 2.0 * drawn.job.cut->tolerance + 1e-3;
    for (const Pass& pass : path->passes) {
        Pass here = pass;
        here.lobe = index;
        if (pass.kind != PassKind::finish) continue;
        if (touches_neighbours(drawn, here, positions, random, near)) return true;
    }
    return false;
}

std::size_t named(const random_job::Drawn& drawn, const Diagnostic& refusal) {
    for (std::size_t i = 0; i < drawn.lobes.size(); ++i) {
        if (refusal.what.find("cuts lobe " + drawn.lobes[i].name) != std::string::npos) return i;
    }
    for (std::size_t i = 0; i < drawn.lobes.size(); ++i) {
        if (refusal.what.find("lobe " + drawn.lobes[i].name) != std::string::npos) return i;
    }
    return 0;
}

/// Shank and holder of cutters whose axis crosses the shaft's, as the sweep's ends: the sweep has only
/// parallel ones.
std::vector<sweep::Body> blunt_ends(const Job& job) {
    std::vector<sweep::Body> bodies = sweep::blunt_bodies(job);
    const Cutter& cutter = job.cutters.at("it");
    const auto add = [&](double diameter, double along) {
        sweep::Body body = sweep::cutting_body(job);
        body.radius = 0.5 * diameter;
        body.corner = 0.0;
        if (body.shape == sweep::Body::Shape::lying) {
            const double rounded =
                cutter.kind == CutterKind::ball_nose ? 0.5 * cutter.diameter : cutter.corner_radius;
            const bool disc = cutter.kind == CutterKind::disc;
            const double tip = disc ? -0.5 * cutter.width : -0.5 * (*cutter.flute_length + rounded);
            constexpr double far = 1000.0;
            body.tip_from_word += 0.5 * cutter.diameter - body.radius;
            body.side = 0.5 * (tip + along + far);
            body.half_length = 0.5 * (far - tip - along);
        } else {
            body.tip_from_word += along;
        }
        bodies.push_back(body);
    };
    if (job.machine->cutter_axis == CutterAxis::parallel) return bodies;
    const double cutting = cutter.kind == CutterKind::disc ? cutter.width : *cutter.flute_length;
    const auto& neck = cutter.kind == CutterKind::disc ? cutter.neck_diameter : cutter.shank_diameter;
    if (neck && *neck > cutter.diameter) add(*neck, cutting);
    if (cutter.reach && cutter.holder_diameter) add(*cutter.holder_diameter, *cutter.reach);
    return bodies;
}

}  // namespace

bool touches_neighbours(const random_job::Drawn& drawn, const Pass& pass,
                        const std::vector<sweep::Position>& positions, random_job::Source& random,
                        double margin) {
    const SolvedLobe& own = drawn.lobes[pass.lobe];
    const double blank = 0.5 * *drawn.job.shaft.blank_diameter;
    const bool parallel = drawn.job.machine->cutter_axis == CutterAxis::parallel;
    // The sweep looks for the first place inside on each ray from the axis: a body that holds the axis has
    // none.
    const auto holds_the_axis = [&](const sweep::Body& body, double z) {
        for (std::size_t i = pass.first + 1; i <= pass.last; ++i) {
            const sweep::Position& p = positions[i];
            const double off = z - p.axial;
            bool there = std::abs(off) < 0.99 * body.radius;
            if (body.shape == sweep::Body::Shape::cylinder) there = off > body.from && off < body.to;
            if (body.shape == sweep::Body::Shape::end) there = there && std::abs(body.side) < body.radius;
            if (body.shape == sweep::Body::Shape::lying)
                there = there && std::abs(body.side) < body.half_length;
            if (there && !p.rapid && p.radial + body.tip_from_word < 0.0) return true;
        }
        return false;
    };
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = pass.first + 1; i <= pass.last; ++i)
        least = std::min(least, positions[i].radial);
    const auto touched = [&](sweep::Body body, const Place& p) {
        // A body lying across whose underside comes below the axis is cut off there: what lies below reaches
        // nothing more.
        if (body.shape == sweep::Body::Shape::lying)
            body.tip_from_word = std::max(body.tip_from_word, 0.01 - least);
        const double near = std::clamp(pass.axial, p.z - 0.5 * p.width + 1e-4, p.z + 0.5 * p.width - 1e-4);
        for (const double z : {near, p.z - 0.5 * p.width + 1e-4, p.z + 0.5 * p.width - 1e-4}) {
            const sweep::Slab slab(positions, body, z, p.radius + std::max(0.0, margin), false,
                                   pass.first + 1, pass.last + 1);
            if (holds_the_axis(body, z)) return true;
            const int rays = margin > 0.0 ? 180 : 36;
            for (int ray = 0; ray < rays; ++ray) {
                const double phi = (ray + random.between(0.0, 1.0)) * full_turn / rays;
                double stands = p.radius;
                if (p.cut != nullptr) {
                    stands = std::min(stands,
                                      p.cut->contour.polar_radius(ShaftAngle::from_radians(phi) - p.cut->at));
                }
                if (slab.radius_on(phi) < stands + margin) return true;
            }
        }
        return false;
    };
    std::vector<Place> places;
    for (std::size_t i = 0; i < drawn.lobes.size(); ++i) {
        const SolvedLobe& lobe = drawn.lobes[i];
        if (i != pass.lobe) places.push_back({lobe.z, lobe.width, blank, lobe.z < own.z ? &lobe : nullptr});
    }
    for (const Journal& j : drawn.job.shaft.journals)
        places.push_back({j.z, j.width, 0.5 * j.diameter, nullptr});
    const auto any = [&](const sweep::Body& body) {
        return std::any_of(places.begin(), places.end(), [&](const Place& p) { return touched(body, p); });
    };
    if (any(sweep::cutting_body(drawn.job))) return true;
    places.push_back({own.z, own.width, blank, parallel ? &own : nullptr});
    const std::vector<sweep::Body> blunt = blunt_ends(drawn.job);
    return std::any_of(blunt.begin(), blunt.end(), any);
}

bool has_its_reason(const random_job::Drawn& drawn, const Diagnostic& refusal, random_job::Source& random) {
    const std::size_t index = named(drawn, refusal);
    const SolvedLobe& lobe = drawn.lobes[index];
    const double tolerance = drawn.job.cut->tolerance;
    if (refusal.code == "cutter-too-large") return hollow_refused_rightly(drawn, lobe);
    if (refusal.code == "cutter-too-narrow") return narrow_refused_rightly(drawn, lobe);
    if (refusal.code == "flutes-too-short") return flutes_refused_rightly(drawn, lobe);
    if (refusal.code == "neighbour-in-the-way") return neighbour_refused_rightly(drawn, index, random);
    if (refusal.code == "tolerance-too-fine") return 0.4 * tolerance < 2.0 * drawn.grid.radial_step;
    if (refusal.code == "shift-too-large") {  // even on the heel the corner's normal leans by 30 degrees
        const Section s = section_of(drawn.job);
        return std::abs(s.shift) - s.half_flat > 0.499 * (lobe.base_radius + s.corner);
    }
    if (refusal.code == "axial-steps-too-fine") return 0.5 * drawn.job.cutters.at("it").diameter < 1.0;
    return false;
}

}  // namespace refusal_check
