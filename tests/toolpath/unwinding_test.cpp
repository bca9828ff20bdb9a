#include "basalt.h"
#include "catch.h"
#include "five_lobes.h"
#include "planned.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

using namespace lobewright;

namespace {

/// Three lobes, roughed in many rings: the shaft turns on through dozens of turns.
const std::vector<SolvedLobe>& lobes() {
    static const std::vector<SolvedLobe> made = [] {
        const auto all = five_lobes::all();
        std::vector<SolvedLobe> three;
        for (const std::size_t i : {0u, 1u, 3u}) {
            SolvedLobe lobe = all[i].lobe;
            lobe.name = std::to_string(i);
            lobe.z = 20.0 + 40.0 * static_cast<double>(three.size());
            lobe.width = 6.0;
            three.push_back(lobe);
        }
        return three;
    }();
    return made;
}

Job job_of(int spring_passes = 0) {
    Job job = five_lobes::job_for(lobes().front(), 0.005);
    job.shaft.blank_diameter = 30.0;
    job.cut->rough_depth = 0.5;
    job.cut->spring_passes = spring_passes;
    job.lobes.clear();
    for (const SolvedLobe& lobe : lobes())
        job.lobes.push_back({lobe.name, "p", "f", lobe.at, 0, Valve::inlet, lobe.z, lobe.width, 1});
    return job;
}

double degrees(const Toolpath& path, long long steps) {
    return static_cast<double>(steps) * path.grid.rotary_step;
}

double furthest(const Toolpath& path) {
    double far = std::abs(degrees(path, path.start.rotary));
    for (const Move& move : path.moves)
        far = std::max(far, std::abs(degrees(path, move.to.rotary)));
    return far;
}

/// What the rapids of a path take by speeds and accelerations, from rest to rest.
double rapids_of(const Toolpath& path, const AxisLimits& limits) {
    const auto axis = [](double way, double per_minute, double acceleration) {
        const double speed = per_minute / 60.0, size = std::abs(way);
        if (acceleration == 0.0) return size / speed;
        return size < speed * speed / acceleration ? 2.0 * std::sqrt(size / acceleration)
                                                   : size / speed + speed / acceleration;
    };
    double seconds = 0.0;
    Words at = path.start;
    for (const Move& move : path.moves) {
        if (move.kind == MoveKind::rapid) {
            const auto way = [&](long long from, long long to, double step) {
                return static_cast<double>(to - from) * step;
            };
            seconds +=
                std::max({axis(way(at.radial, move.to.radial, path.grid.radial_step), *limits.radial_speed,
                               *limits.radial_acceleration),
                          axis(way(at.axial, move.to.axial, path.grid.axial_step), *limits.axial_speed, 0.0),
                          axis(degrees(path, move.to.rotary - at.rotary), *limits.rotary_speed,
                               *limits.rotary_acceleration)});
        }
        at = move.to;
    }
    return seconds;
}

/// The feed moves as direction of the shaft (whole turns taken off), radial and axial word and time.
std::vector<std::array<double, 4>> feeds_of(const Toolpath& path) {
    std::vector<std::array<double, 4>> feeds;
    for (const Move& move : path.moves) {
        if (move.kind != MoveKind::feed) continue;
        const long long turn = std::llround(360.0 / path.grid.rotary_step);
        feeds.push_back({static_cast<double>(((move.to.rotary % turn) + turn) % turn),
                         static_cast<double>(move.to.radial), static_cast<double>(move.to.axial),
                         move.seconds});
    }
    return feeds;
}

/// The fewest times that the count of turns must change, by trying every count for every way from retracted
/// to retracted of the path that runs on.
int fewest_changes(const Toolpath& free, double reach) {
    std::vector<std::pair<double, double>> strokes;  // of feeds and what lies between, low and high
    bool clear = true;
    Words at = free.start;
    for (const Move& move : free.moves) {
        const double from = degrees(free, at.rotary), to = degrees(free, move.to.rotary);
        if (clear && move.kind == MoveKind::feed) strokes.emplace_back(from, from);
        if (move.kind == MoveKind::feed) {
            strokes.back().first = std::min(strokes.back().first, to);
            strokes.back().second = std::max(strokes.back().second, to);
        }
        clear = move.kind == MoveKind::rapid;
        at = move.to;
    }
    std::map<int, int> changes;
    for (int k = -200; k <= 200; ++k)
        changes[k] = 0;
    for (const auto& [low, high] : strokes) {
        int least = std::numeric_limits<int>::max() / 2;
        for (const auto& [k, count] : changes)
            least = std::min(least, count);
        std::map<int, int> next;
        for (int k = -200; k <= 200; ++k) {
            if (low + 360.0 * k < -reach - 1e-9 || high + 360.0 * k > reach + 1e-9) continue;
            const auto kept = changes.find(k);
            next[k] = kept == changes.end() ? least + 1 : std::min(kept->second, least + 1);
        }
        changes = next;
    }
    int least = std::numeric_limits<int>::max();
    for (const auto& [k, count] : changes)
        least = std::min(least, count);
    return least;
}

}  // namespace

