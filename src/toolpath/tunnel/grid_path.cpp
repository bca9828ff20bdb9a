#include "toolpath/tunnel/grid_path.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// What arithmetic may put a knot on the wrong side of a wall, mm.
constexpr double slack = 1e-9;
/// A knot this near to the best next line, of the tunnel's half width, is as good as on it.
constexpr double near_enough = 0.01;
/// Knots to either side of the best next line whose next blocks are compared: along a bend, and where the
/// tunnel bends the other way.
constexpr std::size_t compared = 2;
constexpr std::size_t compared_at_turns = 4;
/// Rotary steps to either side of the best place within which knots are looked for at first.
constexpr long long first_search = 64;

struct Candidate {
    GridKnot knot;
    double off = 0.0;  // mm from the best next line
};

/// The nearest to the best next line on one side of it, best first.
class Nearest {
  public:
    explicit Nearest(std::size_t most) : most_(most) {}
    /// Whether one that lies so far off would be kept.
    [[nodiscard]] bool wants(double off) const { return found_.size() < most_ || off < found_.back().off; }
    void add(const Candidate& candidate) {
        if (found_.size() == most_) found_.pop_back();
        const auto worse = [&](const Candidate& c) { return c.off > candidate.off; };
        found_.insert(std::find_if(found_.begin(), found_.end(), worse), candidate);
    }
    [[nodiscard]] bool all_within(double off) const {
        return found_.size() == most_ && found_.back().off <= off;
    }
    [[nodiscard]] const std::vector<Candidate>& found() const { return found_; }

  private:
    std::size_t most_;
    std::vector<Candidate> found_;
};

struct Candidates {
    explicit Candidates(std::size_t most) : above(most), below(most) {}
    Nearest above, below;  // the best next line
    [[nodiscard]] bool empty() const { return above.found().empty() && below.found().empty(); }
    [[nodiscard]] std::vector<Candidate> all() const {
        std::vector<Candidate> both = above.found();
        both.insert(both.end(), below.found().begin(), below.found().end());
        return both;
    }
};

/// Where the next knot is looked for: round a place, and near to a line.
struct Aim {
    double at = 0.0;
    StraightLine line;
};

/// A knot, what is seen from it, and the knots that may follow.
struct Ahead {
    GridKnot knot;
    Piece piece;
    std::vector<Candidate> next;
};

class GridSearch {
  public:
    GridSearch(const std::vector<Gate>& gates, const GridRules& rules)
        : gates_(gates),
          rules_(rules),
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
    [[nodiscard]] double at(long long rotary) const {
        return static_cast<double>(rotary) * rules_.steps.rotary;
    }
    [[nodiscard]] double value(long long radial) const {
        return static_cast<double>(radial) * rules_.steps.radial;
    }
    [[nodiscard]] bool at_end(const Piece& piece) const {
        return piece.stop == Stop::none && piece.next == gates_.size();
    }

    Ahead see(GridKnot knot) {
        const double x = at(knot.rotary), y = value(knot.radial);
        const double limit = most_ > 0 ? at(knot.rotary + most_) : std::numeric_limits<double>::infinity();
        return {knot, sight_.from(x, y, y, sight_.beyond(x), limit), {}};
    }

    /// The straight line between two knots stays between the walls.
    [[nodiscard]] bool clear(GridKnot a, GridKnot b) const {
        const double x = at(a.rotary), y = value(a.radial), end = at(b.rotary);
        const double slope = (value(b.radial) - y) / (end - x);
        for (std::size_t i = sight_.beyond(x); i < gates_.size() && gates_[i].at < end; ++i) {
            const double here = y + slope * (gates_[i].at - x);
            if (here < gates_[i].low - slack || here > gates_[i].high + slack) return false;
        }
        return true;
    }

    /// The radial word between `low` and `high` that is nearest to `wanted`.
    [[nodiscard]] std::optional<long long> word_between(double low, double high, double wanted) const {
        const double step = rules_.steps.radial;
        const long long least = std::max(step_above(low / step), rules_.least);
        const long long most = step_below(high / step);
        if (least > most) return std::nullopt;
        return std::clamp(nearest_step(wanted / step), least, most);
    }

    [[nodiscard]] std::vector<Candidate> starts() {
        const Gate& gate = gates_.front();
        const double wanted = sight_.from(gate.at, gate.low, gate.high, 1).line.at(gate.at);
        std::vector<Candidate> found;
        for (const double off : {0.0, rules_.steps.radial, -rules_.steps.radial}) {
            const auto word = word_between(gate.low, gate.high, wanted + off);
            if (word) found.push_back({{nearest_step(gate.at / rules_.steps.rotary), *word}, off});
        }
        return found;
    }

