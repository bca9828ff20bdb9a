/// Five unlike lobes and a disc that cuts them, for the toolpath's figures.
#pragma once

#include "basalt.h"
#include "finish_cut.h"

#include <lobewright/toolpath.h>

#include <array>

namespace five_lobes {

using namespace lobewright;

struct Case {
    const char* name;
    SolvedLobe lobe;
};

inline std::vector<Case> all() {
    using namespace basalt;
    MotionProfile ramped = lopsided(12.0, 2.4);
    return {
        {"arcs, flat tappet", solved(arcs_with_flank(6.0, 2.4, 120.0, 25.0), flat())},
        {"tangent cam", solved(arcs_with_flank(8.0, 3.0, 130.0, straight_flank), roller(8.0))},
        {"hollow flanks", solved(arcs_with_flank(14.0, 4.0, 120.0, -60.0), roller(9.0))},
        {"power polynomial with ramps", solved(ramped, flat(30.0))},
        {"modified sine, roller", solved(law(LawKind::modified_sine, 15.0, 5.0, 80.0, 95.0), roller(8.0))}};
}

/// The lobe on a shaft by itself, a disc of 32 mm parallel to the shaft, a machine that is seldom the limit.
inline Job job_for(const SolvedLobe& lobe, double tolerance) {
    Job job = basalt::job(ArcsProfile{}, Follower{});
    job.shaft.blank_diameter = 2.0 * (lobe.contour.largest_radius() + 0.3);
    job.cutters["disc"] = basalt::disc(32.0, 8.0, 12.0);
    Machine machine;
    machine.cutter_axis = CutterAxis::parallel;
    machine.limits.radial_speed = 2000.0, machine.limits.axial_speed = 2000.0,
    machine.limits.rotary_speed = 7200.0;
    machine.limits.radial_acceleration = 300.0, machine.limits.rotary_acceleration = 3600.0;
    machine.limits.blocks_per_second = 400.0;
    job.machine = machine;
    job.cut = finish_cut("disc", tolerance, 120.0);
    return job;
}

}  // namespace five_lobes
