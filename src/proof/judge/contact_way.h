/// How a section runs along the design that it only touches.
#pragma once

#include "proof/judge/design_rays.h"
#include "proof/section/cutter_section.h"

#include <vector>

namespace lobewright::proof {

/// The way of the contact on the design, by the facing of the section that only touches it there. An arc of
/// radius r touches where its centre stands on the normal, at p + r n; a flat where the normal is its own
/// direction. Facings run with the contour; in hollows that the section can't enter they are held back. On a
/// straight flank under a flat the contact leaps at one facing; a stretch that begins or ends there does
/// without the leap.
class ContactWay {
  public:
    ContactWay(const std::vector<DesignRay>& rays, const PlaneSection& section);

    /// mm along the design between two facings, radians, in either order.
    [[nodiscard]] double between(double facing_a, double facing_b) const;
    /// mm by which the section's lowest point comes nearer to the axis from the one facing to the other:
    /// negative where it goes out.
    [[nodiscard]] double fall(double facing_a, double facing_b) const;

  private:
    /// Between two places of the way, and the turns before them.
    struct Share {
        std::size_t after = 0;
        double of_gap = 0.0;
        double turns = 0.0;
    };
    [[nodiscard]] Share share_at(double facing) const;
    [[nodiscard]] double at(double facing) const;
    [[nodiscard]] double low_at(double facing) const;

    std::vector<double> facings_, ways_, lows_;
};

}  // namespace lobewright::proof
