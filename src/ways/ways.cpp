#include "base/text/angle_text.h"
#include "base/text/duration_words.h"
#include "base/text/typed_length.h"
#include "base/text/wrapped.h"
#include "job/complaint.h"

#include <lobewright/cutting_data.h>
#include <lobewright/needs.h>
#include <lobewright/program_parts.h>
#include <lobewright/ways.h>

#include <algorithm>
#include <cmath>
#include <map>

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

/// What a way's verdict stands on: where the controller takes a cut in parts, each of them must pass, too.
Outcome<ProvenProgram> program_of(const OperationWork& work, const std::vector<EarlierProgram>& earlier) {
    if (work.dialect.longest_program > 0) {
        const Outcome<std::vector<ProgramFile>> files = proven_files(work, earlier);
        if (!files) return files.diagnostics();
    }
    return proven_program(work.job, work.lobes, work.dialect, earlier);
}

/// The plan's cutting data, line by line, and what would be quicker or kinder.
std::vector<std::string> cutting_lines(const Job& job, const std::vector<SolvedLobe>& lobes,
                                       const Toolpath& path) {
    std::vector<std::string> lines = lines_of(cutting_text(job, lobes, path));
    for (const Advice& advice : cutting_advice(job, lobes, path))
        lines.push_back(advice.text);
    return lines;
}

/// The way that the job asks for keeps its program, and tells its cutting data.
void keep(Way& way, const Job& job, const std::vector<SolvedLobe>& lobes, Outcome<ProvenProgram> program) {
    if (!program) return;
    way.lines = cutting_lines(job, lobes, program->path);
    way.program = std::make_shared<const ProvenProgram>(std::move(program).value());
}

/// Passes on one lobe by a cutter that the job has but doesn't cut with, past which it isn't worth the wait:
/// a proof takes time as their square (100: a second; 500: twenty).
constexpr int most_passes_tried = 100;

/// A cutter covers no more of a lobe than its own size, and a ring takes no more than rough_depth.
int passes_at_least(const Job& job, const SolvedLobe& lobe) {
    const Cutter& cutter = job.cutters.find(job.cut->cutter)->second;
    double covers = cutter.diameter;
    if (job.machine->cutter_axis == CutterAxis::parallel)
        covers = cutter.kind == CutterKind::disc ? cutter.width : cutter.flute_length.value_or(lobe.width);
    double rings = 0.0;
    if (job.cut->rough_depth && job.shaft.blank() && !is_wheel(cutter)) {
        const double total = 0.5 * *job.shaft.blank() - lobe.base_radius - job.cut->allowance;
        rings = std::max(0.0, std::ceil(total / *job.cut->rough_depth) - 1.0);
    }
    return static_cast<int>(std::min(1e6, std::ceil(lobe.width / covers) * (rings + 1.0)));
}

int most_passes_at_least(const Job& job, const std::vector<SolvedLobe>& lobes) {
    int most = 0;
    for (const SolvedLobe& lobe : lobes)
        most = std::max(most, passes_at_least(job, lobe));
    return most;
}

/// On the lobe that takes the most.
int most_passes(const Toolpath& path) {
    std::map<std::size_t, int> passes;
    int most = 0;
    for (const Pass& pass : path.passes)
        most = std::max(most, ++passes[pass.lobe]);
    return most;
}

Diagnostic not_tried(const Job& job, int passes) {
    return refusal(job, "cutter." + job.cut->cutter, "not-tried",
                   "not tried: it would take " + std::to_string(passes) + " passes or more on a lobe",
                   "name it in [cut] if it is meant; a cutter that covers more of the lobe takes fewer");
}

/// A plan that isn't proven, for its many passes, and says so.
Outcome<ProvenProgram> plan_alone(const Job& job, Toolpath path, int passes) {
    Diagnostic warning =
        refusal(job, "cutter." + job.cut->cutter, "not-proven",
                "it takes " + std::to_string(passes) +
                    " passes on a lobe: this is its plan, which is proven where [cut] names it",
                "");
    warning.severity = Severity::warning;
    return {ProvenProgram{std::move(path), {}, {}}, {std::move(warning)}};
}

