#include "hand/sheet/hand_sheet.h"

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
            return "offset fixture between the lathe's centres";
        case HandKind::dividing_head:
            return "dividing head";
        case HandKind::rotary_table:
            return "rotary table";
    }
    return {};
}

std::string senses(const Sheet& sheet) {
    const HandMethod& method = sheet.method;
    std::string text =
        bullet(std::string("All lengths in ") + units_noun(sheet.job.units) +
               ", all angles in degrees. Everything round the shaft is seen from its drive end.");
    const std::string numbers =
        sheet.marks ? "Marks of the wheel" : "Angles of the " + method_words(method.kind);
    text += bullet(numbers + " grow " + sense_words(method.counts) +
                   " round the shaft: for a higher one, turn the shaft " + sense_words(other(method.counts)) +
                   ". At zero, the shaft's direction of " + short_degrees(full_circle_degrees(method.zero)) +
                   "° (from its datum, counter-clockwise) faces the cutter.");
    if (!sheet.marks) {
        text += bullet(
            sheet.plan.facets->cutter_radius
                ? "Depths are from the shaft's axis to the cutter's centre; the cutter has a radius of " +
                      sheet.figure(*sheet.plan.facets->cutter_radius) + "."
                : "Depths are from the shaft's axis to the flat that the end of the cutter leaves.");
        return text;
    }
    const std::string reads = method.dial == DialReading::diameter ? "twice the distance" : "the distance";
    text +=
        bullet("The dial reads " + reads + " of the tool's point from the lathe's axis" +
               (method.dial_zero == 0.0 ? "" : ", and " + sheet.figure(method.dial_zero) + " on that axis") +
               "; it falls as the tool goes in.");
    return text;
}

std::string tool_places(const Sheet& sheet) {
    const bool known = std::any_of(sheet.plan.plunges.begin(), sheet.plan.plunges.end(),
                                   [](const auto& plunge) { return !plunge.z.empty(); });
    if (!known) return {};
    MarkdownTable table({"Lobe", "middle at", "width", "plunges at each setting", "middle of the tool at"});
    for (const HandPlunge& plunge : sheet.plan.plunges) {
        std::string places;
        for (const double z : plunge.z)
            places += (places.empty() ? "" : ", ") + sheet.figure(z);
        const SolvedLobe& lobe = sheet.lobes[plunge.lobe];
        table.row({lobe.name, sheet.figure(lobe.z), sheet.figure(lobe.width), std::to_string(plunge.z.size()),
                   places});
    }
    return "\nAlong the shaft, from the drive end:\n\n" + table.text();
}

std::string finish_rows(const Sheet& sheet) {
    MarkdownTable table(
        {"Lobe", "highest ridge", "proudest", "deepest", "opens late, crank", "closes late, crank"});
    const auto crank = [](const HandFinish& finish, CrankAngle late) {
        if (!finish.valve_opens) return std::string("never opens");
        return finish.valve_shuts ? fixed(late.degrees(), 2) + "°" : "never shuts";
    };
    const auto fine = [&](double mm) { return fixed_length(mm, sheet.job.units, sentence_decimals); };
    for (const HandFinish& finish : sheet.plan.finish)
        table.row({sheet.name(finish.lobe), fine(finish.highest_ridge), fine(finish.proudest),
                   fine(finish.deepest), crank(finish, finish.opens_late),
                   crank(finish, finish.closes_late)});
    return table.text();
}

std::string timing_basis(const Sheet& sheet) {
    return sheet.job.engine ? "at its clearance"
                            : "at a twentieth of the lift, the crank turning twice a cam's turn";
}

std::string capitalised(std::string text) {
    if (text.front() >= 'a' && text.front() <= 'z')
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

/// What stands before a finding that must not be overlooked.
std::string emphasis(Severity severity) {
    if (severity == Severity::note) return {};
    return severity == Severity::warning ? "**Warning.** " : "**Error.** ";
}

std::string findings_part(const Sheet& sheet) {
    if (sheet.plan.findings.empty()) return {};
    std::string text = next_heading("Worth knowing before the first cut");
    for (const Diagnostic& finding : lobes_together(sheet.plan.findings)) {
        if (finding.code == "between-marks") continue;  // they have a table
        text += bullet(
            emphasis(finding.severity) +
            (finding.lobe.empty() ? capitalised(finding.what) : finding.lobe + ": " + finding.what) + ".");
    }
    return text + (sheet.marks ? flanks_off_marks(sheet) : "");
}

std::string cautions(const Sheet& sheet) {
    std::string text = next_heading("Take care");
    if (sheet.marks) {
        text += bullet(
            "The fixture swings out of balance. Begin at the lathe's lowest speed and go up only while "
            "nothing shakes; about 60 to "
            "150 rev/min is common practice (no source), and less for a heavy fixture. Counterweight what "
            "you can.");
        text += bullet(
            "Before starting, turn the lathe once round by hand with the carriage at either end of its "
            "travel: blank, wheel and "
            "carrier must clear bed, carriage and tool.");
        text += bullet(
            "The cut is interrupted: light infeeds, a stiff tool, its point at centre height, and the index "
            "pin home and locked "
            "before the spindle starts.");
    } else {
        text += bullet("Lock the head or table for every cut, and unlock it before turning on.");
        text += bullet(
            "Secure work and tailstock; keep the cutter clear of chuck, dog and fixture at both ends of its "
            "travel.");
    }
    text += bullet(
        "Guards on, eye protection, no gloves, sleeves, rings or loose hair near a spindle. Stop the machine "
        "before measuring, "
        "indexing or clearing chips.");
    text += bullet(
        "Try the settings on a scrap blank first. The machine's manual, local rules and trained practice "
        "come before this sheet.");
    return text;
}

}  // namespace

std::string next_heading(const std::string& text) {
    return '\n' + heading(text);
}

std::vector<std::string> with_passes(const Sheet& sheet, std::vector<std::string> cells,
                                     const std::string& passes) {
    if (sheet.in_passes()) cells.insert(cells.end() - 1, passes);
    return cells;
}

std::string dressing_words(const Sheet& sheet) {
    double highest = 0.0;
    for (const HandFinish& finish : sheet.plan.finish)
        highest = std::max(highest, finish.highest_ridge);
    return bullet(
        "The ridges, " + sheet.figure(highest) +
        " at the highest, stand above the design: a fine stone takes them off, and has gone far enough when "
        "the last mark of the cutter just fades.");
}

std::string hand_sheet(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    const HandMethod& method = job.hand.at(plan.method);
    const Sheet sheet{job, lobes, plan, method, method.kind == HandKind::offset_fixture};
    std::string text =
        "# " + job.title + ": settings for \"" + plan.method + "\", " + method_words(method.kind) + "\n\n";
    text += senses(sheet) + '\n';
    text += (sheet.marks ? fixture_figures(sheet) : head_figures(sheet)) + tool_places(sheet);
    text += findings_part(sheet);
    text += next_heading("What the surface will be, against the design");
    text += paragraph("Along the normal; positive stands proud. The valve's events, " + timing_basis(sheet) +
                      ": what the cuts alone do to them.") +
            '\n';
    text += finish_rows(sheet) + cautions(sheet);
    text += sheet.marks ? fixture_work(sheet) : facet_work(sheet);
    return text;
}

}  // namespace lobewright::hand
