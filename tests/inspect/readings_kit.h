/// Readings of lobes that are known, made for tests: from the follower's exact motion, not from the stage's
/// own envelope.
#pragma once

#include "basalt.h"

#include <lobewright/inspect_fit.h>

#include <cmath>
#include <functional>
#include <numbers>
#include <random>

namespace readings_kit {

using namespace lobewright;

/// The same on every machine, which the library's own distributions are not.
class Noise {
  public:
    explicit Noise(unsigned seed) : engine_(seed) {}
    double even() { return (static_cast<double>(engine_()) + 0.5) / 4294967296.0; }
    /// Normal, of standard deviation 1 (Box and Muller).
    double normal() { return std::sqrt(-2.0 * std::log(even())) * std::cos(2.0 * std::numbers::pi * even()); }

  private:
    std::mt19937 engine_;
};

/// What is wrong with a lobe and its set-up.
struct Wrong {
    double phase_degrees = 0.0;  ///< of cam angle, late
    double base = 0.0;           ///< mm; of a lobe under a flat anvil also the zero
    double runout = 0.0;         ///< mm
    double runout_at = 0.0;      ///< degrees of shaft angle
    std::function<double(double)> form = [](double) {
        return 0.0;
    };  ///< mm at a cam angle of the lobe, degrees
};

/// One reading: a flat anvil on a lobe of a flat follower, or a knife's or ball's on that of its own
/// follower.
inline double reading_of(const SolvedLobe& lobe, const Wrong& wrong, double cam_degrees) {
    const double on_lobe = cam_degrees - wrong.phase_degrees;
    const double shaft = lobe.at.degrees() - sign_of(lobe.turns) * cam_degrees;
    const double turned = (shaft - wrong.runout_at) * std::numbers::pi / 180.0;
    return lobe.motion.at(CamAngle::from_degrees(on_lobe)).lift + wrong.base +
           wrong.runout * std::cos(turned) + wrong.form(std::remainder(on_lobe, 360.0));
}

inline MeasuredLobe measured(
    const SolvedLobe& lobe, const Wrong& wrong, double every = 1.0,
    const std::function<double()>& noise = [] { return 0.0; }) {
    MeasuredLobe all;
    const int count = static_cast<int>(std::lround(360.0 / every));
    for (int i = 0; i < count; ++i) {
        const double angle = -180.0 + every * i;
        all.readings.push_back({CamAngle::from_degrees(angle),
                                reading_of(lobe, wrong, angle) + noise(),
                                {"readings.csv", i + 2, 1}});
    }
    return all;
}

inline LobeInspection inspected(const Job& job, const MeasuredLobe& readings,
                                const InspectRequest& request = {}) {
    const std::vector<SolvedLobe> lobes{basalt::solved(job)};
    auto found = inspect_lobe(job, lobes, readings, request);
    for (const Diagnostic& diagnostic : found.diagnostics())
        UNSCOPED_INFO(to_text(diagnostic));
    REQUIRE(found.ok());
    return std::move(found).value();
}

inline double in_degrees(double radians) {
    return radians * 180.0 / std::numbers::pi;
}

}  // namespace readings_kit
