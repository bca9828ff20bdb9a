#include "hand/finish/ridges.h"

#include "base/elementary/elementary.h"
#include "hand/outline/direction.h"

#include <algorithm>
#include <cmath>

namespace lobewright::hand {
namespace {

/// The angle at the surface's centre between a cut's centre at `distance` and a ridge's tip at `tip` from it,
/// where the tip is `reach` from the cut's centre.
ShaftAngle half_step(double distance, double tip, double reach) {
    const double cosine = (distance * distance + tip * tip - reach * reach) / (2.0 * distance * tip);
    return ShaftAngle::from_radians(elementary::acos(std::clamp(cosine, -1.0, 1.0)));
}

}  // namespace

double ridge_between_flats(double radius, ShaftAngle step) {
    return radius * (1.0 / elementary::cos(step.radians() / 2.0) - 1.0);
}

double ridge_between_rounds(double radius, double cutter_radius, ShaftAngle step) {
    const double centre = radius + cutter_radius;
    const Vec2 axis = centre * unit_towards(step / 2.0);
    return axis.x - std::sqrt(cutter_radius * cutter_radius - axis.y * axis.y) - radius;
}

double ridge_between_arcs(double radius, double swept_radius, ShaftAngle step) {
    const double offset = swept_radius - radius;
    const Vec2 axis = offset * unit_towards(step / 2.0);
    return std::sqrt(swept_radius * swept_radius - axis.y * axis.y) - axis.x - radius;
}

ShaftAngle step_for_flats(double radius, double height) {
    return ShaftAngle::from_radians(2.0 * elementary::acos(radius / (radius + height)));
}

ShaftAngle step_for_rounds(double radius, double cutter_radius, double height) {
    const double meet = 2.0 * elementary::asin(cutter_radius / (radius + cutter_radius));
    const double tip =
        std::sqrt(radius * radius + 2.0 * radius * cutter_radius);  // of the highest ridge, where they meet
    if (radius + height >= tip) return ShaftAngle::from_radians(meet);
    return 2.0 * half_step(radius + cutter_radius, radius + height, cutter_radius);
}

ShaftAngle step_for_arcs(double radius, double swept_radius, double height) {
    const double offset = swept_radius - radius;
    if (2.0 * offset <= height) return whole_turn;
    return 2.0 * (half_turn - half_step(offset, radius + height, swept_radius));
}

}  // namespace lobewright::hand
