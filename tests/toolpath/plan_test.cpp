#include "catch.h"
#include "five_lobes.h"
#include "independent.h"
#include "planned.h"
#include "sweep.h"
#include "word_limits.h"

#include <algorithm>

using namespace lobewright;

namespace {

/// Facing directions of a shaft whose rotary axis counts ccw, radians.
double facing(const Toolpath& path, std::size_t move) {
    return -static_cast<double>(path.moves[move].to.rotary) * path.grid.rotary_step * full_turn / 360.0;
}

/// Values of the independent stands, in proportion between two.
class Around {
  public:
    Around(const SolvedLobe& lobe, double radius)
        : stands_(independent::stands(lobe.contour, radius, count)), at_(lobe.at.radians()) {}
    static constexpr int count = 14400;
    [[nodiscard]] independent::Stand at(double phi) const {
        const double place = (phi - at_ + std::numbers::pi) / full_turn * count;
        const double whole = std::floor(place), share = place - whole;
        const auto index = [](double i) {
            return static_cast<std::size_t>(i - count * std::floor(i / count));
        };
        const independent::Stand &a = stands_[index(whole)], &b = stands_[index(whole + 1.0)];
        return {a.radial + share * (b.radial - a.radial), a.cosine + share * (b.cosine - a.cosine),
                a.arc + share * (b.arc - a.arc)};
    }

  private:
    std::vector<independent::Stand> stands_;
    double at_;
};

}  // namespace

namespace {

/// The fewest blocks of any path through the tolerance from one place of travel to another that is level on
/// the heel, on whatever grid; no regard to what a controller runs away with.
int fewest_blocks(const five_lobes::Case& c, const Around& around, double tolerance, double radial_step,
                  double from, double to) {
    std::vector<double> at, low, high;
    for (double phi = from; phi <= to; phi += full_turn / Around::count) {
        const independent::Stand s = around.at(phi);
        const bool heel = s.radial < c.lobe.base_radius + 1e-7;
        const double margin = heel ? radial_step : tolerance / s.cosine;
        at.push_back(phi);
        low.push_back(s.radial - margin);
        high.push_back(s.radial + margin);
    }
    return independent::fewest_unjoined(at, low, high);
}

/// For each lobe and tolerance from 5 to 0.2 um; `grid`: as a dialect has it.
void check_blocks(const WordGrid& grid) {
    int blocks = 0, bounds = 0;
    for (const five_lobes::Case& c : five_lobes::all()) {
        const Around around(c.lobe, 16.0);
        for (const double tolerance : {0.005, 0.002, 0.001, 0.0005, 0.0002}) {
            const Toolpath path = planned(five_lobes::job_for(c.lobe, tolerance), {c.lobe}, grid);
            REQUIRE(path.passes.size() == 1);
            const Pass& pass = path.passes.front();
            const double from = facing(path, pass.contour_first - 1);
            const double to =
                facing(path, pass.contour_first + static_cast<std::size_t>(pass.contour_blocks) - 1);
            CHECK_NEAR((to - from) * 360.0 / full_turn, 365.0, 1e-6);
            const int bound = fewest_blocks(c, around, tolerance, path.grid.radial_step, from, to);
            INFO(c.name << " at " << tolerance << ": " << pass.contour_blocks << " blocks, bound " << bound);
            CHECK(bound > 20);
            CHECK(pass.contour_blocks <= 1.05 * bound);
            blocks += pass.contour_blocks, bounds += bound;
        }
    }
    INFO(blocks << " blocks in all, bounds " << bounds);
    CHECK(blocks <= 1.04 * bounds);
}

}  // namespace

TEST_CASE(
    "a finish pass has at most 1.05 times the blocks that no path which is level on the heel can do "
    "without") {
    check_blocks({});
}

TEST_CASE("so it has where a controller runs no linear motion slower than a tenth of a millimetre a minute") {
    WordGrid grid;
    grid.rotary_step = 1e-4;
    grid.least_linear_feed = 0.1;
    check_blocks(grid);
}

TEST_CASE("what a finish pass leaves lies within the tolerance all round and over the whole width") {
    for (const five_lobes::Case& c : five_lobes::all()) {
        const Job job = five_lobes::job_for(c.lobe, 0.002);
        const Toolpath path = planned(job, {c.lobe});
        const sweep::Slab slab(sweep::positions_of(path), sweep::cutting_body(job),
                               c.lobe.z + 0.499 * c.lobe.width, 0.5 * *job.shaft.blank_diameter);
        const sweep::Comparison left = sweep::compare(slab, c.lobe);
        INFO(c.name);
        CHECK(left.deepest >= -0.002 - 1e-6);
        CHECK(left.proudest <= 0.002 + 1e-6);
        CHECK(left.deepest <= -0.0015);  // the tolerance is used
    }
}

