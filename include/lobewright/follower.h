/// What rides on a lobe, and what it moves the valve by; lengths in mm, frames as in examples/job-file.md.
#pragma once

#include <lobewright/angle.h>

#include <optional>
#include <vector>

namespace lobewright {

enum class FollowerKind { flat, roller, domed, knife, pivoted };

/// What the valve lifts at a lift of the follower, mm.
struct ValveLift {
    double follower = 0.0;
    double valve = 0.0;
    friend bool operator==(const ValveLift&, const ValveLift&) = default;
};

/// One follower. Fields that the kind doesn't use keep their defaults.
struct Follower {
    FollowerKind kind = FollowerKind::flat;
    double radius = 0.0;  ///< roller, dome, pad; 0 for knife
    double offset =
        0.0;  ///< sideways, of a translating round follower's line from the shaft's axis; + towards f + 90°
    std::optional<double> face_diameter;  ///< flat
    double face_offset = 0.0;             ///< flat: along the shaft, from the lobe's middle
    double pivot_radius = 0.0;            ///< pivoted: pivot to shaft axis
    double arm_length = 0.0;              ///< pivoted: pivot to roller or pad centre
    Sense side = Sense::ccw;              ///< pivoted: see examples/job-file.md
    double valve_ratio = 1.0;
    SpaceAngle direction;  ///< f: where it stands round the shaft
    /// Flat: by how much its face is out of square with its way, positive where the face's normal leans
    /// towards f + 90°.
    SpaceAngle face_tilt = {};
    /// Pivoted: the pad is flat, a face that passes so far below the pivot, on the shaft's side (negative:
    /// above it); there is no radius, and arm_length only scales the lift.
    std::optional<double> pad_depth = std::nullopt;
    /// As measured on a rocker, from {0, 0}, both ascending; empty: valve_ratio × lift. See valve_train.h.
    std::vector<ValveLift> valve_lift = {};

    /// Whether a flat face, and no circle, touches the lobe.
    [[nodiscard]] bool has_flat_face() const {
        return kind == FollowerKind::flat || (kind == FollowerKind::pivoted && pad_depth);
    }
    friend bool operator==(const Follower&, const Follower&) = default;
};

}  // namespace lobewright
