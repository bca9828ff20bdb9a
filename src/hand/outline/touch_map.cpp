#include "hand/outline/touch_map.h"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace lobewright::hand {
namespace {

constexpr int nodes_a_part = 32;

/// The root of a rising function; the end beyond which it lies, where rounding puts it outside.
double rising_root(const auto& function, double low, double high) {
    const double at_low = function(low);
    const double at_high = function(high);
    if (at_low >= 0.0) return low;
    if (at_high <= 0.0) return high;
    std::uintmax_t iterations = 100;
    const auto bracket = boost::math::tools::toms748_solve(
        function, low, high, at_low, at_high, boost::math::tools::eps_tolerance<double>(), iterations);
    return (bracket.first + bracket.second) / 2.0;
}

}  // namespace

TouchMap::TouchMap(const Contour& contour, std::optional<double> cutter_radius)
    : pieces_(contour.pieces()), cutter_radius_(cutter_radius) {
    add_parts();
    add_nodes();
}

void TouchMap::add_parts() {
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
        const ContourPiece& piece = pieces_[i];
        const ContourPiece& next = pieces_[(i + 1) % pieces_.size()];
        parts_.push_back({i, piece.start, piece.end, {}});
        const ContourPoint ends = piece.at(piece.end);
        const double turn = angle_between(ends.normal, next.at(next.start).normal);
        const double before = direction(ends.normal);
        if (turn > least_corner.radians())
            parts_.push_back({std::nullopt, before, before + turn, ends.point});
    }
}

void TouchMap::add_nodes() {
    for (std::size_t i = 0; i <= parts_.size() * nodes_a_part; ++i) {
        const double parameter = static_cast<double>(i) / nodes_a_part;
        const ShaftAngle here = direction_at(parameter);
        const ShaftAngle unwrapped =
            nodes_.empty() ? here : nodes_.back().direction + wrapped(here - nodes_.back().direction);
        nodes_.push_back({parameter, unwrapped});
    }
}

ContourPoint TouchMap::at(double parameter) const {
    const double within = parameter - period() * std::floor(parameter / period());
    const auto index = std::min(static_cast<std::size_t>(within), parts_.size() - 1);
    const ContourPart& part = parts_[index];
    const double t = part.start + (within - static_cast<double>(index)) * (part.end - part.start);
    if (part.piece) return pieces_[*part.piece].at(std::clamp(t, part.start, part.end));
    return {part.corner, unit(t), 0.0, 0.0};
}

ShaftAngle TouchMap::direction_at(double parameter) const {
    const ContourPoint here = at(parameter);
    return direction_of(cutter_radius_ ? here.point + *cutter_radius_ * here.normal : here.normal);
}

TouchMap::TouchPoint TouchMap::touch(ShaftAngle direction) const {
    const double first = nodes_.front().direction.radians();
    const double turns = std::floor((direction.radians() - first) / full_turn);
    const ShaftAngle wanted = direction - ShaftAngle::from_radians(full_turn * turns);
    const auto above =
        std::upper_bound(nodes_.begin() + 1, nodes_.end() - 1, wanted,
                         [](ShaftAngle value, const DirectionNode& node) { return value < node.direction; });
    const auto past = [&](double parameter) { return wrapped(direction_at(parameter) - wanted).radians(); };
    const double parameter = rising_root(past, (above - 1)->parameter, above->parameter);
    const ContourPoint touched = at(parameter);
    return {parameter, touched,
            cutter_radius_ ? length(touched.point + *cutter_radius_ * touched.normal)
                           : dot(touched.point, unit_towards(direction))};
}

ContourPoint TouchMap::foot(double from, double to, Vec2 point) const {
    const auto past = [&](double parameter) {
        const ContourPoint here = at(parameter);
        return dot(here.point - point, quarter_turn(here.normal));
    };
    return at(rising_root(past, from, to));
}

}  // namespace lobewright::hand
