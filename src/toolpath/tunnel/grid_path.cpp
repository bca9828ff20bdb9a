#include "toolpath/tunnel/grid_path.h"

#include "base/whole_steps.h"
#include "toolpath/tunnel/grid_points.h"

#include <algorithm>
#include <limits>

namespace lobewright::toolpath {
namespace {

/// Knots to either side of the best next line whose next blocks are compared: along a bend, and where the
/// tunnel bends the other way.
constexpr std::size_t compared = 2;
constexpr std::size_t compared_at_turns = 4;

constexpr long long any_span = std::numeric_limits<long long>::max();

/// A knot, what is seen from it, and the knots that may follow.
struct Ahead {
    GridKnot knot;
    Piece piece;
    std::vector<GridCandidate> next;
};

class GridSearch {
  public:
    GridSearch(const std::vector<Gate>& gates, const GridRules& rules)
        : gates_(gates),
          steps_(rules.steps),
          points_(gates, rules),
          sight_(gates),
          most_(step_below(rules.longest_block / rules.steps.rotary)) {}

    std::optional<std::vector<GridKnot>> path() {
        std::vector<GridKnot> knots;
        for (auto here = best_of(starts(), Stop::none); here; here = best_of(here->next, here->piece.stop)) {
            knots.push_back(here->knot);
            if (!at_end(here->piece)) continue;
            if (!finish(*here, knots)) break;
            return knots;
        }
        return std::nullopt;
    }

  private:
    [[nodiscard]] bool at_end(const Piece& piece) const {
        return piece.stop == Stop::none && piece.next == gates_.size();
    }

    Ahead see(GridKnot knot) {
        const double x = points_.at(knot.rotary), y = points_.value(knot.radial);
        const double limit =
            most_ > 0 ? points_.at(knot.rotary + most_) : std::numeric_limits<double>::infinity();
        return {knot, sight_.from(x, y, y, sight_.beyond(x), limit), {}};
    }

    [[nodiscard]] std::vector<GridCandidate> starts() {
        const Gate& gate = gates_.front();
        const double wanted = sight_.from(gate.at, gate.low, gate.high, 1).line.at(gate.at);
        std::vector<GridCandidate> found;
        for (const double off : {0.0, steps_.radial, -steps_.radial}) {
            const auto word = points_.word_between(gate.low, gate.high, wanted + off);
            if (word) found.push_back({points_.knot_at(gate.at, *word), off});
        }
        return found;
    }

    /// The one that sees furthest; but where what it sees is so narrow that there is no knot to follow near
    /// the best place, the next that has one. Where the tunnel bends the other way than `before`, what is
    /// seen is narrow always: there the one from whose followers one sees furthest.
    std::optional<Ahead> best_of(const std::vector<GridCandidate>& candidates, Stop before) {
        if (candidates.empty()) return std::nullopt;
        std::vector<Ahead> found;
        for (const GridCandidate& candidate : candidates)
            found.push_back(see(candidate.knot));
        std::stable_sort(found.begin(), found.end(),
                         [](const Ahead& a, const Ahead& b) { return a.piece.exit.at > b.piece.exit.at; });
        const bool turns = found.front().piece.stop != before;
        const Ahead* best = nullptr;
        double furthest = 0.0;
        for (Ahead& ahead : found) {
            if (at_end(ahead.piece)) return ahead;
            ahead.next = next(ahead, first_search);
            if (ahead.next.empty()) continue;
            if (!turns) return ahead;
            const double seen = seen_from_next(ahead);
            if (best == nullptr || seen > furthest) best = &ahead, furthest = seen;
        }
        if (best != nullptr) return *best;
        found.front().next = next(found.front(), any_span);
        return found.front();
    }

    double seen_from_next(const Ahead& ahead) {
        double furthest = 0.0;
        for (const GridCandidate& candidate : ahead.next)
            furthest = std::max(furthest, see(candidate.knot).piece.exit.at);
        return furthest;
    }

    std::vector<GridCandidate> next(const Ahead& here, long long span) {
        const Piece beyond = sight_.after(here.piece);
        const double best = crossing(here.piece, beyond.line).at;
        const bool turns = beyond.stop != here.piece.stop;
        const GridAim aim{best, beyond.line, span, turns ? compared_at_turns : compared};
        return points_.around(here.knot, here.piece, aim,
                              [&](GridKnot knot) { return points_.clear(here.knot, knot); });
    }

    /// The last knot, in sight of the one before it; where the grid has none there, a knot more between.
    bool finish(const Ahead& here, std::vector<GridKnot>& knots) {
        const Gate& gate = gates_.back();
        const Piece& piece = here.piece;
        const double middle = piece.line.at(gate.at);
        if (const auto word = points_.word_between(piece.support.value, piece.exit.value, middle)) {
            knots.push_back(points_.knot_at(gate.at, *word));
            return true;
        }
        const auto off_sight = points_.word_between(gate.low, gate.high, middle);
        if (!off_sight) return false;
        const GridKnot end = points_.knot_at(gate.at, *off_sight);
        const StraightLine back{{gate.at, points_.value(end.radial)}, piece.line.slope};
        const auto seen = [&](GridKnot knot) {
            return knot.rotary < end.rotary && points_.clear(here.knot, knot) && points_.clear(knot, end);
        };
        const auto between = points_.around(here.knot, piece, {gate.at, back, any_span, 1}, seen);
        if (between.empty()) return false;
        knots.push_back(between.front().knot);
        knots.push_back(end);
        return true;
    }

    const std::vector<Gate>& gates_;
    Steps steps_;
    GridPoints points_;
    Sight sight_;
    long long most_;  // rotary steps of a block; 0: any
};

}  // namespace

std::optional<std::vector<GridKnot>> path_on_grid(const std::vector<Gate>& gates, const GridRules& rules) {
    const auto closed = [&](const Gate& gate) {
        return gate.high - gate.low < (gate.fixed ? 0.0 : rules.steps.radial);
    };
    if (std::any_of(gates.begin(), gates.end(), closed)) return std::nullopt;
    return GridSearch(gates, rules).path();
}

}  // namespace lobewright::toolpath
