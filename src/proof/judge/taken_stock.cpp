#include "proof/judge/taken_stock.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::proof {
namespace {

/// Rays that are looked along lie this far apart at least, radians: over it no depth changes by much.
constexpr double ray_gap = full_turn / 180.0;
/// Planes of a lobe that are looked at, spread over its width.
constexpr std::size_t planes_looked_at = 8;
/// What takes less than this takes nothing, mm.
constexpr double least_depth = 1e-4;
/// Times the job's depth: more is an error (examples/job-file.md).
constexpr double depth_refused = 1.25;
/// mm that a finish pass on unroughed stock may take where the job doesn't say.
constexpr double usual_finish_depth = 0.5;
/// A block that takes this much while it goes down, besides the lobe's own fall, faster than along is a
/// plunge, mm. Common practice, no source.
constexpr double plunge_depth = 0.05;
/// mm: a cutter that stands no higher than this over what is left rubs on it.
constexpr double contact = 1e-3;

/// The ray to the design's place whose normal goes through the place at `radius` on `ray`.
const DesignRay& foot_of(const std::vector<DesignRay>& rays, const DesignRay& ray, double radius) {
    const double along = std::sqrt(ray.radius * ray.radius + ray.slope * ray.slope);
    const double over = (radius - ray.radius) * ray.lean;
    const double first = rays.front().psi;
    double psi = ray.psi + over * ray.slope / along / radius;
    psi = first + std::max(0.0, psi - first - full_turn * std::floor((psi - first) / full_turn));
    const auto after = std::lower_bound(rays.begin(), rays.end(), psi,
                                        [](const DesignRay& each, double at) { return each.psi < at; });
    return after == rays.end() ? rays.back() : *after;
}

/// 1/mm, of what is left at `radius` on the ray: the design's parallel there; below the design, where it is
/// none, a circle round the axis.
double curvature_left(const std::vector<DesignRay>& rays, const DesignRay& ray, double radius,
                      double tolerance) {
    const double over = (radius - ray.radius) * ray.lean;
    if (over < -tolerance) return 1.0 / radius;
    const double curvature = foot_of(rays, ray, radius).curvature;
    return curvature / std::max(1.0 + curvature * over, 1e-3);
}

double deepest_allowed(const Cut& cut) {
    return depth_refused * cut.rough_depth.value_or(cut.finish_depth.value_or(usual_finish_depth));
}

}  // namespace

TakenStock::TakenStock(const Job& job, const ShaftMoves& moves, const CutterBody& body,
                       std::vector<ShaftDwell> dwells)
    : moves_(moves),
      body_(body),
      cutter_(job.cutters.find(job.cut->cutter)->second),
      cut_(*job.cut),
      axis_(job.machine->cutter_axis),
      dwells_(std::move(dwells)) {
    for (int i = 0; i < moves.size(); ++i) {
        if (moves[i].rapid) rapids_.push_back(i);
    }
}

/// The facing direction, as it runs on, in which the cutter passes the ray that it reaches so: a block may
/// turn so far that it does at its end, and not at its beginning.
double TakenStock::passes_at(const CutOnRay& cut, double psi) const {
    const ShaftMove move = moves_[cut.move];
    const double middle = 0.5 * (move.from.facing + move.to.facing);
    return psi + full_turn * static_cast<double>(nearest_step((middle - psi - cut.beside) / full_turn));
}

/// A cutter that went away between, at rapid, passes anew: a shaft that winds back meanwhile faces it again.
bool TakenStock::same_passage(const Passage& passage, double facing, int move) const {
    if (std::abs(facing - passage.facing) > 0.5 * full_turn) return false;
    const auto rapid = std::upper_bound(rapids_.begin(), rapids_.end(), passage.last);
    return rapid == rapids_.end() || *rapid >= move;
}

