/// How much a program takes off at a time, and how: depths, chips, plunges, dwells in the metal.
#pragma once

#include "proof/judge/findings.h"
#include "proof/judge/lobe_planes.h"
#include "proof/sweep/cuts_in_order.h"

#include <map>

namespace lobewright::proof {

/// Depths on rays of the design, in some planes of each lobe. Blocks are taken in their order: each takes
/// what it reaches of that which those before it left, counted along the design's outward normal. The blocks
/// that follow each other on one ray while the cutter passes it make a passage; a passage's depth is what a
/// pass takes there, in however many blocks.
class TakenStock {
  public:
    /// Required: the job meets the needs of Purpose::prove.
    TakenStock(const Job& job, const ShaftMoves& moves, const CutterBody& body,
               std::vector<ShaftDwell> dwells);

    void look_at(const PlaneSweep& plane, const LobePlanes& lobe);
    void report(Findings& findings) const;

    /// mm, of one feed block, and its line; 0 where nothing is cut.
    [[nodiscard]] double largest_depth() const { return largest_.depth; }
    [[nodiscard]] int largest_depth_line() const { return line(largest_.move); }
    /// mm, of a tooth's chip where it is thickest; nothing for a wheel.
    [[nodiscard]] std::optional<double> thickest_chip() const;

  private:
    struct Taken {
        double depth = 0.0;  // mm
        int move = -1;
        const SolvedLobe* lobe = nullptr;
        double psi = 0.0;
        double speed = 0.0;  // of a chip: mm/min along the surface, to which it is in proportion
    };
    /// What the cutter takes on a ray while it passes it once.
    struct Passage {
        double facing = 0.0;     // radians, as it runs on: where it faces the ray
        int last = 0;            // its last move so far
        double depth = 0.0;      // mm
        Taken most;              // of one block
        double radius = 0.0;     // mm, of what it leaves
        double curvature = 0.0;  // 1/mm, likewise
    };

    /// `standing`: before the first of the cuts.
    void look_along(const std::vector<CutOnRay>& cuts, double standing, const LobePlanes& lobe,
                    const DesignRay& ray);
    [[nodiscard]] double passes_at(const CutOnRay& cut, double psi) const;
    [[nodiscard]] bool same_passage(const Passage& passage, double facing, int move) const;
    void look_at_dwells(const PlaneSweep& plane, const LobePlanes& lobe);
    [[nodiscard]] bool touches(const ShaftDwell& dwell, const PlaneSweep& plane,
                               const LobePlanes& lobe) const;
    void take(const Taken& block, double radius, const ContactWay& way);
    void close(const Passage& passage);
    [[nodiscard]] double surface_speed(const ShaftMove& move, double radius) const;
    [[nodiscard]] double chip(const Passage& passage) const;
    [[nodiscard]] double chip_on_round(const Passage& passage) const;
    [[nodiscard]] double thinning(double depth) const;
    [[nodiscard]] int line(int move) const { return move < 0 ? 0 : moves_.line(move); }

    const ShaftMoves& moves_;
    const CutterBody& body_;
    const Cutter& cutter_;
    const Cut& cut_;
    CutterAxis axis_;
    std::vector<ShaftDwell> dwells_;
    std::vector<int> rapids_;  // indices of moves, ascending
    Taken largest_, plunge_;
    std::map<int, Taken> too_deep_;                     // by move, of a passage
    Taken thickest_;                                    // depth: the chip's
    std::map<int, const SolvedLobe*> dwells_in_metal_;  // by line
};

}  // namespace lobewright::proof
