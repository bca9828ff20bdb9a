#include "toolpath/section/axial_steps.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewright::toolpath {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// A place in the section: sideways from the cutter's axis, and over its tip.
struct SectionPoint {
    double side = 0.0;
    double over = 0.0;
};

/// The end of an end mill: flat of radius w, torus of radius r round it.
struct MillEnd {
    double flat, corner;

    /// Where the middle section touches.
    [[nodiscard]] SectionPoint touch(const CutterContact& c) const {
        return {std::abs(c.lateral), c.on_corner ? corner * (1.0 - elementary::cos(c.lean.radians())) : 0.0};
    }
    /// The point of the slice at `y` that comes nearest to the lobe along the contact's normal: the end of
    /// its flat, or on the torus, whose profile's slope tan α the slice foreshortens, where it is that of the
    /// contact.
    [[nodiscard]] SectionPoint nearest(const CutterContact& c, double y) const {
        const double narrowed = flat_at(y);
        if (!c.on_corner) return {std::min(std::abs(c.lateral), narrowed), y > flat ? height(y) : 0.0};
        if (corner == 0.0) return {narrowed, 0.0};
        const double distance = distance_of(y, elementary::tan(std::abs(c.lean.radians())));
        return {std::sqrt(std::max(0.0, distance * distance - y * y)), height(distance)};
    }

    /// Half the flat of the slice at `y`.
    [[nodiscard]] double flat_at(double y) const { return y < flat ? std::sqrt(flat * flat - y * y) : 0.0; }

  private:
    [[nodiscard]] double distance_of(double y, double slope) const {
        double low = std::max(flat, y), high = flat + corner;
        for (int i = 0; i < 40; ++i) {
            const double d = 0.5 * (low + high);
            const double over = d - flat;
            const double here =
                over / std::sqrt(corner * corner - over * over) * std::sqrt(d * d - y * y) / d;
            (here < slope ? low : high) = d;
        }
        return 0.5 * (low + high);
    }
    [[nodiscard]] double height(double distance) const {
        const double over = std::max(0.0, distance - flat);
        return corner - std::sqrt(std::max(0.0, corner * corner - over * over));
    }
};

/// How far a point near the i-th contact stands off the lobe: along the normal of the contact whose normal
/// passes it, with the circle of curvature there.
double off_lobe(const std::vector<CutterContact>& nodes, std::size_t i, Vec2 point) {
    const std::size_t count = nodes.size();
    const auto along = [&](std::size_t j) {
        return dot(point - nodes[j].point, quarter_turn(nodes[j].normal));
    };
    const bool forward = along(i) > 0.0;
    for (std::size_t steps = 0; steps < count; ++steps) {
        const std::size_t next = forward ? (i + 1) % count : (i + count - 1) % count;
        if (std::abs(along(next)) > std::abs(along(i)) && (along(next) > 0.0) != forward) break;
        i = next;
        if ((along(i) > 0.0) != forward) break;
    }
    const CutterContact& foot = nodes[i];
    const double normal = dot(point - foot.point, foot.normal), tangent = along(i);
    if (!std::isfinite(foot.effective_radius)) return normal;
    const double out = foot.effective_radius + normal;
    return std::sqrt(out * out + tangent * tangent) - foot.effective_radius;
}

double round_slice(double radius, double y) {
    return y < radius ? radius - std::sqrt(radius * radius - y * y) : infinite;
}

/// Evenly spaced places from which a cutter that covers `covered` either side together reaches from `from` to
/// `to`, one step of the grid past the edges, with a twentieth of the cover as overlap; none where they would
/// be more than most_places.
std::vector<double> places(double from, double to, double covered, double step) {
    const double middle = 0.5 * (from + to), width = to - from;
    if (width <= covered) return {middle};
    const double sure = covered - 2.0 * step;
    if (width - sure > (most_places - 1) * spacing_share * sure) return {};
    const int gaps = static_cast<int>(step_above((width - sure) / (spacing_share * sure)));
    std::vector<double> found;
    for (int i = 0; i <= gaps; ++i)
        found.push_back(middle + (width - sure) * (static_cast<double>(i) / gaps - 0.5));
    return found;
}

/// Straight flutes shorter than this can't step along a lobe, mm.
constexpr double shortest_straight = 0.5;
/// Steps along a lobe below this take longer than anyone waits, mm.
constexpr double finest_step = 0.01;