void TakenStock::look_at(const PlaneSweep& plane, const LobePlanes& lobe) {
    const std::size_t stride = (lobe.zs.size() + planes_looked_at - 1) / planes_looked_at;
    const auto place = std::lower_bound(lobe.zs.begin(), lobe.zs.end(), plane.z()) - lobe.zs.begin();
    if (static_cast<std::size_t>(place) % stride != 0) return;
    const CutsInOrder cuts(plane);
    double last = -nowhere;
    for (const DesignRay& ray : lobe.rays) {
        if (ray.psi - last < ray_gap) continue;
        last = ray.psi;
        look_along(cuts.on(ray.psi), plane.standing(ray.psi), lobe, ray);
    }
    look_at_dwells(plane, lobe);
}

void TakenStock::look_along(const std::vector<CutOnRay>& cuts, double standing, const LobePlanes& lobe,
                            const DesignRay& ray) {
    double left = standing;
    std::optional<Passage> passage;
    for (const CutOnRay& cut : cuts) {
        const Taken block{(left - cut.radius) * ray.lean, cut.move, lobe.lobe, ray.psi};
        left = cut.radius;
        const double facing = passes_at(cut, ray.psi);
        if (passage && !same_passage(*passage, facing, cut.move)) close(*passage), passage.reset();
        if (!passage) passage = Passage{facing, 0, 0.0, {}, 0.0, 0.0};
        passage->last = cut.move;
        passage->depth += block.depth;
        passage->radius = left;
        passage->curvature = curvature_left(lobe.rays, ray, left, cut_.tolerance);
        if (block.depth > passage->most.depth) passage->most = block;
        take(block, left, lobe.way);
    }
    if (passage) close(*passage);
}

void TakenStock::take(const Taken& block, double radius, const ContactWay& way) {
    const ShaftMove move = moves_[block.move];
    if (move.rapid) return;
    if (block.depth > largest_.depth) largest_ = block;
    if (block.depth <= std::max(plunge_depth, plunge_.depth)) return;
    // What the lobe falls by itself is no plunge: towards a straight flank a flat comes down as its end asks.
    const double falls = std::max(0.0, way.fall(move.from.facing, move.to.facing));
    const double down = move.from.tip - move.to.tip - falls;
    if (down > std::abs(move.turn()) * radius) plunge_ = block;
}

void TakenStock::close(const Passage& passage) {
    const Taken& most = passage.most;
    if (passage.depth < least_depth || moves_[most.move].rapid) return;
    if (passage.depth > deepest_allowed(cut_) + least_depth) {
        Taken& worst = too_deep_[most.move];
        if (passage.depth > worst.depth) worst = {passage.depth, most.move, most.lobe, most.psi};
    }
    const double thickness = chip(passage);
    if (thickness > thickest_.depth)
        thickest_ = {thickness, most.move, most.lobe, most.psi,
                     surface_speed(moves_[most.move], passage.radius)};
}

/// mm/min of the cutter past a place of the shaft, as the mean over the block.
double TakenStock::surface_speed(const ShaftMove& move, double radius) const {
    if (move.seconds == 0.0) return 0.0;
    const double along = move.turn() * radius, down = move.to.tip - move.from.tip;
    return std::sqrt(along * along + down * down) / move.seconds * 60.0;
}

/// A tooth's feed, where the chip of a cut so shallow is thickest.
double TakenStock::chip(const Passage& passage) const {
    if (cutter_.teeth == 0) return 0.0;
    if (body_.along_shaft || cutter_.kind == CutterKind::ball_nose) return chip_on_round(passage);
    const double speed = surface_speed(moves_[passage.most.move], passage.radius);
    return speed / (cut_.spindle_speed * cutter_.teeth) * thinning(passage.depth);
}

