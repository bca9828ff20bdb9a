#include "hand/finish/deviations.h"

#include "hand/finish/least_value.h"
#include "hand/outline/touch_map.h"

#include <algorithm>

namespace lobewright::hand {
namespace {

using Maker = OutlinePiece::Maker;

/// A contour point of the lobe's frame in the shaft's.
ContourPoint on_shaft(const ContourPoint& here, Vec2 nose) {
    return {turned(here.point, nose), turned(here.normal, nose), here.curvature, here.speed};
}

/// Distance of a point outside a convex contour from it (negative just inside), all in the lobe's frame.
double height_over(const TouchMap& normals, Vec2 point) {
    const ShaftAngle towards = direction_of(point);
    const double from = normals.touch(towards - quarter_of_a_turn).parameter;
    double to = normals.touch(towards + quarter_of_a_turn).parameter;
    if (to < from) to += normals.period();
    const ContourPoint foot = normals.foot(from, to, point);
    return dot(point - foot.point, foot.normal);
}

double highest_corner(const SolvedLobe& lobe, const Outline& outline) {
    const TouchMap normals(lobe.contour, std::nullopt);
    const Vec2 back = unit_towards(-lobe.at);
    double highest = 0.0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const OutlinePiece& piece = outline[i];
        const OutlinePiece& before = outline[(i + outline.size() - 1) % outline.size()];
        if (before.maker == Maker::file || piece.maker == Maker::file) continue;
        highest = std::max(highest, height_over(normals, turned(piece.start, back)));
        if (piece.maker != Maker::blank) continue;
        const Vec2 middle = piece.radius * unit_towards((piece.from + piece.to) / 2.0);
        highest = std::max(highest, height_over(normals, turned(middle, back)));
    }
    return highest;
}

}  // namespace

Deviations deviations_of_arcs(const SolvedLobe& lobe, const std::vector<HandCut>& cuts, HandStock stock,
                              const std::vector<FiledNose>& noses, const Outline& outline) {
    const Vec2 nose = unit_towards(lobe.at);
    const auto left_over = [&](const ContourPoint& here) {
        const ContourPoint p = on_shaft(here, nose);
        double exit = exit_of_blank(stock.blank_radius, p.point, p.normal);
        for (const HandCut& cut : cuts)
            exit = std::min(exit, exit_along(cut, p.point, p.normal));
        for (const FiledNose& filed_nose : noses)
            exit = std::min(exit, exit_along(filed_nose, p.point, p.normal));
        return exit - stock.allowance;
    };
    Deviations result;
    result.highest_ridge = std::max(0.0, highest_corner(lobe, outline) - stock.allowance);
    result.proudest = result.highest_ridge;
    for (const ContourPiece& piece : lobe.contour.pieces()) {
        const auto height = [&](double t) { return left_over(piece.at(t)); };
        const auto depth = [&](double t) { return -height(t); };
        result.deepest = std::min(result.deepest, least_value(height, piece.start, piece.end));
        result.proudest = std::max(result.proudest, -least_value(depth, piece.start, piece.end));
    }
    return result;
}

}  // namespace lobewright::hand
