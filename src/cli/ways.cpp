#include "cli/ways.h"

#include "base/duration_words.h"
#include "cli/result.h"
#include "job/typed_length.h"

#include <lobewright/hand.h>
#include <lobewright/toolpath.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

/// The first complaint stands for all, which are often the same lobe after lobe; how many more there are is
/// told.
void refuse(Way& way, const Diagnostics& refusals) {
    way.refusals = refusals;
    const auto is_error = [](const Diagnostic& each) { return each.severity == Severity::error; };
    const auto first = std::find_if(refusals.begin(), refusals.end(), is_error);
    if (first == refusals.end()) return;
    way.line.message = first->what + (first->remedy.empty() ? "" : ": " + first->remedy);
    const auto more = std::count_if(refusals.begin(), refusals.end(), is_error) - 1;
    if (more > 0) way.line.message += " (and " + std::to_string(more) + " more like it)";
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

std::string path_text(const Job& job, const Toolpath& path) {
    int blocks = 0;
    for (const Pass& pass : path.passes)
        blocks += pass.contour_blocks;
    std::string text = "within " + length_words(job.cut->tolerance, job.units);
    if (job.cut->allowance > 0.0) text += " of " + length_words(job.cut->allowance, job.units) + " left on";
    return text + "; " + std::to_string(path.passes.size()) +
           (path.passes.size() == 1 ? " pass, " : " passes, ") + std::to_string(blocks) +
           " blocks along the lobes, " + duration_words(path.cycle_seconds);
}

Way with_cutter(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& name,
                const WordGrid& grid) {
    Job one = job;
    one.cut->cutter = name;
    Way way;
    way.line.method = name + ", " + axis_text(job.machine->cutter_axis);
    way.wanted = name == job.cut->cutter;
    const Outcome<Toolpath> path = plan_toolpath(one, lobes, grid);
    way.line.possible = path.ok();
    if (path)
        way.line.message = path_text(job, *path);
    else
        refuse(way, path.diagnostics());
    return way;
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

Way by_hand(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& name) {
    Way way;
    way.line.method = "hand." + name + " (" + hand_kind_text(job.hand.find(name)->second.kind) + ")";
    const Outcome<HandPlan> plan = plan_hand(job, lobes, name);
    way.line.possible = plan.ok();
    if (plan)
        way.line.message = hand_summary(job, lobes, *plan);
    else
        refuse(way, plan.diagnostics());
    return way;
}

}  // namespace

std::vector<Way> ways_to_cut(const Job& job, const std::vector<SolvedLobe>& lobes,
                             const std::optional<WordGrid>& grid) {
    std::vector<Way> ways;
    if (job.machine && job.cut && grid) {
        for (const auto& [name, cutter] : job.cutters)
            ways.push_back(with_cutter(job, lobes, name, *grid));
    }
    for (const auto& [name, method] : job.hand)
        ways.push_back(by_hand(job, lobes, name));
    return ways;
}

Diagnostics failures(const std::vector<Way>& ways) {
    const bool none =
        std::none_of(ways.begin(), ways.end(), [](const Way& way) { return way.line.possible; });
    Diagnostics all;
    for (const Way& way : ways) {
        if (!way.line.possible && (way.wanted || none)) append(all, way.refusals);
    }
    return all;
}

}  // namespace lobewright::cli
