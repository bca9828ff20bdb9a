#include "inspect/correction/lowered_contour.h"
#include "inspect/correction/surface_seen.h"
#include "inspect/verdict/inspection_refusals.h"

#include <lobewright/correction.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

using namespace inspection;

/// Standard errors up to which an error is left alone, and from which it is taken for what it is.
constexpr double no_more_than_chance = 1.0, surely_there = 3.0;
/// Of the least hollow that the cutter fits into: room for its path.
constexpr double room_in_hollow = 1.1;
/// Of the curvature that the design leaves to spare, what the aim may use; and how much of a coefficient its
/// own spline may err by between two knots (h²/8 with h = 2 degrees is 1.5e-4).
constexpr double share_of_spare = 0.8, between_knots = 1e-3;
constexpr double worth_telling = 1e-4;  // mm
/// 1/mm: a lowering that changes by less is settled (a ten-millionth of a micrometre on 10 mm).
constexpr double settled = 1e-12;
constexpr int most_sweeps = 20000;

/// 1/mm: the most hollow that the job's cutter can follow, which is round in the plane across the shaft where
/// it lies along it, or ends in a ball.
double hollowest(const Job& job) {
    const Cutter& cutter = job.cutters.find(job.cut->cutter)->second;
    const bool ball = cutter.kind == CutterKind::ball_nose && job.machine->cutter_axis == CutterAxis::radial;
    if (job.machine->cutter_axis != CutterAxis::parallel && !ball) return 0.0;
    return -1.0 / (room_in_hollow * 0.5 * cutter.diameter);
}

/// What of an error is more than chance, 0 to 1.
double surely(const Estimate& error) {
    if (error.error <= 0.0) return 1.0;
    const double x = std::clamp(
        (error.value / error.error - no_more_than_chance) / (surely_there - no_more_than_chance), 0.0, 1.0);
    return x * x * (3.0 - 2.0 * x);
}

/// By more than a program that uses its tolerance whole, and readings that scatter, show by themselves.
bool is_proud(const Estimate& proudest, double tolerance) {
    return proudest.value > tolerance + std::max(2.0 * proudest.error, 0.1 * tolerance);
}

/// mm along the normal that the aim should lie below the design.
double wanted(const SurfaceNode& node, double comes_again) {
    if (!node.error) return 0.0;
    return comes_again * std::max(0.0, node.of_cutting) * surely(*node.error);
}

/// The rise of the reciprocal radius that a depth along the normal makes.
double rise_of(const SurfaceNode& node, double depth) {
    const double radius = node.radius();
    return 1.0 / (radius - depth / node.lean()) - 1.0 / radius;
}

/// By how much q + q'' may fall at a node and either side of it before the aim is more hollow than the
/// cutter reaches into.
double spare_curvature(const Contour& contour, const SurfaceNode& node, double step, double most_hollow) {
    double least = 1e300;
    for (const double off : {-1.0, -0.5, 0.0, 0.5, 1.0}) {
        const ContourPoint at = contour.on_ray(ShaftAngle::from_radians(node.direction + off * step)).at;
        const double lean = dot(at.normal, at.point) / length(at.point);
        least = std::min(least, (at.curvature - most_hollow) / (lean * lean * lean));
    }
    return share_of_spare * std::max(0.0, least);
}

/// The highest rises that lie nowhere over the given ones and whose spline bends no more than the spare
/// curvature allows: each is brought down to what its neighbours let it have, until all stay.
void bend_less(std::vector<double>& rises, const std::vector<double>& spare, double step) {
    const std::size_t n = rises.size();
    const double of_neighbours = 1.0 / 6.0 + 1.0 / (step * step);
    const double own = 2.0 / (step * step) - 4.0 / 6.0 + between_knots;
    double largest = 1.0;
    for (int sweep = 0; sweep < most_sweeps && largest > settled; ++sweep) {
        largest = 0.0;
        for (std::size_t i = 0; i < n; ++i) {
            const double both = rises[(i + 1) % n] + rises[(i + n - 1) % n];
            const double most = (of_neighbours * both + spare[i]) / own;
            if (rises[i] <= most) continue;
            largest = std::max(largest, rises[i] - most);
            rises[i] = most;
        }
    }
}

/// How far an aim lies below the design, along the normal.
class Depths {
  public:
    Depths(const Contour& contour, const std::vector<double>& rises) : contour_(contour), lowering_(rises) {}

    [[nodiscard]] double at(double direction) const {
        const ContourPoint at = contour_.on_ray(ShaftAngle::from_radians(direction)).at;
        const double radius = length(at.point), lean = dot(at.normal, at.point) / radius;
        return (radius - 1.0 / (1.0 / radius + lowering_.at(direction).value)) * lean;
    }
    /// The deepest, and where: between two of so many places the spline rises by less than 1e-6 mm more.
    [[nodiscard]] std::pair<double, double> deepest() const {
        std::pair<double, double> found{0.0, 0.0};
        constexpr int parts = 16;
        for (std::size_t i = 0; i < parts * lowering_.size(); ++i) {
            const double direction =
                lowering_.direction_of(0) + lowering_.step() * static_cast<double>(i) / parts;
            if (const double depth = at(direction); depth > found.first) found = {depth, direction};
        }
        return found;
    }
    [[nodiscard]] const Lowering& lowering() const { return lowering_; }

  private:
    const Contour& contour_;
    Lowering lowering_;
};

