#include "hand/sheet/hand_sheet.h"

#include "base/whole_steps.h"
#include "hand/fixture/index_wheel.h"
#include "hand/outline/touch_map.h"
#include "hand/sheet/markdown.h"
#include "hand/wording.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace lobewright::hand {
namespace {

/// Everything that the parts of the sheet share.
struct Sheet {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    const HandPlan& plan;
    const HandMethod& method;
    bool marks;  ///< an offset fixture's wheel, else a head or table

    [[nodiscard]] std::string figure(double mm) const { return length_figure(mm, job.units); }
    [[nodiscard]] std::string figure(const std::optional<double>& mm) const { return mm ? figure(*mm) : ""; }
    [[nodiscard]] std::string words(double mm) const { return length_words(mm, job.units); }
    [[nodiscard]] const std::string& name(std::size_t lobe) const { return lobes[lobe].name; }
    [[nodiscard]] std::string count(const HandSetting& setting) const {
        return std::to_string(setting.order) + " of " + std::to_string(plan.settings.size());
    }
    [[nodiscard]] bool in_passes() const { return method.infeed.has_value(); }
    [[nodiscard]] int vernier_decimals() const {
        const double minutes = plan.facets->smallest_degrees.value_or(1.0) * 60.0;
        return std::abs(minutes - static_cast<double>(nearest_step(minutes))) < 1e-6 ? 0 : 2;
    }
};

std::string heading(const std::string& text) {
    return "\n## " + text + "\n\n";
}

std::string way(Sense sense) {
    return sense == Sense::ccw ? "counter-clockwise" : "clockwise";
}
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

// ---- top of the sheet

std::string senses(const Sheet& sheet) {
    const HandMethod& method = sheet.method;
    const std::string unit = sheet.job.units == Units::mm ? "mm" : "inches";
    std::string text =
        bullet("All lengths in " + unit +
               ", all angles in degrees. Everything round the shaft is seen from its drive end.");
    const std::string numbers =
        sheet.marks ? "Marks of the wheel" : "Angles of the " + method_words(method.kind);
    text += bullet(numbers + " grow " + way(method.counts) +
                   " round the shaft: for a higher one, turn the shaft " + way(other(method.counts)) +
                   ". At zero, the shaft's direction of " + degrees_figure(full_circle_degrees(method.zero)) +
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

std::string fixture_figures(const Sheet& sheet) {
    const FixtureSetup& fixture = *sheet.plan.fixture;
    MarkdownTable table({"Set-up", ""});
    table.row({"offset, shaft's axis to lathe's axis", sheet.figure(fixture.offset)});
    table.row({"index wheel", std::to_string(sheet.method.divisions) + " divisions, " +
                                  degrees_figure(360.0 / sheet.method.divisions, 4) + "° each"});
    if (sheet.method.vernier)
        table.row({"vernier on the wheel", degrees_figure(sheet.method.vernier->degrees(), 4) + "°"});
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

std::string head_figures(const Sheet& sheet) {
    const FacetSetup& facets = *sheet.plan.facets;
    MarkdownTable table({"Set-up", ""});
    if (facets.circle) {
        table.row({"turns of the crank in one turn of the work", shortest_fixed(sheet.method.ratio, 4)});
        table.row({"circle of holes", std::to_string(*facets.circle)});
        std::string arms;
        for (const int spaces : facets.arms)
            arms += (arms.empty() ? "" : "; ") + counted(spaces, "space") + " (" +
                    std::to_string(spaces + 1) + " holes, the pin's own counted)";
        if (!arms.empty()) table.row({"between the sector arms", arms});
    } else {
        table.row(
            {"smallest setting", degrees_and_minutes(*facets.smallest_degrees, sheet.vernier_decimals())});
        if (sheet.method.ratio > 0.0)
            table.row(
                {"turns of the handwheel in one turn of the table", shortest_fixed(sheet.method.ratio, 4)});
        if (sheet.method.handwheel_divisions)
            table.row(
                {"divisions of the handwheel's dial", shortest_fixed(*sheet.method.handwheel_divisions, 3)});
    }
    if (sheet.job.shaft.blank_diameter)
        table.row({"blank's diameter", sheet.figure(*sheet.job.shaft.blank_diameter)});
    if (facets.widest_flat > 0.0)
        table.row({"the widest flat across the shaft, on the blank", sheet.figure(facets.widest_flat)});
    return table.text();
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

// ---- the settings

std::string passes_cell(const Sheet& sheet, const HandSetting& setting) {
    return sheet.in_passes() ? std::to_string(setting.passes) : "";
}

std::vector<std::string> with_passes(const Sheet& sheet, std::vector<std::string> cells,
                                     const std::string& passes) {
    if (sheet.in_passes()) cells.insert(cells.end() - 1, passes);
    return cells;
}

/// "12", or with a vernier "12 + 0.4°".
std::string mark_words(const Sheet& sheet, const HandSetting& setting) {
    const auto mark = static_cast<double>(step_below(setting.index));
    const double past = (setting.index - mark) * 360.0 / sheet.method.divisions;
    return fixed(mark, 0) + (past > 1e-6 ? " + " + degrees_figure(past, 4) + "°" : "");
}

/// "opening" or "closing".
std::string flank_word(const HandSetting& setting) {
    return setting.part.substr(0, setting.part.find(' '));
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
        if (flanks) cells.push_back(flank_word(setting));
        cells.insert(cells.end(), {sheet.figure(setting.touches), sheet.figure(setting.finish)});
        table.row(with_passes(sheet, cells, passes_cell(sheet, setting)));
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
                             shortest_fixed(wider / mm_per(sheet.job.units), 3) + " wider"});
    for (const Land& land : sheet.plan.lands)
        table.row({sheet.name(land.lobe) + (land.where.empty() ? "" : ", " + land.where),
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

/// Ridges stand above the design; what they take off says when to stop.
std::string dressing_words(const Sheet& sheet) {
    double highest = 0.0;
    for (const HandFinish& finish : sheet.plan.finish)
        highest = std::max(highest, finish.highest_ridge);
    return bullet(
        "The ridges, " + sheet.figure(highest) +
        " at the highest, stand above the design: a fine stone takes them off, and has gone far enough when "
        "the last mark of the cutter just fades.");
}

std::string before_swinging(const Sheet& sheet) {
    const FixtureSetup& fixture = *sheet.plan.fixture;
    return heading("Before the first cut") +
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
    return heading("1. Flanks of the whole shaft: cuts 1 to " + std::to_string(flanks)) +
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
    return heading("2. Heels, once round: cuts " + std::to_string(flanks + 1) + " to " +
                   std::to_string(sheet.plan.settings.size())) +
           paragraph(
               "At each mark cut every lobe listed for it, then turn to the next one, always the same way.") +
           '\n' + fixture_rows(sheet, HandWork::clear) + heel_rows(sheet);
}

std::string noses_part(const Sheet& sheet) {
    return heading("3. Noses, by file") +
           paragraph(
               "The template is a notch with the nose's radius at its bottom; the ends of its mouth are "
               "where the "
               "nose runs into the flanks. File the corners first, in ever smaller flats, then roll over the "
               "nose "
               "until the template shows no light; leave the flanks alone.") +
           '\n' + nose_rows(sheet) + '\n' + dressing_words(sheet);
}

std::string fixture_work(const Sheet& sheet) {
    const auto flanks =
        std::count_if(sheet.plan.settings.begin(), sheet.plan.settings.end(),
                      [](const HandSetting& setting) { return setting.work == HandWork::flank; });
    return before_swinging(sheet) + flanks_part(sheet, flanks) + heels_part(sheet, flanks) +
           noses_part(sheet);
}

/// Spaces of the circle from the head's zero.
long long spaces_of(const HandSetting& setting) {
    return static_cast<long long>(*setting.turns) * *setting.circle + *setting.hole;
}

std::string crank_words(long long spaces, int circle) {
    return std::to_string(spaces / circle) + " + " + std::to_string(spaces % circle) + "/" +
           std::to_string(circle);
}

std::string handwheel_words(const Sheet& sheet, const HandSetting& setting) {
    const double turns = setting.index / 360.0 * sheet.method.ratio;
    const double divisions = sheet.method.handwheel_divisions.value_or(0.0);
    if (divisions <= 0.0) return fixed(turns, 3);
    auto whole = static_cast<double>(step_below(turns));
    double past = static_cast<double>(nearest_step((turns - whole) * divisions * 10.0)) / 10.0;
    if (past >= divisions) whole += 1.0, past = 0.0;
    return fixed(whole, 0) + " + " + fixed(past, 1);
}

std::vector<std::string> facet_heads(const Sheet& sheet) {
    std::vector<std::string> heads = {"Cut"};
    if (sheet.plan.facets->circle)
        heads.insert(heads.end(), {"crank on by", "crank from zero", "work at"});
    else
        heads.emplace_back("table at");
    if (!sheet.plan.facets->circle && sheet.method.ratio > 0.0)
        heads.emplace_back(sheet.method.handwheel_divisions ? "handwheel, turns + divisions"
                                                            : "handwheel, turns");
    if (sheet.plan.settings.front().touches) heads.emplace_back("first touches at");
    heads.emplace_back("finish at");
    return sheet.plan.settings.front().touches ? with_passes(sheet, heads, "passes") : heads;
}

std::vector<std::string> facet_cells(const Sheet& sheet, const HandSetting& setting,
                                     std::optional<long long> last_spaces) {
    std::vector<std::string> cells = {sheet.count(setting)};
    if (setting.circle) {
        long long on = spaces_of(setting) - last_spaces.value_or(0);
        if (on < 0) on += nearest_step(sheet.method.ratio * *setting.circle);
        cells.push_back(last_spaces ? crank_words(on, *setting.circle) : "zero");
        cells.push_back(crank_words(spaces_of(setting), *setting.circle));
        cells.push_back(degrees_and_minutes(setting.index, 1));
    } else {
        cells.push_back(degrees_and_minutes(setting.index, sheet.vernier_decimals()));
        if (sheet.method.ratio > 0.0) cells.push_back(handwheel_words(sheet, setting));
    }
    if (setting.touches) cells.push_back(sheet.figure(setting.touches));
    cells.push_back(sheet.figure(setting.finish));
    return setting.touches ? with_passes(sheet, cells, passes_cell(sheet, setting)) : cells;
}

/// "A micrometer across cut 4 and cut 94 reads 12.000": the first facet that has one exactly opposite.
std::string across_words(const Sheet& sheet, std::size_t first, std::size_t last) {
    const auto& settings = sheet.plan.settings;
    const double to_surface = sheet.plan.facets->cutter_radius.value_or(0.0);
    for (std::size_t i = first; i < last; ++i) {
        for (std::size_t k = i + 1; k < last; ++k) {
            const double apart =
                std::abs(wrapped(settings[k].shaft_angle - settings[i].shaft_angle).degrees());
            if (std::abs(apart - 180.0) > 1e-6) continue;
            return bullet("Check after cut " + std::to_string(settings[k].order) +
                          ": a micrometer over that cut and cut " + std::to_string(settings[i].order) +
                          ", opposite it, reads " +
                          sheet.figure(*settings[i].finish + *settings[k].finish - 2.0 * to_surface) + ".");
        }
    }
    return {};
}

std::string over_nose_words(const Sheet& sheet, const SolvedLobe& lobe, double ridge) {
    if (lobe.contour.smallest_hollow_radius() < std::numeric_limits<double>::infinity()) return {};
    const TouchMap normals(lobe.contour, std::nullopt);
    const double over = normals.reach(0.0) + normals.reach(std::numbers::pi);
    return bullet("Check when the lobe is done: over its nose and the heel opposite, from " +
                  sheet.figure(over) + " to " + sheet.figure(over + 2.0 * ridge) +
                  ", by where the ridges lie.");
}

std::string facet_work(const Sheet& sheet) {
    const auto& settings = sheet.plan.settings;
    std::string text = heading("Before the first cut");
    text += bullet(
        "Set the work true to the head's axis, over its whole length, and the cutter's zero on that axis: a "
        "shaft that stands "
        "out by 0.01 puts 0.01 on one side of every lobe and takes it off the other.");
    text += bullet(
        "Bring the shaft's datum to its place at zero, take up the backlash in the counting sense, and from "
        "then on turn one way "
        "only: past a setting, go back half a turn of the crank and come to it again.");
    std::optional<long long> last_spaces;
    for (std::size_t first = 0; first < settings.size();) {
        std::size_t last = first;
        while (last < settings.size() && settings[last].lobe == settings[first].lobe)
            ++last;
        const SolvedLobe& lobe = sheet.lobes[settings[first].lobe];
        text += heading("Lobe " + lobe.name + ", its middle at " + sheet.figure(lobe.z) + ": cuts " +
                        std::to_string(settings[first].order) + " to " +
                        std::to_string(settings[last - 1].order));
        MarkdownTable table(facet_heads(sheet));
        for (std::size_t i = first; i < last; ++i) {
            table.row(facet_cells(sheet, settings[i], last_spaces));
            if (settings[i].circle) last_spaces = spaces_of(settings[i]);
        }
        text += table.text() + '\n' + across_words(sheet, first, last);
        text += over_nose_words(sheet, lobe, sheet.plan.finish[settings[first].lobe].highest_ridge);
        first = last;
    }
    return text + heading("When all lobes are cut") + dressing_words(sheet);
}

// ---- what comes of it

std::string finish_rows(const Sheet& sheet) {
    MarkdownTable table(
        {"Lobe", "highest ridge", "proudest", "deepest", "opens late, crank", "closes late, crank"});
    const auto crank = [](const HandFinish& finish, CrankAngle late) {
        if (!finish.valve_opens) return std::string("never opens");
        return finish.valve_shuts ? fixed(late.degrees(), 2) + "°" : "never shuts";
    };
    const int decimals = sheet.job.units == Units::mm ? 4 : 5;
    const auto fine = [&](double mm) { return fixed(mm / mm_per(sheet.job.units), decimals); };
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

std::string severity_words(Severity severity) {
    if (severity == Severity::note) return {};
    return severity == Severity::warning ? "**Warning.** " : "**Error.** ";
}

/// Flanks that no setting of the wheel meets: one table instead of a sentence each.
std::string flanks_off_marks(const Sheet& sheet) {
    const HandMethod& method = sheet.method;
    const IndexWheel wheel{method.divisions, method.zero, method.counts, method.vernier};
    const double crank = sheet.job.engine ? 1.0 / sheet.job.engine->cam_per_crank : 2.0;
    MarkdownTable table({"Lobe", "flank", "wants mark", "set to", "late by, cam", "late by, crank"});
    bool any = false;
    for (const HandSetting& setting : sheet.plan.settings) {
        const double off = wrapped(setting.shaft_angle - setting.wanted).degrees();
        if (setting.work != HandWork::flank || std::abs(off) <= mark_tolerance_degrees) continue;
        any = true;
        const double late = -sign_of(sheet.lobes[setting.lobe].turns) * off;
        table.row({sheet.name(setting.lobe), flank_word(setting), fixed(wheel.mark_of(setting.wanted), 3),
                   mark_words(sheet, setting), fixed(late, 3) + "°", fixed(late * crank, 3) + "°"});
    }
    return any ? "\nFlanks that fall between the settings of the wheel, and where they come instead:\n\n" +
                     table.text()
               : "";
}

/// The lobes that the same thing is said of, and nothing where an earlier finding has said it.
std::string lobes_told(const Diagnostics& findings, std::size_t index) {
    const auto same = [&](std::size_t other) {
        return findings[other].code == findings[index].code && findings[other].what == findings[index].what;
    };
    std::string names = findings[index].lobe;
    for (std::size_t i = index + 1; i < findings.size(); ++i)
        if (same(i)) names += ", " + findings[i].lobe;
    return names;
}

bool told_before(const Diagnostics& findings, std::size_t index) {
    return std::any_of(findings.begin(), findings.begin() + static_cast<std::ptrdiff_t>(index),
                       [&](const Diagnostic& other) {
                           return other.code == findings[index].code && other.what == findings[index].what;
                       });
}

std::string findings(const Sheet& sheet) {
    const auto& all = sheet.plan.findings;
    if (all.empty()) return {};
    std::string text = heading("Worth knowing before the first cut");
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].code == "between-marks" || told_before(all, i)) continue;
        const std::string names = lobes_told(all, i);
        text += bullet(severity_words(all[i].severity) +
                       (names.empty() ? capitalised(all[i].what) : names + ": " + all[i].what) + ".");
    }
    return text + (sheet.marks ? flanks_off_marks(sheet) : "");
}

std::string cautions(const Sheet& sheet) {
    std::string text = heading("Take care");
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

std::string hand_sheet(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    const HandMethod& method = job.hand.at(plan.method);
    const Sheet sheet{job, lobes, plan, method, method.kind == HandKind::offset_fixture};
    std::string text =
        "# " + job.title + ": settings for \"" + plan.method + "\", " + method_words(method.kind) + "\n\n";
    text += senses(sheet) + '\n';
    text += (sheet.marks ? fixture_figures(sheet) : head_figures(sheet)) + tool_places(sheet);
    text += findings(sheet);
    text += heading("What the surface will be, against the design");
    text += paragraph("Along the normal; positive stands proud. The valve's events, " + timing_basis(sheet) +
                      ": what the cuts alone do to them.") +
            '\n';
    text += finish_rows(sheet) + cautions(sheet);
    text += sheet.marks ? fixture_work(sheet) : facet_work(sheet);
    return text;
}

}  // namespace lobewright::hand
