#include "toolpath/path/path_builder.h"

#include "base/whole_steps.h"
#include "toolpath/path/chip.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

Words words(const Setup& setup, MachinePosition position) {
    const int sign = setup.rotary_sign * setup.facing_sign;
    return {position.radial, position.axial, position.travel * sign};
}

double rapid_between(const Setup& setup, MachinePosition from, MachinePosition to) {
    return rapid_seconds(static_cast<double>(to.radial - from.radial) * setup.grid.radial_step,
                         static_cast<double>(to.axial - from.axial) * setup.grid.axial_step,
                         static_cast<double>(to.travel - from.travel) * setup.grid.rotary_step,
                         setup.machine.limits);
}

bool same(MachinePosition a, MachinePosition b) {
    return a.radial == b.radial && a.axial == b.axial && a.travel == b.travel;
}

/// Whole turns that bring `position` to or past `travel`, in steps.
long long turned_past(const Setup& setup, long long position, long long travel) {
    const long long turn = nearest_step(full_turn / setup.steps.rotary);
    const long long behind = travel - position;
    return (behind > 0 ? (behind + turn - 1) / turn : behind / turn) * turn;
}

MachinePosition turned(MachinePosition position, long long by) {
    position.travel += by;
    return position;
}

}  // namespace

ChainRules chain_rules(const Setup& setup) {
    return {setup.machine.limits, setup.unit, setup.grid.blend_tolerance == 0.0};
}

void PathBuilder::add(MoveKind kind, MachinePosition to) {
    part_.moves.push_back({kind, words(setup_, to), 0.0});
    part_.to = to;
}

void PathBuilder::rapid_to(MachinePosition to) {
    time_chain();
    if (!started_) part_.from = part_.to = to;
    started_ = true;
    if (same(now(), to)) return;
    part_.seconds += rapid_between(setup_, now(), to);
    add(MoveKind::rapid, to);
}

void PathBuilder::feed_to(MachinePosition to, double distance, double feed, double chip) {
    if (same(now(), to)) return;
    const MachinePosition& from = now();
    PathBlock block;
    block.radial = static_cast<double>(to.radial - from.radial) * setup_.grid.radial_step;
    block.axial = static_cast<double>(to.axial - from.axial) * setup_.grid.axial_step;
    block.rotary = static_cast<double>(to.travel - from.travel) * setup_.grid.rotary_step;
    block.distance = distance;
    block.feed = feed;
    block.chip = chip;
    chain_.push_back(block);
    add(MoveKind::feed, to);
}

void PathBuilder::feed_in_air(MachinePosition to, double distance, double feed, bool at_axis_speed) {
    const std::size_t blocks = chain_.size();
    feed_to(to, distance, feed);
    if (chain_.size() > blocks) chain_.back().at_axis_speed = at_axis_speed;
}

void PathBuilder::begin_pass(const Pass& pass) {
    if (!part_.passes.empty()) part_.passes.back().last = part_.moves.size();
    part_.passes.push_back(pass);
    part_.passes.back().first = part_.moves.size();
}

void PathBuilder::count_contour_block() {
    Pass& pass = part_.passes.back();
    if (pass.contour_blocks++ == 0) pass.contour_first = part_.moves.size();
}

/// mm, of the chip of one tooth while the block takes so many seconds.
double PathBuilder::chip_of(const PathBlock& block, double seconds) const {
    const double turn = std::abs(block.rotary) / setup_.grid.rotary_step * setup_.steps.rotary;
    return seconds > 0.0 ? block.chip * turn / seconds * seconds_per_tooth(setup_) : 0.0;
}

void PathBuilder::time_chain() {
    const std::vector<BlockTime> times = quickest_times(chain_, chain_rules(setup_));
    part_.seconds += ramp_seconds(chain_, times, setup_.machine.limits);
    if (setup_.grid.blend_tolerance == 0.0)
        part_.seconds += stop_seconds(chain_, times, setup_.machine.limits);
    std::size_t move = part_.moves.size() - chain_.size();
    const auto starts_after = [](std::size_t at, const Pass& pass) { return at < pass.first; };
    auto block = chain_.begin();
    for (const BlockTime& time : times) {
        Pass& pass = *(std::upper_bound(part_.passes.begin(), part_.passes.end(), move, starts_after) - 1);
        part_.moves[move++].seconds = time.seconds;
        part_.seconds += time.seconds;
        pass.seconds += time.seconds;
        pass.seconds_at[static_cast<int>(time.limit)] += time.seconds;
        pass.thickest_chip = std::max(pass.thickest_chip, chip_of(*block++, time.seconds));
    }
    chain_.clear();
}

