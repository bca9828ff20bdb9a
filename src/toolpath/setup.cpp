#include "toolpath/setup.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace lobewright::toolpath {
namespace {

/// mm over the stock at which lead-ins begin and lead-outs end, and from which on a cutter comes down at its
/// feed; less where the job's own clearance is. Common practice, no source.
constexpr double most_air = 0.05;
constexpr double most_above_stock_at_feed = 0.2;

double rapids_level(const Job& job, double blank_radius) {
    double level = blank_radius;
    for (const Journal& journal : job.shaft.journals)
        level = std::max(level, journal.diameter / 2.0);
    return level + job.cut->clearance;
}

}  // namespace

int facing_sign_of(const Machine& machine, CutDirection direction) {
    const bool from_drive =
        machine.cutter_axis == CutterAxis::parallel && machine.spindle_side == SpindleSide::drive;
    return (direction == CutDirection::climb) != from_drive ? 1 : -1;
}

double touch_of_circle(const PlaneSection& section, double radius) {
    if (section.inclined()) {
        const double longer = std::sqrt(1.0 + section.slope * section.slope);
        return longer * radius - section.rise + section.shift * section.slope;
    }
    const double beyond = std::abs(section.shift) - section.half_flat;
    if (section.half_flat > 0.0 && beyond <= 0.0) return radius;
    const double reach = radius + section.corner;
    if (beyond >= reach) return -std::numeric_limits<double>::infinity();
    return std::sqrt(reach * reach - beyond * beyond) - section.corner;
}

Setup set_up(const Job& job, const WordGrid& grid) {
    Setup setup;
    setup.machine = *job.machine;
    setup.cut = *job.cut;
    setup.cutter = job.cutters.find(job.cut->cutter)->second;
    setup.journals = job.shaft.journals;
    setup.stock = job.stock;
    setup.section = section_of(setup.machine, setup.cut, setup.cutter);
    setup.grid = grid;
    setup.unit = mm_per(job.units);
    setup.steps = {grid.rotary_step * std::numbers::pi / 180.0, grid.radial_step};
    setup.facing_sign = facing_sign_of(setup.machine, setup.cut.direction);
    setup.rotary_sign = setup.machine.rotary_positive == Sense::ccw ? -1 : 1;
    setup.blank_radius = *job.shaft.blank() / 2.0;
    setup.blank_touch = touch_of_circle(setup.section, setup.blank_radius);
    setup.safe = rapids_level(job, setup.blank_radius);
    setup.air = std::min(setup.cut.clearance, most_air);
    setup.gap = std::min(setup.cut.clearance, most_above_stock_at_feed) - setup.air;
    return setup;
}

std::optional<double> standing_over(const Setup& setup, const SolvedLobe& lobe) {
    const auto standing = setup.stock.of(lobe.name);
    return standing ? std::optional(standing->most()) : std::nullopt;
}

double stock_on_heel(const Job& job, const SolvedLobe& lobe) {
    const double bar = *job.shaft.blank() / 2.0 - lobe.base_radius;
    const auto standing = job.stock.of(lobe.name);
    return standing ? std::min(bar, standing->most()) : bar;
}

Setup with_cutter(const Setup& setup, const Cutter& cutter) {
    Setup changed = with_section(setup, section_of(setup.machine, setup.cut, cutter));
    changed.cutter = cutter;
    return changed;
}

Setup with_section(const Setup& setup, const PlaneSection& section) {
    Setup changed = setup;
    changed.section = section;
    changed.blank_touch = touch_of_circle(section, setup.blank_radius);
    return changed;
}

double worn_after(const Cutter& wheel, int ground) {
    return ground * wheel.wear_per_lobe.value_or(0.0);
}

Setup with_worn_wheel(const Setup& setup, int ground) {
    const double worn = worn_after(setup.cutter, ground);
    if (worn == 0.0) return setup;
    Cutter cutter = setup.cutter;
    cutter.diameter -= 2.0 * worn;
    Setup changed = with_cutter(setup, cutter);
    changed.worn = worn;
    // The radial word tells where the wheel's axis is: its edge stands further out by what it lost.
    changed.section.word_offset = setup.section.word_offset - worn;
    return changed;
}

}  // namespace lobewright::toolpath
