#include "hand/along_shaft.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <limits>

namespace lobewright::hand {
namespace {

/// A neighbour, where it stands, and how far out before it is cut.
struct Obstruction {
    Neighbour neighbour;
    double from = 0.0;
    double to = 0.0;
    double radius = 0.0;
};

Obstruction obstruction(Neighbour neighbour, double z, double width, double radius) {
    return {neighbour, z - width / 2.0, z + width / 2.0, radius};
}

std::vector<Obstruction> beside_lobe(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     std::size_t index) {
    std::vector<Obstruction> found;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        if (i == index) continue;
        const double radius =
            job.shaft.blank() ? *job.shaft.blank() / 2.0 : lobes[i].contour.largest_radius();
        found.push_back(obstruction({Neighbour::Kind::lobe, i}, lobes[i].z, lobes[i].width, radius));
    }
    for (std::size_t i = 0; i < job.shaft.journals.size(); ++i) {
        const Journal& journal = job.shaft.journals[i];
        found.push_back(
            obstruction({Neighbour::Kind::journal, i}, journal.z, journal.width, journal.diameter / 2.0));
    }
    return found;
}

/// A cutter along the shaft: its teeth as far as `edge` from its tip, then its shank or neck; nothing where
/// it has none.
struct HeldCutter {
    double radius = 0.0;
    double edge = 0.0;
    std::optional<double> behind_radius;
};

HeldCutter body_of(const Cutter& cutter, const SolvedLobe& lobe) {
    const auto half = [](std::optional<double> diameter) {
        return diameter ? std::optional(*diameter / 2.0) : std::nullopt;
    };
    if (cutter.kind == CutterKind::disc)
        return {cutter.diameter / 2.0, std::max(lobe.width, cutter.width), half(cutter.neck_diameter)};
    return {cutter.diameter / 2.0, cutter.flute_length.value_or(std::numeric_limits<double>::infinity()),
            half(cutter.shank_diameter.value_or(cutter.diameter))};
}

/// The first neighbour that a cutter fouls whose body leads away from the lobe on one side (+1: away from the
/// drive end); nothing if that side is free. Its tip or disc is flush with the lobe's other side.
std::optional<Neighbour> fouled_on(const std::vector<Obstruction>& neighbours, const SolvedLobe& lobe,
                                   const Cutter& cutter, int side) {
    const HeldCutter body = body_of(cutter, lobe);
    const double tip = lobe.z - side * lobe.width / 2.0;
    for (const Obstruction& each : neighbours) {
        const double near = side * ((side > 0 ? each.from : each.to) - tip);
        const double far = side * ((side > 0 ? each.to : each.from) - tip);
        if (far <= touching || near < lobe.width - touching) continue;  // on the other side
        const bool under_teeth = near < body.edge - touching && each.radius > lobe.base_radius + touching;
        const bool under_body = far > body.edge + touching && body.behind_radius &&
                                each.radius > lobe.base_radius + body.radius - *body.behind_radius + touching;
        if (under_teeth || under_body) return each.neighbour;
    }
    return std::nullopt;
}

/// Whether a tool over `half` either side of the lobe's middle would cut into a neighbour.
bool cuts_into(const Obstruction& neighbour, const SolvedLobe& lobe, double half) {
    return neighbour.radius > lobe.base_radius + touching && neighbour.to > lobe.z - half + touching &&
           neighbour.from < lobe.z + half - touching;
}

/// Free length beside a lobe, towards the drive end and away from it; endless where nothing stands there.
struct Room {
    double drive_side = std::numeric_limits<double>::infinity();
    double far_side = std::numeric_limits<double>::infinity();
};

Room room_beside(const Job& job, const std::vector<SolvedLobe>& lobes, std::size_t index) {
    const SolvedLobe& lobe = lobes[index];
    Room room;
    for (const Obstruction& each : beside_lobe(job, lobes, index)) {
        if (each.radius <= lobe.base_radius + touching) continue;
        double& gap = (each.from + each.to) / 2.0 < lobe.z ? room.drive_side : room.far_side;
        const double before = lobe.z - lobe.width / 2.0 - each.to;
        const double behind = each.from - lobe.z - lobe.width / 2.0;
        gap = std::max(0.0, std::min(gap, std::max(before, behind)));
    }
    return room;
}

/// How many places of a tool cover a lobe, neighbours overlapping.
int count_places(double lobe_width, double tool_width) {
    if (tool_width >= lobe_width - touching) return 1;
    const double overlap = shared_width * tool_width;
    return std::max(2, static_cast<int>(step_above((lobe_width - overlap) / (tool_width - overlap))));
}

std::vector<double> places_on(const SolvedLobe& lobe, double tool_width) {
    const int count = count_places(lobe.width, tool_width);
    if (count == 1) return {lobe.z};
    std::vector<double> places;
    for (int k = 0; k < count; ++k)
        places.push_back(lobe.z + (lobe.width - tool_width) * (static_cast<double>(k) / (count - 1) - 0.5));
    return places;
}

}  // namespace

std::vector<HandPlunge> plan_plunges(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     std::optional<double> tool_width) {
    std::vector<HandPlunge> plunges;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        plunges.push_back({i, {}, {}, {}});
        if (!tool_width) continue;
        const SolvedLobe& lobe = lobes[i];
        const Room room = room_beside(job, lobes, i);
        const double side = room.far_side > room.drive_side ? 1.0 : -1.0;
        plunges.back().z = places_on(lobe, *tool_width);
        plunges.back().along_from = lobe.z + side * (lobe.width + *tool_width) / 2.0;
        plunges.back().along_to = lobe.z - side * std::max(0.0, lobe.width - *tool_width) / 2.0;
    }
    return plunges;
}

void check_strokes_along(const Job& job, const std::vector<SolvedLobe>& lobes,
                         std::optional<double> tool_width, Obstacles& obstacles) {
    if (!tool_width) return;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        const Room room = room_beside(job, lobes, i);
        const double gap = std::max(room.drive_side, room.far_side);
        if (gap < *tool_width - touching) obstacles.push_back(NoRoomAlong{i, *tool_width, gap});
    }
}

void check_plunges(const Job& job, const std::vector<SolvedLobe>& lobes, std::optional<double> tool_width,
                   Obstacles& obstacles) {
    if (!tool_width) return;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        const double z = lobes[i].z, half_lobe = lobes[i].width / 2.0;
        for (const Obstruction& each : beside_lobe(job, lobes, i)) {
            if (!cuts_into(each, lobes[i], std::max(lobes[i].width, *tool_width) / 2.0)) continue;
            const double gap = std::max({0.0, each.from - z - half_lobe, z - half_lobe - each.to});
            obstacles.push_back(ToolTooWide{i, *tool_width, each.neighbour, gap});
        }
    }
}

void check_body(const Job& job, const std::vector<SolvedLobe>& lobes, const Cutter& cutter,
                Obstacles& obstacles) {
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        const auto neighbours = beside_lobe(job, lobes, i);
        const auto drive_side = fouled_on(neighbours, lobes[i], cutter, -1);
        const auto far_side = fouled_on(neighbours, lobes[i], cutter, 1);
        if (drive_side && far_side) obstacles.push_back(CutterFouls{i, *drive_side, *far_side});
    }
}

}  // namespace lobewright::hand
