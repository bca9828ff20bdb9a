/// A wheel of 4 mm beside the shaft, as the tests' sweep takes it; the shaft counts ccw.
#pragma once

#include "sweep.h"

#include <numbers>

inline sweep::Body wheel_body(double radius) {
    sweep::Body body;
    body.radius = radius;
    body.from = -2.0;
    body.to = 2.0;
    body.tip_from_word = -radius;
    body.facing_per_degree = -std::numbers::pi / 180.0;
    return body;
}
