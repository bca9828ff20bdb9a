/// Moves and sections made in code, for tests of the inside of the proof.
#pragma once

#include "proof/section/moving_section.h"
#include "proof/sweep/shaft_moves.h"

#include <lobewright/angle.h>

#include <random>
#include <vector>

namespace inside {

using namespace lobewright;
using namespace lobewright::proof;

/// A disc whose axis lies along the shaft.
inline CutterPart disc(double radius, double width) {
    CutterPart part;
    part.name = "cutter";
    part.radius = radius, part.first = -0.5 * width, part.last = 0.5 * width;
    return part;
}
/// A mill that stands on the shaft, its end rounded by `corner`.
inline CutterPart upright(double radius, double corner) {
    CutterPart part = disc(radius, 2.0 * radius);
    part.shape = CutterPart::Shape::upright, part.corner = corner;
    return part;
}

/// A chain of feeds through places, each of a second.
inline ShaftMoves chain(const std::vector<ShaftPlace>& places) {
    ShaftMoves moves;
    moves.begin(places.front());
    for (std::size_t i = 1; i < places.size(); ++i)
        moves.add(places[i], false, true, static_cast<int>(i), 1.0);
    return moves;
}

/// The radius of the blank that they cut, mm.
inline constexpr double stock = 10.0;

/// Three turns round a shaft, nowhere twice the same, the radius up and down.
inline ShaftMoves wandering(unsigned seed, int moves) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> height(6.0, 10.5);
    std::vector<ShaftPlace> places;
    for (int i = 0; i <= moves; ++i)
        places.push_back({3.0 * full_turn * i / moves, height(random), 20.0});
    return chain(places);
}

/// The directions that tests ask: all round, none of them on a whole degree.
inline std::vector<double> directions(int count) {
    std::vector<double> all;
    for (int i = 0; i < count; ++i)
        all.push_back(full_turn * (i + 0.37) / count);
    return all;
}

}  // namespace inside
