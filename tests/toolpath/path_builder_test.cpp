// The joining of parts to one path: against all choices, tried one by one.

#include "toolpath/path/path_builder.h"

#include "catch.h"
#include "five_lobes.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

Setup setup() {
    Job job = five_lobes::job_for(five_lobes::all()[0].lobe, 0.002);
    job.machine->limits.rotary_speed = 3600.0;
    return set_up(job, {});
}

PathPart part(const Setup& setup, long long from, long long to, long long axial, double seconds) {
    PathBuilder path(setup);
    path.begin_pass({});
    path.rapid_to({300000, axial, from});
    path.feed_to({250000, axial, to}, seconds * 2.0, 120.0);
    path.rapid_to({300000, axial, to});
    return path.finish();
}

/// Seconds of rapid from one part to the next, retracted: the shaft runs on to where that begins.
double change(const Setup& setup, const MachinePosition& from, const MachinePosition& to) {
    const double turn = 360.0 / setup.grid.rotary_step;
    double on = std::fmod(static_cast<double>(to.travel - from.travel), turn);
    if (on < 0.0) on += turn;
    // 60 degrees a second at 3600 a second squared: ramps of a sixtieth of a second, over half a degree each.
    const double degrees = on * setup.grid.rotary_step;
    return std::max(
        degrees == 0.0   ? 0.0
        : degrees >= 1.0 ? degrees / 60.0 + 1.0 / 60.0
                         : 2.0 * std::sqrt(degrees / 3600.0),
        std::abs(static_cast<double>(to.axial - from.axial)) * setup.grid.axial_step / 2000.0 * 60.0);
}

}  // namespace

TEST_CASE("of all choices of one part from each list the path takes the quickest") {
    constexpr unsigned seed = 555;
    std::mt19937 random(seed);
    const auto pick = [&](int a, int b) { return std::uniform_int_distribution<int>(a, b)(random); };
    const Setup s = setup();
    for (int trial = 0; trial < 40; ++trial) {
        std::vector<std::vector<PathPart>> lists(static_cast<std::size_t>(pick(1, 4)));
        for (std::size_t i = 0; i < lists.size(); ++i) {
            const int parts = pick(1, 4);
            for (int k = 0; k < parts; ++k) {
                const long long from = pick(0, 359999);
                lists[i].push_back(part(s, from, from + pick(1000, 400000),
                                        20000LL * static_cast<long long>(i), pick(1, 6)));
            }
        }
        double least = 1e9;
        std::vector<std::size_t> choice(lists.size(), 0);
        for (bool more = true; more;) {
            double seconds = 0.0;
            for (std::size_t i = 0; i < lists.size(); ++i) {
                const PathPart& here = lists[i][choice[i]];
                // The path starts at the rotary word 0, where its first part does.
                MachinePosition before{here.from.radial, here.from.axial, 0};
                if (i > 0) before = lists[i - 1][choice[i - 1]].to;
                seconds += here.seconds + change(s, before, here.from);
            }
            least = std::min(least, seconds);
            std::size_t i = 0;
            while (i < choice.size() && ++choice[i] == lists[i].size())
                choice[i++] = 0;
            more = i < choice.size();
        }
        const Toolpath path = fastest_path(s, lists);
        INFO("trial " << trial << " of seed " << seed);
        CHECK_NEAR(path.cycle_seconds, least, 1e-9 * least);
        Words at = path.start;
        for (const Move& move : path.moves) {
            CHECK(move.to.rotary * s.rotary_sign * s.facing_sign >=
                  at.rotary * s.rotary_sign * s.facing_sign);
            at = move.to;
        }
    }
}

TEST_CASE(
    "a chain of feed moves is timed as one, and its seconds are booked with the passes that they belong to") {
    const Setup s = setup();
    PathBuilder path(s);
    path.rapid_to({300000, 0, 0});
    path.begin_pass({});
    path.feed_to({250000, 0, 10000}, 10.0, 120.0);
    path.count_contour_block();
    path.feed_to({250000, 0, 60000}, 30.0, 120.0);
    path.begin_pass({});
    path.count_contour_block();
    path.feed_to({250000, 0, 90000}, 20.0, 120.0);
    path.rapid_to({300000, 0, 90000});
    const PathPart part = path.finish();
    REQUIRE(part.passes.size() == 2);
    CHECK(part.passes[0].contour_blocks == 1);
    CHECK(part.passes[0].last == part.passes[1].first);
    double seconds = 0.0;
    for (std::size_t i = part.passes[0].first; i < part.passes[0].last; ++i)
        seconds += part.moves[i].seconds;
    CHECK_NEAR(part.passes[0].seconds, seconds, 1e-12);
    CHECK(part.passes[1].seconds >= 10.0);  // 20 mm at 120 mm/min
    double settled = 0.0;
    for (const double at : part.passes[1].seconds_at)
        settled += at;
    CHECK_NEAR(settled, part.passes[1].seconds, 1e-12);
}
