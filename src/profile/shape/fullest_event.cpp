#include "profile/shape/fullest_event.h"

#include "profile/law/law_motion.h"
#include "profile/motion/motion_piece.h"

#include <algorithm>

namespace lobewright::profile {
namespace {

/// A lift with constant jerk, from `start` on.
struct CubicLift {
    double start = 0.0;
    Lift at_start;

    template <class T>
    T operator()(const T& angle) const {
        const T x = angle - start;
        return at_start.lift +
               x * (at_start.velocity + x * (0.5 * at_start.acceleration + x * (at_start.jerk / 6.0)));
    }
};

Lift at_end_of(const std::optional<Ramp>& ramp) {
    return ramp ? Lift{ramp->lift, ramp_speed(*ramp), 0.0, 0.0} : Lift{};
}

/// The pieces of a ramp whose θ = 0 stands at `from`, running the way of `sense`.
void add_ramp(std::vector<MotionPiece>& event, const std::string& name, const Ramp& ramp, double from,
              double sense) {
    auto pieces = ramp_pieces(name, ramp, ramp.angle.radians());
    if (sense < 0.0) std::reverse(pieces.begin(), pieces.end());
    for (const MotionPiece& piece : pieces) {
        event.push_back(recounted(piece, sense, from));
        if (event.size() > 1) event.back().start = event[event.size() - 2].end;
    }
}

}  // namespace

FullestTask fullest_task(const ShapeRequest& request, const FullestProfile& profile,
                         const FullestLimits& limits) {
    const LimitedUse& use = request.cause.limited;
    LimitedFollower on;
    if (use.follower) on.follower = &*use.follower;
    on.base_radius = profile.base_radius;
    on.width = use.width;
    on.turns = request.turns();
    if (use.load) on.load = &*use.load, on.cam_speed = use.cam_speed;
    FullestTask task;
    task.peak = profile.opening_angle.radians();
    task.end = (profile.opening_angle + profile.closing_angle).radians();
    task.lift = profile.lift;
    task.at_start = at_end_of(profile.opening_ramp);
    task.at_end = at_end_of(profile.closing_ramp);
    task.at_end.velocity = -task.at_end.velocity;
    task.limits = lift_limits(limits, on);
    return task;
}

std::vector<MotionPiece> fullest_event(const FullestProfile& profile, const LiftSpline& spline) {
    std::vector<MotionPiece> event;
    const double peak = profile.opening_angle.radians();
    if (const auto& ramp = profile.opening_ramp)
        add_ramp(event, "opening ramp", *ramp, -peak - ramp->angle.radians(), 1.0);
    if (!event.empty()) event.back().end = -peak;
    for (std::size_t cell = 0; cell < spline.cells(); ++cell) {
        const double start = spline.knots()[cell], end = spline.knots()[cell + 1];
        const CubicLift lift{start - peak, spline.at(cell, start)};
        event.push_back(
            piece_of(start < peak ? "opening flank" : "closing flank", start - peak, end - peak, lift));
    }
    if (const auto& ramp = profile.closing_ramp)
        add_ramp(event, "closing ramp", *ramp, event.back().end + ramp->angle.radians(), -1.0);
    return event;
}

}  // namespace lobewright::profile
