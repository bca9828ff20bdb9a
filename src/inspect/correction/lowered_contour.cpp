#include "inspect/correction/lowered_contour.h"

#include <lobewright/angle.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace lobewright::inspection {
namespace {

/// Of a piece's parameter: a part shorter than this is rounding at a joint.
constexpr double sliver = 1e-9;
constexpr double about_axis = 1e-12;

/// Steps from -pi on to a direction, less whole turns.
double steps_round(double direction, double step, std::size_t count) {
    const double steps = (direction + std::numbers::pi) / step;
    const double turn = static_cast<double>(count);
    return steps - turn * std::floor(steps / turn);
}

bool is_about_axis(const ContourPiece& piece) {
    if (!piece.circular) return false;
    const ContourPoint at = piece.at(piece.start);
    const double radius = length(at.point);
    return std::abs(at.curvature * radius - 1.0) < about_axis * 1e3 &&
           std::abs(cross(at.point, at.normal)) < about_axis * radius * 1e3;
}

/// Takes the pieces apart and lowers each part.
class Lowerer {
  public:
    Lowerer(const Contour& contour, const Lowering& lowering) : contour_(contour), lowering_(lowering) {}

    Contour lowered_contour() {
        for (const ContourPiece& piece : contour_.pieces())
            take(piece);
        ContourExtremes extremes;
        extremes.largest_radius = contour_.largest_radius();  // no point is lifted
        extremes.smallest_convex_radius = std::numeric_limits<double>::infinity();
        for (const ContourPiece& part : parts_)
            look_at_curvature(part, extremes);
        return Contour(std::move(parts_), extremes);
    }

  private:
    /// The parameters of a piece at the knots within it, ascending.
    [[nodiscard]] std::vector<double> knots_in(const ContourPiece& piece) const {
        const double from = direction(piece.at(piece.start).point);
        double width = wrapped_radians(direction(piece.at(piece.end).point) - from);
        if (width <= 0.0) width += full_turn;
        std::vector<double> found;
        const double step = lowering_.step();
        const double first = steps_round(from, step, lowering_.size());
        for (double knot = std::floor(first) + 1.0; (knot - first) * step < width; knot += 1.0) {
            const auto index = static_cast<std::size_t>(knot) % lowering_.size();
            const std::size_t before = (index + lowering_.size() - 1) % lowering_.size();
            if (lowering_.level_after(before) && lowering_.level_after(index)) continue;
            found.push_back(parameter_at(piece, lowering_.direction_of(index)));
        }
        return found;
    }

    /// Where the ray meets the piece: the direction only grows along it.
    [[nodiscard]] static double parameter_at(const ContourPiece& piece, double wanted) {
        constexpr int halvings = 52;
        double low = piece.start, high = piece.end;
        const double from = direction(piece.at(low).point);
        const double target = wanted - from - full_turn * std::floor((wanted - from) / full_turn);
        for (int i = 0; i < halvings; ++i) {
            const double middle = 0.5 * (low + high);
            const double way = direction(piece.at(middle).point) - from;
            (way - full_turn * std::floor(way / full_turn) < target ? low : high) = middle;
        }
        return 0.5 * (low + high);
    }

    void take(const ContourPiece& piece) {
        std::vector<double> ends = knots_in(piece);
        ends.push_back(piece.end);
        double start = piece.start;
        const double least = sliver * (piece.end - piece.start);
        for (const double end : ends) {
            if (end - start < least || (end != piece.end && piece.end - end < least)) continue;
            add_part(piece, start, end);
            start = end;
        }
    }

    void add_part(const ContourPiece& piece, double start, double end) {
        const double middle = direction(piece.at(0.5 * (start + end)).point);
        const auto knot = static_cast<std::size_t>(steps_round(middle, lowering_.step(), lowering_.size())) %
                          lowering_.size();
        const bool level = lowering_.level_after(knot);
        const bool as_it_is = level && lowering_.coefficient(knot) == 0.0;
        const auto at = [at = piece.at, lowering = lowering_](double t) {
            const ContourPoint point = at(t);
            return lowered_point(point, lowering.at(direction(point.point)));
        };
        ContourPiece part{piece.name, start, end, at, level && is_about_axis(piece)};
        if (as_it_is) part.at = piece.at, part.circular = piece.circular;
        parts_.push_back(std::move(part));
    }

