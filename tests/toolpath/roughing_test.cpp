#include "toolpath/roughing/roughing.h"

#include "catch.h"
#include "five_lobes.h"
#include "planned.h"
#include "random_job.h"
#include "trials.h"

#include <algorithm>
#include <functional>

using namespace lobewright;
using lobewright::toolpath::allowed_roughings;
using lobewright::toolpath::Roughing;
using lobewright::toolpath::roughing_in;

namespace {

/// The Basalt four of the tests with the example's feeds, limits and a disc that covers a lobe in one place.
Job four() {
    Job job = basalt::four();
    job.cutters["disc32"].width = 7.0;
    job.cut->surface_feed = 80.0;
    job.cut->rough_surface_feed = 60.0;
    AxisLimits& limits = job.machine->limits;
    limits.radial_speed = limits.axial_speed = 2000.0;
    limits.rotary_speed = 7200.0;
    limits.radial_acceleration = 300.0, limits.rotary_acceleration = 3600.0;
    limits.blocks_per_second = 400.0;
    return job;
}

int passes_of(const Toolpath& path, PassKind kind) {
    return static_cast<int>(std::count_if(path.passes.begin(), path.passes.end(),
                                          [&](const Pass& pass) { return pass.kind == kind; }));
}

/// Area and length of a lobe's contour by chords, mm² and mm.
struct Measure {
    double area = 0.0;
    double length = 0.0;
};
Measure measure(const Contour& contour) {
    Measure found;
    for (const ContourPiece& piece : contour.pieces()) {
        constexpr int each = 2000;
        Vec2 before = piece.at(piece.start).point;
        for (int i = 1; i <= each; ++i) {
            const Vec2 here = piece.at(piece.start + (piece.end - piece.start) * i / each).point;
            found.area += 0.5 * (before.x * here.y - before.y * here.x);
            found.length += length(here - before);
            before = here;
        }
    }
    return found;
}

}  // namespace

TEST_CASE("rings of a roughing and what it leaves make up the whole stock, and more rings are less deep") {
    for (const double tolerance : {0.001, 0.02, 0.1}) {
        for (const double total : {0.05, 0.3, 0.9, 2.5, 9.0}) {
            for (const bool semi_finish : {false, true}) {
                double before = 1e9;
                for (int rings = 0; rings < 12; ++rings) {
                    const auto found = roughing_in(rings, semi_finish, total, tolerance);
                    if (!found) continue;
                    INFO(total << " mm in " << rings << " at " << tolerance);
                    const int passes = semi_finish ? 2 : 1;
                    CHECK_NEAR(rings * found->depth + passes * found->left, total, 1e-12);
                    CHECK(found->left <= std::max(0.25, 4.0 * tolerance) + 1e-12);
                    CHECK(found->left <= std::max(0.5 * found->depth, 4.0 * tolerance) + 1e-12);
                    CHECK(found->depth < before);
                    before = found->depth;
                }
            }
        }
    }
}

TEST_CASE("a pass finds what lies between it and the one before, and what that one left proud") {
    for (const double total : {0.9, 2.5, 9.0}) {
        for (const bool semi_finish : {false, true}) {
            for (int count = 1; count < 8; ++count) {
                const auto roughing = roughing_in(count, semi_finish, total, 0.002);
                if (!roughing) continue;
                const auto found = lobewright::toolpath::rings(*roughing, 0.05, 0.002);
                REQUIRE(found.size() == static_cast<std::size_t>(count) + (semi_finish ? 1 : 0));
                double outside = 0.05 + total, proud = 0.0;  // the bar, which nothing left proud
                for (const auto& ring : found) {
                    INFO(total << " mm in " << count);
                    CHECK_NEAR(ring.stock, outside - ring.left_on + proud, 1e-12);
                    outside = ring.left_on, proud = ring.margins.proud;
                }
                CHECK_NEAR(outside, 0.05 + roughing->left, 1e-12);
            }
        }
    }
}

TEST_CASE("whatever roughing a depth allows, a larger depth allows too, or one with fewer rings") {
    for (double depth = 0.02; depth < 4.0; depth *= 1.01) {
        const auto allowed = allowed_roughings(2.5, 0.002, depth);
        REQUIRE_FALSE(allowed.empty());
        const auto more = allowed_roughings(2.5, 0.002, depth * 1.01);
        for (const Roughing& roughing : allowed) {
            CHECK(roughing.depth <= depth * (1.0 + 1e-9));
            CHECK(std::any_of(more.begin(), more.end(), [&](const Roughing& other) {
                return other.semi_finish == roughing.semi_finish && other.rings <= roughing.rings;
            }));
        }
        const auto fewest = std::min_element(allowed.begin(), allowed.end(),
                                             [](const auto& a, const auto& b) { return a.rings < b.rings; });
        const auto fewer = roughing_in(fewest->rings - 1, true, 2.5, 0.002);
        CHECK((fewest->rings == 0 || !fewer || fewer->depth > depth));
    }
}

TEST_CASE(
    "the fewest rings are looked at, and up to three more, each without a semi-finish pass and with one") {
    for (const double depth : {0.2, 0.33, 0.7, 1.1}) {
        std::vector<int> found[2];
        for (const Roughing& roughing : allowed_roughings(2.5, 0.002, depth))
            found[roughing.semi_finish ? 1 : 0].push_back(roughing.rings);
        for (const bool semi_finish : {false, true}) {
            // The finish pass, and the semi-finish pass, take half a depth each, a quarter of a millimetre at
            // most.
            const double rest = 2.5 - (semi_finish ? 2.0 : 1.0) * std::min(0.5 * depth, 0.25);
            const int fewest = static_cast<int>(std::ceil(rest / depth));
            INFO(depth << " mm deep, " << fewest << " at least");
            CHECK(found[semi_finish ? 1 : 0] == std::vector{fewest, fewest + 1, fewest + 2, fewest + 3});
        }
    }
}

