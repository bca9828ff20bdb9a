/// Times and speeds that the text asks for, against the machine's limits.
#pragma once

#include "proof/judge/findings.h"

#include <lobewright/program_reader.h>

#include <array>
#include <optional>
#include <string>

namespace lobewright::proof {

/// A feed's share of a limit may be exceeded by this: what the last decimal of F makes of it.
inline constexpr double limit_slack = 1e-3;
/// The same for accelerations, which are differences of speeds.
inline constexpr double acceleration_slack = 0.02;

/// Axis speeds, the block rate, and between the middles of neighbouring feeds the accelerations and jumps, by
/// the blocks' mean speeds: |v₂ - v₁| <= a (t₁ + t₂) / 2, from rest and to rest at the ends of a chain of
/// feeds.
class LimitChecks {
  public:
    LimitChecks(const AxisLimits& limits, Units units);

    /// The next move.
    void take(const ReadMove& move);
    /// After the last move.
    const Findings& finish();

  private:
    /// One axis as the limits see it.
    struct Axis {
        FindingWords::AxisName name;
        double ReadMove::*place;
        std::optional<double> speed, acceleration, jump;
        double last_speed = 0.0;  // units a second, of the feed before
    };

    static std::array<Axis, 3> axes_of(const AxisLimits& limits);
    void feed(const ReadMove& from, const ReadMove& to);
    void rest();
    void check_axis(Axis& axis, const ReadMove& from, const ReadMove& to);
    void check_joint(const Axis& axis, double after, double seconds, int line);
    void check_block_rate(const ReadMove& to);

    std::array<Axis, 3> axes_;
    std::optional<double> blocks_per_second_;
    Findings findings_;
    std::optional<ReadMove> last_;
    double last_seconds_ = 0.0;
    int last_line_ = 0;
    bool chained_ = false;
};

/// Spindle speed and sense against the job's.
class SpindleChecks {
  public:
    /// `teeth`: of the cutter, 0 for a wheel.
    SpindleChecks(double spindle_speed, int teeth, Units units)
        : spindle_speed_(spindle_speed), teeth_(teeth), findings_(units) {}

    /// The next move.
    void take(const ReadMove& move);
    [[nodiscard]] const Findings& findings() const { return findings_; }

  private:
    void tell_speed(const ReadMove& move);

    double spindle_speed_;
    int teeth_;
    Findings findings_;
    bool speed_told_ = false, sense_told_ = false;
};

/// Feeds, arcs and dwells, and rapids by the axis speeds where those are given.
class CycleTime {
  public:
    explicit CycleTime(const AxisLimits& limits)
        : speeds_{limits.radial_speed, limits.axial_speed, limits.rotary_speed} {}

    /// The next move.
    void take(const ReadMove& move);
    [[nodiscard]] double seconds() const { return seconds_; }

  private:
    [[nodiscard]] double rapid_seconds(const ReadMove& from, const ReadMove& to) const;

    std::array<std::optional<double>, 3> speeds_;  // radial, axial, rotary
    std::optional<ReadMove> last_;
    double seconds_ = 0.0;
};

}  // namespace lobewright::proof
