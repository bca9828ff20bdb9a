#include "base/whole_steps.h"
#include "hand/outline/touch_map.h"
#include "hand/sheet/sheet_parts.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewright::hand {
namespace {

/// Two facets this near to half a turn apart lie opposite: on a radius of a metre that is a fiftieth of a
/// micrometre.
constexpr ShaftAngle opposite_enough = ShaftAngle::from_degrees(1e-6);

/// Of a vernier whose steps are whole minutes, and of any other.
int minute_decimals(const Sheet& sheet) {
    constexpr double whole_enough = 1e-6;  // of a minute
    const double minutes = sheet.plan.facets->smallest_setting->degrees() * 60.0;
    return std::abs(minutes - static_cast<double>(nearest_step(minutes))) < whole_enough ? 0 : 2;
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
    const double turns = *setting.turned / whole_turn * sheet.method.ratio;
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
        cells.push_back(degrees_and_minutes(setting.turned->degrees(), 1));
    } else {
        cells.push_back(degrees_and_minutes(setting.turned->degrees(), minute_decimals(sheet)));
        if (sheet.method.ratio > 0.0) cells.push_back(handwheel_words(sheet, setting));
    }
    if (setting.touches) cells.push_back(sheet.figure(setting.touches));
    cells.push_back(sheet.figure(setting.finish));
    return setting.touches ? with_passes(sheet, cells, sheet.passes(setting)) : cells;
}

/// "A micrometer across cut 4 and cut 94 reads 12.000": the first facet that has one exactly opposite.
std::string across_words(const Sheet& sheet, std::size_t first, std::size_t last) {
    const auto& settings = sheet.plan.settings;
    const double to_surface = sheet.plan.facets->cutter_radius.value_or(0.0);
    for (std::size_t i = first; i < last; ++i) {
        for (std::size_t k = i + 1; k < last; ++k) {
            const ShaftAngle from_opposite =
                wrapped(settings[k].shaft_angle - settings[i].shaft_angle - half_turn);
            if (std::max(from_opposite, -from_opposite) > opposite_enough) continue;
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
    const double over = normals.touch({}).distance + normals.touch(half_turn).distance;
    return bullet("Check when the lobe is done: over its nose and the heel opposite, from " +
                  sheet.figure(over) + " to " + sheet.figure(over + 2.0 * ridge) +
                  ", by where the ridges lie.");
}

}  // namespace

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
        table.row({"smallest setting",
                   degrees_and_minutes(facets.smallest_setting->degrees(), minute_decimals(sheet))});
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

std::string facet_work(const Sheet& sheet) {
    const auto& settings = sheet.plan.settings;
    std::string text = next_heading("Before the first cut");
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
        text += next_heading("Lobe " + lobe.name + ", its middle at " + sheet.figure(lobe.z) + ": cuts " +
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
    return text + next_heading("When all lobes are cut") + dressing_words(sheet);
}

}  // namespace lobewright::hand