void PathBuilder::append(const PathPart& part) {
    const std::size_t before = part_.moves.size();
    rapid_to(part.from);
    if (!part_.passes.empty()) part_.passes.back().last = before;
    const std::size_t first = part_.moves.size();
    part_.moves.insert(part_.moves.end(), part.moves.begin(), part.moves.end());
    for (Pass pass : part.passes) {
        pass.first += first, pass.last += first, pass.contour_first += first;
        part_.passes.push_back(pass);
    }
    if (!part.passes.empty()) part_.passes[part_.passes.size() - part.passes.size()].first = before;
    part_.seconds += part.seconds;
    part_.to = part.to;
}

PathPart PathBuilder::finish() {
    time_chain();
    if (!part_.passes.empty()) part_.passes.back().last = part_.moves.size();
    return std::move(part_);
}

PathJoiner::PathJoiner(const Setup& setup, MachinePosition start) : setup_(setup), now_(start) {
    path_.grid = setup.grid;
    path_.start = words(setup, start);
}

void PathJoiner::add(const PathPart& part) {
    const long long turns = turned_past(setup_, part.from.travel, now_.travel);
    const MachinePosition from = turned(part.from, turns);
    const std::size_t first = path_.moves.size();
    if (!same(now_, from)) path_.moves.push_back({MoveKind::rapid, words(setup_, from), 0.0});
    const std::size_t joint = path_.moves.size();
    path_.cycle_seconds += rapid_between(setup_, now_, from) + part.seconds;
    const int sign = setup_.rotary_sign * setup_.facing_sign;
    for (Move move : part.moves) {
        move.to.rotary += turns * sign;
        path_.moves.push_back(move);
    }
    for (Pass pass : part.passes) {
        pass.first += joint, pass.last += joint, pass.contour_first += joint;
        path_.passes.push_back(pass);
    }
    if (!part.passes.empty()) path_.passes[path_.passes.size() - part.passes.size()].first = first;
    now_ = turned(part.to, turns);
}

MachinePosition start_of(const PathPart& part) {
    return {part.from.radial, part.from.axial, 0};
}

namespace {

/// The least time to the end of one alternative, and which one goes before it.
struct Best {
    double seconds = 0.0;
    std::size_t before = 0;
};

double change_seconds(const Setup& setup, MachinePosition from, const PathPart& to) {
    return rapid_between(setup, from, turned(to.from, turned_past(setup, to.from.travel, from.travel)));
}

/// Which alternative of each list makes the whole fastest: the best that comes before each of them, list by
/// list.
std::vector<std::size_t> fastest_choice(const Setup& setup, const std::vector<std::vector<PathPart>>& lists) {
    std::vector<std::vector<Best>> best;
    for (std::size_t i = 0; i < lists.size(); ++i) {
        best.emplace_back();
        for (const PathPart& part : lists[i]) {
            Best here{change_seconds(setup, start_of(part), part), 0};
            for (std::size_t k = 0; i > 0 && k < lists[i - 1].size(); ++k) {
                const double seconds =
                    best[i - 1][k].seconds + change_seconds(setup, lists[i - 1][k].to, part);
                if (k == 0 || seconds < here.seconds) here = {seconds, k};
            }
            here.seconds += part.seconds;
            best.back().push_back(here);
        }
    }
    const auto faster = [](const Best& a, const Best& b) { return a.seconds < b.seconds; };
    std::vector<std::size_t> choice(lists.size());
    for (std::size_t i = lists.size(); i-- > 0;) {
        const bool last = i + 1 == lists.size();
        choice[i] = last ? static_cast<std::size_t>(std::min_element(best[i].begin(), best[i].end(), faster) -
                                                    best[i].begin())
                         : best[i + 1][choice[i + 1]].before;
    }
    return choice;
}

}  // namespace

Toolpath fastest_path(const Setup& setup, const std::vector<std::vector<PathPart>>& alternatives) {
    const std::vector<std::size_t> choice = fastest_choice(setup, alternatives);
    PathJoiner joiner(setup, start_of(alternatives.front()[choice.front()]));
    for (std::size_t i = 0; i < alternatives.size(); ++i)
        joiner.add(alternatives[i][choice[i]]);
    return joiner.path();
}

}  // namespace lobewright::toolpath
