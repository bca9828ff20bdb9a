#include "job/job_reading.h"

namespace lobewright {
namespace {

constexpr NumberRange ball_radii{0.01, 1e3};  // mm: from a stylus to a large roller

}  // namespace

void read_probe(JobTable& file) {
    const Node* node = file.table("probe");
    if (node == nullptr) return;
    JobTable table(*node, "probe", file.reading());
    Probe probe;
    const auto kind = table.required_choice<ProbeKind>("kind", {"flat", "ball", "knife"});
    probe.kind = kind.value_or(ProbeKind::flat);
    if (kind == ProbeKind::ball) {
        probe.radius = table.required_length("radius", ball_radii);
    } else if (kind && table.length_or("radius", 0.0, length_or_none) > 0.0) {
        table.complain("radius", "unused-key",
                       std::string(*kind == ProbeKind::flat ? "a flat" : "a knife") + " probe has no radius",
                       "remove it, or give kind = \"ball\"");
    } else {
        table.pass_over({"radius"});
    }
    probe.direction = table.angle_or("direction", SpaceAngle{}, any_direction);
    table.finish();
    file.reading().job.probe = probe;
}

}  // namespace lobewright
