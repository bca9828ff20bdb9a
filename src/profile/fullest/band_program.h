/// A linear programme whose rows each touch four neighbouring variables and one that is common to all, as the
/// rows of a cubic spline do.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace lobewright::profile {

inline constexpr std::size_t band_width = 4;
inline constexpr std::size_t commons = 2;

/// Σ near[i] × variable[first + i] + Σ common[j] × common variable j, held to at most (or to exactly)
/// `bound`.
struct BandRow {
    std::size_t first = 0;
    std::array<double, band_width> near{};
    std::array<double, commons> common{};
    double bound = 0.0;
};

/// Make the gain largest under the rows; variables may have any sign. Figures should be near 1: the rows'
/// bounds, and the gain that is to be expected.
struct BandProgram {
    std::size_t variables = 0;  ///< besides the common ones; band_width at least
    std::vector<double> gain;   ///< of each
    std::array<double, commons> common_gain{};
    std::vector<BandRow> at_most;  ///< so many that no variable is without a hold
    std::vector<BandRow> exactly;  ///< a handful, independent of each other
};

struct BandOptimum {
    std::vector<double> variables;
    std::array<double, commons> common{};
    std::vector<double> prices;  ///< of `at_most`: gain for one more of the bound, >= 0
};

/// The best, to `program_gap` of gain and rows (where rounding lets no more be had, to a thousand of it), or
/// nothing where the rows contradict each other or the gain knows no bound. Interior-point method by
/// predictor and corrector (Mehrotra, On the implementation of a primal-dual interior point method, 1992,
/// from memory): each step is a weighted least-squares problem, whose triangle is found by Givens' rotations
/// of the rows, as their squares would lose the digits. Time grows with the number of rows.
std::optional<BandOptimum> optimum_of(const BandProgram& program);
inline constexpr double program_gap = 1e-9;

}  // namespace lobewright::profile
