#include "cli/load_readings.h"

#include <map>

namespace lobewright::cli {
namespace {

double mm_per_reading(const Options& options, Units units) {
    static const std::map<std::string, double> known{{"mm", 1.0},
                                                     {"inch", 25.4},
                                                     {"thousandths", 0.0254},
                                                     {"hundredths", 0.01},
                                                     {"thousandths-mm", 0.001}};
    return options.readings_unit.empty() ? mm_per(units) : known.at(options.readings_unit);
}

std::string command_name(Command command) {
    switch (command) {
        case Command::cut:
            return "cut";
        case Command::prove:
            return "prove";
        case Command::sheet:
            return "sheet";
        default:
            return "inspect";
    }
}

/// Whose readings they are, as far as the command line says.
Outcome<ReadingsSubject> subject_of(const SolvedJob& solved, const std::string& lobe,
                                    const Options& options) {
    ReadingsSubject subject{solved.job, solved.lobes, std::nullopt, std::nullopt};
    if (!lobe.empty() || solved.lobes.size() == 1) {
        const Outcome<std::size_t> index = find_lobe(solved.lobes, lobe, command_name(options.command));
        if (!index) return index.diagnostics();
        subject.lobe = *index;
    }
    if (options.method.empty()) return subject;
    const Outcome<HandMethod> method = wheel_method(solved.job, options.method);
    if (!method) return method.diagnostics();
    subject.method = *method;
    return subject;
}

}  // namespace

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

Outcome<std::vector<MeasuredLobe>> load_readings(const SolvedJob& solved, const std::string& lobe,
                                                 const Options& options, Inputs& inputs) {
    const Outcome<ReadingsSubject> subject = subject_of(solved, lobe, options);
    if (!subject) return subject.diagnostics();
    const Outcome<std::string> text = read_data_argument(options.readings, inputs);
    if (!text) return text.diagnostics();
    const ReadingsFormat format{options.columns, mm_per_reading(options, solved.job.units), options.reversed};
    return read_measured(*text, name_of_argument(options.readings), format, *subject);
}

InspectRequest request_of(const Options& options, Units units) {
    InspectRequest request{options.zero_unknown, options.runout_unknown, std::nullopt};
    if (options.tolerance) request.tolerance = *options.tolerance * mm_per(units);
    return request;
}

std::vector<LobeInspection> load_inspections(const SolvedJob& solved, const Options& options, Inputs& inputs,
                                             Result& result) {
    std::vector<LobeInspection> all;
    if (options.readings.empty()) return all;
    const auto measured = load_readings(solved, "", options, inputs);
    if (!take(measured, result)) return all;
    InspectRequest request = request_of(options, solved.job.units);
    if (solved.job.cut) request.tolerance = solved.job.cut->tolerance;
    for (const MeasuredLobe& each : *measured) {
        Outcome<LobeInspection> found = inspect_lobe(solved.job, solved.lobes, each, request);
        if (!take(found, result)) continue;
        for (const Diagnostic& doubt : found->findings)
            if (doubt.severity == Severity::warning) result.messages.push_back(doubt);
        all.push_back(std::move(found).value());
    }
    return all;
}

}  // namespace lobewright::cli
