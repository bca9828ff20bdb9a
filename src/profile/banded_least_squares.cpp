#include "banded_least_squares.h"

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

/// Whether what is left of a B-spline's equation, whose coefficients are of the order of 1, no longer counts
/// squared.
bool faded(const std::vector<double>& band) {
    return std::all_of(band.begin(), band.end(), [](double a) { return std::abs(a) < 1e-10; });
}

}  // namespace

BandedLeastSquares::BandedLeastSquares(std::size_t unknowns, std::size_t band, Ends ends)
    : inner_(ends == Ends::ring ? unknowns - (band - 1) : unknowns), band_(band) {
    const std::size_t border = unknowns - inner_;
    const Row empty{std::vector<double>(band), std::vector<double>(border), 0.0};
    inner_rows_.assign(inner_, empty);
    border_rows_.assign(border, empty);
}

/// Rotates the two rows so that `row_head`, which stands under `pivot_head`, becomes 0.
void BandedLeastSquares::rotate(Row& pivot, Row& row, double pivot_head, double row_head) {
    const double size = std::sqrt(pivot_head * pivot_head + row_head * row_head);
    const double c = pivot_head / size;
    const double s = row_head / size;
    const auto turn = [c, s](double& above, double& below) {
        const double old = above;
        above = c * old + s * below;
        below = c * below - s * old;
    };
    for (std::size_t i = 0; i < row.band.size(); ++i)
        turn(pivot.band[i], row.band[i]);
    for (std::size_t i = 0; i < row.border.size(); ++i)
        turn(pivot.border[i], row.border[i]);
    turn(pivot.value, row.value);
}

/// Where the band of an equation starts: at its first unknown, or at 0 where it runs through the border.
std::size_t BandedLeastSquares::start_of(std::size_t first, std::size_t count) const {
    return first >= inner_ || first + count > inner_ + border_rows_.size() ? 0 : first;
}

BandedLeastSquares::Row BandedLeastSquares::row_of(std::size_t first, std::span<const double> coefficients,
                                                   double value) const {
    const std::size_t border = border_rows_.size();
    const std::size_t start = start_of(first, coefficients.size());
    Row row{std::vector<double>(band_), std::vector<double>(border), value};
    for (std::size_t i = 0; i < coefficients.size(); ++i) {
        const std::size_t unknown = (first + i) % (inner_ + border);
        if (unknown >= inner_) {
            row.border[unknown - inner_] = coefficients[i];
        } else {
            row.band[unknown - start] = coefficients[i];
        }
    }
    return row;
}

void BandedLeastSquares::add(std::size_t first, std::span<const double> coefficients, double value) {
    const std::size_t border = border_rows_.size();
    const std::size_t start = start_of(first, coefficients.size());
    Row row = row_of(first, coefficients, value);
    for (std::size_t i = start; i < inner_; ++i) {
        if (row.band[0] != 0.0) rotate(inner_rows_[i], row, inner_rows_[i].band[0], row.band[0]);
        std::shift_left(row.band.begin(), row.band.end(), 1);
        row.band.back() = 0.0;
        if (std::all_of(row.band.begin(), row.band.end(), [](double a) { return a == 0.0; })) break;
    }
    for (std::size_t i = 0; i < border; ++i) {
        if (row.border[i] != 0.0) rotate(border_rows_[i], row, border_rows_[i].border[i], row.border[i]);
    }
}

std::vector<double> BandedLeastSquares::solve() const {
    const std::size_t border = border_rows_.size();
    std::vector<double> x(inner_ + border);
    for (std::size_t i = border; i-- > 0;) {
        const Row& row = border_rows_[i];
        double rest = row.value;
        for (std::size_t j = i + 1; j < border; ++j)
            rest -= row.border[j] * x[inner_ + j];
        x[inner_ + i] = rest / row.border[i];
    }
    for (std::size_t i = inner_; i-- > 0;) {
        const Row& row = inner_rows_[i];
        double rest = row.value;
        for (std::size_t j = 1; j < band_ && i + j < inner_; ++j)
            rest -= row.band[j] * x[i + j];
        for (std::size_t j = 0; j < border; ++j)
            rest -= row.border[j] * x[inner_ + j];
        x[i] = rest / row.band[0];
    }
    return x;
}

/// |y|² of Rᵀ y = b, with R the triangular factor.
double BandedLeastSquares::leverage(std::size_t first, std::span<const double> coefficients) const {
    const std::size_t border = border_rows_.size();
    Row rest = row_of(first, coefficients, 0.0);
    double sum = 0.0;
    for (std::size_t i = start_of(first, coefficients.size()); i < inner_; ++i) {
        const Row& row = inner_rows_[i];
        const double y = rest.band[0] / row.band[0];
        sum += y * y;
        for (std::size_t j = 0; j < band_; ++j)
            rest.band[j] -= y * row.band[j];
        for (std::size_t j = 0; j < border; ++j)
            rest.border[j] -= y * row.border[j];
        std::shift_left(rest.band.begin(), rest.band.end(), 1);
        rest.band.back() = 0.0;
        if (border == 0 && faded(rest.band)) break;
    }
    for (std::size_t i = 0; i < border; ++i) {
        const double y = rest.border[i] / border_rows_[i].border[i];
        sum += y * y;
        for (std::size_t j = i; j < border; ++j)
            rest.border[j] -= y * border_rows_[i].border[j];
    }
    return sum;
}

}  // namespace lobewright
