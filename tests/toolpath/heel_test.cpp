/// The base circle, where the valve's clearance is set: the word stands still on it.
#include "catch.h"
#include "five_lobes.h"
#include "random_job.h"

#include <algorithm>
#include <map>

using namespace lobewright;

namespace {

/// Directions in the lobe's frame, radians, between which the contour is base circle, a little drawn in.
struct BaseCircle {
    double start = 0.0;
    double end = 0.0;
};

std::vector<BaseCircle> base_circles(const SolvedLobe& lobe) {
    std::vector<BaseCircle> found;
    for (const ContourPiece& piece : lobe.contour.pieces()) {
        const Vec2 ends[] = {piece.at(piece.start).point, piece.at(piece.end).point,
                             piece.at(0.5 * (piece.start + piece.end)).point};
        if (std::any_of(std::begin(ends), std::end(ends),
                        [&](Vec2 p) { return std::abs(length(p) - lobe.base_radius) > 1e-9; })) {
            continue;
        }
        const double start = direction(ends[0]) + 1e-4;
        double end = direction(ends[1]) - 1e-4;
        while (end < start)
            end += full_turn;
        if (end - start < 6.0) found.push_back({start, end});
    }
    return found;
}

/// The radial words on the base circles of finish passes over a lobe whose contact stands where the shaft
/// faces the cutter.
std::map<long long, int> words_on(const Toolpath& path, const SolvedLobe& lobe, int sense,
                                  const BaseCircle& circle) {
    std::map<long long, int> words;
    const auto off = [&](long long rotary) {
        const double facing = sense * static_cast<double>(rotary) * path.grid.rotary_step * full_turn / 360.0;
        double along = facing - lobe.at.radians() - circle.start;
        along -= full_turn * std::floor(along / full_turn);
        return along;
    };
    for (const Pass& pass : path.passes) {
        if (pass.kind != PassKind::finish && pass.kind != PassKind::spring) continue;
        for (int i = 0; i < pass.contour_blocks; ++i) {
            const std::size_t move = pass.contour_first + static_cast<std::size_t>(i);
            const Words a = path.moves[move - 1].to, b = path.moves[move].to;
            constexpr int parts = 50;
            for (int k = 0; k <= parts; ++k) {
                const double share = static_cast<double>(k) / parts;
                const double rotary =
                    static_cast<double>(a.rotary) * (1.0 - share) + static_cast<double>(b.rotary) * share;
                if (off(std::llround(rotary)) > circle.end - circle.start) continue;
                ++words[a.radial], ++words[b.radial];
                break;
            }
        }
    }
    return words;
}

}  // namespace

TEST_CASE("on the base circle the radial word stands still, within half a step of the design") {
    const WordGrid grids[] = {{}, {2.54e-4, 2.54e-4, 1e-2, 0.0, 0.0}, {1e-4, 1e-4, 1e-3, 4.0, 0.001}};
    for (const five_lobes::Case& c : five_lobes::all()) {
        const std::vector<BaseCircle> circles = base_circles(c.lobe);
        REQUIRE(circles.size() == 1);
        for (const WordGrid& grid : grids) {
            for (const double tolerance : {0.02, 0.002}) {
                Job job = five_lobes::job_for(c.lobe, tolerance);
                job.cut->allowance = 0.0371;
                job.cut->spring_passes = 1;
                const auto path = plan_toolpath(job, {c.lobe}, grid);
                REQUIRE(path.ok());
                const auto words = words_on(*path, c.lobe, -1, circles.front());
                INFO(c.name << ", tolerance " << tolerance << ", step " << grid.radial_step);
                REQUIRE(words.size() == 1);
                const double word = static_cast<double>(words.begin()->first) * grid.radial_step;
                CHECK_NEAR(word, c.lobe.base_radius + 0.0371 + 16.0, 0.5 * grid.radial_step + 1e-9);
                CHECK(words.begin()->second >= 4);  // both passes were seen
            }
        }
    }
}

TEST_CASE("a ring of several lobes has all its base circles at one word, and rings of roughing have too") {
    Job job = basalt::job(basalt::law(LawKind::cycloidal, 10.0, 0.3, 35.0, 35.0), basalt::flat(40.0));
    job.lobes.front().repeat = 3;
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    REQUIRE(lobes->size() == 1);
    const SolvedLobe& ring = lobes->front();
    const std::vector<BaseCircle> circles = base_circles(ring);
    REQUIRE(circles.size() == 3);
    Job cutting = five_lobes::job_for(ring, 0.002);
    cutting.cut->rough_depth = 0.5;
    const auto path = plan_toolpath(cutting, {ring}, {});
    REQUIRE(path.ok());
    for (const BaseCircle& circle : circles) {
        const auto words = words_on(*path, ring, -1, circle);
        REQUIRE(words.size() == 1);
        CHECK(words.begin()->first == 260000);  // base circle and cutter, 10 + 16 mm
    }
}
