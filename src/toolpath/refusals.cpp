#include "toolpath/refusals.h"

#include "base/elementary/elementary.h"
#include "base/text/angle_text.h"
#include "base/text/typed_length.h"
#include "job/complaint.h"
#include "toolpath/setup.h"

#include <lobewright/cutting_data.h>
#include <lobewright/number_text.h>

#include <cmath>

namespace lobewright::toolpath {
namespace {

const Cutter& cutter_of(const Job& job) {
    return job.cutters.find(job.cut->cutter)->second;
}

/// Makes the sentences about one lobe.
class LobeRefusal {
  public:
    LobeRefusal(const Job& job, const std::vector<SolvedLobe>& lobes, std::size_t index)
        : job_(job), lobes_(lobes), lobe_(lobes[index]), cutter_(cutter_of(job)) {}

    Diagnostic operator()(const ShiftTooLarge& why) const {
        return refusal(
            job_, "cut.side_shift", "shift-too-large",
            "side_shift " + length(job_.cut->side_shift) + " puts the cutter beside lobe " + lobe_.name,
            "set it between " + length(-why.most) + " and " + length(why.most));
    }

    Diagnostic operator()(const TooLargeForHollow& why) const {
        return of_cutter(".diameter", "cutter-too-large",
                         name() + " of " + length(cutter_.diameter) +
                             " diameter does not get into the hollow of lobe " + lobe_.name +
                             ", whose radius is " + length(why.hollow_radius),
                         cure_for_hollow(why));
    }

    Diagnostic operator()(const EndTooNarrow& why) const {
        return of_cutter(".diameter", "cutter-too-narrow",
                         "the end of " + name() + ", " + length(cutter_.diameter) +
                             " wide, is too narrow for the contact's way on lobe " + lobe_.name +
                             ": its corner would have to climb the flank",
                         why.smallest_diameter
                             ? "use a diameter of " + at_least(*why.smallest_diameter) + " or more"
                             : "cut it with the side of a parallel cutter");
    }

    Diagnostic operator()(const EdgesTooNarrow& why) const {
        const std::string key = cutter_.kind == CutterKind::disc ? "width" : "flute_length";
        return of_cutter('.' + key, "cutter-too-narrow",
                         "the contact runs " + length(why.travel) + " to the side on lobe " + lobe_.name +
                             ", past the straight edges of " + name() + ", which reach " + length(why.reach) +
                             " either way",
                         "use a " + key + " of " + at_least(why.length) + " or more");
    }

    Diagnostic operator()(const DishTooDeep& why) const {
        const std::string dish =
            "the end of " + name() + ", hollow by " + short_degrees(cutter_.end_dish.degrees()) + " degrees";
        const std::string what =
            std::isfinite(why.crown)
                ? dish + ", leaves the middle of lobe " + lobe_.name + " " + length(why.crown) +
                      " higher than its faces, and the tolerance has room for " + length(why.allowed)
                : dish + ", cuts at the faces of lobe " + lobe_.name +
                      " first and leaves its middle standing under the cutter's axis";
        return refusal(job_, "cut.side_shift", "end-dish", what, cure_for_dish(why));
    }

    Diagnostic operator()(const FlutesTooShort& why) const {
        return of_cutter(".flute_length", "flutes-too-short",
                         "the straight flutes of " + name() + ", " + length(why.straight) +
                             ", do not span lobe " + lobe_.name + ", " + length(lobe_.width) + " wide",
                         "use a flute_length of " + at_least(why.least) +
                             " or more, or a shank thinner than the cutter, so that it can step along");
    }

    Diagnostic operator()(const AxialStepsTooFine& why) const {
        return of_cutter("", "axial-steps-too-fine",
                         name() + " would need axial steps of " + length(why.step) + " on lobe " +
                             lobe_.name + ", " + length(lobe_.width) + " wide, which take too long",
                         job_.machine->cutter_axis == CutterAxis::parallel
                             ? "use a wider cutter"
                             : "use a wider cutter, a coarser tolerance, or the side of a parallel cutter");
    }

    Diagnostic operator()(const HelixTooSlow& why) const {
        return refusal(job_, "cut.along", "helix-too-slow",
                       "a helix over lobe " + lobe_.name + " moves the cutter along the shaft at " +
                           speed(why.speed) + ", and this post's controller runs nothing slower than " +
                           speed(why.least) + ": it would run the block away",
                       "set cut.along = \"steps\", or raise cut.surface_feed");
    }

