#include "toolpath/path_builder.h"

namespace lobewright::toolpath {
namespace {

Words words(const Setup& setup, Stand stand) {
    return {stand.radial, stand.axial, stand.travel * (setup.rotary_sign * setup.way)};
}

}  // namespace

void PathBuilder::add(MoveKind kind, Stand to) {
    path_.moves.push_back({kind, words(setup_, to), 0.0});
    now_ = to;
}

void PathBuilder::rapid_to(Stand to) {
    time_chain();
    const double radial = static_cast<double>(to.radial - now_.radial) * setup_.grid.radial_step;
    const double axial = static_cast<double>(to.axial - now_.axial) * setup_.grid.axial_step;
    const double rotary = static_cast<double>(to.travel - now_.travel) * setup_.grid.rotary_step;
    if (radial == 0.0 && axial == 0.0 && rotary == 0.0) return;
    const double seconds = rapid_seconds(radial, axial, rotary, setup_.job.machine->limits);
    path_.cycle_seconds += seconds;
    add(MoveKind::rapid, to);
}

void PathBuilder::feed_to(Stand to, double way, double feed) {
    Block block;
    block.radial = static_cast<double>(to.radial - now_.radial) * setup_.grid.radial_step;
    block.axial = static_cast<double>(to.axial - now_.axial) * setup_.grid.axial_step;
    block.rotary = static_cast<double>(to.travel - now_.travel) * setup_.grid.rotary_step;
    if (block.radial == 0.0 && block.axial == 0.0 && block.rotary == 0.0) return;
    block.way = way;
    block.feed = feed;
    chain_.push_back(block);
    add(MoveKind::feed, to);
}

void PathBuilder::begin_pass(const Pass& pass, Stand retracted) {
    time_chain();
    if (path_.passes.empty()) {
        now_ = {retracted.radial, retracted.axial, 0};
        path_.grid = setup_.grid;
        path_.start = words(setup_, now_);
    }
    path_.passes.push_back(pass);
    path_.passes.back().first = path_.moves.size();
}

void PathBuilder::count_contour_block() {
    Pass& pass = path_.passes.back();
    if (pass.contour_blocks++ == 0) pass.contour_first = path_.moves.size();
}

void PathBuilder::end_pass() {
    time_chain();
    path_.passes.back().last = path_.moves.size();
}

void PathBuilder::time_chain() {
    const std::vector<BlockTime> times = block_times(chain_, setup_.job.machine->limits);
    std::size_t move = path_.moves.size() - chain_.size();
    for (const BlockTime& time : times) {
        path_.moves[move++].seconds = time.seconds;
        path_.cycle_seconds += time.seconds;
        Pass& pass = path_.passes.back();
        pass.seconds += time.seconds;
        pass.seconds_at[static_cast<int>(time.limit)] += time.seconds;
    }
    chain_.clear();
}

Toolpath PathBuilder::finish() {
    time_chain();
    return std::move(path_);
}

}  // namespace lobewright::toolpath
