#include "toolpath/pass.h"

#include "base/whole_steps.h"
#include "toolpath/joint_jumps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// Angles of the ways in and out, radians of travel.
struct Leads {
    double in = 0.0;
    double out = 0.0;
    bool on_heel = true;
};

constexpr double degree = full_turn / 360.0;

/// Slope of the way in and out against the surface: 1 in 5, within sensible angles, and no more than the heel
/// has room for.
Leads leads_for(const Heel& heel, double surface_radius, double drop_in, double drop_out, double overlap) {
    Leads leads;
    leads.in = std::clamp(5.0 * drop_in / surface_radius, 6.0 * degree, 40.0 * degree);
    leads.out = std::clamp(5.0 * drop_out / surface_radius, 3.0 * degree, 10.0 * degree);
    const double room = heel.end - heel.start - overlap;
    if (room < leads.in + leads.out) {
        const double share = std::max(room, 0.0) / (leads.in + leads.out);
        leads.on_heel = share * leads.in >= 2.0 * degree;
        if (leads.on_heel) leads.in *= share, leads.out *= share;
    }
    return leads;
}

/// The first start not before `earliest` whose ways in and out lie on the heel; in the middle of the least X
/// where it is too short for them. Whole steps of travel.
long long start_after(const Heel& heel, const Leads& leads, double overlap, double earliest, double step) {
    double from = heel.start + leads.in, to = heel.end - overlap - leads.out;
    if (!leads.on_heel) from = to = 0.5 * (heel.start + heel.end);
    const double turns = std::ceil((earliest - std::max(to, from)) / full_turn - 1e-12);
    const double start = std::max(earliest, from + turns * full_turn);
    return step_above(start / step);
}

using Knots = std::vector<GridKnot>;  // in steps of travel and of the radial word

/// Walks a pass in steps of the grid.
class Cutter {
  public:
    Cutter(PathBuilder& path, const Setup& setup, const RadialFunction& function, const PassOrder& order)
        : path_(path), setup_(setup), function_(function), order_(order) {}

    [[nodiscard]] long long steps(double travel) const { return nearest_step(travel / setup_.steps.rotary); }
    [[nodiscard]] double travel(long long steps) const {
        return static_cast<double>(steps) * setup_.steps.rotary;
    }
    /// Radial word in steps, never less than `x` asks for.
    [[nodiscard]] long long radial_steps(double x) const {
        return step_above((x + setup_.section.word_offset) / setup_.steps.radial);
    }
    [[nodiscard]] long long safe() const { return radial_steps(setup_.safe); }
    [[nodiscard]] Stand retracted() const { return {safe(), axial(), path_.now().travel}; }

    /// The path along the lobe between two places of travel; nothing if the grid is too coarse for the
    /// tunnel.
    [[nodiscard]] std::optional<Knots> contour(long long from, long long to) const {
        const double base = travel(from);
        std::vector<Gate> gates =
            tunnel(function_.between(base, travel(to)), order_.margins, setup_.grid.blend_tolerance);
        for (Gate& gate : gates) {
            gate.at -= base;
            gate.low += setup_.section.word_offset;
            gate.high += setup_.section.word_offset;
        }
        const auto block = [&](const GridKnot& a, const GridKnot& b) {
            return block_between({from + a.rotary, a.radial}, {from + b.rotary, b.radial}, true);
        };
        auto knots = path_with_small_jumps(gates, setup_.steps, longest_block(), block, limits());
        if (knots) {
            for (GridKnot& knot : *knots)
                knot.rotary += from;
        }
        return knots;
    }

    /// A parabola over the way from `from` to `to`, from `drop` over the surface down to it (in), or up from
    /// it (out); the knot on the surface, which is the contour's own, is left out.
    [[nodiscard]] Knots lead(long long from, long long to, double drop, bool in) const {
        const double bow = whole_bow(from, to);
        const int parts = lead_parts(from, to, drop, bow > level ? 12 : 3);
        const double lift = bow > level ? bow / (parts * parts) : bow;
        Knots knots;
        for (int i = in ? 0 : 1; i < (in ? parts : parts + 1); ++i) {
            const double share = static_cast<double>(i) / parts;
            const double left = in ? 1.0 - share : share;
            const long long at = from + (to - from) * i / parts;
            knots.push_back({at, radial_steps(function_.at(travel(at)).radial + drop * left * left + lift)});
        }
        return knots;
    }

