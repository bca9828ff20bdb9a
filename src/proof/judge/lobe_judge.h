/// Judges one lobe after the other, plane by plane.
#pragma once

#include "proof/judge/between_places.h"
#include "proof/judge/plane_verdict.h"
#include "proof/judge/stock_checks.h"
#include "proof/judge/taken_stock.h"

#include <lobewright/proof.h>

namespace lobewright::proof {

class LobeJudge {
  public:
    LobeJudge(const Job& job, const CutterBody& body, const ShaftMoves& moves, double blending,
              const EarlierCuts& earlier, StockChecker& stock_checker, TakenStock& taken_stock,
              Findings& findings);

    /// `worn`: mm of radius that a wheel has lost before it comes to this lobe.
    LobeVerdict judge(const SolvedLobe& lobe, double worn = 0.0);
    /// mm: bound on what the comparisons so far may have missed.
    [[nodiscard]] double resolution() const { return resolution_; }
    [[nodiscard]] const MovesAlongShaft& cutting_moves() const { return cutting_; }

  private:
    [[nodiscard]] PlaneSweep plane_at(double z) const;
    PlaneExtreme take_plane(const PlaneSweep& plane, const LobePlanes& lobe, LobeVerdict& verdict);
    void take_planes(const LobePlanes& lobe, LobeVerdict& verdict);
    void look_between_places(const LobePlanes& lobe, LobeVerdict& verdict);
    void look_along_helix(const LobePlanes& lobe, LobeVerdict& verdict);
    void follow_ridge(const PlacePair& pair, double middle, const LobePlanes& lobe, LobeVerdict& verdict);
    [[nodiscard]] Deviation deviation_of(const PlaneExtreme& extreme, const PlaneSweep& plane) const;
    void settle(LobeVerdict& verdict);

    const Job& job_;
    const CutterBody& new_body_;
    CutterBody body_;  // as it is at this lobe
    const ShaftMoves& moves_;
    double blending_, stock_;
    const EarlierCuts& earlier_;
    std::optional<StandingCurve> standing_;  // of the lobe that is judged, before anything cuts
    StockChecker& stock_checker_;
    TakenStock& taken_stock_;
    Findings& findings_;
    CuttingPlaces places_;
    MovesAlongShaft cutting_;
    MoveMarks finishes_;    // of the moves, for one lobe
    SurfaceAround around_;  // likewise
    double resolution_;
};

}  // namespace lobewright::proof
