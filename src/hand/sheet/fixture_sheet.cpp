#include "base/whole_steps.h"
#include "hand/finish/valve_timing.h"
#include "hand/fixture/index_wheel.h"
#include "hand/outline/direction.h"
#include "hand/sheet/fixture_words.h"
#include "hand/sheet/sheet_parts.h"
#include "hand/wording/effort_words.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::hand {
namespace {

double dial_at(const Sheet& sheet, double from_lathe_axis) {
    return sheet.method.dial_zero + sheet.on_dial(from_lathe_axis);
}

/// Both readings lie on the tool's side of the lathe's axis, which no dial goes past.
void offset_step(const Sheet& sheet, Route& route) {
    const FixtureSetup& fixture = *sheet.plan.fixture;
    const double true_running = dial_at(sheet, fixture.blank_radius);
    const double swung = dial_at(sheet, fixture.offset + fixture.blank_radius);
    const bool twice = sheet.method.dial == DialReading::diameter;
    route.step("Fixture: its offset proven");
    route.box("The bar between the lathe's own centres: touch it over the lobes, stop, and set the dial to " +
              sheet.figure(true_running) + ".");
    route.box(
        "The bar in the fixture, swung towards the tool as far as it goes: touch it again. The dial "
        "shows " +
        sheet.figure(swung) + ": " + sheet.figure(swung - true_running) + " more, " +
        (twice ? "twice the offset of " + sheet.figure(fixture.offset) : "the offset") +
        ". At the bar's other end it shows the same.");
    route.bullet("Or over pins: one in each of an end plate's two centre holes; outside over both, " +
                 sheet.figure(fixture.offset) + " and the pins' diameter.");
    route.bullet("An offset that is " + sheet.brief(sheet.round_figure(0.05, 0.002)) +
                 " out puts as much on every flank's radius, and leaves the heel alone.");
}

/// Turns a minute at a cutting speed, to two figures that a headstock could have.
std::string speed_words(double metres_a_minute, double across) {
    const double turns = 1000.0 * metres_a_minute / (std::numbers::pi * across);
    const double step = turns >= 100.0 ? 10.0 : turns >= 20.0 ? 5.0 : 1.0;
    return fixed(std::max(1.0, static_cast<double>(nearest_step(turns / step))) * step, 0);
}

void tool_step(const Sheet& sheet, Route& route) {
    constexpr double slow = 10.0, fast = 25.0;  // m/min, common practice: half of what plain turning bears
    const FixtureSetup& fixture = *sheet.plan.fixture;
    const double across = 2.0 * (fixture.offset + fixture.blank_radius);
    const bool along = sheet.method.travel == HandTravel::along;
    route.step("Tool, speed and feed");
    route.box(std::string("Tool: ") +
              (sheet.method.tool_width ? sheet.brief(*sheet.method.tool_width) + " wide, " : "") +
              (along ? "its corners barely rounded, " : "") +
              "its edge honed and parallel to the shaft (a strip of paper nips all along it), at centre "
              "height, no longer out of its holder than it must be.");
    route.box("Speed: " +
              (sheet.method.spindle_speed
                   ? fixed(*sheet.method.spindle_speed, 0) + " rev/min, as the job says; usual would be "
                   : std::string()) +
              speed_words(slow, across) + " to " + speed_words(fast, across) + " rev/min for " +
              sheet.figure(across) + " across, with high-speed steel in mild steel: begin at the lowest.");
    if (along)
        route.box("Feed along: " + sheet.brief(sheet.method.feed.value_or(0.05)) +
                  " a turn, one way only, to clear of the lobe; back off before going back.");
}

/// More places than this are told by the first and the last.
constexpr std::size_t most_places = 4;

std::string tool_places_words(const Sheet& sheet, const HandPlunge& plunge) {
    if (plunge.z.size() > most_places)
        return std::to_string(plunge.z.size()) + " places, " + sheet.figure(plunge.z.front()) + " to " +
               sheet.figure(plunge.z.back()) + ", " + sheet.figure(plunge.z[1] - plunge.z[0]) + " apart";
    std::string places;
    for (const double z : plunge.z)
        places += (places.empty() ? "" : ", ") + sheet.figure(z);
    return places;
}

void put_tool_places(const Sheet& sheet, Route& route) {
    const bool along = sheet.method.travel == HandTravel::along;
    MarkdownTable table(along
                            ? std::vector<std::string>{"Lobe", "middle", "width", "tool's middle from", "to"}
                            : std::vector<std::string>{"Lobe", "middle", "width", "tool's middle at"});
    for (const HandPlunge& plunge : sheet.plan.plunges) {
        const SolvedLobe& lobe = sheet.lobes[plunge.lobe];
        std::vector<std::string> cells = {lobe.name, sheet.figure(lobe.z), sheet.figure(lobe.width)};
        if (along)
            cells.insert(cells.end(), {sheet.figure(plunge.along_from), sheet.figure(plunge.along_to)});
        else
            cells.push_back(plunge.z.empty() ? "side by side" : tool_places_words(sheet, plunge));
        table.row(std::move(cells));
    }
    route.caption("Along the shaft, from the drive end:");
    route.table(table);
}

void put_efforts(const Sheet& sheet, Route& route) {
    MarkdownTable table({"Tool", "strokes", "feed in all", "about", ""});
    const FixtureSetup& fixture = *sheet.plan.fixture;
    const HandTravel quicker =
        fixture.along.minutes < fixture.plunging.minutes ? HandTravel::along : HandTravel::plunge;
    for (const HandEffort& effort : {fixture.plunging, fixture.along}) {
        const bool set = effort.travel == sheet.method.travel;
        table.row({effort.travel == HandTravel::along ? "along" : "plunged", std::to_string(effort.strokes),
                   run_words(effort.length, sheet.job.units), hours_words(effort.minutes),
                   std::string(effort.travel == quicker ? "quicker" : "") +
                       (set ? (effort.travel == quicker ? ", this sheet" : "this sheet") : "")});
    }
    route.table(table);
}

}  // namespace

