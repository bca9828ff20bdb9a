/// Directions in the plane across the shaft as angles of their own type, in the shaft's frame or a lobe's.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/plane.h>

#include <cmath>

namespace lobewright::hand {

inline Vec2 unit_towards(ShaftAngle direction) {
    return unit(direction.radians());
}
/// Wrapped.
inline ShaftAngle direction_of(Vec2 a) {
    return ShaftAngle::from_radians(direction(a));
}
/// The same direction in [0, 2π): what is sorted once round.
inline ShaftAngle in_first_turn(ShaftAngle direction) {
    const double radians = direction.radians();
    const double rest = radians - full_turn * std::floor(radians / full_turn);
    return ShaftAngle::from_radians(rest < full_turn ? rest : 0.0);
}

inline constexpr ShaftAngle whole_turn = ShaftAngle::from_radians(full_turn);
inline constexpr ShaftAngle half_turn = ShaftAngle::from_radians(std::numbers::pi);
inline constexpr ShaftAngle quarter_of_a_turn = ShaftAngle::from_radians(std::numbers::pi / 2.0);

}  // namespace lobewright::hand
