#include "profile/follower/motion_contour.h"
#include "profile/fullest/limit_words.h"
#include "profile/law/law_motion.h"
#include "profile/shape/fullest_angles.h"
#include "profile/shape/fullest_event.h"
#include "profile/shape/motion_shape.h"
#include "profile/shape/shape_refusals.h"

namespace lobewright::profile {
namespace {

/// Why the limits can't be meant for their follower, or the ramps not for the lift.
std::optional<CannotBe> misfit(const ShapeRequest& request, const FullestProfile& profile) {
    if (const auto& follower = request.cause.limited.follower) {
        const Follower& on = *follower;
        const bool bites = !on.has_flat_face() && on.radius <= 0.0;
        if (profile.limits.contact_stress && bites) return KnifeUnderStress{};
        if (!reaches(on, profile.base_radius, 0.0))
            return off_the_heel(request, {on, profile.base_radius, 0.0}, {});
    }
    for (const auto& [key, ramp] :
         {std::pair{"opening_ramp", profile.opening_ramp}, {"closing_ramp", profile.closing_ramp}}) {
        if (ramp && profile.lift && ramp->lift >= *profile.lift)
            return RampTooHigh{key, ramp->lift, *profile.lift};
    }
    return std::nullopt;
}

std::vector<LiftLimit> given_way(const ShapeRequest& request, const FullestProfile& profile) {
    constexpr double hundredth = 0.01;
    FullestLimits laxer = profile.limits;
    for (const FullestLimit limit : all_fullest_limits) {
        if (const double* value = limit_in(laxer, limit))
            set_limit(laxer, limit, *value * (is_least(limit) ? 1.0 - hundredth : 1.0 + hundredth));
    }
    return fullest_task(request, profile, laxer).limits;
}

}  // namespace

Outcome<SolvedLobe> shape_from_fullest(const ShapeRequest& request, const FullestProfile& given) {
    if (const auto why = misfit(request, given)) return refusal_of(request, *why);
    const auto solved = with_fullest_angles(request, given);
    if (const auto* why = std::get_if<CannotBe>(&solved)) return refusal_of(request, *why);
    const auto& [profile, task, lift] = std::get<FullestWithAngles>(solved);
    const auto event = fullest_event(profile, lift.spline);
    const double action = event.back().end - event.front().start;
    const auto pieces = around_period(event, request.period());
    const Works works = [&](const ShapeChoice& choice) {
        return judge_motion(pieces, choice.follower, choice.base_radius, request.turns()).fault ==
               MotionFault::none;
    };
    const double peak = lift.spline.at(task.peak).lift;
    auto lobe = shape_from_motion(request, {request.follower(), profile.base_radius, peak}, works, false,
                                  pieces, CamAngle::from_radians(action));
    if (lobe) lobe.value().limited_by = reached_limits(task, lift, given_way(request, profile));
    return lobe;
}

}  // namespace lobewright::profile
