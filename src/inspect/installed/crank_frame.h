/// The crank's angles and the cam's, with the shaft installed as the job says.
///
/// This room holds the lobe in its engine: what a dial indicator on the valve reads by a timing wheel.
#pragma once

#include <lobewright/lobe.h>

namespace lobewright::inspection {

/// The cam angle at which a lobe stands when the crank does at `crank`, unwrapped: α = crank × cam_per_crank
/// + s (at - f), f the follower's direction. Required: the job has an engine.
CamAngle cam_angle_at(const Job& job, const SolvedLobe& lobe, CrankAngle crank);
/// The crank angle at which it stands there, within one turn of the cam from 0.
CrankAngle crank_angle_at(const Job& job, const SolvedLobe& lobe, CamAngle angle);

/// At the valve, mm; 0 where the job doesn't time it.
double clearance_of(const Job& job, const SolvedLobe& lobe);
/// The valve's lift and its slope by the cam angle, mm and mm/rad; both 0 while it is shut.
struct OpenValve {
    double lift = 0.0;
    double slope = 0.0;
};
OpenValve valve_lift(const SolvedLobe& lobe, double clearance, CamAngle angle);

}  // namespace lobewright::inspection
