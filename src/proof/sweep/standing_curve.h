/// What stands of a lobe before anything cuts it: a closed curve round the shaft's axis, the same in every
/// plane across the lobe.
#pragma once

#include <vector>

namespace lobewright::proof {

class StandingCurve {
  public:
    struct Node {
        double psi = 0.0;     ///< radians
        double radius = 0.0;  ///< mm
        double slope = 0.0;   ///< mm per radian
    };
    /// `nodes`: psi ascending over one turn, both ends included; two of the same psi make a kink.
    explicit StandingCurve(std::vector<Node> nodes) : nodes_(std::move(nodes)) {}

    /// On the ray in direction `psi`, between nodes by the cubic through radii and slopes.
    [[nodiscard]] Node on(double psi) const;

  private:
    std::vector<Node> nodes_;
};

}  // namespace lobewright::proof
