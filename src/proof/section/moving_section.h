/// Where a ray from the shaft's axis enters a section that moves straight in (shaft angle, tip height): the
/// heart of the sweep.
///
/// With the section facing φ, the ray at ψ lies at δ = ψ - φ from its u. For an arc of radius r whose centre
/// stands at height c and offset s (A = c cos δ + s sin δ, B = s cos δ - c sin δ) the ray enters at
///
///     g(φ) = A - sqrt(r² - B²),
///
/// for a flat at height T at g(φ) = T / cos δ. With the boundary's outward normal n at the entry and the
/// ray's direction e, moving the section by dφ moves the entry by dg/dφ = (v·n) / (e·n), v the speed of the
/// section's points in the shaft's frame by φ; turning the ray moves it by dg/dψ = -g (e'·n) / (e·n). The
/// least of g over a block is at an end, or where dg/dφ = 0: a safeguarded secant finds it to 1e-9 mm.
#pragma once

#include "proof/section/cutter_section.h"

#include <lobewright/plane.h>

#include <limits>

namespace lobewright::proof {

inline constexpr double nowhere = std::numeric_limits<double>::infinity();

/// A straight step of motion of one section: φ from where it faces `from` over `span`, the section's
/// lowest point from `low` by `slope` per radian. Spans are short (a degree), so that g has one minimum in
/// them. There are as many as a program has blocks: kept small.
struct SweepStep {
    Vec2 from;                  ///< unit vector of u at the beginning
    double span = 0.0;          ///< radians, >= 0
    double low = 0.0;           ///< mm from the shaft's axis
    double slope = 0.0;         ///< mm per radian
    int move = 0;               ///< index of the program's move
    unsigned section : 22 = 0;  ///< index of its section
    unsigned bucket : 9 = 0;    ///< see PlaneSweep
    unsigned hidden : 1 = 0;    ///< likewise

    [[nodiscard]] double low_at_end() const { return low + slope * span; }
    [[nodiscard]] double least_low() const { return slope < 0.0 ? low_at_end() : low; }
    [[nodiscard]] Vec2 to() const;  ///< unit vector of u at the end
};

/// A ray's entry: distance from the axis (`nowhere` for a miss) and its slope by the ray's angle, mm/rad.
struct Entry {
    double radius = nowhere;
    double slope = 0.0;
};

/// The least entry of the ray with direction `ray` over the step.
Entry least_entry(const PlaneSection& section, const SweepStep& step, Vec2 ray);

/// Whether the step can reach below `radius` on the ray, or on another within `around` (radians) of it:
/// false is certain, true is not.
bool may_reach_below(const PlaneSection& section, const SweepStep& step, Vec2 ray, double radius,
                     double around = 0.0);

/// The section's point, in the shaft's frame, that the motion leaves on the swept surface at `way` (0 to
/// span): where its boundary's normal is square to its velocity. For a step that doesn't turn: its lowest
/// point.
Vec2 trace_point(const PlaneSection& section, const SweepStep& step, double way);

}  // namespace lobewright::proof
