#include "toolpath/path/helix.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// Of a turn: what knots mostly lie short of the places between which the cutter goes along.
constexpr double in_hand = 0.1;
/// Of a block's time: what accelerations may add, in hand.
constexpr double slower = 1.6;

/// mm from place to place.
double gap_of(const AxialSteps& steps) {
    return std::abs(steps.places[1] - steps.places[0]);
}

/// mm of contour by radian of travel, at most.
double greatest_rate(const std::vector<CutterContact>& nodes) {
    constexpr double apart = 1e-3;  // radians: nearer nodes are a kink, where the contact jumps
    double greatest = 0.0;
    std::size_t from = 0;
    for (std::size_t i = 1; i < nodes.size(); ++i) {
        const double turn = std::abs((nodes[i].facing - nodes[from].facing).radians());
        if (turn < apart) continue;
        greatest = std::max(greatest, (nodes[i].arc - nodes[from].arc) / turn);
        from = i;
    }
    return greatest;
}

}  // namespace

Helix helix_over(const Setup& setup, const AxialSteps& steps) {
    const double span = std::abs(steps.places.back() - steps.places.front());
    const double overlap = setup.cut.overlap.radians() / full_turn;
    const double pitch = gap_of(steps) / spacing_share;
    return {steps.places.back(), static_cast<int>(step_above(span / pitch + overlap + in_hand)), pitch};
}

std::optional<HelixTooSlow> helix_too_slow(const Setup& setup, const std::vector<CutterContact>& nodes,
                                           const AxialSteps& steps) {
    const double least = setup.grid.least_linear_feed;
    if (setup.cut.along != CutAlong::helix || steps.places.size() < 2 || least == 0.0) return std::nullopt;
    const double span = std::abs(steps.places.back() - steps.places.front());
    const double pitch = span / helix_over(setup, steps).turns;
    const double speed = pitch / full_turn * setup.cut.surface_feed / greatest_rate(nodes) / slower;
    if (speed >= least) return std::nullopt;
    return HelixTooSlow{speed, least};
}

}  // namespace lobewright::toolpath
