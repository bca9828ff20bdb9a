#include "inspect/fit/robust_fit.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace lobewright::inspection {
namespace {

constexpr int most_steps_of_sizes = 60;
constexpr int most_steps = 80;
constexpr int most_halvings = 12;
constexpr double tukey = 4.685;           // 95 % efficient on normal scatter
constexpr double normal_middle = 1.4826;  // standard deviations in the middle of normal sizes
constexpr double settled = 1e-4;  // of the scale: a step that moves no model figure by more is the last
constexpr double finest = 1e-11;  // mm
constexpr std::size_t small_group = 8;

std::vector<FitRow> rows_at(const FitProblem& problem, const Unknowns& at) {
    std::vector<FitRow> rows(problem.groups.size());
    for (std::size_t i = 0; i < rows.size(); ++i)
        rows[i] = problem.row(i, at);
    return rows;
}

/// The step that makes the weighted squares least, to first order.
std::optional<Unknowns> step_of(const FitProblem& problem, const std::vector<FitRow>& rows,
                                const std::vector<double>& weights) {
    SmallMatrix normal(problem.unknowns);
    std::vector<double> right(problem.unknowns);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        normal.add_square(rows[i].slopes.data(), weights[i]);
        for (std::size_t k = 0; k < problem.unknowns; ++k)
            right[k] += weights[i] * rows[i].slopes[k] * rows[i].residual;
    }
    const auto inverse = inverse_of(normal);
    return inverse ? std::optional(product(*inverse, right)) : std::nullopt;
}

Unknowns moved(const Unknowns& from, const Unknowns& step, double part) {
    Unknowns to = from;
    for (std::size_t k = 0; k < to.size(); ++k)
        to[k] += part * step[k];
    return to;
}

/// The most that a step moves any figure of the model.
double largest_move(const FitProblem& problem, const std::vector<FitRow>& rows, const Unknowns& step) {
    double largest = 0.0;
    for (const FitRow& row : rows) {
        double move = 0.0;
        for (std::size_t k = 0; k < problem.unknowns; ++k)
            move += row.slopes[k] * step[k];
        largest = std::max(largest, std::abs(move));
    }
    return largest;
}

double halved(int times) {
    return std::ldexp(1.0, -times);
}

/// The largest of 1, 1/2, 1/4 ... of a step that ends where the model exists; 0 where none does.
double possible_part(const FitProblem& problem, const Unknowns& from, const Unknowns& step) {
    for (int i = 0; i < most_halvings; ++i)
        if (problem.possible(moved(from, step, halved(i)))) return halved(i);
    return 0.0;
}

double sum_of_sizes(const std::vector<FitRow>& rows) {
    return std::accumulate(rows.begin(), rows.end(), 0.0,
                           [](double sum, const FitRow& row) { return sum + std::abs(row.residual); });
}

std::vector<double> residuals_of(const std::vector<FitRow>& rows) {
    std::vector<double> residuals;
    for (const FitRow& row : rows)
        residuals.push_back(row.residual);
    return residuals;
}

/// Weights 1 / size make squares into sizes.
std::vector<double> weights_of_sizes(const FitProblem& problem, const std::vector<FitRow>& rows) {
    const double least = std::max(problem.least_scale, 0.01 * robust_scale(residuals_of(rows)));
    std::vector<double> weights;
    for (const FitRow& row : rows)
        weights.push_back(1.0 / std::max(std::abs(row.residual), least));
    return weights;
}

/// Halves a step till it makes the sum of sizes less; false where none does.
bool take_step(const FitProblem& problem, Unknowns& at, std::vector<FitRow>& rows, const Unknowns& step) {
    const double before = sum_of_sizes(rows);
    for (int i = 0; i < most_halvings; ++i) {
        const Unknowns to = moved(at, step, halved(i));
        if (!problem.possible(to)) continue;
        std::vector<FitRow> there = rows_at(problem, to);
        if (!(sum_of_sizes(there) < before)) continue;
        at = to, rows = std::move(there);
        return true;
    }
    return false;
}

std::optional<Unknowns> least_sizes(const FitProblem& problem, Unknowns at) {
    std::vector<FitRow> rows = rows_at(problem, at);
    for (int i = 0; i < most_steps_of_sizes; ++i) {
        const auto step = step_of(problem, rows, weights_of_sizes(problem, rows));
        if (!step) return std::nullopt;
        const double move = largest_move(problem, rows, *step);
        if (!take_step(problem, at, rows, *step)) break;
        if (move < std::max(problem.least_scale, finest)) break;
    }
    return at;
}

std::array<double, 2> scales_of(const FitProblem& problem, const std::vector<FitRow>& rows) {
    std::array<std::vector<double>, 2> groups;
    for (std::size_t i = 0; i < rows.size(); ++i)
        groups[static_cast<std::size_t>(problem.groups[i])].push_back(rows[i].residual);
    const double all = robust_scale(residuals_of(rows));
    std::array<double, 2> scales{};
    for (std::size_t g = 0; g < 2; ++g) {
        const double own = groups[g].size() < small_group ? all : robust_scale(std::move(groups[g]));
        scales[g] = std::max(own, problem.least_scale);
    }
    return scales;
}

