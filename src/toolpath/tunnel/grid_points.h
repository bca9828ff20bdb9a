/// The machine's grid within a tunnel: which of its points a block may end on.
#pragma once

#include "toolpath/tunnel/fewest_blocks.h"
#include "toolpath/tunnel/grid_path.h"

#include <functional>
#include <optional>
#include <utility>
#include <vector>

namespace lobewright::toolpath {

/// What arithmetic may put a knot on the wrong side of a wall, mm: far more than the rounding of a radial
/// word of some 100 mm (1e-14 of it), far less than a step of any grid.
inline constexpr double wall_slack = 1e-9;

/// Rotary steps to either side of the best place within which points are looked for at first.
inline constexpr long long first_search = 64;

struct GridCandidate {
    GridKnot knot;
    double off = 0.0;  ///< mm from the line that was aimed at
};

/// Where points are looked for: round a place, near to a line, over so many rotary steps to both sides, but
/// no further than it takes to find some.
struct GridAim {
    double at = 0.0;
    StraightLine line;
    long long span = first_search;
    std::size_t most = 1;  ///< points wanted above the line, and as many below
};

class GridPoints {
  public:
    GridPoints(const std::vector<Gate>& gates, const GridRules& rules)
        : gates_(gates), rules_(rules), sight_(gates) {}

    [[nodiscard]] double at(long long rotary) const {
        return static_cast<double>(rotary) * rules_.steps.rotary;
    }
    [[nodiscard]] double value(long long radial) const {
        return static_cast<double>(radial) * rules_.steps.radial;
    }
    [[nodiscard]] GridKnot knot_at(double place, long long radial) const;

    /// The straight line between two knots stays between the walls.
    [[nodiscard]] bool clear(GridKnot a, GridKnot b) const;

    /// The least and the most radial word between the walls at a rotary step.
    [[nodiscard]] std::optional<std::pair<long long, long long>> words(long long rotary) const;

    /// The radial word between `low` and `high` that is nearest to `wanted`.
    [[nodiscard]] std::optional<long long> word_between(double low, double high, double wanted) const;

    /// The grid's points nearest to the line of the aim, above it and then below, that lie beyond `from`, on
    /// the near side of the piece's frontier and in sight.
    [[nodiscard]] std::vector<GridCandidate> around(GridKnot from, const Piece& piece, const GridAim& aim,
                                                    const std::function<bool(GridKnot)>& seen) const;

  private:
    struct BothSides;
    /// Adds the best points at one rotary step; false where all that may lie there, and behind it, lies
    /// further off than those found so far.
    bool look(const Piece& piece, long long rotary, const StraightLine& wanted,
              const std::function<bool(GridKnot)>& seen, BothSides& found) const;

    const std::vector<Gate>& gates_;
    const GridRules& rules_;
    Sight sight_;
};

}  // namespace lobewright::toolpath
