/// Extremes of what a lobe does to its follower over one turn.
#pragma once

#include <lobewright/lobe.h>
#include <lobewright/soundness.h>

#include <functional>
#include <vector>

namespace lobewright {

/// The follower's contact round the lobe, sampled once, for any number of extremes.
class LobeCurve {
  public:
    using Quantity = std::function<double(const FollowerContact&)>;

    explicit LobeCurve(const SolvedLobe& lobe);

    /// The largest value over the period, and where: on each smooth piece of the motion the best of samples
    /// half a degree apart, then Brent's minimum search between its neighbours; at the pieces' ends the
    /// values from inside. Of equal ones the first in time. To about 1e-9 of its size for what varies over
    /// more than a degree.
    [[nodiscard]] FigureAt largest(const Quantity& quantity) const;
    [[nodiscard]] FigureAt least(const Quantity& quantity) const;

  private:
    struct Piece {
        double start, end;           // as the motion has them
        std::vector<double> angles;  // a hair within
        std::vector<FollowerContact> contacts;
    };
    const SolvedLobe& lobe_;
    std::vector<Piece> pieces_;
};

}  // namespace lobewright
