#include "proof/judge/limit_checks.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::proof {
namespace {

constexpr double seconds_per_minute = 60.0;

}  // namespace

LimitChecks::LimitChecks(const AxisLimits& limits, bool diameter, bool folded, Units units)
    : axes_(axes_of(limits, diameter)),
      rotary_travel_(limits.rotary_travel),
      folded_(folded),
      blocks_per_second_(limits.blocks_per_second),
      findings_(units) {}

std::array<LimitChecks::Axis, 3> LimitChecks::axes_of(const AxisLimits& limits, bool diameter) {
    return {{{{"radial", false},
              &ReadMove::radial,
              limits.radial_speed,
              limits.radial_acceleration,
              limits.radial_jump,
              limits.radial_travel,
              diameter ? 2.0 : 1.0},
             {{"axial", false},
              &ReadMove::axial,
              limits.axial_speed,
              std::nullopt,
              std::nullopt,
              limits.axial_travel},
             {{"rotary", true},
              &ReadMove::rotary,
              limits.rotary_speed,
              limits.rotary_acceleration,
              limits.rotary_jump,
              std::nullopt}}};
}

void LimitChecks::take(const ReadMove& move) {
    const bool feeds = move.kind == ReadMoveKind::feed || move.kind == ReadMoveKind::arc;
    check_travel(move);
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
    if (to.runs_in > 0.0)
        findings_.error("runs-away", to.line, FindingWords::runs_away(to.runs_in, to.seconds));
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

void LimitChecks::check_travel(const ReadMove& to) {
    constexpr double rounding = 1e-6;  // mm
    for (const Axis& axis : axes_) {
        const double word = to.*axis.place * axis.words_per_mm;
        if (!axis.travel || std::isnan(word)) continue;
        if (word >= axis.travel->least - rounding && word <= axis.travel->greatest + rounding) continue;
        findings_.error("beyond-travel", to.line,
                        findings_.words().beyond_travel(axis.name, word, *axis.travel));
    }
    check_rotary_travel(to);
}

void LimitChecks::check_rotary_travel(const ReadMove& to) {
    constexpr double rounding = 1e-6;  // degrees
    if (!rotary_travel_ || std::isnan(to.rotary)) return;
    least_rotary_ = std::min(least_rotary_, to.rotary);
    greatest_rotary_ = std::max(greatest_rotary_, to.rotary);
    if (folded_) {
        const double turned = greatest_rotary_ - least_rotary_;
        if (turned > 2.0 * *rotary_travel_ + rounding)
            findings_.error("beyond-travel", to.line, FindingWords::turns_too_far(turned, *rotary_travel_));
    } else if (std::abs(to.rotary) > *rotary_travel_ + rounding) {
        findings_.error("beyond-travel", to.line,
                        FindingWords::beyond_rotary_travel(to.rotary, *rotary_travel_));
    }
}

void SpindleChecks::take(const ReadMove& move) {
    if (move.kind == ReadMoveKind::rapid || move.kind == ReadMoveKind::dwell || !move.spindle_on) return;
    check_speed(move);
    check_rim(move);
    if (!sense_told_ && move.spindle_speed < 0.0 && cutter_.teeth > 0) {
        findings_.error("spindle-reversed", move.line, FindingWords::spindle_reversed());
        sense_told_ = true;
    }
}

/// Too fast an error, too slow at first a warning: then each tooth takes more.
void SpindleChecks::check_speed(const ReadMove& move) {
    constexpr double slack = 0.01, too_slow = 0.1;
    const double speed = std::abs(move.spindle_speed), off = speed / spindle_speed_ - 1.0;
    if (std::abs(off) <= slack || speed_told_) return;
    std::string message = FindingWords::spindle_speed(speed, spindle_speed_);
    if (off > 0.0 || off < -too_slow) {
        findings_.error("spindle-speed", move.line, std::move(message));
        speed_told_ = true;
    } else if (!warned_) {
        findings_.warn("spindle-speed", move.line, std::move(message));
        warned_ = true;
    }
}

void SpindleChecks::check_rim(const ReadMove& move) {
    if (!cutter_.fastest || rim_told_) return;
    constexpr double rounding = 1e-9;
    const double rim =
        std::numbers::pi * cutter_.diameter / 1000.0 * std::abs(move.spindle_speed) / seconds_per_minute;
    if (rim <= *cutter_.fastest * (1.0 + rounding)) return;
    findings_.error("rim-speed", move.line, FindingWords::rim_speed(rim, *cutter_.fastest));
    rim_told_ = true;
}

void CycleTime::take(const ReadMove& move) {
    seconds_ += move.seconds;
    if (move.kind == ReadMoveKind::rapid && last_) seconds_ += rapid_seconds(*last_, move);
    const bool plunges =
        move.kind == ReadMoveKind::feed && last_ && last_->rotary == move.rotary && move.seconds > 0.0;
    change_plunge(plunges ? std::abs(move.radial - last_->radial) / move.seconds : 0.0);
    if (move.kind == ReadMoveKind::feed && last_ && !plunges && move.seconds > 0.0) stop_after(*last_, move);
    last_ = move;
}

/// Up to its mean speed v from rest, and back: v/a longer than at v, of the slowest axis. In a way d too
/// short for that it speeds up over one half of it and slows down over the other: sqrt(d/a) for each.
void CycleTime::stop_after(const ReadMove& from, const ReadMove& to) {
    double longest = 0.0;
    const auto axis = [&](double way, const std::optional<double>& acceleration) {
        if (!acceleration || std::isnan(way)) return;
        const double distance = std::abs(way), speed = distance / to.seconds;
        const bool gets_there = speed * speed <= *acceleration * distance;
        longest = std::max(longest, gets_there ? speed / *acceleration
                                               : 2.0 * std::sqrt(distance / *acceleration) - to.seconds);
    };
    axis(to.radial - from.radial, axes_[0].acceleration);
    axis(to.rotary - from.rotary, axes_[2].acceleration);
    stops_ += longest;
}

/// A change of speed at the acceleration a takes (v2 - v1)²/(2 a v) longer than one at once, v the faster of
/// both.
void CycleTime::change_plunge(double speed) {
    const auto& acceleration = axes_[0].acceleration;
    if (acceleration && speed != plunge_)
        seconds_ += (speed - plunge_) * (speed - plunge_) / (2.0 * *acceleration * std::max(speed, plunge_));
    plunge_ = speed;
}

double CycleTime::rapid_seconds(const ReadMove& from, const ReadMove& to) const {
    const double ways[] = {to.radial - from.radial, to.axial - from.axial, to.rotary - from.rotary};
    double longest = 0.0;
    for (std::size_t i = 0; i < std::size(ways); ++i) {
        const auto& [limit, acceleration] = axes_[i];
        if (!limit || std::isnan(ways[i]) || ways[i] == 0.0) continue;
        const double way = std::abs(ways[i]), speed = *limit / seconds_per_minute;
        double seconds = way / speed;
        if (acceleration) {
            const double ramps = speed / *acceleration;  // s, up and down
            seconds = way < speed * ramps ? 2.0 * std::sqrt(way / *acceleration) : seconds + ramps;
        }
        longest = std::max(longest, seconds);
    }
    return longest;
}

}  // namespace lobewright::proof
