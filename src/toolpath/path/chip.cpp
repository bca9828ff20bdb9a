#include "toolpath/path/chip.h"

#include <lobewright/cutting_data.h>

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// Whether a round edge runs along the surface there: the side of a parallel cutter, a ball, a rounded
/// corner. Elsewhere the flat of an end, or edges across the shaft.
bool round_there(const Setup& setup, const CutterContact& a, const CutterContact& b) {
    return setup.section.corner > 0.0 && (setup.section.half_flat == 0.0 || (a.on_corner && b.on_corner));
}

/// mm: the circle that thins the chip, in the plane of the feed; 0: a square corner, which thins nothing.
double thinning_radius(const Setup& setup) {
    return setup.machine.cutter_axis == CutterAxis::tangential ? 0.5 * setup.cutter.diameter
                                                               : setup.section.corner;
}

}  // namespace

double chip_per_turning(const Setup& setup, const std::vector<CutterContact>& nodes, double depth) {
    if (depth <= 0.0) return 0.0;
    double thickest = 0.0;
    for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
        const CutterContact &a = nodes[i], &b = nodes[i + 1];
        const double facing = (b.facing - a.facing).radians();
        if (facing <= 0.0) continue;
        const double turn = facing + (b.lean - a.lean).radians();
        const double chip = round_there(setup, a, b)
                                ? chip_on_curve(b.arc - a.arc, turn, depth, setup.section.corner)
                                : chip_on_straight(facing * std::max(length(a.point), length(b.point)), depth,
                                                   thinning_radius(setup));
        thickest = std::max(thickest, chip / facing);
    }
    return thickest;
}

double seconds_per_tooth(const Setup& setup) {
    if (setup.cutter.teeth == 0 || setup.cut.spindle_speed <= 0.0) return 0.0;
    return 60.0 / (setup.cut.spindle_speed * setup.cutter.teeth);
}

}  // namespace lobewright::toolpath
