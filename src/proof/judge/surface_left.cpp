#include "proof/judge/plane_verdict.h"

#include <lobewright/program_reader.h>
#include <lobewright/surface_left.h>

#include <numbers>

namespace lobewright {
namespace {

using namespace proof;

SurfaceLeft left_round(const SolvedLobe& lobe, double allowance, const PlaneSweep& plane, std::size_t rays) {
    const Design design(lobe, allowance);
    SurfaceLeft left;
    for (std::size_t i = 0; i < rays; ++i) {
        const double beta = full_turn * static_cast<double>(i) / static_cast<double>(rays) - std::numbers::pi;
        const Contour::RayPoint met = lobe.contour.on_ray(ShaftAngle::from_radians(beta));
        const DesignRay ray = design.at(met.piece, met.t);
        left.push_back(deviation(plane.left_on(ray.psi), ray));
    }
    return left;
}

}  // namespace

Outcome<std::vector<SurfaceLeft>> surface_left(const Job& job, const std::vector<SolvedLobe>& lobes,
                                               const Dialect& dialect, const std::string& text,
                                               const std::string& file, std::size_t rays) {
    const Outcome<ReadProgram> program = read_program(text, file, dialect, job.units);
    if (!program) return program.diagnostics();
    const CutterBody body = cutter_body(job);
    const ShaftMoves moves = shaft_moves(*program, body);
    const double stock = 0.5 * *job.shaft.blank();
    const MovesAlongShaft cutting = moves_below(moves, body.cutting, stock);
    std::vector<SurfaceLeft> all;
    for (const SolvedLobe& lobe : lobes) {
        const PlaneSweep plane(cutting, body.cutting, lobe.z, stock);
        all.push_back(left_round(lobe, job.cut->allowance, plane, rays));
    }
    return all;
}

}  // namespace lobewright
