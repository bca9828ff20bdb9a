/// Other knots in the place of some whose blocks a controller would run away.
#pragma once

#include "toolpath/path/joint_jumps.h"
#include "toolpath/path/knot_chain.h"

#include <vector>

namespace lobewright::toolpath {

/// Whether a block has linear motion, and so little of it for its time that a controller runs it away which
/// runs none slower than `floor`, mm/min.
bool under_floor(const PathBlock& block, double seconds, double floor);

/// The floor of a chain, and what its blocks are known to take.
class FloorRule {
  public:
    /// `floor`: mm/min; `radial_step`: mm; `radius`: mm, of the lobe where it is smallest.
    FloorRule(const BlockBetween& block, const AxisLimits& limits, double floor, double radial_step,
              double radius)
        : block_(block), limits_(limits), floor_(floor), radial_step_(radial_step), radius_(radius) {}

    [[nodiscard]] bool too_slow(const PathBlock& block, double seconds) const {
        return under_floor(block, seconds, floor_);
    }

    /// The blocks of the chain in their order, and how long they take: what lies at a block's place is
    /// expected to take as many times its least time. What ran away is not forgotten when others are learned.
    void learn(const Knots& knots, const std::vector<double>& seconds);

    /// What a block will take, and whether it would run away then, with something in hand.
    struct Expected {
        double seconds = 0.0;
        bool runs_away = false;
    };
    [[nodiscard]] Expected expected(const GridKnot& a, const GridKnot& b) const;
    /// By how much a block goes down on its way along the surface, or on the shorter one on which the shaft
    /// turns beneath it, by that way; negative where it rises. (Along a flat flank the contact runs far while
    /// the shaft hardly turns.)
    [[nodiscard]] double descent(const GridKnot& a, const GridKnot& b) const;
    /// Steps of the radial word that a block between these places must rise at least, not to run away.
    [[nodiscard]] long long least_rise(const GridKnot& a, const GridKnot& b) const;
    /// Steps of travel in which a block that turns as fast as this one rises by so many steps fast enough; no
    /// more than its own.
    [[nodiscard]] long long turn_to_rise(const GridKnot& a, const GridKnot& b, long long rise) const;
    /// Steps of travel that the shaft turns in the shortest time of a block.
    [[nodiscard]] long long shortest_turn(const GridKnot& a, const GridKnot& b) const;

  private:
    struct Slow {
        long long from = 0, to = 0;
        double times = 1.0;
    };
    [[nodiscard]] double minutes_of(const GridKnot& a, const GridKnot& b) const;
    [[nodiscard]] double slowness(long long from, long long to) const;
    const BlockBetween& block_;
    AxisLimits limits_;
    double floor_, radial_step_, radius_;
    std::vector<Slow> slow_;      // in their order
    std::vector<Slow> ran_away_;  // in whatever order
};

/// The quickest way from the first knot of the window to the last none of whose blocks runs away, through
/// some places and words of the room; with as few that do as can be where there is none without. The window
/// itself where it is as good. Required: the window lies within the room.
Knots detour(const Knots& window, const Room& room, const FloorRule& floor);

}  // namespace lobewright::toolpath