    /// Comes down over the chain's first knot, feeds along it and retracts. What lies between the places
    /// `from` and `to` of travel is contour.
    void cut(const Knots& chain, long long from, long long to) {
        const auto block = [&](const GridKnot& a, const GridKnot& b) {
            return block_between(a, b, a.rotary >= from && b.rotary <= to);
        };
        const Knots knots = eased(chain, block, limits(), setup_.steps);
        path_.rapid_to({safe(), path_.now().axial, path_.now().travel});
        path_.rapid_to({safe(), axial(), knots.front().rotary});
        come_down(knots.front().radial);
        const auto is_contour = [&](std::size_t i) {
            return knots[i - 1].rotary >= from && knots[i].rotary <= to;
        };
        for (std::size_t i = 1; i < knots.size(); ++i) {
            if (is_contour(i)) path_.count_contour_block();
            const Block b = block(knots[i - 1], knots[i]);
            path_.feed_to({knots[i].radial, axial(), knots[i].rotary}, b.way, b.feed);
        }
        path_.rapid_to({safe(), path_.now().axial, path_.now().travel});
    }

  private:
    [[nodiscard]] long long axial() const { return nearest_step(order_.pass.axial / setup_.grid.axial_step); }
    [[nodiscard]] const AxisLimits& limits() const { return setup_.job.machine->limits; }
    [[nodiscard]] double longest_block() const { return setup_.grid.longest_rotary_block * degree; }

    /// On the contour the feed counts the contact's way; on the ways in and out the longer of that and the
    /// rise.
    [[nodiscard]] Block block_between(const GridKnot& a, const GridKnot& b, bool along_contour) const {
        const double rise = static_cast<double>(b.radial - a.radial) * setup_.steps.radial;
        const double arc = function_.arc_between(travel(a.rotary), travel(b.rotary));
        const double turn = static_cast<double>(b.rotary - a.rotary) * setup_.grid.rotary_step;
        return {rise, 0.0, turn, along_contour ? arc : std::max(arc, std::abs(rise)), order_.feed};
    }

    /// Straight down in air, at the axis's speed; where jumps are limited, rising to it and falling from it
    /// in short steps.
    void come_down(long long radial) {
        const long long way = radial - path_.now().radial;
        const double feed = limits().radial_speed.value_or(order_.feed);
        const auto feed_to = [&](long long to, double at) {
            const double length =
                static_cast<double>(std::abs(to - path_.now().radial)) * setup_.steps.radial;
            path_.feed_to({to, path_.now().axial, path_.now().travel}, length, at);
        };
        if (!limits().radial_jump) return feed_to(radial, feed);
        constexpr int most_steps = 8;
        constexpr double step_seconds = 0.02;
        const double jump = *limits().radial_jump;
        const int steps = std::clamp(static_cast<int>(feed / jump), 1, most_steps);
        const double unit_step =
            jump / 60.0 * step_seconds / setup_.steps.radial;  // grid steps of the slowest
        const double ramp = 0.5 * steps * (steps - 1) * unit_step;
        const double share = std::min(1.0, 0.4 * static_cast<double>(std::abs(way)) / std::max(ramp, 1.0));
        const long long from = path_.now().radial;
        const long long sign = way < 0 ? -1 : 1;
        const auto ramped = [&](int k) { return nearest_step(0.5 * k * (k + 1) * unit_step * share); };
        for (int k = 1; k < steps; ++k)
            feed_to(from + sign * ramped(k), k * jump);
        for (int k = steps - 1; k >= 1; --k)
            feed_to(radial - sign * ramped(k), std::min(feed, (k + 1) * jump));
        feed_to(radial, jump);
    }

    /// Parts of a lead: so fine that the radial speed, which falls evenly along the parabola, steps within
    /// radial_jump, and that none turns more than the dialect's longest block.
    [[nodiscard]] int lead_parts(long long from, long long to, double drop, int least) const {
        int parts = least;
        if (const auto& jump = limits().radial_jump) {
            const double fastest = 2.0 * drop / function_.arc_between(travel(from), travel(to)) * order_.feed;
            parts = std::max(parts, static_cast<int>(step_above(std::min(fastest / *jump, 60.0))));
        }
        const double longest = longest_block();
        if (longest > 0.0)
            parts = std::max(parts, static_cast<int>(step_above(travel(to - from) / longest)) + 1);
        return parts;
    }
    static constexpr double level = 1e-6;  // mm: X stands still
    /// How far X may bow from a straight line over the stretch; where it stands still, by how much it
    /// doesn't.
    [[nodiscard]] double whole_bow(long long from, long long to) const {
        const std::vector<Contact> stretch = function_.between(travel(from), travel(to));
        double low = stretch.front().radial, high = low, bend = 0.0;
        for (const Contact& c : stretch) {
            low = std::min(low, c.radial), high = std::max(high, c.radial);
            bend = std::max({bend, std::abs(c.bend), std::abs(c.slope)});
        }
        const double length = travel(to) - travel(from);
        return high - low <= level ? high - low : std::max(bend * length * length / 8.0, 2.0 * level);
    }

