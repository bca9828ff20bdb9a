#include "profile/shape/motion_shape.h"

#include "profile/follower/motion_contour.h"
#include "profile/law/law_motion.h"
#include "profile/law/segment_motion.h"
#include "profile/motion/motion_piece.h"
#include "profile/shape/card_angles.h"
#include "profile/shape/cure.h"
#include "profile/shape/shape_refusals.h"
#include "profile/spline/table_spline.h"

namespace lobewright::profile {

Outcome<SolvedLobe> shape_from_motion(const ShapeRequest& request, const ShapeChoice& choice,
                                      const Works& works, bool lift_may_change,
                                      std::vector<MotionPiece> pieces, CamAngle action) {
    if (const auto why = off_the_heel(request, choice, works)) return refusal_of(request, *why);
    const auto fault = [&](const MotionJudgement& judgement) {
        return refusal_of(request, impossible_motion(request, choice, works, lift_may_change, judgement));
    };
    const FigureAt highest = highest_lift(pieces);
    if (!reaches(request.follower(), choice.base_radius, highest.value))
        return fault({MotionFault::reach, *highest.at, 0.0});
    const LobeCurve curve(pieces, request.follower(), choice.base_radius, request.turns());
    const MotionJudgement judgement = judge_motion(curve);
    if (judgement.fault != MotionFault::none) return fault(judgement);
    SolvedLobe lobe;
    lobe.base_radius = choice.base_radius;
    lobe.contour = Contour(
        motion_contour(pieces, request.follower(), choice.base_radius, request.turns(), request.cause.repeat),
        contour_extremes(curve));
    lobe.motion = Motion(std::move(pieces), request.period());
    lobe.lift = highest.value;
    lobe.action_angle = action;
    return lobe;
}

namespace {

/// A ramp must leave the law something to lift, and must not run faster than the law does on the mean.
void judge_ramp(std::vector<CannotBe>& found, const MotionProfile& profile, const std::string& key,
                CamAngle law_angle, const std::optional<Ramp>& ramp) {
    if (!ramp) return;
    const double rest = profile.lift - ramp->lift;
    if (rest <= 0.0)
        found.emplace_back(RampTooHigh{key, ramp->lift, profile.lift});
    else if (ramp_speed(*ramp) * law_angle.radians() > rest)
        found.emplace_back(RampTooFast{key, ramp->lift * law_angle.radians() / (0.875 * rest)});
}

/// Why a law, its ramps and its dwell can't be one event.
std::vector<CannotBe> faults_of_law(const MotionProfile& profile, double event, double period) {
    std::vector<CannotBe> found;
    judge_ramp(found, profile, "opening_ramp", profile.opening_angle, profile.opening_ramp);
    judge_ramp(found, profile, "closing_ramp", profile.closing_angle, profile.closing_ramp);
    if (profile.law == LawKind::power_polynomial && profile.powers.size() < 2)
        found.emplace_back(TooFewPowers{});
    if (event > period + angle_rounding)
        found.emplace_back(EventTooLong{CamAngle::from_radians(event), CamAngle::from_radians(period)});
    return found;
}

}  // namespace

Outcome<SolvedLobe> shape_from_law(const ShapeRequest& request, const MotionProfile& given) {
    const auto angles = with_law_angles(request, given);
    if (const auto* why = std::get_if<CannotBe>(&angles)) return refusal_of(request, *why);
    const auto& profile = std::get<MotionProfile>(angles);
    const auto event = law_event(profile);
    const double action = event.back().end - event.front().start;
    const double period = request.period();
    Diagnostics refused;
    for (const CannotBe& why : faults_of_law(profile, action, period))
        refused.push_back(refusal_of(request, why));
    if (!refused.empty()) return refused;
    const Works works = [&](const ShapeChoice& choice) {
        MotionProfile changed = given;
        changed.lift = choice.lift;
        const bool ramps_fit = (!given.opening_ramp || given.opening_ramp->lift < choice.lift) &&
                               (!given.closing_ramp || given.closing_ramp->lift < choice.lift);
        if (!ramps_fit) return false;
        const auto solved = with_law_angles(request, changed);
        return std::holds_alternative<MotionProfile>(solved) &&
               judge_motion(around_period(law_event(std::get<MotionProfile>(solved)), period),
                            choice.follower, choice.base_radius, request.turns())
                       .fault == MotionFault::none;
    };
    return shape_from_motion(request, {request.follower(), profile.base_radius, profile.lift}, works, true,
                             around_period(event, period), CamAngle::from_radians(action));
}

Outcome<SolvedLobe> shape_from_segments(const ShapeRequest& request, const SegmentsProfile& profile) {
    const auto event = segment_event(profile);
    const double action = event.back().end - event.front().start, period = request.period();
    if (action > period + angle_rounding)
        return refusal_of(request,
                          EventTooLong{CamAngle::from_radians(action), CamAngle::from_radians(period)});
    const auto pieces = around_period(event, period);
    const Works works = [&](const ShapeChoice& choice) {
        return judge_motion(pieces, choice.follower, choice.base_radius, request.turns()).fault ==
               MotionFault::none;
    };
    const double lift = highest_lift(pieces).value;
    return shape_from_motion(request, {request.follower(), profile.base_radius, lift}, works, false, pieces,
                             CamAngle::from_radians(action));
}

namespace {

bool makes_a_lobe(const TableFit& fit, const ShapeRequest& request, const ShapeChoice& choice) {
    return judge_motion(fit.pieces, choice.follower, choice.base_radius, request.turns()).fault ==
           MotionFault::none;
}

/// A lobe that is impossible only for the scatter of its readings, which more smoothing would even out;
/// tried.
std::optional<ScatteredReadings> scattered(const ShapeRequest& request, const TableProfile& profile,
                                           const TableFit& fit) {
    const ShapeChoice choice{request.follower(), profile.base_radius, fit.lift};
    if (!request.with_remedies || fit.scatter <= fit.limit || makes_a_lobe(fit, request, choice))
        return std::nullopt;
    const TypedLength enough = typed_above(fit.scatter, request.units());
    TableProfile smoother = profile;
    smoother.smoothing = enough.mm;
    const auto cured = fit_table(smoother, request.period(), request.units());
    if (!cured || !makes_a_lobe(*cured, request, choice)) return std::nullopt;
    return ScatteredReadings{fit.scatter, fit.limit, fit.step, enough};
}

}  // namespace

Outcome<SolvedLobe> shape_from_table(const ShapeRequest& request, const TableProfile& profile) {
    auto fit = fit_table(profile, request.period(), request.units());
    if (!fit) return fit.diagnostics();
    if (const auto why = scattered(request, profile, *fit)) return refusal_of(request, *why);
    const Works works = [&](const ShapeChoice& choice) { return makes_a_lobe(*fit, request, choice); };
    auto lobe = shape_from_motion(request, {request.follower(), profile.base_radius, fit->lift}, works, false,
                                  fit->pieces, fit->closes - fit->opens);
    if (!lobe) return lobe;
    lobe.value().smoothing_moved = fit->moved;
    lobe.value().reading_step = fit->step;
    lobe.value().table_shift = fit->shift;
    return lobe;
}

}  // namespace lobewright::profile