    /// The one that sees furthest; but where what it sees is so narrow that there is no knot to follow near
    /// the best place, the next that has one. Where the tunnel bends the other way than `before`, what is
    /// seen is narrow always: there the one from whose followers one sees furthest.
    std::optional<Ahead> best_of(const std::vector<Candidate>& candidates, Stop before) {
        if (candidates.empty()) return std::nullopt;
        std::vector<Ahead> found;
        for (const Candidate& candidate : candidates)
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
        found.front().next = next(found.front(), std::numeric_limits<long long>::max());
        return found.front();
    }

    double seen_from_next(const Ahead& ahead) {
        double furthest = 0.0;
        for (const Candidate& candidate : ahead.next)
            furthest = std::max(furthest, see(candidate.knot).piece.exit.at);
        return furthest;
    }

    std::vector<Candidate> next(const Ahead& here, long long span) {
        const Piece beyond = sight_.after(here.piece);
        const double best = crossing(here.piece, beyond.line).at;
        const auto seen = [&](GridKnot knot) { return clear(here.knot, knot); };
        const bool turns = beyond.stop != here.piece.stop;
        return around(here, {best, beyond.line}, span, turns ? compared_at_turns : compared, seen);
    }

    /// The last knot, in sight of the one before it; where the grid has none there, a knot more between.
    bool finish(const Ahead& here, std::vector<GridKnot>& knots) {
        const Gate& gate = gates_.back();
        const Piece& piece = here.piece;
        GridKnot end{nearest_step(gate.at / rules_.steps.rotary), 0};
        const double middle = piece.line.at(gate.at);
        if (const auto word = word_between(piece.support.value, piece.exit.value, middle)) {
            end.radial = *word;
        } else {
            const auto off_sight = word_between(gate.low, gate.high, middle);
            if (!off_sight) return false;
            end.radial = *off_sight;
            const StraightLine back{{gate.at, value(end.radial)}, piece.line.slope};
            const auto seen = [&](GridKnot knot) {
                return knot.rotary < end.rotary && clear(here.knot, knot) && clear(knot, end);
            };
            const auto between =
                around(here, {gate.at, back}, std::numeric_limits<long long>::max(), 1, seen);
            if (between.empty()) return false;
            knots.push_back(between.front().knot);
        }
        knots.push_back(end);
        return true;
    }

    /// The grid's points nearest to the line of the aim, above and below it, that lie on the near side of the
    /// piece's frontier and in sight; looked for from the aim's place outwards, over `span` steps to both
    /// sides, but no further than it takes to find some.
    template <class Seen>
    std::vector<Candidate> around(const Ahead& here, const Aim& aim, long long span, std::size_t most,
                                  Seen seen) const {
        const auto last = step_below(here.piece.exit.at / rules_.steps.rotary);
        if (last <= here.knot.rotary) return {};
        const long long middle =
            std::clamp(nearest_step(aim.at / rules_.steps.rotary), here.knot.rotary + 1, last);
        const std::size_t gate = sight_.beyond(at(middle));
        const double half =
            0.5 * (sight_.wall(at(middle), gate, &Gate::high) - sight_.wall(at(middle), gate, &Gate::low));
        Candidates found(most);
        bool down = true, up = true;
        for (long long d = 0; d <= span && (down || up); ++d) {
            down = down && middle - d > here.knot.rotary && look(here, middle - d, aim.line, seen, found);
            up = up && middle + d < last && look(here, middle + d + 1, aim.line, seen, found);
            const double near = near_enough * half;
            if (found.above.all_within(near) && found.below.all_within(near)) break;
            if (d >= first_search && !found.empty()) break;
        }
        return found.all();
    }

    /// Adds the best points at one rotary step; false where all that may lie there, and behind it, lies
    /// further off than those found so far.
    template <class Seen>
    bool look(const Ahead& here, long long rotary, const StraightLine& wanted, Seen seen,
              Candidates& found) const {
        const Piece& piece = here.piece;
        const double x = at(rotary), frontier = piece.line.at(x), best = wanted.at(x);
        const std::size_t gate = sight_.beyond(x);
        double low = sight_.wall(x, gate, &Gate::low), high = sight_.wall(x, gate, &Gate::high);
        if (piece.stop == Stop::floor && x > piece.support.at) high = std::min(high, frontier);
        if (piece.stop == Stop::ceiling && x > piece.support.at) low = std::max(low, frontier);
        bool hope = false;
        const auto try_side = [&](Nearest& side, double from, double to) {
            if (from > to + slack || !side.wants(std::max({from - best, best - to, 0.0}))) return;
            hope = true;
            const auto word = word_between(from, to, best);
            if (!word) return;
            const Candidate candidate{{rotary, *word}, std::abs(value(*word) - best)};
            if (side.wants(candidate.off) && seen(candidate.knot)) side.add(candidate);
        };
        try_side(found.above, std::max(low, best), high);
        try_side(found.below, low, std::min(high, best));
        return hope;
    }

    const std::vector<Gate>& gates_;
    const GridRules& rules_;
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
