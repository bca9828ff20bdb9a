#include "toolpath/section/reach.h"

#include <lobewright/needs.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace lobewright::toolpath {
namespace {

/// Contacts compared with one another in the search for places that the section would cut into elsewhere.
constexpr std::size_t compared = 360;
/// mm: what only touches, to nodes that lie some micrometres' curve apart, doesn't cut.
constexpr double touching = 1e-6;
/// Radians: a normal that turns back by less is straight but for rounding.
constexpr double straight = 1e-9;

/// Whether the section, standing at one contact, would cut into the lobe at another (possible only where it
/// is hollow).
bool cuts_elsewhere(const std::vector<CutterContact>& nodes, const PlaneSection& section) {
    const std::size_t stride = std::max<std::size_t>(1, nodes.size() / compared);
    for (std::size_t i = 0; i < nodes.size(); i += stride) {
        const Vec2 u = unit(nodes[i].facing.radians()), v = quarter_turn(u);
        for (std::size_t j = 0; j < nodes.size(); j += stride) {
            const double beside = dot(nodes[j].point, v) - section.shift;
            const double over = std::abs(beside) - section.half_flat;
            if (over > section.corner) continue;
            const double rise =
                section.inclined() ? section.rise + section.slope * beside
                : over <= 0.0      ? 0.0
                              : section.corner - std::sqrt(section.corner * section.corner - over * over);
            if (dot(nodes[j].point, u) - rise > nodes[i].radial + touching) return true;
        }
    }
    return false;
}

bool is_hollow(const std::vector<CutterContact>& nodes) {
    double turned = nodes.front().facing.radians();
    return std::any_of(nodes.begin(), nodes.end(), [&](const CutterContact& c) {
        const double normal = turned + wrapped_radians(direction(c.normal) - turned);
        const bool back = normal < turned - straight;
        turned = normal;
        return back;
    });
}

/// How densely contacts lie while a size is only tried, and where the furthest of them is looked for: where
/// it runs no further to the side the radial function has no bend, and the sag alone would leave it out.
constexpr Spacing coarse{1e-4};
constexpr Spacing close{1e-4, ShaftAngle::from_radians(0.002)};
/// mm of edge over what the contacts so found need: they miss the furthest by less (a millionth of the
/// contact's third derivative, mm).
constexpr double spare_edge = 1e-4;
/// mm: half width of a flat that no lobe's contact runs past.
constexpr double far_past = 1e6;
/// Sizes are looked for between this share, and so many times, the size that fails.
constexpr double least_share = 1e-3, most_times = 100.0;
constexpr int halvings = 30;

Hindrance hindrance_of(const Contour& contour, const PlaneSection& section, double left_on) {
    return hindrance(contacts(contour, section, left_on, coarse), section);
}

using Size = std::function<Hindrance(double)>;

/// The largest size in (0, failing) that works, or nothing: halving down to one that works, then bisection.
std::optional<double> largest_working(const Size& tried, double failing) {
    double works = failing / 2.0, fails = failing;
    while (tried(works) != Hindrance::none) {
        fails = works, works /= 2.0;
        if (works < failing * least_share) return std::nullopt;
    }
    for (int i = 0; i < halvings; ++i) {
        const double middle = 0.5 * (works + fails);
        (tried(middle) == Hindrance::none ? works : fails) = middle;
    }
    return works;
}

std::optional<double> smallest_working(const Size& tried, double failing) {
    double works = failing * 2.0, fails = failing;
    while (tried(works) != Hindrance::none) {
        fails = works, works *= 2.0;
        if (works > failing * most_times) return std::nullopt;
    }
    for (int i = 0; i < halvings; ++i) {
        const double middle = 0.5 * (works + fails);
        (tried(middle) == Hindrance::none ? works : fails) = middle;
    }
    return works;
}

/// What keeps the job's cutter off the lobe, made to another size.
Size sized(const Setup& setup, const SolvedLobe& lobe, double Cutter::*size) {
    return [&setup, &lobe, size](double value) {
        Cutter cutter = setup.cutter;
        cutter.*size = value;
        cutter.corner_radius = std::min(cutter.corner_radius, cutter.diameter / 2.0);
        if (!can_cut(setup.machine.cutter_axis, cutter)) return Hindrance::too_narrow;
        const PlaneSection section = section_of(setup.machine, setup.cut, cutter);
        if (std::abs(section.shift) >= section.half_flat + section.corner) return Hindrance::too_narrow;
        return hindrance_of(lobe.contour, section, setup.cut.allowance);
    };
}

TooLargeForHollow too_large(const Setup& setup, const SolvedLobe& lobe) {
    TooLargeForHollow found{lobe.contour.smallest_hollow_radius(), std::nullopt};
    if (setup.machine.cutter_axis != CutterAxis::tangential)
        found.largest_diameter =
            largest_working(sized(setup, lobe, &Cutter::diameter), setup.cutter.diameter);
    return found;
}

EdgesTooNarrow edges_too_narrow(const Setup& setup, const SolvedLobe& lobe) {
    const PlaneSection endless_flat{far_past, 0.0, 0.0, 0.0, false};
    double travel = 0.0;
    for (const CutterContact& c : contacts(lobe.contour, endless_flat, setup.cut.allowance, close))
        travel = std::max(travel, std::abs(c.lateral));
    const Cutter& cutter = setup.cutter;
    const double now = 2.0 * setup.section.half_flat, needed = 2.0 * travel;
    const double length =
        (cutter.kind == CutterKind::disc ? cutter.width : *cutter.flute_length) + needed - now;
    return {travel, 0.5 * now, length + spare_edge};
}

CannotCut too_narrow(const Setup& setup, const SolvedLobe& lobe) {
    if (setup.machine.cutter_axis == CutterAxis::tangential) return edges_too_narrow(setup, lobe);
    return EndTooNarrow{smallest_working(sized(setup, lobe, &Cutter::diameter), setup.cutter.diameter)};
}

}  // namespace

Hindrance hindrance(const std::vector<CutterContact>& nodes, const PlaneSection& section) {
    for (const CutterContact& c : nodes) {
        if (c.backward) return Hindrance::hollow;
    }
    for (const CutterContact& c : nodes) {
        if (c.on_corner && !section.corners_may_ride) return Hindrance::too_narrow;
        if (c.on_corner && std::abs(c.lean.radians()) > steepest_lean.radians()) return Hindrance::too_narrow;
    }
    return is_hollow(nodes) && cuts_elsewhere(nodes, section) ? Hindrance::hollow : Hindrance::none;
}

std::optional<ShiftTooLarge> shift_too_large(const Setup& setup, const SolvedLobe& lobe) {
    const PlaneSection& section = setup.section;
    const double most = section.half_flat + 0.5 * (lobe.base_radius + section.corner);
    if (std::abs(section.shift) <= most) return std::nullopt;
    return ShiftTooLarge{most};
}

std::optional<CannotCut> unreached(const Setup& setup, const SolvedLobe& lobe,
                                   const std::vector<CutterContact>& nodes) {
    switch (hindrance(nodes, setup.section)) {
        case Hindrance::none:
            return std::nullopt;
        case Hindrance::too_narrow:
            return too_narrow(setup, lobe);
        case Hindrance::hollow:
            break;
    }
    return too_large(setup, lobe);
}

}  // namespace lobewright::toolpath
