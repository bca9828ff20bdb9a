#include "toolpath/roughing/stock_sectors.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// mm from the shaft's axis to the contact, from X and its slope (see radial_function.h): between nodes these
/// are exact, the contact's own place is in proportion only.
double distance_of_contact(const PlaneSection& section, const CutterContact& c) {
    const bool corner = section.half_flat == 0.0 || c.on_corner;
    if (!corner) return std::sqrt(c.radial * c.radial + c.slope * c.slope);
    const double side = section.half_flat == 0.0 ? 0.0 : c.lateral < 0.0 ? -1.0 : 1.0;
    const double k = section.shift + side * section.half_flat, s = c.radial + section.corner;
    const double tangent = (k - c.slope) / s;  // of the lean
    const double cosine = 1.0 / std::sqrt(1.0 + tangent * tangent);
    const double out = s - section.corner * cosine, aside = k - section.corner * tangent * cosine;
    return std::sqrt(out * out + aside * aside);
}

/// A ring, and the slices with which the cutter meets it.
struct Sliced {
    const Setup& setup;
    const RadialFunction& function;
    double narrowest;

    /// Whether the contact runs outside the blank. All stock outside a smooth section's curve lies over
    /// contacts within it; a sharp corner, be it that of a slice, may reach further, until the whole section
    /// is out.
    [[nodiscard]] bool in_air(const CutterContact& c) const {
        return c.on_corner || std::abs(c.lateral) > narrowest
                   ? c.radial >= setup.blank_touch + setup.air
                   : distance_of_contact(setup.section, c) >= setup.blank_radius + setup.air;
    }
};

/// Where the ring runs from the air into stock and out again, travel in one turn.
struct Edges {
    std::vector<ShaftAngle> in, out;
};

/// An edge is known to this, radians: far finer than any grid's step. So many halvings get there from any
/// stretch between nodes.
constexpr double one_edge = 1e-12;
constexpr int most_halvings = 50;

Edges edges_of_stock(const Sliced& ring) {
    const auto& nodes = ring.function.nodes();
    Edges edges;
    for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
        const bool here = ring.in_air(nodes[i]), there = ring.in_air(nodes[i + 1]);
        if (here == there) continue;
        ShaftAngle a = nodes[i].facing, b = nodes[i + 1].facing;
        for (int k = 0; k < most_halvings && (b - a).radians() > one_edge; ++k) {
            const ShaftAngle middle = 0.5 * (a + b);
            (ring.in_air(ring.function.at(middle)) == here ? a : b) = middle;
        }
        (here ? edges.in : edges.out).push_back(0.5 * (a + b));
    }
    return edges;
}

}  // namespace

std::vector<StockSector> sectors_in_stock(const Setup& setup, const RadialFunction& function,
                                          double narrowest) {
    const Sliced ring{setup, function, narrowest};
    const auto steps = [&](ShaftAngle travel) { return nearest_step(travel.radians() / setup.steps.rotary); };
    const ShaftAngle turn = ShaftAngle::from_radians(full_turn);
    const Edges edges = edges_of_stock(ring);
    const auto& nodes = function.nodes();
    if (edges.in.empty()) {
        if (ring.in_air(nodes.front())) return {};
        const auto highest = std::max_element(
            nodes.begin(), nodes.end(),
            [](const CutterContact& a, const CutterContact& b) { return a.radial < b.radial; });
        const long long start = steps(highest->facing);
        return {{start, start + steps(turn), true}};
    }
    std::vector<StockSector> sectors;
    for (const ShaftAngle start : edges.in) {
        const auto next = std::upper_bound(edges.out.begin(), edges.out.end(), start);
        const ShaftAngle end = next != edges.out.end() ? *next : edges.out.front() + turn;
        if (steps(end) > steps(start)) sectors.push_back({steps(start), steps(end), false});
    }
    return sectors;
}

}  // namespace lobewright::toolpath
