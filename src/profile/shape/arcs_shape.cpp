#include "profile/law/law_motion.h"
#include "profile/motion/monotone_parts.h"
#include "profile/motion/motion_piece.h"
#include "profile/shape/action_angle.h"
#include "profile/shape/arc_ramps.h"
#include "profile/shape/motion_shape.h"
#include "profile/shape/shape_refusals.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

/// Whether arcs come out that the follower can ride.
bool comes_out(const ShapeRequest& request, const ArcsProfile& profile, const ShapeChoice& choice,
               double action) {
    return event_of(arcs_of(profile, choice, action), choice.follower, request.turns(), deeper_by(profile))
        .has_value();
}

/// Flank curvatures that work with this base circle, lift, action angle and follower.
std::optional<WorkingRange> working_flanks(const ShapeRequest& request, const ShapeChoice& choice,
                                           double half_action) {
    const double peak = choice.base_radius + choice.lift;
    const FlankRange flanks = flank_range(choice.base_radius, peak, half_action);
    double most_hollow = flanks.most_hollow;
    if (choice.follower.has_flat_face())
        most_hollow = std::max(most_hollow, 0.0);
    else if (choice.follower.radius > 0.0)
        most_hollow = std::max(most_hollow, -1.0 / choice.follower.radius);
    if (most_hollow >= flanks.most_convex) return std::nullopt;
    const auto works = [&](double k) {
        const ArcShape side = shape_from_flank(choice.base_radius, peak, half_action, k);
        return event_of({side, side}, choice.follower, request.turns(), 0.0).has_value();
    };
    return working_range(works, most_hollow, flanks.most_convex);
}

/// No flank at all works at this action angle: a longer one, or less lift.
NoFlankAndNose no_flank_and_nose(const ShapeRequest& request, const ShapeChoice& choice, double half_action) {
    NoFlankAndNose why{half_action, std::nullopt, std::nullopt};
    const double longest = 0.5 * request.period();
    const auto works = [&](double a) { return working_flanks(request, choice, a).has_value(); };
    if (const auto range = working_range(works, half_action, longest)) {
        why.least_half_action = range->low;
        return why;
    }
    const Works with_lift = [&](const ShapeChoice& changed) {
        return working_flanks(request, changed, half_action).has_value();
    };
    why.largest_lift = largest_working_lift(choice, with_lift, request.units());
    return why;
}

/// Flanks that differ, or both radii given: the noses, or else the action angles, that would do.
SidesMisfit sides_misfit(const ShapeRequest& request, const ArcsProfile& profile, const ShapeChoice& choice) {
    SidesMisfit why{profile.nose_radius ? "nose_radius" : "action_angle", std::nullopt};
    if (!request.with_remedies) return why;
    const auto with_nose = [&](double nose) {
        ArcsProfile changed = profile;
        changed.nose_radius = nose;
        return comes_out(request, changed, choice, 0.0);
    };
    const auto with_action = [&](double action) { return comes_out(request, profile, choice, action); };
    why.values = profile.nose_radius ? working_range(with_nose, 0.0, choice.base_radius + choice.lift)
                                     : working_range(with_action, 0.0, request.period());
    return why;
}

/// The shape doesn't come out: with the flanks that do, or what else would cure it.
CannotBe misfit(const ShapeRequest& request, const ArcsProfile& profile, const ShapeChoice& choice,
                const ArcShape& shape) {
    if (settles_action(profile) || profile.closing_flank_radius)
        return sides_misfit(request, profile, choice);
    if (!request.with_remedies) return ArcsMisfit{shape, {}};
    const auto flanks = working_flanks(request, choice, shape.half_action);
    if (!flanks) return no_flank_and_nose(request, choice, shape.half_action);
    return ArcsMisfit{shape, *flanks};
}

/// Why the follower doesn't stand on the base circle, or nothing where it does.
std::optional<CannotBe> off_the_base_circle(const ShapeRequest& request, const ArcsProfile& profile,
                                            const ShapeChoice& choice) {
    const double any_action = profile.action_angle ? profile.action_angle->radians() : full_turn / 3.0;
    const double deeper = deeper_by(profile);
    const Works works = [&](const ShapeChoice& changed) {
        return comes_out(request, profile, {changed.follower, changed.base_radius + deeper, changed.lift},
                         any_action);
    };
    return off_the_heel(request, {choice.follower, choice.base_radius - deeper, choice.lift}, works);
}

