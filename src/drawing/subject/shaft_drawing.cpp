#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "drawing/subject/subjects.h"
#include "profile/hole_direction.h"

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace drawing {
namespace {

constexpr double label_clear = 6.0;  // mm of paper, from the outermost metal to the noses' names

struct ShaftView {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    double scale;
    double reach;                      ///< mm of paper: the outermost metal from the axis
    std::vector<DrawnChain> outlines;  ///< by lobe, on paper, round the axis
    DrawingBoard& board;
};

double outermost(const Job& job, const std::vector<SolvedLobe>& lobes) {
    double reach = job.shaft.blank().value_or(0.0) / 2.0;
    for (const SolvedLobe& lobe : lobes)
        reach = std::max(reach, lobe.contour.largest_radius());
    for (const Journal& journal : job.shaft.journals)
        reach = std::max(reach, journal.diameter / 2.0);
    return reach;
}

double far_end(const Job& job, const std::vector<SolvedLobe>& lobes) {
    double end = job.shaft.length.value_or(0.0);
    for (const SolvedLobe& lobe : lobes)
        end = std::max(end, lobe.z + lobe.width / 2.0);
    for (const Journal& journal : job.shaft.journals)
        end = std::max(end, journal.z + journal.width / 2.0);
    return end;
}

/// Names of the lobes by the direction of their noses; those that point the same way together.
struct NoseLabel {
    ShaftAngle at;
    std::string names;
};
std::vector<NoseLabel> labels_of(const std::vector<SolvedLobe>& lobes) {
    std::vector<NoseLabel> labels;
    constexpr ShaftAngle same = ShaftAngle::from_degrees(0.5);
    for (const SolvedLobe& lobe : lobes) {
        const auto near = std::find_if(labels.begin(), labels.end(), [&](const NoseLabel& label) {
            const ShaftAngle off = wrapped(label.at - lobe.at);
            return off < same && -off < same;
        });
        if (near == labels.end())
            labels.push_back({lobe.at, lobe.name});
        else
            near->names += ", " + lobe.name;
    }
    return labels;
}

void draw_noses(const ShaftView& view) {
    for (const NoseLabel& label : labels_of(view.lobes)) {
        const Vec2 way = unit(label.at.radians());
        const double degrees = label.at.degrees() - 360.0 * std::floor(label.at.degrees() / 360.0);
        view.board.line(view.reach * way, (view.reach + label_clear) * way);
        view.board.text((view.reach + label_clear + 1.5) * way - Vec2{0.0, small_height / 2.0},
                        label.names + " " + degree_figure(degrees, 2),
                        way.x < 0.0 ? Anchor::end : Anchor::start, small_height);
    }
}

void draw_end_view(const ShaftView& view) {
    for (const DrawnChain& outline : view.outlines)
        view.board.chain(outline);
    if (view.job.shaft.blank())
        view.board.circle({}, view.scale * *view.job.shaft.blank() / 2.0, Pen::hidden);
    view.board.centre_cross({}, view.reach);
    draw_noses(view);
    const double datum = view.reach + 24.0;
    view.board.arrow({datum, 0.0}, {1.0, 0.0});
    view.board.line({view.reach, 0.0}, {datum, 0.0});
    view.board.text({datum + 1.5, -small_height / 2.0}, "datum, 0°", Anchor::start, small_height);
    const double sense = sign_of(view.job.shaft.turns);
    view.board.turn_arrow({}, view.reach + 3.0, -2.2, sense * 0.9);
}

/// Side view: what the outlines cover across the reader's eye. `origin`: the drive end's middle.
void draw_side_view(const ShaftView& view, Vec2 origin) {
    const double end = view.scale * far_end(view.job, view.lobes);
    view.board.line(origin - Vec2{5.0, 0.0}, origin + Vec2{end + 5.0, 0.0}, Pen::axis);
    for (const Journal& journal : view.job.shaft.journals) {
        const Vec2 middle = origin + Vec2{view.scale * journal.z, 0.0};
        const Vec2 half = view.scale / 2.0 * Vec2{journal.width, journal.diameter};
        view.board.rectangle(middle - half, middle + half);
    }
    for (std::size_t i = 0; i < view.lobes.size(); ++i) {
        const SolvedLobe& lobe = view.lobes[i];
        const Extents extents = extents_of(view.outlines[i]);
        const double middle = origin.x + view.scale * lobe.z, half = view.scale * lobe.width / 2.0;
        view.board.rectangle({middle - half, origin.y + extents.low.y},
                             {middle + half, origin.y + extents.high.y});
        view.board.text({middle + small_height / 2.0, origin.y + view.reach + 3.0}, lobe.name, Anchor::start,
                        small_height, full_turn / 4.0);
    }
    if (view.job.shaft.blank()) {
        const double half = view.scale * *view.job.shaft.blank() / 2.0;
        view.board.rectangle(origin - Vec2{0.0, half}, origin + Vec2{end, half}, Pen::hidden);
    }
}

/// Each hole where it is drilled: dashed across the end view, and in the side view by its two edges where it
/// lies across the reader's eye, by its mouth where it faces the reader.
void draw_holes(const ShaftView& view, Vec2 origin) {
    for (const Hole& hole : view.job.shaft.holes) {
        const Vec2 way = unit(profile::hole_direction(hole, view.lobes).radians());
        view.board.line({}, view.reach * way, Pen::hidden);
        view.board.arrow(view.reach * way, way);
        const Vec2 at = origin + Vec2{view.scale * hole.z, 0.0};
        const double radius = view.scale * hole.diameter / 2.0;
        if (std::abs(way.x) > std::abs(way.y)) {
            view.board.circle(at, radius, way.x > 0.0 ? Pen::thin : Pen::hidden);
            continue;
        }
        for (const double edge : {-radius, radius})
            view.board.line(at + Vec2{edge, 0.0}, at + Vec2{edge, view.reach * way.y}, Pen::hidden);
    }
}

/// "hole 1.5 across at 20 from the drive end, 180°".
std::vector<std::string> hole_notes(const ShaftView& view) {
    std::vector<std::string> notes;
    for (const Hole& hole : view.job.shaft.holes) {
        const double degrees = full_circle_degrees(profile::hole_direction(hole, view.lobes));
        notes.push_back("hole " + figure(hole.diameter, view.job.units) + " across, " +
                        figure(hole.z, view.job.units) + " from the drive end, at " +
                        degree_figure(degrees, 2));
    }
    return notes;
}

/// From the drive end to the middle of each thing, one below the other's figure.
void dimension_places(const ShaftView& view, Vec2 origin) {
    std::vector<double> places;
    for (const SolvedLobe& lobe : view.lobes)
        places.push_back(lobe.z);
    for (const Journal& journal : view.job.shaft.journals)
        places.push_back(journal.z);
    for (const Hole& hole : view.job.shaft.holes)
        places.push_back(hole.z);
    if (view.job.shaft.length) places.push_back(*view.job.shaft.length);
    places.push_back(0.0);
    for (const double z : places) {
        const Vec2 top = origin + Vec2{view.scale * z, -view.reach - 1.0};
        view.board.line(top, top - Vec2{0.0, 6.0}, Pen::dimension);
        view.board.text(top + Vec2{small_height / 2.0, -7.0}, figure(z, view.job.units), Anchor::end,
                        small_height, full_turn / 4.0);
    }
}

}  // namespace
}  // namespace drawing

