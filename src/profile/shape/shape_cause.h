/// All of a job that a lobe's shape depends on. Lobes that are alike in this have one shape.
#pragma once

#include <lobewright/job.h>

#include <optional>

namespace lobewright::profile {

/// What the limits of a fullest lift are meant for, as far as they ask.
struct LimitedUse {
    std::optional<Follower> follower;
    double width = 0.0;  ///< of the narrowest lobe of the profile
    std::optional<ContactLoad> load;
    double cam_speed = 0.0;  ///< rad/s at the load's crank speed
    friend bool operator==(const LimitedUse&, const LimitedUse&) = default;
};

struct ShapeCause {
    Profile profile;
    Follower follower;
    int repeat = 1;
    Sense turns = Sense::ccw;
    Units units = Units::mm;            ///< in which readings are rounded, and cures are told
    std::optional<ValveTiming> timing;  ///< the card, where the profile leaves its angles to it
    double cam_per_crank = 0.0;         ///< likewise
    LimitedUse limited;
    friend bool operator==(const ShapeCause&, const ShapeCause&) = default;
};

/// `follower` rides on the lobe.
ShapeCause shape_cause(const Job& job, const LobeEntry& entry, const Follower& follower);

}  // namespace lobewright::profile
