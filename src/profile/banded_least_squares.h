/// Least squares where every equation knows only a few neighbouring unknowns.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace lobewright {

/// Collects equations one by one and turns each into the triangular factor by Givens rotations (Golub and Van
/// Loan, Matrix Computations, section 5.2; Lawson and Hanson, Solving Least Squares Problems, chapter 27).
/// The normal equations are never formed, so that a condition of 1e8 costs half of the digits and not all.
///
/// Where the unknowns lie round a ring, the last `band` - 1 of them are kept as a full-width border beside
/// the band.
class BandedLeastSquares {
  public:
    enum class Ends { open, ring };
    /// `band`: most unknowns in an equation. Required: unknowns >= 2 * band on a ring.
    BandedLeastSquares(std::size_t unknowns, std::size_t band, Ends ends);

    /// Σ coefficients[i] · x[first + i] = value; on a ring the index runs on from the last unknown to the
    /// first. Required: at most `band` coefficients. An equation costs the fewer steps, the fewer of those
    /// before it have a larger `first`.
    void add(std::size_t first, std::span<const double> coefficients, double value);

    /// The x of the least sum of squares. Required: the equations settle every unknown.
    [[nodiscard]] std::vector<double> solve() const;

    /// How much the fitted value of an equation's left side would follow a change of its own right side, 0
    /// to 1. Required: it is one of the equations.
    [[nodiscard]] double leverage(std::size_t first, std::span<const double> coefficients) const;

  private:
    struct Row {
        std::vector<double> band;    // unknowns from the row's own place on
        std::vector<double> border;  // the last unknowns
        double value = 0.0;
    };
    [[nodiscard]] std::size_t start_of(std::size_t first, std::size_t count) const;
    [[nodiscard]] Row row_of(std::size_t first, std::span<const double> coefficients, double value) const;
    static void rotate(Row& pivot, Row& row, double pivot_head, double row_head);

    std::size_t inner_;  // unknowns outside the border
    std::size_t band_;
    std::vector<Row> inner_rows_;
    std::vector<Row> border_rows_;
};

}  // namespace lobewright
