#include "base/append_diagnostics.h"
#include "base/whole_steps.h"
#include "job/complaint.h"
#include "ways/too_long.h"

#include <lobewright/needs.h>
#include <lobewright/one_program.h>
#include <lobewright/operations.h>
#include <lobewright/program_writer.h>
#include <lobewright/proven_program.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace lobewright {
namespace {

constexpr double degrees_in_turn = 360.0;
const char* const one_each =
    "give -o a name with {operation} in it, and each has a program of its own, or --operation NAME";

std::string machine_of(const Job& job) {
    const auto index = find_operation(job, job.operation);
    return index ? job.operations[*index].machine : std::string();
}

const Cutter& cutter_of(const Job& job) {
    return job.cutters.find(job.cut->cutter)->second;
}

Diagnostic hindrance(const Job& job, const char* key, const char* code, const std::string& what,
                     const std::string& remedy) {
    return bad_key(job, key, code, "the operations can't be one program: " + what, remedy);
}

std::optional<Diagnostic> several_machines(const std::vector<OperationWork>& works) {
    const Job& first = works.front().job;
    for (const OperationWork& work : works) {
        const std::string name = machine_of(work.job);
        if (name == machine_of(first)) continue;
        return hindrance(work.job, "cut.machine", "several-machines",
                         "'" + first.operation + "' is for machine " + machine_of(first) + ", '" +
                             work.job.operation + "' for " + name,
                         one_each);
    }
    return std::nullopt;
}

bool names_tools(const Dialect& dialect) {
    return dialect.tool_change.find("{tool") != std::string::npos;
}

bool names_lengths(const Dialect& dialect) {
    return (dialect.tool_change + dialect.length_on).find("{offset") != std::string::npos;
}

bool one_cutter(const std::vector<OperationWork>& works) {
    return std::all_of(works.begin(), works.end(), [&](const OperationWork& work) {
        return work.job.cut->cutter == works.front().job.cut->cutter;
    });
}

std::optional<Diagnostic> unfit_dialect(const std::vector<OperationWork>& works) {
    const auto& [job, lobes, left_out, dialect] = works.front();
    if (!names_tools(dialect)) {
        return hindrance(job, "machine.post", "no-tool-change",
                         dialect.name + " has no line that changes tools (program.tool_change with {tool})",
                         one_each);
    }
    if (!one_cutter(works) && !names_lengths(dialect)) {
        return hindrance(
            job, "machine.post", "no-lengths",
            dialect.name +
                " puts no tool's length on, and zeros that are set with one cutter are "
                "wrong for the next",
            "write program.length_on with {offset} into the post-processor, or " + std::string(one_each));
    }
    if (!job.machine->tool_change && dialect.home.empty()) {
        return hindrance(
            job, "machine.tool_change", "no-tool-change-place", "nothing says where tools change",
            "set machine.tool_change = { radial, axial }, where the longest tool is clear of the "
            "shaft");
    }
    const auto& travel = job.machine->limits.rotary_travel;
    if (travel && dialect.rotary_range == RotaryRange::folded) {
        return hindrance(job, "machine.limits.rotary_travel", "no-way-back",
                         "the words of a folded rotary axis can't wind it back between them", one_each);
    }
    return std::nullopt;
}

/// Two cutters under one number, of the tool or of its length.
std::optional<Diagnostic> shared_number(const std::vector<OperationWork>& works) {
    for (const OperationWork& one : works) {
        for (const OperationWork& other : works) {
            const std::string &name = one.job.cut->cutter, &next = other.job.cut->cutter;
            if (name == next) continue;
            const Cutter &a = cutter_of(one.job), &b = cutter_of(other.job);
            const bool tool = a.number == b.number;
            if (!tool && (a.offset_number != b.offset_number || !names_lengths(one.dialect))) continue;
            const std::string key = tool ? "number" : "offset_number";
            return hindrance(one.job, ("cutter." + next + '.' + key).c_str(), "number-twice",
                             "the cutters '" + name + "' and '" + next + "' have the same " + key + ", " +
                                 std::to_string(tool ? a.number : a.offset_number),
                             "give each cutter the number that it has in the machine");
        }
    }
    return std::nullopt;
}

/// Least and greatest of its rotary words, in steps.
struct RotaryReach {
    long long least = 0, greatest = 0;
};
RotaryReach rotary_reach(const Toolpath& path) {
    RotaryReach reach{path.start.rotary, path.start.rotary};
    for (const Move& move : path.moves) {
        reach.least = std::min(reach.least, move.to.rotary);
        reach.greatest = std::max(reach.greatest, move.to.rotary);
    }
    return reach;
}

void turn_on(Toolpath& path, long long steps) {
    path.start.rotary += steps;
    for (Move& move : path.moves)
        move.to.rotary += steps;
}

/// Whole turns that bring the path's start next to `from`; a folded axis, whose words may tell its way by
/// their sign, goes on in the + sense. None where the words would grow too large.
void run_on_from(long long from, Toolpath& path, const OperationWork& work) {
    const double step = path.grid.rotary_step;
    const long long turn = nearest_step(degrees_in_turn / step);
    const double turns = static_cast<double>(from - path.start.rotary) / static_cast<double>(turn);
    const bool folded = work.dialect.rotary_range == RotaryRange::folded;
    const long long on = (folded ? step_above(turns) : nearest_step(turns)) * turn;
    const RotaryReach reach = rotary_reach(path);
    double largest = work.dialect.largest_rotary;
    if (const auto& travel = work.job.machine->limits.rotary_travel)
        largest = largest > 0.0 ? std::min(largest, *travel) : *travel;
    const long long most = std::max(std::llabs(reach.least + on), std::llabs(reach.greatest + on));
    if (largest > 0.0 && static_cast<double>(most) * step > largest) return;
    turn_on(path, on);
}

/// The paths of all, one after the other; with warnings, told once.
Outcome<std::vector<PlannedOperation>> planned(const std::vector<OperationWork>& works) {
    std::vector<PlannedOperation> plans;
    Diagnostics messages;
    for (const OperationWork& work : works) {
        const auto& [job, lobes, left_out, dialect] = work;
        if (Diagnostics unmet = unmet_needs(job, Purpose::cut); !unmet.empty()) return unmet;
        Outcome<Toolpath> path = plan_toolpath(job, lobes, word_grid(dialect, job.units, job.cut->blend));
        if (!path) return path.diagnostics();
        append(messages, path.diagnostics());
        plans.push_back({job, lobes, std::move(path).value()});
        if (plans.size() < 2) continue;
        const Toolpath& before = plans[plans.size() - 2].path;
        const Words& end = before.moves.empty() ? before.start : before.moves.back().to;
        run_on_from(end.rotary, plans.back().path, work);
    }
    return {std::move(plans), told_once(messages)};
}

}  // namespace

