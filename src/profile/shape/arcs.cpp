#include "profile/shape/arcs.h"

#include "base/elementary/elementary.h"
#include "profile/follower/follower_kinematics.h"
#include "profile/motion/motion_piece.h"

#include <cmath>
#include <numbers>

namespace lobewright::profile {
namespace {

/// A curve of constant curvature by its arc length.
struct ArcPath {
    Vec2 start;
    Vec2 start_normal;
    double curvature = 0.0;

    [[nodiscard]] ContourPoint at(double way) const {
        const double half = 0.5 * curvature * way;
        const double chord = half == 0.0 ? way : way * elementary::sin(half) / half;
        const Vec2 half_turn = unit(half);
        const Vec2 chord_normal = turned(start_normal, half_turn);
        return {start + chord * quarter_turn(chord_normal), turned(chord_normal, half_turn), curvature, 1.0};
    }
};

/// Length of the arc of that curvature over a chord.
double arc_length(double chord, double curvature) {
    const double sine = 0.5 * chord * curvature;
    return sine == 0.0 ? chord : chord * elementary::asin(sine) / sine;
}

/// Where the flank on the +y side meets the nose.
Vec2 joint_point(const ArcShape& shape) {
    return Vec2{shape.nose_centre(), 0.0} + shape.nose * unit(shape.joint_normal());
}

double made_straight(double curvature, double peak) {
    return std::abs(curvature) * peak < flattest_curvature ? 0.0 : curvature;
}

}  // namespace

double ArcShape::joint_normal() const {
    const Vec2 along = (1.0 - base * curvature) * unit(half_action) + Vec2{curvature * nose_centre(), 0.0};
    return curvature == 0.0 ? half_action : direction(along);
}

bool ArcShape::exists() const {
    if (!(half_action > 0.0 && half_action < std::numbers::pi)) return false;
    if (!(nose > 0.0 && nose < peak && curvature * nose < 1.0 && curvature * base < 1.0)) return false;
    const double psi = joint_normal();
    return psi > 0.0 && nose_centre() * elementary::cos(psi) + nose > 0.0;
}

ArcShape shape_from_flank(double base, double peak, double half_action, double curvature) {
    const double b = base, h = peak, c = elementary::cos(half_action), k = made_straight(curvature, peak);
    const double nose =
        (2.0 * (b - h * c) - k * (b * b + h * h - 2.0 * b * h * c)) / (2.0 * (1.0 - c + k * (b * c - h)));
    return {b, h, half_action, k, nose};
}

ArcShape shape_from_nose(double base, double peak, double half_action, double nose) {
    const double b = base, n = nose, d = peak - n, c = elementary::cos(half_action);
    const double k = 2.0 * (n - b + d * c) / (n * n - b * b - d * d + 2.0 * d * b * c);
    return {b, peak, half_action, made_straight(k, peak), nose};
}

FlankRange flank_range(double base, double peak, double half_action) {
    const double b = base, h = peak, c = elementary::cos(half_action);
    const double most_convex = 2.0 * (b - h * c) / (b * b + h * h - 2.0 * b * h * c);
    // The more hollow the flank, the more the contour leans over where it meets the nose: halve the way to
    // the limit.
    constexpr double beside_the_limit = 1e-9;  // of 1 / h: where the nose has shrunk to 1e-9 of h
    constexpr double beyond_any = 1e6;         // of 1 / h: a hollow of a millionth of h holds no flank
    constexpr double last_bits = 1e-15;        // of 1 / h
    constexpr int most_halvings = 80;          // from beyond_any down to last_bits
    double works = most_convex - beside_the_limit / h, fails = -beyond_any / h;
    if (!shape_from_flank(b, h, half_action, works).exists()) return {most_convex, most_convex};
    for (int i = 0; i < most_halvings && works - fails > last_bits / h; ++i) {
        const double middle = 0.5 * (works + fails);
        (shape_from_flank(b, h, half_action, middle).exists() ? works : fails) = middle;
    }
    return {works, most_convex};
}

std::vector<ContourPiece> arc_contour(const ArcShape& shape, Sense turns, double pitch) {
    const double a = shape.half_action, psi = shape.joint_normal();
    const Vec2 joint = joint_point(shape), tangent = shape.base * unit(a);
    const double flank = arc_length(length(tangent - joint), shape.curvature);
    const auto piece = [](const char* name, Vec2 start, double normal, double curvature, double end) {
        const ArcPath path{start, unit(normal), curvature};
        return ContourPiece{name, 0.0, end, [path](double way) { return path.at(way); }, true};
    };
    const bool ccw = turns == Sense::ccw;
    std::vector<ContourPiece> pieces{
        piece(ccw ? "closing flank" : "opening flank", {tangent.x, -tangent.y}, -a, shape.curvature, flank),
        piece("nose", {joint.x, -joint.y}, -psi, 1.0 / shape.nose, 2.0 * psi * shape.nose),
        piece(ccw ? "opening flank" : "closing flank", joint, psi, shape.curvature, flank)};
    const double heel = pitch - 2.0 * a;
    if (heel > angle_rounding)
        pieces.push_back(piece("base circle", tangent, a, 1.0 / shape.base, heel * shape.base));
    return pieces;
}

namespace {

/// A round follower on one arc of the lobe. k: the arc's signed curvature; kc: k × its centre (lobe's frame),
/// which stays finite for a straight flank, where it is minus the normal. Contact keeps |K - c| = 1/k + r in
/// the facing frame, that is |m| = 1 + r k for m = k K - q, q = e^{-iβ} kc: m is the normal at the contact,
/// times 1 + r k.
struct ArcRide {
    RoundFollower follower;
    double k = 0.0;
    Vec2 kc;
    std::optional<double> tangent;  ///< a flank: direction of its tangent point on the base circle
    double base = 0.0;

