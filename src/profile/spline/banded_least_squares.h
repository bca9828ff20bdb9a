/// Least squares where every equation knows only a few neighbouring unknowns.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace lobewright::profile {

class InverseBand;

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
    /// first. Required: at most `band` coefficients. An equation costs at most `band` steps where none before
    /// it has a larger `first` (those that run round a ring's end count as 0); else as many as there are
    /// unknowns behind it.
    void add(std::size_t first, std::span<const double> coefficients, double value);

    /// One of several sets of equations, each counted `weight` times in the sum of squares.
    struct Part {
        const BandedLeastSquares* equations = nullptr;
        double weight = 1.0;
    };
    /// All equations of the parts together, from their factors, in a number of steps that grows with the
    /// unknowns alone. Required: one part at least, all of one size, band and ends.
    static BandedLeastSquares combined(std::span<const Part> parts);

    /// The x of the least sum of squares. Required: the equations settle every unknown.
    [[nodiscard]] std::vector<double> solve() const;

    /// Σ (left side - value)² over the equations, at x.
    [[nodiscard]] double squares_at(std::span<const double> x) const;

    /// How many coefficients of the fitted values follow their own equations: Σ of the leverages of this
    /// system's equations in a larger one whose band of the inverse is given.
    [[nodiscard]] double freedoms_in(const InverseBand& larger) const;

    /// Pairs of rows turned so far: the work done.
    [[nodiscard]] std::size_t rotations() const { return rotations_; }

  private:
    friend class InverseBand;
    /// A row is `band_` coefficients from its own place on, then the border's, then the value.
    using Row = std::span<double>;
    [[nodiscard]] std::size_t width() const { return band_ + border_ + 1; }
    [[nodiscard]] Row row(std::size_t i) { return {rows_.data() + i * width(), width()}; }
    [[nodiscard]] std::span<const double> row(std::size_t i) const {
        return {rows_.data() + i * width(), width()};
    }
    [[nodiscard]] std::size_t start_of(std::size_t first, std::size_t count) const;
    void rotate_in(std::size_t start, Row row);
    void rotate(Row pivot, Row row, std::size_t head);
    [[nodiscard]] double left_side(std::size_t i, std::span<const double> x) const;

    std::size_t inner_;  // unknowns outside the border
    std::size_t band_;
    std::size_t border_;
    std::vector<double> rows_;  // the factor, one row an unknown, the border's rows last
    double residual_ = 0.0;     // squares that no x takes away
    std::size_t rotations_ = 0;
};

/// The entries of (AᵀA)⁻¹ whose unknowns can stand in one equation of A, from its factor without the rest of
/// the inverse (the recurrence of Takahashi, Fagan and Chin 1973; for smoothing splines Hutchinson and de
/// Hoog 1985; both from memory, and tested against the dense inverse).
class InverseBand {
  public:
    /// Required: the equations settle every unknown.
    explicit InverseBand(const BandedLeastSquares& system);

    /// How much the fitted value of an equation's left side would follow a change of its own right side, 0
    /// to 1. Required: it is one of the equations.
    [[nodiscard]] double leverage(std::size_t first, std::span<const double> coefficients) const;

  private:
    friend class BandedLeastSquares;
    [[nodiscard]] double& at(std::size_t i, std::size_t j);
    [[nodiscard]] double at(std::size_t i, std::size_t j) const;
    void fill(const BandedLeastSquares& system, std::size_t i);

    std::size_t inner_;
    std::size_t band_;
    std::size_t border_;
    std::vector<double> entries_;  // a row an unknown: those up to band - 1 behind it, then the border's
};

}  // namespace lobewright::profile
