/// The laws, ramps and arcs of the job file written out anew in 113 bits, for derivatives by differences.
/// Nothing here is taken from src/profile.
#pragma once

#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <array>
#include <functional>

namespace precise {

using Real = boost::multiprecision::number<boost::multiprecision::cpp_bin_float_quad::backend_type,
                                           boost::multiprecision::et_off>;

inline const Real pi = boost::math::constants::pi<Real>();

/// Value and three derivatives by central differences of order 2. With h = 3e-8 the differences' own error is
/// about 1e-15 w² of the derivative for waves of angular frequency w, and rounding 4e-12 of the function's
/// size; longer steps trade one for the other.
inline lobewright::Lift differences(const std::function<Real(Real)>& f, double x,
                                    const Real& h = Real(1) / (1 << 25)) {
    const Real at = x;
    const Real a = f(at - 2 * h), b = f(at - h), c = f(at), d = f(at + h), e = f(at + 2 * h);
    return {static_cast<double>(c), static_cast<double>((d - b) / (2 * h)),
            static_cast<double>((d - 2 * c + b) / (h * h)),
            static_cast<double>((e - 2 * d + 2 * b - a) / (2 * h * h * h))};
}

/// The definitions in the handbooks (Norton, Design of Machinery; from memory); the modified laws' numbers in
/// closed form.
inline Real law(lobewright::LawKind kind, const std::vector<int>& powers, const Real& x) {
    using lobewright::LawKind;
    switch (kind) {
        case LawKind::simple_harmonic:
            return (1 - cos(pi * x)) / 2;
        case LawKind::cycloidal:
            return x - sin(2 * pi * x) / (2 * pi);
        case LawKind::polynomial_345:
            return x * x * x * (10 + x * (-15 + 6 * x));
        case LawKind::polynomial_4567:
            return x * x * x * x * (35 + x * (-84 + x * (70 - 20 * x)));
        case LawKind::modified_sine: {
            const Real k = 1 / (4 + pi);
            if (x <= Real(1) / 8) return k * (pi * x - sin(4 * pi * x) / 4);
            if (x <= Real(7) / 8) return k * (2 + pi * x - 9 * sin((4 * pi * x + pi) / 3) / 4);
            return k * (4 + pi * x - sin(4 * pi * x) / 4);
        }
        case LawKind::modified_trapezoid: {
            const Real k = 1 / (2 + pi), wave = sin(4 * pi * x) / (2 * pi);
            if (x <= Real(1) / 8) return k * (2 * x - wave);
            if (x <= Real(3) / 8) return k * (4 * pi * x * x + (2 - pi) * x + pi / 16 - 1 / (2 * pi));
            if (x <= Real(5) / 8) return k * ((2 + 2 * pi) * x + wave - pi / 2);
            return 1 - law(kind, powers, 1 - x);
        }
        case LawKind::parabolic:
            return x <= Real(1) / 2 ? Real(2 * x * x) : Real(1 - 2 * (1 - x) * (1 - x));
        case LawKind::power_polynomial:
            break;
    }
    Real sum = 1;
    for (const int own : powers) {
        Real c = -1;
        for (const int other : powers)
            if (other != own) c = c * other / (other - own);
        sum += c * pow(1 - x, own);
    }
    return sum;
}

inline Real radians(lobewright::CamAngle angle) {
    return angle.radians();
}

/// One side: `before` is the angle from the dwell back to here.
inline Real side(const lobewright::MotionProfile& profile, lobewright::LawKind kind, const Real& law_angle,
                 const std::optional<lobewright::Ramp>& ramp, const Real& before) {
    const Real r = ramp ? Real(ramp->lift) : Real(0), length = ramp ? radians(ramp->angle) : Real(0);
    const Real v = ramp ? r / (Real(7) / 8 * length) : Real(0), lift = profile.lift;
    if (before <= law_angle) {
        const Real x = 1 - before / law_angle;
        return r + (lift - r) * law(kind, profile.powers, x) +
               v * law_angle * (x - 6 * x * x * x + 8 * x * x * x * x - 3 * x * x * x * x * x);
    }
    if (!ramp || before >= law_angle + length) return 0;
    const Real x = 1 - (before - law_angle) / length;
    const Real quarter = Real(1) / 4;
    if (x > quarter) return v * length / 8 + v * length * (x - quarter);
    return v * length * (x / 2 - sin(4 * pi * x) / (8 * pi));
}

inline Real motion(const lobewright::MotionProfile& profile, const Real& alpha) {
    const Real half_dwell = radians(profile.dwell_angle) / 2;
    if (alpha < -half_dwell)
        return side(profile, profile.law, radians(profile.opening_angle), profile.opening_ramp,
                    -half_dwell - alpha);
    if (alpha > half_dwell)
        return side(profile, profile.law_of_closing(), radians(profile.closing_angle), profile.closing_ramp,
                    alpha - half_dwell);
    return profile.lift;
}

struct Point {
    Real x, y;
};
inline Point operator+(const Point& a, const Point& b) {
    return {a.x + b.x, a.y + b.y};
}
inline Point operator-(const Point& a, const Point& b) {
    return {a.x - b.x, a.y - b.y};
}
inline Point turned(const Point& p, const Real& angle) {
    const Real c = cos(angle), s = sin(angle);
    return {c * p.x - s * p.y, s * p.x + c * p.y};
}
inline Real size(const Point& p) {
    return sqrt(p.x * p.x + p.y * p.y);
}

/// Centre of a round follower that stands in direction +x, in space, at a lift.
inline Point centre(const lobewright::Follower& follower, const Real& base, const Real& lift) {
    const Real rp = base + follower.radius, e = follower.offset;
    if (follower.kind != lobewright::FollowerKind::pivoted) return {sqrt(rp * rp - e * e) + lift, e};
    // The pivot is where circles about the axis and about the centre at zero lift meet, on the stated side.
    const Real c = follower.pivot_radius, arm = follower.arm_length;
    const Real x = (c * c + rp * rp - arm * arm) / (2 * rp), y = sqrt(c * c - x * x);
    const bool centre_is_ccw = follower.side == lobewright::Sense::ccw;
    const Point pivot{x, centre_is_ccw ? Real(-y) : y};
    const Point heel{rp, 0};
    // Away from the shaft: clockwise about the pivot where the centre lies ccw of it.
    return pivot + turned(heel - pivot, (centre_is_ccw ? -lift : lift) / arm);
}

/// An arc of a lobe (radius negative: hollow) or a line (radius 0: `centre` is any point on it, `normal` its
/// direction).
struct Arc {
    Point centre;
    Real radius;
    Real normal = 0;
};

/// The lift at which the follower, with the lobe turned so that its direction `beta` faces it, touches the
/// arc's curve: secant steps from `guess` to full precision.
inline Real lift_on(const Arc& arc, const lobewright::Follower& follower, const Real& base, const Real& beta,
                    const Real& guess) {
    const Point c = turned(arc.centre, -beta);
    if (follower.kind == lobewright::FollowerKind::flat) return c.x + arc.radius - base;
    const Point normal = turned({1, 0}, arc.normal - beta);
    const auto gap = [&](const Real& lift) -> Real {
        const Point off = centre(follower, base, lift) - c;
        if (arc.radius == 0) return off.x * normal.x + off.y * normal.y - follower.radius;
        const Real away = size(off);
        return arc.radius > 0 ? Real(away - arc.radius - follower.radius)
                              : Real(-away - arc.radius - follower.radius);
    };
    Real a = guess, b = guess + Real(1e-9), at_a = gap(a), at_b = gap(b);
    while (abs(b - a) > 1e-31 && at_a != at_b) {
        const Real next = b - at_b * (b - a) / (at_b - at_a);
        a = b, at_a = at_b;
        b = next, at_b = gap(b);
    }
    return b;
}

}  // namespace precise
