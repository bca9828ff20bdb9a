#include "toolpath/path/linear_floor.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cstdlib>
#include <functional>

namespace lobewright::toolpath {
namespace {

/// Of a block's least time: what accelerations may add to it, and so what a cure must have in hand.
constexpr double most_added = 1.25;
constexpr double in_hand = 1.5;
/// Places along a block at which its rise or a bend is tried, and halvings of it before it is left as it is.
constexpr int places_tried = 8;
constexpr int most_halvings = 12;
/// Radial steps beside the block's line at which a bend is tried.
constexpr long long bends[] = {0, 1, -1, 2, -2, 4, -4, 8, -8, 16, -16, 32, -32};

GridKnot at_level(const GridKnot& knot, long long radial) {
    return {knot.rotary, radial};
}

/// What is asked of the block between two knots, whose times come `added` times as long as the least.
struct BlockQuestions {
    std::function<bool(const GridKnot&, const GridKnot&, double added)> runs_away;
    std::function<long long(const GridKnot&, const GridKnot&, double added)> fast_turn;
};

/// Cures the blocks of one path along the contour, from its first knot on. `added`: of the block before each
/// knot.
class ContourCure {
  public:
    ContourCure(const BlockQuestions& ask, const MayBe& may_be, Knots knots, std::vector<double> added)
        : ask_(ask), may_be_(may_be), old_(std::move(knots)), added_(std::move(added)) {}

    Knots cured() {
        kept_ = {old_.front()};
        for (at_ = 1; at_ < old_.size(); ++at_) {
            if (!runs_away(kept_.back(), old_[at_])) {
                kept_.push_back(old_[at_]);
            } else if (!level_next() && !level_last()) {
                divide(old_[at_], most_halvings);
            }
        }
        return std::move(kept_);
    }

  private:
    [[nodiscard]] bool runs_away(const GridKnot& a, const GridKnot& b) const {
        return ask_.runs_away(a, b, added_[at_]);
    }
    [[nodiscard]] bool fits(const GridKnot& a, const GridKnot& b) const {
        return may_be_(a, b) && !runs_away(a, b);
    }

    /// The block's end comes to the level of its start.
    bool level_next() {
        if (at_ + 1 == old_.size()) return false;
        const GridKnot moved = at_level(old_[at_], kept_.back().radial);
        if (!may_be_(kept_.back(), moved) || !fits(moved, old_[at_ + 1])) return false;
        old_[at_] = moved;
        kept_.push_back(moved);
        return true;
    }

    /// The block's start comes to the level of its end.
    bool level_last() {
        if (kept_.size() < 2) return false;
        const GridKnot moved = at_level(kept_.back(), old_[at_].radial);
        if (!may_be_(moved, old_[at_]) || !fits(kept_[kept_.size() - 2], moved)) return false;
        kept_.back() = moved;
        kept_.push_back(old_[at_]);
        return true;
    }

    /// The rise on a short stretch of the block: at its end, at its start, or between.
    bool rise_at_once(const GridKnot& b) {
        const GridKnot a = kept_.back();
        const long long turn = ask_.fast_turn(a, b, added_[at_]), room = b.rotary - a.rotary - turn;
        if (turn < 1 || room < 1) return false;
        for (int place = 0; place <= places_tried; ++place) {
            const long long at = a.rotary + room - room * place / places_tried;
            const GridKnot foot{at, a.radial}, head{at + turn, b.radial};
            if (!fits(foot, head)) continue;
            if ((foot != a && !may_be_(a, foot)) || (head != b && !may_be_(head, b))) continue;
            if (foot != a) kept_.push_back(foot);
            if (head != b) kept_.push_back(head);
            kept_.push_back(b);
            return true;
        }
        return false;
    }

    /// Calls accept(knot) for the knots near the block's line, nearest to its middle first, until one is
    /// taken.
    template <class Accept>
    bool try_bends(const GridKnot& a, const GridKnot& b, Accept accept) const {
        for (int place = 0; place < places_tried - 1; ++place) {
            const int share = places_tried / 2 + (place % 2 == 0 ? place / 2 : -(place + 1) / 2);
            const long long at = a.rotary + (b.rotary - a.rotary) * share / places_tried;
            if (at <= a.rotary || at >= b.rotary) continue;
            const long long word =
                a.radial + nearest_step(static_cast<double>((b.radial - a.radial) * share) / places_tried);
            for (const long long bend : bends) {
                const GridKnot knot{at, word + bend};
                if (may_be_(a, knot) && may_be_(knot, b) && accept(knot)) return true;
            }
        }
        return false;
    }

