#include "base/whole_steps.h"
#include "post/move_words.h"
#include "post/program_header.h"
#include "post/program_lines.h"

#include <lobewright/number_text.h>
#include <lobewright/program_writer.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdlib>

namespace lobewright {
namespace {

/// A block's time that rounding of F changes by more than this is worth a warning.
constexpr double worth_telling = 0.01;

Diagnostic refusal(const Job& job, std::string code, std::string what, std::string remedy) {
    return {Fault::check_failed, Severity::error,   std::move(code),
            std::move(what),     std::move(remedy), job.place_of("machine.post")};
}

std::string units_name(Units units) {
    return units == Units::mm ? "mm" : "inch";
}

/// Everything about the dialect that no path can cure.
Diagnostics dialect_refusals(const Job& job, const Dialect& dialect) {
    Diagnostics refusals;
    if (dialect.feed_mode == FeedMode::per_minute && !dialect.feed_counts) {
        refusals.push_back(
            refusal(job, "no-rule-for-feed",
                    dialect.name + " has no inverse time, and no rule by which its feed per minute counts "
                                   "a block of linear and rotary motion: no F gives a block its time",
                    "find the rule in the machine's manual and write it as feed.counts of the dialect, or "
                    "take a dialect with inverse time"));
    }
    if (dialect.only_units && *dialect.only_units != job.units) {
        refusals.push_back(refusal(job, "wrong-units",
                                   dialect.name + " reads " + units_name(*dialect.only_units) +
                                       " only, and the job is in " + units_name(job.units),
                                   "write the job in " + units_name(*dialect.only_units)));
    }
    if (job.cut->blend > 0.0 && dialect.blend_word.empty()) {
        refusals.push_back(refusal(job, "no-blending",
                                   dialect.name + " has no word for path blending with a tolerance",
                                   "leave cut.blend out"));
    }
    return refusals;
}

class Writer {
  public:
    Writer(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path, const Dialect& dialect)
        : job_(job),
          lobes_(lobes),
          path_(path),
          dialect_(dialect),
          lines_(dialect),
          axes_(dialect, job.units),
          inverse_(dialect.feed_mode == FeedMode::inverse_time) {}

    Outcome<std::string> write() {
        if (dialect_.percent_lines) lines_.bare("%");
        if (!dialect_.program_number.empty()) lines_.bare(dialect_.program_number);
        notes();
        modes();
        for (const std::string& line : dialect_.header)
            template_line(line);
        start();
        moves();
        finish();
        if (dialect_.percent_lines) lines_.bare("%");
        return outcome();
    }

  private:
    void notes() {
        AxisWords words(dialect_, job_.units);
        const std::string start = words.radial(path_.start.radial) + ' ' + words.axial(path_.start.axial) +
                                  ' ' + words.rotary(path_.start.rotary);
        for (const std::string& note : header_notes(job_, lobes_, path_, dialect_, start))
            lines_.comment(note);
    }

    /// Every mode that the program relies on, whatever state the machine was left in.
    void modes() {
        const std::string units = job_.units == Units::mm ? dialect_.mm_word : dialect_.inch_word;
        lines_.block({dialect_.plane_word, units, dialect_.absolute_word},
                     std::string(job_.units == Units::mm ? "millimetres" : "inches") + ", absolute");
        lines_.block(dialect_.cancel_words, "offsets and cycles off");
        lines_.block({dialect_.radial.diameter ? dialect_.diameter_word : dialect_.radius_word},
                     dialect_.radial.diameter ? "diameters" : "radii");
        if (!dialect_.work_offset_words.empty()) {
            lines_.block({dialect_.work_offset_words.front()}, "the zeros said above");
        }
        if (path_.grid.blend_tolerance > 0.0) {
            std::string blend = dialect_.blend_word;
            replace_place(blend, "tolerance",
                          shortest_fixed(path_.grid.blend_tolerance / mm_per(job_.units),
                                         job_.units == Units::mm ? 4 : 6));
            lines_.line(blend);
        } else {
            lines_.block({dialect_.exact_path_word}, "exact path");
        }
    }

    void start() {
        lines_.line(with_places(dialect_.tool_change));
        lines_.block({"S" + shortest_fixed(job_.cut->spindle_speed, 3), dialect_.spindle_on_cw});
        lines_.line(dialect_.spindle_wait);
        lines_.block({dialect_.coolant_on});
        lines_.block({dialect_.rapid_word, axes_.radial(path_.start.radial)}, "away from the shaft first");
        lines_.block({dialect_.rapid_word, axes_.axial(path_.start.axial)});
        lines_.block({dialect_.rapid_word, axes_.rotary(path_.start.rotary)});
        motion_ = dialect_.rapid_word;
        at_ = path_.start;
        farthest_ = degrees_of(std::llabs(at_.rotary));
        if (inverse_) {
            lines_.block({dialect_.inverse_time_word}, dialect_.inverse_unit == InverseUnit::seconds
                                                           ? "inverse time: F is the block's seconds"
                                                           : "inverse time: F is 1 / the block's minutes");
        } else {
            lines_.block({dialect_.per_minute_word}, "feed per minute: F gives each block its planned time");
        }
    }

