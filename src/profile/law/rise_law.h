/// A law of follower motion made ready for many evaluations. This room holds the named laws, and the motion
/// that a profile of them makes.
#pragma once

#include "profile/motion/motion_piece.h"

#include <lobewright/law.h>

namespace lobewright::profile {

class RiseLaw {
  public:
    /// `powers` is used by the power polynomial alone; required there: ascending, the first is 2.
    RiseLaw(LawKind kind, const std::vector<int>& powers);
    /// S(x), 0 <= x <= 1.
    [[nodiscard]] LiftSeries rise(const LiftSeries& x) const;
    /// Required: x lies between two neighbouring joints.
    [[nodiscard]] LiftBoundSeries rise(const LiftBoundSeries& x) const;

  private:
    template <class T>
    [[nodiscard]] T formula(const T& x) const;

    LawKind kind_;
    std::vector<int> powers_;
    std::vector<double> coefficients_;
};

}  // namespace lobewright::profile