TEST_CASE("a finish pass takes at most 1.10 times what feed and axes ask for at each point") {
    for (const five_lobes::Case& c : five_lobes::all()) {
        const Around around(c.lobe, 16.0);
        for (const double rotary_speed : {7200.0, 700.0}) {
            Job job = five_lobes::job_for(c.lobe, 0.002);
            job.machine->limits.rotary_speed = rotary_speed;
            const Toolpath path = planned(job, {c.lobe});
            const Pass& pass = path.passes.front();
            double planned_seconds = 0.0;
            const std::size_t end = pass.contour_first + static_cast<std::size_t>(pass.contour_blocks);
            for (std::size_t i = pass.contour_first; i < end; ++i)
                planned_seconds += path.moves[i].seconds;
            const double from = facing(path, pass.contour_first - 1), to = facing(path, end - 1);
            double least = 0.0;
            constexpr int steps = 20000;
            for (int i = 0; i < steps; ++i) {
                const double h = (to - from) / steps, phi = from + i * h;
                const independent::Stand a = around.at(phi), b = around.at(phi + h);
                const double arc = b.arc < a.arc ? 0.0 : b.arc - a.arc;
                least += std::max({arc / 120.0, h * 360.0 / full_turn / rotary_speed,
                                   std::abs(b.radial - a.radial) / 2000.0}) *
                         60.0;
            }
            INFO(c.name << " at " << rotary_speed << " degrees/min: " << planned_seconds << " s, least "
                        << least);
            CHECK(planned_seconds >= 0.98 * least);
            CHECK(planned_seconds <= 1.10 * least);
        }
    }
}

TEST_CASE("no axis is asked for more than it can do, by the words and times alone") {
    for (const five_lobes::Case& c : five_lobes::all()) {
        for (const double share : {1.0, 0.1, 0.01}) {
            Job job = five_lobes::job_for(c.lobe, 0.002);
            job.cut->rough_depth = 0.5;
            AxisLimits& limits = job.machine->limits;
            for (auto* limit :
                 {&limits.radial_speed, &limits.axial_speed, &limits.rotary_speed,
                  &limits.radial_acceleration, &limits.rotary_acceleration, &limits.blocks_per_second}) {
                **limit *= share;
            }
            INFO(c.name << ", limits times " << share);
            word_limits::check(planned(job, {c.lobe}), limits);
        }
    }
}

namespace {

/// Of the blocks along the lobe in the first pass.
double seconds_of(const Toolpath& path) {
    const Pass& pass = path.passes.front();
    double seconds = 0.0;
    for (int i = 0; i < pass.contour_blocks; ++i)
        seconds += path.moves[pass.contour_first + static_cast<std::size_t>(i)].seconds;
    return seconds;
}

}  // namespace

TEST_CASE("where jumps of an axis's speed are limited, knots are added and no jump at a joint is larger") {
    for (const five_lobes::Case& c : five_lobes::all()) {
        Job job = five_lobes::job_for(c.lobe, 0.005);
        const Toolpath free = planned(job, {c.lobe});
        job.machine->limits.radial_jump = 8.0;
        job.machine->limits.rotary_jump = 100.0;
        const Toolpath held = planned(job, {c.lobe});
        const Pass& pass = held.passes.front();
        INFO(c.name);
        CHECK(pass.contour_blocks > free.passes.front().contour_blocks);
        CHECK(seconds_of(held) < 1.1 * seconds_of(free));  // one long block slowed would cost far more
        word_limits::check(held, job.machine->limits);
    }
}

