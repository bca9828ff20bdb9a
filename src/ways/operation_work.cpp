#include <lobewright/chosen_lobes.h>
#include <lobewright/operation_work.h>
#include <lobewright/operations.h>
#include <lobewright/program_writer.h>

namespace lobewright {
namespace {

OperationWork work_of(Job one, const std::vector<SolvedLobe>& lobes, const std::vector<std::string>& names,
                      const Dialect& dialect) {
    if (names.size() == lobes.size()) return {std::move(one), lobes, {}, dialect};
    ChosenLobes chosen = chosen_lobes(one, lobes, names);
    return {std::move(chosen.job), std::move(chosen.lobes), std::move(chosen.left_out), dialect};
}

}  // namespace

std::vector<OperationWork> works_of(const Job& job, const std::vector<SolvedLobe>& lobes,
                                    const std::vector<Dialect>& dialects) {
    if (job.operations.empty()) return {{job, lobes, {}, dialects.front()}};
    std::vector<OperationWork> works;
    for (std::size_t i = 0; i < job.operations.size(); ++i)
        works.push_back(work_of(job_of_operation(job, i), lobes, lobes_of_operation(job, job.operations[i]),
                                dialects[i]));
    return works;
}

Outcome<std::vector<EarlierProgram>> programs_before(const std::vector<OperationWork>& works,
                                                     std::size_t end) {
    std::vector<EarlierProgram> programs;
    for (std::size_t i = 0; i < end; ++i) {
        const auto& [job, lobes, left_out, dialect] = works[i];
        const Outcome<Toolpath> path =
            plan_toolpath(job, lobes, word_grid(dialect, job.units, job.cut->blend));
        if (!path) return path.diagnostics();
        Outcome<std::string> text = write_program(job, lobes, *path, dialect);
        if (!text) return text.diagnostics();
        programs.push_back({job, dialect, std::move(text).value()});
    }
    return programs;
}

}  // namespace lobewright
