/// What a program's moves take off the rays of a plane, one after the other.
#pragma once

#include "proof/sweep/plane_sweep.h"

#include <vector>

namespace lobewright::proof {

/// How far down a move comes on a ray.
struct CutOnRay {
    int move = 0;
    double radius = 0.0;  ///< mm
    double beside = 0.0;  ///< radians from the ray to where the cutter faces as it reaches it, -pi to pi
};

/// The steps of a plane in the order of their moves. The plane must stay.
class CutsInOrder {
  public:
    explicit CutsInOrder(const PlaneSweep& plane);

    /// The moves that take something off the ray in direction `psi`, in their order: each comes lower than
    /// what stood there before the program, and than every move before it.
    [[nodiscard]] std::vector<CutOnRay> on(double psi) const;

  private:
    struct Place {
        double least_low = 0.0;
        int move = 0;
        int step = 0;
        unsigned sector = 0;
    };

    const PlaneSweep& plane_;
    std::vector<Place> places_;
};

}  // namespace lobewright::proof
