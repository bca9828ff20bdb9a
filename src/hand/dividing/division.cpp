#include "hand/dividing/division.h"

#include "base/whole_steps.h"
#include "hand/dividing/grid_facets.h"
#include "hand/finish/ridges.h"
#include "hand/outline/direction.h"

#include <algorithm>
#include <limits>
#include <set>

namespace lobewright::hand {
namespace {

/// Splits the angle between two facets until no ridge is above `highest`; false where the grid is too coarse
/// for that, or where it takes more than `most` places.
bool refine(GridFacets& lobe, long long from, long long to, double highest, std::size_t most,
            std::vector<long long>& places) {
    if (lobe.ridge_within(from, to, highest)) return true;
    if ((to - from) % 2 != 0 || places.size() >= most) return false;
    const long long middle = (from + to) / 2;
    if (!refine(lobe, from, middle, highest, most, places)) return false;
    places.push_back(middle);
    return refine(lobe, middle, to, highest, most, places);
}

/// Facets from an even step of `step` spaces, halved where the ridges ask for it; empty where halving does
/// not do it, or takes more than `most`.
std::vector<long long> refined(GridFacets& lobe, long long step, double highest, std::size_t most) {
    std::vector<long long> places;
    for (long long from = 0; from < lobe.grid().spaces; from += step) {
        places.push_back(from);
        if (!refine(lobe, from, from + step, highest, most, places) || places.size() > most) return {};
    }
    return places;
}

std::size_t count_of(const FacetPlaces& facets) {
    std::size_t count = 0;
    for (const auto& places : facets)
        count += places.size();
    return count;
}

/// Every lobe's facets from that even step; empty where one lobe has none, or all together more than `most`.
FacetPlaces all_refined(std::vector<GridFacets>& lobes, long long step, double highest, std::size_t most) {
    FacetPlaces facets;
    for (GridFacets& lobe : lobes) {
        facets.push_back(refined(lobe, step, highest, most - count_of(facets)));
        if (facets.back().empty()) return {};
    }
    return facets;
}

/// Even steps to start from: whole parts of a turn, none wider than `widest`, the widest first.
std::vector<long long> even_steps(const IndexGrid& grid, ShaftAngle widest) {
    std::vector<long long> steps;
    for (long long step = 1; step <= grid.spaces / 8; ++step)
        if (grid.spaces % step == 0 && grid.angle(step) <= widest + same_setting) steps.push_back(step);
    std::reverse(steps.begin(), steps.end());
    return steps;
}

std::vector<GridFacets> on_grid(const std::vector<FacetedLobe>& lobes, const IndexGrid& grid) {
    std::vector<GridFacets> facets;
    for (const FacetedLobe& lobe : lobes)
        facets.emplace_back(lobe, grid);
    return facets;
}

/// Every lobe's facets on this grid for a wanted ridge, by the even step that needs the fewest; empty if none
/// does with `most` in all.
FacetPlaces facets_for_ridge(const std::vector<FacetedLobe>& lobes, const IndexGrid& grid, ShaftAngle widest,
                             double highest, std::size_t most) {
    std::vector<GridFacets> facets_on_grid = on_grid(lobes, grid);
    FacetPlaces best;
    int tries_left = 12;
    for (const long long step : even_steps(grid, widest)) {
        if (static_cast<std::size_t>(grid.spaces / step) * lobes.size() > most)
            break;  // finer ones have more
        FacetPlaces facets = all_refined(facets_on_grid, step, highest, most);
        const bool complete = !facets.empty();
        if (complete) most = count_of(facets) - 1, best = std::move(facets);
        if (--tries_left == 0 || (complete && grid.angle(step) < widest / 4.0)) break;
    }
    return best;
}

/// Multiples of the step, once round from zero.
std::vector<ShaftAngle> multiples_of(ShaftAngle step) {
    std::vector<ShaftAngle> angles;
    const long long count = step_above(whole_turn / step);
    for (long long i = 0; i < count; ++i)
        angles.push_back(step * static_cast<double>(i));
    return angles;
}

/// The furthest that a multiple of the step lies from its nearest place.
ShaftAngle worst_residual(const IndexGrid& grid, ShaftAngle step) {
    ShaftAngle worst;
    for (const ShaftAngle angle : multiples_of(step)) {
        const ShaftAngle off = wrapped(grid.angle(grid.nearest(angle)) - angle);
        worst = std::max({worst, off, -off});
    }
    return worst;
}

IndexGrid grid_for_step(const std::vector<IndexGrid>& grids, ShaftAngle step) {
    IndexGrid best = grids.front();
    ShaftAngle least = worst_residual(best, step);
    for (const IndexGrid& grid : grids) {
        const ShaftAngle here = worst_residual(grid, step);
        if (here < least - same_setting) best = grid, least = here;
    }
    return best;
}

/// The grid itself where it has every multiple of the step; else, on a head and for a step that goes into a
/// turn, the one by compound indexing, where there is one.
IndexGrid exact_grid(const HandMethod& method, const IndexGrid& grid, ShaftAngle step) {
    if (method.kind != HandKind::dividing_head || worst_residual(grid, step) <= same_setting) return grid;
    const long long divisions = nearest_step(whole_turn / step);
    const ShaftAngle off = whole_turn / static_cast<double>(divisions) - step;
    if (std::max(off, -off) > same_setting) return grid;
    return compound_grid(method.ratio, method.plates, divisions).value_or(grid);
}

std::vector<long long> places_for_step(const IndexGrid& grid, ShaftAngle step) {
    std::vector<long long> places;
    for (const ShaftAngle angle : multiples_of(step))
        places.push_back(grid.nearest(angle));
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
    return places;
}

/// The widest step that keeps the ridges of every heel within `highest`.
ShaftAngle widest_step(const std::vector<FacetedLobe>& lobes, std::optional<double> cutter_radius,
                       double highest) {
    ShaftAngle widest = whole_turn;
    for (const FacetedLobe& each : lobes) {
        const double radius = each.lobe().base_radius;
        widest = std::min(widest, cutter_radius ? step_for_rounds(radius, *cutter_radius, highest)
                                                : step_for_flats(radius, highest));
    }
    return widest;
}

/// The ridge that the finest grid leaves, to say what can be had; nothing where its cuts don't meet.
std::optional<double> finest_ridge(const std::vector<FacetedLobe>& lobes, const IndexGrid& grid) {
    double highest = 0.0;
    for (const FacetedLobe& lobe : lobes) {
        for (long long place = 0; place < grid.spaces; ++place) {
            const auto ridge = lobe.ridge(grid, place, place + 1);
            if (!ridge) return std::nullopt;
            highest = std::max(highest, *ridge);
        }
    }
    return highest;
}

GridTooCoarse too_coarse(const std::vector<FacetedLobe>& lobes, const std::vector<IndexGrid>& grids,
                         double cusp) {
    const auto finest =
        std::max_element(grids.begin(), grids.end(),
                         [](const IndexGrid& a, const IndexGrid& b) { return a.spaces < b.spaces; });
    return {cusp, finest->angle(1), finest_ridge(lobes, *finest)};
}

std::optional<Division> divide_for_ridge(const std::vector<FacetedLobe>& lobes,
                                         const std::vector<IndexGrid>& grids, ShaftAngle widest,
                                         double highest) {
    std::optional<Division> best;
    std::size_t most = std::numeric_limits<std::size_t>::max();
    for (const IndexGrid& grid : grids) {
        FacetPlaces facets = facets_for_ridge(lobes, grid, widest, highest, most);
        if (facets.empty()) continue;
        most = count_of(facets) - 1;
        best = Division{grid, std::move(facets)};
    }
    return best;
}

/// Even steps are worth so many times the fewest facets: the sector arms are then set once for a lobe.
constexpr double worth_even_steps = 1.25;

/// Facets of a lobe an even step apart; empty where some ridge is too high.
std::vector<long long> even_places(GridFacets& lobe, long long step, double highest) {
    std::vector<long long> places;
    for (long long from = 0; from < lobe.grid().spaces; from += step) {
        if (!lobe.ridge_within(from, from + step, highest)) return {};
        places.push_back(from);
    }
    return places;
}

/// Gives every lobe even steps that has them at little cost.
void set_arms_once(const std::vector<FacetedLobe>& lobes, double highest, Division& division) {
    std::vector<GridFacets> on_its_grid = on_grid(lobes, division.grid);
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        auto& places = division.facets[i];
        const double most = worth_even_steps * static_cast<double>(places.size());
        const auto steps = even_steps(division.grid, whole_turn);
        for (const long long step : steps) {
            const long long cuts = division.grid.spaces / step;
            if (static_cast<double>(cuts) > most) break;
            auto even = even_places(on_its_grid[i], step, highest);
            if (even.empty()) continue;
            places = std::move(even);
            break;
        }
    }
}

}  // namespace

