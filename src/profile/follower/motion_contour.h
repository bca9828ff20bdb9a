/// Motion first: the contour that gives a follower its motion.
#pragma once

#include "profile/follower/lobe_curve.h"

#include <lobewright/contour.h>
#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <vector>

namespace lobewright::profile {

/// What keeps a follower from being moved so.
enum class MotionFault {
    none,
    undercut,  ///< the contour folds back on itself: its radius of curvature would be 0 or less
    overhang,  ///< a ray from the axis would meet the contour more than once
    reach,     ///< the arm, or the line of a translating follower, doesn't reach so far
};

/// The worst of it, and where.
struct MotionJudgement {
    MotionFault fault = MotionFault::none;
    CamAngle at;
    double shortfall =
        0.0;  ///< undercut: the radius of curvature, or for a round follower the speed ds/dβ, mm
};

/// Whether the follower's centre can be where zero lift and this lift want it, so that there is a contact at
/// all.
bool reaches(const Follower& follower, double base_radius, double lift);

/// Whether a contour gives the follower this motion. Checked on every piece: the contour runs forwards (speed
/// > 0) and its outward normal has a part away from the axis (P·N > 0). That is all, also against folding
/// back from afar: P·N > 0 means that its polar direction only grows, hence it winds once round the axis as
/// the centre's curve C does (P_λ = C - λ r N never meets the axis for λ in [0, 1]) and doesn't meet itself;
/// and where an inner parallel curve that is locally regular cut into itself from afar, it would cross
/// itself.
MotionJudgement judge_motion(const std::vector<MotionPiece>& pieces, const Follower& follower,
                             double base_radius, Sense turns);
/// The same of a follower that reaches.
MotionJudgement judge_motion(const LobeCurve& curve);

/// Extremes of the contour that gives a follower its motion. Required: judge_motion finds no fault.
ContourExtremes contour_extremes(const LobeCurve& curve);

/// One ccw round of the contour in pieces named as the motion's, parameter β; `repeat` times round the ring,
/// the period being 360/repeat. Dwells are arcs. Required: judge_motion finds no fault.
std::vector<ContourPiece> motion_contour(const std::vector<MotionPiece>& pieces, const Follower& follower,
                                         double base_radius, Sense turns, int repeat);

/// The pieces of one lobe, repeated round the ring by whole parts of a turn.
std::vector<ContourPiece> round_the_ring(const std::vector<ContourPiece>& lobe, int repeat);

}  // namespace lobewright::profile
