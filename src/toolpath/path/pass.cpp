#include "toolpath/path/pass.h"

#include "base/whole_steps.h"
#include "toolpath/path/joint_jumps.h"
#include "toolpath/roughing/stock_sectors.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

constexpr double degree = full_turn / 360.0;
constexpr double level = 1e-6;  // mm: X stands still
constexpr double lead_out_of_ring = 3.0 * degree;

/// Angles of lead-in and lead-out, radians of travel.
struct Leads {
    double in = 0.0;
    double out = 0.0;
    bool on_heel = true;
};

/// Slope of lead-in and lead-out against the surface: 1 in 5, within sensible angles, and no more than the
/// heel has room for.
Leads leads_for(const Heel& heel, double surface_radius, double drop_in, double drop_out, double overlap) {
    Leads leads;
    leads.in = std::clamp(5.0 * drop_in / surface_radius, 6.0 * degree, 40.0 * degree);
    leads.out = std::clamp(5.0 * drop_out / surface_radius, 3.0 * degree, 10.0 * degree);
    const double room = heel.width() - overlap;
    if (room < leads.in + leads.out) {
        const double share = std::max(room, 0.0) / (leads.in + leads.out);
        leads.on_heel = share * leads.in >= 2.0 * degree;
        if (leads.on_heel) leads.in *= share, leads.out *= share;
    }
    return leads;
}

/// The first start not before `earliest` whose lead-in and lead-out lie on the heel; in the middle of the
/// least X where it is too short for them. Whole steps of travel.
long long start_after(const Heel& heel, const Leads& leads, double overlap, double earliest, double step) {
    double from = heel.start + leads.in, to = heel.end - overlap - leads.out;
    if (!leads.on_heel) from = to = 0.5 * (heel.start + heel.end);
    const double turns = std::ceil((earliest - std::max(to, from)) / full_turn - 1e-12);
    const double start = std::max(earliest, from + turns * full_turn);
    return step_above(start / step);
}

using Knots = std::vector<GridKnot>;  // in steps of travel and of the radial word

/// A lead-in or lead-out: from `drop` mm over the surface down to it, or up.
struct Lead {
    long long from = 0;
    long long to = 0;
    double drop = 0.0;
    bool in = true;
    int parts = 12;  ///< where X moves; where it stands still, 3
};

/// Walks a pass in steps of the grid.
class Cutter {
  public:
    Cutter(PathBuilder& path, const Setup& setup, const RadialFunction& function, const PassOrder& order)
        : path_(path), setup_(setup), function_(function), order_(order), heels_(heels_of(function)) {}

