#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "hand/wording/sentences.h"
#include "job/complaint.h"

#include <lobewright/number_text.h>

#include <algorithm>

namespace lobewright::hand {
namespace {

/// Makes the complaint about one obstacle, whichever it is.
class Complaint {
  public:
    explicit Complaint(const Subject& subject) : subject_(subject), job_(subject.job) {}

    // ---- along the shaft

    Diagnostic operator()(const ToolTooWide& tool) const {
        return at_method(method().tool_width ? "tool_width" : "cutter", "tool-too-wide",
                         about(tool.lobe) + "a tool of " + length(tool.width) + " on it would cut into " +
                             name(tool.beside) + ", " + length(tool.gap) + " beside it",
                         "use a tool of at most " + length(lobe(tool.lobe).width + 2.0 * tool.gap) +
                             ", or no wider than the lobe");
    }
    Diagnostic operator()(const NoRoomAlong& tool) const {
        return at_method("travel", "no-room-along",
                         about(tool.lobe) + "with the slide locked, a tool of " + length(tool.width) +
                             " has nowhere to begin: beside the lobe there is room for " + length(tool.gap),
                         "use a narrower tool, or travel = \"plunge\"");
    }
    Diagnostic operator()(const CutterFouls& cutter) const {
        return at_method("cutter", "cutter-fouls",
                         about(cutter.lobe) + "a cutter that lies along the shaft there also cuts into " +
                             name(cutter.towards_drive_end) + " towards the drive end, or into " +
                             name(cutter.away_from_it) + " away from it",
                         "use cutter_axis = \"radial\", or a disc no wider than the lobe and its gaps, with "
                         "a neck that clears the blank");
    }

    // ---- offset fixture

    Diagnostic operator()(const NotArcs& lobe) const {
        if (this->lobe(lobe.lobe).opening_arcs) {
            return at_profile(lobe.lobe, ".flank_radius", "not-arcs",
                              about(lobe.lobe) +
                                  "an offset fixture cuts flanks that are alike and spring from the base "
                                  "circle, and these differ or have ramps",
                              "cut it with a dividing head or a rotary table, or give both flanks one radius "
                              "and no ramps: " +
                                  cure(lobe.cure));
        }
        return at_profile(lobe.lobe, ".shape", "not-arcs",
                          about(lobe.lobe) +
                              "an offset fixture cuts circular flanks only, and this profile is a law of "
                              "motion",
                          "cut it with a dividing head or a rotary table, or make the profile shape = "
                          "\"arcs\": with the same base radius, lift and action angle, " +
                              cure(lobe.cure));
    }
    Diagnostic operator()(const FlankNotConvex& flank) const {
        return at_profile(
            flank.lobe, ".flank_radius", flank.hollow ? "hollow-flank" : "straight-flank",
            about(flank.lobe) + (flank.hollow ? "a swinging shaft cuts convex flanks, and these are hollow"
                                              : "straight flanks ask for an endless offset"),
            cure(flank.cure));
    }
    Diagnostic operator()(const NoseTooRound& nose) const {
        return at_profile(
            nose.lobe, ".action_angle", "nose-too-round",
            about(nose.lobe) + "its nose goes round more than half a turn, so that no file rolls off it",
            "give it a smaller action angle, or cut it with a dividing head or a rotary table");
    }
    Diagnostic operator()(const FlankMisfits& flank) const {
        return at_profile(flank.lobe, ".flank_radius", "flank-radius",
                          about(flank.lobe) + "its flank radius of " + length(flank.flank_radius) +
                              " needs an offset of " + length(flank.own_offset) + ", and the fixture's is " +
                              length(flank.offset),
                          cure(flank.cure));
    }
    Diagnostic operator()(const NoNoseLeft& nose) const {
        return at_method("offset", "no-offset",
                         about(nose.lobe) + "no offset leaves it a nose between convex flanks",
                         "raise its action angle or base radius, or lower its lift");
    }
    Diagnostic operator()(const NoRoomForOffset& room) const {
        return at_method("offset", "no-offset",
                         "the lobes need an offset " + length(room.least) +
                             " or more, and the lathe swings the blank only up to " + length(room.most),
                         "raise the action angle or the base radius, or use a lathe with more swing");
    }
    Diagnostic operator()(const NoOffset& offset) const {
        return at_method("offset", "no-offset",
                         "no offset is given, and the lobes as written don't ask for one and the same; every "
                         "lobe has a nose with an offset above " +
                             length(offset.least) + (offset.most ? " and up to " + length(*offset.most) : ""),
                         "for example offset = " + length(offset.suggested) + ", and " + profiles(offset));
    }
    Diagnostic operator()(const WheelSwings& wheel) const {
        return at_method("wheel_diameter", "swing",
                         "the wheel swings a circle of " + length(wheel.circle) +
                             ", and over the bed there is room for " + length(wheel.room),
                         wheel.largest_wheel > 0.0 ? "use a wheel of at most " + length(wheel.largest_wheel)
                                                   : "use a lathe with more swing, or a smaller offset");
    }
    Diagnostic operator()(const BlankSwings& blank) const {
        const bool bed = blank.over == SwingsOver::bed;
        return at_method(bed ? "swing_over_bed" : "swing_over_cross_slide", "swing",
                         "the blank swings a circle of " + length(blank.circle) + ", and over " +
                             (bed ? "the bed" : "the cross slide") + " there is room for " +
                             length(blank.room),
                         "use an offset of at most " + length(blank.largest_offset) +
                             ", with flanks to match, or a lathe with more swing");
    }
    Diagnostic operator()(const TooManyPasses& passes) const {
        return at_method("infeed", "too-many-passes",
                         "at an infeed of " + length(passes.infeed) + " the first cut takes " +
                             fixed(passes.passes, 0) + " passes from the bar's outside",
                         "take deeper passes, or mend shaft.blank_diameter");
    }

