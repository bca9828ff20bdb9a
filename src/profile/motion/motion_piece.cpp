#include "profile/motion/motion_piece.h"

namespace lobewright::profile {

Lift lift_of(const LiftSeries& series) {
    const auto& c = series.c;
    return {c[0], c[1], 2.0 * c[2], 6.0 * c[3]};
}

LiftBounds bounds_of(const LiftBoundSeries& series) {
    LiftBounds bounds = series.c;
    double factorial = 1.0;
    for (std::size_t order = 2; order < bounds.size(); ++order) {
        factorial *= static_cast<double>(order);
        bounds[order] = factorial * bounds[order];
    }
    return bounds;
}

MotionPiece standing_piece(std::string name, double start, double end, double lift) {
    return {std::move(name),
            start,
            end,
            [lift](double) {
                return Lift{lift, 0.0, 0.0, 0.0};
            },
            [lift](const Interval&) { return LiftBounds{lift}; },
            true};
}

MotionPiece recounted(const MotionPiece& piece, double sense, double from) {
    MotionPiece anew = piece;
    anew.start = from + (sense > 0.0 ? piece.start : -piece.end);
    anew.end = from + (sense > 0.0 ? piece.end : -piece.start);
    anew.at = [at = piece.at, sense, from](double alpha) {
        const Lift lift = at(sense * (alpha - from));
        return Lift{lift.lift, sense * lift.velocity, lift.acceleration, sense * lift.jerk};
    };
    anew.within = [within = piece.within, sense, from](const Interval& alpha) {
        LiftBounds bounds = within(sense * (alpha - from));
        for (std::size_t order = 1; order < bounds.size(); order += 2)
            bounds[order] = sense * bounds[order];
        return bounds;
    };
    return anew;
}

}  // namespace lobewright::profile
