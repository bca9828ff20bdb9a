/// How fast a program lets the cut run along the finished surface.
#pragma once

#include "proof/judge/findings.h"
#include "proof/judge/lobe_planes.h"
#include "proof/sweep/move_marks.h"

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

  private:
    [[nodiscard]] double at(double facing) const;

    std::vector<double> facings_, ways_;
};

/// The contact's mean speed over each of the moves that finish the surface (see judge_plane), against the
/// job's feed: above it by half as much again an error, by a tenth a warning.
void check_surface_feed(const ShaftMoves& moves, const MoveMarks& finishes, const LobePlanes& lobe,
                        const CutterPart& cutting, double surface_feed, Findings& findings);

}  // namespace lobewright::proof
