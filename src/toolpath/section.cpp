#include "toolpath/section.h"

#include "toolpath/refusal.h"

namespace lobewright::toolpath {
namespace {

Outcome<Section> parallel_section(const Job& job, const Cutter& cutter) {
    const double radius = cutter.diameter / 2.0;
    if (cutter.kind != CutterKind::disc && !cutter.flute_length) {
        return missing(job, cutter_key(job),
                       "cutter " + job.cut->cutter + " cuts with its side, and has no flute_length",
                       "add flute_length, the length of its cutting edges");
    }
    return Section{0.0, radius, 0.0, job.machine->cutter_zero == CutterZero::centre ? radius : 0.0, true};
}

Outcome<Section> radial_section(const Job& job, const Cutter& cutter) {
    const double radius = cutter.diameter / 2.0;
    const double shift = job.cut->side_shift;
    switch (cutter.kind) {
        case CutterKind::disc:
            return refusal(job, cutter_key(job), "cutter-held-so",
                           "a disc cuts with its rim, which does not face the shaft when its axis is radial",
                           "set cutter_axis = \"parallel\" or \"tangential\", or name an end mill");
        case CutterKind::ball_nose:
            return Section{0.0, radius, shift, 0.0, true};
        case CutterKind::end_mill:
            break;
    }
    return Section{radius - cutter.corner_radius, cutter.corner_radius, shift, 0.0, true};
}

Outcome<Section> tangential_section(const Job& job, const Cutter& cutter) {
    if (cutter.kind == CutterKind::disc) return Section{cutter.width / 2.0, 0.0, 0.0, 0.0, false};
    const double end = cutter.kind == CutterKind::ball_nose ? cutter.diameter / 2.0 : cutter.corner_radius;
    if (!cutter.flute_length) {
        return missing(job, cutter_key(job),
                       "cutter " + job.cut->cutter + " cuts with its side, and has no flute_length",
                       "add flute_length, the length of its cutting edges");
    }
    if (*cutter.flute_length <= end) {
        return refusal(
            job, cutter_key(job) + ".flute_length", "no-straight-flutes",
            "the flutes, " + length_words(*cutter.flute_length, job.units) + " long, are all rounded end",
            "use a cutter whose flutes are longer than " + length_words(end, job.units));
    }
    return Section{(*cutter.flute_length - end) / 2.0, 0.0, 0.0, 0.0, false};
}

}  // namespace

const Cutter& cutter_of(const Job& job) {
    return job.cutters.find(job.cut->cutter)->second;
}

std::string cutter_key(const Job& job) {
    return "cutter." + job.cut->cutter;
}

Outcome<Section> section_of(const Job& job, const Cutter& cutter) {
    switch (job.machine->cutter_axis) {
        case CutterAxis::parallel:
            return parallel_section(job, cutter);
        case CutterAxis::radial:
            return radial_section(job, cutter);
        case CutterAxis::tangential:
            break;
    }
    return tangential_section(job, cutter);
}

}  // namespace lobewright::toolpath
