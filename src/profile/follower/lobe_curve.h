/// Extremes of what a lobe does to its follower over one turn, bounded from joint to joint.
#pragma once

#include "profile/follower/contact_figures.h"
#include "profile/motion/monotone_parts.h"

#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace lobewright::profile {

/// A motion under a follower, ready for any number of extremes.
class LobeCurve {
  public:
    /// A figure with its first two derivatives by the cam angle, as Taylor has them: numbers at an angle,
    /// bounds over a stretch.
    using Figure = Taylor<Interval, 2>;
    /// `curvature` is that of the arc that the follower rides on, where there is one.
    struct Contact : ContactFigures<Figure> {
        Contact(const ContactFrame& frame, const LiftBounds& bounds, std::optional<double> arc);
        [[nodiscard]] Figure curvature() const {
            return arc_curvature ? Figure(*arc_curvature) : ContactFigures<Figure>::curvature();
        }
        std::optional<double> arc_curvature;
    };
    using Quantity = std::function<Figure(const Contact&)>;
    /// An extreme with the piece that has it, which counts where a figure steps at a joint.
    struct Extreme {
        FigureAt figure;
        std::size_t piece = 0;
        double angle = 0.0;  ///< radians: the first place, also where `figure` has none
    };

    /// Required: as Kinematics'; `pieces` outlives this.
    LobeCurve(const std::vector<MotionPiece>& pieces, const Follower& follower, double base_radius,
              Sense turns);
    ~LobeCurve();
    LobeCurve(const LobeCurve&) = delete;
    LobeCurve& operator=(const LobeCurve&) = delete;

    /// The largest value over the period, or over the parts of that phase with their ends, and where: of
    /// equal ones (to `same` of its size) the first in time, and no place where the value is the same all
    /// over. Both sides of a joint count. Attained there, and no other exceeds it by more than `margin` of
    /// the largest size. That is proven: by the bounds of value, slope and bend (second derivative) on
    /// stretches that are halved until one of these settles it. Where the slope keeps its sign, or the bend
    /// is positive, an end is largest; where the bend is negative, the slope's one root is; else the bound is
    /// within the margin of the value in the middle. A stretch down to `shortest` counts as its middle: over
    /// it a value changes by its steepest slope × `shortest` at most. 0 where there is no such part.
    [[nodiscard]] FigureAt largest(const Quantity& quantity, std::optional<Phase> phase = std::nullopt) const;
    [[nodiscard]] FigureAt least(const Quantity& quantity, std::optional<Phase> phase = std::nullopt) const;
    [[nodiscard]] Extreme find_largest(const Quantity& quantity,
                                       std::optional<Phase> phase = std::nullopt) const;
    /// The one of largest and least that is farther from 0, with its sign.
    [[nodiscard]] FigureAt farthest(const Quantity& quantity,
                                    std::optional<Phase> phase = std::nullopt) const;

    /// The largest on stretches of cam angle (radians, within the period) alone, their ends included.
    [[nodiscard]] FigureAt largest_on(const Quantity& quantity, const std::vector<Interval>& stretches) const;

    /// Where the value lies above a level: stretches of cam angle, radians, in the order of time, joined
    /// where they meet. Proven as the largest is: a stretch is halved until the bounds of its value, or a
    /// slope that keeps its sign, say where it crosses the level; one down to `shortest` counts as its
    /// middle.
    [[nodiscard]] std::vector<Interval> above(const Quantity& quantity, double level) const;

    /// The largest of numerator / denominator where the numerator is above 0; 0 where it never is, infinite
    /// where the denominator isn't above 0 there. (Dinkelbach, On nonlinear fractional programming, 1967,
    /// from memory: the largest of numerator - t × denominator, t the quotient at the last one's place, until
    /// that is 0.)
    [[nodiscard]] FigureAt largest_quotient(const Quantity& numerator, const Quantity& denominator) const;

    static constexpr double margin = extreme_margin;
    static constexpr double shortest = 1e-9;  ///< radians
    static constexpr double same = 1e-12;     ///< of the largest size: equal but for the formulas' rounding

    /// The contact at an angle of a piece, or on a stretch of it.
    [[nodiscard]] Contact contact(std::size_t piece, double angle) const;

  private:
    struct Span;
    struct Part;
    class Search;
    class LevelSearch;

    const std::vector<MotionPiece>& pieces_;
    ContactFrame frame_;
    std::vector<Part> parts_;
};

/// The pressure angle farthest from 0, radians, with its sign as FollowerContact's.
FigureAt farthest_pressure_angle(const LobeCurve& curve, std::optional<Phase> phase = std::nullopt);

}  // namespace lobewright::profile
