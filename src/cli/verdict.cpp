#include "cli/verdict.h"

#include "job/typed_length.h"

namespace lobewright::cli {

Diagnostics verdict(const Job& job, const ProofReport& report, const std::string& file,
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
    for (const ProofFinding& finding : report.findings) {
        if (finding.severity == Severity::error)
            tell(Severity::error, finding.code, finding.message, finding.line);
    }
    if (!report.within_tolerance && messages.empty()) {
        tell(Severity::error, "out-of-tolerance",
             "the program does not cut the lobes within " + length_words(report.tolerance, job.units), 0);
    }
    for (const ProofFinding& finding : report.findings) {
        if (finding.severity == Severity::warning)
            tell(Severity::warning, finding.code, finding.message, finding.line);
    }
    return messages;
}

}  // namespace lobewright::cli
