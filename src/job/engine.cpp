#include "job/job_reading.h"
#include "job/timing_cards.h"

#include <lobewright/number_text.h>

#include <algorithm>

namespace lobewright {
namespace {

constexpr int most_cylinders = 64;
constexpr double whole_cycle = 720.0;  // crank degrees of a four-stroke's cycle

/// Each of 1..n once, else complains.
bool is_an_order(JobTable& engine, std::vector<int> order) {
    std::sort(order.begin(), order.end());
    for (int k = 1; k <= static_cast<int>(order.size()); ++k) {
        if (order[static_cast<std::size_t>(k - 1)] == k) continue;
        engine.complain("firing_order", "firing-order",
                        "'engine.firing_order' does not name each cylinder once",
                        "name each from 1 to " + std::to_string(order.size()) + " once");
        return false;
    }
    return true;
}

/// The k-th in the order fires k · 720/n after the first; measured from cylinder 1.
void fire_in_order(JobTable& table, Engine& engine, const std::vector<int>& order) {
    const bool all_fine = order.size() == static_cast<std::size_t>(engine.cylinders);
    if (!all_fine || !is_an_order(table, order)) return;
    const auto first = std::find(order.begin(), order.end(), 1) - order.begin();
    const auto n = static_cast<std::ptrdiff_t>(order.size());
    engine.firing_angles.resize(order.size());
    for (std::ptrdiff_t k = 0; k < n; ++k) {
        const double turn = static_cast<double>((k - first + n) % n) / static_cast<double>(n);
        engine.firing_angles[static_cast<std::size_t>(order[static_cast<std::size_t>(k)] - 1)] =
            CrankAngle::from_degrees(turn * whole_cycle);
    }
}

void read_firing_angles(JobTable& table, Engine& engine) {
    const auto degrees = table.numbers("firing_angles", {0.0, whole_cycle, true, false});
    if (!degrees.empty() && degrees.front() != 0.0) {
        table.complain(
            "firing_angles", "firing-angles",
            "cylinder 1 fires at " + shortest_fixed(degrees.front(), 9) + " in 'engine.firing_angles'",
            "crank angle 0 is cylinder 1 at top dead centre on its power stroke: count from there");
    }
    for (const double angle : degrees)
        engine.firing_angles.push_back(CrankAngle::from_degrees(angle));
}

/// Whether the list has as many members as there are cylinders; complains if not.
bool count_agrees(JobTable& table, std::string_view key, int cylinders) {
    const auto count = static_cast<int>(table.any(key)->members.size());
    if (count == cylinders) return true;
    table.complain(key, "cylinder-count",
                   "'" + table.path_of(key) + "' is for " + std::to_string(count) +
                       " cylinders, the engine has " + std::to_string(cylinders),
                   "make them agree");
    return false;
}

void read_firing(JobTable& table, Engine& engine) {
    const Node* order_node = table.array("firing_order");
    const Node* angles_node = table.array("firing_angles");
    const Node* given = order_node != nullptr ? order_node : angles_node;
    const auto cylinders = table.whole_number("cylinders", 1, most_cylinders);
    const auto named =
        given != nullptr ? std::clamp(static_cast<int>(given->members.size()), 1, most_cylinders) : 1;
    engine.cylinders = cylinders.value_or(named);
    if (order_node != nullptr && angles_node != nullptr) {
        table.complain("firing_angles", "excluded-key", "firing_order and firing_angles are both given",
                       "give firing_order for even firing, firing_angles for any other");
        return;
    }
    if (order_node != nullptr) {
        if (!count_agrees(table, "firing_order", engine.cylinders)) return;
        fire_in_order(table, engine, table.whole_numbers("firing_order", 1, engine.cylinders));
    } else if (angles_node != nullptr) {
        if (count_agrees(table, "firing_angles", engine.cylinders)) read_firing_angles(table, engine);
    } else if (engine.cylinders == 1) {
        engine.firing_angles = {CrankAngle{}};
    } else if (!table.has("firing_order") && !table.has("firing_angles")) {
        table.missing("firing_order", "add it, or firing_angles");
    }
}

}  // namespace

void read_engine(JobTable& file) {
    const Node* node = file.table("engine");
    if (node == nullptr) return;
    JobTable table(*node, "engine", file.reading());
    Engine engine;
    engine.cam_per_crank = table.number_or("cam_per_crank", 0.5, {1e-3, 1.0});
    read_firing(table, engine);
    read_timing_cards(table, engine);
    table.finish();
    file.reading().job.engine = std::move(engine);
}

}  // namespace lobewright
