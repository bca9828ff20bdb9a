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
    /// S(x), 0 <= x <= 1, by the formula that holds at `inside`: x lies between the same two neighbouring
    /// joints, which count for both sides.
    [[nodiscard]] LiftSeries rise(const LiftSeries& x, double inside) const;
    [[nodiscard]] LiftBoundSeries rise(const LiftBoundSeries& x, double inside) const;

  private:
    template <class T>
    [[nodiscard]] T formula(const T& x, double inside) const;

    LawKind kind_;
    std::vector<int> powers_;
    std::vector<double> coefficients_;
};

}  // namespace lobewright::profile
