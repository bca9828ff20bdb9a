#include "toolpath/setup.h"

#include "profile/blank.h"
#include "toolpath/refusal.h"

#include <lobewright/needs.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace lobewright::toolpath {
namespace {

/// More roughing passes than this over one lobe are a slip of the pen, in the depth or in the bar.
constexpr int most_roughing_passes = 1000;

Diagnostics faults_of_roughing(const Job& job, const std::vector<SolvedLobe>& lobes) {
    Diagnostics found;
    if (!job.cut->rough_depth) return found;
    for (const SolvedLobe& lobe : lobes) {
        const double deepest = *job.shaft.blank_diameter / 2.0 - lobe.base_radius;
        const double passes = deepest / *job.cut->rough_depth;
        if (passes <= most_roughing_passes) continue;
        found.push_back(refusal(job, "cut.rough_depth", "too-many-passes",
                                "at a rough_depth of " + length_words(*job.cut->rough_depth, job.units) +
                                    " lobe " + lobe.name + " takes " + fixed(passes, 0) +
                                    " roughing passes from the bar's outside",
                                "make it " + length_at_least(deepest / most_roughing_passes, job.units) +
                                    " or more, or mend shaft.blank_diameter"));
    }
    return found;
}

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
    const double beyond = std::abs(section.shift) - section.half_flat;
    if (section.half_flat > 0.0 && beyond <= 0.0) return radius;
    const double reach = radius + section.corner;
    if (beyond >= reach) return -std::numeric_limits<double>::infinity();
    return std::sqrt(reach * reach - beyond * beyond) - section.corner;
}

Outcome<Setup> set_up(const Job& job, const std::vector<SolvedLobe>& lobes, const WordGrid& grid) {
    if (Diagnostics unmet = unmet_needs(job, Purpose::cut); !unmet.empty()) return unmet;
    Diagnostics found = faults_along_shaft(job);
    for (const Diagnostics& more :
         {faults_of_blank(job, lobes, job.cut->allowance), faults_of_roughing(job, lobes)})
        found.insert(found.end(), more.begin(), more.end());
    if (!found.empty()) return found;
    const PlaneSection section = section_of(job, cutter_of(job));
    Setup setup{job, section, grid, {grid.rotary_step * std::numbers::pi / 180.0, grid.radial_step}};
    setup.facing_sign = facing_sign_of(*job.machine, job.cut->direction);
    setup.rotary_sign = job.machine->rotary_positive == Sense::ccw ? -1 : 1;
    setup.blank_radius = *job.shaft.blank_diameter / 2.0;
    setup.blank_touch = touch_of_circle(section, setup.blank_radius);
    setup.safe = rapids_level(job, setup.blank_radius);
    setup.air = std::min(job.cut->clearance, 0.05);
    setup.gap = std::min(job.cut->clearance, 0.2) - setup.air;
    return setup;
}

}  // namespace lobewright::toolpath
