#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "drawing/subject/subjects.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace drawing {

std::string degree_figure(double degrees, int decimals) {
    return short_degrees(degrees, decimals) + "°";
}

namespace {

/// A lobe on its board, nose up, the shaft's axis at the origin; all but `lobe` in mm of paper.
struct LobeView {
    const Job& job;
    const SolvedLobe& lobe;
    double scale;
    Extents extents;
    DrawingBoard& board;

    [[nodiscard]] std::string size(double paper) const { return figure(paper / scale, job.units); }
};

/// The middle of the first piece of that name, on the paper.
std::optional<Vec2> middle_of(const LobeView& view, const std::string& name) {
    for (const ContourPiece& piece : view.lobe.contour.pieces()) {
        if (piece.name == name)
            return view.scale * turned(piece.at((piece.start + piece.end) / 2.0).point, up);
    }
    return std::nullopt;
}

/// mm of paper: the arc that the action angle is told on.
double action_radius(const LobeView& view) {
    return view.scale * view.lobe.contour.largest_radius() + 10.0;
}

void dimension_arcs(const LobeView& view) {
    const ArcGeometry& arcs = *view.lobe.arcs;
    const auto radius = [&](double mm) { return "R " + figure(std::abs(mm), view.job.units); };
    const std::string flank = std::isinf(arcs.flank_radius) ? "straight flank"
                              : arcs.flank_radius < 0.0     ? "hollow flank " + radius(arcs.flank_radius)
                                                            : "flank " + radius(arcs.flank_radius);
    if (const auto tip = middle_of(view, "nose"))
        view.board.leader(*tip, *tip + Vec2{26.0, 12.0}, "nose " + radius(arcs.nose_radius));
    const auto tip = middle_of(view, view.lobe.turns == Sense::ccw ? "closing flank" : "opening flank");
    if (tip) view.board.leader(*tip, {action_radius(view) + 2.0, tip->y + 4.0}, flank);
}

/// Heights along the nose's axis: over the base circle, and over both as between parallel jaws.
void dimension_heights(const LobeView& view) {
    const double base = view.scale * view.lobe.base_radius, top = view.extents.high.y;
    const double aside = action_radius(view) + 6.0;
    view.board.dimension({0.0, base}, {0.0, top}, aside, view.size(top - base));
    view.board.dimension({0.0, view.extents.low.y}, {0.0, top}, aside + 9.0,
                         view.size(top - view.extents.low.y));
}

void dimension_action_angle(const LobeView& view) {
    const double action = view.lobe.action_angle.radians();
    view.board.angle_dimension({}, action_radius(view), (std::numbers::pi - action) / 2.0, action,
                               "action angle " + degree_figure(view.lobe.action_angle.degrees()));
}

/// The datum's direction, and the way that the shaft runs.
void show_senses(const LobeView& view) {
    const double base = view.scale * view.lobe.base_radius;
    const Vec2 datum = turned(unit(-view.lobe.at.radians()), up);
    view.board.line(0.35 * base * datum, (base + 9.0) * datum, Pen::hidden);
    view.board.arrow((base + 9.0) * datum, datum);
    view.board.text((base + 12.0) * datum - Vec2{0.0, 1.2}, "datum",
                    datum.x < 0.0 ? Anchor::end : Anchor::start, small_height);
    const double sense = sign_of(view.lobe.turns);
    view.board.turn_arrow({}, 0.55 * base, -0.75 * std::numbers::pi, sense * 1.2);
}

std::vector<std::string> notes_of(const LobeView& view) {
    const SolvedLobe& lobe = view.lobe;
    const auto size = [&](double mm) { return length_words(mm, view.job.units); };
    std::vector<std::string> notes{"seen from the drive end, nose up at " +
                                   degree_figure(full_circle_degrees(lobe.at)) +
                                   " from the datum; the arrow shows the way it runs"};
    notes.push_back("lift of the follower " + size(lobe.lift) + ", lobe " + size(lobe.width) +
                    " wide, its middle " + size(lobe.z) + " from the drive end");
    if (!lobe.arcs) {
        notes.push_back("smallest convex radius " + size(lobe.contour.smallest_convex_radius()) +
                        ", outline of arcs true to " + own_figure(drawn_tolerance, view.job.units));
    }
    return notes;
}

}  // namespace
}  // namespace drawing

Drawing lobe_drawing(const Job& job, const SolvedLobe& lobe, std::optional<double> wanted) {
    using namespace drawing;
    constexpr double room = 110.0;  // mm of paper: A4 less dimensions and margins
    const double scale = wanted.value_or(usual_scale(2.0 * lobe.contour.largest_radius(), room));
    const DrawnChain outline = placed(chain_of(lobe.contour), up, scale);
    DrawingBoard board;
    const LobeView view{job, lobe, scale, extents_of(outline), board};
    board.chain(outline);
    board.circle({}, scale * lobe.base_radius, Pen::hidden);
    board.centre_cross({}, scale * lobe.contour.largest_radius());
    board.leader({0.0, -scale * lobe.base_radius}, {14.0, view.extents.low.y - 8.0},
                 "base circle R " + figure(lobe.base_radius, job.units));
    if (lobe.arcs) dimension_arcs(view);
    if (lobe.repeat == 1) dimension_heights(view), dimension_action_angle(view);
    show_senses(view);
    add_title_block(board, {job.title, "lobe " + lobe.name, notes_of(view)}, scale);
    return board.finished(job.title + ": lobe " + lobe.name, scale, job.units);
}

}  // namespace lobewright
