#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "cli/commands.h"
#include "cli/program_files.h"
#include "cli/works.h"

#include <lobewright/one_program.h>
#include <lobewright/program_parts.h>

namespace lobewright::cli {

namespace {

/// Empty where there is but one operation.
std::string heading(const Job& job) {
    return job.operations.size() < 2 ? std::string() : operation_heading(job);
}

/// Likewise over one program of several; empty where there is but one.
std::string part_heading(std::size_t index, const std::vector<ProgramFile>& programs) {
    if (programs.size() < 2) return {};
    std::string text =
        "Program " + std::to_string(index + 1) + " of " + std::to_string(programs.size()) + ", for ";
    for (const SolvedLobe& lobe : programs[index].lobes)
        text += (&lobe == &programs[index].lobes.front() ? "" : ", ") + lobe.name;
    return text + '\n';
}

/// The lobes of each program where the controller takes the cut in several; none where it takes it in one.
Outcome<std::vector<std::vector<std::string>>> programs_of(const OperationWork& work) {
    using Programs = std::vector<std::vector<std::string>>;
    if (work.dialect.longest_program == 0) return Programs{};
    Outcome<Programs> programs = lobes_of_files(work);
    if (programs && programs->size() < 2) return Programs{};
    return programs;
}

/// Where the plan would be split.
std::string split_text(const OperationWork& work, const std::vector<std::vector<std::string>>& programs) {
    if (programs.empty()) return {};
    std::string text = "\n" + work.dialect.name + " takes " + std::to_string(work.dialect.longest_program) +
                       " characters: this comes as " + std::to_string(programs.size()) +
                       " programs, and each begins and ends as one.\n";
    for (std::size_t i = 0; i < programs.size(); ++i) {
        text += "Program " + std::to_string(i + 1) + ": ";
        for (const std::string& lobe : programs[i])
            text += (&lobe == &programs[i].front() ? "" : ", ") + lobe;
        text += '\n';
    }
    return text;
}

/// The plans of the wanted operations, one below the other.
void plan_all(const std::vector<OperationWork>& works, const std::vector<std::size_t>& wanted,
              const Options& options, Result& result) {
    std::vector<PlannedOperation> plans;
    std::string text;
    for (const std::size_t index : wanted) {
        const auto work = chosen_of_work(works[index], options, result.remarks);
        if (!take(work, result)) return;
        const WordGrid grid = word_grid(work->dialect, work->job.units, work->job.cut->blend);
        Outcome<Toolpath> path = plan_toolpath(work->job, work->lobes, grid);
        if (!take(path, result)) return;
        const auto programs = programs_of(*work);
        if (!take(programs, result)) return;
        plans.push_back({work->job, work->lobes, std::move(path).value(), *programs});
        const PlannedOperation& plan = plans.back();
        text += (text.empty() ? "" : "\n") + heading(plan.job) +
                toolpath_text(plan.job, plan.lobes, plan.path) + split_text(*work, *programs);
    }
    if (options.json) {
        result.text = plans.size() == 1
                          ? toolpath_json(plans[0].job, plans[0].lobes, plans[0].path, plans[0].programs)
                          : operations_json(plans);
        return;
    }
    result.text = text;
}

/// The one program of all is the result's text; each of several goes to a file of its own.
void put_programs(const std::vector<ProgramFile>& programs, const Options& options, const Dialect& dialect,
                  Files& files, Result& result) {
    const std::string name = output_name(options.output, programs.front().job);
    if (programs.size() == 1 && name == options.output) {
        result.text = programs.front().program.text;
        return;
    }
    if (is_standard_stream(name)) {
        result.messages.push_back(wants_output(programs.size(), dialect));
        return;
    }
    for (std::size_t i = 0; i < programs.size(); ++i) {
        const std::string own = programs.size() == 1 ? name : numbered_name(name, i + 1);
        const Job& job = programs[i].job;
        if (const auto complaint = find_other_file(files, own, options, dialect, job.units))
            result.messages.push_back(*complaint);
        result.files.push_back({own, programs[i].program.text});
    }
}

/// The programs of the wanted operations, each proven on what those before it leave.
void cut_all(const std::vector<OperationWork>& works, const std::vector<std::size_t>& wanted,
             const Options& options, Files& files, Result& result) {
    Outcome<std::vector<EarlierProgram>> earlier = programs_before(works, wanted.front());
    if (!take(earlier, result)) return;
    std::vector<EarlierProgram> before = std::move(earlier).value();
    for (const std::size_t index : wanted) {
        const auto work = chosen_of_work(works[index], options, result.remarks);
        if (!take(work, result)) return;
        const Outcome<std::vector<ProgramFile>> programs = proven_files(*work, before);
        if (!take(programs, result)) return;
        put_programs(*programs, options, work->dialect, files, result);
        for (std::size_t i = 0; i < programs->size(); ++i) {
            const auto& [job, lobes, program] = (*programs)[i];
            before.push_back({job, work->dialect, program.text});
            result.remarks.push_back(heading(work->job) + part_heading(i, *programs) +
                                     toolpath_totals_text(lobes, program.path) +
                                     proof_remark(job, program.proof));
        }
    }
}

/// The works with the lobes that the options choose.
Outcome<std::vector<OperationWork>> chosen_of_works(const std::vector<OperationWork>& works,
                                                    const Options& options, Result& result) {
    std::vector<OperationWork> chosen;
    for (const OperationWork& work : works) {
        Outcome<OperationWork> each = chosen_of_work(work, options, result.remarks);
        if (!each) return each.diagnostics();
        chosen.push_back(std::move(each).value());
    }
    return chosen;
}

/// One program for all operations, which changes tools between them.
void cut_in_one(const std::vector<OperationWork>& works, const Options& options, Files& files,
                Result& result) {
    const OperationWork& first = works.front();
    if (const auto hindrance = hindrance_to_one_program(works)) return result.messages.push_back(*hindrance);
    if (const auto other = find_other_file(files, options.output, options, first.dialect, first.job.units))
        return result.messages.push_back(*other);
    const auto chosen = chosen_of_works(works, options, result);
    if (!take(chosen, result)) return;
    const Outcome<OneProgram> program = proven_in_one(*chosen);
    if (!take(program, result)) return;
    result.text = program->text;
    for (std::size_t i = 0; i < program->operations.size(); ++i) {
        const auto& [job, lobes, path, none] = program->operations[i];
        result.remarks.push_back(heading(job) + toolpath_totals_text(lobes, path) +
                                 proof_remark(job, program->proofs[i]));
    }
}

}  // namespace

Result cut_command(const Options& options, Inputs& inputs) {
    if (!options.readings.empty()) return cut_correction(options, inputs);
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, inputs, Purpose::cut);
    if (!take(solved, result)) return result;
    const auto chosen = chosen_operation(solved->job, options);
    if (!take(chosen, result)) return result;
    const auto works = load_works(*solved, options, inputs);
    if (!take(works, result)) return result;
    std::vector<std::size_t> wanted;
    for (std::size_t i = 0; i < works->size(); ++i) {
        if (!*chosen || **chosen == i) wanted.push_back(i);
    }
    if (options.plan) {
        plan_all(*works, wanted, options, result);
        return result;
    }
    if (wanted.size() > 1 && !tells_operations_apart(options.output)) {
        cut_in_one(*works, options, inputs.files, result);
    } else {
        for (const std::size_t index : wanted) {
            if (const auto complaint = output_complaint(inputs.files, options, (*works)[index]))
                result.messages.push_back(*complaint);
        }
        if (!has_errors(result.messages)) cut_all(*works, wanted, options, inputs.files, result);
    }
    if (has_errors(result.messages)) result.text.reset(), result.files.clear();
    return result;
}

}  // namespace lobewright::cli
