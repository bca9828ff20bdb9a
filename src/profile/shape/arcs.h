/// Lobes of circular arcs: base circle, two flanks, nose. Geometry, contour, and the motion that they give a
/// follower.
///
/// A lobe has two sides, alike in base circle, peak and nose; each is a half of a shape that is its own
/// mirror image. Lobe's frame, nose centre on +x. With base radius b, H = b + lift, half action angle a,
/// signed curvature k of the flanks (1 / flank radius; 0 straight, negative hollow) and nose radius n, d = H
/// - n.
#pragma once

#include <lobewright/contour.h>
#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <optional>
#include <vector>

namespace lobewright::profile {

struct ArcShape {
    double base = 0.0;
    double peak = 0.0;         ///< H
    double half_action = 0.0;  ///< a, radians
    double curvature = 0.0;    ///< k, 1/mm
    double nose = 0.0;         ///< n

    [[nodiscard]] double nose_centre() const { return peak - nose; }  ///< d
    /// Direction of the normal where flank and nose meet, of the flank on the +y side.
    [[nodiscard]] double joint_normal() const;
    /// 0 < n < H, flank and nose meet between tangent point and peak, and every ray meets the contour once.
    [[nodiscard]] bool exists() const;
};

/// The nose that goes with a flank, and the flank that goes with a nose. In terms of k, so that a straight
/// flank is no special case: n = (2(b - H cos a) - k(b² + H² - 2bH cos a)) / (2(1 - cos a + k(b cos a - H))),
/// and back k = 2(n - b + d cos a) / (n² - b² - d² + 2db cos a). The shape need not exist. A flank flatter
/// than 1e12 H is straight.
inline constexpr double flattest_curvature = 1e-12;  ///< of 1 / H: over a lobe of 100 mm it bows by 1e-11 mm
ArcShape shape_from_flank(double base, double peak, double half_action, double curvature);
ArcShape shape_from_nose(double base, double peak, double half_action, double nose);
/// The half action angle that goes with both: cos a = (2(b - n) + k(n² - b² - d²)) / (2d(1 - bk)), from the
/// distance of flank's and nose's centres; 0 or π where that is no cosine, so that the shape doesn't exist.
ArcShape shape_from_both(double base, double peak, double curvature, double nose);

/// Flank curvatures between which the shape exists (both ends left out): `most_hollow` < `most_convex`. Noses
/// shrink to nothing at the convex end. Nothing where no flank works.
struct FlankRange {
    double most_hollow = 0.0;
    double most_convex = 0.0;
};
FlankRange flank_range(double base, double peak, double half_action);

struct ArcLobe {
    ArcShape opening, closing;

    [[nodiscard]] double base() const { return opening.base; }
    [[nodiscard]] double action() const { return opening.half_action + closing.half_action; }
    [[nodiscard]] bool exists() const { return opening.exists() && closing.exists(); }
};

/// The lobe between flanks that differ whose sides' half actions sum to `action`: its nose is solved for.
/// Where none does, one that doesn't exist.
ArcLobe lobe_between(double base, double peak, double action, double opening_curvature,
                     double closing_curvature);

/// Flank, nose, flank, base circle, ccw from the -y side's tangent point, parameter arc length from each
/// piece's start; which flank opens is a matter of the shaft's sense. On a ring of lobes the base circle ends
/// where the next lobe's flank starts. Required: exists(), and the lobe has room in its pitch (full_turn /
/// repeat, radians).
std::vector<ContourPiece> arc_contour(const ArcLobe& lobe, Sense turns, double pitch);

/// The event that the follower makes of it: opening flank, nose, closing flank in time's order, the lift
/// counted from a base circle that is cut deeper than the lobe's by `deeper` mm. Nothing where the follower
/// can't ride it: a flat one on a straight or hollow flank, a radius that doesn't enter the hollow, a
/// follower that jams (a pressure angle of 90 degrees). Lift and derivatives are closed forms. Required:
/// exists().
std::optional<std::vector<MotionPiece>> arc_event(const ArcLobe& lobe, const Follower& follower, Sense turns,
                                                  double deeper = 0.0);

}  // namespace lobewright::profile
