#include "base/whole_steps.h"
#include "hand/finish/valve_timing.h"
#include "hand/fixture/index_wheel.h"
#include "hand/outline/direction.h"
#include "hand/sheet/sheet_parts.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::hand {
namespace {

/// Less than this past a mark is the mark itself: a fiftieth of the last decimal that is told.
constexpr ShaftAngle on_the_mark = ShaftAngle::from_degrees(1e-6);

/// "12", or with a vernier "12 + 0.4°".
std::string mark_words(const Sheet& sheet, const HandSetting& setting) {
    const auto mark = static_cast<double>(step_below(*setting.mark));
    const ShaftAngle past = whole_turn * ((*setting.mark - mark) / sheet.method.divisions);
    return fixed(mark, 0) + (past > on_the_mark ? " + " + short_degrees(past.degrees(), 4) + "°" : "");
}

std::string fixture_rows(const Sheet& sheet, HandWork work) {
    const bool flanks = work == HandWork::flank;
    std::vector<std::string> heads = {"Cut", "mark", "lobe"};
    if (flanks) heads.emplace_back("flank");
    heads.insert(heads.end(), {"first touches at", "stop at"});
    MarkdownTable table(with_passes(sheet, heads, "passes"));
    for (const HandSetting& setting : sheet.plan.settings) {
        if (setting.work != work) continue;
        std::vector<std::string> cells = {sheet.count(setting), mark_words(sheet, setting),
                                          sheet.name(setting.lobe)};
        if (flanks) cells.push_back(flank_word(setting.part));
        cells.insert(cells.end(), {sheet.figure(setting.touches), sheet.figure(setting.finish)});
        table.row(with_passes(sheet, cells, sheet.passes(setting)));
    }
    return table.text();
}

std::string ladder_words(const Sheet& sheet) {
    const auto& ladder = sheet.plan.fixture->ladder;
    const HandSetting& first = sheet.plan.settings.front();
    std::string text = "Cut 1 goes down a ladder: the tool just marks the blank at " +
                       sheet.figure(first.touches) + ", then ";
    for (std::size_t i = 0; i < ladder.size(); ++i)
        text += (i ? ", " : "") + sheet.figure(ladder[i]);
    text +=
        ". At the last reading set the cross slide's stop and lock it: every other cut goes down by the same "
        "infeed to its own "
        "\"stop at\"";
    const bool one_stop =
        std::all_of(sheet.plan.settings.begin(), sheet.plan.settings.end(),
                    [&](const HandSetting& setting) { return setting.finish == first.finish; });
    text += one_stop ? ", which is this same stop for the whole shaft."
                     : "; set the stop anew where that changes.";
    return paragraph(text);
}

std::string land_rows(const Sheet& sheet) {
    const double wider = sheet.job.units == Units::mm ? 0.1 : 0.005 * 25.4;
    MarkdownTable table({"Lobe", "between its flanks: chord", "arc",
                         "metal left on each flank, if the arc is " +
                             short_length(wider, sheet.job.units, {3, 3}) + " wider"});
    for (const Land& land : sheet.plan.lands)
        table.row({sheet.name(land.lobe) + (land.nose ? ", nose " + std::to_string(*land.nose) : ""),
                   sheet.figure(land.chord), sheet.figure(land.arc),
                   land.arc > 0.0 ? sheet.figure(land.stock_for_excess * wider) : ""});
    return table.text();
}

std::string nose_rows(const Sheet& sheet) {
    MarkdownTable table({"Lobe", "file to radius", "off its middle", "off each corner", "template: mouth",
                         "depth", "then across the nose"});
    for (const HandFinish& finish : sheet.plan.finish) {
        const SolvedLobe& lobe = sheet.lobes[finish.lobe];
        const double nose = lobe.base_radius + lobe.lift;
        const double across_nose =
            nose + (lobe.repeat % 2 == 0 ? nose : lobe.base_radius);  // to a nose, or the heel
        table.row({lobe.name, sheet.figure(finish.nose_radius), sheet.figure(finish.top_stock),
                   sheet.figure(finish.corner_stock), sheet.figure(finish.template_mouth),
                   sheet.figure(finish.template_depth), sheet.figure(across_nose)});
    }
    return table.text();
}

/// Whether some place of the heel has the heel opposite it, so that a micrometer can go across.
bool heel_faces_heel(const SolvedLobe& lobe) {
    const double quarter_pitch = full_turn / lobe.repeat / 4.0;
    return lobe.repeat % 2 == 0 || lobe.action_angle.radians() / 2.0 < quarter_pitch;
}

std::string heel_rows(const Sheet& sheet) {
    MarkdownTable table({"Lobe", "across the heel, over cuts", "over ridges, at most"});
    bool any = false;
    for (const HandFinish& finish : sheet.plan.finish) {
        if (!heel_faces_heel(sheet.lobes[finish.lobe])) continue;
        any = true;
        const double base = 2.0 * sheet.lobes[finish.lobe].base_radius;
        table.row(
            {sheet.name(finish.lobe), sheet.figure(base), sheet.figure(base + 2.0 * finish.highest_ridge)});
    }
    return any ? "\nCheck after the last cut, with a micrometer across each heel:\n\n" + table.text() : "";
}

std::string before_swinging(const Sheet& sheet) {
    const FixtureSetup& fixture = *sheet.plan.fixture;
    return next_heading("Before the first cut") +
           bullet(
               "Prove the offset: touch the blank at its highest, turn the lathe half round by hand, touch "
               "it at its "
               "lowest; the two places of the tool lie " +
               sheet.figure(2.0 * fixture.offset) + " apart, twice the offset.") +
           bullet("Bring the tool to just mark the blank at its highest, and set the dial to " +
                  sheet.figure(sheet.plan.settings.front().start) + ".");
}

std::string flanks_part(const Sheet& sheet, long long flanks) {
    const double base = sheet.lobes[sheet.plan.settings.front().lobe].base_radius;
    return next_heading("1. Flanks of the whole shaft: cuts 1 to " + std::to_string(flanks)) +
           ladder_words(sheet) + '\n' + fixture_rows(sheet, HandWork::flank) +
           "\nCheck before anything else is taken off:\n\n" +
           bullet("After cut 1: a micrometer over the middle of the cut and the blank opposite reads " +
                  sheet.figure(base + sheet.plan.fixture->blank_radius) + ".") +
           bullet(
               "After all flanks: the land that is left of the blank's outside over each nose, straight "
               "across its "
               "edges (chord) or along the outside (arc):") +
           '\n' + land_rows(sheet) + '\n' +
           paragraph(
               "A land that is off on one lobe alone is a mark set wrong; on all lobes, it is depth. Go on "
               "only when "
               "they agree.");
}

std::string heels_part(const Sheet& sheet, long long flanks) {
    return next_heading("2. Heels, once round: cuts " + std::to_string(flanks + 1) + " to " +
                        std::to_string(sheet.plan.settings.size())) +
           paragraph(
               "At each mark cut every lobe listed for it, then turn to the next one, always the same way.") +
           '\n' + fixture_rows(sheet, HandWork::clear) + heel_rows(sheet);
}

std::string noses_part(const Sheet& sheet) {
    return next_heading("3. Noses, by file") +
           paragraph(
               "The template is a notch with the nose's radius at its bottom; the ends of its mouth are "
               "where the "
               "nose runs into the flanks. File the corners first, in ever smaller flats, then roll over the "
               "nose "
               "until the template shows no light; leave the flanks alone.") +
           '\n' + nose_rows(sheet) + '\n' + dressing_words(sheet);
}

}  // namespace