    // ---- dividing head, rotary table

    Diagnostic operator()(const OddVernier& vernier) const {
        return at_method("vernier", "vernier",
                         "the vernier's step of " + short_degrees(vernier.step.degrees(), 9) +
                             "° is finer than a second, or does not go into a whole turn",
                         "give the table's smallest setting, as 0.0166667 for a minute");
    }
    Diagnostic operator()(const NoCircleCloses&) const {
        return at_method(
            "plates", "plates", "on none of these circles does a turn of the work end in a hole",
            "give the plates' circles, and the head's ratio as turns of the crank in one turn of the work");
    }
    Diagnostic operator()(const GridTooCoarse& grid) const {
        return at_method("cusp", "cusp",
                         "no even step and its halves on these circles keep every ridge within " +
                             length(grid.cusp) + "; the finest, " + short_degrees(grid.finest.degrees(), 4) +
                             "° a space, leaves " +
                             (grid.ridge ? length(*grid.ridge) : "walls between the cuts"),
                         "raise cusp, or give plates (or a vernier) that divide finer");
    }
    Diagnostic operator()(const TooManyFacets& facets) const {
        const bool by_step = method().step.has_value();
        return at_method(by_step ? "step" : "cusp", "too-many-facets",
                         "that takes " + fixed(facets.count, 0) + " facets or more on each lobe",
                         by_step ? "take a wider step" : "raise cusp");
    }
    Diagnostic operator()(const CutsApart& cuts) const {
        const std::string at_this_step = about(cuts.lobe) + "at this step ";
        if (!cuts.cutter_radius)
            return at_method("step", "step-too-wide", at_this_step + "neighbouring flats do not meet",
                             "take a finer step, on plates (or a vernier) that divide finer");
        return at_method("step", "step-too-wide",
                         at_this_step + "the cuts of a cutter of " + length(2.0 * *cuts.cutter_radius) +
                             " diameter leave walls between them",
                         "take a finer step, or a larger cutter");
    }
    Diagnostic operator()(const HollowTooTight& hollow) const {
        const std::string less = "less than " + length(2.0 * hollow.hollow_radius) + " diameter";
        if (!hollow.cutter_radius)
            return at_profile(hollow.lobe, "", "hollow",
                              about(hollow.lobe) + "flats can't make its hollow flanks of radius " +
                                  length(hollow.hollow_radius),
                              "cut with the side of a cutter of " + less +
                                  " (cutter_axis = \"parallel\"), or give the lobe convex flanks");
        return at_method("cutter", "hollow",
                         about(hollow.lobe) + "a cutter of " + length(2.0 * *hollow.cutter_radius) +
                             " diameter does not fit its hollow flanks of radius " +
                             length(hollow.hollow_radius),
                         "use one of " + less);
    }

