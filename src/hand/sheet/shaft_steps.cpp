#include "hand/fixture/index_wheel.h"
#include "hand/outline/direction.h"
#include "hand/sheet/sheet_parts.h"
#include "profile/hole_direction.h"

#include <lobewright/number_text.h>

#include <algorithm>

namespace lobewright::hand {
namespace {

double least_base(const Sheet& sheet) {
    const auto least =
        std::min_element(sheet.lobes.begin(), sheet.lobes.end(),
                         [](const auto& a, const auto& b) { return a.base_radius < b.base_radius; });
    return least->base_radius;
}

/// "19.000 + D / 2": the dial at the touch, by the bar's diameter.
std::string touch_formula(const Sheet& sheet) {
    const double from_axis =
        sheet.marks ? sheet.plan.fixture->offset : sheet.plan.facets->cutter_radius.value_or(0.0);
    const double base = sheet.on_dial(from_axis) + sheet.method.dial_zero;
    const bool twice = sheet.method.dial == DialReading::diameter;
    return (base == 0.0 ? "" : sheet.figure(base) + " + ") + (twice ? "D" : "D / 2");
}

/// What a bar does that is not as large as the sheet takes it.
void tell_bar_error(const Sheet& sheet, Route& route) {
    const double error = sheet.round_figure(0.05, 0.002);
    const std::string half = sheet.brief(error / 2.0);
    route.bullet("A bar " + sheet.brief(error) + " larger than the dial is set for leaves every cut " + half +
                 " too high: each heel " + sheet.brief(error) +
                 " over size across, and, with the nose at "
                 "its height, " +
                 half + " less lift. A smaller bar does the opposite.");
}

void bar_step(const Sheet& sheet, Route& route) {
    const Shaft& shaft = sheet.job.shaft;
    route.step("Bar and centres");
    const std::string across = shaft.blank() ? sheet.figure(*shaft.blank()) + " across over the lobes" : "";
    const std::string length = shaft.length ? sheet.figure(*shaft.length) + " long" : "";
    if (!across.empty() || !length.empty())
        route.box("Bar: " + across + (across.empty() || length.empty() ? "" : ", ") + length + ".");
    route.box("Centre both ends. Between centres the bar runs out by no more than " +
              sheet.brief(sheet.round_figure(0.01, 0.0005)) + ", at either end and in the middle.");
    if (!shaft.blank()) return;
    if (shaft.blank_measured) {
        route.bullet("The bar measures " + sheet.figure(*shaft.blank()) +
                     " (blank_measured): every touch and reading below goes by that.");
    } else {
        route.box("Measure it where the lobes come: D = ____________");
        if (!sheet.marks && sheet.method.dial == DialReading::depth) {
            route.bullet("The dial is set to 0 at the touch; the depths below are for D = " +
                         sheet.figure(*shaft.blank()) + ", and each grows by half of what D has more.");
        } else {
            route.box("Where this sheet sets the dial at the touch, set it to " + touch_formula(sheet) +
                      " = ____________");
        }
        route.bullet("Written into the job as blank_measured, D changes touches, passes and lands, too.");
    }
    tell_bar_error(sheet, route);
}

void journal_step(const Sheet& sheet, Route& route) {
    route.step("Journals and gaps");
    const double allowance = 2.0 * sheet.method.allowance;
    MarkdownTable table({"Journal", "from", "to", "finished", "turn it to"});
    for (const Journal& journal : sheet.job.shaft.journals)
        table.row({std::to_string(&journal - sheet.job.shaft.journals.data() + 1),
                   sheet.figure(journal.z - journal.width / 2.0),
                   sheet.figure(journal.z + journal.width / 2.0), sheet.figure(journal.diameter),
                   sheet.figure(journal.diameter + allowance)});
    if (sheet.job.shaft.journals.empty()) {
        route.box("Turn the journals between centres" +
                  (allowance > 0.0 ? ", with " + sheet.brief(allowance) + " left on their diameter" : "") +
                  ". The job has none written down.");
    } else {
        route.lead("Turn the journals between centres" +
                   std::string(allowance > 0.0 ? ", the allowance left on" : "") + ":");
        route.table(table);
    }
    route.box("Beside the lobes turn the bar down to less than " + sheet.figure(2.0 * least_base(sheet)) +
              ", the smallest base circle, so that the tool runs out.");
}

void datum_step(const Sheet& sheet, Route& route) {
    route.step("Datum");
    route.box("Mark the shaft's datum at the drive end (keyway, dowel or a scribed line): shaft angle 0.");
    const std::string device = sheet.marks ? "the index wheel" : "the head or table";
    route.box("Bring " + device + " to 0 with the shaft's direction of " +
              short_degrees(full_circle_degrees(sheet.method.zero)) + "° " +
              (sheet.marks ? "pointing straight out from the lathe's axis" : "facing the cutter") +
              ", and clamp shaft and carrier so that neither slips on the other to the end.");
}

void stone_step(const Sheet& sheet, Route& route) {
    double highest = 0.0;
    for (const HandFinish& finish : sheet.plan.finish)
        highest = std::max(highest, finish.highest_ridge);
    route.step("Stone or lap");
    route.box("The ridges, " + sheet.figure(highest) +
              " at the highest, stand above the design: a fine stone takes them off, and has gone far enough "
              "when the last mark of the cutter just fades.");
    const double allowance = sheet.method.allowance;
    if (allowance > 0.0)
        route.box("The allowance, " + sheet.figure(allowance) + " all round (" +
                  sheet.figure(2.0 * allowance) +
                  " across a heel), comes off after hardening, with stone, lap or grinder. Each heel then "
                  "measures twice its base radius.");
}

/// How the index is set for a direction: a mark, to what an eye can divide, or degrees and minutes.
std::string set_words(const Sheet& sheet, ShaftAngle direction) {
    const HandMethod& method = sheet.method;
    if (sheet.marks) {
        const IndexWheel wheel{method.divisions, method.zero, method.counts, method.vernier};
        return shortest_fixed(wheel.mark_of(direction), 2);
    }
    const ShaftAngle turned = sign_of(method.counts) * (direction - method.zero);
    return degrees_and_minutes(in_first_turn(turned).degrees(), 0);
}

void hole_step(const Sheet& sheet, Route& route) {
    if (sheet.job.shaft.holes.empty()) return;
    route.step("Oil holes");
    route.lead("Drill by the index, before hardening; the hole's direction then " +
               std::string(sheet.marks ? "points straight out from the lathe's axis" : "faces the spindle") +
               ". Break every edge:");
    MarkdownTable table({"Hole", "at z", "shaft angle", sheet.marks ? "mark" : "set to", "drill"});
    for (const Hole& hole : sheet.job.shaft.holes) {
        const ShaftAngle direction = profile::hole_direction(hole, sheet.lobes);
        table.row({std::to_string(&hole - sheet.job.shaft.holes.data() + 1), sheet.figure(hole.z),
                   fixed(full_circle_degrees(direction), 1) + "°", set_words(sheet, direction),
                   sheet.figure(hole.diameter)});
    }
    route.table(table);
}

void hardening_step(const Sheet& sheet, Route& route) {
    route.step("Hardening, if the steel is for it");
    route.box(
        "First everything that a drill, file or key cutter does; after it only stone, lap and grinder "
        "bite.");
    route.bullet(
        "Hardening moves the shaft: it may bend and grow by some hundredths of a millimetre "
        "(thousandths of an inch). " +
        std::string(sheet.method.allowance > 0.0
                        ? "That is what the allowance is for."
                        : "Nothing is left on to true it up: give the method an allowance."));
    route.bullet(
        "Furnace, salts, oil and cyanide-bearing compounds burn and poison: have it done, or follow "
        "the steel maker's data sheet, trained practice and local rules.");
    route.box("File test: a fine file skates off nose and heel alike. Then check run-out between centres.");
}

void gear_step(Route& route) {
    route.step("Gear or sprocket");
    route.box(
        "Fix it on the shaft by the datum: with the crank of cylinder 1 at top dead centre on its power "
        "stroke the datum points at 0° of the engine. Mark the teeth that mesh then.");
}

}  // namespace

void shaft_steps(const Sheet& sheet, Route& route) {
    bar_step(sheet, route);
    journal_step(sheet, route);
    datum_step(sheet, route);
}

void finishing_steps(const Sheet& sheet, Route& route) {
    stone_step(sheet, route);
    hole_step(sheet, route);
    hardening_step(sheet, route);
    gear_step(route);
    installing_step(sheet, route);
}

}  // namespace lobewright::hand
