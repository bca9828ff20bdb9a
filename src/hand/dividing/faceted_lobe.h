/// One lobe under the cutter of a dividing head or rotary table.
#pragma once

#include "hand/dividing/index_grid.h"
#include "hand/finish/facet_ridge.h"

#include <lobewright/lobe.h>

namespace lobewright::hand {

/// Places on the grid to cuts in the lobe's frame. Lobe and method outlive it.
class FacetedLobe {
  public:
    /// `blank_radius` only where the bar is known; no `cutter_radius`: its flat end cuts. `left_on` all
    /// round, along the normal.
    FacetedLobe(const SolvedLobe& lobe, const HandMethod& method, std::optional<double> cutter_radius,
                std::optional<double> blank_radius, double left_on);

    /// The shaft direction that faces the cutter, unwrapped.
    [[nodiscard]] ShaftAngle facing(const IndexGrid& grid, long long space) const;
    [[nodiscard]] Facet facet(const IndexGrid& grid, long long space) const;
    /// Height over the design with its allowance of what two neighbouring facets leave between them; nothing
    /// where they don't meet, and no bar ends what stands there.
    [[nodiscard]] std::optional<double> ridge(const IndexGrid& grid, long long space, long long next) const;
    /// The same of facets that are known, the second being the next in the sense of counting.
    [[nodiscard]] std::optional<double> ridge(Facet first, Facet second) const;
    [[nodiscard]] const SolvedLobe& lobe() const { return lobe_; }

  private:
    const SolvedLobe& lobe_;
    const HandMethod& method_;
    TouchMap map_;
    std::optional<double> cutter_radius_;
    std::optional<double> blank_radius_;
    double left_on_;
};

}  // namespace lobewright::hand
