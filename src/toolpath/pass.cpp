#include "toolpath/pass.h"

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
    return static_cast<long long>(std::ceil(start / step - 1e-9));
}

/// Walks a pass in steps of the grid.
class Cutter {
  public:
    Cutter(PathBuilder& path, const Setup& setup, const RadialFunction& function, const PassOrder& order)
        : path_(path), setup_(setup), function_(function), order_(order) {}

    [[nodiscard]] long long steps(double travel) const { return std::llround(travel / setup_.steps.rotary); }
    [[nodiscard]] double travel(long long steps) const {
        return static_cast<double>(steps) * setup_.steps.rotary;
    }
    /// Radial word in steps, never less than `x` asks for.
    [[nodiscard]] long long radial_steps(double x) const {
        return static_cast<long long>(
            std::ceil((x + setup_.section.word_offset) / setup_.steps.radial - 1e-6));
    }
    [[nodiscard]] long long safe() const { return radial_steps(setup_.safe); }
    [[nodiscard]] Stand retracted() const { return {safe(), axial(), path_.now().travel}; }

    /// The path between two places of travel; nothing if the grid is too coarse for the tunnel.
    [[nodiscard]] std::optional<std::vector<GridKnot>> knots(long long from, long long to) const {
        const double base = travel(from);
        std::vector<Gate> gates =
            tunnel(function_.between(base, travel(to)), order_.margins, setup_.grid.blend_tolerance);
        for (Gate& gate : gates) {
            gate.at -= base;
            gate.low += setup_.section.word_offset;
            gate.high += setup_.section.word_offset;
        }
        const auto block = [&](const GridKnot& a, const GridKnot& b) {
            const auto turn = static_cast<double>(b.rotary - a.rotary),
                       rise = static_cast<double>(b.radial - a.radial);
            return Block{rise * setup_.steps.radial, 0.0, turn * setup_.grid.rotary_step,
                         function_.arc_between(base + travel(a.rotary), base + travel(b.rotary)),
                         order_.feed};
        };
        return path_with_small_jumps(gates, setup_.steps, setup_.grid.longest_rotary_block * degree, block,
                                     setup_.job.machine->limits);
    }

    void approach(long long start, double x) {
        const Stand stand{safe(), axial(), start};
        path_.rapid_to({safe(), path_.now().axial, path_.now().travel});
        path_.rapid_to(stand);
        feed_straight(radial_steps(x));
    }
    void retract() { path_.rapid_to({safe(), path_.now().axial, path_.now().travel}); }

    /// Feeds to a place of the grid along the surface.
    void feed_along(long long to, long long radial) {
        const double from = travel(path_.now().travel);
        const double arc = function_.arc_between(from, travel(to));
        const double rise = static_cast<double>(radial - path_.now().radial) * setup_.steps.radial;
        path_.feed_to({radial, axial(), to}, std::max(arc, std::abs(rise)), order_.feed);
    }
    void feed_knots(const std::vector<GridKnot>& knots, long long from) {
        path_.count_contour_blocks(static_cast<int>(knots.size()) - 1);
        for (std::size_t i = 1; i < knots.size(); ++i) {
            const long long to = from + knots[i].rotary;
            const double arc = function_.arc_between(travel(path_.now().travel), travel(to));
            path_.feed_to({knots[i].radial, axial(), to}, arc, order_.feed);
        }
    }

    /// A parabola over the way from `from` to `to`, from `drop` over the surface down to it (in), or up from
    /// it (out).
    void lead(long long from, long long to, double drop, bool in) {
        const double bow = whole_bow(from, to);
        const int parts = std::max(bow > level ? 12 : 3, parts_for_jumps(from, to, drop));
        for (int i = 1; i <= parts; ++i) {
            const double share = static_cast<double>(i) / parts;
            const double left = in ? 1.0 - share : share;
            if (in && i == parts) break;  // the last knot is the pass's first
            const long long at = from + (to - from) * i / parts;
            const double x = function_.at(travel(at)).radial + drop * left * left;
            feed_along(at, radial_steps(x + (bow > level ? bow / (parts * parts) : bow)));
        }
    }

  private:
    [[nodiscard]] long long axial() const { return std::llround(order_.pass.axial / setup_.grid.axial_step); }
    void feed_straight(long long radial) {
        const double way = static_cast<double>(std::abs(radial - path_.now().radial)) * setup_.steps.radial;
        const double feed = setup_.job.machine->limits.radial_speed.value_or(order_.feed);
        path_.feed_to({radial, path_.now().axial, path_.now().travel}, way, feed);
    }
    /// Parts of a lead so fine that the radial speed, which falls evenly along the parabola, steps within
    /// radial_jump.
    [[nodiscard]] int parts_for_jumps(long long from, long long to, double drop) const {
        const auto& jump = setup_.job.machine->limits.radial_jump;
        if (!jump) return 0;
        const double fastest = 2.0 * drop / function_.arc_between(travel(from), travel(to)) * order_.feed;
        return static_cast<int>(std::ceil(std::min(fastest / *jump, 60.0)));
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
    const auto knots = cutter.knots(start, end);
    if (!knots) return false;

    path.begin_pass(order.pass, cutter.retracted());
    cutter.approach(start - in, function.at(cutter.travel(start - in)).radial + drop);
    cutter.lead(start - in, start, drop, true);
    cutter.feed_along(start, knots->front().radial);
    cutter.feed_knots(*knots, start);
    cutter.lead(end, end + out, setup.gap, false);
    cutter.retract();
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
    struct Stretch {
        long long from, to;
        std::vector<GridKnot> knots;
    };
    std::vector<Stretch> stretches;
    for (const auto& [start, end] : sectors) {
        const long long from = cutter.steps(start), to = cutter.steps(end);
        if (to <= from) continue;
        const long long turns = (path.now().travel - from + turn - 1) / turn;
        auto knots = cutter.knots(from, to);
        if (!knots) return false;
        stretches.push_back({from + turns * turn, to + turns * turn, std::move(*knots)});
    }
    if (stretches.empty()) return true;
    std::sort(stretches.begin(), stretches.end(),
              [](const Stretch& a, const Stretch& b) { return a.from < b.from; });

    path.begin_pass(order.pass, cutter.retracted());
    for (const Stretch& stretch : stretches) {
        cutter.approach(stretch.from, static_cast<double>(stretch.knots.front().radial) * setup.steps.radial -
                                          setup.section.word_offset);
        cutter.feed_knots(stretch.knots, stretch.from);
        cutter.retract();
    }
    path.end_pass();
    return true;
}

}  // namespace lobewright::toolpath
