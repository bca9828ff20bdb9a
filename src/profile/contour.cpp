#include "roots.h"

#include <lobewright/contour.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace lobewright {
namespace {

constexpr int stretches_of_a_piece = 24;

int samples_of(const ContourPiece& piece) {
    return piece.circular ? 1 : parts_of(piece.end - piece.start);
}

}  // namespace

Contour::Contour(std::vector<ContourPiece> pieces) : pieces_(std::move(pieces)) {
    assert(!pieces_.empty());
    Vec2 last = pieces_.front().at(pieces_.front().start).point;
    double turned_so_far = direction(last);
    double most_curved = 0.0, most_hollow = 0.0;
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
        const int samples = samples_of(piece);
        const auto nearness = [&piece](double t) { return -dot(piece.at(t).point, piece.at(t).point); };
        const auto hollow = [&piece](double t) { return piece.at(t).curvature; };
        const auto bulge = [&piece](double t) { return -piece.at(t).curvature; };
        const int arc_samples = piece.circular ? 32 : samples;
        largest_radius_ = std::max(largest_radius_,
                                   std::sqrt(-least_of(nearness, piece.start, piece.end, arc_samples).value));
        most_hollow = std::min(most_hollow, least_of(hollow, piece.start, piece.end, samples).value);
        most_curved = std::max(most_curved, -least_of(bulge, piece.start, piece.end, samples).value);
    }
    smallest_convex_radius_ = 1.0 / most_curved;
    smallest_hollow_radius_ =
        most_hollow < 0.0 ? -1.0 / most_hollow : std::numeric_limits<double>::infinity();
}

Contour::Spot Contour::on_ray(double beta) const {
    const double first = milestones_.front().direction;
    const double target = beta - full_turn * std::floor((beta - first) / full_turn);
    const auto after = std::upper_bound(milestones_.begin() + 1, milestones_.end(), target,
                                        [](double b, const Milestone& m) { return b < m.direction; });
    const Milestone& stretch = *(after - 1);
    const double span =
        (after == milestones_.end() ? first + full_turn : after->direction) - stretch.direction;
    const auto& at = pieces_[stretch.piece].at;
    const Vec2 ray = unit(beta);

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
