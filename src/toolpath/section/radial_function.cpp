#include "toolpath/section/radial_function.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lobewright::toolpath {
namespace {

template <class Value>
Value mix(Value a, Value b, double share) {
    return a + (b - a) * share;
}

ShaftAngle turns_of(double turns) {
    return ShaftAngle::from_radians(turns * full_turn);
}

/// Nodes nearer to each other than this are one: between them a slope would be noise. Radians: some thousand
/// roundings of a direction of a few turns.
constexpr double one_place = 1e-12;

/// The same of the ends of a stretch, after some thousand turns of travel.
constexpr double one_end = 1e-11;

/// Where two runs cross is known to this, radians: to the last bits of a direction within a turn. So many
/// halvings get there from any stretch.
constexpr double one_crossing = 1e-14;
constexpr int most_halvings = 80;

/// mm: X that rises by less over its least stands still. A hundredth of a fine grid's step of 1e-5 mm, and
/// far over what solved contours err by (1e-12 mm, see the error budget).
constexpr double heel_rise = 1e-7;

/// Between two nodes: X and its slope from the cubic through values and slopes; the rest in proportion.
CutterContact between_nodes(const CutterContact& a, const CutterContact& b, ShaftAngle facing) {
    const double h = (b.facing - a.facing).radians();
    if (h <= one_place) return b;
    const double s = (facing - a.facing).radians() / h;
    if (s <= 0.0) return a;
    if (s >= 1.0) return b;
    CutterContact c = a;
    c.facing = facing;
    const double chord = (b.radial - a.radial) / h;
    const double m0 = a.slope - chord, m1 = b.slope - chord;
    c.radial = mix(a.radial, b.radial, s) + h * s * (1.0 - s) * (m0 * (1.0 - s) - m1 * s);
    c.slope = chord + m0 * (1.0 - s) * (1.0 - 3.0 * s) + m1 * s * (3.0 * s - 2.0);
    c.bend = mix(a.bend, b.bend, s);
    c.lean = mix(a.lean, b.lean, s);
    c.lean_slope = mix(a.lean_slope, b.lean_slope, s);
    c.effective_radius = std::min(a.effective_radius, b.effective_radius);
    c.arc = mix(a.arc, b.arc, s);
    c.lateral = mix(a.lateral, b.lateral, s);
    c.point = mix(a.point, b.point, s);
    c.normal = mix(a.normal, b.normal, s);
    return c;
}

using Nodes = std::vector<CutterContact>;

/// X of the ascending run nodes[first..last] at `facing`, which lies within it.
CutterContact on_run(const Nodes& nodes, std::size_t first, std::size_t last, ShaftAngle facing) {
    const auto begin = nodes.begin() + static_cast<std::ptrdiff_t>(first);
    const auto end = nodes.begin() + static_cast<std::ptrdiff_t>(last) + 1;
    auto upper = std::upper_bound(begin, end, facing,
                                  [](ShaftAngle f, const CutterContact& c) { return f < c.facing; });
    if (upper == begin) return *begin;
    if (upper == end) return *(end - 1);
    return between_nodes(*(upper - 1), *upper, facing);
}

/// Where the run that ends at `cusp` and the run that starts at `again` cross: before it the first lies
/// further out, after it the second.
ShaftAngle crossing(const Nodes& nodes, std::size_t first, std::size_t cusp, std::size_t again,
                    std::size_t last) {
    ShaftAngle low = std::max(nodes[first].facing, nodes[again].facing);
    ShaftAngle high = std::min(nodes[cusp].facing, nodes[last].facing);
    for (int i = 0; i < most_halvings && (high - low).radians() > one_crossing; ++i) {
        const ShaftAngle middle = 0.5 * (low + high);
        const bool first_further =
            on_run(nodes, first, cusp, middle).radial >= on_run(nodes, again, last, middle).radial;
        (first_further ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace

std::vector<CutterContact> bridged(std::vector<CutterContact> nodes) {
    Nodes kept;  // always one ascending run
    std::size_t i = 0;
    while (i < nodes.size()) {
        std::size_t last = i;  // of the next ascending run
        while (last + 1 < nodes.size() && nodes[last + 1].facing >= nodes[last].facing &&
               !nodes[last + 1].backward) {
            ++last;
        }
        Nodes run(nodes.begin() + static_cast<std::ptrdiff_t>(i),
                  nodes.begin() + static_cast<std::ptrdiff_t>(last) + 1);
        if (kept.empty() || run.front().facing >= kept.back().facing) {
            kept.insert(kept.end(), run.begin(), run.end());
        } else if (run.back().facing > kept.back().facing) {
            const std::size_t cusp = kept.size() - 1;
            Nodes both = kept;
            both.insert(both.end(), run.begin(), run.end());
            const ShaftAngle at = crossing(both, 0, cusp, cusp + 1, both.size() - 1);
            const CutterContact before = on_run(both, 0, cusp, at);
            const CutterContact after = on_run(both, cusp + 1, both.size() - 1, at);
            while (!kept.empty() && kept.back().facing >= at)
                kept.pop_back();
            kept.push_back(before);
            kept.push_back(after);
            for (const CutterContact& c : run) {
                if (c.facing > at) kept.push_back(c);
            }
        }
        i = last + 1;
    }
    return kept;
}

std::vector<CutterContact> along_travel(const std::vector<CutterContact>& nodes, ShaftAngle at,
                                        int direction) {
    std::vector<CutterContact> turned = nodes;
    const double whole = nodes.back().arc;
    for (CutterContact& c : turned) {
        c.facing = direction * (c.facing + at);
        c.slope *= direction;
        c.lean = direction * c.lean;
        if (direction < 0) c.arc = whole - c.arc;
    }
    if (direction < 0) std::reverse(turned.begin(), turned.end());
    return turned;
}

RadialFunction::RadialFunction(std::vector<CutterContact> nodes) : nodes_(std::move(nodes)) {
    assert(nodes_.size() > 1);
    const auto less = [](const CutterContact& a, const CutterContact& b) { return a.radial < b.radial; };
    const auto [least, greatest] = std::minmax_element(nodes_.begin(), nodes_.end(), less);
    least_ = least->radial;
    greatest_ = greatest->radial;
}

RadialFunction::Turned RadialFunction::turned(ShaftAngle facing) const {
    const double turns = std::floor((facing - nodes_.front().facing).radians() / full_turn);
    const ShaftAngle rest = facing - turns_of(turns);
    return {std::clamp(rest, nodes_.front().facing, nodes_.back().facing), turns};
}

CutterContact RadialFunction::at(ShaftAngle facing) const {
    const Turned where = turned(facing);
    CutterContact c = on_run(nodes_, 0, nodes_.size() - 1, where.facing);
    c.facing = facing;
    return c;
}

std::vector<CutterContact> RadialFunction::between(ShaftAngle start, ShaftAngle end) const {
    Turned where = turned(start);
    const ShaftAngle beside = ShaftAngle::from_radians(one_end);
    if (where.facing >= nodes_.back().facing - beside)
        where = {where.facing - turns_of(1.0), where.turns + 1.0};
    auto node = std::upper_bound(nodes_.begin(), nodes_.end(), where.facing + beside,
                                 [](ShaftAngle f, const CutterContact& c) { return f < c.facing; });
    const bool on_node = node != nodes_.begin() && (node - 1)->facing >= where.facing - beside;
    Nodes found{on_node ? *(node - 1) : at(start)};
    found.front().facing = start;
    for (double turns = where.turns;; turns += 1.0) {
        for (; node != nodes_.end(); ++node) {
            const ShaftAngle facing = node->facing + turns_of(turns);
            if (facing >= end - beside) {
                found.push_back(facing <= end + beside ? *node : at(end));
                found.back().facing = end;
                return found;
            }
            found.push_back(*node);
            found.back().facing = facing;
        }
        node = nodes_.begin();
    }
}

double RadialFunction::arc_at(ShaftAngle facing) const {
    const Turned where = turned(facing);
    const double whole = nodes_.back().arc - nodes_.front().arc;
    return on_run(nodes_, 0, nodes_.size() - 1, where.facing).arc + where.turns * whole;
}

double RadialFunction::arc_between(ShaftAngle start, ShaftAngle end) const {
    return arc_at(end) - arc_at(start);
}

std::vector<Heel> heels_of(const RadialFunction& function) {
    const auto& nodes = function.nodes();
    const double low = function.least() + heel_rise;
    const auto flat = [&](std::size_t i) { return nodes[i].radial <= low && nodes[i + 1].radial <= low; };
    const std::size_t count = nodes.size() - 1;
    if (function.greatest() <= low) return {{nodes.front().facing, nodes.back().facing}};  // a plain circle
    std::vector<Heel> heels;
    for (std::size_t i = 0; i < count; ++i) {
        if (!flat(i) || flat((i + count - 1) % count)) continue;  // not the first of its run
        ShaftAngle width;
        for (std::size_t j = 0; j < count && flat((i + j) % count); ++j) {
            width += nodes[(i + j) % count + 1].facing - nodes[(i + j) % count].facing;
        }
        if (width > ShaftAngle{}) heels.push_back({nodes[i].facing, nodes[i].facing + width});
    }
    return heels;
}

namespace {

/// Radians: a heel narrower than this is no more than a turning point of X; and heels that differ by less are
/// as wide as each other.
constexpr double no_heel = 0.02, as_wide = 1e-6;
/// mm: turning points of X that differ by less are as low as each other.
constexpr double as_low = 1e-6;

/// Where X turns between two nodes, between which its slope goes up through 0.
CutterContact turning_point(const CutterContact& a, const CutterContact& b) {
    ShaftAngle falling = a.facing, rising = b.facing;
    for (int i = 0; i < most_halvings && (rising - falling).radians() > one_crossing; ++i) {
        const ShaftAngle middle = 0.5 * (falling + rising);
        (between_nodes(a, b, middle).slope < 0.0 ? falling : rising) = middle;
    }
    return between_nodes(a, b, 0.5 * (falling + rising));
}

/// The lowest turning points of X, without width.
std::vector<Heel> lowest_places(const RadialFunction& function) {
    const auto& nodes = function.nodes();
    Nodes found;
    for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
        if (nodes[i].slope < 0.0 && nodes[i + 1].slope >= 0.0)
            found.push_back(turning_point(nodes[i], nodes[i + 1]));
    }
    const auto lower = [](const CutterContact& a, const CutterContact& b) { return a.radial < b.radial; };
    if (found.empty()) found.push_back(*std::min_element(nodes.begin(), nodes.end(), lower));
    const double least = std::min_element(found.begin(), found.end(), lower)->radial;
    std::vector<Heel> heels;
    for (const CutterContact& c : found) {
        if (c.radial <= least + as_low) heels.push_back({c.facing, c.facing});
    }
    return heels;
}

}  // namespace

std::vector<Heel> widest_heels(const RadialFunction& function) {
    std::vector<Heel> heels = heels_of(function);
    ShaftAngle widest;
    for (const Heel& heel : heels)
        widest = std::max(widest, heel.width());
    if (widest.radians() < no_heel) return lowest_places(function);
    const auto narrow = [&](const Heel& heel) { return (widest - heel.width()).radians() > as_wide; };
    heels.erase(std::remove_if(heels.begin(), heels.end(), narrow), heels.end());
    return heels;
}

}  // namespace lobewright::toolpath
