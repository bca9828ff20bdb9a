/// The planes of two axes in which arcs run.
#pragma once

#include "proof/reader/code_table.h"

namespace lobewright::proof {

/// Letter of the arc's centre word for an axis letter; 0 for axes that have none.
inline char centre_letter(char axis) {
    if (axis == 'X') return 'I';
    if (axis == 'Y') return 'J';
    return axis == 'Z' ? 'K' : '\0';
}

/// The plane that two axis letters span, and whether `second` comes a quarter turn ccw after `first` in it
/// (G17: X, Y; G18: Z, X; G19: Y, Z).
struct PlaneOf {
    Act plane = Act::unknown;
    bool in_order = false;
};
inline PlaneOf plane_of(char first, char second) {
    const auto pair = [&](char a, char b) {
        return (first == a && second == b) || (first == b && second == a);
    };
    if (pair('X', 'Y')) return {Act::plane_xy, first == 'X'};
    if (pair('Z', 'X')) return {Act::plane_zx, first == 'Z'};
    if (pair('Y', 'Z')) return {Act::plane_yz, first == 'Y'};
    return {};
}

}  // namespace lobewright::proof