    [[nodiscard]] long long steps(double travel) const { return nearest_step(travel / setup_.steps.rotary); }
    [[nodiscard]] double travel(long long steps) const {
        return static_cast<double>(steps) * setup_.steps.rotary;
    }
    /// Whole turns that bring a place of travel to where the path has come, or past it.
    [[nodiscard]] long long turns_to(long long place) const {
        const long long turn = steps(full_turn), behind = path_.now().travel - place;
        return (behind > 0 ? (behind + turn - 1) / turn : behind / turn) * turn;
    }
    /// Radial word in steps, never less than `x` asks for.
    [[nodiscard]] long long radial_steps(double x) const {
        return step_above((x + setup_.section.word_offset) / setup_.steps.radial);
    }

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
        GridRules rules{setup_.steps, longest_block()};
        if (const std::vector<LevelSpan> level_stretches = levels(from, to); !level_stretches.empty()) {
            const double wanted = function_.least() + setup_.section.word_offset;
            const auto word = hold_level(gates, level_stretches, wanted, setup_.steps.radial);
            if (!word) return std::nullopt;
            rules.least = *word;
        }
        const auto block = [&](const GridKnot& a, const GridKnot& b) {
            return block_between({from + a.rotary, a.radial}, {from + b.rotary, b.radial}, true);
        };
        auto knots = path_with_small_jumps(gates, rules, block, limits());
        if (knots) {
            for (GridKnot& knot : *knots)
                knot.rotary += from;
        }
        return knots;
    }

    /// A parabola over the lead's length; the knot on the surface, which is the contour's own, is left out.
    [[nodiscard]] Knots lead(const Lead& lead) const {
        const double bow = whole_bow(lead.from, lead.to);
        const int parts = lead_parts(lead, bow > level ? lead.parts : 3);
        const double lift = bow > level ? bow / (parts * parts) : bow;
        Knots knots;
        for (int i = lead.in ? 0 : 1; i < (lead.in ? parts : parts + 1); ++i) {
            const double share = static_cast<double>(i) / parts;
            const double left = lead.in ? 1.0 - share : share;
            const long long at = lead.from + (lead.to - lead.from) * i / parts;
            const double over = lead.drop * left * left + lift;
            knots.push_back({at, radial_steps(function_.at(travel(at)).radial + over)});
        }
        return knots;
    }

    /// The lead-in of a sector that starts at `start`: from the air, 1 in 2 at most.
    [[nodiscard]] Knots aslant(long long start) const {
        const CutterContact first = function_.at(travel(start));
        const double air = setup_.blank_touch + setup_.air;
        if (first.radial >= air) return {};
        const long long most = steps(2.0 * (air - first.radial) / length(first.point));
        const auto in_air = [&](long long before) {
            return function_.at(travel(start - before)).radial >= air;
        };
        long long before = std::max(1LL, most);
        if (in_air(before)) {  // the curve itself is steeper
            for (long long near = 0; before - near > 1;) {
                const long long middle = (before + near) / 2;
                (in_air(middle) ? before : near) = middle;
            }
        }
        const double drop = std::max(0.0, air - function_.at(travel(start - before)).radial);
        return lead({start - before, start, drop, true, 4});
    }

    /// A knot at `at`, if the block over it is level.
    void divide_level(Knots& knots, long long at) const {
        const auto after = std::lower_bound(knots.begin(), knots.end(), at,
                                            [](const GridKnot& k, long long x) { return k.rotary < x; });
        if (after == knots.begin() || after == knots.end() || after->rotary == at) return;
        if ((after - 1)->radial == after->radial) knots.insert(after, {at, after->radial});
    }

    /// Comes down over the chain's first knot, feeds along it and retracts. What lies between the places
    /// `from` and `to` of travel is contour; with its first knot after each whole turn a spring pass begins,
    /// as often as the order says.
    void cut(const Knots& chain, long long from, long long to) {
        const auto block = [&](const GridKnot& a, const GridKnot& b) {
            return block_between(a, b, a.rotary >= from && b.rotary <= to);
        };
        const Knots knots = eased(chain, block, limits(), setup_.steps);
        path_.rapid_to({safe(), axial(), knots.front().rotary});
        come_down(knots.front().radial);
        int repeats = 0;
        for (std::size_t i = 1; i < knots.size(); ++i) {
            const GridKnot &a = knots[i - 1], &b = knots[i];
            if (repeats < order_.repeats && a.rotary >= from + (repeats + 1) * steps(full_turn)) {
                path_.begin_pass(spring_pass());
                ++repeats;
            }
            if (a.rotary >= from && b.rotary <= to) path_.count_contour_block();
            const PathBlock made = block(a, b);
            path_.feed_to({b.radial, axial(), b.rotary}, made.distance, made.feed);
        }
        path_.rapid_to({safe(), axial(), path_.now().travel});
    }

  private:
    [[nodiscard]] long long safe() const { return radial_steps(setup_.safe); }
    [[nodiscard]] long long axial() const { return nearest_step(order_.pass.axial / setup_.grid.axial_step); }
    [[nodiscard]] const AxisLimits& limits() const { return setup_.machine.limits; }
    [[nodiscard]] double longest_block() const { return setup_.grid.longest_rotary_block * degree; }
    [[nodiscard]] Pass spring_pass() const {
        Pass pass = order_.pass;
        pass.kind = PassKind::spring;
        return pass;
    }

    /// The parts of the heels between two places, from the pass's own zero, to whole steps outwards.
    [[nodiscard]] std::vector<LevelSpan> levels(long long from, long long to) const {
        std::vector<LevelSpan> found;
        if (heels_.empty()) return found;
        const double before = std::ceil((heels_.back().end - travel(from)) / full_turn);
        for (double turns = -before; heels_.front().start + turns * full_turn < travel(to); turns += 1.0) {
            for (const Heel& heel : heels_) {
                const double start = (heel.start + turns * full_turn) / setup_.steps.rotary;
                const double end = (heel.end + turns * full_turn) / setup_.steps.rotary;
                const long long a = std::max(from, step_below(start));
                const long long b = std::min(to, step_above(end));
                if (a < b) found.push_back({travel(a - from), travel(b - from)});
            }
        }
        return found;
    }

    /// On the contour the feed counts the contact's travel; on lead-in and lead-out the longer of that and
    /// the rise.
    [[nodiscard]] PathBlock block_between(const GridKnot& a, const GridKnot& b, bool along_contour) const {
        const double rise = static_cast<double>(b.radial - a.radial) * setup_.steps.radial;
        const double arc = function_.arc_between(travel(a.rotary), travel(b.rotary));
        const double turn = static_cast<double>(b.rotary - a.rotary) * setup_.grid.rotary_step;
        return {rise, 0.0, turn, along_contour ? arc : std::max(arc, std::abs(rise)), order_.feed};
    }

    /// Straight down in air, at the axis's speed but for the last of it; where jumps are limited, rising to
    /// it and falling from it in short steps.
    void come_down(long long radial) {
        const long long down = radial - path_.now().radial;
        const double feed = limits().radial_speed.value_or(order_.feed);
        const auto feed_to = [&](long long to, double at) {
            const double length =
                static_cast<double>(std::abs(to - path_.now().radial)) * setup_.steps.radial;
            path_.feed_to({to, path_.now().axial, path_.now().travel}, length, at);
        };
        if (!limits().radial_jump) {
            feed_to(std::min(path_.now().radial, radial + nearest_step(setup_.gap / setup_.steps.radial)),
                    feed);
            return feed_to(radial, std::min(feed, order_.feed));
        }
        constexpr int most_steps = 8;
        constexpr double step_seconds = 0.02;
        const double jump = *limits().radial_jump;
        const int steps = std::clamp(static_cast<int>(feed / jump), 1, most_steps);
        const double unit_step =
            jump / 60.0 * step_seconds / setup_.steps.radial;  // grid steps of the slowest
        const double ramp = 0.5 * steps * (steps - 1) * unit_step;
        const double share = std::min(1.0, 0.4 * static_cast<double>(std::abs(down)) / std::max(ramp, 1.0));
        const long long from = path_.now().radial;
        const long long sign = down < 0 ? -1 : 1;
        const auto ramped = [&](int k) { return nearest_step(0.5 * k * (k + 1) * unit_step * share); };
        for (int k = 1; k < steps; ++k)
            feed_to(from + sign * ramped(k), k * jump);
        for (int k = steps - 1; k >= 1; --k)
            feed_to(radial - sign * ramped(k), std::min(feed, (k + 1) * jump));
        feed_to(radial, jump);
    }

    /// Parts of a lead: so fine that the radial speed, which falls evenly along the parabola, steps within
    /// radial_jump, and that none turns more than the dialect's longest block.
    [[nodiscard]] int lead_parts(const Lead& lead, int least) const {
        int parts = least;
        const double from = travel(lead.from), to = travel(lead.to);
        if (const auto& jump = limits().radial_jump) {
            const double fastest = 2.0 * lead.drop / function_.arc_between(from, to) * order_.feed;
            parts = std::max(parts, static_cast<int>(step_above(std::min(fastest / *jump, 60.0))));
        }
        const double longest = longest_block();
        if (longest > 0.0) parts = std::max(parts, static_cast<int>(step_above((to - from) / longest)) + 1);
        return parts;
    }

    /// How far X may bow from a straight line over the stretch; where it stands still, by how much it
    /// doesn't.
    [[nodiscard]] double whole_bow(long long from, long long to) const {
        const std::vector<CutterContact> stretch = function_.between(travel(from), travel(to));
        double low = stretch.front().radial, high = low, bend = 0.0;
        for (const CutterContact& c : stretch) {
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
    std::vector<Heel> heels_;
};

Knots joined(const std::vector<Knots>& parts) {
    Knots chain;
    for (const Knots& part : parts)
        chain.insert(chain.end(), part.begin(), part.end());
    return chain;
}

}  // namespace