/// The rises of the aim. Between nodes the spline may pass `most` by a little where the design leans: then
/// all are scaled back.
std::vector<double> rises_of(const SolvedLobe& lobe, const std::vector<SurfaceNode>& nodes,
                             const CorrectionRequest& request, double most_hollow, LobeCorrection& found) {
    std::vector<double> rises, spare;
    const double step = full_turn / static_cast<double>(nodes.size());
    for (const SurfaceNode& node : nodes) {
        const double depth = wanted(node, request.comes_again);
        found.held_by_most = found.held_by_most || depth > request.most;
        rises.push_back(rise_of(node, std::min(depth, request.most)));
        spare.push_back(spare_curvature(lobe.contour, node, step, most_hollow));
    }
    const std::vector<double> asked = rises;
    bend_less(rises, spare, step);
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        const double held = (asked[i] - rises[i]) * nodes[i].radius() * nodes[i].radius();
        found.held_by_reach = found.held_by_reach || held > worth_telling;
    }
    constexpr double within = 1.0 - 1e-4;
    const double deepest = Depths(lobe.contour, rises).deepest().first;
    if (deepest > request.most) {
        for (double& rise : rises)
            rise *= within * request.most / deepest;
    }
    return rises;
}

bool lower(const ErrorOnLobe& a, const ErrorOnLobe& b) {
    return a.along_normal.value < b.along_normal.value;
}

/// As read, or as it will be after a cut along an aim `depth` below the design: what the cut doesn't reach
/// stays.
ErrorOnLobe place_of(const SolvedLobe& lobe, const SurfaceNode& node, double value) {
    return {{value, node.error->error}, wrapped(lobe.at + ShaftAngle::from_radians(node.direction))};
}

void put_extremes(LobeCorrection& found, const SolvedLobe& lobe, const std::vector<SurfaceNode>& nodes,
                  const Depths* depths, double comes_again) {
    std::vector<ErrorOnLobe> read, left;
    for (const SurfaceNode& node : nodes) {
        if (!node.error) continue;
        const double error = node.error->value;
        read.push_back(place_of(lobe, node, error));
        const double depth = depths != nullptr ? depths->at(node.direction) : 0.0;
        const double after =
            depths != nullptr ? std::min(error, comes_again * node.of_cutting - depth) : error;
        left.push_back(place_of(lobe, node, after));
        found.standing = std::max(found.standing, error + depth + surely_there * node.error->error);
    }
    const auto unseen = static_cast<double>(nodes.size() - read.size());
    found.unseen = ShaftAngle::from_radians(full_turn * unseen / static_cast<double>(nodes.size()));
    if (read.empty()) return;
    found.deepest = *std::min_element(read.begin(), read.end(), lower);
    found.proudest = *std::max_element(read.begin(), read.end(), lower);
    found.left_deepest = *std::min_element(left.begin(), left.end(), lower);
    found.left_proudest = *std::max_element(left.begin(), left.end(), lower);
}

/// Whether all of the heel is lowered alike: then the aim has a base circle, of this radius.
double base_radius_of(const SolvedLobe& lobe, const std::vector<SurfaceNode>& nodes,
                      const Lowering& lowering) {
    double highest = 0.0;
    for (std::size_t i = 0; i < nodes.size(); ++i)
        if (nodes[i].on_heel) highest = std::max(highest, lowering.coefficient(i));
    return 1.0 / (1.0 / lobe.base_radius + highest);
}

void put_aim(LobeCorrection& found, const SolvedLobe& lobe, const std::vector<SurfaceNode>& nodes,
             const Depths& depths) {
    const auto [deepest, direction] = depths.deepest();
    found.lowered = deepest;
    found.lowered_at = wrapped(lobe.at + ShaftAngle::from_radians(direction));
    found.aim.contour = inspection::lowered(lobe.contour, depths.lowering());
    found.aim.base_radius = base_radius_of(lobe, nodes, depths.lowering());
    found.aim.arcs.reset(), found.aim.opening_arcs.reset(), found.aim.closing_arcs.reset();
}

}  // namespace

Outcome<LobeCorrection> lobe_correction(const Job& job, const std::vector<SolvedLobe>& lobes,
                                        const MeasuredLobe& measured, const CorrectionRequest& request) {
    const SolvedLobe& lobe = lobes[measured.lobe];
    const double tolerance = job.cut->tolerance;
    InspectRequest inspect = request.inspect;
    inspect.tolerance = tolerance;
    const auto examined = examine_lobe(job, lobes, measured, inspect);
    if (!examined) return examined.diagnostics();
    const std::vector<double> none;
    const auto& programmed = request.programmed.empty() ? none : request.programmed[measured.lobe];
    const auto nodes =
        surface_seen(lobe, *examined, job.cut->allowance, tolerance, programmed, correction_places);
    if (!nodes) return too_sparse_to_cut(lobe, measured.readings.front().place);
    LobeCorrection found;
    found.inspection = examined->found;
    found.aim = lobe;
    put_extremes(found, lobe, *nodes, nullptr, 1.0);
    if (!is_proud(found.proudest.along_normal, tolerance)) return found;
    const Depths depths(lobe.contour, rises_of(lobe, *nodes, request, hollowest(job), found));
    found.cut = true;
    put_extremes(found, lobe, *nodes, &depths, request.comes_again);
    put_aim(found, lobe, *nodes, depths);
    return found;
}

}  // namespace lobewright
