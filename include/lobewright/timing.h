/// A lobe's valve events as on a timing card, read off the solved lobe.
#pragma once

#include <lobewright/lobe.h>

#include <optional>

namespace lobewright {

/// Crank angles in the sense of ValveTiming; the centre after TDC for an inlet, before it for an exhaust.
struct ValveEvents {
    CrankAngle opens;
    CrankAngle closes;
    CrankAngle duration;
    CrankAngle centre;
    double valve_lift = 0.0;  ///< mm of the valve train at which they are taken, no clearance taken off
    CamAngle closes_at;       ///< cam angle of the closing
};

/// Where the valve train lifts more than `valve_lift` and where no more (see valve_train.h; 0: the ends of
/// the base circle). Absent: no [engine] timing for this valve, a lobe without a cylinder, or one that never
/// lifts so much.
std::optional<ValveEvents> valve_events_at(const Job& job, const SolvedLobe& lobe, double valve_lift);
/// At the clearance of [engine]: where the valve leaves its seat and meets it.
std::optional<ValveEvents> valve_events(const Job& job, const SolvedLobe& lobe);
/// Where the angles of the timing card hold: at its checking lift, else at the clearance.
std::optional<ValveEvents> card_events(const Job& job, const SolvedLobe& lobe);

}  // namespace lobewright
