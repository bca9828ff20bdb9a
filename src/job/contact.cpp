#include "job/job_reading.h"

namespace lobewright {
namespace {

constexpr Material steel{207000.0, 0.3};
constexpr Material cast_iron{105000.0, 0.26};

/// steel, cast-iron, or a table of one's own; steel if absent.
Material read_material(JobTable& contact, std::string_view key) {
    const Node* node = contact.any(key);
    if (node == nullptr) return steel;
    if (node->kind != Node::Kind::table) {
        const std::vector<std::string> words = {"steel", "cast-iron"};
        if (node->kind == Node::Kind::string) return contact.choice(key, words) == 1 ? cast_iron : steel;
        contact.complain(key, "wrong-type", "'" + contact.path_of(key) + "' is " + kind_name(*node),
                         "give \"steel\", \"cast-iron\" or { young_gpa = 207, poisson = 0.3 }");
        return steel;
    }
    JobTable table(*node, contact.path_of(key), contact.reading());
    Material material;
    material.young_mpa = 1000.0 * table.required_number("young_gpa", {1.0, 2000.0});
    material.poisson = table.required_number("poisson", {0.0, 0.5, true, false});
    table.finish();
    return material;
}

}  // namespace

void read_contact(JobTable& file) {
    const Node* node = file.table("contact");
    if (node == nullptr) return;
    JobTable table(*node, "contact", file.reading());
    ContactLoad load;
    load.spring_preload = table.required_number("spring_preload", {0.0, 1e6});
    load.spring_rate = table.required_number("spring_rate", {0.0, 1e6});
    load.moving_mass = table.required_number("moving_mass", {0.0, 1e4});
    load.crank_speed = table.required_number("crank_speed", {1e-3, 1e6});
    load.cam_material = read_material(table, "cam_material");
    load.follower_material = read_material(table, "follower_material");
    load.allowable_stress = table.number("allowable_stress", {1e-3, 1e5});
    table.finish();
    file.reading().job.contact = load;
}

}  // namespace lobewright
