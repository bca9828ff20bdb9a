#include "proof/judge/stock_checks.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace lobewright::proof {
namespace {

/// The way with the axis first that goes deeper.
std::vector<ShaftMove> deeper_first(const ShaftMove& move) {
    const bool inwards = move.to.tip < move.from.tip;
    ShaftMove first = move, second = move;
    first.to = second.from = inwards ? ShaftPlace{move.from.facing, move.to.tip, move.from.z}
                                     : ShaftPlace{move.to.facing, move.from.tip, move.to.z};
    return {first, second};
}

bool moves_together(const ShaftMove& move) {
    return move.from.tip != move.to.tip && (move.from.facing != move.to.facing || move.from.z != move.to.z);
}

/// The worst of the three comparisons on one ray, and the move that makes it.
struct BluntTouch {
    double depth = 0.0;
    int move = -1;
};
BluntTouch blunt_touch_on(const PlaneSweep& blunt, const PlaneSweep& plane, double psi) {
    BluntTouch worst;
    const auto hold = [&](const Left& nearest, double left) {
        if (nearest.step < 0 || left - nearest.radius <= worst.depth) return;
        worst = {left - nearest.radius, blunt.steps()[static_cast<std::size_t>(nearest.step)].move};
    };
    const Left nearest = blunt.left_on(psi);
    if (nearest.step < 0) return worst;
    hold(nearest, plane.left_on(psi).radius);
    const int its_move = blunt.steps()[static_cast<std::size_t>(nearest.step)].move;
    hold(nearest, plane.left_on(psi, -1, its_move).radius);
    hold(blunt.left_on(psi, -1, plane.first_cut(psi, touch_depth)), plane.standing(psi));
    return worst;
}

/// The deepest that the part comes to a journal, and by which move.
void check_journal(const MovesAlongShaft& moves, const CutterPart& part, const Journal& journal,
                   Findings& findings) {
    const double low = journal.z - 0.5 * journal.width, high = journal.z + 0.5 * journal.width;
    double worst = touch_depth;
    int line = 0;
    moves.for_each(low - part.last, high - part.first, [&](int, const ShaftMove& move) {
        if (move.first_z() + part.first >= high || move.last_z() + part.last <= low) return;
        const auto section = part.widest_section(low - move.last_z(), high - move.first_z());
        if (!section) return;
        const double depth = 0.5 * journal.diameter - section->distance_from_axis(move.least_tip());
        if (depth <= worst) return;
        worst = depth;
        line = move.line;
    });
    if (worst == touch_depth) return;
    findings.error("touches-journal", line, findings.words().touches_journal(part.name, journal.z, worst));
}

}  // namespace

StockChecker::StockChecker(const ShaftMoves& moves, const CutterBody& body, double stock)
    : moves_(moves),
      body_(body),
      rapids_(moves,
              [stock](const ShaftMove& move) {
                  return move.rapid && !move.retracts() && move.least_tip() < stock;
              }),
      standing_(moves, [stock](const ShaftMove& move) {
          return !move.rapid && !move.spindle_on && move.least_tip() < stock;
      }) {
    for (const CutterPart& part : body.blunt)
        blunt_.push_back({&part, moves_below(moves, part, stock), {}});
}

void StockChecker::look_at(const PlaneSweep& plane, const LobePlanes& lobe) {
    look_for_rapids(plane, lobe);
    look_for_standing_spindle(plane, lobe);
    for (BluntPart& blunt : blunt_)
        look_for_blunt(blunt, plane, lobe);
}

/// Looks first where the path leaves its trace, then on all the fixed rays.
std::optional<StockChecker::Touch> StockChecker::touch_of(const std::vector<ShaftMove>& path,
                                                          const PlaneSweep& plane, const LobePlanes& lobe,
                                                          int before) const {
    const PlaneSweep swept(path, body_.cutting, plane.z(), plane.stock());
    const auto touches = [&](double psi) -> std::optional<Touch> {
        const Left left = swept.left_on(psi);
        if (left.step < 0) return std::nullopt;
        const double depth = plane.left_on(psi, -1, before).radius - left.radius;
        return depth > touch_depth ? std::optional(Touch{lobe.lobe, psi, depth}) : std::nullopt;
    };
    if (swept.steps().empty()) return std::nullopt;
    for (const SweepStep& step : swept.steps()) {
        for (const double way : {0.5 * step.span, 0.0, step.span}) {
            if (auto touch = touches(direction(trace_point(swept.section(step), step, way)))) return touch;
        }
    }
    for (const DesignRay& ray : lobe.rays) {
        if (auto touch = touches(ray.psi)) return touch;
    }
    return std::nullopt;
}

