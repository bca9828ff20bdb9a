/// What is left in one plane, compared with the design along the normal.
///
/// How nothing over `resolution` hides. (1) The fixed rays stand so close that between two of them no
/// section, standing still, has room for a dip deeper than 0.03 µm (see Design::rays); sharp ends of
/// a flat, which have, get rays at both ends of every step that comes near the design. (2) So do the
/// points where every step begins and ends to own the surface: the ridges between steps lie between
/// such rays. (3) From values and slopes at two neighbouring rays, the tangents' crossing foretells the
/// trough or the ridge between them; wherever it lies more than 0.02 µm beyond the extremes found so far, a
/// ray is put there, until none does; on the base circle, which is to be cut to one radius, beyond the
/// extremes found on it.
#pragma once

#include "proof/judge/design_rays.h"
#include "proof/judge/surface_around.h"
#include "proof/sweep/move_marks.h"
#include "proof/sweep/plane_sweep.h"

#include <limits>

namespace lobewright::proof {

inline constexpr double hidden_dip = 3e-5;      ///< mm, by (1)
inline constexpr double hidden_extreme = 2e-5;  ///< mm, by (3)
inline constexpr double resolution = hidden_dip + hidden_extreme;

struct PlaneExtreme {
    double along_normal = 0.0;  ///< mm
    double psi = 0.0;           ///< radians
    int move = -1;              ///< index of the move that cut there; -1: the blank stands
};

/// What the base circle is cut to, off the design; nothing seen of it: least > greatest.
struct HeelRange {
    double least = std::numeric_limits<double>::infinity();
    double greatest = -std::numeric_limits<double>::infinity();
};

struct PlaneVerdict {
    PlaneExtreme deepest, proudest;
    HeelRange heel;
    bool cut = false;     ///< some move took stock off
    double missed = 0.0;  ///< mm: what the refinement left open, mostly below hidden_extreme
    int rays = 0;
};

/// Marks the moves that finish the surface: what they leave lies near the design. `around` takes every ray.
PlaneVerdict judge_plane(const PlaneSweep& sweep, const Design& design, const std::vector<DesignRay>& rays,
                         double tolerance, MoveMarks& finishes, SurfaceAround& around);

/// How far what is left stands off the design on one ray, along the normal that goes through it: the distance
/// from the circle that touches the design on the ray and has its curvature κ. Off by δ along the ray, leant
/// by ψ, that is d with d (2 + κ d) = δ (2 cos ψ + κ δ), which way along the ray times cos ψ, δ cos ψ, misses
/// by κ (δ sin ψ)² / 2. What the change of curvature adds is κ' (δ sin ψ)³ / 6.
double deviation(const Left& left, const DesignRay& ray);

}  // namespace lobewright::proof
