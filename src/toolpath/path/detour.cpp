#include "toolpath/path/detour.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <set>

namespace lobewright::toolpath {
namespace {

/// Of a block's expected time: what its linear motion must be fast enough for.
constexpr double in_hand = 1.15;
/// Times as long as its least time: what a block is expected to take at most.
constexpr double most_slowness = 3.0;
/// By the way along the surface: what a block goes down at most. Common practice, no source.
constexpr double steepest_descent = 0.5;
/// Places that are tried in a window, parts of a block, and words at a place.
constexpr long long most_places = 24;
constexpr long long least_parts = 4;
constexpr std::size_t most_words = 12;
constexpr long long most_levels = 12;
constexpr int most_stairs = 24;

/// A block costs what it takes; one that runs away more than any way round; each a little, for its own sake.
constexpr double cost_of_runaway = 1e4;  // seconds
constexpr double cost_of_block = 1e-5;   // seconds

class Search {
  public:
    Search(const Knots& window, const Room& room, const FloorRule& floor)
        : window_(window), room_(room), floor_(floor) {}

    Knots best() {
        double own = 0.0;
        for (std::size_t i = 1; i < window_.size(); ++i) {
            own += cost(window_[i - 1], window_[i]);
            steepest_ = std::max(steepest_, floor_.descent(window_[i - 1], window_[i]));
        }
        collect();
        std::vector<double> costs(nodes_.size(), std::numeric_limits<double>::infinity());
        std::vector<std::size_t> before(nodes_.size(), 0);
        costs.front() = 0.0;
        for (std::size_t to = 1; to < nodes_.size(); ++to) {
            for (std::size_t from = 0; from < to; ++from) {
                if (nodes_[from].rotary >= nodes_[to].rotary || costs[from] >= costs[to]) continue;
                const double there = costs[from] + cost(nodes_[from], nodes_[to]);
                if (there < costs[to] && leads(nodes_[from], nodes_[to]))
                    costs[to] = there, before[to] = from;
            }
        }
        if (costs.back() >= own) return window_;
        Knots found;
        for (std::size_t at = nodes_.size() - 1; at > 0; at = before[at])
            found.push_back(nodes_[at]);
        found.push_back(nodes_.front());
        std::reverse(found.begin(), found.end());
        return found;
    }

  private:
    /// Within the room, and no plunge where there was none.
    [[nodiscard]] bool leads(const GridKnot& a, const GridKnot& b) const {
        return floor_.descent(a, b) <= steepest_ && room_.may_be(a, b);
    }
    [[nodiscard]] double cost(const GridKnot& a, const GridKnot& b) const {
        const FloorRule::Expected expected = floor_.expected(a, b);
        return cost_of_block + expected.seconds + (expected.runs_away ? cost_of_runaway : 0.0);
    }

    /// Even parts of each block, so many that a rise as high as the room fits twice into one; beside each of
    /// its ends the turns in which a rise may be fast enough; and a step or two, where a level stretch ends.
    [[nodiscard]] std::set<long long> places() const {
        std::set<long long> found;
        const auto blocks = static_cast<long long>(window_.size()) - 1;
        for (std::size_t i = 1; i < window_.size(); ++i) {
            const GridKnot &a = window_[i - 1], &b = window_[i];
            const long long turn = b.rotary - a.rotary, stair = floor_.turn_to_rise(a, b, width_at(a, b));
            const long long parts = std::clamp(2 * turn / std::max(stair, 1LL), least_parts,
                                               std::max(least_parts, most_places / blocks));
            for (long long k = 0; k <= parts; ++k)
                found.insert(a.rotary + turn * k / parts);
            for (const long long near : {1LL, 2LL, floor_.turn_to_rise(a, b, std::abs(b.radial - a.radial)),
                                         floor_.shortest_turn(a, b)}) {
                found.insert(a.rotary + near);
                found.insert(b.rotary - near);
            }
        }
        return found;
    }

    /// Steps of the radial word between the room's limits in the middle of a block.
    [[nodiscard]] long long width_at(const GridKnot& a, const GridKnot& b) const {
        const auto range = room_.words((a.rotary + b.rotary) / 2);
        return range ? range->most - range->least : 0;
    }

