/// A follower's motion over the cam angle: lift and its first three derivatives, exact.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/interval.h>

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// Lift in mm at a cam angle, with its derivatives by the cam angle in mm/rad, mm/rad², mm/rad³.
struct Lift {
    double lift = 0.0;
    double velocity = 0.0;
    double acceleration = 0.0;
    double jerk = 0.0;
};

/// A figure and the cam angle at which it stands; no angle where it is the same all over, but for rounding.
struct FigureAt {
    double value = 0.0;
    std::optional<CamAngle> at;
};

/// What an extreme that is told may fall short of the true one by, of the figure's largest size.
inline constexpr double extreme_margin = 1e-10;

/// What the lift and its first five derivatives by the cam angle (mm, mm/rad, ... mm/rad⁵) do not leave on a
/// stretch.
using LiftBounds = std::array<Interval, 6>;

/// One stretch of a motion, smooth inside: `at` takes the cam angle in radians, from `start` to `end`.
struct MotionPiece {
    std::string
        name;  ///< the trade's word: "base circle", "opening ramp", "opening flank", "dwell", "nose", ...
    double start = 0.0;
    double end = 0.0;
    std::function<Lift(double)> at;
    /// Bounds over a part of the stretch, as tight as that part is short; of a single angle the values.
    /// Unbounded where nothing can be said of so long a part.
    std::function<LiftBounds(const Interval&)> within;
    bool constant = false;  ///< the follower stands still: base circle or dwell
    std::optional<double> curvature =
        std::nullopt;  ///< 1/mm, of the arc of the lobe that it rides on, where there is one
};

/// A motion over one period (a whole turn, or 360/n for n lobes on a ring): pieces that join without gaps, in
/// the order of time, from -period/2 to +period/2.
class Motion {
  public:
    Motion() = default;
    /// Required: pieces join end to end and cover [-period/2, period/2].
    Motion(std::vector<MotionPiece> pieces, double period_radians);

    /// At a joint of two pieces, the derivatives are those of the piece that starts there.
    [[nodiscard]] Lift at(CamAngle angle) const;
    /// The piece at that angle, and the angle as it counts there, radians.
    struct PieceAngle {
        const MotionPiece& piece;
        double angle;
    };
    [[nodiscard]] PieceAngle piece_at(CamAngle angle) const;
    [[nodiscard]] const std::vector<MotionPiece>& pieces() const { return pieces_; }
    [[nodiscard]] CamAngle period() const { return CamAngle::from_radians(period_); }

  private:
    std::vector<MotionPiece> pieces_;
    double period_ = full_turn;
};

/// Cam angles at which the lift rises above `threshold` (mm, >= 0) and falls to it again, on either side of
/// the peak (the first, where there are several); unwrapped: `opens` lies before the peak and `closes` after
/// it, less than a period apart.
struct LiftEvents {
    CamAngle opens;
    CamAngle closes;
};
/// Required: threshold is less than the largest lift; with 0, the ends of the base circle. Found by samples
/// at most half a degree apart, outwards from the peak, then to full double accuracy (Boost.Math, toms748).
LiftEvents events_at(const Motion& motion, double threshold);

}  // namespace lobewright
