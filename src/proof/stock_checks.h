/// What must never touch: rapids and standing spindles the stock, necks, shanks and holders anything,
/// everything the journals. The stock is what the moves before have left of the blank.
#pragma once

#include "proof/findings.h"
#include "proof/lobe_planes.h"

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
    StockChecker(const std::vector<ShaftMove>& moves, const CutterBody& body, double stock);

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
    /// A move that must not touch.
    struct Suspect {
        int move = 0;
        std::optional<Touch> touch;
    };
    struct BluntPart {
        const CutterPart* part = nullptr;
        std::vector<std::pair<Touch, int>> worst;  ///< by lobe: touch and move
    };

    void look_for_rapids(const PlaneSweep& plane, const LobePlanes& lobe);
    void look_for_standing_spindle(const PlaneSweep& plane, const LobePlanes& lobe);
    void look_for_blunt(BluntPart& blunt, const PlaneSweep& plane, const LobePlanes& lobe) const;
    std::optional<Touch> touch_of(const std::vector<ShaftMove>& path, const PlaneSweep& plane,
                                  const LobePlanes& lobe, int before) const;
    static std::string where(const Touch& touch);

    const std::vector<ShaftMove>& moves_;
    const CutterBody& body_;
    std::vector<Suspect> rapids_;
    std::vector<int> standing_;  // feeds with the spindle off, by index
    std::optional<std::pair<int, Touch>> spindle_;
    std::vector<BluntPart> blunt_;
};

/// Every part of the cutter against the journals.
void check_journals(const std::vector<ShaftMove>& moves, const CutterBody& body, const Shaft& shaft,
                    Findings& findings);

}  // namespace lobewright::proof
