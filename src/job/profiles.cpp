#include "job/job_reading.h"
#include "job/law_keys.h"
#include "job/lift_readings.h"

#include <cmath>

namespace lobewright {
namespace {

const std::vector<std::string> shapes = {"arcs", "motion", "table", "segments", "fullest"};
const std::vector<std::string> shape_keys = {
    "lift",          "action_angle", "flank_radius", "nose_radius",   "ramps",       "law",
    "opening_law",   "closing_law",  "powers",       "opening_angle", "dwell_angle", "closing_angle",
    "opening_share", "opening_ramp", "closing_ramp", "file",          "smoothing",   "dial_zero",
    "segments",      "follower",     "limits"};

constexpr NumberRange part_of_turn{1e-3, 360.0, true, false};

/// A radius (hollow flanks negative) or "straight".
std::optional<double> read_flank(JobTable& table, std::string_view key) {
    const Node* node = table.any(key);
    if (node == nullptr) return std::nullopt;
    if (node->kind == Node::Kind::string && node->text == "straight") return straight_flank;
    const bool is_size = std::abs(node->number) * mm_per(table.reading().job.units) >= positive_length.lowest;
    if (node->kind == Node::Kind::number && is_size) return table.length(key, {-1e6, 1e6});
    const std::string found = node->kind == Node::Kind::string   ? '"' + node->text + '"'
                              : node->kind == Node::Kind::number ? as_written(node->number)
                                                                 : kind_name(*node);
    table.complain(key, "flank-radius", "'" + table.path_of(key) + "' is " + found,
                   "give a radius (negative for a hollow flank) or \"straight\"");
    return std::nullopt;
}

/// One for both flanks, or { opening, closing }.
void read_flanks(JobTable& profile, ArcsProfile& arcs) {
    const Node* node = profile.any("flank_radius");
    if (node == nullptr || node->kind != Node::Kind::table) {
        arcs.flank_radius = read_flank(profile, "flank_radius");
        return;
    }
    JobTable table(*node, profile.path_of("flank_radius"), profile.reading());
    for (const char* key : {"opening", "closing"})
        if (!table.has(key)) table.missing(key, "give both flanks, or one radius for the two");
    arcs.flank_radius = read_flank(table, "opening");
    const auto closing = read_flank(table, "closing");
    if (closing != arcs.flank_radius) arcs.closing_flank_radius = closing;
    table.finish();
}

std::optional<ArcRamps> read_ramps(JobTable& profile) {
    const Node* node = profile.table("ramps");
    if (node == nullptr) return std::nullopt;
    JobTable table(*node, profile.path_of("ramps"), profile.reading());
    ArcRamps ramps;
    ramps.lift = table.required_length("lift", positive_length);
    ramps.opening = table.required_angle<CamAngle>("opening", part_of_turn);
    ramps.closing = table.angle_or<CamAngle>("closing", ramps.opening, part_of_turn);
    table.finish();
    return ramps;
}

ArcsProfile read_arcs(JobTable& table) {
    ArcsProfile arcs;
    arcs.base_radius = table.required_length("base_radius", positive_length);
    arcs.lift = table.required_length("lift", positive_length);
    arcs.action_angle = table.angle<CamAngle>("action_angle", part_of_turn);
    read_flanks(table, arcs);
    arcs.nose_radius = table.length("nose_radius", positive_length);
    const bool flank = table.has("flank_radius"), nose = table.has("nose_radius");
    if (flank && nose && table.has("action_angle")) {
        table.complain("nose_radius", "excluded-key",
                       "action_angle, flank_radius and nose_radius are all given",
                       "give two of them; the third is solved");
    } else if (!flank && !nose) {
        table.missing("flank_radius", "give it or nose_radius; the other is solved");
    }
    arcs.ramps = read_ramps(table);
    if (arcs.ramps && arcs.base_radius > 0.0 && arcs.ramps->lift >= arcs.base_radius) {
        table.complain("ramps", "ramp-lift", "the ramps' lift is not less than base_radius",
                       "the base circle is cut deeper by it: make it smaller");
    }
    return arcs;
}

/// The table's file as a message names it: beside the job file.
std::string beside(const std::string& job_file, const std::string& path) {
    const auto folder = job_file.find_last_of('/');
    if (folder == std::string::npos || path.starts_with('/')) return path;
    return job_file.substr(0, folder + 1) + path;
}

void read_neighbour(JobTable& table, TableProfile& profile) {
    JobReading& reading = table.reading();
    const Outcome<std::string> text = reading.neighbour(profile.file);
    if (!text) {
        for (Diagnostic complaint : text.diagnostics()) {
            complaint.what = "'" + profile.file + "' " + complaint.what;
            complaint.place = reading.job.place_of(table.path_of("file"));
            reading.complaints.push_back(std::move(complaint));
        }
        return;
    }
    auto readings = read_lift_readings(*text, beside(reading.job.file, profile.file), reading.job.units);
    if (readings) {
        profile.readings = std::move(readings).value();
    } else {
        reading.complaints.insert(reading.complaints.end(), readings.diagnostics().begin(),
                                  readings.diagnostics().end());
    }
}

TableProfile read_table(JobTable& table) {
    TableProfile profile;
    profile.base_radius = table.required_length("base_radius", positive_length);
    profile.file = table.required_string("file");
    profile.smoothing = table.length("smoothing", length_or_none);
    profile.dial_zero = table.length_or("dial_zero", 0.0, any_length);
    if (!profile.file.empty()) read_neighbour(table, profile);
    for (Reading& reading : profile.readings)
        reading.lift -= profile.dial_zero;
    return profile;
}

}  // namespace

void read_profiles(JobTable& file) {
    if (!file.has("profile")) file.missing("profile", "add at least one, e.g. [profile.inlet]");
    read_named(file, "profile", [&](const std::string& name, JobTable& table) {
        auto& profiles = file.reading().job.profiles;
        const auto shape = table.required_choice<int>("shape", shapes);
        if (!shape) {
            table.any("base_radius");
            table.pass_over(shape_keys);
            return;
        }
        if (*shape == 0) profiles.emplace(name, read_arcs(table));
        if (*shape == 1) profiles.emplace(name, read_motion(table));
        if (*shape == 2) profiles.emplace(name, read_table(table));
        if (*shape == 3) profiles.emplace(name, read_segments(table));
        if (*shape == 4) profiles.emplace(name, read_fullest(table));
        table.refuse_unused("a profile of shape \"" + shapes[static_cast<std::size_t>(*shape)] + '"',
                            shape_keys);
    });
}

}  // namespace lobewright