    PathBuilder& path_;
    const Setup& setup_;
    const RadialFunction& function_;
    const PassOrder& order_;
};

/// Sectors of one turn, [first, second) in travel, in which X < level; empty: none; one of a whole turn:
/// everywhere.
std::vector<std::pair<double, double>> sectors_below(const RadialFunction& function, double level) {
    const auto& nodes = function.nodes();
    if (function.greatest() < level) return {{nodes.front().facing, nodes.back().facing}};
    std::vector<double> down, up;
    for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
        const bool here = nodes[i].radial < level, there = nodes[i + 1].radial < level;
        if (here == there) continue;
        double a = nodes[i].facing, b = nodes[i + 1].facing;
        for (int k = 0; k < 50 && b - a > 1e-12; ++k) {
            const double middle = 0.5 * (a + b);
            ((function.at(middle).radial < level) == here ? a : b) = middle;
        }
        (here ? up : down).push_back(0.5 * (a + b));
    }
    std::vector<std::pair<double, double>> sectors;
    for (const double start : down) {
        const auto end = std::upper_bound(up.begin(), up.end(), start);
        sectors.emplace_back(start, end != up.end() ? *end : up.front() + full_turn);
    }
    return sectors;
}

}  // namespace

bool cut_round(PathBuilder& path, const Setup& setup, const RadialFunction& function,
               const PassOrder& order) {
    const double overlap = setup.job.cut->overlap.radians();
    const Heel heel = heel_of(function);
    const double drop = order.stock + setup.gap;
    const double radius = length(function.at(0.5 * (heel.start + heel.end)).point);
    const Leads leads = leads_for(heel, radius, drop, setup.gap, overlap);
    Cutter cutter(path, setup, function, order);
    const long long in = cutter.steps(leads.in), out = cutter.steps(leads.out);
    const double earliest = cutter.travel(path.now().travel + in);
    const long long start = start_after(heel, leads, overlap, earliest, setup.steps.rotary);
    const long long end = start + cutter.steps(full_turn + overlap);
    const auto contour = cutter.contour(start, end);
    if (!contour) return false;

    Knots chain = cutter.lead(start - in, start, drop, true);
    chain.insert(chain.end(), contour->begin(), contour->end());
    const Knots out_of = cutter.lead(end, end + out, setup.gap, false);
    chain.insert(chain.end(), out_of.begin(), out_of.end());
    path.begin_pass(order.pass, cutter.retracted());
    cutter.cut(chain, start, end);
    path.end_pass();
    return true;
}

bool cut_sectors(PathBuilder& path, const Setup& setup, const RadialFunction& function,
                 const PassOrder& order) {
    const double level = setup.blank_touch + setup.gap;
    auto sectors = sectors_below(function, level);
    if (function.greatest() < level) return cut_round(path, setup, function, order);
    Cutter cutter(path, setup, function, order);
    const long long turn = cutter.steps(full_turn);
    std::vector<Knots> stretches;
    for (const auto& [start, end] : sectors) {
        long long from = cutter.steps(start), to = cutter.steps(end);
        if (to <= from) continue;
        const long long turns = (path.now().travel - from + turn - 1) / turn;
        from += turns * turn, to += turns * turn;
        auto contour = cutter.contour(from, to);
        if (!contour) return false;
        stretches.push_back(std::move(*contour));
    }
    if (stretches.empty()) return true;
    std::sort(stretches.begin(), stretches.end(),
              [](const Knots& a, const Knots& b) { return a.front().rotary < b.front().rotary; });

    path.begin_pass(order.pass, cutter.retracted());
    for (const Knots& stretch : stretches)
        cutter.cut(stretch, stretch.front().rotary, stretch.back().rotary);
    path.end_pass();
    return true;
}

}  // namespace lobewright::toolpath
