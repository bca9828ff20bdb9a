#include "hand/sheet/hand_sheet.h"

#include "hand/sheet/pages.h"
#include "hand/sheet/sheet_parts.h"

#include <lobewright/number_text.h>

#include <algorithm>

namespace lobewright::hand {
namespace {

Sense other(Sense sense) {
    return sense == Sense::ccw ? Sense::cw : Sense::ccw;
}

std::string method_words(HandKind kind) {
    switch (kind) {
        case HandKind::offset_fixture:
            return "offset fixture";
        case HandKind::dividing_head:
            return "dividing head";
        case HandKind::rotary_table:
            return "rotary table";
    }
    return {};
}

/// Which way to turn for a higher number, and what 0 means.
void tell_index(const Sheet& sheet, Route& route) {
    const HandMethod& method = sheet.method;
    const std::string zero = "the shaft's direction of " + short_degrees(full_circle_degrees(method.zero)) +
                             "° (from its datum, counter-clockwise) ";
    const std::string higher = "For a higher one turn the shaft " + sense_words(other(method.counts)) + ". ";
    if (!sheet.marks) {
        route.bullet("Angles of the " + method_words(method.kind) + " grow " + sense_words(method.counts) +
                     " round the shaft. " + higher + "At zero, " + zero + "faces the cutter.");
        return;
    }
    route.bullet("Marks on a wheel that turns with the shaft grow " + sense_words(method.counts) +
                 "; on a fixed wheel with a pointer that turns with the shaft, " +
                 sense_words(other(method.counts)) + ". " + higher + "At mark 0, " + zero +
                 "points straight out from the lathe's axis.");
}

void tell_dial(const Sheet& sheet, Route& route) {
    const HandMethod& method = sheet.method;
    const std::string reads = method.dial == DialReading::diameter ? "twice the distance" : "the distance";
    route.bullet(
        "The dial reads " + reads + " of the tool's point from the lathe's axis" +
        (method.dial_zero == 0.0 ? "" : ", and " + sheet.figure(method.dial_zero) + " on that axis") +
        "; it falls as the tool goes in.");
}

void tell_depths(const Sheet& sheet, Route& route) {
    const std::string to = sheet.plan.facets->cutter_radius
                               ? "the cutter's centre; the cutter has a radius of " +
                                     sheet.figure(*sheet.plan.facets->cutter_radius)
                               : std::string("the flat that the end of the cutter leaves");
    switch (sheet.method.dial) {
        case DialReading::radius:
            return route.bullet("Depths are from the shaft's axis to " + to + ".");
        case DialReading::diameter:
            return route.bullet("Depths are twice the distance from the shaft's axis to " + to + ".");
        case DialReading::depth:
            return route.bullet(
                "Depths are how far the work has come up since the cutter just touched the "
                "bar, where the dial is set to 0.");
    }
}

void tell_senses(const Sheet& sheet, Route& route) {
    route.bullet(std::string("All lengths in ") + units_noun(sheet.job.units) +
                 ", all angles in degrees. Everything round the shaft is seen from its drive end.");
    tell_index(sheet, route);
    sheet.marks ? tell_dial(sheet, route) : tell_depths(sheet, route);
    if (sheet.method.allowance > 0.0)
        route.bullet("Every depth leaves the allowance of " + sheet.figure(sheet.method.allowance) +
                     " on, along the normal: " + sheet.figure(2.0 * sheet.method.allowance) +
                     " on a diameter.");
}

void put_finish(const Sheet& sheet, Route& route) {
    MarkdownTable table({"Lobe", "ridges", "proudest", "deepest", "opens late", "closes late"});
    const auto crank = [](const HandFinish& finish, CrankAngle late) {
        if (!finish.valve_opens) return std::string("never opens");
        return finish.valve_shuts ? fixed(late.degrees(), 1) + "°" : "never shuts";
    };
    for (const HandFinish& finish : sheet.plan.finish)
        table.row({sheet.name(finish.lobe), sheet.figure(finish.highest_ridge), sheet.figure(finish.proudest),
                   sheet.figure(finish.deepest), crank(finish, finish.opens_late),
                   crank(finish, finish.closes_late)});
    route.heading("What the cuts leave, against the design");
    const std::string basis = sheet.job.engine
                                  ? "at its clearance"
                                  : "at a twentieth of the lift, the crank turning twice a cam's turn";
    route.caption(std::string("Along the normal") +
                  (sheet.method.allowance > 0.0 ? ", the allowance taken off" : "") +
                  "; positive stands proud. Crank degrees of the valve's events, " + basis + ".");
    route.table(table);
}

std::string capitalised(std::string text) {
    if (text.front() >= 'a' && text.front() <= 'z')
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

/// What stands before a finding that must not be overlooked.
std::string emphasis(Severity severity) {
    if (severity == Severity::note) return {};
    return severity == Severity::warning ? "Warning." : "Error.";
}

/// Flanks between marks, angles on marks and both ways of feeding.
bool has_a_table(const Diagnostic& finding) {
    return finding.code == "between-marks" || finding.code == "angles-on-marks" || finding.code == "travel";
}

void put_findings(const Sheet& sheet, Route& route) {
    if (sheet.plan.findings.empty()) return;
    bool first = true;
    for (const Diagnostic& finding : lobes_together(sheet.plan.findings)) {
        if (has_a_table(finding)) continue;
        if (first) route.heading("Worth knowing before the first cut");
        first = false;
        route.bullet(
            (finding.lobe.empty() ? capitalised(finding.what) : finding.lobe + ": " + finding.what) + ".",
            emphasis(finding.severity));
    }
    if (sheet.marks) flanks_off_marks(sheet, route);
    if (!sheet.plan.angles.empty()) angles_on_marks_table(sheet, route);
}

void put_cautions(const Sheet& sheet, Route& route) {
    route.heading("Take care");
    if (sheet.marks) {
        route.bullet(
            "The fixture swings out of balance. Begin at the lathe's lowest speed and go up only "
            "while nothing shakes, less for a heavy fixture. Counterweight what you can.");
        route.bullet(
            "Before starting, turn the lathe once round by hand with the carriage at either end of "
            "its travel: bar, wheel and carrier must clear bed, carriage and tool.");
        route.bullet(
            "The cut is interrupted: light infeeds, a stiff tool, and the index pin home and locked "
            "before the spindle starts.");
    } else {
        route.bullet("Lock the head or table for every cut, and unlock it before turning on.");
        route.bullet(
            "Secure work and tailstock; keep the cutter clear of chuck, dog and fixture at both "
            "ends of its travel.");
    }
    route.bullet(
        "Guards on, eye protection, no gloves, sleeves, rings or loose hair near a spindle. Stop "
        "the machine before measuring, indexing or clearing chips.");
    route.bullet(
        "Try the settings on a scrap bar first. The machine's manual, local rules and trained "
        "practice come before this sheet.");
}

}  // namespace

Route written_route(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    const HandMethod& method = job.hand.at(plan.method);
    const Sheet sheet{job, lobes, plan, method, method.kind == HandKind::offset_fixture};
    Route route;
    route.title(job.title + ": the route by \"" + plan.method + "\", " + method_words(method.kind));
    tell_senses(sheet, route);
    sheet.marks ? fixture_figures(sheet, route) : head_figures(sheet, route);
    put_findings(sheet, route);
    put_finish(sheet, route);
    put_cautions(sheet, route);
    sheet.marks ? fixture_steps(sheet, route) : facet_steps(sheet, route);
    return route;
}

std::string hand_sheet(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    return paper_text(written_route(job, lobes, plan), job.title + ", \"" + plan.method + "\"");
}

}  // namespace lobewright::hand
