/// The angles that a dividing head or a rotary table can be set to, and the head's crank for them.
///
/// Every setting is counted from zero, never from the setting before it, so that what one setting is out by
/// is never carried to the next.
#pragma once

#include <lobewright/hand.h>

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
    long long spaces = 0;                                 ///< in one turn of the work
    std::optional<int> plate = std::nullopt;              ///< that has the circle, from 1
    std::optional<CompoundMove> compound = std::nullopt;  ///< for one space, where no circle alone does it

    /// How far the work is turned from zero.
    [[nodiscard]] ShaftAngle angle(long long space) const;
    [[nodiscard]] long long nearest(ShaftAngle angle) const;  ///< [0, spaces)
    /// Nothing on a table, and by compound indexing. Required: space >= 0.
    [[nodiscard]] std::optional<CrankSetting> crank(long long space) const;
};

/// By how much a turn of the work may end beside a hole, in spaces: the rounding of a ratio as it is written.
inline constexpr double hole_tolerance = 1e-9;

/// A grid for each circle of the plates in which a turn of the work ends in a hole: a head can't go round and
/// close on others. `ratio` in turns of the crank.
std::vector<IndexGrid> grids_of_plates(double ratio, const std::vector<std::vector<int>>& plates);

/// The grid of so many divisions by compound indexing; nothing where no two circles of one plate do it. For
/// one division the crank goes a/m turns on its circle m and the plate b/n turns on its circle n, one way or
/// the other, with a/m ± b/n = ratio/divisions exactly; of all such pairs the one with the fewest holes to
/// count. The method is in every handbook of the dividing head: Machinery's Handbook, "Compound Indexing",
/// which has 9/21 + 3/33 for 77 divisions and 21/23 - 11/33 (or 22/33 - 2/23) for 69. Only heads of a whole
/// ratio.
std::optional<IndexGrid> compound_grid(double ratio, const std::vector<std::vector<int>>& plates,
                                       long long divisions);

/// What a table's smallest setting may miss a whole turn by when all its steps are added up, of the turn: it
/// is written with as few decimals as 0.0166667 for a minute.
inline constexpr double vernier_tolerance = 1e-5;

/// The grid of a table; nothing where the step is finer than a second, or does not go into a turn.
std::optional<IndexGrid> grid_of_table(ShaftAngle smallest_setting);

}  // namespace lobewright::hand