std::string fixture_figures(const Sheet& sheet) {
    const FixtureSetup& fixture = *sheet.plan.fixture;
    MarkdownTable table({"Set-up", ""});
    table.row({"offset, shaft's axis to lathe's axis", sheet.figure(fixture.offset)});
    table.row({"index wheel", std::to_string(sheet.method.divisions) + " divisions, " +
                                  short_degrees(360.0 / sheet.method.divisions, 4) + "° each"});
    if (sheet.method.vernier)
        table.row({"vernier on the wheel", short_degrees(sheet.method.vernier->degrees(), 4) + "°"});
    table.row({"blank's diameter", sheet.figure(2.0 * fixture.blank_radius)});
    table.row({"blank's outside from the lathe's axis, highest",
               sheet.figure(fixture.offset + fixture.blank_radius)});
    table.row({"the dial there", sheet.figure(sheet.plan.settings.front().start)});
    table.row({"the blank swings a circle of", sheet.figure(2.0 * (fixture.offset + fixture.blank_radius))});
    if (sheet.method.wheel_diameter)
        table.row({"the wheel swings a circle of",
                   sheet.figure(2.0 * fixture.offset + *sheet.method.wheel_diameter)});
    return table.text();
}

/// Flanks that no setting of the wheel meets: one table instead of a sentence each.
std::string flanks_off_marks(const Sheet& sheet) {
    const HandMethod& method = sheet.method;
    const IndexWheel wheel{method.divisions, method.zero, method.counts, method.vernier};
    MarkdownTable table({"Lobe", "flank", "wants mark", "set to", "late by, cam", "late by, crank"});
    bool any = false;
    for (const HandSetting& setting : sheet.plan.settings) {
        const ShaftAngle off = wrapped(setting.shaft_angle - setting.wanted);
        if (setting.work != HandWork::flank || std::max(off, -off) <= mark_tolerance) continue;
        any = true;
        const double sense = sign_of(sheet.lobes[setting.lobe].turns);
        const CamAngle late = CamAngle::from_radians(-sense * off.radians());
        table.row({sheet.name(setting.lobe), flank_word(setting.part),
                   fixed(wheel.mark_of(setting.wanted), 3), mark_words(sheet, setting),
                   fixed(late.degrees(), 3) + "°", fixed(crank_angle(sheet.job, late).degrees(), 3) + "°"});
    }
    return any ? "\nFlanks that fall between the settings of the wheel, and where they come instead:\n\n" +
                     table.text()
               : "";
}

std::string fixture_work(const Sheet& sheet) {
    const auto flanks =
        std::count_if(sheet.plan.settings.begin(), sheet.plan.settings.end(),
                      [](const HandSetting& setting) { return setting.work == HandWork::flank; });
    return before_swinging(sheet) + flanks_part(sheet, flanks) + heels_part(sheet, flanks) +
           noses_part(sheet);
}

}  // namespace lobewright::hand