/// Together, and with the axis first that goes deeper.
std::optional<StockChecker::Touch> StockChecker::rapid_touch(const ShaftMove& move, const PlaneSweep& plane,
                                                             const LobePlanes& lobe, int before) const {
    auto touch = touch_of({move}, plane, lobe, before);
    if (touch || !moves_together(move)) return touch;
    touch = touch_of(deeper_first(move), plane, lobe, before);
    if (touch) touch->only_apart = true;
    return touch;
}

void StockChecker::look_for_rapids(const PlaneSweep& plane, const LobePlanes& lobe) {
    for_each_over(rapids_, plane, [&](int index, const ShaftMove& move) {
        if (rapid_touches_.count(index) != 0) return;
        if (const auto touch = rapid_touch(move, plane, lobe, index)) rapid_touches_.emplace(index, *touch);
    });
}

void StockChecker::look_for_standing_spindle(const PlaneSweep& plane, const LobePlanes& lobe) {
    for_each_over(standing_, plane, [&](int index, const ShaftMove& move) {
        if (spindle_ && spindle_->first <= index) return;
        if (const auto touch = touch_of({move}, plane, lobe, index)) spindle_ = {index, *touch};
    });
}

void StockChecker::look_for_blunt(BluntPart& blunt, const PlaneSweep& plane, const LobePlanes& lobe) const {
    const PlaneSweep swept(blunt.moves, *blunt.part, plane.z(), plane.stock());
    if (swept.steps().empty()) return;
    if (blunt.worst.empty() || blunt.worst.back().first.lobe != lobe.lobe) {
        blunt.worst.push_back({Touch{lobe.lobe, 0.0, touch_depth}, -1});
    }
    auto& [worst, move] = blunt.worst.back();
    for (const DesignRay& ray : lobe.rays) {
        const BluntTouch touch = blunt_touch_on(swept, plane, ray.psi);
        if (touch.depth <= worst.depth) continue;
        worst.depth = touch.depth;
        worst.psi = ray.psi;
        move = touch.move;
    }
}

int StockChecker::report(Findings& findings) const {
    std::set<int> lines;
    for (const auto& [index, touch] : rapid_touches_) {
        if (!lines.insert(moves_.line(index)).second) continue;
        const std::string& lobe = touch.lobe->name;
        const std::string message = touch.only_apart
                                        ? FindingWords::rapid_apart(lobe, touch.psi)
                                        : findings.words().rapid_in_stock(lobe, touch.psi, touch.depth);
        findings.error("rapid-in-stock", moves_.line(index), message);
    }
    if (spindle_) {
        const auto& [move, touch] = *spindle_;
        findings.error("spindle-off", moves_.line(move),
                       FindingWords::spindle_off(touch.lobe->name, touch.psi));
    }
    for (const BluntPart& blunt : blunt_) {
        for (const auto& [touch, move] : blunt.worst) {
            if (move < 0) continue;
            findings.error(
                "touches-neighbour", moves_.line(move),
                findings.words().touches_lobe(blunt.part->name, touch.lobe->name, touch.psi, touch.depth));
        }
    }
    return static_cast<int>(lines.size());
}

void check_journals(const ShaftMoves& moves, const CutterBody& body, const Shaft& shaft, Findings& findings) {
    if (shaft.journals.empty()) return;
    double widest = 0.0;
    for (const Journal& journal : shaft.journals)
        widest = std::max(widest, 0.5 * journal.diameter);
    const auto index = [&](const CutterPart& part) { return moves_below(moves, part, widest); };
    const MovesAlongShaft cutting = index(body.cutting);
    std::vector<MovesAlongShaft> blunt;
    std::transform(body.blunt.begin(), body.blunt.end(), std::back_inserter(blunt), index);
    for (const Journal& journal : shaft.journals) {
        check_journal(cutting, body.cutting, journal, findings);
        for (std::size_t i = 0; i < blunt.size(); ++i)
            check_journal(blunt[i], body.blunt[i], journal, findings);
    }
}

}  // namespace lobewright::proof
