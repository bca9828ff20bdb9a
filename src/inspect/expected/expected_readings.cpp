#include "base/whole_steps.h"
#include "inspect/probe/contour_probe.h"

#include <lobewright/inspect.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

using inspection::ContourProbe;

/// Degrees: a last step shorter than this is none, but the rounding of the steps before it.
constexpr double sliver = 1e-9;
constexpr double on_the_heel = 1e-4;  // mm
constexpr CamAngle scan_step = CamAngle::from_degrees(0.25);
constexpr int halvings = 60;

/// The probe and a pair of anvils on one lobe, by cam angle.
class Gauges {
  public:
    Gauges(const SolvedLobe& lobe, const Probe& probe)
        : lobe_(lobe),
          probe_(lobe.contour, lobe.base_radius, probe),
          anvil_(lobe.contour, lobe.base_radius, Probe{}) {}

    [[nodiscard]] double reading(CamAngle angle) const { return probe_.height(ray_at(angle)); }
    [[nodiscard]] double slope(CamAngle angle) const { return probe_.touch(ray_at(angle)).slope; }
    [[nodiscard]] double across(CamAngle angle) const {
        return anvil_.height(ray_at(angle)) + anvil_.height(ray_at(angle) + std::numbers::pi) +
               2.0 * lobe_.base_radius;
    }
    [[nodiscard]] ExpectedReading row(CamAngle angle) const {
        return {angle, lobe_.at + ShaftAngle::from_radians(ray_at(angle)), reading(angle), across(angle),
                std::nullopt};
    }

  private:
    [[nodiscard]] double ray_at(CamAngle angle) const { return -sign_of(lobe_.turns) * angle.radians(); }
    const SolvedLobe& lobe_;
    ContourProbe probe_, anvil_;
};

/// The highest place of a function within a step either way of `about`, by the golden section.
template <class F>
CamAngle highest_near(const F& f, CamAngle about) {
    double low = (about - scan_step).radians(), high = (about + scan_step).radians();
    constexpr double part = 0.6180339887498949;
    for (int i = 0; i < halvings; ++i) {
        const double inner = high - part * (high - low), outer = low + part * (high - low);
        const bool left = f(CamAngle::from_radians(inner)) >= f(CamAngle::from_radians(outer));
        (left ? high : low) = left ? outer : inner;
    }
    return CamAngle::from_radians(0.5 * (low + high));
}

/// Every scan step of a turn, from -180 degrees.
std::vector<CamAngle> scan() {
    std::vector<CamAngle> angles;
    for (int i = 0; i < static_cast<int>(nearest_step(360.0 / scan_step.degrees())); ++i)
        angles.push_back(CamAngle::from_degrees(-180.0) + scan_step * static_cast<double>(i));
    return angles;
}

/// The highest of a turn; the nearest to the nose of several alike.
template <class F>
CamAngle highest_of_turn(const F& f) {
    CamAngle best;
    double highest = f(best);
    for (const CamAngle angle : scan()) {
        if (const double value = f(angle); value > highest + 1e-12) highest = value, best = angle;
    }
    const CamAngle refined = highest_near(f, best);
    return f(refined) > highest + 1e-12 ? refined : best;
}

/// Where the heel ends between an angle on it and one that is not.
CamAngle end_of_heel(const Gauges& gauges, CamAngle on, CamAngle off) {
    for (int i = 0; i < halvings; ++i) {
        const CamAngle middle = 0.5 * (on + off);
        (std::abs(gauges.reading(middle)) <= on_the_heel ? on : off) = middle;
    }
    return on;
}

std::optional<HeelStretch> heel_of(const Gauges& gauges) {
    const std::vector<CamAngle> angles = scan();
    const std::size_t n = angles.size();
    std::vector<bool> on;
    for (const CamAngle angle : angles)
        on.push_back(std::abs(gauges.reading(angle)) <= on_the_heel);
    std::size_t longest = 0, ends = 0, length = 0;
    for (std::size_t i = 0; i < 2 * n; ++i) {
        length = on[i % n] ? length + 1 : 0;
        if (length > longest) longest = length, ends = i;
    }
    if (longest < 2 || longest > n) return std::nullopt;
    const auto angle_of = [&](std::size_t i) { return angles[0] + scan_step * static_cast<double>(i); };
    const CamAngle last = angle_of(ends), first = last - scan_step * static_cast<double>(longest - 1);
    return HeelStretch{end_of_heel(gauges, first, first - scan_step),
                       end_of_heel(gauges, last, last + scan_step)};
}

/// The size across the heel: somewhere both anvils stand on it, half a turn apart.
std::optional<double> size_across_heel(const SolvedLobe& lobe, const Gauges& gauges) {
    const double size = 2.0 * lobe.base_radius;
    for (const CamAngle angle : scan()) {
        if (std::abs(gauges.across(angle) - size) <= on_the_heel) return size;
    }
    return std::nullopt;
}

ExpectedReadings summary_of(const SolvedLobe& lobe, const Probe& probe, const Gauges& gauges) {
    ExpectedReadings expected;
    expected.probe = probe;
    expected.heel = heel_of(gauges);
    expected.largest_at = highest_of_turn([&](CamAngle a) { return gauges.reading(a); });
    expected.largest = gauges.reading(expected.largest_at);
    expected.across_nose_at = highest_of_turn([&](CamAngle a) { return gauges.across(a); });
    expected.across_nose = gauges.across(expected.across_nose_at);
    expected.across_heel = size_across_heel(lobe, gauges);
    if (probe.kind != ProbeKind::flat) return expected;
    const auto aside = [&](CamAngle a) { return std::abs(gauges.slope(a)); };
    expected.anvil_reach = aside(highest_of_turn(aside));
    return expected;
}

}  // namespace

ExpectedReadings expected_readings(const SolvedLobe& lobe, const Probe& probe, CamAngle every) {
    const Gauges gauges(lobe, probe);
    ExpectedReadings expected = summary_of(lobe, probe, gauges);
    for (int i = 0; i * every.degrees() < 360.0 - sliver; ++i)
        expected.rows.push_back(gauges.row(CamAngle::from_degrees(-180.0 + i * every.degrees())));
    expected.rows.push_back(gauges.row(CamAngle::from_degrees(180.0)));
    return expected;
}

ExpectedReadings expected_at_marks(const SolvedLobe& lobe, const Probe& probe, const HandMethod& method) {
    const Gauges gauges(lobe, probe);
    ExpectedReadings expected = summary_of(lobe, probe, gauges);
    for (int mark = 0; mark < method.divisions; ++mark) {
        const CamAngle angle = wrapped(cam_angle_at_mark(lobe, probe, method, mark));
        expected.rows.push_back(gauges.row(angle));
        expected.rows.back().mark = mark;
    }
    return expected;
}

CamAngle cam_angle_at_mark(const SolvedLobe& lobe, const Probe& probe, const HandMethod& method,
                           double mark) {
    const ShaftAngle turned =
        ShaftAngle::from_degrees(360.0 / method.divisions * mark) * sign_of(method.counts);
    const ShaftAngle facing = method.zero + turned + ShaftAngle::from_radians(probe.direction.radians());
    return CamAngle::from_radians(sign_of(lobe.turns) * (lobe.at - facing).radians());
}

}  // namespace lobewright
