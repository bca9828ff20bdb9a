#include "hand/along_shaft.h"

#include "base/whole_steps.h"
#include "hand/wording.h"
#include "job/complaint.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewright::hand {
namespace {

constexpr double hair = 1e-9;  // mm

/// A stretch of the shaft beside the lobe in hand, and how far it stands out before it is cut.
struct Neighbour {
    std::string name;
    double from = 0.0;
    double to = 0.0;
    double radius = 0.0;
};

std::vector<Neighbour> neighbours_of(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     std::size_t index) {
    std::vector<Neighbour> found;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        if (i == index) continue;
        const SolvedLobe& lobe = lobes[i];
        const double radius =
            job.shaft.blank_diameter ? *job.shaft.blank_diameter / 2.0 : lobe.contour.largest_radius();
        found.push_back(
            {"lobe \"" + lobe.name + '"', lobe.z - lobe.width / 2.0, lobe.z + lobe.width / 2.0, radius});
    }
    for (std::size_t i = 0; i < job.shaft.journals.size(); ++i) {
        const Journal& journal = job.shaft.journals[i];
        found.push_back({"journal " + std::to_string(i + 1), journal.z - journal.width / 2.0,
                         journal.z + journal.width / 2.0, journal.diameter / 2.0});
    }
    return found;
}

/// The first neighbour that a cutter fouls whose body leads away from the lobe on one side (+1: away from the
/// drive end); nothing if that side is free. Its tip or disc is flush with the lobe's other side.
std::optional<Neighbour> fouled_on(const std::vector<Neighbour>& neighbours, const SolvedLobe& lobe,
                                   const Cutter& cutter, int side) {
    const bool disc = cutter.kind == CutterKind::disc;
    const double cutter_radius = cutter.diameter / 2.0;
    const double tip = lobe.z - side * lobe.width / 2.0;
    const double edge = disc ? std::max(lobe.width, cutter.width)
                             : cutter.flute_length.value_or(std::numeric_limits<double>::infinity());
    const auto body =
        disc ? cutter.neck_diameter : std::optional(cutter.shank_diameter.value_or(cutter.diameter));
    for (const Neighbour& neighbour : neighbours) {
        const double near = side * ((side > 0 ? neighbour.from : neighbour.to) - tip);
        const double far = side * ((side > 0 ? neighbour.to : neighbour.from) - tip);
        if (far <= hair || near < lobe.width - hair) continue;  // on the other side
        const bool under_teeth = near < edge - hair && neighbour.radius > lobe.base_radius + hair;
        const bool under_body = far > edge + hair && body &&
                                neighbour.radius > lobe.base_radius + cutter_radius - *body / 2.0 + hair;
        if (under_teeth || under_body) return neighbour;
    }
    return std::nullopt;
}

}  // namespace

std::vector<HandPlunge> plan_plunges(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     std::optional<double> tool_width, const std::string& key,
                                     Diagnostics& complaints) {
    std::vector<HandPlunge> plunges;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        plunges.push_back({i, {}});
        if (!tool_width) continue;
        const SolvedLobe& lobe = lobes[i];
        const int count = std::max(1, static_cast<int>(step_above(lobe.width / *tool_width)));
        const double travel = std::max(0.0, lobe.width - *tool_width);
        for (int k = 0; k < count; ++k)
            plunges.back().z.push_back(
                lobe.z + (count > 1 ? travel * (static_cast<double>(k) / (count - 1) - 0.5) : 0.0));
        const double half = std::max(lobe.width, *tool_width) / 2.0;
        for (const Neighbour& neighbour : neighbours_of(job, lobes, i)) {
            const bool too_low_to_touch = neighbour.radius <= lobe.base_radius + hair;
            if (too_low_to_touch || neighbour.to <= lobe.z - half + hair ||
                neighbour.from >= lobe.z + half - hair)
                continue;
            const double gap = std::max(
                {0.0, neighbour.from - lobe.z - lobe.width / 2.0, lobe.z - lobe.width / 2.0 - neighbour.to});
            complaints.push_back(
                refusal(job, key, "tool-too-wide",
                        "lobe \"" + lobe.name + "\": a tool of " + length_words(*tool_width, job.units) +
                            " on it would cut into " + neighbour.name + ", " + length_words(gap, job.units) +
                            " beside it",
                        "use a tool of at most " + length_words(lobe.width + 2.0 * gap, job.units) +
                            ", or no wider than the lobe"));
        }
    }
    return plunges;
}

void check_body(const Job& job, const std::vector<SolvedLobe>& lobes, const Cutter& cutter,
                const std::string& key, Diagnostics& complaints) {
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        const auto neighbours = neighbours_of(job, lobes, i);
        const auto drive_side = fouled_on(neighbours, lobes[i], cutter, -1);
        const auto far_side = fouled_on(neighbours, lobes[i], cutter, 1);
        if (!drive_side || !far_side) continue;
        complaints.push_back(refusal(
            job, key, "cutter-fouls",
            "lobe \"" + lobes[i].name + "\": a cutter that lies along the shaft there also cuts into " +
                drive_side->name + " towards the drive end, or into " + far_side->name + " away from it",
            "use cutter_axis = \"radial\", or a disc no wider than the lobe and its gaps, with a neck that "
            "clears "
            "the blank"));
    }
}

}  // namespace lobewright::hand
