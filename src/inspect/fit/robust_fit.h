/// Unknowns fitted to readings so that single bad ones have no say. This room holds the fits and the
/// statistics that they rest on.
#pragma once

#include "inspect/fit/small_matrix.h"

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace lobewright::inspection {

inline constexpr std::size_t most_unknowns = 8;
using Unknowns = std::vector<double>;

/// One reading beside the model: what it is more, and how the model's figure changes by each unknown.
struct FitRow {
    double residual = 0.0;
    std::array<double, most_unknowns> slopes{};
};

/// Readings in groups of like scatter (0 and 1). Order: by angle, so that neighbours are neighbours.
struct FitProblem {
    std::size_t unknowns = 0;
    std::vector<int> groups;   ///< of each reading
    double least_scale = 0.0;  ///< what the readings scatter at least, mm
    std::function<FitRow(std::size_t reading, const Unknowns& at)> row;
    /// Where the model exists; steps are halved until they end there.
    std::function<bool(const Unknowns& at)> possible = [](const Unknowns&) { return true; };
};

struct FitFound {
    Unknowns values;
    std::vector<double> errors;  ///< standard errors of the unknowns
    SmallMatrix covariance{0};
    std::array<double, 2> scales{};  ///< of the groups
    std::vector<double> residuals;   ///< of each reading
};

/// The middle of values, and 1.4826 × the middle of their sizes: the standard deviation of normal ones about
/// 0.
double median_of(std::vector<double> values);
double robust_scale(std::vector<double> values);

/// From `start` with the least sum of absolute residuals, then Tukey's biweight (c = 4.685) about scales that
/// follow. Nothing where the readings don't tell the unknowns apart.
std::optional<FitFound> robust_fit(const FitProblem& problem, Unknowns start);
/// The second half alone, for a start that is nearly right.
std::optional<FitFound> settled_fit(const FitProblem& problem, Unknowns start);

}  // namespace lobewright::inspection