    /// T: double, or a series.
    template <class T>
    [[nodiscard]] T lift(const T& beta) const {
        return follower.pivoted() ? pivoted_lift(beta) : translating_lift(beta);
    }
    template <class T>
    [[nodiscard]] T operator()(const T& beta) const {
        return lift(beta);
    }

    /// Lift by the closed form, its derivatives from those of |m|² = const: m·z₁ = 0, k|z₁|² + m·z₂ = 0,
    /// 3k z₁·z₂ + m·z₃ = 0, where z_n are the derivatives of the centre's curve e^{iβ} K by β, times e^{-iβ}.
    [[nodiscard]] Lift at(double beta) const {
        const double l = lift(beta);
        const Centre c = follower.at(l);
        const Vec2 m = normal(beta, c);
        const double across = dot(m, c.k1);
        const double l1 = -dot(m, quarter_turn(c.k)) / across;
        const Vec2 z1 = quarter_turn(c.k) + l1 * c.k1;
        const Vec2 known2 = -c.k + 2.0 * l1 * quarter_turn(c.k1) + l1 * l1 * c.k2;
        const double l2 = -(k * dot(z1, z1) + dot(m, known2)) / across;
        const Vec2 z2 = known2 + l2 * c.k1;
        const Vec2 known3 = -quarter_turn(c.k) - 3.0 * l1 * c.k1 +
                            3.0 * quarter_turn(l1 * l1 * c.k2 + l2 * c.k1) + l1 * l1 * l1 * c.k3 +
                            3.0 * l1 * l2 * c.k2;
        const double l3 = -(3.0 * k * dot(z1, z2) + dot(m, known3)) / across;
        return {l, l1, l2, l3};
    }

