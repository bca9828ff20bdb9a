#include "cli/commands.h"
#include "cli/load.h"

#include <lobewright/inspect_installed.h>
#include <lobewright/inspect_shape.h>
#include <lobewright/operations.h>

#include <map>

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

/// The hand method whose wheel is asked for.
Outcome<HandMethod> wheel_method(const Job& job, const std::string& name) {
    const Outcome<std::string> found = find_method(job, name, "inspect");
    if (!found) return found.diagnostics();
    const HandMethod& method = job.hand.at(*found);
    if (method.divisions > 0) return method;
    return Diagnostic{Fault::bad_input,
                      Severity::error,
                      "no-wheel",
                      "hand method \"" + name + "\" has no index wheel",
                      "leave --method out, and give --every DEG or angles",
                      job.place_of("hand." + name)};
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

double mm_per_reading(const Options& options, Units units) {
    static const std::map<std::string, double> known{{"mm", 1.0},
                                                     {"inch", 25.4},
                                                     {"thousandths", 0.0254},
                                                     {"hundredths", 0.01},
                                                     {"thousandths-mm", 0.001}};
    return options.readings_unit.empty() ? mm_per(units) : known.at(options.readings_unit);
}

/// Whose readings they are, as far as the command line says.
Outcome<ReadingsSubject> subject_of(const SolvedJob& solved, const Options& options) {
    ReadingsSubject subject{solved.job, solved.lobes, std::nullopt, std::nullopt};
    if (!options.lobe.empty() || solved.lobes.size() == 1) {
        const Outcome<std::size_t> index = find_lobe(solved.lobes, options.lobe, "inspect");
        if (!index) return index.diagnostics();
        subject.lobe = *index;
    }
    if (options.method.empty()) return subject;
    const Outcome<HandMethod> method = wheel_method(solved.job, options.method);
    if (!method) return method.diagnostics();
    subject.method = *method;
    return subject;
}

Outcome<std::vector<MeasuredLobe>> load_readings(const SolvedJob& solved, const Options& options,
                                                 Result& result) {
    const Outcome<ReadingsSubject> subject = subject_of(solved, options);
    if (!subject) return subject.diagnostics();
    const Outcome<std::string> text = read_data_argument(options.readings, result.inputs);
    if (!text) return text.diagnostics();
    const ReadingsFormat format{options.columns, mm_per_reading(options, solved.job.units), options.reversed};
    return read_measured(*text, name_of_argument(options.readings), format, *subject);
}

InspectRequest request_of(const Options& options, Units units) {
    InspectRequest request{options.zero_unknown, options.runout_unknown, std::nullopt};
    if (options.tolerance) request.tolerance = *options.tolerance * mm_per(units);
    return request;
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

void judge(const SolvedJob& solved, const Options& options, Result& result) {
    const auto measured = load_readings(solved, options, result);
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
void install(const SolvedJob& solved, const Options& options, Result& result) {
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
    const auto measured = load_readings(solved, options, result);
    if (!take(measured, result)) return;
    const GearSteps steps{options.teeth, options.holes};
    const auto fits = each_lobe<InstalledFit>(*measured, result, [&](const MeasuredLobe& each) {
        return fit_installed(job, lobes, each, options.zero_unknown, steps);
    });
    if (!fits.empty())
        result.text = installed_fit_text(fits, job, lobes, steps, inspect_format(options.format));
}

}  // namespace

Result inspect_command(const Options& options) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(
        options.job, result.inputs, options.installed ? std::optional(Purpose::installed) : std::nullopt);
    if (!take(solved, result)) return result;
    if (options.installed)
        install(*solved, options, result);
    else
        options.readings.empty() ? expect(*solved, options, result) : judge(*solved, options, result);
    return result;
}

}  // namespace lobewright::cli
