/// The exact contour that a set of cuts by hand leaves of a round blank: arcs, flats and hollows, no
/// polygons.
///
/// This folder holds the geometry across the shaft that all methods share: what cuts leave, where a cutter
/// touches a design, how far a follower lifts.
///
/// Shaft's frame, mm. Every cut leaves the shaft's axis standing, so that what is left is star-shaped about
/// it: one radius a direction, the least of those that the cuts allow there.
#pragma once

#include "hand/outline/hand_cut.h"

#include <optional>
#include <vector>

namespace lobewright::hand {

/// Part of the outline, between two directions from the shaft's axis.
struct OutlinePiece {
    enum class Bend { convex, straight, hollow };
    enum class Maker { cut, blank, file };  ///< blank: as the bar came

    Bend bend = Bend::convex;
    Maker maker = Maker::blank;
    ShaftAngle from;  ///< direction of its start; to > from
    ShaftAngle to;
    Vec2 start;
    Vec2 end;
    Vec2 centre;  ///< convex, hollow
    double radius = 0.0;
    Vec2 normal;  ///< straight: outward
};

/// Pieces counter-clockwise; each ends where the next starts, the last where the first starts, a turn on.
using Outline = std::vector<OutlinePiece>;

/// Two cuts nearer to each other than this are one: at a metre's radius, a thousandth of a micrometre.
inline constexpr ShaftAngle same_direction = ShaftAngle::from_radians(1e-12);

/// What `cuts` leave of a blank of radius `blank_radius`. Any order; two cuts of one direction count once,
/// the deeper. Required: all cuts have one shape and one radius; none goes past the shaft's axis. Nothing
/// where round cuts stand so far apart that one of them leaves a wall with an undercut behind it.
std::optional<Outline> outline_of(const std::vector<HandCut>& cuts, double blank_radius);

/// Radius of the outline in a direction, and of a piece that lies there.
double outline_radius(const Outline& outline, ShaftAngle direction);
double piece_radius(const OutlinePiece& piece, ShaftAngle direction);

/// Puts a piece at the end of an outline, unless it has no length.
void add_piece(Outline& outline, const OutlinePiece& piece);

/// The outline's point farthest from `centre` (a swept cut's: where the tool first meets metal).
double farthest_from(const Outline& outline, Vec2 centre);
/// How far out a cutter across the shaft stands, coming in along direction `facing`, when it first touches:
/// the distance of its flat end, or of its centre where it is round with `cutter_radius`.
double first_touch(const Outline& outline, ShaftAngle facing, std::optional<double> cutter_radius);

}  // namespace lobewright::hand
