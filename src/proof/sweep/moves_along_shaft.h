/// Which moves lie over a place along the shaft, without a look at all the others.
#pragma once

#include "proof/sweep/shaft_moves.h"

#include <functional>
#include <vector>

namespace lobewright::proof {

/// The moves of one kind in chains of neighbours that lie at one place along the shaft, or near it, ordered
/// by that place: an interval tree (a search tree by the intervals' beginnings, each node with the last end
/// below it). The work of a question grows with what it finds and with the logarithm of the rest.
class MovesAlongShaft {
  public:
    using Kind = std::function<bool(const ShaftMove&)>;

    MovesAlongShaft(const ShaftMoves& moves, Kind kind);

    /// Calls visit(index, move) for the moves of the kind that come between `low` and `high` (mm, the axial
    /// word) or touch them, in the program's order.
    template <class Visit>
    void for_each(double low, double high, Visit visit) const {
        for (const Range& range : ranges_over(low, high)) {
            for (int i = range.first; i < range.end; ++i) {
                const ShaftMove move = moves_[i];
                if (move.first_z() <= high && move.last_z() >= low && kind_(move)) visit(i, move);
            }
        }
    }

    [[nodiscard]] const ShaftMoves& moves() const { return moves_; }
    /// How many moves were looked at by all questions so far.
    [[nodiscard]] long long looked_at() const { return looked_at_; }

  private:
    /// mm: what a chain of moves along the shaft may cover, less than any lobe's width.
    static constexpr double widest_chain = 0.5;

    /// Moves of other kinds that a chain may hold between its own.
    static constexpr int most_others = 32;

    struct Range {
        int first, end;  // indices of moves
    };
    struct Chain {
        double low, high;  // mm: what its moves of the kind cover along the shaft
        double reach;      // the highest end of all chains below this node of the tree
        Range moves;
    };

    void add(int index, const ShaftMove& move);
    double set_reaches(std::size_t begin, std::size_t end);
    [[nodiscard]] std::vector<Range> ranges_over(double low, double high) const;
    void find(std::size_t begin, std::size_t end, double low, double high, std::vector<Range>& found) const;

    const ShaftMoves& moves_;
    Kind kind_;
    std::vector<Chain> chains_;
    mutable long long looked_at_ = 0;
};

/// The moves that a part of the cutter cuts with where the blank has that radius, mm.
MovesAlongShaft moves_below(const ShaftMoves& moves, const CutterPart& part, double radius);

}  // namespace lobewright::proof
