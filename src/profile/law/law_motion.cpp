#include "profile/law/law_motion.h"

#include "profile/law/rise_law.h"
#include "profile/motion/motion_piece.h"

#include <algorithm>
#include <numbers>

namespace lobewright::profile {
namespace {

/// First quarter of a ramp: its speed rises as v (1 - cos 4πx) / 2, x = θ / R.
struct RampStart {
    double speed = 0.0;  // v
    double angle = 0.0;  // R

    template <class T>
    T operator()(const T& theta) const {
        const double w = 4.0 * std::numbers::pi / angle;
        return 0.5 * speed * (theta - sine_and_cosine(w * theta).first / w);
    }
};

/// The rest of it, at constant speed.
struct RampRun {
    Ramp ramp;
    double speed = 0.0;

    template <class T>
    T operator()(const T& theta) const {
        return ramp.lift - speed * (ramp.angle.radians() - theta);
    }
};

/// The law from the ramp's end to the peak: r + (L - r) S(x) + v β (x - 6x³ + 8x⁴ - 3x⁵). The last part
/// carries the ramp's speed v on without a step in acceleration, and dies out at the peak with two
/// derivatives.
struct LawSide {
    RiseLaw law;
    double inside = 0.0;      // x of a place between the joints for which this is
    double start = 0.0;       // in θ
    double start_lift = 0.0;  // r
    double rise = 0.0;        // L - r
    double angle = 0.0;       // β
    double speed = 0.0;       // v

    template <class T>
    T operator()(const T& theta) const {
        T x = (theta - start) / angle;
        x.c[0] = kept_within(x.c[0], 0.0, 1.0);
        const T lifted = start_lift + rise * law.rise(x, inside);
        if (speed == 0.0) return lifted;
        return lifted + speed * angle * (x * (1.0 + square(x) * (-6.0 + x * (8.0 - 3.0 * x))));
    }
};

/// One side of the event, `theta` running from the base circle (0) to the start of the dwell.
std::vector<MotionPiece> rising_side(const MotionProfile& profile, LawKind law, CamAngle law_angle,
                                     const std::optional<Ramp>& ramp) {
    LawRise rise{law, profile.powers, 0.0, law_angle.radians(), 0.0, profile.lift, 0.0};
    std::vector<MotionPiece> pieces;
    if (ramp) {
        rise.start = ramp->angle.radians(), rise.from = ramp->lift, rise.speed = ramp_speed(*ramp);
        pieces = ramp_pieces("ramp", *ramp, rise.start);
    }
    for (MotionPiece& piece : rise_pieces("flank", rise))
        pieces.push_back(std::move(piece));
    return pieces;
}

}  // namespace

double ramp_speed(const Ramp& ramp) {
    return ramp.lift / (0.875 * ramp.angle.radians());
}

double ramp_delay(const Ramp& ramp) {
    return 0.125 * ramp.angle.radians();
}

std::vector<MotionPiece> ramp_pieces(const std::string& name, const Ramp& ramp, double end) {
    const double angle = ramp.angle.radians(), speed = ramp_speed(ramp);
    return {piece_of(name, 0.0, 0.25 * angle, RampStart{speed, angle}),
            piece_of(name, 0.25 * angle, end, RampRun{ramp, speed})};
}

std::vector<MotionPiece> rise_pieces(const std::string& name, const LawRise& rise) {
    std::vector<double> joints = law_joints(rise.law);
    joints.push_back(1.0);
    std::vector<MotionPiece> pieces;
    double before = 0.0;
    for (const double joint : joints) {
        const LawSide side{RiseLaw(rise.law, rise.powers),
                           0.5 * (before + joint),
                           rise.start,
                           rise.from,
                           rise.to - rise.from,
                           rise.angle,
                           rise.speed};
        pieces.push_back(piece_of(name, pieces.empty() ? rise.start : pieces.back().end,
                                  rise.start + joint * rise.angle, side));
        before = joint;
    }
    return pieces;
}

std::vector<MotionPiece> law_event(const MotionProfile& profile) {
    const double dwell = profile.dwell_angle.radians(), top = profile.lift;
    const auto opening = rising_side(profile, profile.law, profile.opening_angle, profile.opening_ramp);
    const auto closing =
        rising_side(profile, profile.law_of_closing(), profile.closing_angle, profile.closing_ramp);
    std::vector<MotionPiece> event;
    const double opens = -0.5 * dwell - opening.back().end;
    const auto add = [&event](const char* side, MotionPiece piece) {
        piece.name = side + piece.name;
        event.push_back(std::move(piece));
    };
    for (const MotionPiece& piece : opening)
        add("opening ", recounted(piece, 1.0, opens));
    event.back().end = -0.5 * dwell;
    if (dwell > 0.0) event.push_back(standing_piece("dwell", -0.5 * dwell, 0.5 * dwell, top));
    const double closes = 0.5 * dwell + closing.back().end;
    double from = 0.5 * dwell;
    for (auto piece = closing.rbegin(); piece != closing.rend(); ++piece) {
        add("closing ", recounted(*piece, -1.0, closes));
        event.back().start = from;
        from = event.back().end;
    }
    return event;
}

std::vector<MotionPiece> around_period(const std::vector<MotionPiece>& event, double period) {
    std::vector<MotionPiece> whole = event;
    const double closes = event.back().end, opens = event.front().start;
    if (opens + period - closes > angle_rounding)
        whole.push_back(standing_piece("base circle", closes, opens + period, 0.0));
    std::vector<MotionPiece> pieces;
    for (const double turn : {-period, 0.0, period}) {
        for (const MotionPiece& piece : whole) {
            MotionPiece part = turn == 0.0 || piece.constant ? piece : recounted(piece, 1.0, turn);
            part.start = std::max(piece.start + turn, -0.5 * period);
            part.end = std::min(piece.end + turn, 0.5 * period);
            if (part.end - part.start <= angle_rounding) continue;
            pieces.push_back(std::move(part));
        }
    }
    return pieces;
}

}  // namespace lobewright::profile