    /// Words on which blocks may lie level: the window's own, and even parts of what lies between them, half
    /// of the room apart.
    [[nodiscard]] std::vector<long long> levels() const {
        std::vector<long long> found;
        long long low = window_.front().radial, high = low, width = 0;
        for (std::size_t i = 0; i < window_.size(); ++i) {
            low = std::min(low, window_[i].radial), high = std::max(high, window_[i].radial);
            found.push_back(window_[i].radial);
            if (i > 0) width = std::max(width, width_at(window_[i - 1], window_[i]));
        }
        const long long step = std::max({1LL, width / 2, (high - low) / most_levels});
        for (long long level = low - width; level <= high + width; level += step)
            found.push_back(level);
        return found;
    }

    /// At a place: the window's own word, levels, the room's limits and its middle, and words to which a
    /// block from a knot of the window rises just fast enough.
    void add_nodes(std::size_t block, long long place, const std::vector<long long>& levels) {
        const auto range = room_.words(place);
        if (!range) return;
        std::vector<long long> words;
        const auto add = [&](long long word) {
            const bool fits = word >= range->least && word <= range->most && words.size() < most_words;
            if (fits && std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
        };
        const GridKnot &a = window_[block - 1], &b = window_[block];
        const double share = static_cast<double>(place - a.rotary) / static_cast<double>(b.rotary - a.rotary);
        add(a.radial + nearest_step(share * static_cast<double>(b.radial - a.radial)));
        add(range->least);
        add(range->most);
        for (const GridKnot& end : {a, b}) {
            if (end.rotary == place) continue;
            const long long rise = end.rotary < place ? floor_.least_rise(end, {place, end.radial})
                                                      : floor_.least_rise({place, end.radial}, end);
            add(end.radial + rise);
            add(end.radial - rise);
        }
        add((range->least + range->most) / 2);
        for (const long long level : levels)
            add(level);
        for (const long long word : words)
            nodes_.push_back({place, word});
    }

    /// A place as far from `from` as a block may lie level, towards `to`.
    [[nodiscard]] long long level_end(const GridKnot& from, long long to) const {
        const long long sense = to > from.rotary ? 1 : -1;
        long long good = 0, bad = std::llabs(to - from.rotary) + 1;
        while (bad - good > 1) {
            const long long middle = (good + bad) / 2;
            const GridKnot end{from.rotary + sense * middle, from.radial};
            const auto range = room_.words(end.rotary);
            const bool within = range && end.radial >= range->least && end.radial <= range->most;
            (within && may_be(from, end) ? good : bad) = middle;
        }
        return from.rotary + sense * good;
    }

    [[nodiscard]] bool may_be(const GridKnot& a, const GridKnot& b) const {
        return a.rotary < b.rotary ? room_.may_be(a, b) : room_.may_be(b, a);
    }

    /// Stairs from a knot towards another, whose block rises too slowly: level as far as the room lets it,
    /// then a rise through the whole of it, just fast enough; and so on.
    void add_stairs(const GridKnot& from, const GridKnot& to) {
        const long long sense = to.rotary > from.rotary ? 1 : -1;
        const bool up = to.radial > from.radial;
        const GridKnot &a = sense > 0 ? from : to, &b = sense > 0 ? to : from;
        GridKnot at = from;
        for (int stair = 0; stair < most_stairs; ++stair) {
            const GridKnot foot{level_end(at, to.rotary), at.radial};
            if (foot.rotary != at.rotary) nodes_.push_back(foot);
            const auto there = room_.words(foot.rotary);
            if (!there || foot.rotary == to.rotary) return;
            const long long room = up ? there->most - at.radial : at.radial - there->least;
            const long long height = std::max(room, width_at(a, b));  // no room where a level stretch ends
            const long long place = foot.rotary + sense * floor_.turn_to_rise(a, b, height);
            const auto beyond = room_.words(place);
            if (!beyond || sense * (to.rotary - place) <= 0) return;
            at = {place, up ? beyond->most : beyond->least};
            nodes_.push_back(at);
        }
    }

    void collect() {
        const std::vector<long long> on = levels();
        std::size_t block = 1;
        for (const long long place : places()) {
            if (place <= window_.front().rotary || place >= window_.back().rotary) continue;
            while (window_[block].rotary < place)
                ++block;
            add_nodes(block, place, on);
        }
        for (std::size_t i = 1; i < window_.size(); ++i) {
            if (!floor_.expected(window_[i - 1], window_[i]).runs_away) continue;
            add_stairs(window_[i - 1], window_[i]);
            add_stairs(window_[i], window_[i - 1]);
        }
        const auto outside = [&](const GridKnot& knot) {
            return knot.rotary <= window_.front().rotary || knot.rotary >= window_.back().rotary;
        };
        nodes_.erase(std::remove_if(nodes_.begin(), nodes_.end(), outside), nodes_.end());
        nodes_.push_back(window_.front());
        nodes_.push_back(window_.back());
        std::sort(nodes_.begin(), nodes_.end(), [](const GridKnot& a, const GridKnot& b) {
            return a.rotary != b.rotary ? a.rotary < b.rotary : a.radial < b.radial;
        });
        nodes_.erase(std::unique(nodes_.begin(), nodes_.end()), nodes_.end());
    }

    const Knots& window_;
    const Room& room_;
    const FloorRule& floor_;
    Knots nodes_;
    double steepest_ = steepest_descent;
};

}  // namespace

bool under_floor(const PathBlock& block, double seconds, double floor) {
    constexpr double rounding = 1e-9;
    const double linear = std::sqrt(block.radial * block.radial + block.axial * block.axial);
    return linear > 0.0 && linear * 60.0 < floor * seconds * (1.0 - rounding);
}

void FloorRule::learn(const Knots& knots, const std::vector<double>& seconds) {
    slow_.clear();
    for (std::size_t i = 0; i + 1 < knots.size(); ++i) {
        const GridKnot &a = knots[i], &b = knots[i + 1];
        const PathBlock block = block_(a, b);
        const double times = std::min(most_slowness, seconds[i] / least_time(block, limits_).seconds);
        slow_.push_back({a.rotary, b.rotary, times});
        if (too_slow(block, seconds[i])) ran_away_.push_back(slow_.back());
    }
}

double FloorRule::slowness(long long from, long long to) const {
    double times = 1.0;
    const auto ends_before = [](const Slow& slow, long long at) { return slow.to <= at; };
    auto slow = std::lower_bound(slow_.begin(), slow_.end(), from, ends_before);
    for (; slow != slow_.end() && slow->from < to; ++slow)
        times = std::max(times, slow->times);
    for (const Slow& bad : ran_away_) {
        if (bad.from < to && bad.to > from) times = std::max(times, bad.times);
    }
    return times;
}

FloorRule::Expected FloorRule::expected(const GridKnot& a, const GridKnot& b) const {
    const PathBlock block = block_(a, b);
    const double seconds = least_time(block, limits_).seconds * slowness(a.rotary, b.rotary);
    return {seconds, too_slow(block, seconds * in_hand)};
}

double FloorRule::descent(const GridKnot& a, const GridKnot& b) const {
    const PathBlock block = block_(a, b);
    const double around = ShaftAngle::from_degrees(std::abs(block.rotary)).radians() * radius_;
    return -block.radial / std::min(block.distance, around);
}

double FloorRule::minutes_of(const GridKnot& a, const GridKnot& b) const {
    return least_time(block_(a, b), limits_).seconds / 60.0 * slowness(a.rotary, b.rotary);
}

long long FloorRule::least_rise(const GridKnot& a, const GridKnot& b) const {
    return 1 + step_above(floor_ * minutes_of(a, b) * in_hand / radial_step_);
}

long long FloorRule::turn_to_rise(const GridKnot& a, const GridKnot& b, long long rise) const {
    const double share = static_cast<double>(rise) / static_cast<double>(least_rise(a, b));
    return std::max(1LL, step_below(std::min(share, 1.0) * static_cast<double>(b.rotary - a.rotary)));
}

long long FloorRule::shortest_turn(const GridKnot& a, const GridKnot& b) const {
    if (!limits_.blocks_per_second) return 1;
    AxisLimits free = limits_;
    free.blocks_per_second.reset();
    const double share = 1.0 / *limits_.blocks_per_second / least_time(block_(a, b), free).seconds;
    return std::max(1LL, step_above(std::min(share, 1.0) * static_cast<double>(b.rotary - a.rotary)));
}

Knots detour(const Knots& window, const Room& room, const FloorRule& floor) {
    return Search(window, room, floor).best();
}

}  // namespace lobewright::toolpath
