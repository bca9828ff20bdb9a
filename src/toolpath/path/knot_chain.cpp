#include "toolpath/path/knot_chain.h"

#include "base/whole_steps.h"
#include "toolpath/tunnel/grid_points.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>

namespace lobewright::toolpath {
namespace {

/// Keeps what GridPoints refers to.
struct Tunnel {
    Tunnel(std::vector<Gate> between, const GridRules& on) : gates(std::move(between)), rules(on) {}

    std::vector<Gate> gates;
    GridRules rules;
    GridPoints points{gates, rules};
};

GridKnot moved(const GridKnot& knot, long long by) {
    return {knot.rotary + by, knot.radial};
}

bool turns_within(const GridKnot& a, const GridKnot& b, long long longest) {
    return longest == 0 || b.rotary - a.rotary <= longest;
}

double slope_between(const GridKnot& a, const GridKnot& b) {
    return static_cast<double>(b.radial - a.radial) / static_cast<double>(b.rotary - a.rotary);
}

double word_on(const GridKnot& a, const GridKnot& b, long long at) {
    return static_cast<double>(a.radial) + slope_between(a, b) * static_cast<double>(at - a.rotary);
}

/// A polyline that a path stays above.
class Ground {
  public:
    explicit Ground(Knots knots) : knots_(std::move(knots)) {
        for (std::size_t i = 1; i < knots_.size(); ++i)
            steepest_ = std::max(steepest_, std::abs(slope_between(knots_[i - 1], knots_[i])));
        for (const GridKnot& knot : knots_)
            highest_ = std::max(highest_, knot.radial);
    }

    [[nodiscard]] bool is_under(const GridKnot& a, const GridKnot& b) const {
        constexpr double rounding = 1e-9;
        if (std::abs(slope_between(a, b)) > steepest_ * (1.0 + rounding)) return false;
        for (auto knot = after(a.rotary); knot != knots_.end() && knot->rotary < b.rotary; ++knot) {
            if (word_on(a, b, knot->rotary) < static_cast<double>(knot->radial) - rounding) return false;
        }
        return true;
    }
    [[nodiscard]] std::optional<WordRange> words(long long at) const {
        const auto next = after(at);
        if (next == knots_.begin()) return std::nullopt;
        const GridKnot& last = *(next - 1);
        if (last.rotary == at) return WordRange{last.radial, highest_};
        if (next == knots_.end()) return std::nullopt;
        return WordRange{step_above(word_on(last, *next, at)), highest_};
    }

  private:
    [[nodiscard]] Knots::const_iterator after(long long at) const {
        const auto beyond = [](long long x, const GridKnot& knot) { return x < knot.rotary; };
        return std::upper_bound(knots_.begin(), knots_.end(), at, beyond);
    }
    Knots knots_;
    double steepest_ = 0.0;  // radial steps by a step of travel
    long long highest_ = std::numeric_limits<long long>::min();
};

}  // namespace

Room room_in_tunnel(std::vector<Gate> gates, const GridRules& rules, long long from, long long to) {
    const auto tunnel = std::make_shared<const Tunnel>(std::move(gates), rules);
    const long long longest = step_below(rules.longest_block / rules.steps.rotary);
    return {from, to,
            [tunnel, from, longest](const GridKnot& a, const GridKnot& b) {
                return turns_within(a, b, longest) && tunnel->points.clear(moved(a, -from), moved(b, -from));
            },
            [tunnel, from](long long at) -> std::optional<WordRange> {
                const auto words = tunnel->points.words(at - from);
                if (!words) return std::nullopt;
                return WordRange{words->first, words->second};
            },
            true};
}

Room room_above(const Knots& knots, long long longest) {
    const auto ground = std::make_shared<const Ground>(knots);
    return {knots.front().rotary, knots.back().rotary,
            [ground, longest](const GridKnot& a, const GridKnot& b) {
                return turns_within(a, b, longest) && ground->is_under(a, b);
            },
            [ground](long long at) { return ground->words(at); }};
}

Knots moved_on(Knots knots, long long by) {
    for (GridKnot& knot : knots)
        knot.rotary += by;
    return knots;
}

}  // namespace lobewright::toolpath
