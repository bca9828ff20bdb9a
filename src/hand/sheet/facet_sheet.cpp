#include "base/whole_steps.h"
#include "hand/outline/touch_map.h"
#include "hand/sheet/sheet_parts.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

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

std::string handwheel_words(double turns, std::optional<double> divisions) {
    if (!divisions) return fixed(turns, 3);
    auto whole = static_cast<double>(step_below(turns));
    double past = static_cast<double>(nearest_step((turns - whole) * *divisions * 10.0)) / 10.0;
    if (past >= *divisions) whole += 1.0, past = 0.0;
    return fixed(whole, 0) + " + " + fixed(past, 1);
}

/// What the dial of the knee (or of the slide) shows at a depth, told from the shaft's axis.
double on_knee_dial(const Sheet& sheet, double from_axis) {
    if (sheet.method.dial != DialReading::depth) return sheet.on_dial(from_axis);
    const double touch = *sheet.job.shaft.blank() / 2.0 + sheet.plan.facets->cutter_radius.value_or(0.0);
    return touch - from_axis;
}

/// "3 turns + 0.250" of the knee's handwheel.
std::string knee_words(const Sheet& sheet, double reading) {
    const double turn = *sheet.method.dial_turn;
    const auto whole = static_cast<double>(step_below(reading / turn));
    return fixed(whole, 0) + " + " + sheet.figure(reading - whole * turn);
}

bool tells_knee_turns(const Sheet& sheet) {
    return sheet.method.dial == DialReading::depth && sheet.method.dial_turn;
}

bool by_table(const Sheet& sheet) {
    return !sheet.plan.facets->circle && !sheet.plan.facets->compound;
}

/// Beside the knee's turns a head's row has no more room: its crank tells the angle.
bool tells_angle(const Sheet& sheet) {
    return !sheet.plan.facets->circle || !tells_knee_turns(sheet);
}

std::vector<std::string> facet_heads(const Sheet& sheet) {
    std::vector<std::string> heads = {"Cut"};
    if (sheet.plan.facets->circle) heads.insert(heads.end(), {"crank on", "from zero"});
    if (tells_angle(sheet)) heads.emplace_back("work at");
    if (by_table(sheet) && sheet.method.ratio > 0.0) heads.emplace_back("handwheel");
    if (sheet.plan.settings.front().touches) {
        heads.emplace_back("touches");
        if (sheet.in_passes()) heads.emplace_back("passes");
    }
    heads.emplace_back("finish");
    if (tells_knee_turns(sheet)) heads.emplace_back("knee, turns");
    return heads;
}

/// Spaces from one setting to the next, once the crank is turned on only.
long long spaces_on(const Sheet& sheet, const HandSetting& setting, std::optional<long long> last_spaces) {
    const long long on = spaces_of(setting) - last_spaces.value_or(0);
    return on < 0 ? on + nearest_step(sheet.method.ratio * *setting.circle) : on;
}

std::vector<std::string> facet_cells(const Sheet& sheet, const HandSetting& setting,
                                     std::optional<long long> last_spaces) {
    std::vector<std::string> cells = {tells_knee_turns(sheet) ? std::to_string(setting.order)
                                                              : sheet.count(setting)};
    if (setting.circle) {
        cells.push_back(last_spaces ? crank_words(spaces_on(sheet, setting, last_spaces), *setting.circle)
                                    : "zero");
        cells.push_back(crank_words(spaces_of(setting), *setting.circle));
    }
    const int decimals = by_table(sheet) ? minute_decimals(sheet) : 1;
    if (tells_angle(sheet)) cells.push_back(degrees_and_minutes(setting.turned->degrees(), decimals));
    if (by_table(sheet) && sheet.method.ratio > 0.0)
        cells.push_back(handwheel_words(*setting.turned / whole_turn * sheet.method.ratio,
                                        sheet.method.handwheel_divisions));
    if (setting.touches) {
        cells.push_back(sheet.figure(on_knee_dial(sheet, *setting.touches)));
        if (sheet.in_passes()) cells.push_back(sheet.passes(setting));
    }
    const double reading = on_knee_dial(sheet, *setting.finish);
    cells.push_back(sheet.figure(reading));
    if (tells_knee_turns(sheet)) cells.push_back(knee_words(sheet, reading));
    return cells;
}

