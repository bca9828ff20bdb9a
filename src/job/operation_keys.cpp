#include "job/complaint.h"
#include "job/job_reading.h"

#include <lobewright/operations.h>

#include <algorithm>

namespace lobewright {
namespace {

/// Each is proven on what all before it leave.
constexpr std::size_t most_operations = 20;

/// Tables of a machine's own; any other table within [machine] is a machine of that name.
const std::vector<std::string> tables_of_machine = {"limits", "tool_change"};

/// The machines that [machine] names; a table that is a slip of one of its own is none.
std::vector<std::string> named_machines(const Node& machine) {
    std::vector<std::string> names;
    for (const Node& member : machine.members) {
        const bool own = std::find(tables_of_machine.begin(), tables_of_machine.end(), member.key) !=
                             tables_of_machine.end() ||
                         !nearest_word(member.key, tables_of_machine).empty();
        if (member.kind == Node::Kind::table && !own) names.push_back(member.key);
    }
    return names;
}

void read_one_machine(JobTable& file, const Node& node, const std::vector<std::string>& named) {
    JobTable table(node, "machine", file.reading());
    file.reading().job.machine = read_machine_keys(table);
    for (const std::string& name : named) {
        table.complain(name, "both-given",
                       "[machine] is a machine itself, and holds [machine." + name + "] beside it",
                       "give each machine a table of its own: [machine.mill] in the place of [machine]");
    }
    table.pass_over(named);
    table.finish();
}

void read_cut(JobTable& file) {
    const Node* node = file.table("cut");
    if (node == nullptr) return;
    Job& job = file.reading().job;
    JobTable table(*node, "cut", file.reading());
    if (job.machines.size() == 1) job.machine = job.machines.begin()->second;
    if (job.machines.size() > 1) {
        table.complain_at(*node, "several-machines", "the job has several machines, and [cut] can't name one",
                          "make it an [[operation]] with name and machine");
    }
    job.cut = read_cut_keys(table, job.machine);
    table.finish();
}

/// Names stand in those of files.
bool fits_in_file_names(const std::string& name) {
    return name.find_first_of("/\\:*?\"<>|{}") == std::string::npos && name.front() != '.' &&
           name.front() != '-';
}

std::string read_name(JobTable& table) {
    std::string name = table.required_string("name");
    if (name.empty()) return name;
    if (!fits_in_file_names(name)) {
        table.complain(
            "name", "operation-name",
            "'" + table.path_of("name") + "' is \"" + name + "\", which can't stand in a file's name",
            "use letters, digits, spaces, - and _");
    }
    const Job& job = table.reading().job;
    if (const auto first = find_operation(job, name)) {
        const Place place = job.place_of("operation[" + std::to_string(*first) + "].name");
        table.complain("name", "doubled-name",
                       "there is an operation '" + name + "' already, in line " + std::to_string(place.line),
                       "give each operation a name of its own");
    }
    return name;
}

/// The one that the operation names, or the only one; nothing where that is not settled.
std::string read_machine_name(JobTable& table) {
    const auto& machines = table.reading().job.machines;
    std::vector<std::string> names;
    for (const auto& [name, machine] : machines)
        names.push_back(name);
    const auto named = table.string("machine");
    if (!named && names.size() > 1)
        table.missing("machine", "the job has several: name one of " + listed(names));
    if (!named) return names.size() == 1 ? names.front() : std::string();
    if (machines.contains(*named)) return *named;
    const std::string nearest = nearest_word(*named, names);
    table.complain("machine", "unknown-machine", "there is no [machine." + *named + "]",
                   !nearest.empty() ? "did you mean \"" + nearest + "\"?"
                   : names.empty()  ? "leave it out: [machine] is the only one; or give that table this name"
                                    : "add it, or name one of " + listed(names));
    return {};
}

void check_lobe_name(JobTable& table, const Node& item, const std::vector<std::string>& seen) {
    std::vector<std::string> names;
    for (const LobeEntry& lobe : table.reading().job.lobes)
        names.push_back(lobe.name);
    const std::string& name = item.text;
    if (std::find(names.begin(), names.end(), name) == names.end()) {
        const std::string nearest = nearest_word(name, names);
        table.complain_at(
            item, "unknown-lobe", "there is no lobe '" + name + "'",
            nearest.empty() ? "name a [[lobe]]: " + listed(names) : "did you mean \"" + nearest + "\"?");
    } else if (std::find(seen.begin(), seen.end(), name) != seen.end()) {
        table.complain_at(item, "doubled-name", "lobe '" + name + "' stands there twice", "name it once");
    }
}

std::vector<std::string> read_lobe_names(JobTable& table) {
    std::vector<std::string> names;
    std::vector<std::string> given = table.strings("lobes");
    const Node* list = table.has("lobes") ? table.any("lobes") : nullptr;
    if (list == nullptr || list->kind != Node::Kind::array) return names;
    if (list->members.empty())
        table.complain("lobes", "empty", "'" + table.path_of("lobes") + "' is empty",
                       "name the lobes, or leave the key out for all of them");
    for (const Node& item : list->members) {
        if (item.kind != Node::Kind::string) continue;
        check_lobe_name(table, item, names);
        names.push_back(item.text);
    }
    return given;
}

void read_operation(JobTable& table) {
    Job& job = table.reading().job;
    Operation operation;
    operation.name = read_name(table);
    operation.machine = read_machine_name(table);
    operation.lobes = read_lobe_names(table);
    const auto named = job.machines.find(operation.machine);
    operation.cut =
        read_cut_keys(table, named == job.machines.end() ? job.machine : std::optional(named->second));
    job.operations.push_back(std::move(operation));
}

}  // namespace

void read_stock(JobTable& file) {
    const Node* node = file.table("stock");
    if (node == nullptr) return;
    JobTable table(*node, "stock", file.reading());
    file.reading().job.stock.left_on = table.required_length("left_on", {1e-3, 100.0});
    table.finish();
}

void read_machines(JobTable& file) {
    const Node* node = file.table("machine");
    if (node == nullptr) return;
    const std::vector<std::string> named = named_machines(*node);
    const bool others = std::any_of(node->members.begin(), node->members.end(), [&](const Node& member) {
        return std::find(named.begin(), named.end(), member.key) == named.end();
    });
    if (named.empty() || others) return read_one_machine(file, *node, named);
    read_named(file, "machine", [&](const std::string& name, JobTable& table) {
        file.reading().job.machines.emplace(name, read_machine_keys(table));
    });
}

void read_cuts(JobTable& file) {
    if (file.has("cut") && file.has("operation")) {
        file.complain("cut", "both-given", "the job has both [cut] and [[operation]]",
                      "make [cut] an [[operation]] with a name, or take it out");
        file.pass_over({"cut", "operation"});
        return;
    }
    read_cut(file);
    read_list(file, "operation", read_operation, most_operations);
}

}  // namespace lobewright
