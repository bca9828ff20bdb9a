#include "post/program/resting_place.h"

#include "base/whole_steps.h"

namespace lobewright::post {

RestingPlace ending(const Job& job, const Dialect& dialect, const Toolpath& path) {
    if (const auto& place = job.machine->tool_change) {
        return {RestKind::tool_change, nearest_step(place->radial / path.grid.radial_step),
                nearest_step(place->axial / path.grid.axial_step)};
    }
    if (!dialect.home.empty()) return {RestKind::home};
    return {RestKind::at_clearance, path.start.radial, path.start.axial};
}

RestingPlace beginning(const Job& job, const Dialect& dialect, const Toolpath& path) {
    if (!dialect.home.empty() && !dialect.length_on.empty()) return {RestKind::home};
    return ending(job, dialect, path);
}

std::optional<double> too_near(const Job& job, const Toolpath& path) {
    const auto& place = job.machine->tool_change;
    if (!place || nearest_step(place->radial / path.grid.radial_step) >= path.start.radial)
        return std::nullopt;
    return static_cast<double>(path.start.radial) * path.grid.radial_step;
}

}  // namespace lobewright::post
