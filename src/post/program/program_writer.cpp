#include "base/text/length_text.h"
#include "post/program/named_places.h"
#include "post/program/program_blocks.h"
#include "post/program/program_header.h"
#include "post/program/program_lines.h"
#include "post/program/program_refusals.h"
#include "post/program/resting_place.h"

#include <lobewright/number_text.h>
#include <lobewright/program_writer.h>

namespace lobewright {
namespace post {
namespace {

/// A program's number for the part with that number: O1001, O1002, ...; as it is where it doesn't end in
/// digits.
std::string counted_on(const std::string& number, int part) {
    const std::size_t digits = number.find_last_not_of("0123456789") + 1;
    if (digits == number.size() || number.size() - digits > 9) return number;
    std::string counted = std::to_string(std::stol(number.substr(digits)) + part - 1);
    while (digits + counted.size() < number.size())
        counted.insert(0, 1, '0');
    return number.substr(0, digits) + counted;
}

/// Writes the whole program, from its first line to its last.
class ProgramWriter {
  public:
    ProgramWriter(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path,
                  const Dialect& dialect, const ProgramPart& part)
        : job_(job),
          lobes_(lobes),
          path_(path),
          dialect_(dialect),
          part_(part),
          inverse_(dialect.feed_mode == FeedMode::inverse_time),
          beginning_(beginning(job, dialect, path)),
          ending_(ending(job, dialect, path)),
          places_(place_texts(job, path, dialect)),
          lines_(dialect),
          blocks_(dialect, job.units, path.grid, lines_) {}

    Outcome<std::string> write() {
        if (dialect_.percent_lines) lines_.bare("%");
        if (!dialect_.program_number.empty()) lines_.bare(counted_on(dialect_.program_number, part_.number));
        notes();
        modes();
        for (const std::string& line : dialect_.header)
            own_line(line);
        begin();
        moves();
        end();
        if (dialect_.percent_lines) lines_.bare("%");
        return outcome();
    }

  private:
    void notes() {
        for (const std::string& note : part_.first_notes)
            lines_.comment(note);
        for (const std::string& note : header_notes(job_, lobes_, path_, dialect_, words_of_places(), part_))
            lines_.comment(note);
    }

    [[nodiscard]] PlaceWords words_of_places() const {
        AxisWords words(dialect_, job_.units);
        const auto both = [&](const RestingPlace& place) {
            return words.radial(place.radial) + ' ' + words.axial(place.axial);
        };
        const std::string begins = both(beginning_);
        words.forget_places();
        return {begins, both(ending_), words.side(shift())};
    }

    /// mm that the side axis stands beside the shaft's.
    [[nodiscard]] double shift() const {
        return job_.machine->cutter_axis == CutterAxis::radial ? job_.cut->side_shift : 0.0;
    }

    /// Every mode that the program relies on, whatever state the machine was left in.
    void modes() {
        const std::string units = job_.units == Units::mm ? dialect_.mm_word : dialect_.inch_word;
        lines_.block({dialect_.plane_word, units, dialect_.absolute_word},
                     std::string(job_.units == Units::mm ? "millimetres" : "inches") + ", absolute");
        lines_.block(dialect_.cancel_words, "offsets and cycles off");
        lines_.block({dialect_.radial.diameter ? dialect_.diameter_word : dialect_.radius_word},
                     dialect_.radial.diameter ? "diameters" : "radii");
        if (!dialect_.work_offset_words.empty())
            lines_.block({dialect_.work_offset_words.front()}, "the zeros said above");
        path_mode();
    }

    void path_mode() {
        const double blend = path_.grid.blend_tolerance;
        if (blend <= 0.0) return lines_.block({dialect_.exact_path_word}, "exact path");
        const std::string tolerance = with_decimal_mark(short_length(blend, job_.units, {4, 6}), dialect_);
        lines_.line(with_places(dialect_.blend_word, {{"tolerance", tolerance}}));
    }

    /// Where the cutter is put in, with its length and its spindle; then to the path, the radial axis last.
    void begin() {
        if (beginning_.kind == RestKind::home) {
            go_home("home: the machine's own way, clear of everything");
        } else {
            blocks_.go_out(beginning_.radial, beginning_.axial, "away from the shaft first");
        }
        lines_.line(with_places(dialect_.tool_change, places_));
        if (dialect_.tool_change.empty()) lines_.block({dialect_.stop}, "the cutter is put in here");
        lines_.line(with_places(dialect_.length_on, places_));
        start_spindle();
        blocks_.come_to_start(path_.start, shift());
        if (inverse_) {
            lines_.block({dialect_.inverse_time_word}, dialect_.inverse_unit == InverseUnit::seconds
                                                           ? "inverse time: F is the block's seconds"
                                                           : "inverse time: F is 1 / the block's minutes");
        } else {
            lines_.block({dialect_.per_minute_word}, "feed per minute: F gives each block its planned time");
        }
    }

