#include "job/job_reading.h"

namespace lobewright {
namespace {

const std::vector<std::string> kinds = {"flat", "roller", "domed", "knife", "pivoted"};
const std::vector<std::string> kind_keys = {"face_diameter", "face_offset", "face_tilt",
                                            "radius",        "pad_depth",   "offset",
                                            "pivot_radius",  "arm_length",  "side"};

/// Degrees by which a flat face may be out of square: more would jam in its guide.
constexpr NumberRange any_tilt{-30.0, 30.0};

/// A roller or a curved pad has a radius, a flat pad a depth under the pivot.
void read_pad(JobTable& table, Follower& follower) {
    follower.pad_depth = table.length("pad_depth", any_length);
    if (!table.has("pad_depth")) {
        if (!table.has("radius"))
            table.missing("radius", "add it for a roller or a curved pad, or pad_depth for a flat one");
        follower.radius = table.length("radius", positive_length).value_or(0.0);
        return;
    }
    if (table.any("radius") == nullptr) return;
    table.complain("radius", "excluded-key", "radius and pad_depth are both given",
                   "give radius for a roller or a curved pad, pad_depth for a flat one");
}

/// One point of the rocker's curve: [follower's lift, valve's lift].
std::optional<ValveLift> read_point(JobTable& table, const Node& node) {
    const bool pair = node.kind == Node::Kind::array && node.members.size() == 2 &&
                      node.members[0].kind == Node::Kind::number &&
                      node.members[1].kind == Node::Kind::number;
    if (!pair) {
        table.complain_at(node, "valve-lift", "a point of '" + table.path_of("valve_lift") + "' is no pair",
                          "write [follower's lift, valve's lift], such as [2.0, 2.7]");
        return std::nullopt;
    }
    const double unit = mm_per(table.reading().job.units);
    return ValveLift{node.members[0].number * unit, node.members[1].number * unit};
}

/// Both lifts from 0, and both only rising, no two points nearer than a micrometre.
void check_valve_lift(JobTable& table, const std::vector<ValveLift>& points) {
    const auto& first = points.front();
    bool sound = points.size() >= 2 && first.follower == 0.0 && first.valve == 0.0;
    for (std::size_t i = 1; i < points.size(); ++i) {
        sound = sound && points[i].follower >= points[i - 1].follower + positive_length.lowest &&
                points[i].valve >= points[i - 1].valve + positive_length.lowest;
    }
    sound = sound && points.back().follower <= positive_length.highest &&
            points.back().valve <= positive_length.highest;
    if (sound) return;
    table.complain("valve_lift", "valve-lift",
                   "'" + table.path_of("valve_lift") + "' does not rise from [0, 0] in both lifts",
                   "give two points or more, as measured, such as [[0, 0], [2, 2.7], [4, 5.6]]");
}

/// The valve's lift by a ratio, or by a curve as measured on a rocker.
void read_valve_lift(JobTable& table, Follower& follower) {
    follower.valve_ratio = table.number_or("valve_ratio", 1.0, {1e-3, 100.0});
    const Node* list = table.array("valve_lift");
    if (list == nullptr) return;
    if (table.has("valve_ratio")) {
        table.complain("valve_ratio", "excluded-key", "valve_ratio and valve_lift are both given",
                       "give valve_ratio where it is the same all over, else valve_lift");
    }
    for (const Node& node : list->members) {
        const auto point = read_point(table, node);
        if (!point) return;
        follower.valve_lift.push_back(*point);
    }
    if (follower.valve_lift.empty()) follower.valve_lift.emplace_back();
    check_valve_lift(table, follower.valve_lift);
}

void read_kind(JobTable& table, Follower& follower) {
    switch (follower.kind) {
        case FollowerKind::flat:
            follower.face_diameter = table.length("face_diameter", positive_length);
            follower.face_offset = table.length_or("face_offset", 0.0, any_length);
            follower.face_tilt = table.angle_or<SpaceAngle>("face_tilt", SpaceAngle{}, any_tilt);
            break;
        case FollowerKind::roller:
        case FollowerKind::domed:
            follower.radius = table.required_length("radius", positive_length);
            follower.offset = table.length_or("offset", 0.0, any_length);
            break;
        case FollowerKind::knife:
            follower.offset = table.length_or("offset", 0.0, any_length);
            break;
        case FollowerKind::pivoted:
            follower.pivot_radius = table.required_length("pivot_radius", positive_length);
            follower.arm_length = table.required_length("arm_length", positive_length);
            read_pad(table, follower);
            follower.side = table.required_choice<Sense>("side", sense_words).value_or(Sense::ccw);
            break;
    }
    table.refuse_unused("a " + kinds[static_cast<std::size_t>(follower.kind)] + " follower", kind_keys);
}

}  // namespace

void read_followers(JobTable& file) {
    read_named(file, "follower", [&](const std::string& name, JobTable& table) {
        Follower follower;
        read_valve_lift(table, follower);
        follower.direction = table.angle_or<SpaceAngle>("direction", SpaceAngle{}, any_direction);
        if (const auto kind = table.required_choice<FollowerKind>("kind", kinds)) {
            follower.kind = *kind;
            read_kind(table, follower);
            file.reading().job.followers.emplace(name, follower);
        } else {
            table.pass_over(kind_keys);
        }
    });
}

}  // namespace lobewright
