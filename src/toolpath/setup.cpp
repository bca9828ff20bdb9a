#include "toolpath/setup.h"

#include "toolpath/refusal.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace lobewright::toolpath {
namespace {

Diagnostics missing_parts(const Job& job) {
    Diagnostics found;
    if (!job.machine)
        found.push_back(missing(job, "", "the job has no [machine]", "add [machine] with its post and axes"));
    if (!job.shaft.blank_diameter) {
        found.push_back(missing(job, "shaft", "[shaft] has no blank_diameter",
                                "add blank_diameter, the stock over the lobes before cutting"));
    }
    if (!job.cut) {
        found.push_back(
            missing(job, "", "the job has no [cut]", "add [cut] with cutter, tolerance and feeds"));
    } else if (job.cutters.find(job.cut->cutter) == job.cutters.end()) {
        found.push_back(missing(job, "cut.cutter", "there is no cutter \"" + job.cut->cutter + "\"",
                                "add [cutter." + job.cut->cutter + "], or name one that is there"));
    }
    return found;
}

void check_blank(const Job& job, const std::vector<SolvedLobe>& lobes, Diagnostics& found) {
    const double radius = *job.shaft.blank_diameter / 2.0;
    for (const SolvedLobe& lobe : lobes) {
        const double needed = lobe.contour.largest_radius() + job.cut->allowance;
        if (needed <= radius + 1e-9) continue;
        found.push_back(refusal(job, "shaft.blank_diameter", "blank-too-small",
                                "the blank of " + length_words(2.0 * radius, job.units) +
                                    " does not hold lobe " + lobe.name + ", which reaches " +
                                    length_words(needed, job.units) + " from the axis",
                                "use a blank of " + length_at_least(2.0 * needed, job.units) + " or more"));
    }
}

void check_overlaps(const Job& job, const std::vector<SolvedLobe>& lobes, Diagnostics& found) {
    std::vector<const SolvedLobe*> in_order;
    for (const SolvedLobe& lobe : lobes)
        in_order.push_back(&lobe);
    std::stable_sort(in_order.begin(), in_order.end(),
                     [](const SolvedLobe* a, const SolvedLobe* b) { return a->z < b->z; });
    for (std::size_t i = 0; i + 1 < in_order.size(); ++i) {
        const SolvedLobe &a = *in_order[i], &b = *in_order[i + 1];
        const double apart = b.z - a.z, needed = 0.5 * (a.width + b.width);
        if (apart >= needed - 1e-9) continue;
        found.push_back(refusal(
            job, lobe_key(b.entry) + ".z", "lobes-overlap",
            "lobes " + a.name + " and " + b.name + " overlap along the shaft by " +
                length_words(needed - apart, job.units),
            "set their z at least " + length_at_least(needed, job.units) + " apart, or make them narrower"));
    }
}

double rapids_level(const Job& job, double blank_radius) {
    double level = blank_radius;
    for (const Journal& journal : job.shaft.journals)
        level = std::max(level, journal.diameter / 2.0);
    return level + job.cut->clearance;
}

}  // namespace

int way_of(const Machine& machine, CutDirection direction) {
    const bool from_drive =
        machine.cutter_axis == CutterAxis::parallel && machine.spindle_side == SpindleSide::drive;
    return (direction == CutDirection::climb) != from_drive ? 1 : -1;
}

double touch_of_circle(const Section& section, double radius) {
    const double beyond = std::abs(section.shift) - section.half_flat;
    if (section.half_flat > 0.0 && beyond <= 0.0) return radius;
    const double reach = radius + section.corner;
    if (beyond >= reach) return -std::numeric_limits<double>::infinity();
    return std::sqrt(reach * reach - beyond * beyond) - section.corner;
}

Outcome<Setup> set_up(const Job& job, const std::vector<SolvedLobe>& lobes, const WordGrid& grid) {
    Diagnostics found = missing_parts(job);
    if (!found.empty()) return found;
    check_blank(job, lobes, found);
    check_overlaps(job, lobes, found);
    const Outcome<Section> section = section_of(job, cutter_of(job));
    found.insert(found.end(), section.diagnostics().begin(), section.diagnostics().end());
    if (!found.empty()) return found;
    Setup setup{job, *section, grid, {grid.rotary_step * std::numbers::pi / 180.0, grid.radial_step}};
    setup.way = way_of(*job.machine, job.cut->direction);
    setup.rotary_sign = job.machine->rotary_positive == Sense::ccw ? -1 : 1;
    setup.blank_radius = *job.shaft.blank_diameter / 2.0;
    setup.blank_touch = touch_of_circle(*section, setup.blank_radius);
    setup.safe = rapids_level(job, setup.blank_radius);
    setup.gap = std::min(job.cut->clearance, 0.2);
    setup.rough_margin = std::max(2.0 * job.cut->tolerance, job.cut->rough_depth.value_or(0.0) / 10.0);
    return setup;
}

}  // namespace lobewright::toolpath
