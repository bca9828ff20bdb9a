#include "toolpath/block_timing.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace lobewright::toolpath {
namespace {

constexpr double seconds_per_minute = 60.0;

/// What an axis asks of neighbouring blocks.
struct AxisLimit {
    double Block::*move;
    double acceleration;  // per s²
    TimeLimit limit;
};

std::vector<AxisLimit> accelerations(const AxisLimits& limits) {
    std::vector<AxisLimit> found;
    if (limits.radial_acceleration) {
        found.push_back({&Block::radial, *limits.radial_acceleration, TimeLimit::radial_acceleration});
    }
    if (limits.rotary_acceleration) {
        found.push_back({&Block::rotary, *limits.rotary_acceleration, TimeLimit::rotary_acceleration});
    }
    return found;
}

void raise(BlockTime& time, double seconds, TimeLimit limit) {
    if (seconds > time.seconds) time = {seconds, limit};
}

BlockTime least_time(const Block& block, const AxisLimits& limits) {
    BlockTime time{block.way / block.feed * seconds_per_minute, TimeLimit::surface_feed};
    const auto axis = [&](double move, const std::optional<double>& speed, TimeLimit limit) {
        if (speed) raise(time, std::abs(move) / *speed * seconds_per_minute, limit);
    };
    axis(block.radial, limits.radial_speed, TimeLimit::radial_speed);
    axis(block.axial, limits.axial_speed, TimeLimit::axial_speed);
    axis(block.rotary, limits.rotary_speed, TimeLimit::rotary_speed);
    if (limits.blocks_per_second) raise(time, 1.0 / *limits.blocks_per_second, TimeLimit::block_rate);
    return time;
}

/// By how much the mean speed changes too fast between two blocks' middles; > 0: too fast.
double excess(double move1, double time1, double move2, double time2, double acceleration) {
    return std::abs(move2 / time2 - move1 / time1) - 0.5 * acceleration * (time1 + time2);
}

/// The same joint run at one rotary speed: both blocks at ω degrees a second, ω² |s₂ - s₁| <= a (L₁ + L₂)
/// / 2.
void hold_joint_at_one_speed(const Block& a, const Block& b, BlockTime& ta, BlockTime& tb,
                             const AxisLimit& axis) {
    const double la = std::abs(a.rotary), lb = std::abs(b.rotary);
    if (la == 0.0 || lb == 0.0) return;
    const double turn = std::abs(b.*axis.move / lb - a.*axis.move / la);
    if (turn == 0.0) return;
    const double speed = std::sqrt(0.5 * axis.acceleration * (la + lb) / turn);
    raise(ta, la / speed, axis.limit);
    raise(tb, lb / speed, axis.limit);
}

/// A joint's slack: joints that are short by less are done.
constexpr double slack = 1e-9;

/// Lengthens the block of `move`, where its axis runs faster than in its neighbour, until the joint holds:
/// the positive root of move/t - v = a (t + t') / 2, v the neighbour's speed in the sense of the move.
bool lengthen(double move, BlockTime& time, double other_move, double other_time, const AxisLimit& axis) {
    if (std::abs(move) * other_time < std::abs(other_move) * time.seconds) return false;
    const double a = axis.acceleration;
    const double speed = move / time.seconds;
    if (excess(move, time.seconds, other_move, other_time, a) <= slack * std::abs(speed)) return false;
    const double other_speed = (move < 0.0 ? -1.0 : 1.0) * other_move / other_time;
    const double b = 0.5 * a * other_time + other_speed;
    const double root = std::sqrt(b * b + 2.0 * a * std::abs(move));
    time = {b > 0.0 ? 2.0 * std::abs(move) / (b + root) : (root - b) / a, axis.limit};
    return true;
}

/// From rest, or to it, within the block: v <= a t / 2.
bool hold_rest(const Block& block, BlockTime& time, const AxisLimit& axis) {
    const double least = std::sqrt(2.0 * std::abs(block.*axis.move) / axis.acceleration);
    if (least <= time.seconds * (1.0 + slack)) return false;
    time = {least, axis.limit};
    return true;
}

/// Forward: no block speeds up too fast from the one before it.
bool pass_forward(const std::vector<Block>& chain, std::vector<BlockTime>& times, const AxisLimit& axis) {
    bool changed = hold_rest(chain.front(), times.front(), axis);
    for (std::size_t i = 1; i < chain.size(); ++i) {
        changed |=
            lengthen(chain[i].*axis.move, times[i], chain[i - 1].*axis.move, times[i - 1].seconds, axis);
    }
    return changed;
}

/// Backward: every block is slow enough for the one after it.
bool pass_backward(const std::vector<Block>& chain, std::vector<BlockTime>& times, const AxisLimit& axis) {
    bool changed = hold_rest(chain.back(), times.back(), axis);
    for (std::size_t i = chain.size() - 1; i-- > 0;) {
        changed |=
            lengthen(chain[i].*axis.move, times[i], chain[i + 1].*axis.move, times[i + 1].seconds, axis);
    }
    return changed;
}

}  // namespace

std::vector<BlockTime> block_times(const std::vector<Block>& chain, const AxisLimits& limits) {
    std::vector<BlockTime> times;
    times.reserve(chain.size());
    for (const Block& block : chain)
        times.push_back(least_time(block, limits));
    if (chain.empty()) return times;
    const std::vector<AxisLimit> axes = accelerations(limits);
    for (const AxisLimit& axis : axes) {
        for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
            hold_joint_at_one_speed(chain[i], chain[i + 1], times[i], times[i + 1], axis);
        }
    }
    constexpr int most_rounds = 200;
    bool changed = true;
    for (int round = 0; changed && round < most_rounds; ++round) {
        changed = false;
        for (const AxisLimit& axis : axes) {
            changed |= pass_forward(chain, times, axis);
            changed |= pass_backward(chain, times, axis);
        }
    }
    return times;
}

double rapid_seconds(double radial, double axial, double rotary, const AxisLimits& limits) {
    double seconds = 0.0;
    const auto axis = [&](double move, const std::optional<double>& speed) {
        if (speed) seconds = std::max(seconds, std::abs(move) / *speed * seconds_per_minute);
    };
    axis(radial, limits.radial_speed);
    axis(axial, limits.axial_speed);
    axis(rotary, limits.rotary_speed);
    return seconds;
}

}  // namespace lobewright::toolpath
