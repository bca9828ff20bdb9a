/// A lobe's contour: a closed chain of smooth pieces, each giving point, outward normal and curvature
/// exactly.
///
/// Frame of the lobe: the plane across the shaft, origin on its axis, the nose of the first lobe on +x, seen
/// from the drive end; turn by the lobe's `at` to get the shaft's frame. The chain runs counter-clockwise.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/plane.h>

#include <functional>
#include <limits>
#include <string>
#include <vector>

namespace lobewright {

struct ContourPoint {
    Vec2 point;   ///< mm
    Vec2 normal;  ///< unit, outward
    double curvature =
        0.0;  ///< 1/mm; positive where convex (1/base_radius on the heel), 0 straight, negative hollow
    double speed = 0.0;  ///< ds/dt > 0: arc length per unit of the piece's parameter, mm
};

/// One smooth stretch; `at` takes the piece's own parameter t from `start` to `end`, start < end, and is
/// valid there.
struct ContourPiece {
    std::string name;  ///< "base circle", "opening flank", "nose", "opening ramp", ...
    double start = 0.0;
    double end = 0.0;
    std::function<ContourPoint(double)> at;
    bool circular = false;  ///< true: an arc of constant curvature (or a straight line) exactly
};

/// Over a whole chain, mm.
struct ContourExtremes {
    double largest_radius = 0.0;          ///< the largest polar radius
    double smallest_convex_radius = 0.0;  ///< smallest radius of curvature over the convex stretches
    double smallest_hollow_radius =
        std::numeric_limits<double>::infinity();  ///< the smallest |radius| over the hollow ones; infinite if
                                                  ///< none
};

/// Pieces in ccw order; each ends where the next starts, the last where the first starts, with a common
/// tangent (but for a knife follower's or a zero-radius corner, where the normal may turn: then the joint is
/// a corner). The contour is star-shaped about the shaft's axis: the solver refuses what is not.
class Contour {
  public:
    Contour() = default;
    /// Required: every piece is circular.
    explicit Contour(const std::vector<ContourPiece>& arcs);
    Contour(std::vector<ContourPiece> pieces, const ContourExtremes& extremes);

    [[nodiscard]] const std::vector<ContourPiece>& pieces() const { return pieces_; }

    /// Where the ray from the axis in direction `beta` (lobe's frame) meets the contour, to
    /// `ray_precision` of its radius across the ray: Newton's steps inside a bracket that halves where they
    /// would leave it.
    static constexpr double ray_precision = 128.0 * std::numeric_limits<double>::epsilon();
    struct RayPoint {
        std::size_t piece = 0;
        double t = 0.0;
        ContourPoint at;
    };
    [[nodiscard]] RayPoint on_ray(ShaftAngle beta) const;
    /// The lobe's own radius in that direction, mm.
    [[nodiscard]] double polar_radius(ShaftAngle beta) const { return length(on_ray(beta).at.point); }

    /// Of a chain of arcs exact, of a solved lobe to `extreme_margin` (motion.h).
    [[nodiscard]] double largest_radius() const { return extremes_.largest_radius; }
    [[nodiscard]] double smallest_convex_radius() const { return extremes_.smallest_convex_radius; }
    [[nodiscard]] double smallest_hollow_radius() const { return extremes_.smallest_hollow_radius; }

  private:
    std::vector<ContourPiece> pieces_;
    // Milestones along the chain, by ascending (unwrapped) polar direction; each piece's start is one.
    struct Milestone {
        double direction = 0.0;
        std::size_t piece = 0;
        double start = 0.0;  // of the stretch, in the piece's parameter
        double end = 0.0;
    };
    std::vector<Milestone> milestones_;
    ContourExtremes extremes_;
};

}  // namespace lobewright
