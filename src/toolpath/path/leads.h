/// How a pass comes to the surface and leaves it.
#pragma once

#include "toolpath/path/pass_frame.h"

namespace lobewright::toolpath {

/// Angles of lead-in and lead-out, of travel.
struct LeadAngles {
    ShaftAngle in;
    ShaftAngle out;
    bool on_heel = true;
};

/// Slope of lead-in and lead-out against the surface: 1 in 5, within sensible angles, and no more than the
/// heel has room for. `drop_in` and `drop_out`, mm: from where they begin, or to where they end, over the
/// surface.
LeadAngles lead_angles(const Heel& heel, double surface_radius, double drop_in, double drop_out,
                       ShaftAngle overlap);

/// The first start not before `earliest` whose lead-in and lead-out lie on the heel; in the middle of the
/// least X where it is too short for them. Whole steps of travel, `step` radians each.
long long start_after(const Heel& heel, const LeadAngles& leads, ShaftAngle overlap, ShaftAngle earliest,
                      double step);

/// Where a pass comes to the surface and leaves it, in steps of travel.
struct Start {
    long long at = 0;
    long long in = 0, out = 0;  ///< lengths of lead-in and lead-out
};
/// On the heel, of those that are as wide, that is reached the soonest from the place `now` of travel.
Start soonest_start(const PassFrame& frame, double drop_in, double drop_out, long long now);

/// Parts of a lead where X moves, at most, and where it stands still.
inline constexpr int lead_parts_on_curve = 12;
inline constexpr int lead_parts_on_level = 3;
/// Parts of the shorter leads of a roughing sector.
inline constexpr int lead_parts_of_sector = 4;

/// A lead-in or lead-out: from `drop` mm over the surface down to it, or up.
struct Lead {
    long long from = 0;
    long long to = 0;
    double drop = 0.0;
    bool in = true;
    int parts = lead_parts_on_curve;  ///< at most, for the surface's sake
};

/// A parabola over the lead's length; the knot on the surface, which is the contour's own, is left out.
Knots lead_knots(const PassFrame& frame, const Lead& lead);

/// The lead-in of a sector that starts at `start`: from the air, 1 in 2 at most.
Knots slanting_lead_in(const PassFrame& frame, long long start);

/// The way out of a ring that lies in stock all round, from its last knot to the air over it: the cutter
/// rises and never follows the surface down, for there the ring's beginning may stand proud.
Knots rise_from(const PassFrame& frame, const GridKnot& last, long long to);

}  // namespace lobewright::toolpath
