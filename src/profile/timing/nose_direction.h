/// From the engine's timing to the lobe's place on the shaft. This room holds valve timing, both ways: what
/// the card asks of a lobe, and what the lobe does of the card.
#pragma once

#include <lobewright/job.h>
#include <lobewright/motion.h>

namespace lobewright::profile {

/// The timing of the entry's valve; null where the entry has no cylinder or [engine] doesn't time that valve.
const ValveTiming* timing_of(const Job& job, const LobeEntry& entry);

/// Crank angle from opening to closing: inlet and exhaust alike opens + 180 + closes.
CrankAngle duration_of(const ValveTiming& timing);

/// Lift of the follower at which the valve opens and closes, mm.
double clearance_lift(const ValveTiming& timing, const Follower& follower);

/// Lift of the valve train, and of the follower, at which the card's angles hold: at its checking lift, else
/// at the clearance; mm.
double valve_lift_of_card(const ValveTiming& timing);
double card_lift(const ValveTiming& timing, const Follower& follower);

/// Direction of the nose for a lobe with a cylinder: at = f - s·(crank angle of the valve's centre ×
/// cam_per_crank) + s·α_m, α_m the middle between the cam angles of opening and closing at the card's lift.
/// Wrapped. Required: timing_of is not null; the valve opens; the engine knows the cylinder.
ShaftAngle nose_direction(const Job& job, const LobeEntry& entry, const Follower& follower,
                          const Motion& motion);

}  // namespace lobewright::profile
