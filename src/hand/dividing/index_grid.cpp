#include "hand/dividing/index_grid.h"

#include "base/whole_steps.h"
#include "hand/outline/direction.h"

#include <cmath>
#include <cstdlib>
#include <limits>

namespace lobewright::hand {
namespace {

/// a/m + b/n = turns/divisions in whole holes, with the fewest; b of either sign, less than a turn.
std::optional<CompoundMove> compound_move(long long turns, long long divisions, int circle, int other) {
    std::optional<CompoundMove> best;
    const long long m = circle, n = other;
    for (long long b = 1 - n; b < n; ++b) {
        const long long numerator = turns * m * n - b * m * divisions;  // of a, over n * divisions
        if (b == 0 || numerator <= 0 || numerator % (n * divisions) != 0) continue;
        const CompoundMove move{circle, static_cast<int>(numerator / (n * divisions)), other,
                                static_cast<int>(b)};
        if (!best || move.holes + std::abs(move.plate_holes) < best->holes + std::abs(best->plate_holes))
            best = move;
    }
    return best;
}

}  // namespace

ShaftAngle IndexGrid::angle(long long space) const {
    return ShaftAngle::from_degrees(360.0 * static_cast<double>(space) / static_cast<double>(spaces));
}

long long IndexGrid::nearest(ShaftAngle angle) const {
    return nearest_step(angle / whole_turn * static_cast<double>(spaces)) % spaces;
}

std::optional<CrankSetting> IndexGrid::crank(long long space) const {
    if (!circle) return std::nullopt;
    return CrankSetting{static_cast<int>(space / *circle), static_cast<int>(space % *circle), *circle};
}

std::vector<IndexGrid> grids_of_plates(double ratio, const std::vector<std::vector<int>>& plates) {
    std::vector<IndexGrid> grids;
    for (std::size_t plate = 0; plate < plates.size(); ++plate) {
        for (const int circle : plates[plate]) {
            const long long holes = nearest_step(ratio * circle);
            if (std::abs(ratio * circle - static_cast<double>(holes)) <= hole_tolerance)
                grids.push_back({circle, holes, static_cast<int>(plate) + 1});
        }
    }
    return grids;
}

std::optional<IndexGrid> compound_grid(double ratio, const std::vector<std::vector<int>>& plates,
                                       long long divisions) {
    const long long turns = nearest_step(ratio);
    if (std::abs(ratio - static_cast<double>(turns)) > hole_tolerance) return std::nullopt;
    std::optional<IndexGrid> best;
    int fewest = std::numeric_limits<int>::max();
    for (std::size_t plate = 0; plate < plates.size(); ++plate) {
        for (const int circle : plates[plate]) {
            for (const int other : plates[plate]) {
                const auto move =
                    circle == other ? std::nullopt : compound_move(turns, divisions, circle, other);
                if (!move || move->holes + std::abs(move->plate_holes) >= fewest) continue;
                fewest = move->holes + std::abs(move->plate_holes);
                best = IndexGrid{std::nullopt, divisions, static_cast<int>(plate) + 1, move};
            }
        }
    }
    return best;
}

std::optional<IndexGrid> grid_of_table(ShaftAngle smallest_setting) {
    constexpr long long seconds_in_a_turn = 1296000;
    const long long spaces = nearest_step(whole_turn / smallest_setting);
    const double turns = static_cast<double>(spaces) * (smallest_setting / whole_turn);
    if (spaces > seconds_in_a_turn || std::abs(turns - 1.0) > vernier_tolerance) return std::nullopt;
    return IndexGrid{std::nullopt, spaces};
}

}  // namespace lobewright::hand