bool cut_round(PathBuilder& path, const Setup& setup, const RadialFunction& function,
               const PassOrder& order) {
    const double overlap = setup.cut.overlap.radians();
    const Heel heel = heel_of(function);
    const double drop = order.stock + setup.air;
    const double radius = length(function.at(0.5 * (heel.start + heel.end)).point);
    const Leads leads = leads_for(heel, radius, drop, setup.air, overlap);
    Cutter cutter(path, setup, function, order);
    const long long in = cutter.steps(leads.in), out = cutter.steps(leads.out);
    const double earliest = cutter.travel(path.now().travel + in);
    const long long start = start_after(heel, leads, overlap, earliest, setup.steps.rotary);
    const long long end = start + cutter.steps((order.repeats + 1) * full_turn + overlap);
    auto contour = cutter.contour(start, end);
    if (!contour) return false;
    for (int i = 1; i <= order.repeats; ++i)
        cutter.divide_level(*contour, start + cutter.steps(i * full_turn));
    path.begin_pass(order.pass);
    cutter.cut(joined({cutter.lead({start - in, start, drop, true}), *contour,
                       cutter.lead({end, end + out, setup.air, false})}),
               start, end);
    return true;
}

bool cut_sectors(PathBuilder& path, const Setup& setup, const RadialFunction& function,
                 const PassOrder& order) {
    Cutter cutter(path, setup, function, order);
    std::vector<std::pair<StockSector, Knots>> sectors;
    for (StockSector sector : sectors_in_stock(setup, function)) {
        Knots in = cutter.aslant(sector.from);
        const long long turns = cutter.turns_to(in.empty() ? sector.from : in.front().rotary);
        for (GridKnot& knot : in)
            knot.rotary += turns;
        sector.from += turns, sector.to += turns;
        const auto contour = cutter.contour(sector.from, sector.to);
        if (!contour) return false;
        const long long out = sector.to + cutter.steps(lead_out_of_ring);
        const Knots rise = sector.whole ? cutter.lead({sector.to, out, setup.air, false, 4}) : Knots{};
        sectors.emplace_back(sector, joined({in, *contour, rise}));
    }
    if (sectors.empty()) return true;
    std::sort(sectors.begin(), sectors.end(),
              [](const auto& a, const auto& b) { return a.first.from < b.first.from; });
    path.begin_pass(order.pass);
    for (const auto& [sector, chain] : sectors)
        cutter.cut(chain, sector.from, sector.to);
    return true;
}

}  // namespace lobewright::toolpath
