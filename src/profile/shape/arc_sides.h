/// The sides of a lobe of arcs by their place in the lobe's frame.
#pragma once

#include "profile/shape/arcs.h"

#include <lobewright/plane.h>

namespace lobewright::profile {

/// low below the x axis, high above it.
struct PlacedSides {
    const ArcShape& low;
    const ArcShape& high;
    const char* low_name;
    const char* high_name;
};
/// Required: `lobe` outlives them.
PlacedSides placed(const ArcLobe& lobe, Sense turns);

/// Where a side's flank, were it above the x axis, meets the nose.
Vec2 joint_point(const ArcShape& side);

/// On the other side of the x axis.
inline Vec2 mirrored(Vec2 point) {
    return {point.x, -point.y};
}

}  // namespace lobewright::profile
