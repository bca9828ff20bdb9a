/// A linear programme by the simplex method on a dense table: slow, plain, and nobody's but the tests'.
#pragma once

#include <optional>
#include <vector>

namespace dense {

/// Least Σ costs[k] × x[k] with Σ columns[k][i] × x[k] = right[i], every x >= 0.
struct Programme {
    std::vector<double> right;
    std::vector<std::vector<double>> columns;
    std::vector<double> costs;
};

/// x of the least cost; nothing where it has no bound. `basis`: a column for each row, +1 or -1 there and
/// else 0, of right's sign. (Dantzig's rule of the steepest price, Bland's where that stands still.)
std::optional<std::vector<double>> least_cost(const Programme& programme, std::vector<std::size_t> basis);

}  // namespace dense
