#include "hand/finish/deviations.h"

#include "catch.h"
#include "hand/outline/touch_map.h"
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

constexpr Arcs arcs{6, 2.4, 120, 25};

struct Extremes {
    double deepest = 0.0, proudest = 0.0;
};

/// Sample by sample, what every disc and the bar leave along the normal: deepest anywhere, as flanks cut
/// early or late run on into the nose, proudest over flanks and heel,
/// where the file goes no deeper than the tangents at the nose's joints.
Extremes by_search(const SolvedLobe& lobe, const std::vector<HandCut>& cuts, double bar) {
    const double joint = arcs.half() - arcs.flank_turn(),
                 rim = arcs.nose_centre() * std::cos(joint) + arcs.nose();
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
            if (piece.name == "nose") continue;  // the file takes off what stands there
            for (const Vec2 facing : {unit(-joint), unit(joint)}) {
                const double steep = dot(here.normal, facing);
                if (steep > 0.0) left = std::min(left, (rim - dot(here.point, facing)) / steep);
            }
            found.proudest = std::max(found.proudest, left);
        }
    }
    return found;
}

/// A lobe whose flanks are cut at these marks and its heel at every fifth degree between, its nose filed.
struct Filed {
    SolvedLobe lobe = arcs_lobe(arcs, 40, "inlet");
    std::vector<HandCut> cuts;
    Deviations told;

    Filed(double closing, double opening) {
        cuts = {swept(closing), swept(opening)};
        for (double heel = 107.0; heel < 335.0; heel += 5.0)
            cuts.push_back(swept(heel));
        const auto noses = filed_noses(lobe);
        Outline outline = *outline_of(cuts, 8.5);
        for (const FiledNose& nose : noses)
            outline = filed(outline, nose);
        told = deviations_of_arcs(lobe, cuts, {8.5, 0.0}, noses, outline);
    }
    static HandCut swept(double facing) { return swept_cut(ShaftAngle::from_degrees(facing), 19, 25); }
};

}  // namespace

// Samples of a smooth height miss its extreme by half its bend times the square of half their distance: at
// 200000 a piece, a radius of 25 mm and a turn of less than 5 radians, 2e-9 mm.
TEST_CASE("no place lies deeper than is told, none of flank or heel prouder, and the depth told is reached") {
    const double missed_by_samples = 2e-9;
    const unsigned seed = 6;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    for (int trial = 0; trial < 4; ++trial) {
        const double off = std::uniform_real_distribution<>(-2.0, 2.0)(random);
        const auto [lobe, cuts, told] = Filed(100.0 + off, -20.0 + off);
        const Extremes found = by_search(lobe, cuts, 8.5);
        CHECK(told.deepest <= found.deepest + deviation_error);
        CHECK_NEAR(told.deepest, found.deepest, deviation_error + missed_by_samples);
        CHECK(told.proudest >= found.proudest - deviation_error);
        CHECK(told.proudest >= told.highest_ridge);
    }
}

TEST_CASE("what a flank cut too far out leaves beside the nose the file takes off, on either side alike") {
    const Filed closing_out(101.5, -20.0), opening_out(100.0, -21.5);
    for (const Filed* each : {&closing_out, &opening_out}) {
        const Extremes found = by_search(each->lobe, each->cuts, 8.5);
        CHECK(found.proudest > 0.03);
        CHECK(each->told.proudest >= found.proudest - deviation_error);
        // Where file and cut meet samples may miss the edge by half their distance, at less than 1 mm a
        // radian.
        CHECK_NEAR(each->told.proudest, found.proudest, 1e-5);
    }
}

TEST_CASE("a lobe's place by its parameter is the same however often the count has been round") {
    const TouchMap map(arcs_lobe(arcs, 40, "inlet").contour, std::nullopt);
    CHECK(map.period() == 4.0);
    for (const double parameter : {0.3, 1.5, 2.2, 3.9}) {
        for (const int turns : {-2, 1, 3}) {
            const ContourPoint once = map.at(parameter), again = map.at(parameter + 4.0 * turns);
            CHECK(length(again.point - once.point) < 1e-12);
            CHECK(length(again.normal - once.normal) < 1e-12);
        }
    }
}