    void moves() {
        auto pass = path_.passes.begin();
        for (std::size_t i = 0; i < path_.moves.size(); ++i) {
            for (; pass != path_.passes.end() && pass->first == i; ++pass) {
                lines_.comment(pass_note(job_, lobes_, *pass, dialect_));
                motion_.clear();  // each pass says anew how it moves
            }
            const Move& move = path_.moves[i];
            if (move.to == at_) continue;
            check_rotation(move);
            if (move.kind == MoveKind::rapid) {
                rapid(move.to);
            } else {
                feed(move);
            }
        }
    }

    /// A rapid that turns further than the dialect allows in one block goes in equal parts.
    void rapid(const Words& to) {
        const double degrees = rotation(to);
        const double longest = dialect_.longest_rotary_block;
        const long long parts = longest > 0.0 ? std::max(1LL, step_above(degrees / longest)) : 1LL;
        const Words from = at_;
        for (long long part = 1; part <= parts; ++part) {
            const auto between = [&](long long a, long long b) { return a + (b - a) * part / parts; };
            put(dialect_.rapid_word,
                {between(from.radial, to.radial), between(from.axial, to.axial),
                 between(from.rotary, to.rotary)},
                {});
        }
    }

    void feed(const Move& move) {
        assert(move.seconds > 0.0);
        const FeedNumber number = feed_number(dialect_, job_.units, path_.grid, at_, move.to, move.seconds);
        judge_feed(number, move);
        std::string token = 'F' + number_token(number.steps, dialect_.feed_decimals, dialect_);
        if (token == printed_feed_ && !inverse_ && !dialect_.repeat_feed) {
            token.clear();
        } else {
            printed_feed_ = token;
        }
        put(dialect_.feed_word, move.to, token);
    }

    void put(const std::string& motion, const Words& to, const std::string& feed) {
        std::vector<std::string> words = axes_.move_to(to);
        words.push_back(feed);
        if (motion != motion_ || dialect_.repeat_modal_g) words.push_back(motion);
        motion_ = motion;
        at_ = to;
        lines_.block(std::move(words));
    }

    void finish() {
        if (inverse_) lines_.block({dialect_.per_minute_word}, "feed per minute again");
        lines_.block({dialect_.coolant_off});
        lines_.block({dialect_.spindle_off});
        for (const std::string& line : dialect_.footer)
            template_line(line);
        lines_.block({dialect_.program_end});
    }

    [[nodiscard]] double rotation(const Words& to) const {
        return degrees_of(std::llabs(to.rotary - at_.rotary));
    }

    [[nodiscard]] double degrees_of(long long steps) const {
        return static_cast<double>(steps) * path_.grid.rotary_step;
    }

    void check_rotation(const Move& move) {
        if (move.kind == MoveKind::feed) longest_turn_ = std::max(longest_turn_, rotation(move.to));
        farthest_ = std::max(farthest_, degrees_of(std::llabs(move.to.rotary)));
    }

    /// Remembers the worst of the feeds that the dialect can't take, and what rounding does to the time.
    void judge_feed(const FeedNumber& number, const Move& move) {
        if (number.steps <= 0 || (dialect_.feed_lowest && number.printed < *dialect_.feed_lowest)) {
            if (!too_slow_ || number.exact < too_slow_->exact) too_slow_ = {number.exact, move.seconds};
            return;
        }
        if (dialect_.feed_highest && number.printed > *dialect_.feed_highest) {
            if (!too_fast_ || number.exact > too_fast_->exact) too_fast_ = {number.exact, move.seconds};
        }
        slowed_ = std::max(slowed_, std::abs(number.exact / number.printed - 1.0));
    }

    Outcome<std::string> outcome() {
        Diagnostics complaints;
        rotation_complaints(complaints);
        feed_complaints(complaints);
        if (!lines_.too_long().empty()) {
            complaints.push_back(refusal(
                job_, "line-too-long",
                "the line \"" + lines_.too_long() + "\" has " + std::to_string(lines_.too_long().size()) +
                    " characters, and " + dialect_.name + " allows " + std::to_string(dialect_.longest_line),
                "raise lines.longest, or shorten the dialect's words"));
        }
        if (has_errors(complaints)) return complaints;
        return {lines_.text(), std::move(complaints)};
    }