TEST_CASE(
    "the shaft turns one way, rapids stay clear of the blank, and the cutter moves along the shaft "
    "retracted") {
    Job job = basalt::four();
    job.cut->rough_depth = 0.6;
    job.cut->spring_passes = 1;
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const Toolpath path = planned(job, *lobes);
    const double clear =
        0.5 * *job.shaft.blank_diameter + job.cut->clearance + 16.0;  // words are the centre's
    Words at = path.start;
    CHECK(static_cast<double>(at.radial) * 1e-4 >= clear - 1e-9);
    for (const Move& move : path.moves) {
        CHECK(move.to.rotary <= at.rotary);  // climb, counting ccw: the word falls
        if (move.kind == MoveKind::rapid) {
            CHECK(move.seconds == 0.0);
            CHECK(static_cast<double>(move.to.radial) * 1e-4 >= clear - 1e-9);
            const bool straight_out = move.to.axial == at.axial && move.to.rotary == at.rotary;
            CHECK((straight_out || static_cast<double>(at.radial) * 1e-4 >= clear - 1e-9));
        } else {
            CHECK(move.to.axial == at.axial);
            CHECK(move.seconds > 0.0);
        }
        at = move.to;
    }
    CHECK(path.moves.back().kind == MoveKind::rapid);
    for (std::size_t i = 1; i < path.passes.size(); ++i) {  // in the shaft's order, stage by stage
        const bool next_stage =
            path.passes[i - 1].kind == PassKind::roughing && path.passes[i].kind != PassKind::roughing;
        CHECK((next_stage || (*lobes)[path.passes[i].lobe].z >= (*lobes)[path.passes[i - 1].lobe].z));
    }
}

TEST_CASE("passes come in along the tangent: on the heel, from outside the stock, flattening as they come") {
    Job job = basalt::four();
    job.cut->rough_depth = 0.5;
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const Toolpath path = planned(job, *lobes);
    for (const Pass& pass : path.passes) {
        if (pass.kind != PassKind::finish) continue;
        const SolvedLobe& lobe = (*lobes)[pass.lobe];
        const std::size_t first = pass.contour_first;
        std::vector<double> slopes;
        for (std::size_t i = first - 3; i < first; ++i) {
            const double off = wrapped_radians(facing(path, i) - lobe.at.radians()) * 360.0 / full_turn;
            CHECK(std::abs(off) > 60.0);  // the base circle's side of these lobes
            slopes.push_back(
                static_cast<double>(path.moves[i].to.radial - path.moves[i - 1].to.radial) /
                std::abs(static_cast<double>(path.moves[i].to.rotary - path.moves[i - 1].to.rotary)));
        }
        CHECK(slopes[0] < slopes[1]);
        CHECK(slopes[1] < slopes[2]);
        CHECK(slopes[2] < 0.0);
        const double start =
            static_cast<double>(path.moves[first - 4].to.radial) * 1e-4 - 16.0 - lobe.base_radius;
        CHECK(start > 0.25 + 0.05);  // over what the last ring left: 0.25 mm and its own margin
    }
}

TEST_CASE("a lobe that is not symmetrical comes out the right hand on every machine") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        const SolvedLobe lobe = basalt::solved(basalt::lopsided(12.0, 2.4), basalt::flat(30.0), turns);
        for (const Sense rotary : {Sense::ccw, Sense::cw}) {
            for (const CutDirection direction : {CutDirection::climb, CutDirection::conventional}) {
                for (const SpindleSide side : {SpindleSide::far, SpindleSide::drive}) {
                    Job job = five_lobes::job_for(lobe, 0.002);
                    job.machine->rotary_positive = rotary;
                    job.machine->spindle_side = side;
                    job.cut->direction = direction;
                    const Toolpath path = planned(job, {lobe});
                    const sweep::Slab slab(sweep::positions_of(path), sweep::cutting_body(job), lobe.z,
                                           0.5 * *job.shaft.blank_diameter);
                    for (int i = 0; i < 120; ++i) {
                        CHECK_NEAR(sweep::deviation_on(slab, lobe, 0.05 + i * full_turn / 120), 0.0,
                                   0.002 + 1e-6);
                    }
                    const double turned =
                        static_cast<double>(path.moves.back().to.rotary - path.start.rotary);
                    const bool rises = (direction == CutDirection::climb) == (side == SpindleSide::far);
                    CHECK((turned > 0.0) == (rises == (rotary == Sense::cw)));
                }
            }
        }
    }
}

