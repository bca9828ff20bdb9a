#include "toolpath/section/section.h"

namespace lobewright::toolpath {
namespace {

PlaneSection parallel_section(const Machine& machine, const Cutter& cutter) {
    const double radius = cutter.diameter / 2.0;
    return {0.0, radius, 0.0, machine.cutter_zero == CutterZero::centre ? radius : 0.0, true};
}

PlaneSection radial_section(const Cut& cut, const Cutter& cutter) {
    const double radius = cutter.diameter / 2.0;
    const double corner = cutter.kind == CutterKind::ball_nose ? radius : cutter.corner_radius;
    return {radius - corner, corner, cut.side_shift, 0.0, true};
}

PlaneSection tangential_section(const Cutter& cutter) {
    if (cutter.kind == CutterKind::disc) return {cutter.width / 2.0, 0.0, 0.0, 0.0, false};
    const double end = cutter.kind == CutterKind::ball_nose ? cutter.diameter / 2.0 : cutter.corner_radius;
    return {(*cutter.flute_length - end) / 2.0, 0.0, 0.0, 0.0, false};
}

}  // namespace

PlaneSection section_of(const Machine& machine, const Cut& cut, const Cutter& cutter) {
    switch (machine.cutter_axis) {
        case CutterAxis::parallel:
            return parallel_section(machine, cutter);
        case CutterAxis::radial:
            return radial_section(cut, cutter);
        case CutterAxis::tangential:
            break;
    }
    return tangential_section(cutter);
}

}  // namespace lobewright::toolpath
