#include "profile/shape/shape_cause.h"

#include "profile/judge/contact_load.h"
#include "profile/shape/action_angle.h"
#include "profile/timing/nose_direction.h"

#include <algorithm>
#include <limits>

namespace lobewright::profile {
namespace {

/// Whether the card settles the profile's angles.
struct AsksCard {
    bool operator()(const ArcsProfile& arcs) const { return !arcs.action_angle && !settles_action(arcs); }
    bool operator()(const MotionProfile& motion) const { return motion.opening_share.has_value(); }
    bool operator()(const FullestProfile& fullest) const { return fullest.opening_share.has_value(); }
    bool operator()(const TableProfile&) const { return false; }
    bool operator()(const SegmentsProfile&) const { return false; }
};

double narrowest(const Job& job, const std::string& profile) {
    double width = std::numeric_limits<double>::infinity();
    for (const LobeEntry& lobe : job.lobes)
        if (lobe.profile == profile) width = std::min(width, lobe.width);
    return width;
}

LimitedUse limited_use(const Job& job, const std::string& name, const FullestProfile& profile) {
    const FullestLimits& limits = profile.limits;
    LimitedUse use;
    if (const auto found = job.followers.find(profile.follower); found != job.followers.end())
        use.follower = found->second;
    if (limits.contact_stress) use.width = narrowest(job, name);
    if (job.contact && (limits.contact_stress || limits.float_speed)) {
        use.load = job.contact;
        use.cam_speed = cam_speed(job, job.contact->crank_speed);
    }
    return use;
}

}  // namespace

ShapeCause shape_cause(const Job& job, const LobeEntry& entry, const Follower& follower) {
    ShapeCause cause;
    cause.profile = job.profiles.at(entry.profile);
    cause.follower = follower;
    cause.repeat = entry.repeat, cause.turns = job.shaft.turns, cause.units = job.units;
    const ValveTiming* timing = timing_of(job, entry);
    if (timing != nullptr && std::visit(AsksCard{}, cause.profile))
        cause.timing = *timing, cause.cam_per_crank = job.engine->cam_per_crank;
    if (const auto* fullest = std::get_if<FullestProfile>(&cause.profile))
        cause.limited = limited_use(job, entry.profile, *fullest);
    return cause;
}

}  // namespace lobewright::profile