  private:
    [[nodiscard]] Diagnostic at_method(const std::string& key, std::string code, std::string what,
                                       std::string remedy) const {
        return refusal(job_, "hand." + subject_.method + '.' + key, std::move(code), std::move(what),
                       std::move(remedy));
    }
    /// `key` begins with its point; empty: the profile as a whole.
    [[nodiscard]] Diagnostic at_profile(std::size_t index, const std::string& key, std::string code,
                                        std::string what, std::string remedy) const {
        return refusal(job_, "profile." + profile(index) + key, std::move(code), std::move(what),
                       std::move(remedy));
    }

    [[nodiscard]] const HandMethod& method() const { return job_.hand.at(subject_.method); }
    [[nodiscard]] const SolvedLobe& lobe(std::size_t index) const { return subject_.lobes[index]; }
    [[nodiscard]] const std::string& profile(std::size_t index) const {
        return job_.lobes[lobe(index).entry].profile;
    }
    [[nodiscard]] std::string length(double mm) const { return length_words(mm, job_.units); }
    [[nodiscard]] std::string about(std::size_t index) const { return "lobe \"" + lobe(index).name + "\": "; }
    [[nodiscard]] std::string name(const Neighbour& neighbour) const {
        if (neighbour.kind == Neighbour::Kind::lobe) return "lobe \"" + lobe(neighbour.index).name + '"';
        return "journal " + std::to_string(neighbour.index + 1);
    }

    [[nodiscard]] std::string cure(const FlankCure& flank) const {
        return std::visit([&](const auto& found) { return cure_words(found); }, flank);
    }
    [[nodiscard]] std::string cure_words(const NoFlankFits&) const {
        return "no convex flank does: raise the action angle or the base radius, or lower the lift";
    }
    [[nodiscard]] std::string cure_words(const OffsetTooSmall& offset) const {
        return "this lobe needs an offset above " + length(offset.least) +
               ", where its nose comes to nothing; " + length(offset.suggested) + " leaves a nose of " +
               length(offset.nose);
    }
    [[nodiscard]] std::string cure_words(const FlankFits& flank) const {
        return "flank_radius = " + length(flank.flank_radius) +
               " (without nose_radius) fits, and leaves a nose of " + length(flank.nose);
    }

    /// "in [profile.inlet] flank_radius = 26 mm (nose 2.5 mm); in ..."
    [[nodiscard]] std::string profiles(const NoOffset& offset) const {
        std::string text;
        for (const auto& each : offset.profiles)
            text += (text.empty() ? "" : "; ") + ("in [profile." + profile(each.lobe) + "] ") +
                    (lobe(each.lobe).arcs ? "" : "shape = \"arcs\" and ") +
                    "flank_radius = " + length(each.flank_radius) + " (nose " + length(each.nose) + ")";
        return text;
    }

    const Subject& subject_;
    const Job& job_;
};

}  // namespace

Diagnostics complaints_about(const Subject& subject, const Obstacles& obstacles) {
    Diagnostics complaints;
    for (const Obstacle& obstacle : obstacles)
        complaints.push_back(std::visit(Complaint(subject), obstacle));
    return complaints;
}

}  // namespace lobewright::hand
