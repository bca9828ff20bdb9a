#include "base/text/length_text.h"
#include "sheet/model/model_parts.h"
#include "sheet/model/readings_model.h"

#include <numbers>

namespace lobewright {
namespace {

using namespace sheet;

constexpr double per_degree = std::numbers::pi / 180.0;
constexpr double sample_step = 2.0;  // degrees of cam angle
constexpr int outline_points = 60;   // of each piece

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

}  // namespace

std::string sheet_model(const Job& job, const std::vector<SolvedLobe>& lobes, const SheetParts& parts) {
    JsonText json;
    json.object().member("version", 2).member("title", job.title).member("units", units_key(job.units));
    json.member("turns", sign_of(job.shaft.turns)).array("lobes");
    for (const SolvedLobe& lobe : lobes)
        put_lobe(json, job, lobe);
    json.end().array("methods");
    for (const HandPlan* plan : plans_by_hand(parts.ways))
        put_method(json, job, lobes, *plan);
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
