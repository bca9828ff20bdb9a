/// Times and speeds that the text asks for, against the machine's limits.
#pragma once

#include "proof/judge/findings.h"

#include <lobewright/program_reader.h>

#include <array>
#include <limits>
#include <optional>
#include <string>

namespace lobewright::proof {

/// A feed's share of a limit may be exceeded by this: what the last decimal of F makes of it.
inline constexpr double limit_slack = 1e-3;
/// The same for accelerations, which are differences of speeds.
inline constexpr double acceleration_slack = 0.02;

/// Axis speeds and travels, the block rate, feeds that the controller runs faster than they ask for, and
/// between the middles of neighbouring feeds the accelerations and jumps, by the blocks' mean speeds: |v₂ -
/// v₁| <= a (t₁ + t₂) / 2, from rest and to rest at the ends of a chain of feeds.
class LimitChecks {
  public:
    /// `diameter`: the radial word is one.
    /// `folded`: the rotary words say directions only, so that its travel is told by how far it turns in all.
    LimitChecks(const AxisLimits& limits, bool diameter, bool folded, Units units);

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
        std::optional<Travel> travel;
        double words_per_mm = 1.0;
        double last_speed = 0.0;  // units a second, of the feed before
    };

    static std::array<Axis, 3> axes_of(const AxisLimits& limits, bool diameter);
    void feed(const ReadMove& from, const ReadMove& to);
    void rest();
    void check_axis(Axis& axis, const ReadMove& from, const ReadMove& to);
    void check_joint(const Axis& axis, double after, double seconds, int line);
    void check_block_rate(const ReadMove& to);
    void check_travel(const ReadMove& to);
    void check_rotary_travel(const ReadMove& to);

    std::array<Axis, 3> axes_;
    std::optional<double> rotary_travel_;
    bool folded_ = false;
    double least_rotary_ = std::numeric_limits<double>::infinity();
    double greatest_rotary_ = -std::numeric_limits<double>::infinity();
    std::optional<double> blocks_per_second_;
    Findings findings_;
    std::optional<ReadMove> last_;
    double last_seconds_ = 0.0;
    int last_line_ = 0;
    bool chained_ = false;
};

/// Spindle speed and sense against the job's, and the rim's speed against the most that the cutter bears.
class SpindleChecks {
  public:
    SpindleChecks(double spindle_speed, const Cutter& cutter, Units units)
        : spindle_speed_(spindle_speed), cutter_(cutter), findings_(units) {}

    /// The next move.
    void take(const ReadMove& move);
    [[nodiscard]] const Findings& findings() const { return findings_; }

  private:
    void check_speed(const ReadMove& move);
    void check_rim(const ReadMove& move);

    double spindle_speed_;
    Cutter cutter_;
    Findings findings_;
    bool warned_ = false, speed_told_ = false, sense_told_ = false, rim_told_ = false;
};

/// Feeds, arcs and dwells, and rapids by the axis speeds where those are given. Where accelerations are
/// given, too: rapids from rest to rest, and what feeds along the radial axis alone need for speeding up and
/// slowing down, at whose ends the path has a corner; and, on an exact path, what every other feed needs for
/// it.
class CycleTime {
  public:
    explicit CycleTime(const AxisLimits& limits)
        : axes_{{{limits.radial_speed, limits.radial_acceleration},
                 {limits.axial_speed, std::nullopt},
                 {limits.rotary_speed, limits.rotary_acceleration}}} {}

    /// The next move.
    void take(const ReadMove& move);
    /// `exact`: the controller comes to rest after every block that turns the shaft.
    [[nodiscard]] double seconds(bool exact) const { return exact ? seconds_ + stops_ : seconds_; }

  private:
    struct Axis {
        std::optional<double> speed, acceleration;
    };
    [[nodiscard]] double rapid_seconds(const ReadMove& from, const ReadMove& to) const;
    void change_plunge(double speed);
    void stop_after(const ReadMove& from, const ReadMove& to);

    std::array<Axis, 3> axes_;  // radial, axial, rotary
    std::optional<ReadMove> last_;
    double plunge_ = 0.0;  // mm/s, of the radial axis where it feeds alone
    double seconds_ = 0.0;
    double stops_ = 0.0;  // s
};

}  // namespace lobewright::proof