long long Division::place_after(std::size_t lobe, std::size_t index) const {
    const auto& places = facets[lobe];
    return index + 1 < places.size() ? places[index + 1] : places.front() + grid.spaces;
}

std::vector<long long> Division::advances() const {
    std::set<long long> steps;
    for (std::size_t lobe = 0; lobe < facets.size(); ++lobe)
        for (std::size_t i = 0; i < facets[lobe].size(); ++i)
            steps.insert(place_after(lobe, i) - facets[lobe][i]);
    return {steps.begin(), steps.end()};
}

std::optional<Division> divide(const std::vector<FacetedLobe>& lobes, const HandMethod& method,
                               std::optional<double> cutter_radius, const std::vector<IndexGrid>& grids,
                               Obstacles& obstacles) {
    const ShaftAngle step = method.step ? *method.step : widest_step(lobes, cutter_radius, *method.cusp);
    if (step < finest_step) {
        obstacles.push_back(TooManyFacets{whole_turn / step});
        return std::nullopt;
    }
    if (method.step) {
        const IndexGrid grid = exact_grid(method, grid_for_step(grids, step), step);
        return Division{grid, FacetPlaces(lobes.size(), places_for_step(grid, step))};
    }
    auto division = divide_for_ridge(lobes, grids, step, *method.cusp);
    if (!division) {
        obstacles.push_back(too_coarse(lobes, grids, *method.cusp));
        return std::nullopt;
    }
    set_arms_once(lobes, *method.cusp, *division);
    return division;
}

}  // namespace lobewright::hand