    Diagnostic operator()(const NeighbourInTheWay& why) const {
        return of_cutter('.' + key_of(why.size), "neighbour-in-the-way",
                         part_words(why.clash.part) + name() + " touches " + obstacle_words(why.clash) +
                             " while it cuts lobe " + lobe_.name + " at full depth",
                         cure_for_clash(why));
    }

    Diagnostic operator()(const RoughedNeighbour& why) const {
        return refusal(job_, "cut.order", "neighbour-in-the-way",
                       part_words(why.clash.part) + name() + " touches " + obstacle_words(why.clash) +
                           ", which is only roughed then, while it roughs lobe " + lobe_.name,
                       "set order = \"by-lobe\", with which it goes clear; or rough deeper");
    }

    Diagnostic operator()(const DepthTooFine& why) const {
        const std::string key = why.roughs ? "rough_depth" : "finish_depth";
        const std::string words =
            why.step > 0.0 ? " and words that step by " + own_figure(why.step, job_.units) + " of radius"
                           : "";
        return refusal(job_, "cut." + key, "depth-too-fine",
                       key + ' ' + own_figure(why.depth, job_.units) + " is too fine for a tolerance of " +
                           own_figure(job_.cut->tolerance, job_.units) + words +
                           ": what one pass leaves uneven the next would take on top of it, on lobe " +
                           lobe_.name,
                       "make " + key + ' ' + at_least(why.least) + " or more, or the tolerance finer");
    }

  private:
    [[nodiscard]] std::string length(double mm) const { return length_words(mm, job_.units); }
    [[nodiscard]] std::string speed(double mm_per_minute) const {
        return own_figure(mm_per_minute, job_.units) + "/min";
    }
    /// A limit that is accepted when it is applied: never above (or never below) `mm`.
    [[nodiscard]] std::string at_most(double mm) const { return typed_below(mm, job_.units).words; }
    [[nodiscard]] std::string at_least(double mm) const { return typed_above(mm, job_.units).words; }
    [[nodiscard]] std::string name() const { return "cutter " + job_.cut->cutter; }
    [[nodiscard]] bool parallel() const { return job_.machine->cutter_axis == CutterAxis::parallel; }

    [[nodiscard]] Diagnostic of_cutter(const std::string& key, std::string code, std::string what,
                                       std::string remedy) const {
        return refusal(job_, "cutter." + job_.cut->cutter + key, std::move(code), std::move(what),
                       std::move(remedy));
    }

    [[nodiscard]] std::string cure_for_hollow(const TooLargeForHollow& why) const {
        if (job_.machine->cutter_axis == CutterAxis::tangential) {
            return "its straight side bridges any hollow: cut with a ball nose by its end, or with a "
                   "parallel cutter";
        }
        if (why.largest_diameter) return "use a diameter of " + at_most(*why.largest_diameter) + " or less";
        return "cut it with a ball nose, or with the side of a parallel cutter, of a diameter below " +
               at_most(2.0 * why.hollow_radius);
    }

    [[nodiscard]] std::string signed_length(double mm, bool above) const {
        const std::string size = above ? at_least(std::abs(mm)) : at_most(std::abs(mm));
        return (mm < 0.0 ? "-" : "") + size;
    }

    [[nodiscard]] std::string cure_for_dish(const DishTooDeep& why) const {
        if (why.works)
            return "set cut.side_shift between " + signed_length(why.works->least, true) + " and " +
                   signed_length(why.works->most, false);
        const std::string others = "use a cutter whose end is less hollow, or the side of a parallel one";
        if (!why.tolerance) return others + ", or a wider cutter with a side_shift";
        return others + "; this one takes a tolerance of " + at_least(*why.tolerance) +
               " or more at a side_shift of " + signed_length(why.shift, false);
    }

    [[nodiscard]] std::string part_words(BodyPart part) const {
        switch (part) {
            case BodyPart::edge:
                return "";
            case BodyPart::holder:
                return "the holder of ";
            case BodyPart::shank:
                break;
        }
        return cutter_.kind == CutterKind::disc ? "the neck of " : "the shank of ";
    }

    [[nodiscard]] std::string obstacle_words(const Clash& clash) const {
        switch (clash.with) {
            case ObstacleKind::finished_lobe:
                return "lobe " + lobes_[clash.index].name;
            case ObstacleKind::blank:
                return "the blank of lobe " + lobes_[clash.index].name;
            case ObstacleKind::journal:
                break;
        }
        return "the journal at z " + length(job_.shaft.journals[clash.index].z);
    }

    [[nodiscard]] std::string key_of(CutterSize size) const {
        switch (size) {
            case CutterSize::width:
                return "width";
            case CutterSize::diameter:
                return "diameter";
            case CutterSize::flute_length:
                return "flute_length";
            case CutterSize::reach:
                return "reach";
            case CutterSize::neck:
                break;
        }
        return cutter_.kind == CutterKind::disc ? "neck_diameter" : "shank_diameter";
    }

