#include "hand/finish/deviations.h"

#include "catch.h"
#include "hand_jobs.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace hand_jobs;
using namespace lobewright::hand;

namespace {

/// How far along a unit vector the inside of a circle goes on, by the quadratic formula.
double way_out(Vec2 point, Vec2 along, Vec2 centre, double radius) {
    const Vec2 from = point - centre;
    const double half_b = dot(from, along), c = dot(from, from) - radius * radius;
    return -half_b + std::sqrt(half_b * half_b - c);
}

struct Extremes {
    double deepest = 0.0, proudest = 0.0;
};

/// Sample by sample, what every disc and the bar leave along the normal: deepest anywhere, as flanks cut
/// early or late run on into the nose, proudest over flanks and heel.
Extremes by_search(const SolvedLobe& lobe, const std::vector<HandCut>& cuts, double bar) {
    Extremes found;
    for (const ContourPiece& piece : lobe.contour.pieces()) {
        constexpr int samples = 200000;
        for (int k = 0; k <= samples; ++k) {
            const ContourPoint here = piece.at(piece.start + (piece.end - piece.start) * k / samples);
            const Vec2 nose = unit(lobe.at.radians());
            const Vec2 point = turned(here.point, nose), normal = turned(here.normal, nose);
            double left = way_out(point, normal, {}, bar);
            for (const HandCut& cut : cuts)
                left = std::min(left, way_out(point, normal, cut.centre(), cut.radius));
            found.deepest = std::min(found.deepest, left);
            if (piece.name != "nose")
                found.proudest = std::max(found.proudest, left);  // the file takes that off
        }
    }
    return found;
}

}  // namespace

// Samples of a smooth height miss its extreme by half its bend times the square of half their distance: at
// 200000 a piece, a radius of 25 mm and a turn of less than 5 radians, 2e-9 mm.
TEST_CASE("no place lies deeper than is told, none of flank or heel prouder, and the depth told is reached") {
    const double missed_by_samples = 2e-9;
    const unsigned seed = 6;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    for (int trial = 0; trial < 4; ++trial) {
        const SolvedLobe lobe = arcs_lobe({6, 2.4, 120, 25}, 40, "inlet");
        const double off = std::uniform_real_distribution<>(-2.0, 2.0)(random);
        std::vector<HandCut> cuts;
        for (const double facing :
             {100.0 + off, -20.0 + off, 107.0, 127.0, 155.0, 190.0, 230.0, 270.0, 310.0})
            cuts.push_back(swept_cut(ShaftAngle::from_degrees(facing), 19, 25));
        const auto noses = filed_noses(lobe);
        Outline outline = *outline_of(cuts, 8.5);
        for (const FiledNose& nose : noses)
            outline = filed(outline, nose);
        const Deviations told = deviations_of_arcs(lobe, cuts, {8.5, 0.0}, noses, outline);
        const Extremes found = by_search(lobe, cuts, 8.5);
        CHECK(told.deepest <= found.deepest + deviation_error);
        CHECK_NEAR(told.deepest, found.deepest, deviation_error + missed_by_samples);
        CHECK(told.proudest >= found.proudest - deviation_error);
        CHECK(told.proudest >= told.highest_ridge);
    }
}
