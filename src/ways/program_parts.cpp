#include "base/append_diagnostics.h"
#include "ways/too_long.h"

#include <lobewright/chosen_lobes.h>
#include <lobewright/program_parts.h>
#include <lobewright/program_writer.h>

#include <algorithm>

namespace lobewright {
namespace {

std::vector<std::string> in_shaft_order(const std::vector<SolvedLobe>& lobes) {
    std::vector<SolvedLobe> sorted = lobes;
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const SolvedLobe& a, const SolvedLobe& b) { return a.z < b.z; });
    std::vector<std::string> names;
    for (const SolvedLobe& lobe : sorted)
        names.push_back(lobe.name);
    return names;
}

/// The work on the lobes [first, last) of `names`; those before them are cut.
ChosenLobes work_on(const OperationWork& work, const std::vector<std::string>& names, std::size_t first,
                    std::size_t last) {
    Job job = work.job;
    for (std::size_t i = 0; i < first; ++i)
        job.stock.after[names[i]] = {job.cut->allowance, job.cut->tolerance, job.operation};
    const auto begin = names.begin();
    return chosen_lobes(
        job, work.lobes,
        {begin + static_cast<std::ptrdiff_t>(first), begin + static_cast<std::ptrdiff_t>(last)});
}

class Divider {
  public:
    explicit Divider(const OperationWork& work) : work_(work), names_(in_shaft_order(work.lobes)) {}

    /// One past the last lobe of each program.
    Outcome<std::vector<std::size_t>> ends() const {
        std::vector<std::size_t> ends;
        for (std::size_t first = 0; first < names_.size();) {
            std::size_t last = first;
            while (last < names_.size()) {
                const Outcome<std::size_t> length = length_of(first, last + 1);
                if (!length) return length.diagnostics();
                if (*length > limit()) {
                    if (last == first) return too_long(names_[first], *length);
                    break;
                }
                ++last;
            }
            ends.push_back(first = last);
        }
        return ends;
    }

    [[nodiscard]] ChosenLobes lobes(std::size_t first, std::size_t last) const {
        return work_on(work_, names_, first, last);
    }
    [[nodiscard]] std::size_t limit() const {
        return static_cast<std::size_t>(work_.dialect.longest_program);
    }

  private:
    /// Of several as the longest numbers make it.
    [[nodiscard]] Outcome<std::size_t> length_of(std::size_t first, std::size_t last) const {
        const ChosenLobes chosen = lobes(first, last);
        const Job& job = chosen.job;
        const Outcome<Toolpath> path =
            plan_toolpath(job, chosen.lobes, word_grid(work_.dialect, job.units, job.cut->blend));
        if (!path) return path.diagnostics();
        const bool whole = first == 0 && last == names_.size();
        const int many = whole ? 1 : static_cast<int>(names_.size());
        const Outcome<std::string> text =
            write_program(job, chosen.lobes, *path, work_.dialect, {many, many});
        if (!text) return text.diagnostics();
        return text->size();
    }

    [[nodiscard]] Diagnostics too_long(const std::string& lobe, std::size_t length) const {
        return {program_too_long(
            work_, "the program for lobe " + lobe + " alone", length,
            "it needs lines.longest_program = " + std::to_string(length) +
                "; a coarser cut.tolerance, a deeper cut.rough_depth or fewer decimals make it shorter")};
    }

    const OperationWork& work_;
    std::vector<std::string> names_;
};

}  // namespace

Outcome<std::vector<ProgramFile>> proven_files(const OperationWork& work,
                                               const std::vector<EarlierProgram>& earlier) {
    const Divider divider(work);
    if (divider.limit() == 0) {
        Outcome<ProvenProgram> whole = proven_program(work.job, work.lobes, work.dialect, earlier);
        if (!whole) return whole.diagnostics();
        Diagnostics messages = whole.diagnostics();
        return {std::vector<ProgramFile>{{work.job, work.lobes, std::move(whole).value()}},
                std::move(messages)};
    }
    const Outcome<std::vector<std::size_t>> ends = divider.ends();
    if (!ends) return ends.diagnostics();
    std::vector<ProgramFile> files;
    Diagnostics messages;
    std::size_t first = 0;
    for (const std::size_t last : *ends) {
        ChosenLobes chosen = divider.lobes(first, last);
        const ProgramPart part{static_cast<int>(files.size()) + 1, static_cast<int>(ends->size())};
        Outcome<ProvenProgram> program =
            proven_program(chosen.job, chosen.lobes, work.dialect, earlier, part);
        append(messages, program.diagnostics());
        if (!program) return messages;
        files.push_back({std::move(chosen.job), std::move(chosen.lobes), std::move(program).value()});
        first = last;
    }
    return {std::move(files), told_once(messages)};
}

Outcome<std::vector<std::vector<std::string>>> lobes_of_files(const OperationWork& work) {
    const Divider divider(work);
    const Outcome<std::vector<std::size_t>> ends = divider.ends();
    if (!ends) return ends.diagnostics();
    std::vector<std::vector<std::string>> files;
    std::size_t first = 0;
    for (const std::size_t last : *ends) {
        files.emplace_back();
        for (const SolvedLobe& lobe : divider.lobes(first, last).lobes)
            files.back().push_back(lobe.name);
        first = last;
    }
    return files;
}

}  // namespace lobewright
