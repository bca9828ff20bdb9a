#include "toolpath/path/way_down.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace lobewright::toolpath {
namespace {

/// Where jumps of the radial speed are limited: rising to the axis's speed and falling from it in short
/// steps.
std::vector<Down> down_in_steps(const PassFrame& frame, long long from, long long radial, double jump) {
    constexpr int most_steps = 8;
    constexpr double shortest = 0.02;        // seconds of a step
    constexpr double most_of_the_way = 0.4;  // for either ramp
    const long long down = radial - from;
    const double feed = frame.limits().radial_speed.value_or(frame.order().feed);
    const int steps = std::clamp(static_cast<int>(feed / jump), 1, most_steps);
    const auto& rate = frame.limits().blocks_per_second;
    const double step_seconds = rate ? std::max(shortest, 1.0 / *rate) : shortest;
    const double unit_step =
        jump / 60.0 * step_seconds / frame.setup().steps.radial;  // grid steps of the slowest
    const double ramp = 0.5 * steps * (steps - 1) * unit_step;
    const double share =
        std::min(1.0, most_of_the_way * static_cast<double>(std::abs(down)) / std::max(ramp, 1.0));
    const long long sign = down < 0 ? -1 : 1;
    const auto ramped = [&](int k) { return nearest_step(0.5 * k * (k + 1) * unit_step * share); };
    const bool own = frame.limits().radial_speed.has_value();
    std::vector<Down> found;
    for (int k = 1; k < steps; ++k)
        found.push_back({from + sign * ramped(k), k * jump, own});
    for (int k = steps - 1; k >= 1; --k)
        found.push_back({radial - sign * ramped(k), std::min(feed, (k + 1) * jump), own});
    found.push_back({radial, jump, own});
    return found;
}

}  // namespace

/// Straight down in air from the level of rapids, at the axis's speed but for the last of it.
std::vector<Down> way_down(const PassFrame& frame, long long radial) {
    const long long from = frame.safe();
    if (const auto& jump = frame.limits().radial_jump) return down_in_steps(frame, from, radial, *jump);
    const double feed = frame.limits().radial_speed.value_or(frame.order().feed);
    const long long slow_from = radial + nearest_step(frame.setup().gap / frame.setup().steps.radial);
    return {{std::min(from, slow_from), feed, frame.limits().radial_speed.has_value()},
            {radial, std::min(feed, frame.order().feed)}};
}

double length_of(const PassFrame& frame, long long from, long long to) {
    return static_cast<double>(std::abs(to - from)) * frame.setup().steps.radial;
}

std::vector<PathBlock> blocks_of(const PassFrame& frame, const std::vector<Down>& way) {
    std::vector<PathBlock> blocks;
    long long at = frame.safe();
    for (const Down& down : way) {
        const double length = length_of(frame, at, down.to);
        if (down.to != at)
            blocks.push_back(
                {down.to < at ? -length : length, 0.0, 0.0, length, down.feed, 0.0, down.at_axis_speed});
        at = down.to;
    }
    return blocks;
}

}  // namespace lobewright::toolpath
