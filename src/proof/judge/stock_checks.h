/// What must never touch: rapids and standing spindles the stock, necks, shanks and holders anything,
/// everything the journals. The stock is what the moves before have left of the blank.
#pragma once

#include "proof/judge/findings.h"
#include "proof/judge/lobe_planes.h"

#include <map>

namespace lobewright::proof {

/// Touching is going deeper than this, mm: clear of rounding, far below any chip.
inline constexpr double touch_depth = 1e-4;

/// Looks at one plane after the other, so that only one stands in memory; then reports.
///
/// Rapids: what they go into of the stock that is left when their turn comes. Where an axis that turns or
/// slides moves together with the radial one, the controller need not let them arrive together: such a rapid
/// must also stay clear where the axis that goes deeper is first. A rapid straight out of where the cutter
/// stands is always clear. Feeds with the spindle standing: the first that goes into the stock. Neck, shank
/// and holder: held against the blank until the first cut on a ray, against what is left at the time where
/// they come nearest, and against what is left at the end.
class StockChecker {
  public:
    StockChecker(const ShaftMoves& moves, const CutterBody& body, double stock);

    void look_at(const PlaneSweep& plane, const LobePlanes& lobe);
    /// How many rapids, by their lines, go into the stock.
    int report(Findings& findings) const;

  private:
    /// Where a move first goes into what is left.
    struct Touch {
        const SolvedLobe* lobe = nullptr;
        double psi = 0.0;
        double depth = 0.0;
        bool only_apart = false;  ///< only where the axes don't arrive together
    };
    struct BluntPart {
        const CutterPart* part = nullptr;
        MovesAlongShaft moves;                     ///< by which it comes below the blank
        std::vector<std::pair<Touch, int>> worst;  ///< by lobe: touch and move
    };

    void look_for_rapids(const PlaneSweep& plane, const LobePlanes& lobe);
    void look_for_standing_spindle(const PlaneSweep& plane, const LobePlanes& lobe);
    void look_for_blunt(BluntPart& blunt, const PlaneSweep& plane, const LobePlanes& lobe) const;
    std::optional<Touch> touch_of(const std::vector<ShaftMove>& path, const PlaneSweep& plane,
                                  const LobePlanes& lobe, int before) const;
    std::optional<Touch> rapid_touch(const ShaftMove& move, const PlaneSweep& plane, const LobePlanes& lobe,
                                     int before) const;
    /// Calls visit(index, move) for the moves that carry the cutting part over the plane.
    template <class Visit>
    void for_each_over(const MovesAlongShaft& moves, const PlaneSweep& plane, Visit visit) const {
        moves.for_each(plane.z() - body_.cutting.last, plane.z() - body_.cutting.first, visit);
    }

    const ShaftMoves& moves_;
    const CutterBody& body_;
    MovesAlongShaft rapids_, standing_;  // below the blank; standing: feeds with the spindle off
    std::map<int, Touch> rapid_touches_;
    std::optional<std::pair<int, Touch>> spindle_;
    std::vector<BluntPart> blunt_;
};

/// Every part of the cutter against the journals.
void check_journals(const ShaftMoves& moves, const CutterBody& body, const Shaft& shaft, Findings& findings);

}  // namespace lobewright::proof
