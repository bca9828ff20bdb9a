#include <lobewright/contour.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lobewright {
namespace {

constexpr int stretches_of_a_piece = 24;

/// The greatest distance from the axis along an arc: at an end, or where the arc's centre stands behind it.
double largest_distance(const ContourPiece& arc) {
    const ContourPoint start = arc.at(arc.start);
    double largest = std::max(length(start.point), length(arc.at(arc.end).point));
    if (!(start.curvature > 0.0)) return largest;
    const double radius = 1.0 / start.curvature;
    const Vec2 centre = start.point - radius * start.normal;
    const double turn = angle_between(start.normal, centre);
    const double top = arc.start + (turn < 0.0 ? turn + full_turn : turn) / (start.curvature * start.speed);
    return top < arc.end ? std::max(largest, length(centre) + radius) : largest;
}

ContourExtremes extremes_of(const std::vector<ContourPiece>& arcs) {
    double most_curved = 0.0, most_hollow = 0.0;
    ContourExtremes extremes;
    for (const ContourPiece& arc : arcs) {
        assert(arc.circular);
        const double curvature = arc.at(arc.start).curvature;
        most_curved = std::max(most_curved, curvature);
        most_hollow = std::min(most_hollow, curvature);
        extremes.largest_radius = std::max(extremes.largest_radius, largest_distance(arc));
    }
    extremes.smallest_convex_radius = 1.0 / most_curved;
    if (most_hollow < 0.0) extremes.smallest_hollow_radius = -1.0 / most_hollow;
    return extremes;
}

}  // namespace

Contour::Contour(const std::vector<ContourPiece>& arcs) : Contour(arcs, extremes_of(arcs)) {}

Contour::Contour(std::vector<ContourPiece> pieces, const ContourExtremes& extremes)
    : pieces_(std::move(pieces)), extremes_(extremes) {
    assert(!pieces_.empty());
    Vec2 last = pieces_.front().at(pieces_.front().start).point;
    double turned_so_far = direction(last);
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
        const ContourPiece& piece = pieces_[i];
        const double step = (piece.end - piece.start) / stretches_of_a_piece;
        for (int k = 0; k < stretches_of_a_piece; ++k) {
            const double start = piece.start + k * step;
            const double end = k + 1 == stretches_of_a_piece ? piece.end : start + step;
            const Vec2 point = piece.at(start).point;
            turned_so_far += angle_between(last, point);
            last = point;
            milestones_.push_back({turned_so_far, i, start, end});
        }
    }
}

Contour::RayPoint Contour::on_ray(ShaftAngle beta) const {
    const double first = milestones_.front().direction;
    const double target = beta.radians() - full_turn * std::floor((beta.radians() - first) / full_turn);
    const auto after = std::upper_bound(milestones_.begin() + 1, milestones_.end(), target,
                                        [](double b, const Milestone& m) { return b < m.direction; });
    const Milestone& stretch = *(after - 1);
    const double span =
        (after == milestones_.end() ? first + full_turn : after->direction) - stretch.direction;
    const auto& at = pieces_[stretch.piece].at;
    const Vec2 ray = unit(beta.radians());

    // off(t) = ray × point grows along the stretch, from a point before the ray to one behind it.
    double low = stretch.start, high = stretch.end;
    double t = std::clamp(low + (target - stretch.direction) / span * (high - low), low, high);
    ContourPoint spot = at(t);
    constexpr double precision = std::numeric_limits<double>::epsilon();
    for (int step = 0; step < 100; ++step) {
        const double off = cross(ray, spot.point);
        if (std::abs(off) <= precision * length(spot.point)) break;
        (off < 0.0 ? low : high) = t;
        double next = t - off / cross(ray, spot.speed * quarter_turn(spot.normal));
        if (!(next > low && next < high)) next = 0.5 * (low + high);
        if (next == t || next <= low || next >= high) break;
        t = next;
        spot = at(t);
    }
    return {stretch.piece, t, spot};
}

}  // namespace lobewright