    void start_spindle() {
        const std::string speed = shortest_fixed(job_.cut->spindle_speed, 3);
        lines_.block({"S" + with_decimal_mark(speed, dialect_), dialect_.spindle_on_cw});
        lines_.line(dialect_.spindle_wait);
        lines_.block({dialect_.coolant_on});
    }

    /// To the place where tools change, everything off, a stop; then on to where the path goes next.
    void stop_for_dressing(const Move& next) {
        lines_.comment("the wheel is dressed here: then set the zero anew by what that took off its radius");
        lines_.block({dialect_.coolant_off});
        if (ending_.kind == RestKind::home) {
            go_home("home");
        } else {
            blocks_.go_out(ending_.radial, ending_.axial);
        }
        lines_.block({dialect_.spindle_off});
        lines_.block({dialect_.stop}, "dress, then go on");
        start_spindle();
        blocks_.come_to_start(next.to, shift());
        blocks_.say_motion_anew();
    }

    void go_home(std::string_view note) {
        lines_.comment(note);
        for (const std::string& line : dialect_.home)
            lines_.line(line);
        blocks_.has_gone_home();
    }

    void moves() {
        auto pass = path_.passes.begin();
        auto dressing = path_.dressings.begin();
        auto unwinding = path_.unwindings.begin();
        for (std::size_t i = 0; i < path_.moves.size(); ++i) {
            if (dressing != path_.dressings.end() && *dressing == i) {
                stop_for_dressing(path_.moves[i]);
                ++dressing;
            }
            for (; pass != path_.passes.end() && pass->first == i; ++pass) {
                lines_.comment(pass_note(job_, lobes_, *pass, dialect_));
                blocks_.say_motion_anew();
            }
            if (unwinding != path_.unwindings.end() && *unwinding == i) {
                lines_.comment("the shaft winds back, the cutter clear of it");
                ++unwinding;
            }
            blocks_.add(path_.moves[i]);
        }
    }

    void end() {
        if (inverse_) lines_.block({dialect_.per_minute_word}, "feed per minute again");
        lines_.block({dialect_.coolant_off});
        if (ending_.kind == RestKind::home) {
            go_home("home again");
        } else {
            blocks_.go_out(ending_.radial, ending_.axial);
        }
        lines_.block({dialect_.spindle_off});
        lines_.line(with_places(dialect_.length_off, places_));
        for (const std::string& line : dialect_.footer)
            own_line(line);
        lines_.block({dialect_.program_end});
    }

    /// A line of the dialect's header or footer: a comment of its own, or a block.
    void own_line(const std::string& line) {
        std::string text = with_places(line, places_);
        const std::size_t first = text.find_first_not_of(' ');
        if (first == std::string::npos) return;
        if (text[first] == ';') return lines_.comment(text.substr(first + 1));
        if (text[first] != '(') return lines_.line(text);
        text.erase(0, first + 1);
        if (const std::size_t last = text.rfind(')'); last != std::string::npos) text.erase(last);
        lines_.comment(text);
    }

    [[nodiscard]] Outcome<std::string> outcome() const {
        DialectFit fit = blocks_.fit();
        fit.too_long_line = lines_.too_long();
        Diagnostics complaints = fit_complaints(job_, dialect_, path_.grid, fit);
        if (const auto radial = too_near(job_, path_)) complaints.push_back(place_too_near(job_, *radial));
        if (ending_.kind == RestKind::at_clearance) complaints.push_back(no_resting_place(job_, dialect_));
        if (has_errors(complaints)) return complaints;
        return {lines_.text(), std::move(complaints)};
    }

    const Job& job_;
    const std::vector<SolvedLobe>& lobes_;
    const Toolpath& path_;
    const Dialect& dialect_;
    ProgramPart part_;
    bool inverse_;
    RestingPlace beginning_, ending_;
    std::vector<PlaceText> places_;
    ProgramLines lines_;
    ProgramBlocks blocks_;
};

}  // namespace
}  // namespace post

Outcome<std::string> write_program(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path,
                                   const Dialect& dialect, const ProgramPart& part) {
    Diagnostics refusals = post::dialect_refusals(job, dialect);
    if (!refusals.empty()) return refusals;
    return post::ProgramWriter(job, lobes, path, dialect, part).write();
}

}  // namespace lobewright
