#include "toolpath/roughing/roughing.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

constexpr double most_for_finish = 0.25;  // mm
constexpr double least_for_finish = 4.0;  // tolerances

/// Rings over the fewest that are looked at: each costs a whole pass more, and saves a little air at most.
constexpr int more_rings = 3;

/// More roughing passes than this over one lobe are a slip of the pen, in the depth or in the bar.
constexpr int most_roughing_passes = 1000;

/// mm that a finish pass may take of what was not roughed. Common practice, no source.
constexpr double usual_finish_depth = 0.5;

/// Of a wheel's turns, by rough_depth: how proud they stand, and the least of their own depth that is worth
/// going down by. Steps of the radial word that a spiral needs to stand proud.
constexpr double proud_share = 0.15, least_share = 0.2, least_steps = 4.0;

/// Of a depth: what rounding may put a ring over the depth that was solved to be just allowed.
constexpr double depth_rounding = 1e-9;

double for_finish(double depth, double tolerance) {
    return std::max(std::min(0.5 * depth, most_for_finish), least_for_finish * tolerance);
}

/// The depth at which `rings` of it and `passes` times what for_finish() gives it make the total: each of its
/// three branches solved.
double depth_for(double total, double tolerance, int rings, int passes) {
    const double half = total / (rings + 0.5 * passes);
    const double with_most = (total - passes * most_for_finish) / rings;
    const double with_least = (total - passes * least_for_finish * tolerance) / rings;
    return std::min(std::max(half, with_most), with_least);
}

/// Length of the ring that leaves `over` mm on the nodes' surface, as far as it lies within the blank: a
/// parallel curve is longer by its distance times the angle that the normal turns.
double length_in_blank(const std::vector<CutterContact>& nodes, double over, double blank_radius) {
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
        const CutterContact &a = nodes[i], &b = nodes[i + 1];
        const double below_a = blank_radius - length(a.point + over * a.normal);
        const double below_b = blank_radius - length(b.point + over * b.normal);
        const double high = std::max(below_a, below_b), low = std::min(below_a, below_b);
        if (high <= 0.0) continue;
        const double share = low >= 0.0 ? 1.0 : high / (high - low);
        const double turn = (b.facing + b.lean - a.facing - a.lean).radians();
        sum += share * std::max(0.0, b.arc - a.arc + over * turn);
    }
    return sum;
}

}  // namespace

std::optional<Roughing> roughing_in(int rings, bool semi_finish, double total, double tolerance) {
    const int passes = semi_finish ? 2 : 1;
    Roughing found{rings, 0.0, semi_finish, total / passes, tolerance};
    if (rings == 0) {
        if (found.left > std::max(most_for_finish, least_for_finish * tolerance)) return std::nullopt;
        if (found.left > least_for_finish * tolerance) found.depth = 2.0 * found.left;
        return found;
    }
    found.depth = depth_for(total, tolerance, rings, passes);
    if (found.depth <= 0.0) return std::nullopt;
    found.left = for_finish(found.depth, tolerance);
    found.margin = std::max(tolerance, 0.1 * found.depth);
    return found;
}

std::vector<Roughing> allowed_roughings(double total, double tolerance, double rough_depth) {
    std::vector<Roughing> found;
    const auto fewest = [&](int passes) {
        const double rest = total - passes * for_finish(rough_depth, tolerance);
        return std::max(0, static_cast<int>(step_above(rest / rough_depth)));
    };
    for (int more = 0; more <= more_rings; ++more) {
        for (const bool semi_finish : {false, true}) {
            const auto roughing =
                roughing_in(fewest(semi_finish ? 2 : 1) + more, semi_finish, total, tolerance);
            if (roughing && roughing->depth <= rough_depth * (1.0 + depth_rounding))
                found.push_back(*roughing);
        }
    }
    return found;
}

std::optional<Infeed> infeed_of(double total, double rough_depth, double tolerance, double radial_step) {
    const double least = least_steps * radial_step;
    const double share =
        std::min(1.0, most_by_depth - std::max(proud_share, least / rough_depth) - tolerance / rough_depth);
    if (share < least_share) return std::nullopt;
    Infeed found;
    found.turns = std::max(1, static_cast<int>(step_above(total / (share * rough_depth))));
    found.depth = total / found.turns;
    found.proud = std::max(proud_share * found.depth, least);
    return found;
}

double least_infeed_depth(double tolerance, double radial_step) {
    const double by_steps = (tolerance + least_steps * radial_step) / (most_by_depth - least_share);
    const double by_share = tolerance / (most_by_depth - least_share - proud_share);
    return std::max(by_steps, by_share);
}

std::optional<TooManyPasses> too_many_passes(double deepest, double rough_depth) {
    const double passes = deepest / rough_depth;
    if (passes <= most_roughing_passes) return std::nullopt;
    return TooManyPasses{passes, deepest / most_roughing_passes};
}

std::vector<Ring> rings(const Roughing& roughing, double allowance, double tolerance) {
    std::vector<Ring> found;
    const double after = (roughing.semi_finish ? 2.0 : 1.0) * roughing.left;
    for (int k = 1; k <= roughing.rings; ++k) {
        const double over = after + (roughing.rings - k) * roughing.depth;
        const double proud = std::max(tolerance, std::min(roughing.margin, 0.25 * over));
        found.push_back({PassKind::roughing, k, allowance + over, {proud, 0.0}, roughing.depth});
    }
    if (roughing.semi_finish) {
        const double proud = std::max(tolerance, 0.125 * roughing.left);
        found.push_back({PassKind::semi_finish, 0, allowance + roughing.left, {proud, 0.0}, roughing.left});
    }
    for (std::size_t i = 1; i < found.size(); ++i)
        found[i].stock += found[i - 1].margins.proud;
    return found;
}

double finish_depth_of(const Cut& cut) {
    return cut.finish_depth.value_or(usual_finish_depth);
}

std::vector<Ring> even_passes(double total, double depth, double allowance, double tolerance) {
    const auto passes = std::max(1LL, step_above(total / depth * (1.0 - depth_rounding)));
    const double each = total / static_cast<double>(passes);
    const double proud = std::max(tolerance, 0.125 * each);
    std::vector<Ring> found;
    for (long long left = passes - 1; left >= 1; --left) {
        const double stock = each + (found.empty() ? 0.0 : proud);
        found.push_back(
            {PassKind::semi_finish, 0, allowance + static_cast<double>(left) * each, {proud, 0.0}, stock});
    }
    return found;
}

double least_seconds(const Setup& setup, const std::vector<CutterContact>& nodes,
                     const std::vector<Ring>& rings) {
    constexpr double sure = 0.97;  // the nodes are points of the curve, not all of it
    const Cut& cut = setup.cut;
    double minutes = 0.0;
    for (const Ring& ring : rings) {
        minutes += length_in_blank(nodes, ring.left_on - cut.allowance, setup.blank_radius) /
                   feed_of(cut, ring.kind);
    }
    return sure * 60.0 * minutes;
}

double feed_of(const Cut& cut, PassKind kind) {
    const bool rough = kind == PassKind::roughing || kind == PassKind::infeed;
    return rough ? cut.rough_surface_feed.value_or(cut.surface_feed) : cut.surface_feed;
}

}  // namespace lobewright::toolpath
