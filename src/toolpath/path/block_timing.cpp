#include "toolpath/path/block_timing.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace lobewright::toolpath {
namespace {

constexpr double seconds_per_minute = 60.0;

/// What an axis asks of neighbouring blocks.
struct AxisLimit {
    double PathBlock::*move;
    double acceleration;  // per s²; infinite: none
    double jump;          // per s; infinite: none
    TimeLimit limit;
};

constexpr double none = std::numeric_limits<double>::infinity();

std::vector<AxisLimit> joint_limits(const AxisLimits& limits) {
    std::vector<AxisLimit> found;
    const auto add = [&](double PathBlock::*move, const std::optional<double>& acceleration,
                         const std::optional<double>& jump, TimeLimit limit) {
        if (!acceleration && !jump) return;
        found.push_back({move, acceleration.value_or(none), jump ? *jump / seconds_per_minute : none, limit});
    };
    add(&PathBlock::radial, limits.radial_acceleration, limits.radial_jump, TimeLimit::radial_acceleration);
    add(&PathBlock::rotary, limits.rotary_acceleration, limits.rotary_jump, TimeLimit::rotary_acceleration);
    return found;
}

void raise(BlockTime& time, double seconds, TimeLimit limit) {
    if (seconds > time.seconds) time = {seconds, limit};
}

/// The same joint run at one rotary speed: both blocks at ω degrees a second, ω² |s₂ - s₁| <= a (L₁ + L₂)
/// / 2. Not for jumps: where the axis goes on in its sense only the quicker block has to give way.
void hold_joint_at_one_speed(const PathBlock& a, const PathBlock& b, BlockTime& ta, BlockTime& tb,
                             const AxisLimit& axis) {
    const double la = std::abs(a.rotary), lb = std::abs(b.rotary);
    if (la == 0.0 || lb == 0.0) return;
    const double turn = std::abs(b.*axis.move / lb - a.*axis.move / la);
    if (turn == 0.0 || axis.acceleration == none) return;
    const double speed = std::sqrt(0.5 * axis.acceleration * (la + lb) / turn);
    raise(ta, la / speed, axis.limit);
    raise(tb, lb / speed, axis.limit);
}

/// Where the axis turns back at a joint, both blocks' speeds v, v' are in its jump: v + v' <= j. Of all such
/// the two take the least time together where v : v' = sqrt(move : move'); what one doesn't want the other
/// gets.
void share_jump(const PathBlock& a, const PathBlock& b, BlockTime& ta, BlockTime& tb, const AxisLimit& axis) {
    if (a.*axis.move * b.*axis.move >= 0.0) return;
    const double la = std::abs(a.*axis.move), lb = std::abs(b.*axis.move);
    const double va = la / ta.seconds, vb = lb / tb.seconds;
    if (va + vb <= axis.jump) return;
    const double share = axis.jump * std::sqrt(la) / (std::sqrt(la) + std::sqrt(lb));
    const double to_a = std::max(share, axis.jump - vb), to_b = std::max(axis.jump - share, axis.jump - va);
    raise(ta, la / to_a, axis.limit);
    raise(tb, lb / to_b, axis.limit);
}

/// Of a block's time: joints that are short by less are done. The times of a chain settle by such shares in
/// each round, and a feed word has six digits.
constexpr double slack = 1e-9;

/// Lengthens `block`, where its axis runs faster than in its neighbour `other`, until the joint holds.
/// Acceleration: the positive root of move/t - v = a (t + t') / 2, v the neighbour's speed in the sense of
/// the move. Jump: move/t - v = j.
bool lengthen(const PathBlock& block, BlockTime& time, const PathBlock& other, double other_time,
              const AxisLimit& axis) {
    const double move = block.*axis.move, other_move = other.*axis.move;
    const double length = std::abs(move);
    if (length * other_time < std::abs(other_move) * time.seconds) return false;
    const double other_speed = (move < 0.0 ? -1.0 : 1.0) * other_move / other_time;
    double wanted = time.seconds;
    if (axis.acceleration < none) {
        const double a = axis.acceleration, b = 0.5 * a * other_time + other_speed;
        const double root = std::sqrt(b * b + 2.0 * a * length);
        wanted = std::max(wanted, b > 0.0 ? 2.0 * length / (b + root) : (root - b) / a);
    }
    if (axis.jump < none) {
        wanted = std::max(wanted, length / std::max(other_speed + axis.jump, 0.5 * axis.jump));
    }
    if (wanted <= time.seconds * (1.0 + slack)) return false;
    time = {wanted, axis.limit};
    return true;
}

/// From rest, or to it, within the block: v <= a t / 2, and v <= j.
bool hold_rest(const PathBlock& block, BlockTime& time, const AxisLimit& axis) {
    const double length = std::abs(block.*axis.move);
    const double least = std::max(std::sqrt(2.0 * length / axis.acceleration), length / axis.jump);
    if (least <= time.seconds * (1.0 + slack)) return false;
    time = {least, axis.limit};
    return true;
}

/// Forward: no block speeds up too fast from the one before it.
bool pass_forward(const std::vector<PathBlock>& chain, std::vector<BlockTime>& times, const AxisLimit& axis) {
    bool changed = hold_rest(chain.front(), times.front(), axis);
    for (std::size_t i = 1; i < chain.size(); ++i) {
        changed |= lengthen(chain[i], times[i], chain[i - 1], times[i - 1].seconds, axis);
    }
    return changed;
}

/// Backward: every block is slow enough for the one after it.
bool pass_backward(const std::vector<PathBlock>& chain, std::vector<BlockTime>& times,
                   const AxisLimit& axis) {
    bool changed = hold_rest(chain.back(), times.back(), axis);
    for (std::size_t i = chain.size() - 1; i-- > 0;) {
        changed |= lengthen(chain[i], times[i], chain[i + 1], times[i + 1].seconds, axis);
    }
    return changed;
}

}  // namespace