    /// Whether the follower keeps to the arc and its pressure angle stays below 90 degrees all the way. The
    /// square of (1 + rk) times that angle's cosine is, translating, (1 + rk)² - (ke - q_y)², and pivoted,
    /// with g = P·q, |p|² - N² / L² for |p|² = k²|P|² + |q|² - 2kg and N = n + g (see `pivoted_lift`): q_y
    /// and g are waves of β, and the latter is concave in g: least at an end of what g goes through.
    [[nodiscard]] bool never_jams(const Interval& beta) const {
        const Interval turn = direction(kc) - beta;
        const double reach = 1.0 + follower.radius * k;
        if (!follower.pivoted()) {
            const Interval side = k * follower.offset - length(kc) * sine_cosine(turn).sine;
            return -reach < side.low && side.high < reach;
        }
        const Vec2 pivot = follower.pivot;
        const Interval g = length(pivot) * length(kc) * sine_cosine(turn - direction(pivot)).cosine;
        const auto room = [&](double at) {
            const double sides = k * k * dot(pivot, pivot) + dot(kc, kc) - 2.0 * k * at;
            return sides - square((triangle() + at) / follower.arm);
        };
        return room(g.low) > 0.0 && room(g.high) > 0.0;
    }

  private:
    template <class T>
    struct Point {
        T x, y;
    };
    template <class T>
    [[nodiscard]] Point<T> facing_centre(const T& beta) const {
        const auto [sine, cosine] = sine_and_cosine(beta);
        return {kc.x * cosine + kc.y * sine, kc.y * cosine - kc.x * sine};
    }
    [[nodiscard]] Vec2 normal(double beta, const Centre& c) const {
        const auto [x, y] = facing_centre(beta);
        return k * c.k - Vec2{x, y};
    }

    /// k (A + l) = q_x + sqrt((1 + rk)² - (ke - q_y)²), A = sqrt(Rp² - e²). For a flank in the form that
    /// loses no digits however flat it is: l = 4 (1 - bk) Rp sin²(Δ/2) / (sqrt(..) + kA - q_x), Δ the turn
    /// from the tangent point.
    template <class T>
    [[nodiscard]] T translating_lift(const T& beta) const {
        using std::sqrt;
        const auto [qx, qy] = facing_centre(beta);
        const double reach = 1.0 + follower.radius * k;
        const T side = k * follower.offset - qy;
        const T root = sqrt((reach - side) * (reach + side));
        if (!tangent) return (qx + root) / k - follower.heel_height;
        const double lag = elementary::atan2(follower.offset, follower.heel_height) - *tangent;
        const T sine = sine_and_cosine(0.5 * (beta + lag)).first;
        return 4.0 * (1.0 - base * k) * follower.heel_distance * square(sine) /
               (root + k * follower.heel_height - qx);
    }

    /// The triangle of pivot, arc's centre and follower's centre: with p = k P - q,
    /// cos(θ - arg p) = ((1 - |q|²) / 2k + r + P·q + k (r² - L² - |P|²) / 2) / (L |p|).
    template <class T>
    [[nodiscard]] T pivoted_lift(const T& beta) const {
        using std::sqrt;
        const auto [qx, qy] = facing_centre(beta);
        const Vec2 pivot = follower.pivot;
        const T px = k * pivot.x - qx, py = k * pivot.y - qy;
        const double arm = follower.arm;
        const T cosine = (triangle() + (pivot.x * qx + pivot.y * qy)) / (arm * sqrt(square(px) + square(py)));
        const T theta = direction(px, py) + follower.side * arccosine(cosine);
        return arm * follower.side * near_zero(follower.arm_direction - theta);
    }
    /// n, what doesn't change with β of L |p| cos(θ - arg p).
    [[nodiscard]] double triangle() const {
        const double r = follower.radius, arm = follower.arm;
        const double power = tangent ? base * (1.0 - 0.5 * base * k) : (1.0 - dot(kc, kc)) / (2.0 * k);
        return power + r + 0.5 * k * (r * r - arm * arm - dot(follower.pivot, follower.pivot));
    }
};

/// From stretches in β, ccw, to pieces in time: β = -s·α.
std::vector<MotionPiece> in_time(std::vector<MotionPiece> ccw, Sense turns) {
    for (MotionPiece& stretch : ccw)
        stretch = recounted(stretch, -sign_of(turns), 0.0);
    if (turns == Sense::ccw) std::reverse(ccw.begin(), ccw.end());
    return ccw;
}

/// A flat follower lifts by the support function: on a flank (F - b)(1 - cos of the turn from its tangent
/// point), on the nose L - d (1 - cos β).
struct FlatRide {
    double rest = 0.0;   // the lift at
    double from = 0.0;   // this β
    double reach = 0.0;  // F - b, or -d

