/// The angles that a dividing head or a rotary table can be set to, and the head's crank for them.
///
/// Every setting is counted from zero, never from the setting before it, so that what one setting is out by
/// is never carried to the next.
#pragma once

#include <lobewright/job.h>

#include <optional>
#include <vector>

namespace lobewright::hand {

/// Where the crank stands, counted from the head's zero. Required: 0 <= hole < circle.
struct CrankSetting {
    int turns = 0;
    int hole = 0;
    int circle = 1;
    bool operator==(const CrankSetting&) const = default;
};

/// Two settings nearer to each other than this are one: 30000 times the rounding of a whole turn, and a
/// hundred-thousandth of a second is nothing to any head.
inline constexpr ShaftAngle same_setting = ShaftAngle::from_degrees(1e-9);

/// Whole spaces of one circle of holes, or whole steps of a table's vernier.
struct IndexGrid {
    std::optional<int> circle;
    long long spaces = 0;  ///< in one turn of the work

    /// How far the work is turned from zero.
    [[nodiscard]] ShaftAngle angle(long long space) const;
    [[nodiscard]] long long nearest(ShaftAngle angle) const;  ///< [0, spaces)
    /// Nothing on a table. Required: space >= 0.
    [[nodiscard]] std::optional<CrankSetting> crank(long long space) const;
};

/// By how much a turn of the work may end beside a hole, in spaces: the rounding of a ratio as it is written.
inline constexpr double hole_tolerance = 1e-9;

/// A grid for each circle of the plates in which a turn of the work ends in a hole: a head can't go round and
/// close on others. `ratio` in turns of the crank.
std::vector<IndexGrid> grids_of_plates(double ratio, const std::vector<std::vector<int>>& plates);

/// What a table's smallest setting may miss a whole turn by when all its steps are added up, of the turn: it
/// is written with as few decimals as 0.0166667 for a minute.
inline constexpr double vernier_tolerance = 1e-5;

/// The grid of a table; nothing where the step is finer than a second, or does not go into a turn.
std::optional<IndexGrid> grid_of_table(ShaftAngle smallest_setting);

}  // namespace lobewright::hand
