/// A pass in whole steps of the grid: places of travel, radial words, and the blocks between them.
#pragma once

#include "toolpath/path/block_timing.h"
#include "toolpath/section/radial_function.h"
#include "toolpath/setup.h"
#include "toolpath/tunnel/tunnel.h"

#include <lobewright/toolpath.h>

#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// A pass that runs along a wide lobe in a helix: a turn at the first place, `turns` on the way to the last,
/// and a turn there. Turns that knots, between which alone it may begin and end to go along, take away from
/// the way are put in again, so that it goes no further on in a turn than `pitch`.
struct Helix {
    double to = 0.0;  ///< mm, the last axial place; the first is the pass's own
    int turns = 1;
    double pitch = 0.0;  ///< mm along the shaft that the cutter covers in a turn
};

class KnownContours;

/// What a pass is to do.
struct PassOrder {
    Pass pass;  ///< lobe, kind, ring, axial, left_on
    Margins margins;
    double feed = 0.0;   ///< mm/min along the surface
    double stock = 0.0;  ///< mm over the pass's surface on the heel
    int repeats = 0;     ///< spring passes that follow
    std::optional<Helix> helix = std::nullopt;
    /// mm/min for which the knots are laid out where limits of jumps make them depend on it; absent: the
    /// feed.
    std::optional<double> layout_feed = std::nullopt;
    std::vector<Heel> heels = {};  ///< where it may come to the surface; none: the function's own
    /// mm: half of the flat of the narrowest slice of the cutter that meets the lobe.
    double narrowest = every_slice_alike;
    /// Of this function within these margins, for passes that only lie elsewhere along the shaft.
    KnownContours* known = nullptr;
};

/// Between two places of travel the axial word goes evenly from one place to another; steps.
struct Slide {
    long long from = 0, to = 0;
    long long axial_from = 0, axial_to = 0;
};

using Knots = std::vector<GridKnot>;  ///< in steps of travel and of the radial word

class PassFrame {
  public:
    PassFrame(const Setup& setup, const RadialFunction& function, const PassOrder& order)
        : setup_(setup), function_(function), order_(order) {}

    [[nodiscard]] const Setup& setup() const { return setup_; }
    [[nodiscard]] const RadialFunction& function() const { return function_; }
    [[nodiscard]] const PassOrder& order() const { return order_; }
    [[nodiscard]] const AxisLimits& limits() const { return setup_.machine.limits; }

    /// Travel to whole steps, and back. The travel is the facing direction φ as it runs on (see
    /// along_travel).
    [[nodiscard]] long long steps(ShaftAngle travel) const;
    [[nodiscard]] ShaftAngle travel(long long steps) const {
        return ShaftAngle::from_radians(static_cast<double>(steps) * setup_.steps.rotary);
    }
    /// The steps of one turn.
    [[nodiscard]] long long turn() const { return steps(ShaftAngle::from_radians(full_turn)); }
    /// The place within the first turn that lies whole turns off that one.
    [[nodiscard]] long long in_turn(long long place) const { return (place % turn() + turn()) % turn(); }
    /// Whole turns, in steps, that bring a place of travel to `now`, or past it.
    [[nodiscard]] long long turns_to(long long now, long long place) const;
    /// Radial word in steps, never less than `x` asks for.
    [[nodiscard]] long long radial_steps(double x) const;
    /// The radial word of rapids, and the axial word of the pass.
    [[nodiscard]] long long safe() const { return radial_steps(setup_.safe); }
    [[nodiscard]] long long axial() const;
    /// The axial word at a place of travel: of a frame that slides, between the pass's first and last.
    [[nodiscard]] long long axial_at(long long travel) const;
    /// The same frame, sliding.
    [[nodiscard]] PassFrame sliding(const Slide& slide) const {
        PassFrame frame = *this;
        frame.slide_ = slide;
        return frame;
    }

    /// That a block may turn; 0: any.
    [[nodiscard]] ShaftAngle longest_block() const {
        return ShaftAngle::from_degrees(setup_.grid.longest_rotary_block);
    }

    /// On the contour the feed counts the contact's travel; on lead-in and lead-out the longer of that and
    /// the rise.
    [[nodiscard]] PathBlock block_between(const GridKnot& a, const GridKnot& b, bool along_contour) const;
    /// The same at the feed for which the knots are laid out.
    [[nodiscard]] PathBlock laid_between(const GridKnot& a, const GridKnot& b, bool along_contour) const;
    [[nodiscard]] double layout_feed() const { return order_.layout_feed.value_or(order_.feed); }
    /// Of a block along the contour that takes `depth` mm: PathBlock::chip.
    [[nodiscard]] double chip_between(const GridKnot& a, const GridKnot& b, double depth) const;

  private:
    const Setup& setup_;
    const RadialFunction& function_;
    const PassOrder& order_;
    std::optional<Slide> slide_;
};

}  // namespace lobewright::toolpath
