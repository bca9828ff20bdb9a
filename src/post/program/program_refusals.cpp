#include "post/program/program_refusals.h"

#include "base/text/length_text.h"
#include "base/text/typed_length.h"
#include "post/program/program_header.h"

#include <lobewright/number_text.h>

namespace lobewright::post {
namespace {

/// A block's time that rounding of F changes by more than this is worth a warning.
constexpr double worth_telling = 0.01;

Diagnostic of_post(const Job& job, std::string code, std::string what, std::string remedy) {
    return {Fault::check_failed, Severity::error,   std::move(code),
            std::move(what),     std::move(remedy), job.place_of("machine.post")};
}

Diagnostic feed_too_low(const Job& job, const Dialect& dialect, const FeedOutOfRange& feed) {
    const std::string lowest =
        dialect.feed_lowest ? shortest_fixed(*dialect.feed_lowest, 9) : digits(1, dialect.feed_decimals);
    return of_post(job, "feed-too-low",
                   "a block of " + shortest_fixed(feed.seconds, 4) + " s needs F" +
                       shortest_fixed(feed.exact, 9) + ", and " + dialect.name + " takes F" + lowest +
                       " at least",
                   "take a dialect with inverse time (or, if the controller can, more decimals of F), "
                   "or raise cut.surface_feed");
}

Diagnostic feed_too_high(const Job& job, const Dialect& dialect, const FeedOutOfRange& feed) {
    return of_post(job, "feed-too-high",
                   "a block of " + shortest_fixed(feed.seconds, 6) + " s needs F" +
                       shortest_fixed(feed.exact, 3) + ", and " + dialect.name + " takes F" +
                       shortest_fixed(*dialect.feed_highest, 3) + " at most",
                   "lower cut.surface_feed, or set machine.limits.blocks_per_second");
}

Diagnostic feed_rounded(const Job& job, const Dialect& dialect, double slowed) {
    Diagnostic warning = of_post(job, "feed-rounded",
                                 "the decimals of F in " + dialect.name + " make a block up to " +
                                     shortest_fixed(100.0 * slowed, 1) + " % slower than planned",
                                 "give feed.decimals what the controller takes, or take inverse time");
    warning.severity = Severity::warning;
    return warning;
}

Diagnostic block_too_long(const Job& job, const Dialect& dialect, double degrees) {
    return of_post(job, "block-too-long",
                   "a block turns the shaft by " + shortest_fixed(degrees, 6) + " degrees, and " +
                       dialect.name + " allows " + shortest_fixed(dialect.longest_rotary_block, 6) +
                       " in one block",
                   "plan the path for this dialect's longest_block");
}

Diagnostic rotary_word_too_large(const Job& job, const Dialect& dialect, double degrees) {
    return of_post(job, "rotary-word-too-large",
                   "the rotary word runs on to " + shortest_fixed(degrees, 3) + " degrees, and " +
                       dialect.name + " takes " + shortest_fixed(dialect.largest_rotary, 3) + " at most",
                   "plan the path for this dialect's largest");
}

/// Only a remark: most controllers that take such words at all reckon finely enough.
Diagnostic rotary_word_coarse(const Job& job, const Dialect& dialect, double degrees) {
    Diagnostic remark =
        of_post(job, "rotary-precision",
                "the rotary word runs on to " + shortest_fixed(degrees, 0) +
                    " degrees: a controller that reckons in single precision holds no word beyond " +
                    shortest_fixed(single_precision_reach, 0) + " to 0.001 degrees",
                "say which it is as axes.rotary.precision of " + dialect.name +
                    " (\"single\" or \"double\"): with \"single\" the shaft winds back in time");
    remark.severity = Severity::note;
    return remark;
}

Diagnostic line_too_long(const Job& job, const Dialect& dialect, const std::string& line) {
    return of_post(job, "line-too-long",
                   "the line \"" + line + "\" has " + std::to_string(line.size()) + " characters, and " +
                       dialect.name + " allows " + std::to_string(dialect.longest_line),
                   "raise lines.longest, or shorten the dialect's words");
}

}  // namespace

namespace {

bool stops_for_dressing(const Job& job) {
    return job.cutters.find(job.cut->cutter)->second.dress_every.has_value();
}

}  // namespace

Diagnostics dialect_refusals(const Job& job, const Dialect& dialect) {
    Diagnostics refusals;
    if (stops_for_dressing(job) && dialect.stop.empty())
        refusals.push_back(
            of_post(job, "no-stop",
                    "the wheel is to be dressed on the way, and " + dialect.name + " has no word for a stop",
                    "give the dialect program.stop, or remove dress_every"));
    if (dialect.feed_mode == FeedMode::per_minute && !dialect.feed_counts) {
        refusals.push_back(
            of_post(job, "no-rule-for-feed",
                    dialect.name + " has no inverse time, and no rule by which its feed per minute counts "
                                   "a block of linear and rotary motion: no F gives a block its time",
                    "find the rule in the machine's manual and write it as feed.counts of the dialect, or "
                    "take a dialect with inverse time"));
    }
    if (dialect.only_units && *dialect.only_units != job.units) {
        refusals.push_back(of_post(job, "wrong-units",
                                   dialect.name + " reads " + units_key(*dialect.only_units) +
                                       " only, and the job is in " + units_key(job.units),
                                   std::string("write the job in ") + units_key(*dialect.only_units)));
    }
    if (job.cut->blend > 0.0 && dialect.blend_word.empty()) {
        refusals.push_back(of_post(job, "no-blending",
                                   dialect.name + " has no word for path blending with a tolerance",
                                   "leave cut.blend out"));
    }
    return refusals;
}

Diagnostic place_too_near(const Job& job, double radial) {
    return {Fault::check_failed,
            Severity::error,
            "tool-change-near",
            "the place where tools change, radial = " +
                length_words(job.machine->tool_change->radial, job.units) +
                ", lies within the clearance of the blank and the journals",
            "put it at " + length_words(radial, job.units) + " at least: there rapids run",
            job.place_of("machine.tool_change.radial")};
}

Diagnostic no_resting_place(const Job& job, const Dialect& dialect) {
    return {Fault::check_failed,
            Severity::warning,
            "no-tool-change-place",
            "nothing says where the cutter is put in: the program begins and ends just outside the blank's "
            "clearance",
            "set machine.tool_change = { radial, axial }, or write the machine's own way home into " +
                dialect.name + " (program.home)",
            job.place_of("machine.tool_change")};
}

Diagnostics fit_complaints(const Job& job, const Dialect& dialect, const WordGrid& grid,
                           const DialectFit& fit) {
    Diagnostics found;
    const double longest = dialect.longest_rotary_block, largest = dialect.largest_rotary;
    const double slack = grid.rotary_step / 2.0;
    if (longest > 0.0 && fit.longest_turn > longest + slack)
        found.push_back(block_too_long(job, dialect, fit.longest_turn));
    if (largest > 0.0 && fit.farthest > largest + slack)
        found.push_back(rotary_word_too_large(job, dialect, fit.farthest));
    const bool may_be_coarse =
        dialect.reckoning == Reckoning::unknown && dialect.rotary_range == RotaryRange::runs_on;
    if (may_be_coarse && fit.farthest > single_precision_reach + slack)
        found.push_back(rotary_word_coarse(job, dialect, fit.farthest));
    if (fit.too_slow) found.push_back(feed_too_low(job, dialect, *fit.too_slow));
    if (fit.too_fast) found.push_back(feed_too_high(job, dialect, *fit.too_fast));
    if (fit.slowed > worth_telling) found.push_back(feed_rounded(job, dialect, fit.slowed));
    if (!fit.too_long_line.empty()) found.push_back(line_too_long(job, dialect, fit.too_long_line));
    return found;
}

}  // namespace lobewright::post
