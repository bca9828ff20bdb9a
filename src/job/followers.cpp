#include "job/job_reading.h"

namespace lobewright {
namespace {

const std::vector<std::string> kinds = {"flat", "roller", "domed", "knife", "pivoted"};
const std::vector<std::string> kind_keys = {"face_diameter", "face_offset", "radius", "offset",
                                            "pivot_radius",  "arm_length",  "side"};

void read_kind(JobTable& table, Follower& follower) {
    switch (follower.kind) {
        case FollowerKind::flat:
            follower.face_diameter = table.length("face_diameter", positive_length);
            follower.face_offset = table.length_or("face_offset", 0.0, any_length);
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
            follower.radius = table.required_length("radius", positive_length);
            follower.side = table.required_choice<Sense>("side", sense_words).value_or(Sense::ccw);
            break;
    }
    table.refuse_unused("a " + kinds[static_cast<std::size_t>(follower.kind)] + " follower", kind_keys);
}

}  // namespace

void read_followers(JobTable& file) {
    read_named(file, "follower", [&](const std::string& name, JobTable& table) {
        Follower follower;
        follower.valve_ratio = table.number_or("valve_ratio", 1.0, {1e-3, 100.0});
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