/// "12", or with a vernier "12 + 0.4°".
std::string mark_words(const Sheet& sheet, const HandSetting& setting) {
    // Less than this past a mark is the mark itself: a fiftieth of the last decimal that is told.
    constexpr ShaftAngle on_the_mark = ShaftAngle::from_degrees(1e-6);
    const auto mark = static_cast<double>(step_below(*setting.mark));
    const ShaftAngle past = whole_turn * ((*setting.mark - mark) / sheet.method.divisions);
    return fixed(mark, 0) + (past > on_the_mark ? " + " + short_degrees(past.degrees(), 4) + "°" : "");
}

void fixture_figures(const Sheet& sheet, Route& route) {
    const FixtureSetup& fixture = *sheet.plan.fixture;
    MarkdownTable table({"Set-up", ""});
    table.row({"offset, shaft's axis to lathe's axis", sheet.figure(fixture.offset)});
    table.row({"index wheel", std::to_string(sheet.method.divisions) + " divisions, " +
                                  short_degrees(360.0 / sheet.method.divisions, 4) + "° each"});
    if (sheet.method.vernier)
        table.row({"vernier on the wheel", short_degrees(sheet.method.vernier->degrees(), 4) + "°"});
    table.row({sheet.job.shaft.blank_measured ? "bar over the lobes, as measured" : "bar over the lobes",
               sheet.figure(2.0 * fixture.blank_radius)});
    table.row({"the dial where the tool touches the bar", sheet.figure(sheet.plan.settings.front().start)});
    table.row({"the bar swings a circle of", sheet.figure(2.0 * (fixture.offset + fixture.blank_radius))});
    if (sheet.method.wheel_diameter)
        table.row({"the wheel swings a circle of",
                   sheet.figure(2.0 * fixture.offset + *sheet.method.wheel_diameter)});
    route.table(table);
    put_tool_places(sheet, route);
    if (sheet.method.tool_width) put_efforts(sheet, route);
}

/// Flanks that no setting of the wheel meets: one table instead of a sentence each.
void flanks_off_marks(const Sheet& sheet, Route& route) {
    const HandMethod& method = sheet.method;
    const IndexWheel wheel{method.divisions, method.zero, method.counts, method.vernier};
    MarkdownTable table({"Lobe", "flank", "wants mark", "set to", "late, cam", "late, crank"});
    bool any = false;
    for (const HandSetting& setting : sheet.plan.settings) {
        const ShaftAngle off = wrapped(setting.shaft_angle - setting.wanted);
        if (setting.work != HandWork::flank || std::max(off, -off) <= mark_tolerance) continue;
        any = true;
        const double sense = sign_of(sheet.lobes[setting.lobe].turns);
        const CamAngle late = CamAngle::from_radians(-sense * off.radians());
        table.row({sheet.name(setting.lobe), flank_word(setting.part),
                   fixed(wheel.mark_of(setting.wanted), 2), mark_words(sheet, setting),
                   fixed(late.degrees(), 2) + "°", fixed(crank_angle(sheet.job, late).degrees(), 2) + "°"});
    }
    if (!any) return;
    route.caption("Flanks that fall between the settings of the wheel, and where they come instead:");
    route.table(table);
}

/// The other way round: a shaft that this wheel has marks for.
void angles_on_marks_table(const Sheet& sheet, Route& route) {
    const auto late = [](CrankAngle angle) { return fixed(angle.degrees(), 1) + "°"; };
    MarkdownTable table({"Lobe", "action_angle", "at", "opens late", "closes late", "overlap"});
    for (const AnglesOnMarks& lobe : sheet.plan.angles)
        for (const auto& choice : lobe.choices)
            table.row({sheet.name(lobe.lobe), short_degrees(choice.action_angle.degrees()),
                       short_degrees(full_circle_degrees(choice.at)), late(choice.opens_late),
                       late(choice.closes_late),
                       sheet.job.engine
                           ? (choice.more_overlap.radians() < 0.0 ? "" : "+") + late(choice.more_overlap)
                           : ""});
    route.caption("Or design for this wheel: with zero = " +
                  short_degrees(full_circle_degrees(sheet.plan.angles.front().zero)) +
                  " these action angles and places have every flank on a mark (crank degrees against the "
                  "design):");
    route.table(table);
}

void fixture_steps(const Sheet& sheet, Route& route) {
    shaft_steps(sheet, route);
    offset_step(sheet, route);
    tool_step(sheet, route);
    fixture_cuts(sheet, route);
    finishing_steps(sheet, route);
}

}  // namespace lobewright::hand
