/// A law of follower motion made ready for many evaluations.
#pragma once

#include <lobewright/law.h>

namespace lobewright {

class Law {
  public:
    /// `powers` is used by the power polynomial alone; required there: ascending, the first is 2.
    Law(LawKind kind, const std::vector<int>& powers);
    /// Required: 0 <= x <= 1.
    [[nodiscard]] LawValue at(double x) const;

  private:
    LawKind kind_;
    std::vector<int> powers_;
    std::vector<double> coefficients_;
};

}  // namespace lobewright
