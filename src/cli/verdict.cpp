#include "cli/verdict.h"

#include <lobewright/number_text.h>

namespace lobewright::cli {

Diagnostics verdict(const Job& job, const ProofReport& report, const std::string& file) {
    Diagnostics complaints;
    for (const ProofFinding& finding : report.findings) {
        if (finding.severity != Severity::error) continue;
        complaints.push_back({Fault::check_failed,
                              Severity::error,
                              finding.code,
                              finding.message,
                              "mend the program there, or cut it anew",
                              {file, finding.line}});
    }
    if (report.within_tolerance || !complaints.empty()) return complaints;
    const double unit = mm_per(job.units);
    const std::string tolerance = fixed(report.tolerance / unit, job.units == Units::mm ? 4 : 5);
    complaints.push_back({Fault::check_failed,
                          Severity::error,
                          "out-of-tolerance",
                          "the program does not cut the lobes within " + tolerance,
                          "see the report, lobe by lobe",
                          {file}});
    return complaints;
}

}  // namespace lobewright::cli