/// What a facet's row cuts, and where the head or table is set for it.
RowCuts facet_cuts(const Sheet& sheet, const HandSetting& setting, std::optional<long long> last_spaces) {
    const auto index = static_cast<std::size_t>(setting.order - 1);
    if (!setting.circle)
        return {index,
                1,
                {"work at", degrees_and_minutes(setting.turned->degrees(),
                                                by_table(sheet) ? minute_decimals(sheet) : 1)},
                {}};
    if (!last_spaces && spaces_of(setting) != 0)
        return {index, 1, {"from zero", crank_words(spaces_of(setting), *setting.circle)}, {}};
    if (!last_spaces) return {index, 1, {"crank on", "zero"}, {}};
    return {index, 1, {"crank on", crank_words(spaces_on(sheet, setting, last_spaces), *setting.circle)}, {}};
}

/// What the sector arms hold between them from one setting to the next; 0: whole turns need none.
long long arms_for(const Sheet& sheet, const HandSetting& setting, std::optional<long long> last_spaces) {
    return setting.circle && last_spaces ? spaces_on(sheet, setting, last_spaces) % *setting.circle : 0;
}

std::string arms_words(long long spaces) {
    return counted(spaces, "space") + " (" + std::to_string(spaces + 1) + " holes, the pin's own counted)";
}

/// "A micrometer across cut 4 and cut 94 reads 12.000": the first facet that has one exactly opposite.
void put_check_across(const Sheet& sheet, std::size_t first, std::size_t last, Route& route) {
    const auto& settings = sheet.plan.settings;
    const double to_surface = sheet.plan.facets->cutter_radius.value_or(0.0);
    for (std::size_t i = first; i < last; ++i) {
        for (std::size_t k = i + 1; k < last; ++k) {
            const ShaftAngle from_opposite =
                wrapped(settings[k].shaft_angle - settings[i].shaft_angle - half_turn);
            if (std::max(from_opposite, -from_opposite) > opposite_enough) continue;
            return route.box_after(
                k, "Check after cut " + std::to_string(settings[k].order) +
                       ": a micrometer over that cut and cut " + std::to_string(settings[i].order) +
                       ", opposite it, reads " +
                       sheet.figure(*settings[i].finish + *settings[k].finish - 2.0 * to_surface) + ".");
        }
    }
}

void put_check_over_nose(const Sheet& sheet, const SolvedLobe& lobe, double ridge, Route& route) {
    if (lobe.contour.smallest_hollow_radius() < std::numeric_limits<double>::infinity()) return;
    const TouchMap normals(lobe.contour, std::nullopt);
    const double over =
        normals.touch({}).distance + normals.touch(half_turn).distance + 2.0 * sheet.method.allowance;
    route.box("Check when the lobe is done: over its nose and the heel opposite, from " + sheet.figure(over) +
              " to " + sheet.figure(over + 2.0 * ridge) + ", by where the ridges lie.");
}

/// The rows of one lobe. Where the arms must be set anew, that is a step between two tables.
class LobeRows {
  public:
    LobeRows(const Sheet& sheet, Route& route) : sheet_(sheet), route_(route), table_(facet_heads(sheet)) {}

    void add(const HandSetting& setting, std::optional<long long> last_spaces) {
        const long long arms = arms_for(sheet_, setting, last_spaces);
        if (arms > 0 && arms != arms_) {
            if (arms_ > 0) put();  // what goes before the first arms needs none
            route_.arms(static_cast<int>(arms), "Set the sector arms: " + arms_words(arms) + ".");
            arms_ = arms;
        }
        table_.row(facet_cells(sheet_, setting, last_spaces));
        cuts_.push_back(facet_cuts(sheet_, setting, last_spaces));
    }
    void put() {
        if (!cuts_.empty()) route_.table(table_, std::exchange(cuts_, {}));
        table_ = MarkdownTable(facet_heads(sheet_));
    }

  private:
    const Sheet& sheet_;
    Route& route_;
    MarkdownTable table_;
    std::vector<RowCuts> cuts_;  ///< of its rows
    long long arms_ = 0;         ///< as they stand
};

std::string plate_words(const Sheet& sheet, int plate) {
    constexpr std::size_t longest = 28;
    const auto& plates = sheet.method.plates[static_cast<std::size_t>(plate - 1)];
    std::string circles;
    for (const int circle : plates)
        circles += (circles.empty() ? "" : ", ") + std::to_string(circle);
    if (circles.size() > longest)
        circles = std::to_string(plates.front()) + " to " + std::to_string(plates.back());
    return "plate " + std::to_string(plate) + " (" + circles + ")";
}

