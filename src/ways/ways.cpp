#include "base/text/angle_text.h"
#include "base/text/duration_words.h"
#include "base/text/typed_length.h"
#include "job/complaint.h"

#include <lobewright/ways.h>

#include <algorithm>

namespace lobewright {
namespace {

bool is_error(const Diagnostic& each) {
    return each.severity == Severity::error;
}

/// The first complaint stands for those like it, which is told, and for others, too.
std::string refusal_text(const Diagnostics& refusals) {
    const Diagnostics told = told_once(refusals);
    const auto first = std::find_if(told.begin(), told.end(), is_error);
    if (first == told.end()) return {};
    const auto others = std::count_if(told.begin(), told.end(), is_error) - 1;
    return first->what + (first->remedy.empty() ? "" : ": " + first->remedy) +
           (others > 0 ? "; and " + std::to_string(others) + " more of another kind" : "");
}

/// A stage's diagnostics as findings of a way, and as its complaints.
void take(Way& way, const Diagnostics& messages) {
    for (const Diagnostic& each : told_once(messages)) {
        way.findings.push_back(finding(each.severity, each.code, {}, sentence_of(each)));
    }
    way.complaints = messages;
}

/// The findings of a plan by hand, likewise; all have the place of the method's table.
void take(Way& way, const Job& job, const Diagnostics& findings) {
    for (const Diagnostic& each : findings)
        way.findings.push_back(finding(each.severity, each.code, each.lobe, each.what, "hand." + way.name));
    way.complaints = complaints_of(job, way.findings, Severity::warning);
}

const char* axis_text(CutterAxis axis) {
    switch (axis) {
        case CutterAxis::parallel:
            return "parallel to the shaft";
        case CutterAxis::radial:
            return "radial";
        case CutterAxis::tangential:
            return "across the shaft";
    }
    return "";
}

const char* hand_kind_text(HandKind kind) {
    switch (kind) {
        case HandKind::offset_fixture:
            return "offset fixture";
        case HandKind::dividing_head:
            return "dividing head";
        case HandKind::rotary_table:
            return "rotary table";
    }
    return "";
}

std::string path_text(const Job& job, const Toolpath& path) {
    int blocks = 0;
    for (const Pass& pass : path.passes)
        blocks += pass.contour_blocks;
    std::string text = "within " + length_words(job.cut->tolerance, job.units);
    if (job.cut->allowance > 0.0) text += " of " + length_words(job.cut->allowance, job.units) + " left on";
    return text + "; " + counted(static_cast<long long>(path.passes.size()), "pass", "passes") + ", " +
           std::to_string(blocks) + " blocks along the lobes, " + duration_words(path.cycle_seconds);
}

Way with_cutter(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& name,
                const Dialect& dialect) {
    Job one = job;
    one.cut->cutter = name;
    Way way = way_by_machine(one, proven_program(one, lobes, dialect));
    way.wanted = name == job.cut->cutter;
    return way;
}

}  // namespace

const char* verdict_word(Verdict verdict) {
    switch (verdict) {
        case Verdict::yes:
            return "yes";
        case Verdict::but:
            return "but";
        case Verdict::no:
            break;
    }
    return "no";
}

Verdict verdict_of(const Diagnostics& findings) {
    const auto any = [&](Severity severity) {
        return std::any_of(findings.begin(), findings.end(),
                           [severity](const Diagnostic& finding) { return finding.severity == severity; });
    };
    if (any(Severity::error)) return Verdict::no;
    return any(Severity::warning) ? Verdict::but : Verdict::yes;
}

Diagnostics complaints_of(const Job& job, const Diagnostics& findings, Severity least) {
    Diagnostics all;
    for (const Diagnostic& finding : lobes_together(findings)) {
        if (finding.severity > least) continue;
        const std::string about = finding.lobe.empty() ? std::string() : finding.lobe + ": ";
        all.push_back(refusal(job, finding.key, finding.code, about + finding.what, ""));
        all.back().severity = finding.severity;
    }
    return all;
}

Way way_by_machine(const Job& job, const Outcome<ProvenProgram>& program) {
    Way way;
    way.kind = WayKind::machine;
    way.name = job.cut->cutter;
    way.method = way.name + ", " + axis_text(job.machine->cutter_axis);
    way.wanted = true;
    take(way, program.diagnostics());
    way.verdict = verdict_of(way.findings);
    if (!program) {
        way.summary = refusal_text(program.diagnostics());
        return way;
    }
    way.summary = path_text(job, program->path);
    way.cuts = static_cast<int>(program->path.passes.size());
    way.minutes = program->path.cycle_seconds / 60.0;
    return way;
}

Way way_by_hand(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& method,
                const Outcome<HandPlan>& plan) {
    Way way;
    way.kind = WayKind::hand;
    way.name = method;
    way.method = "hand." + method + " (" + hand_kind_text(job.hand.at(method).kind) + ")";
    if (plan) {
        take(way, job, plan->findings);
    } else {
        take(way, plan.diagnostics());
    }
    way.verdict = verdict_of(way.findings);
    way.summary = plan ? hand_summary(job, lobes, *plan) : refusal_text(plan.diagnostics());
    if (plan) way.cuts = static_cast<int>(plan->settings.size());
    if (plan && plan->fixture)
        way.minutes =
            (job.hand.at(method).travel == HandTravel::along ? plan->fixture->along : plan->fixture->plunging)
                .minutes;
    return way;
}

namespace {

/// A cutter that takes less than this share of the time is worth a word.
constexpr double much_quicker = 0.5;

/// Tells of the way that the job asks for which other cutter of the file would be much quicker.
void tell_of_quicker(std::vector<Way>& ways) {
    const Way* quickest = nullptr;
    for (const Way& way : ways) {
        if (way.verdict == Verdict::no || !way.minutes) continue;
        if (quickest == nullptr || *way.minutes < *quickest->minutes) quickest = &way;
    }
    if (quickest == nullptr) return;
    const std::string text =
        "; cutter " + quickest->name + " would do it in " + duration_words(60.0 * *quickest->minutes);
    for (Way& way : ways) {
        if (!way.wanted || !way.minutes || *quickest->minutes >= much_quicker * *way.minutes) continue;
        way.summary += text;
    }
}

}  // namespace

std::vector<Way> ways_to_cut(const Job& job, const std::vector<SolvedLobe>& lobes,
                             const std::optional<Dialect>& dialect) {
    std::vector<Way> ways;
    if (job.machine && job.cut && dialect) {
        for (const auto& [name, cutter] : job.cutters)
            ways.push_back(with_cutter(job, lobes, name, *dialect));
        tell_of_quicker(ways);
    }
    for (const auto& [name, method] : job.hand)
        ways.push_back(way_by_hand(job, lobes, name, plan_hand(job, lobes, name)));
    return ways;
}

bool fails_by(const Way& way, const std::vector<Way>& ways) {
    const auto impossible = [](const Way& each) { return each.verdict == Verdict::no; };
    return impossible(way) && (way.wanted || std::all_of(ways.begin(), ways.end(), impossible));
}

}  // namespace lobewright
