#include "proof/limit_checks.h"

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

constexpr double seconds_per_minute = 60.0;

/// One axis as the limits see it.
struct Axis {
    const char* name;
    double ReadMove::*place;
    std::optional<double> speed, acceleration, jump;
    bool rotary;
};

std::vector<Axis> axes_of(const AxisLimits& limits) {
    return {{"radial", &ReadMove::radial, limits.radial_speed, limits.radial_acceleration, limits.radial_jump,
             false},
            {"axial", &ReadMove::axial, limits.axial_speed, std::nullopt, std::nullopt, false},
            {"rotary", &ReadMove::rotary, limits.rotary_speed, limits.rotary_acceleration, limits.rotary_jump,
             true}};
}

std::string speed_text(const Axis& axis, double per_minute, const Findings& findings) {
    return axis.rotary ? shortest_fixed(per_minute, 1) + " degrees/min" : findings.speed(per_minute);
}

class LimitChecker {
  public:
    LimitChecker(const AxisLimits& limits, Findings& findings)
        : limits_(limits), axes_(axes_of(limits)), findings_(findings) {}

    void feed(const ReadMove& from, const ReadMove& to) {
        for (std::size_t i = 0; i < axes_.size(); ++i)
            check_axis(i, from, to);
        check_block_rate(to);
        last_seconds_ = to.seconds;
        chained_ = true;
        last_line_ = to.line;
    }

    /// The axes come to rest.
    void rest() {
        if (!chained_) return;
        for (std::size_t i = 0; i < axes_.size(); ++i) {
            check_joint(i, last_speed_[i], 0.0, 0.5 * last_seconds_, last_line_);
            last_speed_[i] = 0.0;
        }
        chained_ = false;
        last_seconds_ = 0.0;
    }

  private:
    void check_axis(std::size_t i, const ReadMove& from, const ReadMove& to) {
        const Axis& axis = axes_[i];
        const double way = to.*axis.place - from.*axis.place;
        if (way != 0.0 && to.seconds == 0.0) return;
        const double speed = way == 0.0 ? 0.0 : way / to.seconds;
        const double per_minute = std::abs(speed) * seconds_per_minute;
        if (axis.speed && per_minute > *axis.speed * (1.0 + limit_slack)) {
            findings_.error("axis-speed", to.line,
                            std::string("the ") + axis.name + " axis must run at " +
                                speed_text(axis, per_minute, findings_) + ", and its limit is " +
                                speed_text(axis, *axis.speed, findings_));
        }
        check_joint(i, last_speed_[i], speed, 0.5 * (last_seconds_ + to.seconds), to.line);
        last_speed_[i] = speed;
    }

    void check_joint(std::size_t i, double before, double after, double seconds, int line) {
        const Axis& axis = axes_[i];
        const double step = std::abs(after - before);
        if (axis.acceleration && step > *axis.acceleration * seconds * (1.0 + acceleration_slack)) {
            findings_.error("axis-acceleration", line,
                            std::string("the ") + axis.name + " axis must speed up or slow down at " +
                                acceleration_text(axis, step / seconds) + ", and its limit is " +
                                acceleration_text(axis, *axis.acceleration));
        }
        if (axis.jump && step * seconds_per_minute > *axis.jump * (1.0 + acceleration_slack)) {
            findings_.error("axis-jump", line,
                            std::string("the ") + axis.name + " axis changes its speed by " +
                                speed_text(axis, step * seconds_per_minute, findings_) +
                                " at once, and its limit is " + speed_text(axis, *axis.jump, findings_));
        }
    }

    [[nodiscard]] std::string acceleration_text(const Axis& axis, double value) const {
        return (axis.rotary ? findings_.degrees(value) : findings_.length(value)) + "/s²";
    }

    void check_block_rate(const ReadMove& to) {
        if (!limits_.blocks_per_second || to.seconds * *limits_.blocks_per_second >= 1.0 - limit_slack)
            return;
        findings_.error("block-rate", to.line,
                        "the block lasts " + shortest_fixed(1000.0 * to.seconds, 3) +
                            " ms, and the controller takes " + shortest_fixed(*limits_.blocks_per_second, 3) +
                            " blocks a second");
    }

    const AxisLimits& limits_;
    std::vector<Axis> axes_;
    Findings& findings_;
    double last_speed_[3] = {0.0, 0.0, 0.0};
    double last_seconds_ = 0.0;
    int last_line_ = 0;
    bool chained_ = false;
};

double rapid_seconds(const ReadMove& from, const ReadMove& to, const std::vector<Axis>& axes) {
    double seconds = 0.0;
    for (const Axis& axis : axes) {
        const double way = std::abs(to.*axis.place - from.*axis.place);
        if (axis.speed && !std::isnan(way))
            seconds = std::max(seconds, way / *axis.speed * seconds_per_minute);
    }
    return seconds;
}

}  // namespace

void check_limits(const ReadProgram& program, const AxisLimits& limits, Findings& findings) {
    LimitChecker checker(limits, findings);
    const ReadMove* last = nullptr;
    for (const ReadMove& move : program.moves) {
        const bool feeds = move.kind == ReadMoveKind::feed || move.kind == ReadMoveKind::arc;
        if (feeds && last != nullptr) {
            checker.feed(*last, move);
        } else {
            checker.rest();
        }
        last = &move;
    }
    checker.rest();
}

void check_spindle_words(const ReadProgram& program, double spindle_speed, int teeth, Findings& findings) {
    const auto report_speed = [&](const ReadMove& move) {
        const double speed = std::abs(move.spindle_speed);
        std::string message = "the spindle turns at " + shortest_fixed(speed, 3) +
                              " rev/min, and the job asks for " + shortest_fixed(spindle_speed, 3);
        if (speed > spindle_speed) {
            findings.error("spindle-speed", move.line, std::move(message));
        } else {
            findings.warn("spindle-speed", move.line, std::move(message));
        }
    };
    bool speed_told = false, sense_told = false;
    for (const ReadMove& move : program.moves) {
        if (move.kind == ReadMoveKind::rapid || move.kind == ReadMoveKind::dwell || !move.spindle_on)
            continue;
        if (!speed_told && std::abs(std::abs(move.spindle_speed) - spindle_speed) > 0.01 * spindle_speed) {
            report_speed(move);
            speed_told = true;
        }
        if (!sense_told && move.spindle_speed < 0.0 && teeth > 0) {
            findings.error(
                "spindle-reversed", move.line,
                "the spindle turns counter-clockwise, and the cutter's teeth cut the other way round");
            sense_told = true;
        }
    }
}

double cycle_seconds(const ReadProgram& program, const AxisLimits& limits) {
    const std::vector<Axis> axes = axes_of(limits);
    double seconds = 0.0;
    const ReadMove* last = nullptr;
    for (const ReadMove& move : program.moves) {
        seconds += move.seconds;
        if (move.kind == ReadMoveKind::rapid && last != nullptr) seconds += rapid_seconds(*last, move, axes);
        last = &move;
    }
    return seconds;
}

}  // namespace lobewright::proof
