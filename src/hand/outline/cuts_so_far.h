/// The cuts made so far on one lobe, to tell what metal the next one meets.
#pragma once

#include "hand/outline/hand_cut.h"

#include <map>
#include <vector>

namespace lobewright::hand {

/// All touching the same convex design. Where one more cut first meets metal depends on its two neighbours
/// alone: the contours of two such cuts cross once on the side between them, and past that crossing the
/// neighbour leaves nothing that the new cut could reach.
class CutsSoFar {
  public:
    void add(const HandCut& cut);
    /// The nearest cuts on either side of a direction; none, one or two.
    [[nodiscard]] std::vector<HandCut> beside(ShaftAngle facing) const;

  private:
    std::map<ShaftAngle, HandCut> cuts_;  ///< by direction in [0, 2π)
};

}  // namespace lobewright::hand
