#include "cli/commands.h"
#include "cli/load.h"

#include <lobewright/drawing.h>

namespace lobewright::cli {
namespace {

constexpr double usual_degree_wheel = 165.0;  // mm: what A4 and Letter take with their margins

std::optional<double> in_mm(const std::optional<double>& figure, const Job& job) {
    if (!figure) return std::nullopt;
    return *figure * mm_per(job.units);
}

/// Of the lobe that is asked for, as `draw` makes it.
template <class Draw>
Outcome<Drawing> of_lobe(const Options& options, const SolvedJob& solved, Draw draw) {
    const Outcome<std::size_t> lobe = find_lobe(solved.lobes, options.lobe, "draw --what " + options.what);
    if (!lobe) return lobe.diagnostics();
    return draw(*lobe);
}

/// Of the hand method that is asked for.
template <class Draw>
Outcome<Drawing> of_plan(const Options& options, const SolvedJob& solved, Draw draw) {
    const Outcome<std::string> method =
        find_method(solved.job, options.method, "draw --what " + options.what);
    if (!method) return method.diagnostics();
    const Outcome<HandPlan> plan = plan_hand(solved.job, solved.lobes, *method);
    if (!plan) return plan.diagnostics();
    return draw(*plan);
}

Outcome<Drawing> draw_wheel(const Options& options, const SolvedJob& solved) {
    const Job& job = solved.job;
    const WheelSize size{in_mm(options.diameter, job), in_mm(options.bore, job).value_or(0.0),
                         in_mm(options.screw_circle, job).value_or(0.0)};
    return of_plan(options, solved,
                   [&](const HandPlan& plan) { return index_wheel_drawing(job, solved.lobes, plan, size); });
}

Outcome<Drawing> draw_nose(const Options& options, const SolvedJob& solved) {
    return of_lobe(options, solved, [&](std::size_t lobe) {
        return of_plan(options, solved, [&](const HandPlan& plan) {
            return nose_drawing(solved.job, solved.lobes, plan, lobe, options.scale);
        });
    });
}

Outcome<Drawing> draw(const Options& options, const SolvedJob& solved) {
    const Job& job = solved.job;
    const std::vector<SolvedLobe>& lobes = solved.lobes;
    switch (options.thing) {
        case DrawnThing::lobe:
            return of_lobe(options, solved, [&](std::size_t lobe) -> Outcome<Drawing> {
                return lobe_drawing(job, lobes[lobe], options.scale);
            });
        case DrawnThing::shaft:
            return shaft_drawing(job, lobes, options.scale);
        case DrawnThing::wheel:
            return draw_wheel(options, solved);
        case DrawnThing::nose:
            return draw_nose(options, solved);
        case DrawnThing::degree_wheel:
            return degree_wheel_drawing(job, lobes, in_mm(options.diameter, job).value_or(usual_degree_wheel),
                                        options.crank == "cw" ? Sense::cw : Sense::ccw);
        case DrawnThing::motion:
            return of_lobe(options, solved, [&](std::size_t lobe) -> Outcome<Drawing> {
                return motion_drawing(job, lobes[lobe]);
            });
    }
    return shaft_drawing(job, lobes);
}

}  // namespace

Result draw_command(const Options& options, Inputs& inputs) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, inputs);
    if (!take(solved, result)) return result;
    const Outcome<Drawing> drawing = draw(options, *solved);
    if (take(drawing, result))
        result.text = options.drawing_format == "dxf" ? dxf_text(*drawing) : svg_text(*drawing);
    return result;
}

}  // namespace lobewright::cli
