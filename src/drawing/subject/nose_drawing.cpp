#include "base/elementary/elementary.h"
#include "base/text/length_text.h"
#include "drawing/subject/subjects.h"

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace drawing {
namespace {

/// The lobe's nose, the first of a ring's.
const HandNose* nose_of(const HandPlan& plan, std::size_t lobe) {
    const auto found = std::find_if(plan.noses.begin(), plan.noses.end(),
                                    [&](const HandNose& nose) { return nose.lobe == lobe; });
    return found != plan.noses.end() ? &*found : nullptr;
}

Diagnostic nothing_to_file(const Job& job, const std::string& method, const SolvedLobe& lobe) {
    Diagnostic complaint =
        finding(Severity::error, "no-nose-template", lobe.name,
                "the method " + method + " leaves no nose to file on " + lobe.name +
                    ": a template is for the nose that an offset fixture leaves between two flanks",
                "hand." + method + ".method");
    complaint.place = job.place_of(complaint.key);
    return complaint;
}

/// The plate with its notch downwards, on the nose's axis; the notch is an arc of the nose's radius from
/// mouth to mouth.
DrawnChain plate_of(double radius, double mouth, double depth, double scale) {
    const double half = mouth / 2.0;
    const double angle = 2.0 * elementary::asin(std::min(1.0, half / radius));
    const double bulge = elementary::tan(angle / 4.0);
    const double wide = half + std::max(8.0, mouth), tall = depth + std::max(8.0, mouth);
    DrawnChain plate;
    plate.closed = true;
    plate.points = {{{-wide, 0.0}}, {{-half, 0.0}, -bulge}, {{half, 0.0}},
                    {{wide, 0.0}},  {{wide, tall}},         {{-wide, tall}}};
    return placed(plate, {1.0, 0.0}, scale);
}

}  // namespace
}  // namespace drawing

Outcome<Drawing> nose_drawing(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan,
                              std::size_t lobe, std::optional<double> wanted) {
    using namespace drawing;
    const HandNose* nose = nose_of(plan, lobe);
    if (nose == nullptr) return nothing_to_file(job, plan.method, lobes[lobe]);
    const double radius = nose->filed_radius, mouth = nose->template_mouth, depth = nose->template_depth;
    const double scale = wanted.value_or(1.0);
    DrawingBoard board;
    board.chain(plate_of(radius, mouth, depth, scale));
    board.leader({0.0, scale * depth}, {14.0, scale * depth + 8.0}, "R " + figure(radius, job.units));
    board.dimension({scale * mouth / 2.0, 0.0}, {-scale * mouth / 2.0, 0.0}, 8.0, figure(mouth, job.units));
    board.line({0.0, -4.0}, {0.0, scale * depth + 20.0}, Pen::axis);
    add_title_block(board,
                    {job.title,
                     "nose template of " + lobes[lobe].name + ", as " + plan.method + " cuts its flanks",
                     {"the notch fits the finished nose; its mouth is where the nose meets the flanks",
                      "depth of the notch " + length_words(depth, job.units)}},
                    scale);
    return board.finished(job.title + ": nose template of " + lobes[lobe].name, scale, job.units);
}

}  // namespace lobewright
