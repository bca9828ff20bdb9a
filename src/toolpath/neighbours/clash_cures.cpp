#include "toolpath/neighbours/clash_cures.h"

#include "toolpath/neighbours/neighbours.h"
#include "toolpath/section/axial_steps.h"
#include "toolpath/section/reach.h"

#include <lobewright/needs.h>

#include <algorithm>
#include <functional>
#include <optional>

namespace lobewright::toolpath {
namespace {

/// Of the tolerance: what steps along the shaft may leave while a size is only tried.
constexpr double steps_share = 0.25;
/// mm: how densely the contacts lie while a size is only tried.
constexpr Spacing coarse{1e-4};

using Change = std::function<void(Cutter&, double)>;
using Fit = std::function<bool(double)>;

/// Whether the lobe can be cut with the job's cutter changed so.
bool fits(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t index, const Change& change,
          double size) {
    Cutter cutter = setup.cutter;
    change(cutter, size);
    cutter.corner_radius = std::min(cutter.corner_radius, 0.5 * cutter.diameter);
    if (!can_cut(setup.machine.cutter_axis, cutter)) return false;
    const Setup changed = with_cutter(setup, cutter);
    if (shift_too_large(changed, lobes[index])) return false;
    const auto nodes = contacts(lobes[index].contour, changed.section, setup.cut.allowance, coarse);
    if (hindrance(nodes, changed.section) != Hindrance::none) return false;
    const auto steps = axial_steps(changed, lobes[index], nodes, steps_share * setup.cut.tolerance);
    if (why_not(steps) != nullptr) return false;
    return !find_clash(changed, lobes, {index, std::get<AxialSteps>(steps).places, nodes});
}

/// The size nearest to `from`, between it and `to`, that fits: by bisection; nothing where `to` does not fit
/// either.
std::optional<double> nearest_fit(const Fit& fit, double from, double to) {
    if (!fit(to)) return std::nullopt;
    constexpr int halvings = 30;
    double fails = from, works = to;
    for (int i = 0; i < halvings; ++i) {
        const double middle = 0.5 * (fails + works);
        (fit(middle) ? works : fails) = middle;
    }
    return works;
}

/// As nearest_fit, going down from `from` by equal parts first: smaller still may not reach, though a size
/// between does.
std::optional<double> largest_fit(const Fit& fit, double from) {
    constexpr int parts = 24;
    for (int i = parts - 1; i > 0; --i) {
        const double size = from * i / parts;
        if (fit(size)) return nearest_fit(fit, from * (i + 1) / parts, size);
    }
    return std::nullopt;
}

/// How far the search goes for a cutter that goes clear.
constexpr double slimmest_neck = 0.01;    // of the neck as it is
constexpr double largest_cutter = 8.0;    // diameters as they are
constexpr double longest_flutes = 200.0;  // mm more
constexpr double longest_reach = 2000.0;  // mm more

class ClashCures {
  public:
    ClashCures(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t index)
        : setup_(setup), lobes_(lobes), index_(index), cutter_(setup.cutter) {}

    [[nodiscard]] NeighbourInTheWay of(const Clash& clash) const {
        switch (clash.part) {
            case BodyPart::edge:
                return of_edge(clash);
            case BodyPart::holder:
                return of_holder(clash);
            case BodyPart::shank:
                break;
        }
        return parallel() ? of_neck(clash) : of_crossing_shank(clash);
    }

  private:
    [[nodiscard]] bool parallel() const { return setup_.machine.cutter_axis == CutterAxis::parallel; }
    [[nodiscard]] Fit fit(Change change) const {
        return [this, change = std::move(change)](double size) {
            return fits(setup_, lobes_, index_, change, size);
        };
    }

    /// No size of a parallel end mill keeps its body off its neighbours.
    [[nodiscard]] NeighbourInTheWay of_edge(const Clash& clash) const {
        if (parallel() && cutter_.kind != CutterKind::disc) return {clash, CutterSize::flute_length, {}, {}};
        if (parallel()) {
            const Fit width = fit([](Cutter& c, double size) { c.width = size; });
            return {clash, CutterSize::width, largest_fit(width, cutter_.width), {}};
        }
        const Fit diameter = fit([](Cutter& c, double size) { c.diameter = size; });
        return {clash, CutterSize::diameter, largest_fit(diameter, cutter_.diameter), {}};
    }

    [[nodiscard]] NeighbourInTheWay of_crossing_shank(const Clash& clash) const {
        const double now = cutter_.flute_length.value_or(0.0);
        const Fit length = fit([](Cutter& c, double size) { c.flute_length = size; });
        return {clash, CutterSize::flute_length, nearest_fit(length, now, now + longest_flutes), {}};
    }

    [[nodiscard]] NeighbourInTheWay of_neck(const Clash& clash) const {
        const bool disc = cutter_.kind == CutterKind::disc;
        const double now = (disc ? cutter_.neck_diameter : cutter_.shank_diameter).value_or(cutter_.diameter);
        const Fit neck =
            fit([disc](Cutter& c, double size) { (disc ? c.neck_diameter : c.shank_diameter) = size; });
        NeighbourInTheWay found{clash, CutterSize::neck, nearest_fit(neck, now, slimmest_neck * now), {}};
        if (found.fits) return found;
        const Fit diameter = fit([](Cutter& c, double size) { c.diameter = size; });
        found.larger_cutter = nearest_fit(diameter, cutter_.diameter, largest_cutter * cutter_.diameter);
        return found;
    }

    [[nodiscard]] NeighbourInTheWay of_holder(const Clash& clash) const {
        const Fit reach = fit([](Cutter& c, double size) { c.reach = size; });
        return {
            clash, CutterSize::reach, nearest_fit(reach, *cutter_.reach, *cutter_.reach + longest_reach), {}};
    }

    const Setup& setup_;
    const std::vector<SolvedLobe>& lobes_;
    std::size_t index_;
    const Cutter& cutter_;
};

}  // namespace

NeighbourInTheWay with_cure(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t index,
                            const Clash& clash) {
    return ClashCures(setup, lobes, index).of(clash);
}

}  // namespace lobewright::toolpath
