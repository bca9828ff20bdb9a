/// Speeds, accelerations and block rates of a path from its words and times alone; shares nothing with the
/// planner.
#pragma once

#include "catch.h"

#include <lobewright/toolpath.h>

#include <algorithm>

namespace word_limits {

using namespace lobewright;

struct Limits {
    double speed_radial = 0.0, speed_rotary = 0.0, speed_axial = 0.0;
    double acceleration_radial = 0.0, acceleration_rotary = 0.0;
    double rate = 0.0;
    double jump_radial = 0.0, jump_rotary = 0.0;
};

/// The largest of each over all feed moves, by the words and times alone; each as a share of its limit. A run
/// of feed moves starts and ends at rest.
inline Limits greatest(const Toolpath& path, const AxisLimits& limits) {
    Limits found;
    const auto share = [](double value, const std::optional<double>& limit) {
        return limit ? value / *limit : 0.0;
    };
    double speeds[2] = {0.0, 0.0};
    double before = 0.0;
    Words at = path.start;
    const auto joint = [&](const double(&next)[2], double seconds) {
        const double between = 0.5 * (before + seconds);
        const auto jump = [&](int axis, const std::optional<double>& limit) {
            return share(std::abs(next[axis] - speeds[axis]) * 60.0, limit);
        };
        found.jump_radial = std::max(found.jump_radial, jump(0, limits.radial_jump));
        found.jump_rotary = std::max(found.jump_rotary, jump(1, limits.rotary_jump));
        if (between > 0.0) {
            found.acceleration_radial =
                std::max(found.acceleration_radial,
                         share(std::abs(next[0] - speeds[0]) / between, limits.radial_acceleration));
            found.acceleration_rotary =
                std::max(found.acceleration_rotary,
                         share(std::abs(next[1] - speeds[1]) / between, limits.rotary_acceleration));
        }
        speeds[0] = next[0], speeds[1] = next[1], before = seconds;
    };
    for (const Move& move : path.moves) {
        if (move.kind == MoveKind::rapid) {
            joint({0.0, 0.0}, 0.0);
        } else {
            const double radial = static_cast<double>(move.to.radial - at.radial) * path.grid.radial_step;
            const double axial = static_cast<double>(move.to.axial - at.axial) * path.grid.axial_step;
            const double rotary = static_cast<double>(move.to.rotary - at.rotary) * path.grid.rotary_step;
            const double minutes = move.seconds / 60.0;
            found.speed_radial =
                std::max(found.speed_radial, share(std::abs(radial) / minutes, limits.radial_speed));
            found.speed_axial =
                std::max(found.speed_axial, share(std::abs(axial) / minutes, limits.axial_speed));
            found.speed_rotary =
                std::max(found.speed_rotary, share(std::abs(rotary) / minutes, limits.rotary_speed));
            found.rate = std::max(found.rate, share(1.0 / move.seconds, limits.blocks_per_second));
            joint({radial / move.seconds, rotary / move.seconds}, move.seconds);
        }
        at = move.to;
    }
    return found;
}

inline void check(const Toolpath& path, const AxisLimits& limits) {
    const Limits found = greatest(path, limits);
    constexpr double all = 1.0 + 1e-6;
    CHECK(found.speed_radial <= all);
    CHECK(found.speed_axial <= all);
    CHECK(found.speed_rotary <= all);
    CHECK(found.acceleration_radial <= all);
    CHECK(found.acceleration_rotary <= all);
    CHECK(found.rate <= all);
    CHECK(found.jump_radial <= all);
    CHECK(found.jump_rotary <= all);
}

}  // namespace word_limits
