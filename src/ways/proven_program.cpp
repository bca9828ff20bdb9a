#include "base/append_diagnostics.h"
#include "base/text/typed_length.h"

#include <lobewright/needs.h>
#include <lobewright/program_writer.h>
#include <lobewright/proven_program.h>

namespace lobewright {
Outcome<ProvenProgram> proven_program(const Job& job, const std::vector<SolvedLobe>& lobes,
                                      const Dialect& dialect, const std::vector<EarlierProgram>& earlier,
                                      const ProgramPart& part) {
    if (Diagnostics unmet = unmet_needs(job, Purpose::cut); !unmet.empty()) return unmet;
    Outcome<Toolpath> path = plan_toolpath(job, lobes, word_grid(dialect, job.units, job.cut->blend));
    if (!path) return path.diagnostics();
    Outcome<std::string> text = write_program(job, lobes, *path, dialect, part);
    if (!text) return text.diagnostics();
    const std::string of = job.operation.empty() ? std::string() : "operation " + job.operation + " of ";
    const std::string file = "the program for " + of + job.file;
    Outcome<ProofReport> report = prove(job, lobes, dialect, *text, file, earlier);
    if (!report) return report.diagnostics();
    Diagnostics messages = path.diagnostics();
    append(messages, text.diagnostics());
    append(messages,
           fitness(job, *report, file, "nothing is written that fails its own proof; change the job"));
    if (has_errors(messages)) return messages;
    return {ProvenProgram{std::move(path).value(), std::move(text).value(), std::move(report).value()},
            std::move(messages)};
}

Diagnostics fitness(const Job& job, const ProofReport& report, const std::string& file,
                    const std::string& remedy) {
    Diagnostics messages;
    const auto tell = [&](Severity severity, const std::string& code, const std::string& what, int line) {
        messages.push_back({Fault::check_failed,
                            severity,
                            code,
                            what,
                            severity == Severity::error ? remedy : "",
                            {file, line}});
    };
    for (const Diagnostic& finding : report.findings) {
        if (finding.severity == Severity::error)
            tell(Severity::error, finding.code, finding.what, finding.place.line);
    }
    if (!report.within_tolerance && messages.empty()) {
        tell(Severity::error, "out-of-tolerance",
             "the program does not cut the lobes within " + own_figure(report.tolerance, job.units), 0);
    }
    for (const Diagnostic& finding : report.findings) {
        if (finding.severity == Severity::warning)
            tell(Severity::warning, finding.code, finding.what, finding.place.line);
    }
    return messages;
}

}  // namespace lobewright
