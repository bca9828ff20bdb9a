/// Angles that can't be mixed up: each frame of reference has a type of its own.
#pragma once

#include <compare>
#include <numbers>

namespace lobewright {

/// An unbounded angle in one frame. Two angles of different frames neither add nor compare; crossing from one
/// frame to another is always a written-out step with a named factor or sense.
template <class Frame>
class Angle {
  public:
    constexpr Angle() = default;
    static constexpr Angle from_radians(double radians) { return Angle{radians}; }
    static constexpr Angle from_degrees(double degrees) {
        return Angle{degrees * (std::numbers::pi / 180.0)};
    }

    [[nodiscard]] constexpr double radians() const { return radians_; }
    [[nodiscard]] constexpr double degrees() const { return radians_ * (180.0 / std::numbers::pi); }

    constexpr auto operator<=>(const Angle&) const = default;  // NOLINT(modernize-use-nullptr)
    constexpr Angle operator-() const { return Angle{-radians_}; }
    constexpr Angle& operator+=(Angle other) { return radians_ += other.radians_, *this; }
    constexpr Angle& operator-=(Angle other) { return radians_ -= other.radians_, *this; }
    friend constexpr Angle operator+(Angle a, Angle b) { return a += b; }
    friend constexpr Angle operator-(Angle a, Angle b) { return a -= b; }
    friend constexpr Angle operator*(Angle a, double factor) { return Angle{a.radians_ * factor}; }
    friend constexpr Angle operator*(double factor, Angle a) { return a * factor; }
    friend constexpr Angle operator/(Angle a, double divisor) { return Angle{a.radians_ / divisor}; }
    friend constexpr double operator/(Angle a, Angle b) { return a.radians_ / b.radians_; }

  private:
    constexpr explicit Angle(double radians) : radians_(radians) {}
    double radians_ = 0.0;
};

/// Cam angle α: runs in time; α = 0 is a lobe's peak (or the nose of an arcs contour), α < 0 is before it.
using CamAngle = Angle<struct CamFrame>;
/// Crank angle: 0 is cylinder 1 at top dead centre on its power stroke; runs in time.
using CrankAngle = Angle<struct CrankFrame>;
/// Shaft angle φ: a direction fixed on the shaft, counter-clockwise positive seen from the drive end; 0 is
/// the datum. In the frame of one lobe (nose at 0) it is written β in the comments.
using ShaftAngle = Angle<struct ShaftFrame>;
/// A direction that stands still in space, counter-clockwise positive seen from the drive end.
using SpaceAngle = Angle<struct SpaceFrame>;

inline constexpr double full_turn = 2.0 * std::numbers::pi;

/// The same direction in (-180, 180] degrees. The one function that owns normalisation.
double wrapped_radians(double radians);
template <class Frame>
Angle<Frame> wrapped(Angle<Frame> angle) {
    return Angle<Frame>::from_radians(wrapped_radians(angle.radians()));
}

/// Way round, seen from the drive end of the shaft.
enum class Sense { ccw, cw };
/// +1 for ccw, -1 for cw.
constexpr double sign_of(Sense sense) {
    return sense == Sense::ccw ? 1.0 : -1.0;
}

}  // namespace lobewright
