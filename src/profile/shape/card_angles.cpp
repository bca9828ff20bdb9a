#include "profile/shape/card_angles.h"

#include "profile/law/law_motion.h"
#include "profile/motion/motion_piece.h"
#include "profile/roots.h"
#include "profile/timing/nose_direction.h"

namespace lobewright::profile {
namespace {

/// Radians: a law over less than this is none.
constexpr double shortest_laws = 1e-4;

MotionProfile with_sum(const MotionProfile& profile, double sum) {
    MotionProfile changed = profile;
    changed.opening_angle = CamAngle::from_radians(*profile.opening_share * sum);
    changed.closing_angle = CamAngle::from_radians(sum) - changed.opening_angle;
    return changed;
}

/// What ramps and dwell take of the turn, radians.
double taken(const MotionProfile& profile) {
    double sum = profile.dwell_angle.radians();
    for (const auto& ramp : {profile.opening_ramp, profile.closing_ramp})
        if (ramp) sum += ramp->angle.radians();
    return sum;
}

}  // namespace

std::variant<MotionProfile, CannotBe> with_law_angles(const ShapeRequest& request,
                                                      const MotionProfile& profile) {
    if (!profile.opening_share) return profile;
    const ValveTiming* timing = request.timing();
    if (timing == nullptr) return LawAnglesMissing{};
    const double threshold = card_lift(*timing, request.follower());
    const double per_crank = request.cause.cam_per_crank, period = request.period();
    const double most = period - taken(profile);
    if (most <= shortest_laws)
        return EventTooLong{CamAngle::from_radians(taken(profile)), CamAngle::from_radians(period)};
    const auto open_for = [&](double sum) {
        const Motion motion(around_period(law_event(with_sum(profile, sum)), period), period);
        const LiftEvents events = events_at(motion, threshold);
        return (events.closes - events.opens).radians() / per_crank;
    };
    const double wanted = duration_of(*timing).radians();
    const WorkingRange durations{open_for(shortest_laws), open_for(most)};
    if (wanted < durations.low || wanted > durations.high)
        return NoLawAngles{duration_of(*timing), durations};
    return with_sum(profile,
                    root_of([&](double sum) { return open_for(sum) - wanted; }, shortest_laws, most));
}

}  // namespace lobewright::profile
