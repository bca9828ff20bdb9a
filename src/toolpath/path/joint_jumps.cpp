#include "toolpath/path/joint_jumps.h"

#include "base/whole_steps.h"
#include "toolpath/tunnel/tunnel.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// Times the limit: a joint that exceeds by less needs no cure.
constexpr double enough = 1.01;
/// The tunnel is drawn in by the square of the excess, but of no more than this in one round, which may be
/// wrong by as much as the tunnel's width is uneven.
constexpr double most_at_once = 4.0;
/// Rounds after which what has not come right does not come right by this.
constexpr int most_rounds = 12;
/// Steps of the radial word of half width that a tunnel drawn in keeps, for the grid to have a word in it.
constexpr double least_half_width = 1.5;
/// mm by radian at which the tunnel's centre rises from a level stretch: 1 in 10 or so. Common practice, no
/// source.
constexpr double rise_from_level = 1.0;
/// Steps of the limit for which short blocks are cut off a block at most.
constexpr double most_steps = 40.0;
/// Seconds: shorter blocks are more than a controller without a stated block rate can be asked for. Common
/// practice, no source.
constexpr double shortest_block = 0.004;

struct Speeds {
    double seconds = 0.0;  // of the block
    double radial = 0.0;   // mm/min
    double rotary = 0.0;   // degrees/min
};

std::vector<Speeds> wanted_speeds(const std::vector<GridKnot>& path, const BlockBetween& block,
                                  const AxisLimits& limits) {
    AxisLimits free = limits;
    free.blocks_per_second.reset();
    std::vector<Speeds> speeds;
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const PathBlock b = block(path[i], path[i + 1]);
        const double seconds = least_time(b, free).seconds;
        speeds.push_back({seconds, b.radial / seconds * 60.0, b.rotary / seconds * 60.0});
    }
    return speeds;
}

/// By what factor the joint of two blocks exceeds its limits, as far as shorter blocks may cure it; 1 or
/// less: not at all.
double excess_at(const Speeds& a, const Speeds& b, const AxisLimits& limits) {
    double excess = 0.0;
    if (limits.radial_jump) excess = std::max(excess, std::abs(b.radial - a.radial) / *limits.radial_jump);
    if (limits.rotary_jump) excess = std::max(excess, std::abs(b.rotary - a.rotary) / *limits.rotary_jump);
    if (limits.blocks_per_second)
        excess = std::min(excess, std::min(a.seconds, b.seconds) * *limits.blocks_per_second);
    return excess;
}

/// What a tunnel is drawn in to, by gate: its middle, but beside a level stretch the level itself, from which
/// it rises evenly. (Drawn in to its middle the tunnel would end in a step there, which the cutter would
/// plunge down.)
std::vector<double> centres_of(const std::vector<Gate>& gates) {
    std::vector<double> centres(gates.size());
    const auto from_level = [&](std::size_t i, const Gate* level) {
        if (level == nullptr) return;
        const double rise = rise_from_level * std::abs(gates[i].at - level->at);
        centres[i] = std::clamp(centres[i], std::min(level->low - rise, gates[i].high),
                                std::max(level->high + rise, gates[i].low));
    };
    const Gate* level = nullptr;
    for (std::size_t i = 0; i < gates.size(); ++i) {
        centres[i] = 0.5 * (gates[i].low + gates[i].high);
        if (gates[i].fixed) level = &gates[i];
        from_level(i, level);
    }
    level = nullptr;
    for (std::size_t i = gates.size(); i-- > 0;) {
        if (gates[i].fixed) level = &gates[i];
        from_level(i, level);
    }
    return centres;
}

/// The tunnel drawn in to its centres; never below `least` of half width, unless it was.
std::vector<Gate> drawn_in(const std::vector<Gate>& gates, const std::vector<double>& centres,
                           const std::vector<double>& shares, double least) {
    std::vector<Gate> found = gates;
    for (std::size_t i = 0; i < gates.size(); ++i) {
        if (gates[i].fixed) continue;
        const double half = 0.5 * (gates[i].high - gates[i].low);
        const double off = 1.0 - std::max(shares[i], std::min(1.0, least / half));
        found[i].low += off * (centres[i] - gates[i].low);
        found[i].high -= off * (gates[i].high - centres[i]);
    }
    return found;
}

/// Lowers the shares of the gates beside joints that exceed; whether any does.
bool draw_in(std::vector<double>& shares, const std::vector<Gate>& gates, const std::vector<GridKnot>& path,
             const std::vector<Speeds>& speeds, const AxisLimits& limits, double rotary_step) {
    std::vector<double> times(shares.size(), 1.0);
    bool any = false;
    for (std::size_t i = 0; i + 1 < speeds.size(); ++i) {
        const double excess = std::min(excess_at(speeds[i], speeds[i + 1], limits), most_at_once);
        if (excess <= enough) continue;
        any = true;
        const double from = static_cast<double>(path[i].rotary) * rotary_step;
        const double to = static_cast<double>(path[i + 2].rotary) * rotary_step;
        const auto less = [](const Gate& g, double at) { return g.at < at; };
        auto gate = std::lower_bound(gates.begin(), gates.end(), from, less);
        for (; gate != gates.end() && gate->at <= to; ++gate) {
            double& time = times[static_cast<std::size_t>(gate - gates.begin())];
            time = std::min(time, 1.0 / (excess * excess));
        }
    }
    for (std::size_t i = 0; i < shares.size(); ++i)
        shares[i] *= times[i];
    return any;
}

