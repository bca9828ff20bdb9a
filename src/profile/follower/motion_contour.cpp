#include "profile/follower/motion_contour.h"

#include "profile/follower/follower_kinematics.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::profile {
bool reaches(const Follower& follower, double base_radius, double lift) {
    if (follower.has_flat_face()) return face_reaches(follower, base_radius, lift);
    const double rp = base_radius + follower.radius;
    if (follower.kind != FollowerKind::pivoted) return std::abs(follower.offset) < rp;
    const double c = follower.pivot_radius, arm = follower.arm_length;
    if (!(std::abs(c - arm) < rp && rp < c + arm)) return false;
    const RoundFollower round(follower, base_radius);
    return round.heel_angle + lift / arm < std::numbers::pi;
}

MotionJudgement judge_motion(const std::vector<MotionPiece>& pieces, const Follower& follower,
                             double base_radius, Sense turns) {
    const FigureAt highest = highest_lift(pieces);
    if (!reaches(follower, base_radius, highest.value)) return {MotionFault::reach, *highest.at, 0.0};
    return judge_motion(LobeCurve(pieces, follower, base_radius, turns));
}

MotionJudgement judge_motion(const LobeCurve& curve) {
    using Contact = const LobeCurve::Contact&;
    const FigureAt speed = curve.least([](Contact c) { return c.speed(); });
    if (!(speed.value > 0.0)) return {MotionFault::undercut, speed.at.value_or(CamAngle{}), speed.value};
    // A flat face's normal must turn with the lobe, or the face would cut into what it has touched.
    const FigureAt turn =
        curve.least([](Contact c) { return c.has_flat_face() ? c.turn() : LobeCurve::Figure(1.0); });
    if (!(turn.value > 0.0)) return {MotionFault::undercut, turn.at.value_or(CamAngle{}), 0.0};
    const FigureAt lever = curve.least([](Contact c) { return c.lever(); });
    if (!(lever.value > 0.0)) return {MotionFault::overhang, lever.at.value_or(CamAngle{}), lever.value};
    const FigureAt lean = curve.least([](Contact c) { return c.outward(); });
    if (!(lean.value > 0.0)) return {MotionFault::overhang, lean.at.value_or(CamAngle{}), lean.value};
    return {};
}

ContourExtremes contour_extremes(const LobeCurve& curve) {
    using Contact = const LobeCurve::Contact&;
    const auto curvature = [](Contact c) { return c.curvature(); };
    ContourExtremes extremes;
    extremes.largest_radius = std::sqrt(curve.largest([](Contact c) { return c.distance_squared(); }).value);
    extremes.smallest_convex_radius = 1.0 / curve.largest(curvature).value;
    const double least = curve.least(curvature).value;
    if (least < 0.0) extremes.smallest_hollow_radius = -1.0 / least;
    return extremes;
}

std::vector<ContourPiece> motion_contour(const std::vector<MotionPiece>& pieces, const Follower& follower,
                                         double base_radius, Sense turns, int repeat) {
    const Kinematics kinematics(follower, base_radius);
    const double s = -sign_of(turns);
    std::vector<ContourPiece> lobe;
    for (const MotionPiece& piece : pieces) {
        const double one = s * piece.start, other = s * piece.end;
        lobe.push_back({piece.name, std::min(one, other), std::max(one, other),
                        [kinematics, at = piece.at, s, turns](double beta) {
                            return kinematics.touch(beta, by_other_angle(at(s * beta), turns)).contact;
                        },
                        piece.constant});
    }
    if (turns == Sense::ccw) std::reverse(lobe.begin(), lobe.end());
    // The base circle that the period's seam cut in two is one arc of the lobe.
    if (lobe.size() > 2 && lobe.front().circular && lobe.back().circular &&
        lobe.front().name == lobe.back().name) {
        lobe.back().end += lobe.front().end - lobe.front().start;
        lobe.erase(lobe.begin());
    }
    return round_the_ring(lobe, repeat);
}

std::vector<ContourPiece> round_the_ring(const std::vector<ContourPiece>& lobe, int repeat) {
    std::vector<ContourPiece> ring = lobe;
    for (int i = 1; i < repeat; ++i) {
        const Vec2 by = unit(full_turn * i / repeat);
        for (const ContourPiece& piece : lobe) {
            ring.push_back(piece);
            ring.back().at = [at = piece.at, by](double t) {
                ContourPoint p = at(t);
                p.point = turned(p.point, by), p.normal = turned(p.normal, by);
                return p;
            };
        }
    }
    return ring;
}

}  // namespace lobewright::profile
