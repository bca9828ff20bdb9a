#include "base/text/json_text.h"
#include "base/text/wrapped.h"
#include "profile/judge/report_members.h"

#include <lobewright/ways.h>

namespace lobewright {
namespace {

/// What a way is possible with: its warnings.
Diagnostics warnings_of(const Way& way) {
    Diagnostics warnings;
    for (const Diagnostic& finding : lobes_together(way.findings)) {
        if (finding.severity == Severity::warning) warnings.push_back(finding);
    }
    return warnings;
}

std::string way_text(const Way& way) {
    std::string verdict = verdict_word(way.verdict);
    verdict.resize(5, ' ');
    std::string text = report_lines(verdict + way.method + ": " + way.summary, 5);
    for (const std::string& line : way.lines)
        text += line.size() > 90 ? report_lines("     " + line, 7) : "     " + line + '\n';
    if (way.verdict != Verdict::but) return text;
    for (const Diagnostic& warning : warnings_of(way)) {
        const std::string about = warning.lobe.empty() ? std::string() : warning.lobe + ": ";
        text += report_lines("     " + about + warning.what, 7);
    }
    return text;
}

void put_way(JsonText& json, const Way& way) {
    json.object({}, JsonText::Layout::one_line)
        .member("name", way.name)
        .member("kind", way.kind == WayKind::machine ? "machine" : "hand")
        .member("verdict", verdict_word(way.verdict))
        .member("cuts", way.cuts)
        .member("minutes", way.minutes)
        .member("method", way.method)
        .member("message", way.summary)
        .end();
}

void put_finding_of(JsonText& json, const Diagnostic& finding, const std::optional<std::string>& way) {
    json.object({}, JsonText::Layout::one_line);
    profile::put_finding(json, finding);
    json.member("way", way).end();
}

/// An error of a way that the job doesn't fail by is a warning of the job's.
void put_findings(JsonText& json, const Way& way, const std::vector<Way>& ways) {
    for (Diagnostic finding : lobes_together(way.findings)) {
        if (finding.severity == Severity::note) continue;
        if (!fails_by(way, ways)) finding.severity = Severity::warning;
        put_finding_of(json, finding, way.name);
    }
}

}  // namespace

std::string check_text(const Job& job, const JobReport& report, const std::vector<Way>& ways) {
    std::string text = report_text(job, report);
    if (!ways.empty()) text += "\nhow it can be cut\n";
    for (const Way& way : ways)
        text += way_text(way);
    return text;
}

std::string check_json(const Job& job, const JobReport& report, const std::vector<Way>& ways) {
    JsonText json;
    json.object();
    profile::put_report(json, job, report);
    json.array("ways");
    for (const Way& way : ways)
        put_way(json, way);
    json.end().array("findings");
    for (const Diagnostic& finding : report.findings)
        put_finding_of(json, finding, std::nullopt);
    for (const Way& way : ways)
        put_findings(json, way, ways);
    json.end().end();
    return json.text();
}

}  // namespace lobewright
