#include "proof/judge/limit_checks.h"

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

constexpr double seconds_per_minute = 60.0;

}  // namespace

LimitChecks::LimitChecks(const AxisLimits& limits, Units units)
    : axes_(axes_of(limits)), blocks_per_second_(limits.blocks_per_second), findings_(units) {}

std::array<LimitChecks::Axis, 3> LimitChecks::axes_of(const AxisLimits& limits) {
    return {{{{"radial", false},
              &ReadMove::radial,
              limits.radial_speed,
              limits.radial_acceleration,
              limits.radial_jump},
             {{"axial", false}, &ReadMove::axial, limits.axial_speed, std::nullopt, std::nullopt},
             {{"rotary", true},
              &ReadMove::rotary,
              limits.rotary_speed,
              limits.rotary_acceleration,
              limits.rotary_jump}}};
}

void LimitChecks::take(const ReadMove& move) {
    const bool feeds = move.kind == ReadMoveKind::feed || move.kind == ReadMoveKind::arc;
    if (feeds && last_) {
        feed(*last_, move);
    } else {
        rest();
    }
    last_ = move;
}

const Findings& LimitChecks::finish() {
    rest();
    return findings_;
}

void LimitChecks::feed(const ReadMove& from, const ReadMove& to) {
    for (Axis& axis : axes_)
        check_axis(axis, from, to);
    check_block_rate(to);
    last_seconds_ = to.seconds;
    chained_ = true;
    last_line_ = to.line;
}

/// The axes come to rest.
void LimitChecks::rest() {
    if (!chained_) return;
    for (Axis& axis : axes_) {
        check_joint(axis, 0.0, 0.5 * last_seconds_, last_line_);
        axis.last_speed = 0.0;
    }
    chained_ = false;
    last_seconds_ = 0.0;
}

void LimitChecks::check_axis(Axis& axis, const ReadMove& from, const ReadMove& to) {
    const double way = to.*axis.place - from.*axis.place;
    if (way != 0.0 && to.seconds == 0.0) return;
    const double speed = way == 0.0 ? 0.0 : way / to.seconds;
    const double per_minute = std::abs(speed) * seconds_per_minute;
    if (axis.speed && per_minute > *axis.speed * (1.0 + limit_slack))
        findings_.error("axis-speed", to.line,
                        findings_.words().axis_speed(axis.name, per_minute, *axis.speed));
    check_joint(axis, speed, 0.5 * (last_seconds_ + to.seconds), to.line);
    axis.last_speed = speed;
}

void LimitChecks::check_joint(const Axis& axis, double after, double seconds, int line) {
    const double step = std::abs(after - axis.last_speed);
    const FindingWords& words = findings_.words();
    if (axis.acceleration && step > *axis.acceleration * seconds * (1.0 + acceleration_slack))
        findings_.error("axis-acceleration", line,
                        words.axis_acceleration(axis.name, step / seconds, *axis.acceleration));
    if (axis.jump && step * seconds_per_minute > *axis.jump * (1.0 + acceleration_slack))
        findings_.error("axis-jump", line, words.axis_jump(axis.name, step * seconds_per_minute, *axis.jump));
}

void LimitChecks::check_block_rate(const ReadMove& to) {
    if (!blocks_per_second_ || to.seconds * *blocks_per_second_ >= 1.0 - limit_slack) return;
    findings_.error("block-rate", to.line, FindingWords::block_rate(to.seconds, *blocks_per_second_));
}

void SpindleChecks::take(const ReadMove& move) {
    if (move.kind == ReadMoveKind::rapid || move.kind == ReadMoveKind::dwell || !move.spindle_on) return;
    if (!speed_told_ && std::abs(std::abs(move.spindle_speed) - spindle_speed_) > 0.01 * spindle_speed_) {
        tell_speed(move);
        speed_told_ = true;
    }
    if (!sense_told_ && move.spindle_speed < 0.0 && teeth_ > 0) {
        findings_.error("spindle-reversed", move.line, FindingWords::spindle_reversed());
        sense_told_ = true;
    }
}

void SpindleChecks::tell_speed(const ReadMove& move) {
    const double speed = std::abs(move.spindle_speed);
    std::string message = FindingWords::spindle_speed(speed, spindle_speed_);
    if (speed > spindle_speed_) {
        findings_.error("spindle-speed", move.line, std::move(message));
    } else {
        findings_.warn("spindle-speed", move.line, std::move(message));
    }
}

void CycleTime::take(const ReadMove& move) {
    seconds_ += move.seconds;
    if (move.kind == ReadMoveKind::rapid && last_) seconds_ += rapid_seconds(*last_, move);
    last_ = move;
}

double CycleTime::rapid_seconds(const ReadMove& from, const ReadMove& to) const {
    const double ways[] = {to.radial - from.radial, to.axial - from.axial, to.rotary - from.rotary};
    double seconds = 0.0;
    for (std::size_t i = 0; i < speeds_.size(); ++i) {
        if (speeds_[i] && !std::isnan(ways[i]))
            seconds = std::max(seconds, std::abs(ways[i]) / *speeds_[i] * seconds_per_minute);
    }
    return seconds;
}

}  // namespace lobewright::proof
