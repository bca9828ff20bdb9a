#include "proof/stock_checks.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace lobewright::proof {
namespace {

double direction_degrees(double psi) {
    return ShaftAngle::from_radians(wrapped_radians(psi)).degrees();
}

/// Whether the part lies over the plane at some time of the move.
bool passes_over(const ShaftMove& move, const CutterPart& part, double z) {
    return std::min(move.from.z, move.to.z) + part.first <= z &&
           z <= std::max(move.from.z, move.to.z) + part.last;
}

/// Where a path first goes into what the moves before `before` have left; nothing if nowhere.
struct Touch {
    const SolvedLobe* lobe = nullptr;
    double psi = 0.0;
    double depth = 0.0;
};

/// Looks first where the path leaves its trace, then on all the fixed rays.
std::optional<Touch> touch_in_plane(const std::vector<ShaftMove>& path, const CutterPart& part,
                                    const LobePlanes& lobe, const PlaneSweep& plane, int before) {
    const PlaneSweep swept(path, part, plane.z(), plane.stock());
    const auto depth_on = [&](double psi) {
        const Left left = swept.left_on(psi);
        if (left.stretch < 0) return 0.0;
        return plane.left_on(psi, -1, before).radius - left.radius;
    };
    const auto touches = [&](double psi) -> std::optional<Touch> {
        const double depth = depth_on(psi);
        return depth > touch_depth ? std::optional(Touch{lobe.lobe, psi, depth}) : std::nullopt;
    };
    if (swept.stretches().empty()) return std::nullopt;
    for (const Stretch& stretch : swept.stretches()) {
        for (const double way : {0.5 * stretch.span, 0.0, stretch.span}) {
            if (auto touch = touches(direction(trace_point(swept.section(stretch), stretch, way))))
                return touch;
        }
    }
    for (const DesignRay& ray : lobe.rays) {
        if (auto touch = touches(ray.psi)) return touch;
    }
    return std::nullopt;
}

std::optional<Touch> touch_of(const std::vector<ShaftMove>& path, const CutterPart& part,
                              const std::vector<LobePlanes>& lobes, int before) {
    for (const LobePlanes& lobe : lobes) {
        for (const PlaneSweep& plane : lobe.planes) {
            const bool over = std::any_of(path.begin(), path.end(), [&](const ShaftMove& move) {
                return move.least_tip() + part.height < plane.stock() && passes_over(move, part, plane.z());
            });
            if (!over) continue;
            if (auto touch = touch_in_plane(path, part, lobe, plane, before)) return touch;
        }
    }
    return std::nullopt;
}

/// The way with the axis first that goes deeper.
std::vector<ShaftMove> deeper_first(const ShaftMove& move) {
    const bool inwards = move.to.tip < move.from.tip;
    ShaftMove first = move, second = move;
    first.to = second.from = inwards ? ShaftPlace{move.from.facing, move.to.tip, move.from.z}
                                     : ShaftPlace{move.to.facing, move.from.tip, move.to.z};
    return {first, second};
}

std::string where(const Touch& touch) {
    return "lobe " + touch.lobe->name + " at " + shortest_fixed(direction_degrees(touch.psi), 2) + " degrees";
}

bool moves_together(const ShaftMove& move) {
    return move.from.tip != move.to.tip && (move.from.facing != move.to.facing || move.from.z != move.to.z);
}

bool check_rapid(const std::vector<ShaftMove>& moves, std::size_t index, const CutterBody& body,
                 const std::vector<LobePlanes>& lobes, Findings& findings) {
    const ShaftMove& move = moves[index];
    const int before = static_cast<int>(index);
    if (const auto touch = touch_of({move}, body.cutting, lobes, before)) {
        findings.error("rapid-in-stock", move.line,
                       "a rapid goes " + findings.length(touch->depth) + " into the stock, " + where(*touch));
        return true;
    }
    if (!moves_together(move)) return false;
    const auto touch = touch_of(deeper_first(move), body.cutting, lobes, before);
    if (!touch) return false;
    findings.error("rapid-in-stock", move.line,
                   "a rapid goes into the stock, " + where(*touch) +
                       ", where the axes don't arrive together: move the radial axis alone");
    return true;
}

std::string blunt_message(const CutterPart& part, const Touch& touch, const Findings& findings) {
    return std::string("the ") + part.name + " runs " + findings.length(touch.depth) + " into " +
           where(touch);
}

/// The worst of the three comparisons on one ray, and the move that makes it.
struct BluntTouch {
    double depth = 0.0;
    int move = -1;
};
BluntTouch blunt_touch_on(const PlaneSweep& blunt, const PlaneSweep& plane, double psi) {
    BluntTouch worst;
    const auto hold = [&](const Left& nearest, double left) {
        if (nearest.stretch < 0 || left - nearest.radius <= worst.depth) return;
        worst = {left - nearest.radius, blunt.stretches()[static_cast<std::size_t>(nearest.stretch)].move};
    };
    const Left nearest = blunt.left_on(psi);
    if (nearest.stretch < 0) return worst;
    hold(nearest, plane.left_on(psi).radius);
    const int its_move = blunt.stretches()[static_cast<std::size_t>(nearest.stretch)].move;
    hold(nearest, plane.left_on(psi, -1, its_move).radius);
    hold(blunt.left_on(psi, -1, plane.first_cut(psi, touch_depth)), plane.stock());
    return worst;
}

void check_blunt_part(const std::vector<ShaftMove>& moves, const CutterPart& part, const LobePlanes& lobe,
                      Findings& findings) {
    Touch worst{lobe.lobe, 0.0, touch_depth};
    int move = -1;
    for (const PlaneSweep& plane : lobe.planes) {
        const PlaneSweep blunt(moves, part, plane.z(), plane.stock());
        if (blunt.stretches().empty()) continue;
        for (const DesignRay& ray : lobe.rays) {
            const BluntTouch touch = blunt_touch_on(blunt, plane, ray.psi);
            if (touch.depth <= worst.depth) continue;
            worst.depth = touch.depth;
            worst.psi = ray.psi;
            move = touch.move;
        }
    }
    if (move < 0) return;
    findings.error("touches-neighbour", moves[static_cast<std::size_t>(move)].line,
                   blunt_message(part, worst, findings));
}

/// The deepest that the part comes to a journal, and by which move.
void check_journal(const std::vector<ShaftMove>& moves, const CutterPart& part, const Journal& journal,
                   Findings& findings) {
    const double low = journal.z - 0.5 * journal.width, high = journal.z + 0.5 * journal.width;
    double worst = touch_depth;
    const ShaftMove* by = nullptr;
    for (const ShaftMove& move : moves) {
        const double first = std::min(move.from.z, move.to.z), last = std::max(move.from.z, move.to.z);
        if (first + part.first >= high || last + part.last <= low) continue;
        const auto section = part.widest_section(low - last, high - first);
        if (!section) continue;
        const double depth = 0.5 * journal.diameter - (move.least_tip() + section->raise);
        if (depth <= worst) continue;
        worst = depth;
        by = &move;
    }
    if (by == nullptr) return;
    findings.error("touches-journal", by->line,
                   std::string("the ") + part.name + " runs " + findings.length(worst) +
                       " into the journal at z = " + findings.length(journal.z));
}

}  // namespace

