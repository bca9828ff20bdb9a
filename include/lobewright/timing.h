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
    double clearance = 0.0;  ///< mm at the valve
    CamAngle closes_at;      ///< cam angle of the closing
};

/// Where the valve's lift (valve_ratio × the follower's) rises above the clearance of [engine] and falls to
/// it again. Absent: no [engine] timing for this valve, a lobe without a cylinder, or one that never lifts
/// above the clearance.
std::optional<ValveEvents> valve_events(const Job& job, const SolvedLobe& lobe);

}  // namespace lobewright
