#include "base/text/length_text.h"
#include "post/program/program_header.h"

#include <lobewright/chosen_lobes.h>
#include <lobewright/corrected_work.h>
#include <lobewright/number_text.h>
#include <lobewright/program_writer.h>
#include <lobewright/surface_left.h>

#include <algorithm>

namespace lobewright {
namespace {

/// Of the tolerance: the rest is for what the readings leave uncertain.
constexpr double share_of_program = 0.5;

std::string comes_again_note(double share) {
    if (share >= 1.0)
        return "ASSUMED: the next cut errs as the last one did, as a cutter's wrong size makes it. Where it "
               "was the spring of a deep cut this one goes too deep: --again 0 is for that";
    if (share <= 0.0)
        return "ASSUMED: a lighter cut doesn't err as the last one did, which sprang away. Where the "
               "cutter's "
               "size is wrong as much stays on: measure again";
    return "ASSUMED: of the last cut's error " + shortest_fixed(share, 3) + " comes again";
}

std::vector<std::string> notes_of(const Job& job, const CorrectionRequest& request,
                                  const std::string& readings, const std::vector<SolvedLobe>& lobes) {
    std::string names;
    for (const SolvedLobe& lobe : lobes)
        names += (names.empty() ? "" : ", ") + lobe.name;
    return {"CORRECTION: takes off what the readings in " + post::file_name(readings) + " say is left on " +
                names + ", at most " + own_figure(request.most, job.units) +
                " below the design, where it stands proud",
            comes_again_note(request.comes_again),
            "ASSUMED: the shaft stands as for the first cut, with the same zeros and the same tool. A phase "
            "error of the readings is the measuring's own, and stays",
            "PROVEN against the corrected contour, to half of the tolerance; the other half is for what the "
            "readings don't tell. To prove it again give prove the same --correct and --most"};
}

Diagnostic nothing_left(const std::string& readings) {
    return {Fault::check_failed,
            Severity::error,
            "nothing-left",
            "by the readings no lobe stands proud of the design by more than the tolerance: there is nothing "
            "to take off",
            "leave it as it is",
            {readings}};
}

/// The job for the aims: no roughing, from what the readings say stands there.
Job job_of_aims(Job job, const std::vector<LobeCorrection>& corrections) {
    double standing = 0.0;
    for (const LobeCorrection& each : corrections)
        if (each.cut) standing = std::max(standing, each.standing);
    job.stock = Stock{};
    job.stock.left_on = standing;
    job.cut->tolerance *= share_of_program;
    job.cut->rough_depth.reset();
    return job;
}

/// What the job's own program leaves by itself.
Outcome<std::vector<SurfaceLeft>> left_by_first(const Job& job, const std::vector<SolvedLobe>& lobes,
                                                const Dialect& dialect) {
    const Outcome<Toolpath> path = plan_toolpath(job, lobes, word_grid(dialect, job.units, job.cut->blend));
    if (!path) return path.diagnostics();
    const Outcome<std::string> text = write_program(job, lobes, *path, dialect);
    if (!text) return text.diagnostics();
    return surface_left(job, lobes, dialect, *text, "the program for " + job.file, programmed_rays);
}

}  // namespace

Outcome<CorrectedWork> corrected_work(const Job& job, const std::vector<SolvedLobe>& lobes,
                                      const std::vector<MeasuredLobe>& measured,
                                      const CorrectionRequest& request, const Dialect& dialect,
                                      const std::string& readings) {
    CorrectionRequest whole = request;
    const auto programmed = left_by_first(job, lobes, dialect);
    if (!programmed) return programmed.diagnostics();
    whole.programmed = *programmed;
    CorrectedWork work;
    Diagnostics messages;
    std::vector<SolvedLobe> aims = lobes;
    std::vector<std::string> names;
    for (const MeasuredLobe& each : measured) {
        auto found = lobe_correction(job, lobes, each, whole);
        const Diagnostics more = found ? correction_warnings(job, *found) : found.diagnostics();
        messages.insert(messages.end(), more.begin(), more.end());
        if (!found) continue;
        if (found->cut) names.push_back(found->aim.name), aims[each.lobe] = found->aim;
        work.corrections.push_back(std::move(found).value());
    }
    if (has_errors(messages)) return messages;
    if (names.empty()) {
        messages.push_back(nothing_left(readings));
        return messages;
    }
    ChosenLobes chosen = chosen_lobes(job, aims, names);
    work.job = job_of_aims(std::move(chosen.job), work.corrections);
    work.lobes = std::move(chosen.lobes);
    work.notes = notes_of(job, request, readings, work.lobes);
    return {std::move(work), std::move(messages)};
}

Outcome<ProvenProgram> proven_correction(const CorrectedWork& work, const Dialect& dialect) {
    const auto& [job, lobes, corrections, notes] = work;
    Outcome<Toolpath> path = plan_toolpath(job, lobes, word_grid(dialect, job.units, job.cut->blend));
    if (!path) return path.diagnostics();
    Outcome<std::string> text =
        write_program(job, lobes, *path, dialect, {1, 1, notes, "the corrected contour"});
    if (!text) return text.diagnostics();
    const std::string file = "the correction for " + job.file;
    Outcome<ProofReport> report = prove(job, lobes, dialect, *text, file);
    if (!report) return report.diagnostics();
    Diagnostics messages = path.diagnostics();
    const auto append = [&](const Diagnostics& more) {
        messages.insert(messages.end(), more.begin(), more.end());
    };
    append(text.diagnostics());
    append(fitness(job, *report, file, "nothing is written that fails its own proof; change the job"));
    if (has_errors(messages)) return messages;
    return {ProvenProgram{std::move(path).value(), std::move(text).value(), std::move(report).value()},
            std::move(messages)};
}

}  // namespace lobewright
