#include "hand/dividing/index_grid.h"

#include "base/whole_steps.h"
#include "hand/outline/direction.h"

#include <cmath>

namespace lobewright::hand {

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
    for (const auto& plate : plates) {
        for (const int circle : plate) {
            const long long holes = nearest_step(ratio * circle);
            if (std::abs(ratio * circle - static_cast<double>(holes)) <= hole_tolerance)
                grids.push_back({circle, holes});
        }
    }
    return grids;
}

std::optional<IndexGrid> grid_of_table(ShaftAngle smallest_setting) {
    constexpr long long seconds_in_a_turn = 1296000;
    const long long spaces = nearest_step(whole_turn / smallest_setting);
    const double turns = static_cast<double>(spaces) * (smallest_setting / whole_turn);
    if (spaces > seconds_in_a_turn || std::abs(turns - 1.0) > vernier_tolerance) return std::nullopt;
    return IndexGrid{std::nullopt, spaces};
}

}  // namespace lobewright::hand