TEST_CASE("no ring eats into what the next is to find, and each leaves at most its own margin over it") {
    const SolvedLobe lobe =
        basalt::solved(basalt::arcs_with_flank(8.0, 3.0, 130.0, 40.0), basalt::flat(20.0));
    Job job = five_lobes::job_for(lobe, 0.002);
    job.shaft.blank_diameter = 24.0;
    job.cut->rough_depth = 0.8;
    job.cut->allowance = 0.1;
    const Toolpath path = planned(job, {lobe});
    REQUIRE(path.passes.size() == 6);
    const auto positions = sweep::positions_of(path);
    const sweep::Slab uncut(positions, sweep::cutting_body(job), lobe.z, 12.0, false, 1, 1);
    double before = 4.0;  // blank over base circle
    for (const Pass& pass : path.passes) {
        const sweep::Slab slab(positions, sweep::cutting_body(job), lobe.z, 12.0, false, 1, pass.last + 1);
        const bool rough = pass.kind == PassKind::roughing;
        INFO("ring " << pass.ring << " leaves " << pass.left_on);
        for (int i = 0; i < 180; ++i) {
            const double phi = 0.03 + i * full_turn / 180;
            const double left = sweep::deviation_on(slab, lobe, phi, pass.left_on);
            const double blank = sweep::deviation_on(uncut, lobe, phi, pass.left_on);
            CHECK(left >= std::min(blank, rough ? 0.0 : -0.002) - 1e-6);
            CHECK(left <= std::max(std::min(blank, rough ? 0.08 : 0.002), rough ? 0.08 : 0.002) + 1e-6);
        }
        if (rough) CHECK(before - pass.left_on <= 0.8 + 1e-9);
        before = pass.left_on;
    }
}

TEST_CASE("rings go over air at rapid, and the deeper they lie the more of the turn they cut") {
    Job job = basalt::four();
    job.shaft.blank_diameter = 18.0;
    job.cut->rough_depth = 0.5;
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const Toolpath path = planned(job, *lobes);
    double before = 0.0;
    for (const Pass& pass : path.passes) {
        if (pass.lobe != 0 || pass.axial != path.passes.front().axial || pass.kind != PassKind::roughing)
            continue;
        double fed = 0.0;
        for (std::size_t i = pass.first; i < pass.last; ++i) {
            if (path.moves[i].kind == MoveKind::feed) fed += std::abs(facing(path, i) - facing(path, i - 1));
        }
        INFO("ring " << pass.ring);
        CHECK(fed > before);
        before = fed;
        if (pass.ring == 1) CHECK(fed < 0.75 * full_turn);
    }
    CHECK(before > 0.9 * full_turn);
}

TEST_CASE("blocks keep the dialect's longest turn, and a coarser or an inch grid still holds the tolerance") {
    const SolvedLobe lobe = five_lobes::all()[1].lobe;
    const Job job = five_lobes::job_for(lobe, 0.004);
    const WordGrid grids[] = {{1e-4, 1e-4, 1e-3, 4.0, 0.0},
                              {2.54e-4, 2.54e-4, 1e-2, 0.0, 0.0},
                              {1e-3, 1e-3, 1e-3, 0.0, 0.0},
                              {1e-4, 1e-4, 1e-3, 0.0, 0.001}};
    for (const WordGrid& grid : grids) {
        const Toolpath path = planned(job, {lobe}, grid);
        const sweep::Slab slab(sweep::positions_of(path), sweep::cutting_body(job), lobe.z,
                               0.5 * *job.shaft.blank_diameter);
        const sweep::Comparison left = sweep::compare(slab, lobe, 0.0, 360);
        CHECK(left.deepest >= -0.004 + grid.blend_tolerance - 1e-6);
        CHECK(left.proudest <= 0.004 - grid.blend_tolerance + 1e-6);
        if (grid.longest_rotary_block <= 0.0) continue;
        const Pass& pass = path.passes.front();
        for (int i = 0; i < pass.contour_blocks; ++i) {
            const std::size_t move = pass.contour_first + static_cast<std::size_t>(i);
            CHECK(std::abs(path.moves[move].to.rotary - path.moves[move - 1].to.rotary) <= 4000);
        }
    }
}

TEST_CASE("the plan's text has a row a pass, and tells what settled the time") {
    Job job = basalt::four();
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const std::string text = toolpath_text(job, *lobes, planned(job, *lobes));
    CHECK(text.find("4 exhaust") != std::string::npos);
    CHECK(text.find("16 passes") != std::string::npos);
    CHECK(text.find("surface feed") != std::string::npos);
    CHECK_THAT(toolpath_json(job, *lobes, planned(job, *lobes), {{"1 exhaust", "1 inlet"}, {"2 inlet"}}),
               ContainsSubstring("{\"lobes\": [\"1 exhaust\", \"1 inlet\"]}") &&
                   ContainsSubstring("{\"lobes\": [\"2 inlet\"]}"));
    job.machine->limits.rotary_speed = 300.0;
    CHECK(toolpath_text(job, *lobes, planned(job, *lobes)).find("rotary speed settles") != std::string::npos);
}
