// The model is plain data for the viewer: this folder knows nothing of pages, the viewer nothing of the
// library.
#include "base/text/angle_text.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"
#include "base/whole_steps.h"
#include "hand/wording/part_names.h"
#include "sheet/model/readings_model.h"

#include <lobewright/sheet.h>

#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;
constexpr double sample_step = 2.0;  // degrees of cam angle
constexpr int outline_points = 60;   // of each piece

/// Figures that a screen can show, and no more.
double rounded(double value) {
    return static_cast<double>(nearest_step(value * 1e5)) / 1e5;
}

void put_outline(JsonText& json, const SolvedLobe& lobe, double unit) {
    json.array("outline", JsonText::Layout::one_line);
    const Vec2 turn = lobewright::unit(lobe.at.radians());
    for (const ContourPiece& piece : lobe.contour.pieces()) {
        for (int i = 0; i < outline_points; ++i) {
            const Vec2 at =
                turned(piece.at(piece.start + (piece.end - piece.start) * i / outline_points).point, turn);
            json.item(rounded(at.x / unit)).item(rounded(at.y / unit));
        }
    }
    json.end();
}

/// Ten figures a sample: cam angle, lift, velocity, acceleration, jerk, the direction that faces the
/// follower, the place of contact, the normal there.
void put_motion(JsonText& json, const SolvedLobe& lobe, double unit) {
    json.array("motion", JsonText::Layout::one_line);
    for (double degrees = -180.0; degrees <= 180.0; degrees += sample_step) {
        const FollowerContact at = contact_at(lobe, CamAngle::from_degrees(degrees));
        json.item(degrees)
            .item(rounded(at.lift.lift / unit))
            .item(rounded(at.lift.velocity * per_degree / unit));
        json.item(at.lift.acceleration * per_degree * per_degree / unit);
        json.item(at.lift.jerk * per_degree * per_degree * per_degree / unit);
        json.item(rounded(at.facing.degrees())).item(rounded(at.contact.point.x / unit));
        json.item(rounded(at.contact.point.y / unit))
            .item(rounded(at.contact.normal.x))
            .item(rounded(at.contact.normal.y));
    }
    json.end();
}

void put_lobe(JsonText& json, const Job& job, const SolvedLobe& lobe) {
    const double unit = mm_per(job.units);
    json.object().member("name", lobe.name).member("at", lobe.at.degrees()).member("z", lobe.z / unit);
    json.member("width", lobe.width / unit).member("base_radius", lobe.base_radius / unit);
    json.member("largest_radius", lobe.contour.largest_radius() / unit);
    json.member("follower", lobe.follower.has_flat_face() ? "flat" : "round");
    json.member("follower_radius", lobe.follower.radius / unit);
    put_outline(json, lobe, unit);
    put_motion(json, lobe, unit);
    json.end();
}

void put_setting(JsonText& json, const Job& job, const std::vector<SolvedLobe>& lobes,
                 const HandSetting& setting) {
    const auto length = [&](const std::optional<double>& mm) {
        return mm ? std::optional(rounded(*mm / mm_per(job.units))) : std::nullopt;
    };
    json.object({}, JsonText::Layout::one_line).member("order", setting.order).member("mark", setting.mark);
    json.member("turned", setting.turned ? std::optional(rounded(setting.turned->degrees())) : std::nullopt);
    json.member("turns", setting.turns).member("hole", setting.hole).member("circle", setting.circle);
    json.member("shaft_angle", rounded(full_circle_degrees(setting.shaft_angle)));
    json.member("lobe", lobes[setting.lobe].name).member("part", hand::part_name(setting.part));
    json.member("start", length(setting.start)).member("finish", length(setting.finish));
    json.member("passes", setting.passes).end();
}

void put_method(JsonText& json, const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    const HandMethod& method = job.hand.at(plan.method);
    json.object().member("name", plan.method);
    json.member("divisions",
                method.kind == HandKind::offset_fixture ? std::optional(method.divisions) : std::nullopt);
    json.member("zero", method.zero.degrees()).member("counts", sign_of(method.counts));
    json.array("settings");
    for (const HandSetting& setting : plan.settings)
        put_setting(json, job, lobes, setting);
    json.end().end();
}

std::optional<double> known(double value) {
    return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

/// Six figures a move: its kind, its line, then the places where it ends and its time; null: not known yet.
void put_moves(JsonText& json, const Job& job, const ReadProgram& program) {
    const double unit = mm_per(job.units);
    json.array("moves", JsonText::Layout::one_line);
    for (const ReadMove& move : program.moves) {
        json.item(static_cast<int>(move.kind)).item(move.line);
        json.item(known(rounded(move.radial / unit))).item(known(rounded(move.axial / unit)));
        json.item(known(rounded(move.rotary))).item(rounded(move.seconds));
    }
    json.end();
}

void put_cutter(JsonText& json, const Job& job) {
    const double unit = mm_per(job.units);
    const Cutter& cutter = job.cutters.at(job.cut->cutter);
    const bool parallel = job.machine->cutter_axis == CutterAxis::parallel;
    json.object("cutter", JsonText::Layout::one_line).member("radius", cutter.diameter / 2.0 / unit);
    json.member("width", (cutter.kind == CutterKind::disc ? cutter.width : cutter.diameter) / unit);
    json.member("round", parallel);
    json.member("to_centre", parallel && job.machine->cutter_zero == CutterZero::centre
                                 ? 0.0
                                 : cutter.diameter / 2.0 / unit);
    json.member("rotary_sense", sign_of(job.machine->rotary_positive)).end();
}

void put_program(JsonText& json, const Job& job, const SheetProgram& program) {
    json.object("program").member("name", program.name);
    put_cutter(json, job);
    json.member("blank_radius", *job.shaft.blank() / 2.0 / mm_per(job.units));
    json.member("text", program.text);
    put_moves(json, job, program.read);
    json.end();
}

}  // namespace

std::string sheet_model(const Job& job, const std::vector<SolvedLobe>& lobes, const SheetParts& parts) {
    JsonText json;
    json.object().member("version", 1).member("title", job.title).member("units", units_key(job.units));
    json.member("turns", sign_of(job.shaft.turns)).array("lobes");
    for (const SolvedLobe& lobe : lobes)
        put_lobe(json, job, lobe);
    json.end().array("methods");
    for (const HandPlan& plan : parts.plans)
        put_method(json, job, lobes, plan);
    json.end();
    if (parts.program)
        put_program(json, job, *parts.program);
    else
        json.member("program", nullptr);
    sheet::put_measured_lobes(json, lobes, parts.inspections, job.units);
    json.end();
    return json.text();
}

}  // namespace lobewright