void add_head_rows(const Sheet& sheet, MarkdownTable& table) {
    const FacetSetup& facets = *sheet.plan.facets;
    table.row({"crank turns for one of the work", shortest_fixed(sheet.method.ratio, 4)});
    if (facets.plate) table.row({"plate, by its circles", plate_words(sheet, *facets.plate)});
    if (facets.circle) table.row({"circle of holes", std::to_string(*facets.circle)});
    for (const int spaces : facets.arms)
        table.row({"between the sector arms", arms_words(spaces)});
    if (facets.compound) {
        const CompoundMove& move = *facets.compound;
        table.row({"for each facet: crank on by",
                   counted(move.holes, "hole") + " of the circle of " + std::to_string(move.circle)});
        table.row({std::string("then plate and crank, ") + (move.plate_holes < 0 ? "back by" : "on by"),
                   counted(std::abs(move.plate_holes), "hole") + " of the circle of " +
                       std::to_string(move.plate_circle)});
    }
}

void add_table_rows(const Sheet& sheet, MarkdownTable& table) {
    table.row({"smallest setting",
               degrees_and_minutes(sheet.plan.facets->smallest_setting->degrees(), minute_decimals(sheet))});
    if (sheet.method.ratio > 0.0)
        table.row({"handwheel turns for one round", shortest_fixed(sheet.method.ratio, 4)});
    if (sheet.method.handwheel_divisions)
        table.row({"divisions of its dial", shortest_fixed(*sheet.method.handwheel_divisions, 3)});
}

void head_step(const Sheet& sheet, Route& route) {
    route.step("Set-up and cutter");
    route.box("Set the work true to the head's axis over its whole length (a shaft that stands out by " +
              sheet.brief(sheet.round_figure(0.01, 0.0005)) +
              " puts that on one side of every lobe and takes it off the other), and the cutter's zero on "
              "that axis.");
    if (sheet.plan.facets->circle && sheet.plan.facets->plate)
        route.plate(*sheet.plan.facets->circle, "Fit " + plate_words(sheet, *sheet.plan.facets->plate) +
                                                    " and set the crank's pin to its circle of " +
                                                    counted(*sheet.plan.facets->circle, "hole") + ".");
    route.box(
        "Bring the datum to its place at zero, take up the backlash in the counting sense, and from then "
        "on turn one way only: past a setting, go back half a turn of the crank and come to it again.");
    route.box(
        "Cutter sharp and held short; its speed and feed by its maker's table, at the low end for a long "
        "thin shaft. Support the shaft at its free end.");
    if (sheet.job.shaft.blank())
        route.box("Touch the bar over the lobes and set the dial to " +
                  sheet.figure(on_knee_dial(sheet, *sheet.job.shaft.blank() / 2.0 +
                                                       sheet.plan.facets->cutter_radius.value_or(0.0))) +
                  ".");
    if (sheet.plan.facets->compound)
        route.bullet(
            "Compound indexing: both pins stay in but for their own move; begin and end each move in "
            "the same sense of turning, and count from the zero when in doubt.");
}

}  // namespace

void head_figures(const Sheet& sheet, Route& route) {
    const FacetSetup& facets = *sheet.plan.facets;
    MarkdownTable table({"Set-up", ""});
    by_table(sheet) ? add_table_rows(sheet, table) : add_head_rows(sheet, table);
    if (sheet.job.shaft.blank())
        table.row({sheet.job.shaft.blank_measured ? "bar over the lobes, as measured" : "bar over the lobes",
                   sheet.figure(*sheet.job.shaft.blank())});
    if (facets.widest_flat > 0.0) table.row({"widest flat, on the bar", sheet.figure(facets.widest_flat)});
    route.table(table);
}

void facet_steps(const Sheet& sheet, Route& route) {
    const auto& settings = sheet.plan.settings;
    shaft_steps(sheet, route);
    head_step(sheet, route);
    std::optional<long long> last_spaces;
    for (std::size_t first = 0; first < settings.size();) {
        std::size_t last = first;
        while (last < settings.size() && settings[last].lobe == settings[first].lobe)
            ++last;
        const SolvedLobe& lobe = sheet.lobes[settings[first].lobe];
        route.step("Lobe " + lobe.name + ", its middle at " + sheet.figure(lobe.z) + ": cuts " +
                   std::to_string(settings[first].order) + " to " + std::to_string(settings[last - 1].order));
        LobeRows rows(sheet, route);
        for (std::size_t i = first; i < last; ++i) {
            rows.add(settings[i], last_spaces);
            if (settings[i].circle) last_spaces = spaces_of(settings[i]);
        }
        rows.put();
        put_check_across(sheet, first, last, route);
        put_check_over_nose(sheet, lobe, sheet.plan.finish[settings[first].lobe].highest_ridge, route);
        first = last;
    }
    finishing_steps(sheet, route);
}

}  // namespace lobewright::hand