    template <class T>
    T operator()(const T& beta) const {
        return rest + 2.0 * reach * square(sine_and_cosine(0.5 * (beta - from)).first);
    }
};

MotionPiece on_arc(MotionPiece piece, double curvature) {
    piece.curvature = curvature;
    return piece;
}

std::vector<MotionPiece> flat_stretches(const ArcShape& shape, const char* low_name, const char* high_name) {
    const double a = shape.half_action, psi = shape.joint_normal(),
                 reach = 1.0 / shape.curvature - shape.base;
    const FlatRide low{0.0, -a, reach}, nose{shape.peak - shape.base, 0.0, -shape.nose_centre()},
        high{0.0, a, reach};
    return {on_arc(piece_of(low_name, -a, -psi, low), shape.curvature),
            on_arc(piece_of("nose", -psi, psi, nose), 1.0 / shape.nose),
            on_arc(piece_of(high_name, psi, a, high), shape.curvature)};
}

MotionPiece round_stretch(const char* name, const ArcRide& ride, double start, double end) {
    MotionPiece piece = piece_of(name, start, end, ride);
    piece.at = [ride](double beta) { return ride.at(beta); };
    return on_arc(std::move(piece), ride.k);
}

std::optional<std::vector<MotionPiece>> round_stretches(const ArcShape& shape, const Follower& follower,
                                                        const char* low_name, const char* high_name) {
    const double a = shape.half_action, k = shape.curvature, b = shape.base;
    const RoundFollower round(follower, b);
    const Vec2 joint = joint_point(shape) + round.radius * unit(shape.joint_normal());
    const Vec2 at_joint = round.at(round.lift_at_distance(length(joint))).k, at_heel = round.at(0.0).k;
    const double heel = direction(at_heel), lag = direction(at_joint), way = direction(joint);
    const ArcRide low{round, k, (b * k - 1.0) * unit(-a), -a, b},
        high{round, k, (b * k - 1.0) * unit(a), a, b};
    const ArcRide nose{round, 1.0 / shape.nose, {shape.nose_centre() / shape.nose, 0.0}, std::nullopt, b};
    const double opens = -a - heel, low_joint = -way - lag, high_joint = way - lag, closes = a - heel;
    if (!(opens < low_joint && low_joint < high_joint && high_joint < closes)) return std::nullopt;
    if (!low.never_jams({opens, low_joint}) || !nose.never_jams({low_joint, high_joint}) ||
        !high.never_jams({high_joint, closes}))
        return std::nullopt;
    return std::vector<MotionPiece>{round_stretch(low_name, low, opens, low_joint),
                                    round_stretch("nose", nose, low_joint, high_joint),
                                    round_stretch(high_name, high, high_joint, closes)};
}

}  // namespace

std::optional<std::vector<MotionPiece>> arc_event(const ArcShape& shape, const Follower& follower,
                                                  Sense turns) {
    const char* low = turns == Sense::ccw ? "closing flank" : "opening flank";
    const char* high = turns == Sense::ccw ? "opening flank" : "closing flank";
    if (follower.kind == FollowerKind::flat) {
        if (!(shape.curvature > 0.0)) return std::nullopt;
        return in_time(flat_stretches(shape, low, high), turns);
    }
    if (!(1.0 + follower.radius * shape.curvature > 0.0)) return std::nullopt;
    const auto stretches = round_stretches(shape, follower, low, high);
    if (!stretches) return std::nullopt;
    return in_time(*stretches, turns);
}

}  // namespace lobewright::profile
