/// A figure that allows more never makes the program slower: what was allowed still is.
#include "catch.h"
#include "random_job.h"
#include "toolpath/path/block_timing.h"
#include "trials.h"

#include <algorithm>
#include <cmath>
#include <functional>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

/// Of two digits, rising, in the job's unit.
std::vector<double> figures(random_job::Source& random, double low, double high, int count) {
    std::vector<double> found;
    for (int i = 0; i < count; ++i)
        found.push_back(figure_below(random.log_between(low, high)));
    std::sort(found.begin(), found.end());
    return found;
}

/// By how much of itself the cycle time rises at most from one figure to the next; and how often it falls.
struct Changes {
    double rise = 0.0;
    int falls = 0;
};
Changes changes(random_job::Drawn drawn, const std::vector<double>& values,
                const std::function<void(Job&, double)>& set) {
    Changes found;
    double before = 0.0;
    for (const double value : values) {
        set(drawn.job, value);
        const auto path = plan_toolpath(drawn.job, drawn.lobes, drawn.grid);
        if (!path) continue;
        const double now = path->cycle_seconds;
        if (before > 0.0) found.rise = std::max(found.rise, now / before - 1.0);
        found.falls += now < before ? 1 : 0;
        before = now;
    }
    return found;
}

/// Cycle times are sums of thousands of blocks.
constexpr double rounding = 1e-9;

/// Asks random jobs, so many or as many as a campaign asks for, each at surface feeds that rise from 20 to
/// 900 mm a minute, after `limit` has set what bounds it: none may get slower. How often one gets quicker.
int falls_with_feed(unsigned seed, int jobs, int feeds,
                    const std::function<void(random_job::Drawn&, random_job::Source&)>& limit) {
    random_job::Source random(seed);
    int falls = 0;
    for (int i = 0; i < campaign("LOBEWRIGHT_RANDOM_JOBS", jobs); ++i) {
        random_job::Drawn drawn = random_job::draw(random);
        limit(drawn, random);
        const double unit = mm_per(drawn.job.units);
        const auto found =
            changes(drawn, figures(random, 20.0 / unit, 900.0 / unit, feeds), [&](Job& job, double feed) {
                job.cut->surface_feed = feed * unit;
                job.cut->rough_surface_feed = feed * unit;
            });
        INFO("job " << i << " of seed " << seed);
        CHECK(found.rise <= rounding);
        falls += found.falls;
    }
    return falls;
}

}  // namespace

TEST_CASE("the figure of two digits below another is the next that one may write") {
    CHECK(figure_below(120.0) == 110.0);
    CHECK(figure_below(100.0) == 99.0);
    CHECK_NEAR(figure_below(81.3), 81.0, 1e-12);
    CHECK_NEAR(figure_below(0.35), 0.34, 1e-12);
    CHECK_NEAR(figure_below(1.0), 0.99, 1e-12);
    CHECK(figure_below(7200.0) == 7100.0);
}

TEST_CASE(
    "more surface feed never makes the program slower, whether the controller stops at each block or not") {
    const int falls =
        falls_with_feed(515, trials(30), 6, [](random_job::Drawn& drawn, random_job::Source& random) {
            drawn.job.machine->limits.radial_jump.reset();
            drawn.job.machine->limits.rotary_jump.reset();
            if (random.chance(0.5)) drawn.grid.blend_tolerance = 0.1 * drawn.job.cut->tolerance;
        });
    CHECK(falls > 10);
}

TEST_CASE(
    "more surface feed never makes the program slower where jumps of the axes' speeds are limited either") {
    const int falls =
        falls_with_feed(616, trials(8), 4, [](random_job::Drawn& drawn, random_job::Source& random) {
            drawn.job.machine->limits.radial_jump = random.log_between(5.0, 500.0);
            drawn.job.machine->limits.rotary_jump = random.log_between(50.0, 2000.0);
        });
    CHECK(falls > 2);
}

// Blocks that are fewer lie otherwise against the axes' limits, which takes or gives a thousandth: measured
// over 429 steps 0.16 %. What must not be is a wait for a turn of the shaft where a tolerance moves the place
// by a hair at which a pass may begin: 7 % of a program's time in one of these jobs.
TEST_CASE("a looser tolerance makes no program slower but by a trifle, whether the controller stops or not") {
    constexpr unsigned seed = 717;
    constexpr double trifle = 0.002;
    random_job::Source random(seed);
    const int jobs = campaign("LOBEWRIGHT_RANDOM_JOBS", trials(20));
    int falls = 0;
    for (int i = 0; i < jobs; ++i) {
        random_job::Drawn drawn = random_job::draw(random);
        drawn.job.machine->limits.radial_jump.reset();
        drawn.job.machine->limits.rotary_jump.reset();
        if (random.chance(0.5)) drawn.grid.blend_tolerance = 0.00005;
        const double unit = mm_per(drawn.job.units);
        const auto found =
            changes(drawn, figures(random, 0.0005 / unit, 0.02 / unit, 6),
                    [&](Job& job, double tolerance) { job.cut->tolerance = tolerance * unit; });
        INFO("job " << i << " of seed " << seed);
        CHECK(found.rise <= trifle);
        falls += found.falls;
    }
    CHECK(falls > jobs);
}
