/// Where on a lobe a cutter touches that comes in along a given direction: the contour seen through its
/// normals.
#pragma once

#include "hand/outline/direction.h"

#include <lobewright/contour.h>

#include <optional>
#include <vector>

namespace lobewright::hand {

/// A turn of the normal between two pieces that is smaller than this is rounding, and no corner: over a metre
/// of surface it would come to a thousandth of a micrometre.
inline constexpr ShaftAngle least_corner = ShaftAngle::from_radians(1e-9);

/// Lobe's frame, mm. For a flat cutter (no radius) a direction is that of the contour's outward normal; for a
/// round one that of the cutter's centre, the contour's outer parallel curve. Corners count as arcs of no
/// radius. Required: the contour is convex for a flat cutter; for a round one, no hollow is tighter than the
/// cutter.
class TouchMap {
  public:
    TouchMap(const Contour& contour, std::optional<double> cutter_radius);

    /// Where the cutter touches the contour. `parameter` counts pieces and corners from the contour's start
    /// and runs on by `period()` every time round.
    struct TouchPoint {
        double parameter = 0.0;
        ContourPoint at;
        /// From the shaft's axis along the direction: to the flat (the support function), or to the round
        /// cutter's centre.
        double distance = 0.0;
    };
    /// Of the cutter that comes in along `direction`.
    [[nodiscard]] TouchPoint touch(ShaftAngle direction) const;
    /// The foot of the perpendicular from `point`, between two parameters of which the second is the larger.
    [[nodiscard]] ContourPoint foot(double from, double to, Vec2 point) const;
    [[nodiscard]] ContourPoint at(double parameter) const;
    [[nodiscard]] double period() const { return static_cast<double>(parts_.size()); }

  private:
    struct ContourPart {
        std::optional<std::size_t> piece;  ///< nothing: a corner, whose parameter is the normal's direction
        double start = 0.0;
        double end = 0.0;
        Vec2 corner;
    };
    struct DirectionNode {
        double parameter;
        ShaftAngle direction;  ///< unwrapped, ascending
    };

    void add_parts();
    void add_nodes();
    [[nodiscard]] ShaftAngle direction_at(double parameter) const;

    std::vector<ContourPiece> pieces_;
    std::optional<double> cutter_radius_;
    std::vector<ContourPart> parts_;
    std::vector<DirectionNode> nodes_;  ///< the last stands where the first does, a turn on
};

}  // namespace lobewright::hand