int check_rapids(const std::vector<ShaftMove>& moves, const CutterBody& body,
                 const std::vector<LobePlanes>& lobes, Findings& findings) {
    std::set<int> lines;
    for (std::size_t i = 0; i < moves.size(); ++i) {
        if (!moves[i].rapid || moves[i].retracts()) continue;
        if (check_rapid(moves, i, body, lobes, findings)) lines.insert(moves[i].line);
    }
    return static_cast<int>(lines.size());
}

void check_spindle(const std::vector<ShaftMove>& moves, const CutterBody& body,
                   const std::vector<LobePlanes>& lobes, Findings& findings) {
    for (std::size_t i = 0; i < moves.size(); ++i) {
        if (moves[i].rapid || moves[i].spindle_on) continue;
        const auto touch = touch_of({moves[i]}, body.cutting, lobes, static_cast<int>(i));
        if (!touch) continue;
        findings.error("spindle-off", moves[i].line,
                       "the cutter feeds into the stock with the spindle standing, " + where(*touch));
        return;
    }
}

void check_blunt_parts(const std::vector<ShaftMove>& moves, const CutterBody& body,
                       const std::vector<LobePlanes>& lobes, Findings& findings) {
    for (const CutterPart& part : body.blunt) {
        for (const LobePlanes& lobe : lobes)
            check_blunt_part(moves, part, lobe, findings);
    }
}

void check_journals(const std::vector<ShaftMove>& moves, const CutterBody& body, const Shaft& shaft,
                    Findings& findings) {
    for (const Journal& journal : shaft.journals) {
        check_journal(moves, body.cutting, journal, findings);
        for (const CutterPart& part : body.blunt)
            check_journal(moves, part, journal, findings);
    }
}

}  // namespace lobewright::proof