/// What one side would be a half of.
ArcGeometry geometry_of(const ArcShape& side, double lift) {
    return {side.base, lift, CamAngle::from_radians(2.0 * side.half_action),
            side.curvature == 0.0 ? straight_flank : 1.0 / side.curvature, side.nose};
}

/// Arcs all round.
SolvedLobe plain_lobe(const ShapeRequest& request, const ArcLobe& arcs,
                      const std::vector<MotionPiece>& event) {
    SolvedLobe lobe;
    lobe.base_radius = arcs.base();
    lobe.action_angle = CamAngle::from_radians(arcs.action());
    const int repeat = request.cause.repeat;
    lobe.contour = Contour(round_the_ring(arc_contour(arcs, request.turns(), full_turn / repeat), repeat));
    lobe.motion = Motion(around_period(event, request.period()), request.period());
    lobe.lift = highest_lift(lobe.motion.pieces()).value;
    return lobe;
}

/// With ramps, which no arc is: their motion makes the contour, whose flanks and nose are the arcs still.
Outcome<SolvedLobe> ramped_lobe(const ShapeRequest& request, const ArcsProfile& profile, const ArcLobe& arcs,
                                const std::vector<MotionPiece>& event) {
    const auto ramped = with_ramps(event, *profile.ramps);
    if (const auto* why = std::get_if<ArcRampTooFast>(&ramped)) return refusal_of(request, *why);
    const auto& whole = std::get<std::vector<MotionPiece>>(ramped);
    const CamAngle action = CamAngle::from_radians(whole.back().end - whole.front().start);
    if (!(action.radians() <= request.period() + angle_rounding))
        return refusal_of(request, EventTooLong{action, CamAngle::from_radians(request.period())});
    const auto pieces = around_period(whole, request.period());
    const double deeper = deeper_by(profile);
    const Works works = [&](const ShapeChoice& choice) {
        const auto changed = event_of(
            arcs_of(profile, {choice.follower, choice.base_radius + deeper, profile.lift}, arcs.action()),
            choice.follower, request.turns(), deeper);
        if (!changed) return false;
        const auto with = with_ramps(*changed, *profile.ramps);
        const auto* all = std::get_if<std::vector<MotionPiece>>(&with);
        return all != nullptr && judge_motion(around_period(*all, request.period()), choice.follower,
                                              choice.base_radius, request.turns())
                                         .fault == MotionFault::none;
    };
    return shape_from_motion(request, {request.follower(), arcs.base() - deeper, profile.lift + deeper},
                             works, false, pieces, action);
}

}  // namespace

Outcome<SolvedLobe> shape_from_arcs(const ShapeRequest& request, const ArcsProfile& profile) {
    const ShapeChoice choice{request.follower(), profile.base_radius, profile.lift};
    if (const auto why = off_the_base_circle(request, profile, choice)) return refusal_of(request, *why);
    const auto action = action_angle_of(request, profile, choice);
    if (const auto* why = std::get_if<CannotBe>(&action)) return refusal_of(request, *why);
    const ArcLobe arcs = arcs_of(profile, choice, std::get<double>(action));
    const auto event = event_of(arcs, request.follower(), request.turns(), deeper_by(profile));
    if (!event) return refusal_of(request, misfit(request, profile, choice, arcs.opening));

    Outcome<SolvedLobe> lobe = profile.ramps ? ramped_lobe(request, profile, arcs, *event)
                                             : Outcome(plain_lobe(request, arcs, *event));
    if (!lobe) return lobe;
    lobe.value().opening_arcs = geometry_of(arcs.opening, profile.lift);
    lobe.value().closing_arcs = geometry_of(arcs.closing, profile.lift);
    const bool plain = !profile.ramps && !profile.closing_flank_radius;
    if (plain) lobe.value().arcs = lobe.value().opening_arcs;
    return lobe;
}

}  // namespace lobewright::profile