/// Tukey's influence ψ and its slope, of a residual in scales.
double influence(double u) {
    const double t = 1.0 - (u / tukey) * (u / tukey);
    return t > 0.0 ? u * t * t : 0.0;
}
double influence_slope(double u) {
    const double v = (u / tukey) * (u / tukey);
    return v < 1.0 ? (1.0 - v) * (1.0 - 5.0 * v) : 0.0;
}

double scale_at(const FitProblem& problem, const std::array<double, 2>& scales, std::size_t i) {
    return scales[static_cast<std::size_t>(problem.groups[i])];
}

std::vector<double> tukey_weights(const FitProblem& problem, const std::vector<FitRow>& rows,
                                  const std::array<double, 2>& scales) {
    std::vector<double> weights;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double scale = scale_at(problem, scales, i), u = rows[i].residual / scale;
        const double t = 1.0 - (u / tukey) * (u / tukey);
        weights.push_back(t > 0.0 ? t * t / (scale * scale) : 0.0);
    }
    return weights;
}

/// How much more neighbours that err alike leave of the errors than independent ones would: by the
/// correlation of neighbours, where it is more than chance (three standard deviations).
double likeness_factor(const FitProblem& problem, const std::vector<FitRow>& rows,
                       const std::array<double, 2>& scales) {
    double squares = 0.0, products = 0.0, last = 0.0;
    std::size_t count = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double psi = influence(rows[i].residual / scale_at(problem, scales, i));
        squares += psi * psi, products += psi * last, last = psi;
        ++count;
    }
    if (!(squares > 0.0)) return 1.0;
    const double likeness = std::min(0.97, products / squares);
    return likeness * std::sqrt(static_cast<double>(count)) > 3.0
               ? std::sqrt((1.0 + likeness) / (1.0 - likeness))
               : 1.0;
}

/// The sandwich A⁻¹ B A⁻¹, A = Σ ψ' J Jᵀ / scale², B = Σ ψ² J Jᵀ / scale².
std::optional<SmallMatrix> covariance_of(const FitProblem& problem, const std::vector<FitRow>& rows,
                                         const std::array<double, 2>& scales) {
    SmallMatrix bread(problem.unknowns), filling(problem.unknowns);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double scale = scale_at(problem, scales, i), u = rows[i].residual / scale;
        const double psi = influence(u), square = 1.0 / (scale * scale);
        bread.add_square(rows[i].slopes.data(), influence_slope(u) * square);
        filling.add_square(rows[i].slopes.data(), psi * psi * square);
    }
    const auto inverse = inverse_of(bread);
    if (!inverse) return std::nullopt;
    SmallMatrix covariance = product(product(*inverse, filling), *inverse);
    const double n = static_cast<double>(rows.size()), p = static_cast<double>(problem.unknowns);
    const double alike = likeness_factor(problem, rows, scales);
    for (std::size_t i = 0; i < problem.unknowns; ++i)
        for (std::size_t j = 0; j < problem.unknowns; ++j)
            covariance(i, j) *= n / std::max(1.0, n - p) * alike * alike;
    return covariance;
}

}  // namespace

double median_of(std::vector<double> values) {
    if (values.empty()) return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) return *middle;
    return 0.5 * (*middle + *std::max_element(values.begin(), middle));
}

double robust_scale(std::vector<double> values) {
    for (double& value : values)
        value = std::abs(value);
    return normal_middle * median_of(std::move(values));
}

std::optional<FitFound> settled_fit(const FitProblem& problem, Unknowns start) {
    FitFound found;
    found.values = std::move(start);
    std::vector<FitRow> rows = rows_at(problem, found.values);
    for (int i = 0; i < most_steps; ++i) {
        found.scales = scales_of(problem, rows);
        const auto step = step_of(problem, rows, tukey_weights(problem, rows, found.scales));
        if (!step) return std::nullopt;
        const double move = largest_move(problem, rows, *step);
        found.values = moved(found.values, *step, possible_part(problem, found.values, *step));
        rows = rows_at(problem, found.values);
        if (move < std::max(finest, settled * std::min(found.scales[0], found.scales[1]))) break;
    }
    const auto covariance = covariance_of(problem, rows, found.scales);
    if (!covariance) return std::nullopt;
    found.covariance = *covariance;
    for (std::size_t k = 0; k < problem.unknowns; ++k)
        found.errors.push_back(std::sqrt(std::max(0.0, found.covariance(k, k))));
    found.residuals = residuals_of(rows);
    return found;
}

std::optional<FitFound> robust_fit(const FitProblem& problem, Unknowns start) {
    auto near = least_sizes(problem, std::move(start));
    return near ? settled_fit(problem, std::move(*near)) : std::nullopt;
}

}  // namespace lobewright::inspection
