#include "profile/motion/monotone_parts.h"

#include "base/interval_arithmetic.h"
#include "profile/roots.h"

#include <optional>

namespace lobewright::profile {
namespace {

/// One piece, taken apart.
class PieceParts {
  public:
    PieceParts(const MotionPiece& piece, std::size_t index, std::vector<MonotonePart>& parts)
        : piece_(piece), index_(index), parts_(parts) {}

    void take_apart(const Interval& angles) {
        const LiftBounds middle = piece_.within(angles.middle());
        const LiftBounds bounds = tight_bounds(piece_, angles, middle);
        if (const auto phase = phase_of(bounds[1])) return add(angles, *phase);
        const bool single_turn = bounds[2].low > 0.0 || bounds[2].high < 0.0;
        if (single_turn) return part_at_turn(angles);
        if (!(angles.width() >= shortest_turning)) return add(angles, phase_at(angles.middle()));
        take_apart({angles.low, angles.middle()});
        take_apart({angles.middle(), angles.high});
    }

  private:
    static std::optional<Phase> phase_of(const Interval& velocity) {
        if (velocity.low == 0.0 && velocity.high == 0.0) return Phase::dwell;
        if (velocity.low >= 0.0) return Phase::rise;
        if (velocity.high <= 0.0) return Phase::fall;
        return std::nullopt;
    }
    [[nodiscard]] double velocity(double angle) const { return piece_.at(angle).velocity; }
    [[nodiscard]] Phase phase_at(double angle) const {
        return phase_of(velocity(angle)).value_or(Phase::rise);
    }

    /// The velocity only grows, or only shrinks.
    void part_at_turn(const Interval& angles) {
        const double at_low = velocity(angles.low), at_high = velocity(angles.high);
        if (at_low * at_high >= 0.0) return add(angles, *phase_of(at_low + at_high));
        const double turn = root_of([this](double x) { return velocity(x); }, angles.low, angles.high);
        add({angles.low, turn}, *phase_of(at_low));
        add({turn, angles.high}, *phase_of(at_high));
    }

    void add(const Interval& angles, Phase phase) {
        const bool goes_on = !parts_.empty() && parts_.back().piece == index_ && parts_.back().phase == phase;
        if (goes_on)
            parts_.back().angles.high = angles.high;
        else
            parts_.push_back({index_, angles, phase});
    }

    const MotionPiece& piece_;
    std::size_t index_;
    std::vector<MonotonePart>& parts_;
};

}  // namespace

std::vector<MonotonePart> monotone_parts(const std::vector<MotionPiece>& pieces) {
    std::vector<MonotonePart> parts;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const Interval whole{pieces[i].start, pieces[i].end};
        if (pieces[i].constant)
            parts.push_back({i, whole, Phase::dwell});
        else
            PieceParts(pieces[i], i, parts).take_apart(whole);
    }
    return parts;
}

FigureAt highest_lift(const std::vector<MotionPiece>& pieces) {
    constexpr double same = 1e-14;  // of the lift: equal but for some fifty of its last bits
    FigureAt highest{pieces.front().at(pieces.front().start).lift,
                     CamAngle::from_radians(pieces.front().start)};
    for (const MonotonePart& part : monotone_parts(pieces)) {
        for (const double angle : {part.angles.low, part.angles.high}) {
            const double lift = pieces[part.piece].at(angle).lift;
            if (lift > highest.value + same * std::abs(highest.value))
                highest = {lift, CamAngle::from_radians(angle)};
        }
    }
    return highest;
}

LiftBounds tight_bounds(const MotionPiece& piece, const Interval& angles, const LiftBounds& in_middle) {
    LiftBounds bounds = piece.within(angles);
    const Interval off = angles - angles.middle();
    for (std::size_t order = bounds.size() - 1; order-- > 0;)
        bounds[order] = common(bounds[order], in_middle[order] + off * bounds[order + 1]);
    return bounds;
}

}  // namespace lobewright::profile
