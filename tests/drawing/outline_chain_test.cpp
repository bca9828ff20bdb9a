/// The outline that is drawn is the lobe's own: its area, its extents, every place of it.
#include "basalt.h"
#include "drawing/kit/arc_chain.h"
#include "near.h"

#include <cmath>
#include <numbers>

using namespace lobewright;
using basalt::solved;

namespace {

std::vector<SolvedLobe> lobes_of_all_kinds() {
    auto ring = basalt::job(basalt::arcs_with_flank(40.0, 4.0, 60.0, 140.0), basalt::roller(8.0));
    ring.lobes[0].repeat = 3;
    return {solved(basalt::arcs_with_flank(6.0, 2.4, 120.0, 16.0), basalt::flat()),
            solved(basalt::arcs_with_flank(12.0, 3.0, 130.0, straight_flank), basalt::roller(8.0)),
            solved(basalt::arcs_with_flank(15.0, 4.0, 120.0, -60.0), basalt::roller(6.0)),
            solved(basalt::lopsided(), basalt::endless_flat(), Sense::cw),
            solved(basalt::law(LawKind::modified_sine, 20.0, 6.0, 70.0, 80.0), basalt::roller(10.0, 3.0)),
            solved(basalt::law(LawKind::cycloidal, 20.0, 4.0, 70.0, 80.0), basalt::knife()),
            solved(basalt::law(LawKind::polynomial_345, 18.0, 5.0, 75.0, 75.0),
                   basalt::pivoted(9.0, 40.0, 38.0, Sense::cw)),
            solved(ring)};
}

/// Half the integral of x dy - y dx over the contour's own pieces, by Simpson's rule.
double area_of(const Contour& contour) {
    double twice = 0.0;
    for (const ContourPiece& piece : contour.pieces()) {
        const auto grows = [&](double t) {
            const ContourPoint p = piece.at(t);
            return cross(p.point, quarter_turn(p.normal)) * p.speed;
        };
        constexpr int steps = 400;
        const double width = (piece.end - piece.start) / steps;
        for (int i = 0; i < steps; ++i) {
            const double a = piece.start + i * width;
            twice += width / 6.0 * (grows(a) + 4.0 * grows(a + width / 2.0) + grows(a + width));
        }
    }
    return twice / 2.0;
}

/// The polygon of a chain's points and the segments between its arcs and their chords.
double area_of(const DrawnChain& chain) {
    double area = 0.0;
    for (std::size_t i = 0; i < chain.points.size(); ++i) {
        const Vec2 from = chain.points[i].at, to = chain.points[(i + 1) % chain.points.size()].at;
        area += cross(from, to) / 2.0;
        if (chain.points[i].bulge == 0.0) continue;
        const double turn = 4.0 * std::atan(chain.points[i].bulge);
        const double radius = length(to - from) / (2.0 * std::sin(turn / 2.0));
        area += radius * radius / 2.0 * (turn - std::sin(turn));
    }
    return area;
}

double distance_to(const DrawnChain& chain, Vec2 point) {
    double nearest = 1e9;
    for (std::size_t i = 0; i < chain.points.size(); ++i) {
        const Vec2 from = chain.points[i].at, to = chain.points[(i + 1) % chain.points.size()].at;
        nearest = std::min({nearest, length(point - from), length(point - to)});
        const double bulge = chain.points[i].bulge;
        if (std::abs(bulge) < drawing::least_bulge) {
            const Vec2 chord = to - from;
            const double along = dot(point - from, chord) / dot(chord, chord);
            if (along > 0.0 && along < 1.0)
                nearest = std::min(nearest, std::abs(cross(chord, point - from)) / length(chord));
            continue;
        }
        const drawing::ArcOfBulge arc = drawing::arc_of(from, to, bulge);
        if (arc.spans(direction(point - arc.centre)))
            nearest = std::min(nearest, std::abs(length(point - arc.centre) - arc.radius));
    }
    return nearest;
}

}  // namespace

TEST_CASE("the drawn outline has the contour's area and extents") {
    for (const SolvedLobe& lobe : lobes_of_all_kinds()) {
        CAPTURE(lobe.follower.kind, lobe.base_radius);
        const DrawnChain chain = chain_of(lobe.contour);
        CHECK_NEAR(area_of(chain), area_of(lobe.contour), 1e-4);
        const drawing::Extents extents = drawing::extents_of(chain);
        drawing::Extents seen;
        for (const ContourPiece& piece : lobe.contour.pieces())
            for (int i = 0; i <= 2000; ++i)
                seen.cover(piece.at(piece.start + (piece.end - piece.start) * i / 2000.0).point);
        CHECK_NEAR(extents.low.x, seen.low.x, 1e-4);
        CHECK_NEAR(extents.low.y, seen.low.y, 1e-4);
        CHECK_NEAR(extents.high.x, seen.high.x, 1e-4);
        CHECK_NEAR(extents.high.y, seen.high.y, 1e-4);
    }
}

TEST_CASE("no place of the contour lies farther from the drawn outline than is told") {
    for (const SolvedLobe& lobe : lobes_of_all_kinds()) {
        CAPTURE(lobe.follower.kind, lobe.base_radius);
        const DrawnChain chain = chain_of(lobe.contour);
        double farthest = 0.0;
        for (const ContourPiece& piece : lobe.contour.pieces())
            for (int i = 0; i <= 300; ++i)
                farthest = std::max(
                    farthest,
                    distance_to(chain, piece.at(piece.start + (piece.end - piece.start) * i / 300.0).point));
        CHECK(farthest < drawn_tolerance);
    }
}

TEST_CASE("a contour of arcs is drawn by its own arcs, few and exact") {
    const SolvedLobe lobe = solved(basalt::arcs_with_flank(6.0, 2.4, 120.0, 16.0), basalt::flat());
    const DrawnChain chain = chain_of(lobe.contour);
    CHECK(chain.closed);
    CHECK(chain.points.size() <= 6);
    int flanks = 0;
    for (std::size_t i = 0; i < chain.points.size(); ++i) {
        const drawing::ArcOfBulge arc = drawing::arc_of(
            chain.points[i].at, chain.points[(i + 1) % chain.points.size()].at, chain.points[i].bulge);
        if (std::abs(arc.radius - 16.0) < 1e-9) ++flanks;
    }
    CHECK(flanks == 2);
}