Drawing shaft_drawing(const Job& job, const std::vector<SolvedLobe>& lobes, std::optional<double> wanted) {
    using namespace drawing;
    const double reach = outermost(job, lobes);
    const double scale = wanted.value_or(usual_scale(std::max(far_end(job, lobes), 3.0 * reach), 180.0));
    DrawingBoard board;
    std::vector<DrawnChain> outlines;
    for (const SolvedLobe& lobe : lobes)
        outlines.push_back(placed(chain_of(lobe.contour), unit(lobe.at.radians()), scale));
    const ShaftView view{job, lobes, scale, scale * reach, std::move(outlines), board};
    draw_end_view(view);
    const Vec2 origin{board.low().x + 10.0, board.low().y - view.reach - 30.0};
    draw_side_view(view, origin);
    draw_holes(view, origin);
    dimension_places(view, origin);
    std::vector<std::string> notes{
        "above: seen from the drive end, angles counter-clockwise from the datum, the arrow is the way it "
        "runs",
        "below: drive end to the left, the datum's side facing you; places from the drive end, lengths in " +
            std::string(units_noun(job.units))};
    for (std::string& note : hole_notes(view))
        notes.push_back(std::move(note));
    add_title_block(board, {job.title, "the shaft", notes}, scale);
    return board.finished(job.title + ": the shaft", scale, job.units);
}

}  // namespace lobewright
