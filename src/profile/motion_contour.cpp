#include "motion_contour.h"

#include "follower_kinematics.h"
#include "roots.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

/// Whether the follower's centre can be where zero lift and this lift want it.
bool reaches(const Follower& follower, double base_radius, double lift) {
    if (follower.kind == FollowerKind::flat) return true;
    const double rp = base_radius + follower.radius;
    if (follower.kind != FollowerKind::pivoted) return std::abs(follower.offset) < rp;
    const double c = follower.pivot_radius, arm = follower.arm_length;
    if (!(std::abs(c - arm) < rp && rp < c + arm)) return false;
    const RoundFollower round(follower, base_radius);
    return round.heel_angle + lift / arm < std::numbers::pi;
}

double highest_of(const MotionPiece& piece) {
    return -least_of([&piece](double alpha) { return -piece.at(alpha).lift; }, piece.start, piece.end,
                     piece.constant ? 1 : parts_of(piece.end - piece.start))
                .value;
}

}  // namespace

MotionJudgement judge_motion(const std::vector<MotionPiece>& pieces, const Follower& follower,
                             double base_radius, Sense turns) {
    MotionJudgement worst;
    for (const MotionPiece& piece : pieces)
        if (!reaches(follower, base_radius, highest_of(piece)))
            return {MotionFault::reach, CamAngle::from_radians(piece.start), 0.0};
    const Kinematics kinematics(follower, base_radius);
    for (const MotionPiece& piece : pieces) {
        const auto contact = [&](double alpha) {
            return kinematics.touch(-sign_of(turns) * alpha, by_other_angle(piece.at(alpha), turns)).contact;
        };
        const int parts = piece.constant ? 1 : parts_of(piece.end - piece.start);
        const Least speed =
            least_of([&](double alpha) { return contact(alpha).speed; }, piece.start, piece.end, parts);
        if (!(speed.value > 0.0) &&
            !(worst.fault == MotionFault::undercut && speed.value >= worst.shortfall)) {
            worst = {MotionFault::undercut, CamAngle::from_radians(speed.at), speed.value};
        }
        if (worst.fault == MotionFault::undercut) continue;
        const auto outward = [&](double alpha) {
            const ContourPoint p = contact(alpha);
            return dot(p.point, p.normal);
        };
        const Least lean = least_of(outward, piece.start, piece.end, parts);
        if (!(lean.value > 0.0)) worst = {MotionFault::overhang, CamAngle::from_radians(lean.at), lean.value};
    }
    return worst;
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

}  // namespace lobewright
