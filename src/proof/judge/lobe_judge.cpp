#include "proof/judge/lobe_judge.h"

#include "proof/judge/helix_ridges.h"
#include "proof/judge/surface_feed.h"

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

/// What arithmetic may add to a deviation that the program meant to lie on the tolerance, mm.
constexpr double arithmetic = 1e-6;

/// Planes nearer to each other than this show the same ridge, mm: along the shaft its flanks rise by less
/// than 1 in 2.
constexpr double same_plane = 2e-5;

/// How the lobe stands before anything cuts it. Where operations have cut it and their programs are not
/// known, what they leave at most.
std::optional<StandingCurve> standing_curve(const Stock& stock, const SolvedLobe& lobe,
                                            const EarlierCuts& earlier) {
    std::optional<double> over = stock.left_on;
    if (const auto standing = stock.of(lobe.name); earlier.empty() && standing) over = standing->most();
    if (!over) return std::nullopt;
    std::vector<StandingCurve::Node> nodes;
    for (const DesignRay& ray : Design(lobe, *over).rays(0.0, hidden_dip))
        nodes.push_back({ray.psi, ray.radius, ray.slope});
    return StandingCurve(std::move(nodes));
}

}  // namespace

LobeJudge::LobeJudge(const Job& job, const CutterBody& body, const ShaftMoves& moves, double blending,
                     const EarlierCuts& earlier, StockChecker& stock_checker, TakenStock& taken_stock,
                     Findings& findings)
    : job_(job),
      new_body_(body),
      body_(body),
      moves_(moves),
      blending_(blending),
      stock_(0.5 * *job.shaft.blank()),
      earlier_(earlier),
      stock_checker_(stock_checker),
      taken_stock_(taken_stock),
      findings_(findings),
      places_(cutting_places(moves, stock_)),
      cutting_(moves_below(moves, body.cutting, stock_)),
      finishes_(moves.size()),
      resolution_(proof::resolution) {}

LobeVerdict LobeJudge::judge(const SolvedLobe& solved, double worn) {
    body_ = worn_body(new_body_, worn);
    const LobePlanes lobe = lobe_planes(solved, job_.cut->allowance, places_, body_);
    LobeVerdict verdict;
    verdict.name = solved.name;
    verdict.cut = true;
    standing_ = standing_curve(job_.stock, solved, earlier_);
    finishes_.clear();
    around_ = {};
    take_planes(lobe, verdict);
    verdict.around = around_.places(moves_);
    check_surface_feed(moves_, finishes_, lobe, job_.cut->surface_feed, findings_);
    settle(verdict);
    return verdict;
}

void LobeJudge::take_planes(const LobePlanes& lobe, LobeVerdict& verdict) {
    int coarse = 0;
    for (const double z : lobe.zs) {
        const PlaneSweep plane = plane_at(z);
        take_plane(plane, lobe, verdict);
        stock_checker_.look_at(plane, lobe);
        taken_stock_.look_at(plane, lobe);
        if (coarse == 0) coarse = plane.coarse_line();
    }
    if (!lobe.complete)
        findings_.error("cannot-simulate", 0, FindingWords::too_many_planes(verdict.name, most_planes));
    if (!body_.along_shaft) look_between_places(lobe, verdict);
    if (!body_.along_shaft && places_.slides) look_along_helix(lobe, verdict);
    if (coarse > 0) findings_.error("cannot-simulate", coarse, FindingWords::two_motions());
}

PlaneSweep LobeJudge::plane_at(double z) const {
    return {cutting_, body_.cutting, z, stock_, StockBefore{standing_ ? &*standing_ : nullptr, &earlier_}};
}

