#include "profile/follower/motion_contour.h"
#include "profile/law/law_motion.h"
#include "profile/motion/motion_piece.h"
#include "profile/shape/cure.h"
#include "profile/spline/table_spline.h"

#include <lobewright/number_text.h>

namespace lobewright::profile {
namespace {

std::string at_words(CamAngle angle) {
    return " at cam angle " + shortest_fixed(angle.degrees(), 1) + " degrees";
}

std::string fault_words(const MotionJudgement& judgement, const ShapeRequest& request) {
    const bool flat = request.follower.kind == FollowerKind::flat;
    switch (judgement.fault) {
        case MotionFault::undercut:
            return flat ? "the contour is undercut: its radius of curvature would be " +
                              length_words(judgement.shortfall, request.job.units) + at_words(judgement.at)
                        : "the contour is undercut: the follower's path curves more sharply than its radius "
                          "of " +
                              length_words(request.follower.radius, request.job.units) + " allows" +
                              at_words(judgement.at);
        case MotionFault::overhang:
            return "the contour leans over" + at_words(judgement.at) + ", so that the follower jams";
        case MotionFault::reach:
            return "the arm would swing past its line to the shaft's axis";
        case MotionFault::none:
            break;
    }
    return {};
}

std::string fault_code(MotionFault fault) {
    return fault == MotionFault::undercut   ? "undercut"
           : fault == MotionFault::overhang ? "overhang"
                                            : "arm-does-not-reach";
}

/// The common end of both: the motion is known, the contour follows from it.
Outcome<SolvedLobe> shape_from_motion(const ShapeRequest& request, const ShapeChoice& choice,
                                      const Works& works, bool lift_may_change,
                                      std::vector<MotionPiece> pieces, CamAngle action) {
    if (auto refused = refused_at_the_heel(request, choice, works)) return *refused;
    const auto fault = [&](const MotionJudgement& judgement) {
        return refused_with_cure(request, choice, works, lift_may_change, fault_code(judgement.fault),
                                 fault_words(judgement, request));
    };
    const FigureAt highest = highest_lift(pieces);
    if (!reaches(request.follower, choice.base_radius, highest.value))
        return fault({MotionFault::reach, *highest.at, 0.0});
    const LobeCurve curve(pieces, request.follower, choice.base_radius, request.turns());
    const MotionJudgement judgement = judge_motion(curve);
    if (judgement.fault != MotionFault::none) return fault(judgement);
    SolvedLobe lobe;
    lobe.base_radius = choice.base_radius;
    lobe.contour = Contour(
        motion_contour(pieces, request.follower, choice.base_radius, request.turns(), request.entry.repeat),
        contour_extremes(curve));
    lobe.motion = Motion(std::move(pieces), request.period());
    lobe.lift = highest.value;
    lobe.action_angle = action;
    return lobe;
}

/// A ramp must leave the law something to lift, and must not run faster than the law does on the mean.
std::optional<Diagnostic> refused_ramp(const ShapeRequest& request, const MotionProfile& profile,
                                       const std::string& key, CamAngle law_angle,
                                       const std::optional<Ramp>& ramp) {
    if (!ramp) return std::nullopt;
    const Units units = request.job.units;
    const double rest = profile.lift - ramp->lift;
    if (rest <= 0.0) {
        return request.refusal(request.profile_key(key), "ramp-too-high",
                               "the ramp lifts " + length_words(ramp->lift, units) + ", the whole lobe " +
                                   length_words(profile.lift, units),
                               "give the ramp less than the lobe's lift");
    }
    if (ramp_speed(*ramp) * law_angle.radians() <= rest) return std::nullopt;
    return request.refusal(request.profile_key(key), "ramp-too-fast",
                           "the ramp rises faster than the law after it does on the mean",
                           "give the ramp an angle of " +
                               degrees_above(ramp->lift * law_angle.radians() / (0.875 * rest)) +
                               " degrees or more");
}

Diagnostics refused_law(const ShapeRequest& request, const MotionProfile& profile, double event,
                        double period) {
    Diagnostics refused;
    for (const auto& found :
         {refused_ramp(request, profile, "opening_ramp", profile.opening_angle, profile.opening_ramp),
          refused_ramp(request, profile, "closing_ramp", profile.closing_angle, profile.closing_ramp)}) {
        if (found) refused.push_back(*found);
    }
    if (profile.law == LawKind::power_polynomial && profile.powers.size() < 2) {
        refused.push_back(request.refusal(request.profile_key("powers"), "powers",
                                          "with one power the lift starts with a step in velocity",
                                          "give two powers or more, such as [2, 10]"));
    }
    if (event > period + angle_rounding) {
        const CamAngle too_long = CamAngle::from_radians(event - period);
        refused.push_back(request.refusal(
            request.profile_key("opening_angle"), "event-too-long",
            "ramps, laws and dwell take " + shortest_fixed(CamAngle::from_radians(event).degrees(), 4) +
                " degrees, and " + (request.entry.repeat == 1 ? "a turn has " : "a lobe of this ring has ") +
                shortest_fixed(CamAngle::from_radians(period).degrees(), 4),
            "shorten them by " + degrees_above(too_long.radians()) + " degrees"));
    }
    return refused;
}

}  // namespace

Outcome<SolvedLobe> shape_from_law(const ShapeRequest& request, const MotionProfile& profile) {
    const auto event = law_event(profile);
    const double action = event.back().end - event.front().start;
    if (auto refused = refused_law(request, profile, action, request.period()); !refused.empty())
        return refused;
    const double period = request.period();
    const Works works = [&](const ShapeChoice& choice) {
        MotionProfile changed = profile;
        changed.lift = choice.lift;
        const bool ramps_fit = (!profile.opening_ramp || profile.opening_ramp->lift < choice.lift) &&
                               (!profile.closing_ramp || profile.closing_ramp->lift < choice.lift);
        return ramps_fit && judge_motion(around_period(law_event(changed), period), choice.follower,
                                         choice.base_radius, request.turns())
                                    .fault == MotionFault::none;
    };
    return shape_from_motion(request, {request.follower, profile.base_radius, profile.lift}, works, true,
                             around_period(event, period), CamAngle::from_radians(action));
}

namespace {

bool makes_a_lobe(const TableFit& fit, const ShapeRequest& request, const ShapeChoice& choice) {
    return judge_motion(fit.pieces, choice.follower, choice.base_radius, request.turns()).fault ==
           MotionFault::none;
}

/// A lobe that is impossible only for the scatter of its readings, which more smoothing would even out;
/// tried.
std::optional<Diagnostic> refused_for_scatter(const ShapeRequest& request, const TableProfile& profile,
                                              const TableFit& fit) {
    const ShapeChoice choice{request.follower, profile.base_radius, fit.lift};
    if (!request.with_remedies || fit.scatter <= fit.limit || makes_a_lobe(fit, request, choice))
        return std::nullopt;
    const Units units = request.job.units;
    const TypedLength enough = typed_above(fit.scatter, units);
    TableProfile smoother = profile;
    smoother.smoothing = enough.mm;
    const auto cured = fit_table(smoother, request.period(), units);
    if (!cured || !makes_a_lobe(*cured, request, choice)) return std::nullopt;
    const std::string rounded =
        fit.step > 0.0 ? " (they are rounded to " + length_words(fit.step, units) + ")" : std::string();
    return request.refusal(request.profile_key(profile.smoothing ? "smoothing" : "file"), "scatter",
                           "the readings scatter by " + length_words(fit.scatter, units) +
                               " about a smooth curve" + rounded + ", and one that follows them within " +
                               length_words(fit.limit, units) + " can't be made a lobe",
                           "give smoothing = " + enough.words + " or more");
}

}  // namespace

Outcome<SolvedLobe> shape_from_table(const ShapeRequest& request, const TableProfile& profile) {
    auto fit = fit_table(profile, request.period(), request.job.units);
    if (!fit) return fit.diagnostics();
    if (auto refused = refused_for_scatter(request, profile, *fit)) return *refused;
    const Works works = [&](const ShapeChoice& choice) { return makes_a_lobe(*fit, request, choice); };
    auto lobe = shape_from_motion(request, {request.follower, profile.base_radius, fit->lift}, works, false,
                                  fit->pieces, fit->closes - fit->opens);
    if (!lobe) return lobe;
    lobe.value().smoothing_moved = fit->moved;
    lobe.value().reading_step = fit->step;
    lobe.value().table_shift = fit->shift;
    return lobe;
}

}  // namespace lobewright::profile