    /// What refusals name; the path finds out by itself what it can reach.
    static void look_at_curvature(const ContourPiece& part, ContourExtremes& extremes) {
        constexpr int places = 4;
        for (int i = 0; i <= places; ++i) {
            const double t = part.start + (part.end - part.start) * i / places;
            const double curvature = part.at(t).curvature;
            if (curvature > 0.0)
                extremes.smallest_convex_radius = std::min(extremes.smallest_convex_radius, 1.0 / curvature);
            if (curvature < 0.0)
                extremes.smallest_hollow_radius = std::min(extremes.smallest_hollow_radius, -1.0 / curvature);
        }
    }

    const Contour& contour_;
    const Lowering& lowering_;
    std::vector<ContourPiece> parts_;
};

}  // namespace

double Lowering::step() const {
    return full_turn / static_cast<double>(coefficients_.size());
}

double Lowering::direction_of(std::size_t index) const {
    return static_cast<double>(index) * step() - std::numbers::pi;
}

double Lowering::coefficient(std::ptrdiff_t index) const {
    const auto count = static_cast<std::ptrdiff_t>(coefficients_.size());
    return coefficients_[static_cast<std::size_t>((index % count + count) % count)];
}

bool Lowering::level_after(std::size_t knot) const {
    const auto k = static_cast<std::ptrdiff_t>(knot);
    const double here = coefficient(k);
    return coefficient(k - 1) == here && coefficient(k + 1) == here && coefficient(k + 2) == here;
}

Lowering::Rise Lowering::at(double direction) const {
    const double steps = steps_round(direction, step(), size());
    const auto k = static_cast<std::ptrdiff_t>(steps);
    const double u = steps - static_cast<double>(k), v = 1.0 - u, h = step();
    const double a = coefficient(k - 1), b = coefficient(k), c = coefficient(k + 1), d = coefficient(k + 2);
    if (a == b && b == c && c == d) return {b, 0.0, 0.0};
    Rise rise;
    rise.value = (a * v * v * v + b * (4.0 - 6.0 * u * u + 3.0 * u * u * u) +
                  c * (4.0 - 6.0 * v * v + 3.0 * v * v * v) + d * u * u * u) /
                 6.0;
    rise.slope =
        (-a * v * v + b * (3.0 * u * u - 4.0 * u) + c * (4.0 * v - 3.0 * v * v) + d * u * u) / (2.0 * h);
    rise.bend = (a * v + b * (3.0 * u - 2.0) + c * (3.0 * v - 2.0) + d * u) / (h * h);
    return rise;
}

ContourPoint lowered_point(const ContourPoint& at, const Lowering::Rise& rise) {
    // The contour as q = 1/R over its polar direction; R' and R'' from its normal and its curvature.
    const double radius = length(at.point);
    const Vec2 out = at.point / radius, on = quarter_turn(out);
    const double lean = dot(at.normal, out);
    const double slope = -radius * dot(at.normal, on) / lean;
    const double pace = std::sqrt(radius * radius + slope * slope);
    const double q = 1.0 / radius + rise.value, q1 = -slope / (radius * radius) + rise.slope;
    const double designed = -slope / radius;  // q'/q of the design
    const double tilt = 1.0 + designed * designed;
    const double sum = at.curvature * tilt * std::sqrt(tilt) + rise.value + rise.bend;  // q + q''
    const double r = 1.0 / q, r1 = -q1 / (q * q);
    const double paced = std::sqrt(r * r + r1 * r1);
    const double steepness = 1.0 + (q1 / q) * (q1 / q);
    return {r * out, (r * out - r1 * on) / paced, sum / (steepness * std::sqrt(steepness)),
            at.speed / pace * paced};
}

Contour lowered(const Contour& contour, const Lowering& lowering) {
    return Lowerer(contour, lowering).lowered_contour();
}

}  // namespace lobewright::inspection