    [[nodiscard]] std::string cure_for_clash(const NeighbourInTheWay& why) const {
        switch (why.clash.part) {
            case BodyPart::edge:
                return cure_for_edge(why);
            case BodyPart::holder:
                return why.fits ? "let the cutter stand out of its holder by a reach of " +
                                      at_least(*why.fits) + " or more"
                                : "use a slimmer holder";
            case BodyPart::shank:
                break;
        }
        return cure_for_shank(why);
    }

    [[nodiscard]] std::string cure_for_edge(const NeighbourInTheWay& why) const {
        if (why.size == CutterSize::flute_length) {
            return "the body of a parallel end mill lies over the neighbours: use a disc with a slim neck, "
                   "or a radial cutter";
        }
        if (why.fits) return "use a " + key_of(why.size) + " of " + at_most(*why.fits) + " or less";
        return parallel() ? "use a disc with a slimmer neck, or a radial cutter"
                          : "use a narrow disc parallel to the shaft";
    }

    [[nodiscard]] std::string cure_for_shank(const NeighbourInTheWay& why) const {
        if (!parallel()) {
            return why.fits ? "use a flute_length of " + at_least(*why.fits) + " or more"
                            : "use a shank no thicker than the cutter";
        }
        if (why.fits) return "use a " + key_of(why.size) + " of " + at_most(*why.fits) + " or less";
        return why.larger_cutter
                   ? "use a cutter of " + at_least(*why.larger_cutter) + " diameter or more on the same neck"
                   : "cut it with a radial cutter";
    }

