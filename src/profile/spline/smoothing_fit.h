/// The smoothest curve through readings that may be moved a little.
#pragma once

#include "profile/spline/table_knots.h"

#include <memory>
#include <optional>

namespace lobewright::profile {

/// A reading as the fit takes it.
struct FitReading {
    double angle = 0.0;  ///< radians, between the first and the last knot
    double lift = 0.0;   ///< mm
    double limit = 0.0;  ///< mm, the most that it may be moved
};

/// A smoothing spline on given knots: the least of Σ (move of a reading)² + weight · ∫ (fourth derivative)²,
/// the angle counted in lengths of the whole stretch so that the weight means the same for every lobe.
class SmoothingFit {
  public:
    using Coefficients = std::vector<double>;
    /// Required: angles ascend, between the knots' ends.
    SmoothingFit(const std::vector<FitReading>& readings, const TableKnots& knots);

    [[nodiscard]] const QuinticBasis& basis() const { return basis_; }

    /// The weight that the readings' own scatter asks for, from a curve too stiff for any lobe down to 1e-24
    /// of that by half decades: the least of Craven and Wahba's generalised cross-validation (1979), Σ move²
    /// / (readings - freedoms)². The freedoms count 1.4 times, as Kim and Gu (2004) advise against the odd
    /// fit that follows the noise (both from memory).
    [[nodiscard]] double best_weight();
    /// Whether or not it moves a reading by more than it may be.
    [[nodiscard]] Coefficients free(double weight);
    /// The spline whose readings stay within their limits: those that would not are held at the edge, by
    /// forces that grow fourfold from round to round, forty rounds at most. Nothing if that does not do.
    [[nodiscard]] std::optional<Coefficients> held_within(double weight);
    /// Free, with the weight lowered a hundredfold till no reading is moved by more than it may be: at most
    /// twenty times, after which a spline with knots at all readings goes through them.
    [[nodiscard]] Coefficients stiffest_within(double weight);

    /// How far each reading is moved, mm, upwards positive.
    [[nodiscard]] std::vector<double> moves(const Coefficients& coefficients) const;
    [[nodiscard]] bool within_limits(const std::vector<double>& moves) const;
    /// Pairs of rows turned so far (banded_least_squares.h): the work done.
    [[nodiscard]] std::size_t rotations() const { return rotations_; }

  private:
    /// What generalised cross-validation makes of a weight.
    struct Score {
        double value = 0.0;
        bool too_free = false;  // the spline has nearly as many freedoms as there are readings
    };
    [[nodiscard]] BandedLeastSquares system_of(const std::vector<SplineRow>& rows,
                                               const std::vector<double>& values) const;
    [[nodiscard]] BandedLeastSquares reading_equations() const;
    [[nodiscard]] BandedLeastSquares roughness_equations() const;
    [[nodiscard]] BandedLeastSquares edges(const std::vector<double>& moves) const;
    [[nodiscard]] BandedLeastSquares combined(double weight);
    [[nodiscard]] Score cross_validation(double weight);

    QuinticBasis basis_;
    const std::vector<FitReading>& readings_;
    std::vector<SplineRow> rows_;  // of the readings
    BandedLeastSquares fit_;
    BandedLeastSquares roughness_;
    std::size_t rotations_ = 0;
};

struct SmoothedCurve {
    std::shared_ptr<const QuinticSpline>
        spline;                 ///< none if the readings scatter more than their limits allow
    double scatter = 0.0;       ///< the most that the curve without limits would move a reading, mm
    std::size_t rotations = 0;  ///< the work done
};

/// The curve through the readings within their limits: on few knots, if that does; else with knots at all
/// readings where it does not. Readings so wide apart that all of them have knots have a curve in any case;
/// others have none where that would take three times as many knots: no lobe turns that often.
SmoothedCurve smoothed_curve(const OrderedReadings& ordered, const std::vector<FitReading>& readings);

}  // namespace lobewright::profile