/// The side of an end mill or ball nose, its tip past the lobe's face on the side away from the spindle.
Possible<AxialSteps> along_flutes(const Setup& setup, const SolvedLobe& lobe) {
    const Cutter& cutter = setup.cutter;
    const double end = cutter.kind == CutterKind::ball_nose ? cutter.diameter / 2.0 : cutter.corner_radius;
    const double straight = *cutter.flute_length - end;
    const double shank = cutter.shank_diameter.value_or(cutter.diameter);
    if (straight < lobe.width && (shank >= cutter.diameter || straight < shortest_straight)) {
        return FlutesTooShort{straight, lobe.width + end};
    }
    const double past = std::clamp(0.5 * (straight - lobe.width), 0.0, 0.1);
    // Tip away from the spindle: places count from the middle of the straight flutes back to the tip.
    const double to_spindle = setup.machine.spindle_side == SpindleSide::far ? 1.0 : -1.0;
    AxialSteps steps;
    if (straight >= lobe.width) {
        steps.places = {lobe.z - to_spindle * (0.5 * lobe.width + past + end)};
        return steps;
    }
    steps.places =
        places(lobe.z - 0.5 * lobe.width, lobe.z + 0.5 * lobe.width, straight, setup.grid.axial_step);
    if (steps.places.empty()) return AxialStepsTooFine{straight};
    for (double& place : steps.places)
        place -= to_spindle * (0.5 * straight + end);
    if (to_spindle > 0.0)
        std::reverse(steps.places.begin(), steps.places.end());  // the shank follows where it is cut
    return steps;
}

/// The widest half cover that leaves at most `allowed`, by bisection below `most`.
double widest_cover(const Setup& setup, const std::vector<CutterContact>& nodes, double most,
                    double allowed) {
    double low = 0.0, high = most;
    for (int i = 0; i < 24; ++i) {
        const double middle = 0.5 * (low + high);
        (left_by_slice(setup, nodes, middle) <= allowed ? low : high) = middle;
    }
    return low;
}

/// As many places as it takes where the cutter covers `covered`, so near to each other that all of them cover
/// as little as will do: what a slice leaves is then the least for their number.
Possible<AxialSteps> spread(const Setup& setup, const SolvedLobe& lobe,
                            const std::vector<CutterContact>& nodes, double covered) {
    const double half = 0.5 * lobe.width, step = setup.grid.axial_step;
    const std::size_t count = places(lobe.z - half, lobe.z + half, covered, step).size();
    if (count == 0) return AxialStepsTooFine{covered};
    const std::size_t gaps = count - 1;
    const double least = lobe.width / (1.0 + spacing_share * static_cast<double>(gaps)) + 2.0 * step;
    AxialSteps steps{places(lobe.z - half, lobe.z + half, std::min(covered, least), step), 0.0};
    steps.proud = left_by_slice(setup, nodes, 0.5 * std::min(covered, least));
    return steps;
}

}  // namespace

double left_by_slice(const Setup& setup, const std::vector<CutterContact>& nodes, double y) {
    const double radius = setup.cutter.diameter / 2.0;
    if (setup.machine.cutter_axis == CutterAxis::tangential || setup.section.half_flat == 0.0) {
        return round_slice(radius, y);
    }
    if (y >= radius) return infinite;
    const MillEnd end{setup.section.half_flat, setup.section.corner};
    double worst = 0.0;
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        const CutterContact& c = nodes[i];
        const SectionPoint touch = end.touch(c), nearest = end.nearest(c, y);
        if (nearest.side == touch.side && nearest.over == touch.over) continue;
        const Vec2 u = unit(c.facing.radians()), v = (c.lateral < 0.0 ? -1.0 : 1.0) * quarter_turn(u);
        const Vec2 point = c.point + (nearest.over - touch.over) * u + (nearest.side - touch.side) * v;
        worst = std::max(worst, off_lobe(nodes, i, point));
    }
    return worst;
}

double narrowest_flat(const Setup& setup, const SolvedLobe& lobe, const std::vector<double>& places) {
    const MillEnd end{setup.section.half_flat, setup.section.corner};
    if (setup.machine.cutter_axis != CutterAxis::radial || end.flat == 0.0) return every_slice_alike;
    double furthest = 0.0;
    for (const double place : places)
        furthest = std::max(furthest, std::abs(place - lobe.z) + 0.5 * lobe.width);
    return end.flat_at(furthest);
}

Possible<AxialSteps> axial_steps(const Setup& setup, const SolvedLobe& lobe,
                                 const std::vector<CutterContact>& nodes, double allowed) {
    const Cutter& cutter = setup.cutter;
    const double from = lobe.z - 0.5 * lobe.width, to = lobe.z + 0.5 * lobe.width;
    if (setup.machine.cutter_axis == CutterAxis::parallel) {
        if (cutter.kind != CutterKind::disc) return along_flutes(setup, lobe);
        AxialSteps steps{places(from, to, cutter.width, setup.grid.axial_step), 0.0};
        if (steps.places.empty()) return AxialStepsTooFine{cutter.width};
        if (setup.machine.spindle_side == SpindleSide::far)
            std::reverse(steps.places.begin(), steps.places.end());
        return steps;  // the neck comes over what is cut
    }
    const double half = 0.5 * lobe.width;
    // The word that stands for the lobe's middle may be half a step of the grid beside it.
    const double alone = left_by_slice(setup, nodes, half + 0.5 * setup.grid.axial_step);
    if (alone <= allowed) return AxialSteps{{lobe.z}, alone};
    const double cover = widest_cover(setup, nodes, std::min(half, cutter.diameter / 2.0), allowed);
    if (2.0 * cover < finest_step) return AxialStepsTooFine{2.0 * cover};
    return spread(setup, lobe, nodes, 2.0 * cover);
}

}  // namespace lobewright::toolpath