    const Job& job_;
    const std::vector<SolvedLobe>& lobes_;
    const SolvedLobe& lobe_;
    const Cutter& cutter_;
};

}  // namespace

Diagnostic refusal_of(const Job& job, const std::vector<SolvedLobe>& lobes, std::size_t index,
                      const CannotCut& why) {
    return std::visit(LobeRefusal(job, lobes, index), why);
}

Diagnostic refusal_of(const Job& job, const SolvedLobe& lobe, const TooManyPasses& why) {
    return refusal(job, "cut.rough_depth", "too-many-passes",
                   "at a rough_depth of " + length_words(*job.cut->rough_depth, job.units) + " lobe " +
                       lobe.name + " takes " + fixed(why.passes, 0) +
                       " roughing passes from the bar's outside",
                   "make it " + typed_above(why.least_depth, job.units).words +
                       " or more, or mend shaft.blank_diameter");
}

Diagnostic refusal_of(const Job& job, const SolvedLobe& lobe, const FinishTooDeep& why) {
    return refusal(job, job.cut->finish_depth ? "cut.finish_depth" : "cut.rough_depth", "finish-too-deep",
                   "without roughing the finish pass takes " + length_words(why.takes, job.units) +
                       " off lobe " + lobe.name + " at once, and " + length_words(why.most, job.units) +
                       " is the most",
                   "set cut.rough_depth, the depth of a roughing pass; or cut.finish_depth to " +
                       typed_above(why.takes, job.units).words +
                       ", if it may; or, where the lobes stand already, left_on of [stock]");
}

std::optional<Diagnostic> rim_too_fast(const Job& job) {
    const Cutter& cutter = cutter_of(job);
    const double rim = cutting_speed(cutter, job.cut->spindle_speed) / 60.0;
    constexpr double rounding = 1e-9;
    if (!cutter.fastest || rim <= *cutter.fastest * (1.0 + rounding)) return std::nullopt;
    const double most = std::floor(job.cut->spindle_speed * *cutter.fastest / rim);
    return refusal(job, "cut.spindle_speed", "rim-speed",
                   "at " + shortest_fixed(job.cut->spindle_speed, 3) + " rev/min the rim of cutter " +
                       job.cut->cutter + " runs at " + fixed(rim, 1) + " m/s, and its fastest is " +
                       shortest_fixed(*cutter.fastest, 2) + " m/s",
                   "set spindle_speed to " + shortest_fixed(most, 0) + " or less");
}

namespace {

Diagnostic warning(const Job& job, const std::string& key, std::string code, std::string what,
                   std::string remedy) {
    Diagnostic made = refusal(job, "cutter." + job.cut->cutter + '.' + key, std::move(code), std::move(what),
                              std::move(remedy));
    made.severity = Severity::warning;
    return made;
}

}  // namespace

Diagnostics wear_warnings(const Job& job, double lean, int lobes) {
    const Cutter& wheel = cutter_of(job);
    const double each = wheel.wear_per_lobe.value_or(0.0), tolerance = job.cut->tolerance;
    Diagnostics found;
    if (each > tolerance)
        found.push_back(warning(job, "wear_per_lobe", "wheel-wear",
                                "the wheel loses " + own_figure(each, job.units) +
                                    " of radius on a lobe, more than the tolerance of " +
                                    own_figure(tolerance, job.units) +
                                    ", and what it loses is made up for on the next lobe only",
                                "leave less stock for it, or take a harder wheel"));
    const double all = worn_after(wheel, lobes);
    const double left = all * (1.0 - elementary::cos(lean));
    if (left > tolerance)
        found.push_back(warning(job, "diameter", "wheel-size",
                                "the wheel is " + own_figure(2.0 * all, job.units) +
                                    " smaller in diameter after this shaft: with the zero set anew, the same "
                                    "program would then leave " +
                                    own_figure(left, job.units) + " on the flanks of the next one",
                                "measure the wheel and make the program anew for each shaft"));
    return found;
}

Diagnostic refusal_of(const Job& job, const SolvedLobe& lobe, const RotaryReach& reach,
                      const ReachTooShort& why) {
    const auto radians = [](double degrees) { return ShaftAngle::from_degrees(degrees).radians(); };
    const std::string who = reach.of_axis ? "limits.rotary_travel" : "the post";
    return refusal(
        job, reach.of_axis ? "machine.limits.rotary_travel" : "machine.post", "rotary-travel-too-short",
        "one pass over lobe " + lobe.name + " turns the shaft by " + degrees_above(radians(why.turn)) +
            " degrees without a stop, its overlap, its ways in and out and its spring passes "
            "with it, and " +
            who + " lets the rotary word go " + short_degrees(reach.degrees) + " either side of zero",
        "it takes " + degrees_above(radians(why.least)) +
            (job.cut->spring_passes > 0 ? ", or less with fewer spring_passes" : "") +
            "; an axis that turns less than 360 degrees and the overlap cuts no lobe in one pass");
}

Diagnostic remark_on(const Job& job, const DeadMiddle& why) {
    Diagnostic warning =
        refusal(job, "cut.side_shift", "dead-middle",
                "the heel of the lobes runs under the middle of the end of cutter " + job.cut->cutter +
                    ", where its teeth stand all but still: it rubs there, and does not cut",
                "set cut.side_shift to " + typed_above(why.least_shift, job.units).words +
                    " or more, to either side; from " + typed_above(why.off_all_round, job.units).words +
                    " on the whole lobe keeps off the middle, where the end is wide enough");
    warning.severity = Severity::warning;
    return warning;
}

Diagnostic refusal_of(const Job& job, const SolvedLobe& lobe, const WordGrid& grid, const RunsAway& why) {
    const auto& rate = job.machine->limits.blocks_per_second;
    const std::string blocks = why.blocks == 1 ? "a block" : std::to_string(why.blocks) + " blocks";
    return refusal(
        job, rate ? "machine.limits.blocks_per_second" : "cut.tolerance", "controller-runs-away",
        blocks + " of lobe " + lobe.name + (why.blocks == 1 ? " moves" : " and after move") +
            " the radial axis so little that the controller would turn the shaft faster than planned: it "
            "runs no linear motion slower than " +
            own_figure(grid.least_linear_feed, job.units) + " a minute" +
            (rate ? ", and takes " + shortest_fixed(*rate, 3) + " blocks a second" : ""),
        std::string("use a coarser tolerance or a faster surface_feed, ") +
            (rate ? "say more blocks_per_second where the controller takes them, " : "") +
            (job.units == Units::inch ? "write the job in mm, in which the controller runs a 25th as slow, "
                                      : "") +
            "or a post for a controller that has no least linear feed");
}

Diagnostic refusal_of_passes(const Job& job) {
    return refusal(
        job, "cut.cutter", "too-many-passes",
        "the lobes take more than " + fixed(most_passes, 0) + " passes in all",
        "use a wider cutter, a larger rough_depth or fewer spring_passes, or part the job in several");
}

Diagnostic refusal_of_grid(const Job& job, const WordGrid& grid) {
    return refusal(job, "cut.tolerance", "tolerance-too-fine",
                   "a tolerance of " + own_figure(job.cut->tolerance, job.units) +
                       " is too fine for the words of this post, which step by " +
                       own_figure(grid.radial_step, job.units) + " of radius",
                   "use a coarser tolerance, or a post with more decimals");
}

}  // namespace lobewright::toolpath
