#include "sheet/page/page_sections.h"

#include "base/text/angle_text.h"
#include "base/text/duration_words.h"
#include "base/text/length_text.h"
#include "hand/wording/part_names.h"

#include <lobewright/drawing.h>
#include <lobewright/number_text.h>
#include <lobewright/timing.h>

#include <algorithm>

namespace lobewright::sheet {
namespace {

std::string figure(const std::optional<double>& mm, Units units) {
    return mm ? fixed_length(*mm, units, {3, 4}) : "";
}
std::string degrees(double value) {
    return short_degrees(value, 2) + "°";
}

/// Lobes of one profile and one follower together.
std::vector<std::vector<std::size_t>> alike(const PageView& page) {
    std::vector<std::vector<std::size_t>> groups;
    const auto entry_of = [&](std::size_t lobe) -> const LobeEntry& {
        return page.job.lobes[page.lobes[lobe].entry];
    };
    for (std::size_t i = 0; i < page.lobes.size(); ++i) {
        const auto group = std::find_if(groups.begin(), groups.end(), [&](const auto& each) {
            const LobeEntry& first = entry_of(each.front());
            return first.profile == entry_of(i).profile && first.follower == entry_of(i).follower;
        });
        if (group == groups.end())
            groups.push_back({i});
        else
            group->push_back(i);
    }
    return groups;
}

std::string names_of(const PageView& page, const std::vector<std::size_t>& group) {
    std::string names;
    for (const std::size_t each : group)
        names += (names.empty() ? "" : ", ") + page.lobes[each].name;
    return names;
}

/// "mark 12", "3 turns, 7 holes of 18", "40.5°".
std::string setting_words(const HandSetting& setting) {
    if (setting.mark) return "mark " + shortest_fixed(*setting.mark, 3);
    if (setting.circle) {
        return counted(*setting.turns, "turn") + ", " + counted(*setting.hole, "hole") + " of " +
               std::to_string(*setting.circle);
    }
    return degrees(setting.turned->degrees());
}

void put_settings(const PageView& page, const HandPlan& plan) {
    std::vector<std::vector<std::string>> rows;
    for (const HandSetting& setting : plan.settings) {
        rows.push_back({std::to_string(setting.order), setting_words(setting), page.lobes[setting.lobe].name,
                        hand::part_name(setting.part), figure(setting.start, page.job.units),
                        figure(setting.finish, page.job.units), std::to_string(setting.passes)});
    }
    page.html.table("settings of hand." + plan.method,
                    {"cut", "set to", "lobe", "part", "start", "finish", "passes"}, rows);
}

}  // namespace

void put_cautions(const PageView& page) {
    page.html.raw("<aside class=\"caution\" role=\"note\">\n<h2>Before you start</h2>\n");
    page.html.list(
        {"This work can hurt you. The machine's manual, local rules and trained practice come before all "
         "that "
         "stands here.",
         "Run every program above the part first, with a hand on the stop. Guard the cutter, clear the chips "
         "with "
         "the machine stopped, wear glasses.",
         "What is proven here is geometry: clamps, backlash and a wrongly set zero are yours to check. "
         "Measure "
         "the first lobe before you cut the next."});
    page.html.raw("</aside>\n");
}

void put_shaft(const PageView& page) {
    page.html.section("shaft", "The shaft");
    page.html.drawing("the shaft", svg_text(shaft_drawing(page.job, page.lobes)));
    page.html.end_section();
}

void put_timing(const PageView& page) {
    std::vector<std::vector<std::string>> rows;
    for (const SolvedLobe& lobe : page.lobes) {
        const auto events = valve_events(page.job, lobe);
        if (!events) continue;
        const bool inlet = page.job.lobes[lobe.entry].valve == Valve::inlet;
        rows.push_back({lobe.name, degrees(full_circle_degrees(lobe.at)),
                        degrees(events->opens.degrees()) + (inlet ? " before TDC" : " before BDC"),
                        degrees(events->closes.degrees()) + (inlet ? " after BDC" : " after TDC"),
                        degrees(events->duration.degrees()),
                        degrees(events->centre.degrees()) + (inlet ? " after TDC" : " before TDC")});
    }
    if (rows.empty()) return;
    page.html.section("timing", "Valve timing");
    page.html.table("valve timing", {"lobe", "nose at", "opens", "closes", "open for", "centre"}, rows);
    page.html.paragraph(
        "Nose: degrees of the shaft from its datum, counter-clockwise seen from the drive end. The rest: "
        "degrees "
        "of the crankshaft, at the valve's clearance.");
    page.html.end_section();
}

void put_ways(const PageView& page) {
    std::vector<std::vector<std::string>> rows;
    for (const Way& way : page.parts.ways)
        rows.push_back({verdict_word(way.verdict), way.method, way.summary});
    if (rows.empty()) return;
    page.html.section("ways", "How it can be cut");
    page.html.table("ways to cut", {"can be", "with", "what that leaves"}, rows);
    page.html.end_section();
}

void put_lobes(const PageView& page) {
    page.html.section("lobes", "The lobes");
    for (const auto& group : alike(page)) {
        const SolvedLobe& lobe = page.lobes[group.front()];
        page.html.heading(names_of(page, group));
        page.html.drawing("lobe " + lobe.name, svg_text(lobe_drawing(page.job, lobe)));
        page.html.place("readout", group.front());
        page.html.drawing("motion of " + lobe.name, svg_text(motion_drawing(page.job, lobe)));
    }
    page.html.end_section();
}

void put_by_hand(const PageView& page) {
    const auto plans = plans_by_hand(page.parts.ways);
    if (plans.empty()) return;
    page.html.section("by-hand", "By hand");
    for (std::size_t i = 0; i < plans.size(); ++i) {
        const HandPlan& plan = *plans[i];
        page.html.heading("hand." + plan.method);
        page.html.paragraph(hand_summary(page.job, page.lobes, plan));
        page.html.place("bench", i);
        page.html.folded("All settings");
        put_settings(page, plan);
        page.html.end_folded();
    }
    page.html.end_section();
}

void put_program(const PageView& page) {
    if (!page.parts.program) return;
    const SheetProgram& program = *page.parts.program;
    const Units units = page.job.units;
    page.html.section("program", "The program");
    page.html.paragraph(program.name + ": " + counted(program.proof.blocks, "block") + ", " +
                        duration_words(program.proof.cycle_seconds) + "; " +
                        (program.proof.within_tolerance ? "within" : "NOT within") + " the tolerance of " +
                        length_words(program.proof.tolerance, units) + " by its own text");
    std::vector<std::vector<std::string>> rows;
    for (const LobeVerdict& lobe : program.proof.lobes) {
        rows.push_back(
            {lobe.name, lobe.within ? "yes" : "no", fixed_length(lobe.deepest.along_normal, units, {4, 5}),
             std::to_string(lobe.deepest.line), fixed_length(lobe.proudest.along_normal, units, {4, 5}),
             std::to_string(lobe.proudest.line)});
    }
    page.html.table("what the program leaves",
                    {"lobe", "within", "deepest", "in line", "proudest", "in line"}, rows);
    page.html.place("backplot", 0);
    if (program.read.moves.size() > most_moves_shown)
        page.html.paragraph("The program is long: of its " + std::to_string(program.read.moves.size()) +
                            " moves the plot shows one in " +
                            std::to_string(program.read.moves.size() / most_moves_shown + 1) +
                            " along the lobes, with the lines of those. The proof is of all of them.");
    page.html.end_section();
}

void put_findings(const PageView& page) {
    std::vector<std::string> all;
    const auto add = [&](const Diagnostics& findings, const std::string& about) {
        for (const Diagnostic& each : lobes_together(findings))
            all.push_back(severity_word(each.severity) + ": " +
                          (each.lobe.empty() ? about : each.lobe + ": ") + sentence_of(each));
    };
    add(page.parts.report.findings, "");
    for (const Way& way : page.parts.ways)
        add(way.complaints, way.name + ": ");
    if (page.parts.program) {
        for (const Diagnostic& each : told_once(page.parts.program->proof.findings))
            all.push_back(std::string(severity_word(each.severity)) + ": the program" +
                          (each.place.line > 0 ? ", line " + std::to_string(each.place.line) : "") + ": " +
                          sentence_of(each));
    }
    if (all.empty()) return;
    page.html.section("findings", "To mind");
    page.html.list(all);
    page.html.end_section();
}

}  // namespace lobewright::sheet
