#include "toolpath/tunnel/grid_points.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// A knot this near to the best next line, of the tunnel's half width, is as good as on it.
constexpr double near_enough = 0.01;

/// The nearest to the aimed line on one side of it, best first.
class Nearest {
  public:
    explicit Nearest(std::size_t most) : most_(most) {}
    /// Whether one that lies so far off would be kept.
    [[nodiscard]] bool wants(double off) const { return found_.size() < most_ || off < found_.back().off; }
    void add(const GridCandidate& candidate) {
        if (found_.size() == most_) found_.pop_back();
        const auto worse = [&](const GridCandidate& c) { return c.off > candidate.off; };
        found_.insert(std::find_if(found_.begin(), found_.end(), worse), candidate);
    }
    [[nodiscard]] bool all_within(double off) const {
        return found_.size() == most_ && found_.back().off <= off;
    }
    [[nodiscard]] const std::vector<GridCandidate>& found() const { return found_; }

  private:
    std::size_t most_;
    std::vector<GridCandidate> found_;
};

}  // namespace

struct GridPoints::BothSides {
    explicit BothSides(std::size_t most) : above(most), below(most) {}
    Nearest above, below;  // the aimed line
    [[nodiscard]] bool empty() const { return above.found().empty() && below.found().empty(); }
    [[nodiscard]] bool all_within(double off) const { return above.all_within(off) && below.all_within(off); }
    [[nodiscard]] std::vector<GridCandidate> all() const {
        std::vector<GridCandidate> both = above.found();
        both.insert(both.end(), below.found().begin(), below.found().end());
        return both;
    }
};

GridKnot GridPoints::knot_at(double place, long long radial) const {
    return {nearest_step(place / rules_.steps.rotary), radial};
}

bool GridPoints::clear(GridKnot a, GridKnot b) const {
    const double x = at(a.rotary), y = value(a.radial), end = at(b.rotary);
    const double slope = (value(b.radial) - y) / (end - x);
    for (std::size_t i = sight_.beyond(x); i < gates_.size() && gates_[i].at < end; ++i) {
        const double here = y + slope * (gates_[i].at - x);
        if (here < gates_[i].low - wall_slack || here > gates_[i].high + wall_slack) return false;
    }
    return true;
}

std::optional<std::pair<long long, long long>> GridPoints::words(long long rotary) const {
    const double x = at(rotary), step = rules_.steps.radial;
    const std::size_t gate = sight_.beyond(x);
    const long long least = step_above((sight_.wall(x, gate, &Gate::low) - wall_slack) / step);
    const long long most = step_below((sight_.wall(x, gate, &Gate::high) + wall_slack) / step);
    if (std::max(least, rules_.least) > most) return std::nullopt;
    return std::pair{std::max(least, rules_.least), most};
}

std::optional<long long> GridPoints::word_between(double low, double high, double wanted) const {
    const double step = rules_.steps.radial;
    const long long least = std::max(step_above(low / step), rules_.least);
    const long long most = step_below(high / step);
    if (least > most) return std::nullopt;
    return std::clamp(nearest_step(wanted / step), least, most);
}

std::vector<GridCandidate> GridPoints::around(GridKnot from, const Piece& piece, const GridAim& aim,
                                              const std::function<bool(GridKnot)>& seen) const {
    const auto last = step_below(piece.exit.at / rules_.steps.rotary);
    if (last <= from.rotary) return {};
    const long long middle = std::clamp(nearest_step(aim.at / rules_.steps.rotary), from.rotary + 1, last);
    const std::size_t gate = sight_.beyond(at(middle));
    const double half =
        0.5 * (sight_.wall(at(middle), gate, &Gate::high) - sight_.wall(at(middle), gate, &Gate::low));
    BothSides found(aim.most);
    bool down = true, up = true;
    for (long long d = 0; d <= aim.span && (down || up); ++d) {
        down = down && middle - d > from.rotary && look(piece, middle - d, aim.line, seen, found);
        up = up && middle + d < last && look(piece, middle + d + 1, aim.line, seen, found);
        if (found.all_within(near_enough * half)) break;
        if (d >= first_search && !found.empty()) break;
    }
    return found.all();
}

bool GridPoints::look(const Piece& piece, long long rotary, const StraightLine& wanted,
                      const std::function<bool(GridKnot)>& seen, BothSides& found) const {
    const double x = at(rotary), frontier = piece.line.at(x), best = wanted.at(x);
    const std::size_t gate = sight_.beyond(x);
    double low = sight_.wall(x, gate, &Gate::low), high = sight_.wall(x, gate, &Gate::high);
    if (piece.stop == Stop::floor && x > piece.support.at) high = std::min(high, frontier);
    if (piece.stop == Stop::ceiling && x > piece.support.at) low = std::max(low, frontier);
    bool hope = false;
    const auto try_side = [&](Nearest& side, double from, double to) {
        if (from > to + wall_slack || !side.wants(std::max({from - best, best - to, 0.0}))) return;
        hope = true;
        const auto word = word_between(from, to, best);
        if (!word) return;
        const GridCandidate candidate{{rotary, *word}, std::abs(value(*word) - best)};
        if (side.wants(candidate.off) && seen(candidate.knot)) side.add(candidate);
    };
    try_side(found.above, std::max(low, best), high);
    try_side(found.below, low, std::min(high, best));
    return hope;
}

}  // namespace lobewright::toolpath
