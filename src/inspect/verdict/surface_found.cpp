#include "inspect/verdict/lobe_error.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::inspection {
namespace {

constexpr int places_of_a_turn = 720;
// Standard errors: the surface is within where the worst place is by two; beyond where one is by four, since
// the worst of some sixty places looks worse than it is by two or three.
constexpr double surely_within = 2.0;
constexpr double surely_beyond = 4.0;

ToleranceVerdict verdict_of(const SurfaceFound& surface, double tolerance) {
    const auto worst = [&](double share) {
        return std::max(surface.proudest.value + share * surface.proudest.error,
                        -surface.deepest.value + share * surface.deepest.error);
    };
    if (worst(surely_within) <= tolerance) return ToleranceVerdict::within;
    return worst(-surely_beyond) > tolerance ? ToleranceVerdict::beyond : ToleranceVerdict::too_close;
}

}  // namespace

std::optional<SurfaceFound> surface_found(const LobeError& error, const Estimate& base,
                                          std::optional<double> tolerance) {
    const std::optional<double> window = error.of_surface.usual_window();
    if (!window) return std::nullopt;
    SurfaceFound found;
    found.window = CamAngle::from_radians(*window);
    bool any = false;
    for (int i = 0; i < places_of_a_turn; ++i) {
        const CamAngle angle = CamAngle::from_radians(full_turn * i / places_of_a_turn - std::numbers::pi);
        const auto local = error.of_surface.at(angle.radians(), *window);
        if (!local) continue;
        const Estimate here{local->value.value + base.value,
                            std::sqrt(local->value.error * local->value.error + base.error * base.error)};
        if (!any || here.value < found.deepest.value) found.deepest = here, found.deepest_at = angle;
        if (!any || here.value > found.proudest.value) found.proudest = here, found.proudest_at = angle;
        any = true;
    }
    if (!any) return std::nullopt;
    if (tolerance) found.verdict = verdict_of(found, *tolerance);
    return found;
}

}  // namespace lobewright::inspection
