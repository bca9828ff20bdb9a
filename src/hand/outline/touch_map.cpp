#include "hand/outline/touch_map.h"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>

namespace lobewright::hand {
namespace {

constexpr int nodes_a_stretch = 32;

double root(const auto& function, double low, double high) {
    const double at_low = function(low);
    const double at_high = function(high);
    if (at_low >= 0.0) return low;
    if (at_high <= 0.0) return high;
    boost::uintmax_t iterations = 100;
    const auto bracket = boost::math::tools::toms748_solve(
        function, low, high, at_low, at_high, boost::math::tools::eps_tolerance<double>(), iterations);
    return (bracket.first + bracket.second) / 2.0;
}

}  // namespace

TouchMap::TouchMap(const Contour& contour, std::optional<double> cutter_radius)
    : pieces_(contour.pieces()), cutter_radius_(cutter_radius) {
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
        const ContourPiece& piece = pieces_[i];
        const ContourPiece& next = pieces_[(i + 1) % pieces_.size()];
        stretches_.push_back({i, piece.start, piece.end, {}});
        const ContourPoint ends = piece.at(piece.end);
        const Vec2 turns_to = next.at(next.start).normal;
        const double turn = angle_between(ends.normal, turns_to);
        const double before = direction(ends.normal);
        if (turn > 1e-9) stretches_.push_back({std::nullopt, before, before + turn, ends.point});
    }
    for (std::size_t i = 0; i <= stretches_.size() * nodes_a_stretch; ++i) {
        const double way = static_cast<double>(i) / nodes_a_stretch;
        const double here = direction_at(way);
        const double unwrapped =
            nodes_.empty() ? here : nodes_.back().direction + wrapped_radians(here - nodes_.back().direction);
        nodes_.push_back({way, unwrapped});
    }
}

ContourPoint TouchMap::at(double way) const {
    const double turned = way - turn() * std::floor(way / turn());
    const auto index = std::min(static_cast<std::size_t>(turned), stretches_.size() - 1);
    const Stretch& stretch = stretches_[index];
    const double t = stretch.start + (turned - static_cast<double>(index)) * (stretch.end - stretch.start);
    if (stretch.piece) return pieces_[*stretch.piece].at(std::clamp(t, stretch.start, stretch.end));
    return {stretch.corner, unit(t), 0.0, 0.0};
}

double TouchMap::direction_at(double way) const {
    const ContourPoint here = at(way);
    return direction(cutter_radius_ ? here.point + *cutter_radius_ * here.normal : here.normal);
}

TouchMap::Spot TouchMap::touch(double wanted) const {
    const double first = nodes_.front().direction;
    const double turned = wanted - full_turn * std::floor((wanted - first) / full_turn);
    const auto above =
        std::upper_bound(nodes_.begin() + 1, nodes_.end() - 1, turned,
                         [](double value, const Node& node) { return value < node.direction; });
    const Node& low = *(above - 1);
    const Node& high = *above;
    const auto past = [&](double way) { return wrapped_radians(direction_at(way) - turned); };
    const double way = root(past, low.way, high.way);
    return {way, at(way)};
}

double TouchMap::reach(double direction_asked) const {
    const ContourPoint touched = touch(direction_asked).at;
    if (!cutter_radius_) return dot(touched.point, unit(direction_asked));
    return length(touched.point + *cutter_radius_ * touched.normal);
}

TouchMap::Spot TouchMap::foot(double from, double to, Vec2 point) const {
    const auto past = [&](double way) {
        const ContourPoint here = at(way);
        return dot(here.point - point, quarter_turn(here.normal));
    };
    const double way = root(past, from, to);
    return {way, at(way)};
}

}  // namespace lobewright::hand