namespace {

/// How often the program becomes quicker, and winds its shaft back, while rough_depth rises in fine steps
/// over random jobs; it must never become slower.
struct Deeper {
    int jobs = 0, falls = 0, wound = 0;
};
Deeper deepened(unsigned seed, int jobs, const std::function<void(AxisLimits&, random_job::Source&)>& limit) {
    random_job::Source random(seed);
    Deeper found;
    while (found.jobs < campaign("LOBEWRIGHT_RANDOM_JOBS", costly_trials(jobs))) {
        random_job::Drawn drawn = random_job::draw(random);
        drawn.job.cut->rough_depth = random.log_between(0.08, 0.5);
        *drawn.job.shaft.blank_diameter += random.between(0.0, 4.0);
        limit(drawn.job.machine->limits, random);
        double before = 0.0;
        INFO("job " << found.jobs << " of seed " << seed);
        for (int i = 0; i < 30; ++i) {
            const auto path = plan_toolpath(drawn.job, drawn.lobes, drawn.grid);
            if (!path) break;
            found.wound += path->unwindings.empty() ? 0 : 1;
            if (i == 0) {
                ++found.jobs;
            } else {
                INFO("rough_depth " << *drawn.job.cut->rough_depth);
                CHECK(path->cycle_seconds <= before);
                found.falls += path->cycle_seconds < before ? 1 : 0;
            }
            before = path->cycle_seconds;
            *drawn.job.cut->rough_depth *= random.between(1.0, 1.2);
        }
    }
    return found;
}

}  // namespace

TEST_CASE("a deeper roughing cut never makes the program slower, over random jobs and fine steps of depth") {
    const Deeper found = deepened(90210, 8, [](AxisLimits&, random_job::Source&) {});
    CHECK(found.falls > found.jobs);  // the depths do matter
}

TEST_CASE("nor does it where the shaft must be wound back on the way") {
    const Deeper found = deepened(90211, 6, [](AxisLimits& limits, random_job::Source& random) {
        limits.rotary_travel = random.between(430.0, 1500.0);
    });
    CHECK(found.falls > found.jobs);
    CHECK(found.wound > 10 * found.jobs);
}

TEST_CASE("the Basalt four takes at most 1.10 of what its stock at that depth, and its feeds, ask for") {
    Job job = four();
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    double minutes = 0.0;
    for (const SolvedLobe& lobe : *lobes) {
        const Measure finished = measure(lobe.contour);
        const double blank = 0.25 * std::numbers::pi * 17.0 * 17.0;
        minutes += (blank - finished.area) / (0.8 * 60.0) + finished.length / 80.0;
    }
    job.cut->rough_depth = 0.8;
    const double planned_minutes = planned(job, *lobes).cycle_seconds / 60.0;
    INFO(planned_minutes << " min, bound " << minutes);
    CHECK(planned_minutes <= 1.10 * minutes);
    CHECK(planned_minutes >= 0.95 * minutes);
}

TEST_CASE("a semi-finish pass goes between where it saves a ring and is quicker, and no more than one") {
    Job job = four();
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const auto passes = [&](double depth, PassKind kind) {
        job.cut->rough_depth = depth;
        return passes_of(planned(job, *lobes), kind);
    };
    // 2.5 mm on the heel: in rings of 0.8 all but 0.25 needs three; in rings of 1.0 two, if the last
    // 0.5 are taken in two passes at the finish pass's feed, which is quicker than a third ring.
    CHECK(passes(0.8, PassKind::roughing) == 24);
    CHECK(passes(0.8, PassKind::semi_finish) == 0);
    CHECK(passes(1.0, PassKind::roughing) == 16);
    CHECK(passes(1.0, PassKind::semi_finish) == 8);
    job.cut->rough_surface_feed = 120.0;
    CHECK(passes(1.0, PassKind::roughing) == 24);
    CHECK(passes(1.0, PassKind::semi_finish) == 0);
}

TEST_CASE("spring passes run on without leaving the work, and repeat the finish pass's words a turn later") {
    for (const five_lobes::Case& c : five_lobes::all()) {
        Job job = five_lobes::job_for(c.lobe, 0.002);
        job.cut->spring_passes = 2;
        const Toolpath path = planned(job, {c.lobe});
        REQUIRE(path.passes.size() == 3);
        const auto knots = [&](const Pass& pass) {
            std::vector<Words> found;
            for (int i = -1; i < pass.contour_blocks; ++i)
                found.push_back(path.moves[pass.contour_first + static_cast<std::size_t>(i)].to);
            return found;
        };
        const auto is_rapid = [](const Move& move) { return move.kind == MoveKind::rapid; };
        INFO(c.name);
        CHECK(std::count_if(path.moves.begin(), path.moves.end(), is_rapid) == 2);  // to the start, and out
        const std::vector<Words> finish = knots(path.passes[0]);
        for (const std::size_t i : {std::size_t{1}, std::size_t{2}}) {
            const std::vector<Words> spring = knots(path.passes[i]);
            REQUIRE(spring.size() == finish.size());
            for (std::size_t k = 0; k + 1 < finish.size(); ++k) {
                CHECK(spring[k].radial == finish[k].radial);
                CHECK(std::abs(spring[k].rotary - finish[k].rotary) ==
                      std::llround(static_cast<double>(i) * 360.0 / path.grid.rotary_step));
            }
        }
    }
}
