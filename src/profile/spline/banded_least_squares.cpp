#include "profile/spline/banded_least_squares.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {

BandedLeastSquares::BandedLeastSquares(std::size_t unknowns, std::size_t band, Ends ends)
    : inner_(ends == Ends::ring ? unknowns - (band - 1) : unknowns),
      band_(band),
      border_(unknowns - inner_),
      rows_(unknowns * width()) {}

/// Rotates the two rows so that the row's coefficient at `head` becomes 0.
void BandedLeastSquares::rotate(Row pivot, Row row, std::size_t head) {
    ++rotations_;
    const double size = std::sqrt(pivot[head] * pivot[head] + row[head] * row[head]);
    const double c = pivot[head] / size;
    const double s = row[head] / size;
    for (std::size_t i = 0; i < pivot.size(); ++i) {
        const double old = pivot[i];
        pivot[i] = c * old + s * row[i];
        row[i] = c * row[i] - s * old;
    }
    row[head] = 0.0;
}

/// Where the band of an equation starts: at its first unknown, or at 0 where it runs through the border.
std::size_t BandedLeastSquares::start_of(std::size_t first, std::size_t count) const {
    return first >= inner_ || first + count > inner_ + border_ ? 0 : first;
}

void BandedLeastSquares::add(std::size_t first, std::span<const double> coefficients, double value) {
    const std::size_t start = start_of(first, coefficients.size());
    std::vector<double> equation(width());
    for (std::size_t i = 0; i < coefficients.size(); ++i) {
        const std::size_t unknown = (first + i) % (inner_ + border_);
        equation[unknown >= inner_ ? band_ + unknown - inner_ : unknown - start] = coefficients[i];
    }
    equation.back() = value;
    rotate_in(start, equation);
}

/// Takes a row whose band starts at `start` into the factor; what is left of its value can't be met.
void BandedLeastSquares::rotate_in(std::size_t start, Row equation) {
    const auto band = equation.first(band_);
    const auto empty = [band] {
        return std::all_of(band.begin(), band.end(), [](double a) { return a == 0.0; });
    };
    for (std::size_t i = start; i < inner_ && !empty(); ++i) {
        if (band[0] != 0.0) rotate(row(i), equation, 0);
        std::shift_left(band.begin(), band.end(), 1);
        band.back() = 0.0;
    }
    for (std::size_t i = 0; i < border_; ++i) {
        if (equation[band_ + i] != 0.0) rotate(row(inner_ + i), equation, band_ + i);
    }
    residual_ += equation.back() * equation.back();
}

BandedLeastSquares BandedLeastSquares::combined(std::span<const Part> parts) {
    BandedLeastSquares sum = *parts.front().equations;
    sum.rows_.assign(sum.rows_.size(), 0.0);
    sum.residual_ = 0.0, sum.rotations_ = 0;
    std::vector<double> scaled(sum.width());
    for (std::size_t i = 0; i < sum.inner_ + sum.border_; ++i) {
        for (const Part& part : parts) {
            const double factor = std::sqrt(part.weight);
            const std::span<const double> row = part.equations->row(i);
            std::transform(row.begin(), row.end(), scaled.begin(), [factor](double a) { return factor * a; });
            sum.rotate_in(std::min(i, sum.inner_), scaled);
        }
    }
    for (const Part& part : parts)
        sum.residual_ += part.weight * part.equations->residual_;
    return sum;
}

/// Row i of the factor times x.
double BandedLeastSquares::left_side(std::size_t i, std::span<const double> x) const {
    const auto r = row(i);
    double sum = 0.0;
    for (std::size_t j = 0; i < inner_ && j < band_ && i + j < inner_; ++j)
        sum += r[j] * x[i + j];
    for (std::size_t j = 0; j < border_; ++j)
        sum += r[band_ + j] * x[inner_ + j];
    return sum;
}

std::vector<double> BandedLeastSquares::solve() const {
    std::vector<double> x(inner_ + border_);
    for (std::size_t i = x.size(); i-- > 0;) {
        const auto r = row(i);
        x[i] = (r.back() - left_side(i, x)) / r[i < inner_ ? 0 : band_ + i - inner_];  // x[i] was 0 till now
    }
    return x;
}

double BandedLeastSquares::squares_at(std::span<const double> x) const {
    double sum = residual_;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double off = left_side(i, x) - row(i).back();
        sum += off * off;
    }
    return sum;
}

double BandedLeastSquares::freedoms_in(const InverseBand& larger) const {
    double sum = 0.0;
    std::vector<std::size_t> unknowns;
    for (std::size_t i = 0; i < inner_ + border_; ++i) {
        const auto r = row(i);
        unknowns.clear();
        for (std::size_t j = i; j < std::min(i + band_, inner_); ++j)
            unknowns.push_back(j);
        for (std::size_t j = 0; j < border_; ++j)
            unknowns.push_back(inner_ + j);
        const auto coefficient = [&](std::size_t j) { return r[j >= inner_ ? band_ + j - inner_ : j - i]; };
        for (const std::size_t a : unknowns) {
            for (const std::size_t b : unknowns)
                sum += coefficient(a) * larger.at(a, b) * coefficient(b);
        }
    }
    return sum;
}

InverseBand::InverseBand(const BandedLeastSquares& system)
    : inner_(system.inner_),
      band_(system.band_),
      border_(system.border_),
      entries_((inner_ + border_) * (band_ + border_)) {
    for (std::size_t i = inner_ + border_; i-- > 0;)
        fill(system, i);
}

double& InverseBand::at(std::size_t i, std::size_t j) {
    if (i > j) std::swap(i, j);
    return entries_[i * (band_ + border_) + (j >= inner_ ? band_ + j - inner_ : j - i)];
}

double InverseBand::at(std::size_t i, std::size_t j) const {
    if (i > j) std::swap(i, j);
    return entries_[i * (band_ + border_) + (j >= inner_ ? band_ + j - inner_ : j - i)];
}

/// With Z = (RᵀR)⁻¹ and the unknowns k behind i that row i of R knows: r_ii Z_ij = -Σ r_ik Z_kj for j behind
/// i, and r_ii Z_ii = 1/r_ii - Σ r_ik Z_ki.
void InverseBand::fill(const BandedLeastSquares& system, std::size_t i) {
    const auto r = system.row(i);
    std::vector<std::size_t> behind;
    for (std::size_t k = i + 1; k < std::min(i + band_, inner_); ++k)
        behind.push_back(k);
    for (std::size_t k = std::max(i + 1, inner_); k < inner_ + border_; ++k)
        behind.push_back(k);
    const auto coefficient = [&](std::size_t k) { return r[k >= inner_ ? band_ + k - inner_ : k - i]; };
    const double head = coefficient(i);
    for (const std::size_t j : behind) {
        double sum = 0.0;
        for (const std::size_t k : behind)
            sum += coefficient(k) * at(k, j);
        at(i, j) = -sum / head;
    }
    double sum = 0.0;
    for (const std::size_t k : behind)
        sum += coefficient(k) * at(i, k);
    at(i, i) = (1.0 / head - sum) / head;
}

double InverseBand::leverage(std::size_t first, std::span<const double> coefficients) const {
    const std::size_t unknowns = inner_ + border_;
    double sum = 0.0;
    for (std::size_t a = 0; a < coefficients.size(); ++a) {
        for (std::size_t b = 0; b < coefficients.size(); ++b)
            sum += coefficients[a] * at((first + a) % unknowns, (first + b) % unknowns) * coefficients[b];
    }
    return sum;
}

}  // namespace lobewright::profile
