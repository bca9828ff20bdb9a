/// A probe on a contour: what it reads in any direction, exactly.
///
/// This room holds the envelope of the probe: where an anvil, a ball or a knife edge touches a lobe.
#pragma once

#include <lobewright/contour.h>
#include <lobewright/job.h>

#include <vector>

namespace lobewright::inspection {

/// Lobe's frame, mm. The probe moves along the ray from the shaft's axis in the direction `beta` that faces
/// it.
struct ProbeTouch {
    double height = 0.0;  ///< of the probe over where it stands on the base circle: the reading
    double slope = 0.0;   ///< mm per radian of `beta`; of an anvil also how far ccw of its middle it touches
    /// Reading for every mm that the lobe grows along its normal: 1 / cos of the angle between normal and
    /// ray.
    double growth = 1.0;
    Vec2 point;  ///< the contour's point that touches
};

/// The reading is the largest height at which the probe touches anything: over all points P of the contour,
/// of P·u for an anvil, and of P·u + sqrt(r² - (P×u)²) for a ball of radius r (a knife: r = 0), u the ray.
/// Corners count as themselves, and a hollow that the probe can't enter is bridged. The largest stands at a
/// corner or where the probe's centre P + r N (the anvil's normal N) lies on the ray, which is solved for on
/// every stretch where its direction only grows; of arcs and straight lines by closed forms, else to the last
/// bits.
class ContourProbe {
  public:
    ContourProbe(const Contour& contour, double base_radius, const Probe& probe);
    [[nodiscard]] ProbeTouch touch(double beta) const;
    [[nodiscard]] double height(double beta) const { return touch(beta).height; }

  private:
    /// A part of the contour over which the direction of the probe's centre grows from `from` to `to`.
    struct Stretch {
        enum class Form { curve, circle, line, corner };
        Form form = Form::curve;
        std::size_t piece = 0;
        double start = 0.0;  ///< of a curve, in the piece's parameter
        double end = 0.0;
        double from = 0.0;  ///< radians, [-π, π]; `to` may run on
        double to = 0.0;
        Vec2 centre;          ///< circle: its own; line: its outward normal; corner: the point
        double radius = 0.0;  ///< circle: 1 / curvature, signed; line: its distance from the axis
    };

    [[nodiscard]] Vec2 pointing(const ContourPoint& at) const;
    [[nodiscard]] double opening(const ContourPoint& at) const;
    void add_piece(std::size_t index);
    void add_curve(std::size_t index, double start, double end);
    void add_span(std::size_t index, double start, double end);
    void add_corner(const ContourPoint& before, const ContourPoint& after);
    void add(Stretch stretch, Vec2 first, Vec2 last);
    void sort_into_bins();
    [[nodiscard]] ContourPoint on_curve(const Stretch& stretch, Vec2 ray, double share) const;
    [[nodiscard]] ContourPoint on_stretch(const Stretch& stretch, Vec2 ray, double share) const;
    [[nodiscard]] double reach(Vec2 point, Vec2 ray) const;
    [[nodiscard]] ProbeTouch touch_of(const ContourPoint& at, double distance, Vec2 ray) const;

    std::vector<ContourPiece> pieces_;
    double base_radius_;
    bool flat_;
    double radius_;
    std::vector<Stretch> stretches_;
    std::vector<std::size_t> bin_starts_;  ///< by direction: where the bin's stretches begin in in_bins_
    std::vector<std::size_t> in_bins_;     ///< stretches that reach into the bins, bin by bin
};

}  // namespace lobewright::inspection
