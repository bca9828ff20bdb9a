/// What has cut the shaft before the program that is proven.
#pragma once

#include "proof/sweep/moves_along_shaft.h"
#include "proof/sweep/standing_curve.h"

#include <memory>
#include <vector>

namespace lobewright::proof {

/// One earlier program: its moves and the cutter that made them. It stays where it is.
class EarlierCut {
  public:
    /// `stock`: radius of the round bar, mm.
    EarlierCut(CutterBody body, ShaftMoves moves, double stock)
        : body_(std::move(body)),
          moves_(std::move(moves)),
          cutting_(moves_below(moves_, body_.cutting, stock)) {}
    EarlierCut(const EarlierCut&) = delete;
    EarlierCut& operator=(const EarlierCut&) = delete;

    [[nodiscard]] const CutterPart& cutter() const { return body_.cutting; }
    [[nodiscard]] const MovesAlongShaft& cutting() const { return cutting_; }
    [[nodiscard]] int moves() const { return moves_.size(); }

  private:
    CutterBody body_;
    ShaftMoves moves_;
    MovesAlongShaft cutting_;
};

/// In the order in which they cut.
using EarlierCuts = std::vector<std::shared_ptr<const EarlierCut>>;

/// What stands of a lobe before the program's first move: the bar, no more than `curve` of it where there is
/// one, cut by `cuts`.
struct StockBefore {
    const StandingCurve* curve = nullptr;
    const EarlierCuts* cuts = nullptr;
};

}  // namespace lobewright::proof
