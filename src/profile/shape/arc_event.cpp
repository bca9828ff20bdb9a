#include "base/elementary/elementary.h"
#include "profile/follower/follower_kinematics.h"
#include "profile/motion/motion_piece.h"
#include "profile/shape/arc_sides.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

/// A round follower on one arc of the lobe. k: the arc's signed curvature; kc: k × its centre (lobe's frame),
/// which stays finite for a straight flank, where it is minus the normal. Contact keeps |K - c| = 1/k + r in
/// the facing frame, that is |m| = 1 + r k for m = k K - q, q = e^{-iβ} kc: m is the normal at the contact,
/// times 1 + r k.
struct ArcRide {
    RoundFollower follower;
    RoundFollower on_springs;  ///< the same over the circle that the flanks spring from
    double k = 0.0;
    Vec2 kc;
    std::optional<double> tangent;  ///< a flank: direction of its tangent point on that circle
    double base = 0.0;              ///< that circle's radius

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
    /// from the tangent point, A and Rp over the circle of b; and what a deeper base circle adds to it.
    template <class T>
    [[nodiscard]] T translating_lift(const T& beta) const {
        using std::sqrt;
        const auto [qx, qy] = facing_centre(beta);
        const double reach = 1.0 + follower.radius * k;
        const T side = k * follower.offset - qy;
        const T root = sqrt((reach - side) * (reach + side));
        if (!tangent) return (qx + root) / k - follower.heel_height;
        const double height = on_springs.heel_height;
        const double lag = elementary::atan2(follower.offset, height) - *tangent;
        const T sine = sine_and_cosine(0.5 * (beta + lag)).first;
        return (height - follower.heel_height) +
               4.0 * (1.0 - base * k) * on_springs.heel_distance * square(sine) / (root + k * height - qx);
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

/// A translating face lifts by the support function: on a flank (F - b)(1 - cos of the normal's turn from its
/// tangent point), on the nose L - d (1 - cos of its direction); a tilted face by that over the tilt's
/// cosine.
struct FlatRide {
    double rest = 0.0;   // the height over the base circle at
    double from = 0.0;   // this β
    double reach = 0.0;  // F - b, or -d
    double tilt_cosine = 1.0;

    template <class T>
    T operator()(const T& beta) const {
        return (rest + 2.0 * reach * square(sine_and_cosine(0.5 * (beta - from)).first)) / tilt_cosine;
    }
};

/// A face on an arm: it touches an arc of radius F about C where V = P - e^{-iβ} C has F + q along the face's
/// normal, so that ψ = arg V + σ acos((F + q) / |V|).
struct ArmFaceRide {
    FlatFace face;
    Vec2 centre;
    double radius = 0.0;

    template <class T>
    T operator()(const T& beta) const {
        using std::sqrt;
        const auto [sine, cosine] = sine_and_cosine(beta);
        const T x = face.pivot.x - (centre.x * cosine + centre.y * sine);
        const T y = face.pivot.y - (centre.y * cosine - centre.x * sine);
        const T turn =
            direction(x, y) + face.side * arccosine((radius + face.depth) / sqrt(square(x) + square(y)));
        return -face.side * face.arm * near_zero(turn);
    }
};

MotionPiece on_arc(MotionPiece piece, double curvature) {
    piece.curvature = curvature;
    return piece;
}

std::vector<MotionPiece> flat_stretches(const PlacedSides& sides, const FlatFace& face, double deeper) {
    const auto [low, high, low_name, high_name] = sides;
    const double tilt = face.tilt, cosine = face.tilt_cosine;
    const auto flank = [&](const ArcShape& side, double from) {
        return FlatRide{deeper, from - tilt, 1.0 / side.curvature - side.base, cosine};
    };
    const FlatRide nose{deeper + low.peak - low.base, -tilt, -low.nose_centre(), cosine};
    const double opens = -low.half_action - tilt, low_joint = -low.joint_normal() - tilt;
    const double high_joint = high.joint_normal() - tilt, closes = high.half_action - tilt;
    return {on_arc(piece_of(low_name, opens, low_joint, flank(low, -low.half_action)), low.curvature),
            on_arc(piece_of("nose", low_joint, high_joint, nose), 1.0 / low.nose),
            on_arc(piece_of(high_name, high_joint, closes, flank(high, high.half_action)), high.curvature)};
}

/// Whether a face on an arm never jams on the lobe. Its lever is sqrt(c² - (h + q)²) ± h', and that is as
/// much as its normal turns: it is above 0 where X + qN, the contact put further out by the depth, lies
/// nearer to the axis than the pivot. Along flank and nose that point goes out to H + q, where the nose isn't
/// smaller than -q; else it lies within H + |q|.
bool never_jams(const ArcShape& side, const FlatFace& face) {
    const double farthest = face.depth >= -side.nose ? side.peak + face.depth : side.peak - face.depth;
    return farthest < length(face.pivot);
}

/// On an arm; nothing where the face gets no hold of the lobe.
std::optional<std::vector<MotionPiece>> arm_face_stretches(const PlacedSides& sides, const FlatFace& face) {
    const auto [low, high, low_name, high_name] = sides;
    if (!never_jams(low, face)) return std::nullopt;
    // β at which the face touches where the contour's normal has that direction and the contour that support.
    const auto beta_at = [&](double normal, double support) {
        return normal - face.turn_by_lift() * face.lift_at_height(support);
    };
    const auto support_at_joint = [](const ArcShape& side) {
        return side.nose_centre() * elementary::cos(side.joint_normal()) + side.nose;
    };
    const auto flank = [&](const ArcShape& side, double tangent) {
        return ArmFaceRide{face, (side.base - 1.0 / side.curvature) * unit(tangent), 1.0 / side.curvature};
    };
    const double opens = beta_at(-low.half_action, low.base), closes = beta_at(high.half_action, high.base);
    const double low_joint = beta_at(-low.joint_normal(), support_at_joint(low));
    const double high_joint = beta_at(high.joint_normal(), support_at_joint(high));
    if (!(opens < low_joint && low_joint < high_joint && high_joint < closes)) return std::nullopt;
    const ArmFaceRide nose{face, {low.nose_centre(), 0.0}, low.nose};
    return std::vector<MotionPiece>{
        on_arc(piece_of(low_name, opens, low_joint, flank(low, -low.half_action)), low.curvature),
        on_arc(piece_of("nose", low_joint, high_joint, nose), 1.0 / low.nose),
        on_arc(piece_of(high_name, high_joint, closes, flank(high, high.half_action)), high.curvature)};
}

MotionPiece round_stretch(const char* name, const ArcRide& ride, double start, double end) {
    MotionPiece piece = piece_of(name, start, end, ride);
    piece.at = [ride](double beta) { return ride.at(beta); };
    return on_arc(std::move(piece), ride.k);
}

/// A round follower's ride over both sides; β at its joints.
struct RoundRide {
    RoundFollower round, on_springs;

    /// Direction of the follower's centre in the facing frame when it lies so far from the axis.
    [[nodiscard]] double lag(double distance) const {
        return direction(round.at(round.lift_at_distance(distance)).k);
    }
    /// The follower's centre where it touches flank and nose of a side.
    [[nodiscard]] Vec2 at_joint(const ArcShape& side) const {
        return joint_point(side) + round.radius * unit(side.joint_normal());
    }
    [[nodiscard]] ArcRide flank(const ArcShape& side, double tangent) const {
        const double b = side.base, k = side.curvature;
        return {round, on_springs, k, (b * k - 1.0) * unit(tangent), tangent, b};
    }
};

std::optional<std::vector<MotionPiece>> round_stretches(const PlacedSides& sides, const Follower& follower,
                                                        double deeper) {
    const auto [low, high, low_name, high_name] = sides;
    const RoundRide ride{RoundFollower(follower, low.base - deeper), RoundFollower(follower, low.base)};
    const double heel = ride.lag(ride.on_springs.heel_distance);
    const Vec2 low_joint_at = mirrored(ride.at_joint(low)), high_joint_at = ride.at_joint(high);
    const ArcRide low_flank = ride.flank(low, -low.half_action),
                  high_flank = ride.flank(high, high.half_action);
    const ArcRide nose{ride.round,   ride.on_springs, 1.0 / low.nose, {low.nose_centre() / low.nose, 0.0},
                       std::nullopt, low.base};
    const double opens = -low.half_action - heel, closes = high.half_action - heel;
    const double low_joint = direction(low_joint_at) - ride.lag(length(low_joint_at));
    const double high_joint = direction(high_joint_at) - ride.lag(length(high_joint_at));
    if (!(opens < low_joint && low_joint < high_joint && high_joint < closes)) return std::nullopt;
    if (!low_flank.never_jams({opens, low_joint}) || !nose.never_jams({low_joint, high_joint}) ||
        !high_flank.never_jams({high_joint, closes}))
        return std::nullopt;
    return std::vector<MotionPiece>{round_stretch(low_name, low_flank, opens, low_joint),
                                    round_stretch("nose", nose, low_joint, high_joint),
                                    round_stretch(high_name, high_flank, high_joint, closes)};
}

/// Of 1 / H: a flank flatter than this is straight to a face on an arm, whose closed form takes the
/// difference of lengths of its radius; with this one it keeps nine digits.
constexpr double flattest_under_arm = 1e-6;

/// Whether the follower gets into a side's flank at all.
bool enters(const ArcShape& side, const Follower& follower) {
    if (follower.has_flat_face()) {
        const bool on_arm = follower.kind == FollowerKind::pivoted;
        return side.curvature > (on_arm ? flattest_under_arm / side.peak : 0.0);
    }
    return 1.0 + follower.radius * side.curvature > 0.0;
}

}  // namespace

std::optional<std::vector<MotionPiece>> arc_event(const ArcLobe& lobe, const Follower& follower, Sense turns,
                                                  double deeper) {
    if (!enters(lobe.opening, follower) || !enters(lobe.closing, follower)) return std::nullopt;
    const PlacedSides sides = placed(lobe, turns);
    const auto face = flat_part(follower, lobe.base() - deeper);
    if (face && !face->on_arm()) return in_time(flat_stretches(sides, *face, deeper), turns);
    const auto stretches = face ? arm_face_stretches(sides, *face) : round_stretches(sides, follower, deeper);
    if (!stretches) return std::nullopt;
    return in_time(*stretches, turns);
}

}  // namespace lobewright::profile
