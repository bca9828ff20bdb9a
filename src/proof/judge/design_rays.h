/// The design as rays from the shaft's axis: where each meets the contour, and how it leans to the normal
/// there.
#pragma once

#include <lobewright/lobe.h>

#include <vector>

namespace lobewright::proof {

struct DesignRay {
    double psi = 0.0;     ///< radians, in the lobe's frame turned by the lobe's `at`; rises along the contour
                          ///< over one turn
    double radius = 0.0;  ///< mm, allowance included
    double slope = 0.0;   ///< of the radius, mm per radian
    double lean = 1.0;    ///< cosine of the angle between the normal and the ray
    double curvature = 0.0;  ///< 1/mm, of the design with its allowance
    double speed = 0.0;      ///< mm of the design per unit of t
    std::size_t piece = 0;
    double t = 0.0;  ///< the piece's own parameter
};

class Design {
  public:
    /// Required: the contour's pieces run ccw round the axis.
    Design(const SolvedLobe& lobe, double allowance);

    /// The ray to the contour's own point at t.
    [[nodiscard]] DesignRay at(std::size_t piece, double t) const;

    /// On the base circle.
    [[nodiscard]] bool on_heel(const DesignRay& ray) const;

    /// Rays round the whole contour, `psi` ascending. Between neighbours nothing that a section of curvature
    /// `section_curvature` (1/mm) leaves deeper than `hidden` (mm) has room: over the chord s a dip of
    /// relative curvature κ is s²κ/8 deep. Never further apart than two degrees.
    [[nodiscard]] std::vector<DesignRay> rays(double section_curvature, double hidden) const;

    /// A ray near `psi`, between two neighbours of `rays` (by linear interpolation of the parameter).
    [[nodiscard]] DesignRay between(const DesignRay& before, const DesignRay& after, double psi) const;

  private:
    const Contour& contour_;
    double at_, base_radius_, allowance_;
};

}  // namespace lobewright::proof
