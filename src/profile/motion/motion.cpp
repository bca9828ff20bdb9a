#include "profile/motion/monotone_parts.h"
#include "profile/roots.h"

#include <lobewright/motion.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace lobewright {
namespace profile {
namespace {

/// From the peak, the way `sense` points in time (+1 or -1): the first cam angle at which the lift is down to
/// the threshold.
double crossing(const Motion& motion, double peak, double threshold, double sense) {
    const double period = motion.period().radians();
    const auto above = [&](double alpha) {
        return motion.at(CamAngle::from_radians(alpha)).lift - threshold;
    };
    const int parts = parts_of(period);
    double near = peak;
    for (int i = 1; i <= parts; ++i) {
        const double far = peak + sense * period * i / parts;
        if (above(far) < 0.0) return root_of(above, near, far);
        near = far;
    }
    return peak + sense * 0.5 * period;  // never down to it: the whole period is above
}

/// From the peak, the way `sense` points: the end of the base circle.
double base_circle_end(const Motion& motion, double peak, double sense) {
    const auto& pieces = motion.pieces();
    const double period = motion.period().radians();
    double nearest = std::numeric_limits<double>::infinity();
    for (const MotionPiece& piece : pieces) {
        if (!piece.constant || piece.at(piece.start).lift != 0.0) continue;
        const double end = sense > 0.0 ? piece.start : piece.end;
        const double way = sense * (end - peak);
        nearest = std::min(nearest, way - period * std::floor(way / period));
    }
    return peak + sense * (std::isinf(nearest) ? 0.5 * period : nearest);
}

}  // namespace
}  // namespace profile

Motion::Motion(std::vector<MotionPiece> pieces, double period_radians)
    : pieces_(std::move(pieces)), period_(period_radians) {
    assert(!pieces_.empty());
}

Motion::PieceAngle Motion::piece_at(CamAngle angle) const {
    double alpha = angle.radians();
    alpha -= period_ * std::floor(alpha / period_ + 0.5);
    const auto after = std::upper_bound(pieces_.begin() + 1, pieces_.end(), alpha,
                                        [](double a, const MotionPiece& piece) { return a < piece.start; });
    const MotionPiece& piece = *(after - 1);
    return {piece, std::clamp(alpha, piece.start, piece.end)};
}

Lift Motion::at(CamAngle angle) const {
    const auto [piece, at_angle] = piece_at(angle);
    return piece.at(at_angle);
}

LiftEvents events_at(const Motion& motion, double threshold) {
    using namespace profile;
    const double peak = highest_lift(motion.pieces()).at->radians();
    const auto edge = [&](double sense) {
        return CamAngle::from_radians(threshold > 0.0 ? crossing(motion, peak, threshold, sense)
                                                      : base_circle_end(motion, peak, sense));
    };
    return {edge(-1.0), edge(+1.0)};
}

}  // namespace lobewright
