/// Chains of arcs: their centres, and where they are put on the paper.
#pragma once

#include <lobewright/drawing.h>

namespace lobewright::drawing {

struct ArcOfBulge {
    Vec2 centre;
    double radius = 0.0;
    double start = 0.0;  ///< direction of the first point from the centre, radians
    double turn = 0.0;   ///< radians, positive counter-clockwise

    [[nodiscard]] bool spans(double towards) const;  ///< whether it passes that direction from its centre
};
/// A step of a smaller bulge is straight: of a chord of a metre, the arc stands out by half a micrometre.
inline constexpr double least_bulge = 1e-9;
/// Required: the points differ, and the bulge is no smaller than `least_bulge`.
ArcOfBulge arc_of(Vec2 from, Vec2 to, double bulge);

struct Extents {
    Vec2 low{1e9, 1e9}, high{-1e9, -1e9};

    void cover(Vec2 point);
};
/// Of a chain's lines and arcs, not of its points alone.
Extents extents_of(const DrawnChain& chain);

/// Turned by the angle of that unit vector, enlarged, moved.
DrawnChain placed(DrawnChain chain, Vec2 turned_by, double scale, Vec2 shift = {});

}  // namespace lobewright::drawing