    void divide(const GridKnot& b, int halvings) {
        const GridKnot a = kept_.back();
        if (!runs_away(a, b)) return kept_.push_back(b);
        if (rise_at_once(b)) return;
        GridKnot middle = a;
        const auto both_fit = [&](const GridKnot& knot) {
            return !runs_away(a, knot) && !runs_away(knot, b);
        };
        const auto any = [&](const GridKnot& knot) { return middle = knot, true; };
        if (try_bends(a, b, [&](const GridKnot& knot) { return both_fit(knot) && any(knot); })) {
            kept_.push_back(middle);
            kept_.push_back(b);
        } else if (halvings > 0 && try_bends(a, b, any)) {
            divide(middle, halvings - 1);
            divide(b, halvings - 1);
        } else {
            kept_.push_back(b);
        }
    }

    const BlockQuestions& ask_;
    const MayBe& may_be_;
    Knots old_, kept_;
    std::vector<double> added_;
    std::size_t at_ = 0;  // of the knot whose block is cured
};

}  // namespace

bool LinearFloor::runs_away(const GridKnot& a, const GridKnot& b, bool along_contour, double added) const {
    if (floor_ == 0.0 || a.radial == b.radial) return false;
    const PathBlock block = frame_.block_between(a, b, along_contour);
    const double minutes = least_time(block, frame_.limits()).seconds / 60.0;
    return std::abs(block.radial) < floor_ * minutes * std::max(added, 1.0) * most_added;
}

long long LinearFloor::fast_turn(const GridKnot& a, const GridKnot& b, bool along_contour,
                                 double added) const {
    const PathBlock block = frame_.block_between(a, b, along_contour);
    const double minutes = least_time(block, frame_.limits()).seconds / 60.0;
    const double share = std::abs(block.radial) / (floor_ * minutes * std::max(added, 1.0) * in_hand);
    return std::max(1LL, step_below(share * static_cast<double>(b.rotary - a.rotary)));
}

/// Of the block before each knot: by how much accelerations lengthen its least time.
std::vector<double> LinearFloor::added_times(const Knots& knots) const {
    std::vector<PathBlock> blocks;
    for (std::size_t i = 1; i < knots.size(); ++i)
        blocks.push_back(frame_.block_between(knots[i - 1], knots[i], true));
    const std::vector<BlockTime> times = block_times(blocks, frame_.limits());
    std::vector<double> added{1.0};
    for (std::size_t i = 0; i < blocks.size(); ++i)
        added.push_back(times[i].seconds / least_time(blocks[i], frame_.limits()).seconds);
    return added;
}

Knots LinearFloor::kept_along_contour(Knots knots, long long from, const MayBe& may_be) const {
    if (floor_ == 0.0 || knots.size() < 2) return knots;
    const auto there = [&](const GridKnot& knot) { return GridKnot{from + knot.rotary, knot.radial}; };
    const BlockQuestions ask{[&](const GridKnot& a, const GridKnot& b, double added) {
                                 return runs_away(there(a), there(b), true, added);
                             },
                             [&](const GridKnot& a, const GridKnot& b, double added) {
                                 return fast_turn(there(a), there(b), true, added);
                             }};
    Knots moved;
    for (const GridKnot& knot : knots)
        moved.push_back(there(knot));
    return ContourCure(ask, may_be, std::move(knots), added_times(moved)).cured();
}

Knots LinearFloor::kept_above(const Knots& knots) const {
    Knots kept;
    for (const GridKnot& b : knots) {
        if (!kept.empty() && runs_away(kept.back(), b, false, 1.0)) {
            const GridKnot a = kept.back();
            const long long turn = fast_turn(a, b, false, 1.0);
            const GridKnot between = b.radial < a.radial ? GridKnot{b.rotary - turn, a.radial}
                                                         : GridKnot{a.rotary + turn, b.radial};
            if (between.rotary > a.rotary && between.rotary < b.rotary) kept.push_back(between);
        }
        kept.push_back(b);
    }
    return kept;
}

}  // namespace lobewright::toolpath
