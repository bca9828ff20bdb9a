#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "hand/finish/valve_timing.h"
#include "hand/wording/effort_words.h"
#include "hand/wording/part_names.h"
#include "hand/wording/sentences.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::hand {
namespace {

/// "72 (zero as it is)", "360 (zero = 1.5), worst flank 0.02° of cam off".
std::string wheel_words(const WheelChoice& wheel) {
    return std::to_string(wheel.divisions) + " (zero " +
           (wheel.zero_kept ? "as it is" : "= " + short_degrees(full_circle_degrees(wheel.zero))) + ")" +
           (wheel.worst <= mark_tolerance
                ? ", every flank on a mark"
                : ", the worst flank " + short_degrees(wheel.worst.degrees()) + "° of cam off");
}

/// "3.4 mm", of a nose of a ring "nose 2: 3.4 mm".
std::string of_nose(std::optional<int> nose) {
    return nose ? "nose " + std::to_string(*nose) + ": " : "";
}

std::string advance_words(const Advance& advance) {
    if (!advance.crank) return degrees_and_minutes(advance.angle.degrees(), 0);
    std::string text;
    if (advance.crank->turns > 0) text = counted(advance.crank->turns, "turn");
    if (advance.crank->hole > 0) text += (text.empty() ? "" : " and ") + counted(advance.crank->hole, "hole");
    return text;
}

std::string on_circle(std::optional<int> circle) {
    return circle ? " on the circle of " + std::to_string(*circle) : "";
}

/// Makes the finding of one remark, whichever it is.
class Finding {
  public:
    explicit Finding(const Subject& subject)
        : subject_(subject), wheel_(subject.job.hand.at(subject.method).kind == HandKind::offset_fixture) {}

    // ---- offset fixture

    Diagnostic operator()(const OffsetFound& found) const {
        return note("offset-found",
                    "no offset is given: the flanks ask for " + length(found.offset) +
                        " (flank radius less base radius), and these settings are for that; set the fixture "
                        "to it and write it into the job");
    }
    Diagnostic operator()(const WheelOverCrossSlide& wheel) const {
        return finding(Severity::warning, "wheel-over-cross-slide", "",
                       "the wheel swings a circle of " + length(wheel.circle) +
                           " and does not clear the cross slide (" + length(wheel.room) +
                           "): mount the fixture the other way round, so that the wheel turns where the "
                           "carriage never goes, or use a wheel of at most " +
                           length(wheel.largest_wheel));
    }
    Diagnostic operator()(const BetweenMarks& flank) const {
        const double late = flank.late.degrees();
        return finding(Severity::note, "between-marks", lobe(flank.lobe),
                       "the " + part_name(flank.part) + " wants mark " +
                           shortest_fixed(flank.wanted_mark, 3) + "; " + shortest_fixed(flank.set_mark, 3) +
                           " is the nearest setting: " + cam_and_crank(std::abs(late), ", ") + " too " +
                           (late > 0.0 ? "late" : "early"));
    }
    Diagnostic operator()(const ZeroShift& zero) const {
        return note("zero-shift",
                    "with the wheel's zero turned on the shaft by " + short_degrees(zero.shift.degrees()) +
                        "° (zero = " + short_degrees(full_circle_degrees(zero.zero)) +
                        "), the worst flank is " + cam_and_crank(zero.worst.degrees(), " (") +
                        ") off its mark, instead of " + short_degrees(zero.now.degrees()) + "°");
    }
    Diagnostic operator()(const WheelsForMarks& fact) const {
        constexpr std::size_t told = 3;
        std::string text = "wheels that fit better, to make or to buy: ";
        for (std::size_t i = 0; i < std::min(told, fact.wheels.size()); ++i)
            text += (i ? "; " : "") + wheel_words(fact.wheels[i]);
        return note("wheels", text);
    }
    Diagnostic operator()(const AnglesOnMarks& angles) const {
        std::string text =
            "on this wheel's marks, with zero = " + short_degrees(full_circle_degrees(angles.zero)) + ": ";
        for (const auto& choice : angles.choices)
            text += (&choice == &angles.choices.front() ? "" : "; or ") + choice_words(choice);
        return finding(Severity::note, "angles-on-marks", lobe(angles.lobe), text);
    }
    Diagnostic operator()(const NoseOffDesign& nose) const {
        std::string text = of_nose(nose.nose) + "between its flanks as they are cut goes a nose of " +
                           length(nose.radius) + ", not the design's " + length(nose.design_radius);
        if (nose.lift_for_design_radius)
            text += ", which would stand " + length(*nose.lift_for_design_radius) + " too low";
        return finding(Severity::note, "nose-off-design", lobe(nose.lobe), text);
    }
    Diagnostic operator()(const FlanksMeetLow& nose) const {
        return finding(nose.short_by > most_off_design ? Severity::warning : Severity::note,
                       "flanks-meet-low", lobe(nose.lobe),
                       of_nose(nose.nose) +
                           "its flanks as they are cut meet below the nose's height; blended "
                           "with " +
                           length(nose.radius) + " it lacks " + length(nose.short_by) +
                           " of its lift: " + truer());
    }
    Diagnostic operator()(const QuickerTravel& travel) const {
        const bool along = travel.along.minutes < travel.plunging.minutes;
        return note("travel", "plunging takes " + effort_words(travel.plunging) + ", feeding along " +
                                  effort_words(travel.along) +
                                  ": travel = " + (along ? "\"along\"" : "\"plunge\"") + " is quicker");
    }
    Diagnostic operator()(const WheelForRidge& wheel) const {
        return finding(
            Severity::warning, "wheel-for-ridge", "",
            "this wheel's step leaves ridges above the wanted " + length(wheel.cusp) + ": that takes " +
                std::to_string(wheel.divisions) + " divisions or more" +
                (wheel.with_all_marks ? "; " + std::to_string(*wheel.with_all_marks) +
                                            " is the smallest such wheel that also has a mark for every flank"
                                      : ""));
    }
    Diagnostic operator()(const NoLand& land) const {
        return finding(Severity::note, "no-land", lobe(land.lobe),
                       "its flanks meet below the blank's outside: there is no land to measure; measure over "
                       "the sharp edge, from the heel's side of the blank");
    }