BlockTime least_time(const PathBlock& block, const AxisLimits& limits) {
    BlockTime time{block.distance / block.feed * seconds_per_minute, TimeLimit::surface_feed};
    const auto axis = [&](double move, const std::optional<double>& speed, TimeLimit limit) {
        if (speed) raise(time, std::abs(move) / *speed * seconds_per_minute, limit);
    };
    axis(block.radial, limits.radial_speed, TimeLimit::radial_speed);
    axis(block.axial, limits.axial_speed, TimeLimit::axial_speed);
    axis(block.rotary, limits.rotary_speed, TimeLimit::rotary_speed);
    if (limits.blocks_per_second) raise(time, 1.0 / *limits.blocks_per_second, TimeLimit::block_rate);
    return time;
}

namespace {

std::vector<BlockTime> least_times(const std::vector<PathBlock>& chain, const AxisLimits& limits) {
    std::vector<BlockTime> times;
    times.reserve(chain.size());
    for (const PathBlock& block : chain)
        times.push_back(least_time(block, limits));
    return times;
}

}  // namespace

std::vector<BlockTime> block_times(const std::vector<PathBlock>& chain, const AxisLimits& limits) {
    std::vector<BlockTime> times = least_times(chain, limits);
    if (chain.empty()) return times;
    const std::vector<AxisLimit> axes = joint_limits(limits);
    for (const AxisLimit& axis : axes) {
        for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
            hold_joint_at_one_speed(chain[i], chain[i + 1], times[i], times[i + 1], axis);
            share_jump(chain[i], chain[i + 1], times[i], times[i + 1], axis);
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

namespace {

/// Seconds of a block from rest to rest that takes `seconds` at its mean speed: the slowest axis gets to that
/// speed and back in seconds / (a t²) more, a its acceleration by its move; where it can't get there within
/// the block, it takes 2 / sqrt(a) in all.
double rest_to_rest_seconds(const PathBlock& block, double seconds, const AxisLimits& limits) {
    double slowest = none;  // 1/s²
    const auto axis = [&](double move, const std::optional<double>& acceleration) {
        if (acceleration && move != 0.0) slowest = std::min(slowest, *acceleration / std::abs(move));
    };
    axis(block.radial, limits.radial_acceleration);
    axis(block.rotary, limits.rotary_acceleration);
    if (slowest == none) return seconds;
    return slowest * seconds * seconds >= 1.0 ? seconds + 1.0 / (slowest * seconds)
                                              : 2.0 / std::sqrt(slowest);
}

/// With what stops add, but without ramps: no more than the chain takes.
double seconds_at_least(const std::vector<PathBlock>& chain, const std::vector<BlockTime>& times,
                        const ChainRules& rules) {
    double seconds = 0.0;
    for (const BlockTime& time : times)
        seconds += time.seconds;
    return seconds + (rules.stops ? stop_seconds(chain, times, rules.limits) : 0.0);
}

double seconds_of(const std::vector<PathBlock>& chain, const std::vector<BlockTime>& times,
                  const ChainRules& rules) {
    return seconds_at_least(chain, times, rules) + ramp_seconds(chain, times, rules.limits);
}

double fastest_feed(const std::vector<PathBlock>& chain) {
    double fastest = 0.0;
    for (const PathBlock& block : chain) {
        if (!block.at_axis_speed) fastest = std::max(fastest, block.feed);
    }
    return fastest;
}

/// Of what the job asks a feed for.
std::vector<PathBlock> no_faster(std::vector<PathBlock> chain, double feed) {
    for (PathBlock& block : chain) {
        if (!block.at_axis_speed) block.feed = std::min(block.feed, feed);
    }
    return chain;
}

}  // namespace

double figure_below(double value) {
    double unit = 1.0;
    while (value < 10.0 * unit)
        unit /= 10.0;
    while (value >= 100.0 * unit)
        unit *= 10.0;
    const auto digits = step_above(value / unit) - 1;
    return digits < 10 ? 9.9 * unit : static_cast<double>(digits) * unit;
}

std::vector<BlockTime> quickest_times(const std::vector<PathBlock>& chain, const ChainRules& rules) {
    std::vector<BlockTime> best = block_times(chain, rules.limits);
    double least = seconds_of(chain, best, rules);
    const double lowest = 0.02 * fastest_feed(chain);
    for (double feed = fastest_feed(chain); feed > lowest;) {
        feed = rules.unit * figure_below(feed / rules.unit);
        const std::vector<PathBlock> slower = no_faster(chain, feed);
        // Else no lower feed is quicker either.
        if (seconds_at_least(slower, least_times(slower, rules.limits), rules) >= least) break;
        std::vector<BlockTime> times = block_times(slower, rules.limits);
        if (const double seconds = seconds_of(slower, times, rules); seconds < least) {
            least = seconds;
            best = std::move(times);
        }
    }
    return best;
}

namespace {

/// From rest to rest, with a trapezoid of speed, or a triangle where the way is too short for the axis's own.
double rest_to_rest(double way, double speed, const std::optional<double>& acceleration) {
    const double v = speed / seconds_per_minute, d = std::abs(way);
    if (!acceleration) return d / v;
    return d * *acceleration >= v * v ? d / v + v / *acceleration : 2.0 * std::sqrt(d / *acceleration);
}

}  // namespace

double rapid_seconds(double radial, double axial, double rotary, const AxisLimits& limits) {
    double seconds = 0.0;
    const auto axis = [&](double way, const std::optional<double>& speed,
                          const std::optional<double>& acceleration) {
        if (speed && way != 0.0) seconds = std::max(seconds, rest_to_rest(way, *speed, acceleration));
    };
    axis(radial, limits.radial_speed, limits.radial_acceleration);
    axis(axial, limits.axial_speed, std::nullopt);
    axis(rotary, limits.rotary_speed, limits.rotary_acceleration);
    return seconds;
}

double ramp_seconds(const std::vector<PathBlock>& chain, const std::vector<BlockTime>& times,
                    const AxisLimits& limits) {
    if (!limits.radial_acceleration) return 0.0;
    double seconds = 0.0, last = 0.0;  // mm/s
    const auto change_to = [&](double speed) {
        const double change = speed - last, faster = std::max(speed, last);
        if (change != 0.0) seconds += change * change / (2.0 * *limits.radial_acceleration * faster);
        last = speed;
    };
    for (std::size_t i = 0; i < chain.size(); ++i)
        change_to(chain[i].rotary == 0.0 ? std::abs(chain[i].radial) / times[i].seconds : 0.0);
    change_to(0.0);
    return seconds;
}

double stop_seconds(const std::vector<PathBlock>& chain, const std::vector<BlockTime>& times,
                    const AxisLimits& limits) {
    double seconds = 0.0;
    for (std::size_t i = 0; i < chain.size(); ++i) {
        if (chain[i].rotary == 0.0) continue;
        seconds += rest_to_rest_seconds(chain[i], times[i].seconds, limits) - times[i].seconds;
    }
    return seconds;
}

}  // namespace lobewright::toolpath
