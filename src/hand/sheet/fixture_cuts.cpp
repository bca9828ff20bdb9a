#include "hand/outline/direction.h"
#include "hand/sheet/fixture_words.h"
#include "hand/sheet/sheet_parts.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::hand {
namespace {

using Settings = std::vector<HandSetting>;

bool along(const Sheet& sheet) {
    return sheet.method.travel == HandTravel::along;
}

/// "5", "5 to 8": the running counts of some cuts.
std::string counts_words(const HandSetting& first, const HandSetting& last) {
    return std::to_string(first.order) +
           (first.order == last.order ? "" : " to " + std::to_string(last.order));
}

/// What a row of a round cuts, and how deep.
RowCuts cuts_to_stop(const Sheet& sheet, const StopRound& round, std::size_t first, std::size_t count) {
    const std::string mark = mark_words(sheet, sheet.plan.settings[first]);
    return {first, count, {"mark", mark}, {{"down to the stop at", sheet.figure(round.stop)}}};
}

void put_flank_rows(const Sheet& sheet, const StopRound& round, Route& route) {
    std::vector<std::string> heads = {"done", "cut", "mark", "lobe", "flank", "first touches at"};
    if (sheet.in_passes()) heads.emplace_back("passes");
    MarkdownTable table(heads);
    std::vector<RowCuts> cuts;
    for (std::size_t i = round.first; i < round.first + round.count; ++i) {
        const HandSetting& setting = sheet.plan.settings[i];
        std::vector<std::string> cells = {"[ ]",
                                          std::to_string(setting.order),
                                          mark_words(sheet, setting),
                                          sheet.name(setting.lobe),
                                          flank_word(setting.part),
                                          sheet.figure(setting.touches)};
        if (sheet.in_passes()) cells.push_back(sheet.passes(setting));
        table.row(std::move(cells));
        cuts.push_back(cuts_to_stop(sheet, round, i, 1));
    }
    route.table(std::move(table), std::move(cuts));
}

/// The most that the lobes' names may take of a row.
constexpr std::size_t names_width = 38;

struct HeelRows {
    MarkdownTable table;
    std::vector<RowCuts> cuts;
};

/// At one mark the lobes that take equally many passes, as many to a row as it holds.
void add_mark_rows(const Sheet& sheet, const StopRound& round, std::size_t first, std::size_t last,
                   HeelRows& rows) {
    const Settings& settings = sheet.plan.settings;
    std::string mark = mark_words(sheet, settings[first]);
    for (std::size_t i = first; i < last;) {
        std::string names = sheet.name(settings[i].lobe);
        std::size_t k = i + 1;
        for (; k < last && settings[k].passes == settings[i].passes; ++k) {
            const std::string& next = sheet.name(settings[k].lobe);
            if (names.size() + next.size() + 2 > names_width) break;
            names += ", " + next;
        }
        std::vector<std::string> cells = {"[ ]", counts_words(settings[i], settings[k - 1]), mark, names};
        if (sheet.in_passes()) cells.push_back(sheet.passes(settings[i]));
        rows.table.row(std::move(cells));
        rows.cuts.push_back(cuts_to_stop(sheet, round, i, k - i));
        mark.clear();
        i = k;
    }
}

void put_heel_rows(const Sheet& sheet, const StopRound& round, Route& route) {
    const Settings& settings = sheet.plan.settings;
    std::vector<std::string> heads = {"done", "cuts", "mark", "lobes"};
    if (sheet.in_passes()) heads.emplace_back("passes");
    HeelRows rows{MarkdownTable(heads), {}};
    const std::size_t end = round.first + round.count;
    for (std::size_t first = round.first; first < end;) {
        std::size_t last = first;
        while (last < end && *settings[last].mark == *settings[first].mark)
            ++last;
        add_mark_rows(sheet, round, first, last, rows);
        first = last;
    }
    route.table(std::move(rows.table), std::move(rows.cuts));
}

std::string ladder_words(const Sheet& sheet) {
    const auto& ladder = sheet.plan.fixture->ladder;
    const HandSetting& first = sheet.plan.settings.front();
    std::string text =
        "Cut 1 goes down a ladder: the tool just marks the bar at " + sheet.figure(first.touches) + ", then ";
    for (std::size_t i = 0; i < ladder.size(); ++i)
        text += (i ? ", " : "") + sheet.figure(ladder[i]);
    return text + ". There set the cross slide's stop; every flank goes down the same steps to it.";
}

/// The lobes of a round, each once, along the shaft.
std::string lobes_of(const Sheet& sheet, const StopRound& round) {
    std::vector<std::size_t> lobes;
    for (std::size_t i = round.first; i < round.first + round.count; ++i)
        lobes.push_back(sheet.plan.settings[i].lobe);
    std::sort(lobes.begin(), lobes.end(), [&](std::size_t a, std::size_t b) {
        return sheet.lobes[a].z != sheet.lobes[b].z ? sheet.lobes[a].z < sheet.lobes[b].z : a < b;
    });
    lobes.erase(std::unique(lobes.begin(), lobes.end()), lobes.end());
    std::string text;
    for (const std::size_t lobe : lobes)
        text += (text.empty() ? "" : ", ") + sheet.name(lobe);
    return text;
}

/// A change of stop is a step of its own, in the largest type.
void put_stop(const Sheet& sheet, const StopRound& round, std::size_t index, Route& route) {
    const auto& rounds = sheet.plan.fixture->rounds;
    const bool kept = index > 0 && rounds[index - 1].stop == round.stop;
    if (kept)
        route.paragraph("The stop stays at " + sheet.figure(round.stop) + ": " + lobes_of(sheet, round) +
                        ".");
    else
        route.stop(round.stop,
                   "SET THE STOP: " + sheet.figure(round.stop) + " (" + lobes_of(sheet, round) + ")");
}

void put_rounds(const Sheet& sheet, HandWork work, Route& route) {
    const auto& rounds = sheet.plan.fixture->rounds;
    for (std::size_t i = 0; i < rounds.size(); ++i) {
        if (rounds[i].work != work) continue;
        put_stop(sheet, rounds[i], i, route);
        if (i == 0) route.paragraph(ladder_words(sheet));
        if (work == HandWork::flank)
            put_flank_rows(sheet, rounds[i], route);
        else
            put_heel_rows(sheet, rounds[i], route);
    }
}

/// "cuts 1 to 4" of all rounds of one work.
std::string range_of(const Sheet& sheet, HandWork work) {
    const Settings& settings = sheet.plan.settings;
    const auto is_of = [work](const HandSetting& setting) { return setting.work == work; };
    const auto first = std::find_if(settings.begin(), settings.end(), is_of);
    const auto last = std::find_if(settings.rbegin(), settings.rend(), is_of);
    return "cuts " + counts_words(*first, *last) + " of " + std::to_string(settings.size());
}

void flank_step(const Sheet& sheet, Route& route) {
    route.step("Flanks of the whole shaft: " + range_of(sheet, HandWork::flank));
    route.box("Bring the tool to just mark the bar at its highest, and set the dial to " +
              sheet.figure(sheet.plan.settings.front().start) + ".");
    route.bullet(along(sheet) ? "At each reading lock the cross slide and feed along the lobe; then in to "
                                "the next."
                              : "At each mark plunge at every place of the tool on the lobe.");
    put_rounds(sheet, HandWork::flank, route);
    const std::size_t lobe = sheet.plan.settings.front().lobe;
    route.box_after(0, "After cut 1: a micrometer over the middle of the cut and the bar opposite reads " +
                           sheet.figure(sheet.lobes[lobe].base_radius + sheet.method.allowance +
                                        sheet.plan.fixture->blank_radius) +
                           ".");
}

void land_step(const Sheet& sheet, Route& route) {
    const double wider = sheet.round_figure(0.1, 0.005);
    MarkdownTable table(
        {"Lobe", "chord", "arc", "if the arc is " + sheet.brief(wider) + " wider, on each flank"});
    for (const Land& land : sheet.plan.lands)
        table.row({sheet.name(land.lobe) + (land.nose ? ", nose " + std::to_string(*land.nose) : ""),
                   sheet.figure(land.chord), sheet.figure(land.arc),
                   land.arc > 0.0 ? sheet.figure(land.stock_for_excess * wider) : ""});
    route.step("Lands, before anything else is taken off");
    route.lead(
        "What is left of the bar's outside over each nose, straight across its edges (chord) or along "
        "the outside (arc):");
    route.table(table);
    route.bullet("One land off by itself is a mark set wrong; all of them, depth. Go on when they agree.");
}

/// Whether some place of the heel has the heel opposite it, so that a micrometer can go across.
bool heel_faces_heel(const SolvedLobe& lobe) {
    const double quarter_pitch = full_turn / lobe.repeat / 4.0;
    return lobe.repeat % 2 == 0 || lobe.action_angle.radians() / 2.0 < quarter_pitch;
}

void put_heel_checks(const Sheet& sheet, Route& route) {
    MarkdownTable table({"Lobe", "across the heel, over cuts", "over ridges, at most"});
    bool any = false;
    for (const HandFinish& finish : sheet.plan.finish) {
        if (!heel_faces_heel(sheet.lobes[finish.lobe])) continue;
        any = true;
        const double base = 2.0 * (sheet.lobes[finish.lobe].base_radius + sheet.method.allowance);
        table.row(
            {sheet.name(finish.lobe), sheet.figure(base), sheet.figure(base + 2.0 * finish.highest_ridge)});
    }
    if (!any) return;
    route.lead("After the last cut, with a micrometer across each heel:");
    route.table(table);
}

void heel_step(const Sheet& sheet, Route& route) {
    const auto& settings = sheet.plan.settings;
    const bool any = std::any_of(settings.begin(), settings.end(),
                                 [](const HandSetting& setting) { return setting.work == HandWork::clear; });
    if (!any) return;
    route.step("Heels: " + range_of(sheet, HandWork::clear));
    route.bullet(std::string("At each mark cut every lobe of its row, then turn to the next mark, always the "
                             "same way. Each heel begins beside its own flank") +
                 (along(sheet) ? ". The slide stays locked at the stop: one stroke along is one pass; where "
                                 "there are more, back off and come down to the stop."
                               : "."));
    put_rounds(sheet, HandWork::clear, route);
    put_heel_checks(sheet, route);
}

std::string across_nose(const Sheet& sheet, const HandNose& nose) {
    const SolvedLobe& lobe = sheet.lobes[nose.lobe];
    const double base = lobe.base_radius + sheet.method.allowance,
                 top = base + lobe.arcs->lift - nose.short_by;
    return sheet.figure(top + (lobe.repeat % 2 == 0 ? top : base));  // to a nose, or the heel
}

void nose_step(const Sheet& sheet, Route& route) {
    route.step("Noses, by file");
    route.lead(
        "Template for each: a notch with the nose's radius at its bottom; the ends of its mouth are "
        "where the nose runs into the flanks as they are cut. File the corners first, in ever smaller "
        "flats, then roll over the nose until no light shows; leave the flanks alone. What comes off its top "
        "and "
        "each corner, and what it measures across to the heel (or the nose opposite):");
    MarkdownTable table({"Lobe", "radius", "off top", "corner", "mouth", "depth", "across"});
    for (const HandNose& nose : sheet.plan.noses)
        table.row({sheet.name(nose.lobe) + (nose.nose ? ", nose " + std::to_string(*nose.nose) : ""),
                   sheet.figure(nose.filed_radius), sheet.figure(nose.top_stock),
                   sheet.figure(nose.corner_stock), sheet.figure(nose.template_mouth),
                   sheet.figure(nose.template_depth), across_nose(sheet, nose)});
    route.table(table);
}

}  // namespace

void fixture_cuts(const Sheet& sheet, Route& route) {
    flank_step(sheet, route);
    land_step(sheet, route);
    heel_step(sheet, route);
    nose_step(sheet, route);
}

}  // namespace lobewright::hand
