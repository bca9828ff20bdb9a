/// One cut by hand, whichever way it is made: what it takes off, and where two of them cross.
#pragma once

#include "hand/outline/direction.h"

#include <optional>

namespace lobewright::hand {

/// One cut, made with the shaft direction `facing` towards the cutter; mm.
struct HandCut {
    enum class Shape {
        swept_arc,  ///< keeps the inside of a disc: the shaft swings about a centre beyond its axis
        flat,       ///< keeps what lies below a plane across `facing`
        round,      ///< keeps the outside of a round cutter that lies along the shaft
    };
    Shape shape = Shape::flat;
    ShaftAngle facing;
    double distance =
        0.0;  ///< along `facing` from the shaft's axis: of the disc's or cutter's centre, or of the plane
    double radius = 0.0;  ///< of the disc or the cutter

    [[nodiscard]] Vec2 centre() const { return distance * unit_towards(facing); }
};

/// The cut of an offset fixture: the lathe's axis lies `offset` from the shaft's, away from the cutter, and
/// the tool stands `swept_radius` from the lathe's axis. It only touches a circle of radius swept_radius -
/// offset about the shaft.
HandCut swept_cut(ShaftAngle facing, double offset, double swept_radius);
HandCut flat_cut(ShaftAngle facing, double distance);
HandCut round_cut(ShaftAngle facing, double centre_distance, double cutter_radius);

/// Where two neighbouring cuts of one shape and radius cross: counter-clockwise of the first, clockwise of
/// the second. Nothing where they don't (flats half a turn apart, round cuts wider apart than their cutter).
std::optional<Vec2> corner_between(const HandCut& first, const HandCut& second);

/// How far from `point` along the unit vector `normal` the material that this cut allows ends: negative where
/// the point itself has been cut away. Infinite where the line never meets the cut.
double exit_along(const HandCut& cut, Vec2 point, Vec2 normal);
/// Likewise of the blank's outside.
double exit_of_blank(double blank_radius, Vec2 point, Vec2 normal);

/// Distance from the shaft's axis in a direction that the cut allows; infinite where it does not reach.
double radius_under(const HandCut& cut, ShaftAngle direction);

}  // namespace lobewright::hand
