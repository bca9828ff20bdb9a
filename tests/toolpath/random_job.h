/// Random jobs for the toolpath: contours in closed form, any cutter held any way, on any machine.
#pragma once

#include "contours.h"

#include <lobewright/toolpath.h>

#include <random>

namespace random_job {

using namespace lobewright;

struct Drawn {
    Job job;
    std::vector<SolvedLobe> lobes;
    WordGrid grid;
};

class Source {
  public:
    explicit Source(unsigned seed) : engine_(seed) {}
    double between(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(engine_);
    }
    double log_between(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }
    int pick(int low, int high) { return std::uniform_int_distribution<int>(low, high)(engine_); }
    bool chance(double share) { return between(0.0, 1.0) < share; }

  private:
    std::mt19937 engine_;
};

inline SolvedLobe draw_lobe(Source& random) {
    SolvedLobe lobe;
    lobe.base_radius = random.between(4.0, 15.0);
    lobe.lift = lobe.base_radius * random.between(0.1, 0.45);
    const double base = lobe.base_radius, lift = lobe.lift;
    switch (random.pick(0, 3)) {
        case 0: {
            const double half = random.between(0.8, 1.2), top = base + lift;
            lobe.contour = contours::three_arcs(base, lift, half, top * random.between(1.6, 6.4));
            if (std::isfinite(lobe.contour.smallest_hollow_radius()))
                return draw_lobe(random);  // no such arcs
            break;
        }
        case 1:
            lobe.contour = contours::smooth_bump(base, lift, random.pick(2, 3));
            break;
        case 2:
            lobe.contour = contours::polar_bump(base, lift, random.pick(4, 24), 1);
            break;
        default:
            lobe.contour = contours::polar_bump(base, 0.4 * lift, 2, random.pick(2, 4));
            break;
    }
    lobe.at = ShaftAngle::from_degrees(random.between(-180.0, 540.0));
    lobe.width = random.between(2.0, 9.0);
    return lobe;
}

inline void draw_holder(Source& random, Cutter& cutter) {
    if (!random.chance(0.2)) return;
    cutter.reach = random.between(10.0, 80.0);
    cutter.holder_diameter = random.between(20.0, 60.0);
}

inline Cutter draw_cutter(Source& random, CutterAxis axis) {
    Cutter cutter;
    cutter.diameter = random.log_between(4.0, 60.0);
    cutter.teeth = 4;
    const int kind = random.pick(0, 2);
    cutter.kind = kind == 0 ? CutterKind::end_mill : kind == 1 ? CutterKind::ball_nose : CutterKind::disc;
    if (axis == CutterAxis::radial && cutter.kind == CutterKind::disc) cutter.kind = CutterKind::end_mill;
    if (cutter.kind == CutterKind::disc) {
        cutter.width = random.between(2.0, 20.0);
        cutter.neck_diameter = cutter.diameter * random.between(0.1, 0.5);
        draw_holder(random, cutter);
        return cutter;
    }
    if (cutter.kind == CutterKind::end_mill && random.chance(0.5)) {
        cutter.corner_radius = cutter.diameter * random.between(0.02, 0.4);
    }
    cutter.flute_length = cutter.diameter * random.between(0.8, 3.0) + 3.0;
    if (random.chance(0.4)) cutter.shank_diameter = cutter.diameter * random.between(0.3, 1.4);
    draw_holder(random, cutter);
    return cutter;
}

inline Drawn draw(Source& random) {
    Drawn drawn;
    Job& job = drawn.job;
    job.file = "random";
    const int axis = random.pick(0, 2);
    Machine machine;
    machine.cutter_axis = axis == 0   ? CutterAxis::parallel
                          : axis == 1 ? CutterAxis::radial
                                      : CutterAxis::tangential;
    machine.cutter_zero = random.chance(0.5) ? CutterZero::centre : CutterZero::edge;
    machine.spindle_side = random.chance(0.5) ? SpindleSide::far : SpindleSide::drive;
    machine.rotary_positive = random.chance(0.5) ? Sense::ccw : Sense::cw;
    AxisLimits& limits = machine.limits;
    if (random.chance(0.8)) limits.radial_speed = random.log_between(200.0, 3000.0);
    if (random.chance(0.8)) limits.axial_speed = 2000.0;
    if (random.chance(0.8)) limits.rotary_speed = random.log_between(500.0, 10000.0);
    if (random.chance(0.8)) limits.radial_acceleration = random.log_between(10.0, 1000.0);
    if (random.chance(0.8)) limits.rotary_acceleration = random.log_between(100.0, 10000.0);
    if (random.chance(0.5)) limits.blocks_per_second = random.log_between(5.0, 1000.0);
    if (random.chance(0.1)) limits.radial_jump = random.log_between(5.0, 500.0);
    if (random.chance(0.1)) limits.rotary_jump = random.log_between(50.0, 2000.0);
    job.machine = machine;
    Cut cut;
    cut.cutter = "it";
    cut.finish_depth = 100.0;  // what it takes is not the matter
    cut.tolerance = random.log_between(0.0008, 0.02);
    cut.allowance = random.chance(0.3) ? random.between(0.0, 0.3) : 0.0;
    cut.surface_feed = random.between(50.0, 400.0);
    cut.rough_surface_feed = random.between(50.0, 400.0);
    cut.direction = random.chance(0.5) ? CutDirection::climb : CutDirection::conventional;
    cut.clearance = random.between(1.0, 5.0);
    cut.overlap = ShaftAngle::from_degrees(random.between(0.0, 12.0));
    cut.spring_passes = random.chance(0.2) ? 1 : 0;
    job.cutters["it"] = draw_cutter(random, machine.cutter_axis);
    if (machine.cutter_axis == CutterAxis::radial && random.chance(0.4)) {
        cut.side_shift = job.cutters["it"].diameter * random.between(-0.4, 0.4);
    }
    double z = 20.0, largest = 0.0;
    const int count = random.chance(0.3) ? 2 : 1;
    for (int i = 0; i < count; ++i) {
        SolvedLobe lobe = draw_lobe(random);
        while (lobe.contour.smallest_convex_radius() < 1.0 || lobe.contour.smallest_hollow_radius() < 1.0)
            lobe = draw_lobe(random);
        lobe.name = std::to_string(i);
        lobe.entry = static_cast<std::size_t>(i);
        lobe.z = z += 0.5 * lobe.width;
        z += 0.5 * lobe.width + random.between(0.0, 80.0);
        largest = std::max(largest, lobe.contour.largest_radius());
        job.lobes.push_back({lobe.name, "p", "f", lobe.at, 0, Valve::inlet, lobe.z, lobe.width, 1});
        drawn.lobes.push_back(lobe);
    }
    job.shaft.blank_diameter = 2.0 * (largest + cut.allowance + random.between(0.0, 1.0));
    if (random.chance(0.3))
        job.shaft.journals.push_back({10.0, random.between(2.0, 10.0), random.between(5.0, 40.0)});
    if (random.chance(0.4)) cut.rough_depth = random.between(0.3, 2.0);
    job.cut = cut;
    if (random.chance(0.3)) job.units = Units::inch;
    drawn.grid.radial_step = job.units == Units::inch ? 2.54e-4 : random.chance(0.3) ? 5e-5 : 1e-4;
    drawn.grid.axial_step = job.units == Units::inch ? 2.54e-4 : 1e-4;
    if (random.chance(0.2)) drawn.grid.longest_rotary_block = random.between(5.0, 180.0);
    return drawn;
}

}  // namespace random_job