/// The teeth's circle, of radius R, runs along a surface of curvature k: its centre goes from one tooth to
/// the next by f, and where the teeth meet the uncut surface, a over that which is left, the chip is f sin θ
/// thick. The law of cosines in the triangle of the two centres and that place gives 1 - cos θ = a (2 + k a)
/// / (2 R (1 + k R)).
double TakenStock::chip_on_round(const Passage& passage) const {
    const ShaftMove move = moves_[passage.most.move];
    if (move.seconds == 0.0) return 0.0;
    const double radius = 0.5 * cutter_.diameter;
    const double around = (0.5 * (move.from.tip + move.to.tip) + radius) * move.turn();
    const double out = move.to.tip - move.from.tip;
    const double way =
        std::sqrt(around * around + out * out) / move.seconds * 60.0 / (cut_.spindle_speed * cutter_.teeth);
    const double k = passage.curvature, a = passage.depth, round = std::max(1.0 + k * radius, 1e-3);
    const double u = std::min(a * (2.0 + k * a) / (2.0 * radius * round), 1.0);
    return way * std::sqrt(std::max(0.0, u * (2.0 - u)));
}

/// A tooth on a circle of diameter d enters a cut of depth a under an angle whose cosine is 1 - 2a/d, and its
/// chip is as thick there as its feed times the sine: 2 sqrt(a/d (1 - a/d)); beyond half the circle its whole
/// feed. With the end of a cutter that holds for its rounded corner.
double TakenStock::thinning(double depth) const {
    double diameter = cutter_.diameter;
    if (axis_ == CutterAxis::radial && cutter_.kind == CutterKind::end_mill)
        diameter = 2.0 * cutter_.corner_radius;
    if (2.0 * depth >= diameter) return 1.0;
    const double share = depth / diameter;
    return 2.0 * std::sqrt(share * (1.0 - share));
}

/// Whether the cutter, where it stands, rests on what is left.
bool TakenStock::touches(const ShaftDwell& dwell, const PlaneSweep& plane, const LobePlanes& lobe) const {
    const ShaftMove still{dwell.place, dwell.place, false, true, dwell.line, dwell.seconds};
    const PlaneSweep standing({still}, body_.cutting, plane.z(), plane.stock());
    return std::any_of(lobe.rays.begin(), lobe.rays.end(), [&](const DesignRay& ray) {
        const Left lowest = standing.left_on(ray.psi);
        return lowest.step >= 0 && plane.left_on(ray.psi, -1, dwell.before).radius > lowest.radius - contact;
    });
}

void TakenStock::look_at_dwells(const PlaneSweep& plane, const LobePlanes& lobe) {
    for (const ShaftDwell& dwell : dwells_) {
        const double off = plane.z() - dwell.place.z;
        if (off < body_.cutting.first || off > body_.cutting.last) continue;
        if (dwells_in_metal_.count(dwell.line) == 0 && touches(dwell, plane, lobe))
            dwells_in_metal_.emplace(dwell.line, lobe.lobe);
    }
}

std::optional<double> TakenStock::thickest_chip() const {
    return cutter_.teeth == 0 ? std::nullopt : std::optional(thickest_.depth);
}

void TakenStock::report(Findings& findings) const {
    const FindingWords& words = findings.words();
    for (const auto& [move, taken] : too_deep_)
        findings.error("depth", line(move),
                       words.depth(taken.lobe->name, taken.psi, taken.depth,
                                   deepest_allowed(cut_) / depth_refused, cut_.rough_depth.has_value()));
    if (plunge_.move >= 0)
        findings.error("plunge", line(plunge_.move),
                       words.plunge(plunge_.lobe->name, plunge_.psi, plunge_.depth));
    for (const auto& [at, lobe] : dwells_in_metal_)
        findings.error("dwell-in-metal", at, FindingWords::dwell(lobe->name));
    if (cutter_.largest_chip && thickest_.depth > *cutter_.largest_chip)
        findings.warn("chip", line(thickest_.move),
                      words.thick_chip(thickest_.depth, *cutter_.largest_chip, thickest_.speed));
    if (cutter_.smallest_chip && thickest_.move >= 0 && thickest_.depth < *cutter_.smallest_chip)
        findings.warn("chip", line(thickest_.move),
                      words.thin_chip(thickest_.depth, *cutter_.smallest_chip, thickest_.speed));
}

}  // namespace lobewright::proof
