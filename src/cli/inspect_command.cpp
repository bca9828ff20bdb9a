#include "cli/commands.h"
#include "cli/load.h"
#include "cli/load_readings.h"

#include <lobewright/inspect_installed.h>
#include <lobewright/inspect_shape.h>
#include <lobewright/operations.h>

namespace lobewright::cli {
namespace {

InspectFormat inspect_format(TextFormat format) {
    switch (format) {
        case TextFormat::csv:
            return InspectFormat::csv;
        case TextFormat::json:
            return InspectFormat::json;
        case TextFormat::markdown:
            return InspectFormat::markdown;
        case TextFormat::text:
            return InspectFormat::text;
    }
    return InspectFormat::csv;
}

Outcome<ExpectedReadings> expectation(const Job& job, const SolvedLobe& lobe, const Options& options) {
    const Probe probe = job.probe.value_or(Probe{});
    if (options.method.empty()) return expected_readings(lobe, probe, options.every);
    const Outcome<HandMethod> method = wheel_method(job, options.method);
    if (!method) return method.diagnostics();
    return expected_at_marks(lobe, probe, *method);
}

void expect(const SolvedJob& solved, const Options& options, Result& result) {
    const auto& [job, lobes] = solved;
    const Outcome<std::size_t> index = find_lobe(lobes, options.lobe, "inspect");
    if (!take(index, result)) return;
    const Outcome<ExpectedReadings> expected = expectation(job, lobes[*index], options);
    if (!take(expected, result)) return;
    result.text = expected_text(*expected, lobes[*index], job.units, finished_tolerance(job),
                                inspect_format(options.format));
}

/// Does `work` on each lobe's readings; nothing where one of them failed.
template <class T, class Work>
std::vector<T> each_lobe(const std::vector<MeasuredLobe>& measured, Result& result, const Work& work) {
    std::vector<T> all;
    for (const MeasuredLobe& each : measured) {
        Outcome<T> found = work(each);
        if (take(found, result)) all.push_back(std::move(found).value());
    }
    if (all.size() != measured.size()) all.clear();
    return all;
}

Diagnostic one_lobe_alone(const Options& options) {
    return {Fault::bad_input,   Severity::error,
            "missing-argument", "the readings are of several lobes: --fit " + options.fit + " wants one",
            "add --lobe NAME",  {"lobewright"}};
}

void write_profile(const SolvedJob& solved, const MeasuredLobe& measured, const Options& options,
                   Result& result) {
    const auto& [job, lobes] = solved;
    const SolvedLobe& lobe = lobes[measured.lobe];
    const InspectRequest request = request_of(options, job.units);
    if (options.fit == "table") {
        const auto table = fit_table_profile(job, lobes, measured, request);
        if (take(table, result))
            result.text = options.json ? table_json(*table, lobe, job.units)
                                       : table_profile_text(*table, lobe, job.units);
        return;
    }
    const auto arcs = fit_arcs(job, lobes, measured, request);
    if (take(arcs, result))
        result.text =
            options.json ? arcs_json(*arcs, lobe, job.units) : arcs_profile_text(*arcs, lobe, job.units);
}

void judge(const SolvedJob& solved, const Options& options, Inputs& inputs, Result& result) {
    const auto measured = load_readings(solved, options.lobe, options, inputs);
    if (!take(measured, result)) return;
    if (!options.fit.empty()) {
        if (measured->size() > 1) return result.messages.push_back(one_lobe_alone(options));
        return write_profile(solved, measured->front(), options, result);
    }
    const InspectRequest request = request_of(options, solved.job.units);
    const auto found = each_lobe<LobeInspection>(*measured, result, [&](const MeasuredLobe& each) {
        return inspect_lobe(solved.job, solved.lobes, each, request);
    });
    for (const LobeInspection& each : found)
        append(result.messages, each.findings);
    if (!found.empty())
        result.text = inspection_text(solved.job, solved.lobes, found, inspect_format(options.format));
}

/// In the engine: what to read, or what was read.
void install(const SolvedJob& solved, const Options& options, Inputs& inputs, Result& result) {
    const Job& job = solved.job;
    const std::vector<SolvedLobe>& lobes = solved.lobes;
    if (options.readings.empty()) {
        const Outcome<std::size_t> index = find_lobe(lobes, options.lobe, "inspect");
        if (!take(index, result)) return;
        const CrankAngle every = CrankAngle::from_degrees(options.every.degrees());
        const SolvedLobe& lobe = lobes[*index];
        result.text =
            installed_text(installed_lift(job, lobe, every), job, lobe, inspect_format(options.format));
        return;
    }
    const auto measured = load_readings(solved, options.lobe, options, inputs);
    if (!take(measured, result)) return;
    const GearSteps steps{options.teeth, options.holes};
    const auto fits = each_lobe<InstalledFit>(*measured, result, [&](const MeasuredLobe& each) {
        return fit_installed(job, lobes, each, options.zero_unknown, steps);
    });
    if (!fits.empty())
        result.text = installed_fit_text(fits, job, lobes, steps, inspect_format(options.format));
}

}  // namespace

Result inspect_command(const Options& options, Inputs& inputs) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(
        options.job, inputs, options.installed ? std::optional(Purpose::installed) : std::nullopt);
    if (!take(solved, result)) return result;
    if (options.installed)
        install(*solved, options, inputs, result);
    else
        options.readings.empty() ? expect(*solved, options, result) : judge(*solved, options, inputs, result);
    return result;
}

}  // namespace lobewright::cli
