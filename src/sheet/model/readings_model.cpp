#include "sheet/model/readings_model.h"

#include "base/text/length_text.h"
#include "base/whole_steps.h"

namespace lobewright::sheet {
namespace {

/// Figures that a screen can show, and no more; errors are small.
double shown(double value) {
    return static_cast<double>(nearest_step(value * 1e7)) / 1e7;
}

void put_inspection(JsonText& json, const SolvedLobe& lobe, const LobeInspection& found, double unit) {
    const auto length = [&](double mm) { return shown(mm / unit); };
    json.object().member("lobe", lobe.name);
    json.member("phase_error", CamAngle::from_radians(found.phase.value).degrees());
    json.member("base_error", found.base ? std::optional(length(found.base->value)) : std::nullopt);
    json.member("tolerance",
                found.request.tolerance ? std::optional(length(*found.request.tolerance)) : std::nullopt);
    json.array("points", JsonText::Layout::one_line);
    for (const JudgedReading& each : found.readings)
        json.item(shown(each.cam_angle.degrees())).item(length(each.error)).item(each.set_aside ? 1 : 0);
    json.end().array("course", JsonText::Layout::one_line);
    for (const ErrorPlace& each : found.lift_course)
        json.item(shown(each.cam_angle.degrees()))
            .item(length(each.error.value))
            .item(length(each.error.error));
    json.end().end();
}

}  // namespace

void put_measured_lobes(JsonText& json, const std::vector<SolvedLobe>& lobes,
                        const std::vector<LobeInspection>& inspections, Units units) {
    json.array("readings");
    for (const LobeInspection& found : inspections)
        put_inspection(json, lobes[found.lobe], found, mm_per(units));
    json.end();
}

}  // namespace lobewright::sheet