    void rotation_complaints(Diagnostics& complaints) const {
        const double longest = dialect_.longest_rotary_block;
        const double slack = path_.grid.rotary_step / 2.0;
        if (longest > 0.0 && longest_turn_ > longest + slack) {
            complaints.push_back(refusal(job_, "block-too-long",
                                         "a block turns the shaft by " + shortest_fixed(longest_turn_, 6) +
                                             " degrees, and " + dialect_.name + " allows " +
                                             shortest_fixed(longest, 6) + " in one block",
                                         "plan the path for this dialect's longest_block"));
        }
        if (dialect_.largest_rotary > 0.0 && farthest_ > dialect_.largest_rotary + slack) {
            complaints.push_back(refusal(
                job_, "rotary-word-too-large",
                "the rotary word runs on to " + shortest_fixed(farthest_, 3) + " degrees, and " +
                    dialect_.name + " takes " + shortest_fixed(dialect_.largest_rotary, 3) + " at most",
                "cut fewer lobes in one program, or with fewer passes (cut.rough_depth)"));
        }
    }

    void feed_complaints(Diagnostics& complaints) const {
        if (too_slow_) {
            complaints.push_back(
                refusal(job_, "feed-too-low",
                        "a block of " + shortest_fixed(too_slow_->seconds, 4) + " s needs F" +
                            shortest_fixed(too_slow_->exact, 9) + ", and " + dialect_.name + " takes F" +
                            lowest_text() + " at least",
                        "take a dialect with inverse time (or, if the controller can, more decimals of F), "
                        "or raise cut.surface_feed"));
        }
        if (too_fast_) {
            complaints.push_back(refusal(job_, "feed-too-high",
                                         "a block of " + shortest_fixed(too_fast_->seconds, 6) +
                                             " s needs F" + shortest_fixed(too_fast_->exact, 3) + ", and " +
                                             dialect_.name + " takes F" +
                                             shortest_fixed(*dialect_.feed_highest, 3) + " at most",
                                         "lower cut.surface_feed, or set machine.limits.blocks_per_second"));
        }
        if (slowed_ > worth_telling) {
            Diagnostic warning =
                refusal(job_, "feed-rounded",
                        "the decimals of F in " + dialect_.name + " make a block up to " +
                            shortest_fixed(100.0 * slowed_, 1) + " % slower than planned",
                        "give feed.decimals what the controller takes, or take inverse time");
            warning.severity = Severity::warning;
            complaints.push_back(std::move(warning));
        }
    }

    [[nodiscard]] std::string lowest_text() const {
        const std::string step = digits(1, dialect_.feed_decimals);
        return dialect_.feed_lowest ? shortest_fixed(*dialect_.feed_lowest, 9) : step;
    }

    static void replace_place(std::string& line, const std::string& name, const std::string& value) {
        const std::string place = '{' + name + '}';
        for (std::size_t i = line.find(place); i != std::string::npos;
             i = line.find(place, i + value.size())) {
            line.replace(i, place.size(), value);
        }
    }

    [[nodiscard]] std::string with_places(std::string line) const {
        AxisWords start(dialect_, job_.units);
        const auto number = [](const std::string& word) { return word.substr(1); };
        const std::pair<const char*, std::string> places[] = {
            {"title", comment_text(job_.title, dialect_)},
            {"job", comment_text(file_name(job_.file), dialect_)},
            {"dialect", dialect_.name},
            {"cutter", comment_text(job_.cut->cutter, dialect_)},
            {"tool", "1"},
            {"speed", shortest_fixed(job_.cut->spindle_speed, 3)},
            {"units", units_name(job_.units)},
            {"start_radial", number(start.radial(path_.start.radial))},
            {"start_axial", number(start.axial(path_.start.axial))},
            {"start_rotary", number(start.rotary(path_.start.rotary))}};
        for (const auto& [name, value] : places)
            replace_place(line, name, value);
        return line;
    }

    /// A line of the dialect's header or footer: a comment of its own, or a block.
    void template_line(const std::string& line) {
        std::string text = with_places(line);
        const std::size_t first = text.find_first_not_of(' ');
        if (first == std::string::npos) return;
        if (text[first] == ';') return lines_.comment(text.substr(first + 1));
        if (text[first] != '(') return lines_.line(text);
        text.erase(0, first + 1);
        if (const std::size_t last = text.rfind(')'); last != std::string::npos) text.erase(last);
        lines_.comment(text);
    }

    struct WorstFeed {
        double exact = 0.0;
        double seconds = 0.0;
    };

    const Job& job_;
    const std::vector<SolvedLobe>& lobes_;
    const Toolpath& path_;
    const Dialect& dialect_;
    ProgramLines lines_;
    AxisWords axes_;
    bool inverse_;
    std::string motion_;
    std::string printed_feed_;
    Words at_;
    double longest_turn_ = 0.0;  // degrees, of a feed block
    double farthest_ = 0.0;      // degrees from zero
    double slowed_ = 0.0;        // relative
    std::optional<WorstFeed> too_slow_, too_fast_;
};

}  // namespace

Outcome<std::string> write_program(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path,
                                   const Dialect& dialect) {
    Diagnostics refusals = dialect_refusals(job, dialect);
    if (!refusals.empty()) return refusals;
    return Writer(job, lobes, path, dialect).write();
}

}  // namespace lobewright
