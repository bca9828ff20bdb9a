/// Where on a lobe a cutter touches that comes in along a given direction: the contour seen through its
/// normals.
#pragma once

#include <lobewright/contour.h>

#include <optional>
#include <vector>

namespace lobewright::hand {

/// Lobe's frame, mm, radians. For a flat cutter (no radius) a direction is that of the contour's outward
/// normal; for a round one that of the cutter's centre, the contour's outer parallel curve. Corners count as
/// arcs of no radius. Required: the contour is convex for a flat cutter; for a round one, no hollow is
/// tighter than the cutter.
class TouchMap {
  public:
    TouchMap(const Contour& contour, std::optional<double> cutter_radius);

    /// A place on the contour. `way` counts stretches (pieces and corners) from the contour's start and runs
    /// on by `turn()` every time round.
    struct Spot {
        double way = 0.0;
        ContourPoint at;
    };
    /// Where the cutter touches when it comes in along `direction`.
    [[nodiscard]] Spot touch(double direction) const;
    /// From the shaft's axis along that direction: to the flat (the support function), or to the round
    /// cutter's centre.
    [[nodiscard]] double reach(double direction) const;
    /// The place between two others (way ascending) whose normal passes through `point`.
    [[nodiscard]] Spot foot(double from, double to, Vec2 point) const;
    [[nodiscard]] ContourPoint at(double way) const;
    [[nodiscard]] double turn() const { return static_cast<double>(stretches_.size()); }

  private:
    struct Stretch {
        std::optional<std::size_t> piece;  ///< nothing: a corner, whose parameter is the normal's direction
        double start = 0.0;
        double end = 0.0;
        Vec2 corner;
    };
    struct Node {
        double way;
        double direction;  ///< unwrapped, ascending
    };

    [[nodiscard]] double direction_at(double way) const;

    std::vector<ContourPiece> pieces_;
    std::optional<double> cutter_radius_;
    std::vector<Stretch> stretches_;
    std::vector<Node> nodes_;  ///< the last stands where the first does, a turn on
};

}  // namespace lobewright::hand