/// Of a cutter that the job only has, as far as it is worth the wait.
Outcome<ProvenProgram> program_tried(const OperationWork& work) {
    const auto& [job, lobes, left_out, dialect] = work;
    if (!unmet_needs(job, Purpose::cut).empty()) return program_of(work, {});
    const int least = most_passes_at_least(job, lobes);
    if (least > most_passes_tried) return not_tried(job, least);
    if (job.machine->cutter_axis == CutterAxis::parallel)
        return program_of(work, {});  // that was all of them
    Outcome<Toolpath> path = plan_toolpath(job, lobes, word_grid(dialect, job.units, job.cut->blend));
    const int passes = path ? most_passes(*path) : 0;
    if (passes > most_passes_tried) return plan_alone(job, std::move(path).value(), passes);
    return program_of(work, {});
}

Way with_cutter(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& name,
                const Dialect& dialect) {
    Job one = job;
    one.cut->cutter = name;
    const OperationWork work{one, lobes, {}, dialect};
    const bool wanted = name == job.cut->cutter;
    Outcome<ProvenProgram> program = wanted ? program_of(work, {}) : program_tried(work);
    Way way = way_by_machine(one, program);
    way.wanted = wanted;
    if (way.wanted) keep(way, one, lobes, std::move(program));
    return way;
}

Way with_method(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& name) {
    Outcome<HandPlan> plan = plan_hand(job, lobes, name);
    Way way = way_by_hand(job, lobes, name, plan);
    if (plan) way.plan = std::make_shared<const HandPlan>(std::move(plan).value());
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
    way.name = job.operation.empty() ? job.cut->cutter : job.operation;
    way.method = (job.operation.empty() ? std::string() : "operation " + job.operation + ": ") +
                 job.cut->cutter + ", " + axis_text(job.machine->cutter_axis);
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

void add_ways_by_hand(const Job& job, const std::vector<SolvedLobe>& lobes, std::vector<Way>& ways) {
    for (const auto& [name, method] : job.hand)
        ways.push_back(with_method(job, lobes, name));
}

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

std::vector<Way> ways_by_operations(const Job& job, const std::vector<SolvedLobe>& lobes,
                                    const std::vector<Dialect>& dialects) {
    std::vector<Way> ways;
    std::vector<EarlierProgram> earlier;
    bool all = true;  // the programs before are known; else what they leave is as the job says it
    for (const OperationWork& work : works_of(job, lobes, dialects)) {
        Outcome<ProvenProgram> program = program_of(work, all ? earlier : std::vector<EarlierProgram>{});
        ways.push_back(way_by_machine(work.job, program));
        all = all && program.ok();
        if (!program) continue;
        earlier.push_back({work.job, work.dialect, program->text});
        keep(ways.back(), work.job, work.lobes, std::move(program));
    }
    add_ways_by_hand(job, lobes, ways);
    return ways;
}

std::vector<Way> ways_to_cut(const Job& job, const std::vector<SolvedLobe>& lobes,
                             const std::optional<Dialect>& dialect) {
    std::vector<Way> ways;
    if (job.machine && job.cut && dialect) {
        for (const auto& [name, cutter] : job.cutters)
            ways.push_back(with_cutter(job, lobes, name, *dialect));
        tell_of_quicker(ways);
    }
    add_ways_by_hand(job, lobes, ways);
    return ways;
}

std::vector<const HandPlan*> plans_by_hand(const std::vector<Way>& ways) {
    std::vector<const HandPlan*> plans;
    for (const Way& way : ways) {
        if (way.plan) plans.push_back(way.plan.get());
    }
    return plans;
}

bool fails_by(const Way& way, const std::vector<Way>& ways) {
    const auto impossible = [](const Way& each) { return each.verdict == Verdict::no; };
    return impossible(way) && (way.wanted || std::all_of(ways.begin(), ways.end(), impossible));
}

}  // namespace lobewright
