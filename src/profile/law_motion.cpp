#include "law_motion.h"

#include "base/elementary/elementary.h"
#include "law.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

/// First quarter of a ramp: its speed rises as v (1 - cos 4πx) / 2, x = θ / R.
Lift ramp_start(double v, double angle, double theta) {
    const double w = 4.0 * std::numbers::pi / angle;
    const auto [s, c] = elementary::sine_and_cosine(w * theta);
    return {0.5 * v * (theta - s / w), 0.5 * v * (1.0 - c), 0.5 * v * w * s, 0.5 * v * w * w * c};
}

/// The law from the ramp's end to the peak: r + (L - r) S(x) + v β (x - 6x³ + 8x⁴ - 3x⁵). The last part
/// carries the ramp's speed v on without a step in acceleration, and dies out at the peak with two
/// derivatives.
struct LawSide {
    Law law;
    double start_lift = 0.0;  // r
    double rise = 0.0;        // L - r
    double angle = 0.0;       // β
    double speed = 0.0;       // v

    [[nodiscard]] Lift at(double theta) const {
        const double x = std::clamp(theta / angle, 0.0, 1.0);
        const LawValue s = law.at(x);
        const double carry = speed * angle;
        const double q = x * (1.0 + x * x * (-6.0 + x * (8.0 - 3.0 * x)));
        const double dq = 1.0 + x * x * (-18.0 + x * (32.0 - 15.0 * x));
        const double ddq = x * (-36.0 + x * (96.0 - 60.0 * x));
        const double dddq = -36.0 + x * (192.0 - 180.0 * x);
        return {start_lift + rise * s.s + carry * q, (rise * s.ds + carry * dq) / angle,
                (rise * s.dds + carry * ddq) / (angle * angle),
                (rise * s.ddds + carry * dddq) / (angle * angle * angle)};
    }
};

/// One side of the event, `theta` running from the base circle (0) to the start of the dwell.
std::vector<MotionPiece> rising_side(const MotionProfile& profile, CamAngle law_angle,
                                     const std::optional<Ramp>& ramp) {
    const double beta = law_angle.radians();
    std::vector<MotionPiece> pieces;
    double law_start = 0.0, speed = 0.0, ramp_lift = 0.0;
    if (ramp) {
        const double angle = ramp->angle.radians(), v = ramp_speed(*ramp), r = ramp->lift;
        law_start = angle, speed = v, ramp_lift = r;
        pieces.push_back({"ramp", 0.0, 0.25 * angle, [=](double t) { return ramp_start(v, angle, t); }});
        pieces.push_back({"ramp", 0.25 * angle, angle, [=](double t) {
                              return Lift{r - v * (angle - t), v, 0.0, 0.0};
                          }});
    }
    const LawSide side{Law(profile.law, profile.powers), ramp_lift, profile.lift - ramp_lift, beta, speed};
    std::vector<double> joints = law_joints(profile.law);
    joints.push_back(1.0);
    double from = law_start;
    for (const double joint : joints) {
        const double to = law_start + joint * beta;
        pieces.push_back({"flank", from, to, [=](double t) { return side.at(t - law_start); }});
        from = to;
    }
    return pieces;
}

}  // namespace

double ramp_speed(const Ramp& ramp) {
    return ramp.lift / (0.875 * ramp.angle.radians());
}

std::vector<MotionPiece> law_event(const MotionProfile& profile) {
    const double dwell = profile.dwell_angle.radians(), top = profile.lift;
    const auto opening = rising_side(profile, profile.opening_angle, profile.opening_ramp);
    const auto closing = rising_side(profile, profile.closing_angle, profile.closing_ramp);
    std::vector<MotionPiece> event;
    const double opens = -0.5 * dwell - opening.back().end;
    for (const MotionPiece& piece : opening) {
        event.push_back({"opening " + piece.name, opens + piece.start, opens + piece.end,
                         [at = piece.at, opens](double alpha) { return at(alpha - opens); }});
    }
    event.back().end = -0.5 * dwell;
    if (dwell > 0.0) {
        event.push_back({"dwell", -0.5 * dwell, 0.5 * dwell,
                         [top](double) {
                             return Lift{top, 0.0, 0.0, 0.0};
                         },
                         true});
    }
    const double closes = 0.5 * dwell + closing.back().end;
    double from = 0.5 * dwell;
    for (auto piece = closing.rbegin(); piece != closing.rend(); ++piece) {
        const double to = closes - piece->start;
        event.push_back(
            {"closing " + piece->name, from, to, [at = piece->at, closes](double alpha) {
                 const Lift mirrored = at(closes - alpha);
                 return Lift{mirrored.lift, -mirrored.velocity, mirrored.acceleration, -mirrored.jerk};
             }});
        from = to;
    }
    return event;
}

std::vector<MotionPiece> around_period(const std::vector<MotionPiece>& event, double period) {
    constexpr double sliver = 1e-12;  // radians: shorter is rounding, not a piece
    std::vector<MotionPiece> whole = event;
    const double closes = event.back().end, opens = event.front().start;
    if (opens + period - closes > sliver) {
        whole.push_back({"base circle", closes, opens + period, [](double) { return Lift{}; }, true});
    }
    std::vector<MotionPiece> pieces;
    for (const double turn : {-period, 0.0, period}) {
        for (const MotionPiece& piece : whole) {
            const double start = std::max(piece.start + turn, -0.5 * period);
            const double end = std::min(piece.end + turn, 0.5 * period);
            if (end - start <= sliver) continue;
            MotionPiece part{piece.name, start, end, piece.at, piece.constant};
            if (turn != 0.0 && !piece.constant) {
                part.at = [at = piece.at, turn](double alpha) { return at(alpha - turn); };
            }
            pieces.push_back(std::move(part));
        }
    }
    return pieces;
}

}  // namespace lobewright
