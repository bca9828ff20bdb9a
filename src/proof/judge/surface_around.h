/// What is left around a lobe, half a degree by half a degree, over all of its planes.
#pragma once

#include "proof/sweep/shaft_moves.h"

#include <lobewright/proof.h>

#include <limits>
#include <vector>

namespace lobewright::proof {

class SurfaceAround {
  public:
    SurfaceAround() : bins_(surface_places) {}

    /// A ray in direction `psi`, radians, and what the move (-1: none) left on it, mm along the normal.
    void take(double psi, double off, int move);
    [[nodiscard]] std::vector<SurfacePlace> places(const ShaftMoves& moves) const;

  private:
    struct Bin {
        double deepest = std::numeric_limits<double>::infinity();
        double proudest = -std::numeric_limits<double>::infinity();
        int move = -1;
    };
    std::vector<Bin> bins_;
};

/// The worse of both at each place.
void worsen(std::vector<SurfacePlace>& around, const std::vector<SurfacePlace>& other);

}  // namespace lobewright::proof