std::optional<Diagnostic> hindrance_to_one_program(const std::vector<OperationWork>& works) {
    if (auto found = several_machines(works)) return found;
    if (auto found = unfit_dialect(works)) return found;
    return shared_number(works);
}

Outcome<OneProgram> proven_in_one(const std::vector<OperationWork>& works) {
    Outcome<std::vector<PlannedOperation>> plans = planned(works);
    if (!plans) return plans.diagnostics();
    Diagnostics messages = plans.diagnostics();
    const Dialect& dialect = works.front().dialect;
    OneProgram program{std::move(plans).value(), {}, {}};
    const Outcome<std::string> text = write_program(program.operations, dialect);
    append(messages, text.diagnostics());
    if (!text) return messages;
    const auto most = static_cast<std::size_t>(dialect.longest_program);
    if (most > 0 && text->size() > most)
        return program_too_long(works.front(), "the one program for all operations", text->size(), one_each);
    program.text = *text;
    std::vector<OperationCut> cuts;
    for (const PlannedOperation& each : program.operations)
        cuts.push_back({each.job, each.lobes});
    const std::string file = "the program for all operations of " + works.front().job.file;
    Outcome<std::vector<ProofReport>> proofs = prove_operations(cuts, dialect, pieces_of(program.text), file);
    if (!proofs) return proofs.diagnostics();
    program.proofs = std::move(proofs).value();
    for (std::size_t i = 0; i < cuts.size(); ++i)
        append(messages, fitness(cuts[i].job, program.proofs[i], file,
                                 "nothing is written that fails its own proof; change the job"));
    if (has_errors(messages)) return messages;
    return {std::move(program), told_once(messages)};
}

}  // namespace lobewright
