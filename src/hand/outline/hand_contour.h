/// The exact contour that a set of cuts by hand leaves of a round blank: arcs, flats and hollows, no
/// polygons.
///
/// This folder holds the geometry across the shaft that all methods share: what cuts leave, where a cutter
/// touches a design, how far a follower lifts.
///
/// Shaft's frame, mm, radians. Every cut leaves the shaft's axis standing, so that what is left is
/// star-shaped about it: one radius a direction, the least of those that the cuts allow there.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/plane.h>

#include <map>
#include <optional>
#include <vector>

namespace lobewright::hand {

/// One cut, made with the shaft direction `facing` towards the cutter.
struct HandCut {
    enum class Shape {
        swept_arc,  ///< keeps the inside of a disc: the shaft swings about a centre beyond its axis
        flat,       ///< keeps what lies below a plane across `facing`
        round,      ///< keeps the outside of a round cutter that lies along the shaft
    };
    Shape shape = Shape::flat;
    double facing = 0.0;
    double distance =
        0.0;  ///< along `facing` from the shaft's axis: of the disc's or cutter's centre, or of the plane
    double radius = 0.0;  ///< of the disc or the cutter

    [[nodiscard]] Vec2 centre() const { return distance * unit(facing); }
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

/// One stretch of the outline, between two directions from the shaft's axis.
struct OutlinePiece {
    enum class Bend { convex, straight, hollow };
    static constexpr int blank = -1;
    static constexpr int filed = -2;

    Bend bend = Bend::convex;
    int cut = blank;    ///< index of the cut that made it, or `blank` (as it came), or `filed`
    double from = 0.0;  ///< direction of its start; to > from
    double to = 0.0;
    Vec2 start;
    Vec2 end;
    Vec2 centre;  ///< convex, hollow
    double radius = 0.0;
    Vec2 normal;  ///< straight: outward
};

/// Pieces counter-clockwise; each ends where the next starts, the last where the first starts, a turn on.
using Outline = std::vector<OutlinePiece>;

/// What `cuts` leave of a blank of radius `blank_radius`. Any order; two cuts of one direction count once,
/// the deeper. Required: all cuts have one shape and one radius; none goes past the shaft's axis. Nothing
/// where round cuts stand so far apart that one of them leaves a wall with an undercut behind it.
std::optional<Outline> outline_of(const std::vector<HandCut>& cuts, double blank_radius);

/// A nose filed to a circle: its arc between the directions of its joints with the flanks, and the tangents
/// there, which a file that rolls off the nose does not go below.
struct FiledNose {
    double facing = 0.0;  ///< direction of the nose
    double centre = 0.0;  ///< distance of its centre from the shaft's axis
    double radius = 0.0;
    double half_angle = 0.0;  ///< between `facing` and the normal at either joint, < 90 degrees
};
/// Radius that the filed nose allows in a direction; infinite where its tangents don't reach.
double radius_under_file(const FiledNose& nose, double direction);
/// As exit_along, of the filed nose as a whole.
double exit_along(const FiledNose& nose, Vec2 point, Vec2 normal);

/// The outline with that nose filed on it. Required: the outline is of swept cuts.
Outline filed(const Outline& outline, const FiledNose& nose);

/// Radius of the outline in a direction.
double outline_radius(const Outline& outline, double direction);

/// The cuts made so far on one lobe, all touching the same convex design. Where one more cut first meets
/// metal depends on its two neighbours alone: the contours of two such cuts cross once on the side between
/// them, and past that crossing the neighbour leaves nothing that the new cut could reach.
class CutsSoFar {
  public:
    void add(const HandCut& cut);
    /// The nearest cuts on either side of a direction; none, one or two.
    [[nodiscard]] std::vector<HandCut> beside(double facing) const;

  private:
    std::map<double, HandCut> cuts_;  ///< by direction in [0, 2π)
};

/// The outline's point farthest from `centre` (a swept cut's: where the tool first meets metal).
double farthest_from(const Outline& outline, Vec2 centre);
/// How far out a cutter across the shaft stands, coming in along direction `facing`, when it first touches:
/// the distance of its flat end, or of its centre where it is round with `cutter_radius`.
double first_touch(const Outline& outline, double facing, std::optional<double> cutter_radius);

}  // namespace lobewright::hand