/// Judges one plane more, into the lobe's verdict; gives its proudest place.
PlaneExtreme LobeJudge::take_plane(const PlaneSweep& plane, const LobePlanes& lobe, LobeVerdict& verdict) {
    const PlaneVerdict judged =
        judge_plane(plane, lobe.design, lobe.rays, job_.cut->tolerance, finishes_, around_);
    const Deviation deepest = deviation_of(judged.deepest, plane),
                    proudest = deviation_of(judged.proudest, plane);
    const bool first = verdict.planes++ == 0;
    if (first || deepest.along_normal < verdict.deepest.along_normal) verdict.deepest = deepest;
    if (first || proudest.along_normal > verdict.proudest.along_normal) verdict.proudest = proudest;
    if (judged.heel.least <= judged.heel.greatest) {
        const double runout = judged.heel.greatest - judged.heel.least;
        verdict.heel_runout = std::max(verdict.heel_runout.value_or(0.0), runout);
    }
    verdict.cut = verdict.cut && judged.cut;
    resolution_ = std::max(resolution_, hidden_dip + judged.missed);
    return judged.proudest;
}

void LobeJudge::look_between_places(const LobePlanes& lobe, LobeVerdict& verdict) {
    const double low = lobe.lobe->z - 0.5 * lobe.lobe->width, high = lobe.lobe->z + 0.5 * lobe.lobe->width;
    const std::vector<double>& places = places_.zs;
    const IndexRange over = places_between(places, low, high);
    for (std::size_t i = std::max<std::size_t>(over.begin, 1); i < places.size(); ++i) {
        if (places[i] <= low) continue;
        if (places[i - 1] >= high) break;
        const PlacePair pair(cutting_, body_.cutting, places[i - 1], places[i], stock_);
        follow_ridge(pair, 0.5 * (places[i - 1] + places[i]), lobe, verdict);
    }
}

/// From the foretold ridge between two neighbouring places on: the plane of the ridge, the proudest ray in
/// it, the plane of the ridge on that ray, until it stays.
void LobeJudge::follow_ridge(const PlacePair& pair, double middle, const LobePlanes& lobe,
                             LobeVerdict& verdict) {
    constexpr int planes_enough = 4;
    const double low = lobe.lobe->z - 0.5 * lobe.lobe->width, high = lobe.lobe->z + 0.5 * lobe.lobe->width;
    std::optional<double> psi = pair.proudest_ray(lobe.rays);
    double last = middle;
    for (int planes = 0; psi && planes < planes_enough; ++planes) {
        const std::optional<double> z = pair.ridge_on(*psi);
        if (!z || *z <= low || *z >= high || std::abs(*z - last) < same_plane) break;
        last = *z;
        psi = take_plane(plane_at(*z), lobe, verdict).psi;
    }
}

void LobeJudge::look_along_helix(const LobePlanes& lobe, LobeVerdict& verdict) {
    const std::vector<double> planes = planes_of_helix(moves_, body_.cutting, stock_, lobe);
    for (const double z : planes)
        take_plane(PlaneSweep(cutting_, body_.cutting, z, stock_), lobe, verdict);
    if (!planes.empty()) resolution_ = std::max(resolution_, hidden_in_helix);
}

Deviation LobeJudge::deviation_of(const PlaneExtreme& extreme, const PlaneSweep& plane) const {
    return {extreme.along_normal, ShaftAngle::from_radians(wrapped_radians(extreme.psi)), plane.z(),
            extreme.move < 0 ? 0 : moves_.line(extreme.move)};
}

void LobeJudge::settle(LobeVerdict& verdict) {
    const double tolerance = job_.cut->tolerance + arithmetic - blending_;
    const bool gouged = verdict.deepest.along_normal < -tolerance;
    const bool proud = verdict.proudest.along_normal > tolerance;
    verdict.within = verdict.cut && !gouged && !proud;
    const FindingWords& words = findings_.words();
    if (gouged) findings_.error("gouge", verdict.deepest.line, words.gouge(verdict, job_.cut->tolerance));
    if (!verdict.cut) {
        findings_.error("not-cut", 0, FindingWords::not_cut(verdict.name));
    } else if (proud) {
        findings_.error("material-left", verdict.proudest.line,
                        words.material_left(verdict, job_.cut->tolerance));
    }
}

}  // namespace lobewright::proof
