#include "cli/ways.h"

#include "cli/result.h"

#include <lobewright/hand.h>
#include <lobewright/number_text.h>
#include <lobewright/toolpath.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

std::string length_text(double mm, Units units) {
    return fixed(mm / mm_per(units), units == Units::mm ? 4 : 5) + (units == Units::mm ? " mm" : " in");
}

void refuse(Way& way, const Diagnostics& refusals) {
    way.refusals = refusals;
    for (const Diagnostic& each : refusals) {
        if (each.severity != Severity::error) continue;
        way.message += (way.message.empty() ? "" : "; ") + each.what;
        if (!each.remedy.empty()) way.message += ": " + each.remedy;
    }
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
    const double within = job.cut->tolerance;
    std::string text = "within " + length_text(within, job.units);
    if (job.cut->allowance > 0.0) text += " of " + length_text(job.cut->allowance, job.units) + " left on";
    const long seconds = static_cast<long>(path.cycle_seconds + 0.5);
    return text + ", " + std::to_string(path.passes.size()) + " passes, " + std::to_string(blocks) +
           " blocks on the lobes, " + std::to_string(seconds / 60) + " min " + std::to_string(seconds % 60) +
           " s";
}

Way with_cutter(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& name,
                const WordGrid& grid) {
    Job one = job;
    one.cut->cutter = name;
    Way way;
    way.name = "cutter " + name + ", " + axis_text(job.machine->cutter_axis);
    way.wanted = name == job.cut->cutter;
    const Outcome<Toolpath> path = plan_toolpath(one, lobes, grid);
    way.possible = path.ok();
    if (path)
        way.message = path_text(job, *path);
    else
        refuse(way, path.diagnostics());
    return way;
}

std::string finish_text(const Job& job, const HandPlan& plan) {
    double ridge = 0.0, deepest = 0.0, proudest = 0.0;
    for (const HandFinish& finish : plan.finish) {
        ridge = std::max(ridge, finish.highest_ridge);
        deepest = std::min(deepest, finish.deepest);
        proudest = std::max(proudest, finish.proudest);
    }
    return std::to_string(plan.settings.size()) + " settings, ridges up to " + length_text(ridge, job.units) +
           ", from the design " + length_text(deepest, job.units) + " to +" +
           length_text(proudest, job.units);
}

Way by_hand(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& name) {
    Way way;
    way.name = "by hand, " + name;
    const Outcome<HandPlan> plan = plan_hand(job, lobes, name);
    way.possible = plan.ok();
    if (plan)
        way.message = finish_text(job, *plan);
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

std::string ways_text(const std::vector<Way>& ways) {
    if (ways.empty()) return {};
    std::string text = "\nWays to cut it\n";
    for (const Way& way : ways) {
        text += "  " + way.name + (way.possible ? ": possible, " : ": not possible, ") + way.message + "\n";
    }
    return text;
}

Diagnostics failures(const std::vector<Way>& ways) {
    const bool none = std::none_of(ways.begin(), ways.end(), [](const Way& way) { return way.possible; });
    Diagnostics all;
    for (const Way& way : ways) {
        if (!way.possible && (way.wanted || none)) append(all, way.refusals);
    }
    return all;
}

}  // namespace lobewright::cli