    // ---- dividing head, rotary table

    Diagnostic operator()(const StepsByCurvature& steps) const {
        const std::string on = on_circle(steps.circle), widest = advance_words(steps.widest);
        return note("steps-by-curvature",
                    steps.narrowest.angle == steps.widest.angle
                        ? "even steps of " + widest + on + " keep every ridge low enough"
                        : "steps of " + advance_words(steps.narrowest) + " to " + widest + on +
                              ": finer where the radius of curvature asks for it; follow the sheet row by "
                              "row");
    }
    Diagnostic operator()(const AngularIndexing& indexing) const {
        return note("angular-indexing",
                    "angular indexing" + on_circle(indexing.circle) +
                        ": each facet in the setting nearest to its angle, the worst " +
                        short_degrees(indexing.worst.degrees() * 60.0, 2) +
                        "' off; counted from zero, this never adds up, and each depth is for the angle as it "
                        "is set, so that it costs no accuracy");
    }
    Diagnostic operator()(const CompoundIndexing& indexing) const {
        const CompoundMove& move = indexing.move;
        return note("compound-indexing",
                    "compound indexing, as no single circle has " + std::to_string(indexing.divisions) +
                        " divisions: for each facet the crank on by " + counted(move.holes, "hole") +
                        " of the circle of " + std::to_string(move.circle) + ", then the plate with it " +
                        (move.plate_holes < 0 ? "back" : "on") + " by " +
                        counted(std::abs(move.plate_holes), "hole") + " of the circle of " +
                        std::to_string(move.plate_circle));
    }
    Diagnostic operator()(const SimpleIndexing& indexing) const {
        return note("simple-indexing", "simple indexing: every facet is " + advance_words(indexing.step) +
                                           on_circle(indexing.circle) + " from the one before it, and " +
                                           (indexing.last ? "the last is " + advance_words(*indexing.last) +
                                                                " from closing on the first"
                                                          : "the last closes on the first"));
    }

    // ---- the finish