TEST_CASE("within a rotary travel the shaft winds back clear of the work, as rarely as will do") {
    for (const Sense rotary : {Sense::ccw, Sense::cw}) {
        Job job = job_of();
        job.machine->rotary_positive = rotary;
        const Toolpath free = planned(job, lobes());
        CHECK(free.unwindings.empty());
        CHECK(furthest(free) > 6000.0);
        for (const double travel : {400.0, 777.7, 2000.0, 5000.0}) {
            job.machine->limits.rotary_travel = travel;
            const Toolpath kept = planned(job, lobes());
            INFO("travel " << travel);
            CHECK(furthest(kept) <= travel);
            CHECK(feeds_of(kept) == feeds_of(free));
            CHECK(static_cast<int>(kept.unwindings.size()) == fewest_changes(free, travel));
            CHECK_FALSE(kept.unwindings.empty());
            for (const std::size_t i : kept.unwindings) {
                const Words& from = i == 0 ? kept.start : kept.moves[i - 1].to;
                CHECK(kept.moves[i].kind == MoveKind::rapid);
                CHECK(from.radial >= kept.start.radial);
                CHECK(kept.moves[i].to.radial >= kept.start.radial);
            }
            const AxisLimits& limits = job.machine->limits;
            CHECK_NEAR(kept.cycle_seconds - free.cycle_seconds,
                       rapids_of(kept, limits) - rapids_of(free, limits), 1e-6);
            CHECK_NEAR(kept.unwinding_seconds, kept.cycle_seconds - free.cycle_seconds, 1e-6);
        }
    }
}

TEST_CASE("what the dialect's words hold is kept likewise, and the lesser of both counts") {
    Job job = job_of();
    WordGrid grid;
    grid.largest_rotary = 1000.0;
    CHECK(furthest(planned(job, lobes(), grid)) <= 1000.0);
    job.machine->limits.rotary_travel = 600.0;
    CHECK(furthest(planned(job, lobes(), grid)) <= 600.0);
    job.machine->limits.rotary_travel = 5000.0;
    const Toolpath path = planned(job, lobes(), grid);
    CHECK(furthest(path) <= 1000.0);
    CHECK(furthest(path) > 700.0);
}

TEST_CASE("passes still hold their own moves after rapids were put in") {
    Job job = job_of();
    job.machine->limits.rotary_travel = 400.0;
    const Toolpath path = planned(job, lobes());
    std::size_t next = 0;
    for (const Pass& pass : path.passes) {
        CHECK(pass.first == next);
        next = pass.last;
        REQUIRE(pass.contour_first < pass.last);
        CHECK(path.moves[pass.contour_first].kind == MoveKind::feed);
        CHECK(path.moves[pass.contour_first - 1].kind == MoveKind::feed);
        CHECK(path.moves[pass.last - 1].kind == MoveKind::rapid);
    }
    CHECK(next == path.moves.size());
}

TEST_CASE("a travel too short for one pass is refused with the one that would do") {
    for (const int spring_passes : {0, 2}) {
        Job job = job_of(spring_passes);
        job.machine->limits.rotary_travel = 180.0;
        job.places["machine.limits.rotary_travel"] = {"job.toml", 12, 1};
        const auto refused = plan_toolpath(job, lobes(), {});
        REQUIRE_FALSE(refused.ok());
        const Diagnostic& why = refused.diagnostics().front();
        CHECK(why.code == "rotary-travel-too-short");
        CHECK(why.place.line == 12);
        CHECK_THAT(to_text(why), ContainsSubstring("180 either side of zero") &&
                                     ContainsSubstring("less than 360 degrees and the overlap"));
        CHECK((why.remedy.find("spring_passes") != std::string::npos) == (spring_passes > 0));
        REQUIRE(why.remedy.rfind("it takes ", 0) == 0);
        const double least = std::strtod(why.remedy.c_str() + 9, nullptr);
        CHECK(least > 180.0);
        job.machine->limits.rotary_travel = least;
        CHECK(furthest(planned(job, lobes())) <= least);
        job.machine->limits.rotary_travel = least - 0.01;
        CHECK_FALSE(plan_toolpath(job, lobes(), {}).ok());
    }
}

TEST_CASE("a post whose words are too small for one pass is named as the cause") {
    WordGrid grid;
    grid.largest_rotary = 100.0;
    const auto refused = plan_toolpath(job_of(), lobes(), grid);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.diagnostics().front().code == "rotary-travel-too-short");
    CHECK_THAT(refused.diagnostics().front().what, ContainsSubstring("the post lets"));
}

TEST_CASE("the plan tells how often the shaft winds back, and how long that takes") {
    Job job = job_of();
    job.machine->limits.rotary_travel = 1000.0;
    const Toolpath path = planned(job, lobes());
    CHECK_THAT(
        toolpath_totals_text(lobes(), path),
        ContainsSubstring("The shaft winds back " + std::to_string(path.unwindings.size()) + " times"));
    CHECK_THAT(toolpath_json(job, lobes(), path),
               ContainsSubstring("\"unwindings\": " + std::to_string(path.unwindings.size())));
}
