#include "proof/sweep/cuts_in_order.h"

#include "proof/sweep/sectors.h"

#include <lobewright/angle.h>

#include <algorithm>
#include <array>

namespace lobewright::proof {
namespace {

/// By the sector that a step faces from: a step whose least height is more than this times what is left on a
/// ray of the sector `home` takes nothing off it.
std::array<double, sectors_of_turn> reach_from(unsigned home) {
    std::array<double, sectors_of_turn> shares;
    shares.fill(-nowhere);
    for (int k = -sector_reach; k <= sector_reach; ++k)
        shares[(home + static_cast<unsigned>(sectors_of_turn + k)) % sectors_of_turn] = gap_cosine(k);
    return shares;
}

}  // namespace

CutsInOrder::CutsInOrder(const PlaneSweep& plane) : plane_(plane) {
    const std::vector<SweepStep>& steps = plane.steps();
    places_.reserve(steps.size());
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (steps[i].move >= 0)
            places_.push_back({steps[i].least_low(), steps[i].move, static_cast<int>(i), steps[i].bucket});
    }
    std::sort(places_.begin(), places_.end(), [](const Place& a, const Place& b) {
        return a.move != b.move ? a.move < b.move : a.step < b.step;  // one order on every system
    });
}

std::vector<CutOnRay> CutsInOrder::on(double psi) const {
    const std::array<double, sectors_of_turn> reach = reach_from(sector_of(psi));
    const Vec2 ray = unit(psi);
    std::vector<CutOnRay> cuts;
    double left = plane_.standing(psi);
    for (const Place& place : places_) {
        if (place.least_low >= left * reach[place.sector]) continue;
        const SweepStep& step = plane_.steps()[static_cast<std::size_t>(place.step)];
        if (!may_reach_below(plane_.section(step), step, ray, left)) continue;
        const double radius = least_entry(plane_.section(step), step, ray).radius;
        if (radius >= left) continue;
        left = radius;
        if (cuts.empty() || cuts.back().move != place.move) cuts.push_back({place.move});
        cuts.back().radius = radius;
        cuts.back().beside = wrapped_radians(direction(step.from) - psi);
    }
    return cuts;
}

}  // namespace lobewright::proof
