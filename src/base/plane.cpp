#include "base/elementary/elementary.h"

#include <lobewright/plane.h>

namespace lobewright {

Vec2 unit(double radians) {
    const auto [sine, cosine] = elementary::sine_and_cosine(radians);
    return {cosine, sine};
}

double direction(Vec2 a) {
    return elementary::atan2(a.y, a.x);
}

double angle_between(Vec2 a, Vec2 b) {
    return direction({dot(a, b), cross(a, b)});
}

}  // namespace lobewright
