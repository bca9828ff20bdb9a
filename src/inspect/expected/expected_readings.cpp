#include "inspect/probe/gauge_bounds.h"

#include <lobewright/inspect.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

using inspection::ContourProbe;
using inspection::GaugeBounds;
using inspection::GaugePlace;

/// Degrees: a last step shorter than this is none, but the rounding of the steps before it.
constexpr double sliver = 1e-9;
constexpr double on_the_heel = 1e-4;  // mm

/// The probe and a pair of anvils on one lobe, by cam angle.
class Gauges {
  public:
    Gauges(const SolvedLobe& lobe, const Probe& probe)
        : lobe_(lobe),
          probe_(lobe.contour, lobe.base_radius, probe),
          anvil_(lobe.contour, lobe.base_radius, Probe{}) {}

    [[nodiscard]] double reading(CamAngle angle) const { return probe_.height(ray_at(angle)); }
    [[nodiscard]] double across(CamAngle angle) const {
        return anvil_.height(ray_at(angle)) + anvil_.height(ray_at(angle) + std::numbers::pi) +
               2.0 * lobe_.base_radius;
    }
    [[nodiscard]] ExpectedReading row(CamAngle angle) const {
        return {angle, lobe_.at + ShaftAngle::from_radians(ray_at(angle)), reading(angle), across(angle),
                std::nullopt};
    }

    [[nodiscard]] const ContourProbe& probe() const { return probe_; }
    [[nodiscard]] const ContourProbe& anvil() const { return anvil_; }
    /// That faces the probe over a ray of the lobe's frame.
    [[nodiscard]] CamAngle cam_angle(double ray) const {
        return CamAngle::from_radians(0.0 - sign_of(lobe_.turns) * ray);
    }

  private:
    [[nodiscard]] double ray_at(CamAngle angle) const { return -sign_of(lobe_.turns) * angle.radians(); }
    const SolvedLobe& lobe_;
    ContourProbe probe_, anvil_;
};

/// The longest of them, by cam angle.
std::optional<HeelStretch> heel_of(const Gauges& gauges, const std::vector<Interval>& on_base) {
    if (on_base.empty()) return std::nullopt;
    const Interval longest =
        *std::max_element(on_base.begin(), on_base.end(),
                          [](const Interval& a, const Interval& b) { return a.width() < b.width(); });
    CamAngle from = gauges.cam_angle(longest.low), to = gauges.cam_angle(longest.high);
    if (to < from) std::swap(from, to);
    const CamAngle turn = CamAngle::from_radians(full_turn);
    while (from < CamAngle{})
        from += turn, to += turn;
    return HeelStretch{from, to};
}

/// Whether both of a pair of anvils, half a turn apart, stand on the base circle somewhere.
bool meet_across(const std::vector<Interval>& on_base) {
    for (const Interval& a : on_base) {
        for (const Interval& b : on_base) {
            const double ahead = a.low + std::numbers::pi - b.low;
            const double start = ahead - full_turn * std::floor(ahead / full_turn);  // from b's own
            if (start <= b.width() || start + a.width() >= full_turn) return true;
        }
    }
    return false;
}

ExpectedReadings summary_of(const SolvedLobe& lobe, const Probe& probe, const Gauges& gauges) {
    ExpectedReadings expected;
    expected.probe = probe;
    const GaugeBounds bounds(lobe, gauges.anvil());
    expected.heel = heel_of(gauges, bounds.stretches_on_base(gauges.probe(), on_the_heel));
    expected.largest_at = wrapped(gauges.cam_angle(bounds.farthest()));
    expected.largest = gauges.reading(expected.largest_at);
    const GaugePlace across = bounds.across();
    expected.across_nose = across.value;
    expected.across_nose_at = wrapped(gauges.cam_angle(across.ray));
    if (meet_across(bounds.stretches_on_base(gauges.anvil(), on_the_heel)))
        expected.across_heel = 2.0 * lobe.base_radius;
    if (probe.kind == ProbeKind::flat) expected.anvil_reach = bounds.anvil_reach();
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