    Diagnostic operator()(const ValveHeldOpen& valve) const {
        return finding(Severity::error, "valve-held-open", lobe(valve.lobe),
                       "the ridges, up to " + length(valve.ridge) +
                           " high, would hold the valve open at its clearance: " + finer() +
                           ", or dress them off before the shaft runs");
    }
    Diagnostic operator()(const ValveNeverOpens& valve) const {
        return finding(Severity::error, "valve-never-opens", lobe(valve.lobe),
                       "so much is cut off its flanks, up to " + length(valve.depth) +
                           " below the design, that the valve would never open to its clearance: " + truer());
    }
    Diagnostic operator()(const HighRidges& ridges) const {
        return finding(Severity::warning, "high-ridges", lobe(ridges.lobe),
                       "the ridges stand up to " + length(ridges.ridge) + " above the design: " + finer() +
                           ", or dress them off");
    }
    Diagnostic operator()(const Gouge& gouge) const {
        return finding(
            gouge.depth > most_off_design ? Severity::warning : Severity::note, "gouge", lobe(gouge.lobe),
            "a flank that is set off its place cuts up to " + length(gouge.depth) + " below the design");
    }
    Diagnostic operator()(const LeftOn& left) const {
        return finding(Severity::warning, "left-on", lobe(left.lobe),
                       "a flank that is set off its place is left up to " + length(left.height) +
                           " above the design: " + truer());
    }
    Diagnostic operator()(const OffTime& valve) const {
        return finding(Severity::warning, "off-time", lobe(valve.lobe),
                       "the valve opens " + late_words(valve.opens_late) + " and closes " +
                           late_words(valve.closes_late) + ": " + truer());
    }

  private:
    [[nodiscard]] static Diagnostic note(std::string code, std::string text) {
        return finding(Severity::note, std::move(code), "", std::move(text));
    }
    [[nodiscard]] const std::string& lobe(std::size_t index) const { return subject_.lobes[index].name; }
    [[nodiscard]] std::string length(double mm) const { return length_words(mm, subject_.job.units); }
    [[nodiscard]] std::string finer() const {
        return wheel_ ? "use a wheel with more divisions" : "take a finer step";
    }
    [[nodiscard]] std::string truer() const {
        return wheel_ ? "use a wheel with its marks there, or a vernier" : finer();
    }
    /// "1300 strokes, 0.9 m of feed, about 5 h".
    [[nodiscard]] std::string effort_words(const HandEffort& effort) const {
        return counted(effort.strokes, "stroke") + ", " + run_words(effort.length, subject_.job.units) +
               " of feed, about " + hours_words(effort.minutes);
    }
    /// "action_angle = 130 and at = 95: opens 2.4° of crank late, closes 1° of crank early, overlap 3.4°
    /// more".
    [[nodiscard]] std::string choice_words(const AnglesOnMarks::Choice& choice) const {
        const double more = choice.more_overlap.degrees();
        return "action_angle = " + short_degrees(choice.action_angle.degrees()) +
               " and at = " + short_degrees(full_circle_degrees(choice.at)) + ": opens " +
               late_words(choice.opens_late) + ", closes " + late_words(choice.closes_late) +
               (subject_.job.engine
                    ? ", overlap " + short_degrees(std::abs(more), 2) + "° " + (more < 0.0 ? "less" : "more")
                    : "");
    }
    /// "1° of cam, 2° of crank".
    [[nodiscard]] std::string cam_and_crank(double cam_degrees, const std::string& between) const {
        return short_degrees(cam_degrees) + "° of cam" + between +
               short_degrees(cam_degrees / cam_per_crank(subject_.job)) + "° of crank";
    }
    static std::string late_words(CrankAngle late) {
        const double degrees = late.degrees();
        return short_degrees(std::abs(degrees), 2) + "° of crank " + (degrees < 0.0 ? "early" : "late");
    }

    const Subject& subject_;
    bool wheel_;
};

}  // namespace

Diagnostics findings_of(const Subject& subject, const Remarks& remarks) {
    Diagnostics findings;
    for (const Remark& remark : remarks)
        findings.push_back(std::visit(Finding(subject), remark));
    return findings;
}

}  // namespace lobewright::hand
