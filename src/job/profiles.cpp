#include "job/job_reading.h"
#include "job/lift_readings.h"

#include <lobewright/number_text.h>

#include <cmath>

namespace lobewright {
namespace {

const std::vector<std::string> shapes = {"arcs", "motion", "table"};
const std::vector<std::string> laws = {"simple-harmonic", "cycloidal",     "polynomial-345",
                                       "polynomial-4567", "modified-sine", "modified-trapezoid",
                                       "power-polynomial"};
const std::vector<std::string> shape_keys = {
    "lift",        "action_angle",  "flank_radius", "nose_radius",  "law",  "powers",    "opening_angle",
    "dwell_angle", "closing_angle", "opening_ramp", "closing_ramp", "file", "smoothing", "dial_zero"};

constexpr NumberRange part_of_turn{1e-3, 360.0, true, false};

/// A radius (hollow flanks negative) or "straight".
std::optional<double> read_flank(JobTable& table) {
    const Node* node = table.any("flank_radius");
    if (node == nullptr) return std::nullopt;
    if (node->kind == Node::Kind::string && node->text == "straight") return straight_flank;
    const bool is_size = std::abs(node->number) * mm_per(table.reading().job.units) >= positive_length.lowest;
    if (node->kind == Node::Kind::number && is_size) return table.length("flank_radius", {-1e6, 1e6});
    const std::string found = node->kind == Node::Kind::string   ? '"' + node->text + '"'
                              : node->kind == Node::Kind::number ? as_written(node->number)
                                                                 : kind_name(*node);
    table.complain("flank_radius", "flank-radius", "'" + table.path_of("flank_radius") + "' is " + found,
                   "give a radius (negative for a hollow flank) or \"straight\"");
    return std::nullopt;
}

ArcsProfile read_arcs(JobTable& table) {
    ArcsProfile arcs;
    arcs.base_radius = table.required_length("base_radius", positive_length);
    arcs.lift = table.required_length("lift", positive_length);
    arcs.action_angle = table.angle<CamAngle>("action_angle", part_of_turn);
    arcs.flank_radius = read_flank(table);
    arcs.nose_radius = table.length("nose_radius", positive_length);
    if (table.has("flank_radius") && table.has("nose_radius")) {
        table.complain("nose_radius", "excluded-key", "flank_radius and nose_radius are both given",
                       "give one of them; the other is solved");
    } else if (!table.has("flank_radius") && !table.has("nose_radius")) {
        table.missing("flank_radius", "give it or nose_radius; the other is solved");
    }
    return arcs;
}

void read_powers(JobTable& table, MotionProfile& motion) {
    motion.powers = table.whole_numbers("powers", 1, 200);
    const Node* node = table.any("powers");
    if (node == nullptr) table.missing("powers", "add them, e.g. powers = [2, 10, 18, 26]");
    if (node == nullptr || node->kind != Node::Kind::array) return;
    if (motion.powers.size() != node->members.size()) return;  // complained about already
    bool ascending = motion.powers.size() >= 2 && motion.powers.size() <= 10 && motion.powers.front() == 2;
    for (std::size_t i = 1; i < motion.powers.size(); ++i)
        ascending = ascending && motion.powers[i - 1] < motion.powers[i];
    if (ascending) return;
    table.complain("powers", "powers",
                   "'" + table.path_of("powers") + "' are not two to ten powers ascending from 2",
                   "write them so, e.g. [2, 10, 18, 26]");
}

std::optional<Ramp> read_ramp(JobTable& profile, std::string_view key) {
    const Node* node = profile.table(key);
    if (node == nullptr) return std::nullopt;
    JobTable table(*node, profile.path_of(key), profile.reading());
    Ramp ramp;
    ramp.lift = table.required_length("lift", positive_length);
    ramp.angle = table.required_angle<CamAngle>("angle", part_of_turn);
    table.finish();
    return ramp;
}

/// A ramp is a part of the lift, and all angles together are a part of a turn.
void check_motion(JobTable& table, const MotionProfile& motion) {
    double sum =
        motion.opening_angle.degrees() + motion.dwell_angle.degrees() + motion.closing_angle.degrees();
    for (const auto& [key, ramp] :
         {std::pair{"opening_ramp", motion.opening_ramp}, {"closing_ramp", motion.closing_ramp}}) {
        if (!ramp) continue;
        sum += ramp->angle.degrees();
        if (motion.lift > 0.0 && ramp->lift >= motion.lift) {
            table.complain(key, "ramp-lift",
                           "the lift of '" + table.path_of(key) + "' is not less than the whole lift",
                           "'lift' is the total, ramps included: make it larger, or the ramp lower");
        }
    }
    if (sum <= 360.0) return;
    table.complain(
        "opening_angle", "angles-too-large",
        "the angles of [" + table.path() + "] make " + shortest_fixed(sum, 6) + " degrees together",
        "opening, dwell, closing and ramps share one turn of 360");
}

MotionProfile read_motion(JobTable& table) {
    MotionProfile motion;
    motion.base_radius = table.required_length("base_radius", positive_length);
    motion.lift = table.required_length("lift", positive_length);
    const auto law = table.required_choice<LawKind>("law", laws);
    motion.law = law.value_or(LawKind::polynomial_345);
    if (law == LawKind::power_polynomial) {
        read_powers(table, motion);
    } else if (law) {
        table.refuse_unused("the " + laws[static_cast<std::size_t>(*law)] + " law", {"powers"});
    }
    if (!law) table.any("powers");
    motion.opening_angle = table.required_angle<CamAngle>("opening_angle", part_of_turn);
    motion.dwell_angle = table.angle_or<CamAngle>("dwell_angle", CamAngle{}, {0.0, 360.0, true, false});
    motion.closing_angle = table.angle_or<CamAngle>("closing_angle", motion.opening_angle, part_of_turn);
    motion.opening_ramp = read_ramp(table, "opening_ramp");
    motion.closing_ramp = read_ramp(table, "closing_ramp");
    check_motion(table, motion);
    return motion;
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
        table.refuse_unused("a profile of shape \"" + shapes[static_cast<std::size_t>(*shape)] + '"',
                            shape_keys);
    });
}

}  // namespace lobewright