/// How long the short blocks beside a step of speed must last for the grid not to disturb them.
double short_seconds(const AxisLimits& limits, Steps steps) {
    double seconds = shortest_block;
    if (limits.blocks_per_second) seconds = std::max(seconds, 1.0 / *limits.blocks_per_second);
    if (limits.radial_jump) seconds = std::max(seconds, 4.0 * steps.radial * 60.0 / *limits.radial_jump);
    return seconds;
}

/// One block of a path, to be cut into short ones at its ends.
class Easing {
  public:
    Easing(const GridKnot& a, const GridKnot& b, const Speeds& whole, const BlockBetween& block,
           const AxisLimits& limits, double seconds)
        : a_(a),
          b_(b),
          block_(block),
          limits_(limits),
          part_(seconds / whole.seconds),
          room_(std::max(0, static_cast<int>(0.5 / part_) - 1)) {
        limits_.blocks_per_second.reset();
    }

    [[nodiscard]] GridKnot knot(double share) const {
        return {a_.rotary + nearest_step(share * static_cast<double>(b_.rotary - a_.rotary)),
                a_.radial + nearest_step(share * static_cast<double>(b_.radial - a_.radial))};
    }
    [[nodiscard]] double part() const { return part_; }
    /// How many short blocks to cut off at the end (or the start) whose joint exceeds its limits by a factor:
    /// two for each step of the limit, counted from where the block has come to the speed of its rest (the
    /// lobe's curvature may change within it).
    [[nodiscard]] int cuts(double excess, bool at_end) const {
        if (excess <= enough) return 0;
        const int wanted = 2 * static_cast<int>(step_above(std::min(excess, most_steps)));
        int steady = 0, k = 0;
        while (k < room_ && steady < wanted) {
            const double near = k * part_, far = (k + 1) * part_;
            const Speeds piece = at_end ? speeds(1.0 - far, 1.0 - near) : speeds(near, far);
            const Speeds rest = at_end ? speeds(0.5 - 0.5 * far, 1.0 - far) : speeds(far, 0.5 + 0.5 * far);
            steady = excess_at(piece, rest, limits_) <= 1.0 ? steady + 1 : 0;
            ++k;
        }
        return k;
    }

  private:
    [[nodiscard]] Speeds speeds(double from, double to) const {
        return wanted_speeds({knot(from), knot(to)}, block_, limits_).front();
    }
    GridKnot a_, b_;
    const BlockBetween& block_;
    AxisLimits limits_;
    double part_;
    int room_;
};

}  // namespace

std::optional<std::vector<GridKnot>> path_with_small_jumps(const std::vector<Gate>& gates,
                                                           const GridRules& rules, const BlockBetween& block,
                                                           const AxisLimits& limits) {
    if (!limits.radial_jump && !limits.rotary_jump) return path_on_grid(gates, rules);
    const Steps steps = rules.steps;
    const auto inner = narrowed(gates, 0.5 * steps.radial);  // for the rounding of knots put into blocks
    if (!inner) return path_on_grid(gates, rules);
    auto path = path_on_grid(*inner, rules);
    if (!path) return path_on_grid(gates, rules);
    std::vector<double> shares(gates.size(), 1.0);
    const std::vector<double> centres = centres_of(*inner);
    std::vector<Speeds> speeds = wanted_speeds(*path, block, limits);
    for (int round = 0; round < most_rounds; ++round) {
        if (!draw_in(shares, *inner, *path, speeds, limits, steps.rotary)) break;
        auto finer = path_on_grid(drawn_in(*inner, centres, shares, least_half_width * steps.radial), rules);
        if (!finer || finer->size() <= path->size()) break;
        path = std::move(finer);
        speeds = wanted_speeds(*path, block, limits);
    }
    return path;
}

std::vector<GridKnot> eased(const std::vector<GridKnot>& path, const BlockBetween& block,
                            const AxisLimits& limits, Steps steps, const BlockMayBe& may_be) {
    if (!limits.radial_jump && !limits.rotary_jump) return path;
    AxisLimits free = limits;
    free.blocks_per_second.reset();
    const std::vector<Speeds> speeds = wanted_speeds(path, block, limits);
    const auto excess_after = [&](std::size_t i) {
        return excess_at(speeds[i], i + 1 < speeds.size() ? speeds[i + 1] : Speeds{}, free);
    };
    std::vector<GridKnot> found{path.front()};
    for (std::size_t i = 0; i < speeds.size(); ++i) {
        const GridKnot b = path[i + 1];
        const Easing easing(path[i], b, speeds[i], block, limits, short_seconds(limits, steps));
        const int before = easing.cuts(i > 0 ? excess_after(i - 1) : excess_at({}, speeds[0], free), false);
        const int after = easing.cuts(excess_after(i), true);
        const auto add = [&](double share) {
            const GridKnot knot = easing.knot(share);
            if (knot.rotary <= found.back().rotary || knot.rotary >= b.rotary) return;
            if (may_be && !(may_be(found.back(), knot) && may_be(knot, b))) return;
            found.push_back(knot);
        };
        for (int k = 1; k <= before; ++k)
            add(k * easing.part());
        for (int k = after; k >= 1; --k)
            add(1.0 - k * easing.part());
        found.push_back(b);
    }
    return found;
}

}  // namespace lobewright::toolpath
