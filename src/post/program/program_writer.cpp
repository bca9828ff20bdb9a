#include "base/text/length_text.h"
#include "post/dialect/blend_decimals.h"
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

/// One operation of the program, with its places.
struct OperationAtPlaces {
    WrittenOperation of;
    RestingPlace beginning, ending;
    std::vector<PlaceText> places;
};

std::vector<OperationAtPlaces> at_places(const WrittenOperations& operations, const Dialect& dialect) {
    std::vector<OperationAtPlaces> all;
    for (const WrittenOperation& each : operations) {
        const auto& [job, lobes, path] = each;
        all.push_back({each, beginning(job, dialect, path), ending(job, dialect, path),
                       place_texts(job, path, dialect)});
    }
    return all;
}

/// Writes the whole program, from its first line to its last.
class ProgramWriter {
  public:
    ProgramWriter(WrittenOperations operations, const Dialect& dialect, const ProgramPart& part)
        : views_(std::move(operations)),
          dialect_(dialect),
          part_(part),
          inverse_(dialect.feed_mode == FeedMode::inverse_time),
          operations_(at_places(views_, dialect)),
          now_(&operations_.front()),
          lines_(dialect),
          blocks_(dialect, views_.front().job.units, views_.front().path.grid, lines_) {}

    Outcome<std::string> write() {
        if (dialect_.percent_lines) lines_.bare("%");
        if (!dialect_.program_number.empty()) lines_.bare(counted_on(dialect_.program_number, part_.number));
        notes();
        modes();
        for (const std::string& line : dialect_.header)
            own_line(line);
        begin();
        for (const OperationAtPlaces& each : operations_) {
            if (&each != now_) change_to(each);
            moves();
            leave();
        }
        end();
        if (dialect_.percent_lines) lines_.bare("%");
        return outcome();
    }

  private:
    void notes() {
        for (const std::string& note : part_.first_notes)
            lines_.comment(note);
        for (const std::string& note : header_notes(views_, dialect_, words_of_places(), part_))
            lines_.comment(note);
    }

    [[nodiscard]] PlaceWords words_of_places() const {
        AxisWords words(dialect_, job().units);
        const auto both = [&](const RestingPlace& place) {
            return words.radial(place.radial) + ' ' + words.axial(place.axial);
        };
        const std::string begins = both(operations_.front().beginning);
        words.forget_places();
        PlaceWords places{begins, both(operations_.back().ending), {}};
        for (const WrittenOperation& each : views_)
            places.sides.push_back(words.side(shift(each.job)));
        return places;
    }

    [[nodiscard]] const Job& job() const { return now_->of.job; }
    [[nodiscard]] const Toolpath& path() const { return now_->of.path; }

    /// mm that the side axis stands beside the shaft's.
    [[nodiscard]] static double shift(const Job& job) {
        return job.machine->cutter_axis == CutterAxis::radial ? job.cut->side_shift : 0.0;
    }

    /// Every mode that the program relies on, whatever state the machine was left in.
    void modes() {
        const std::string units = job().units == Units::mm ? dialect_.mm_word : dialect_.inch_word;
        lines_.block({dialect_.plane_word, units, dialect_.absolute_word},
                     std::string(job().units == Units::mm ? "millimetres" : "inches") + ", absolute");
        lines_.block(dialect_.cancel_words, "offsets and cycles off");
        lines_.block({dialect_.radial.diameter ? dialect_.diameter_word : dialect_.radius_word},
                     dialect_.radial.diameter ? "diameters" : "radii");
        if (!dialect_.work_offset_words.empty())
            lines_.block({dialect_.work_offset_words.front()}, "the zeros said above");
        path_mode();
    }

    void path_mode() {
        const double blend = path().grid.blend_tolerance;
        if (blend <= 0.0) return lines_.block({dialect_.exact_path_word}, "exact path");
        const std::string tolerance =
            with_decimal_mark(short_length(blend, job().units, blend_decimals), dialect_);
        lines_.line(with_places(dialect_.blend_word, {{"tolerance", tolerance}}));
    }

    /// Where the cutter is put in, with its length and its spindle; then to the path, the radial axis last.
    void begin() {
        const RestingPlace& place = now_->beginning;
        if (place.kind == RestKind::home) {
            go_home("home: the machine's own way, clear of everything");
        } else {
            blocks_.go_out(place.radial, place.axial, "away from the shaft first");
        }
        put_tool_in();
        come_to_path();
    }

    /// The next operation's, where the one before has left the machine.
    void change_to(const OperationAtPlaces& next) {
        const double blend = path().grid.blend_tolerance;
        now_ = &next;
        lines_.comment(tool_note(job(), dialect_));
        put_tool_in();
        if (path().grid.blend_tolerance != blend) path_mode();
        if (now_->ending.kind != RestKind::home)
            blocks_.go_out_with_new_tool(now_->ending.radial, "out by its own length, before all else");
        come_to_path();
    }

    void put_tool_in() {
        lines_.line(with_places(dialect_.tool_change, now_->places));
        if (dialect_.tool_change.empty()) lines_.block({dialect_.stop}, "the cutter is put in here");
        lines_.line(with_places(dialect_.length_on, now_->places));
        start_spindle();
    }

    void come_to_path() {
        blocks_.come_to_start(path().start, shift(job()));
        if (inverse_) {
            lines_.block({dialect_.inverse_time_word}, dialect_.inverse_unit == InverseUnit::seconds
                                                           ? "inverse time: F is the block's seconds"
                                                           : "inverse time: F is 1 / the block's minutes");
        } else {
            lines_.block({dialect_.per_minute_word}, "feed per minute: F gives each block its planned time");
        }
    }

    void start_spindle() {
        const std::string speed = shortest_fixed(job().cut->spindle_speed, 3);
        lines_.block({"S" + with_decimal_mark(speed, dialect_), dialect_.spindle_on_cw});
        lines_.line(dialect_.spindle_wait);
        lines_.block({dialect_.coolant_on});
    }

    void go_to_rest(std::string_view note) {
        if (now_->ending.kind == RestKind::home) return go_home(note);
        blocks_.go_out(now_->ending.radial, now_->ending.axial);
    }

    /// To the place where tools change, everything off, a stop; then on to where the path goes next.
    void stop_for_dressing(const Move& next) {
        lines_.comment("the wheel is dressed here: then set the zero anew by what that took off its radius");
        lines_.block({dialect_.coolant_off});
        go_to_rest("home");
        lines_.block({dialect_.spindle_off});
        lines_.block({dialect_.stop}, "dress, then go on");
        start_spindle();
        blocks_.come_to_start(next.to, shift(job()));
        blocks_.say_motion_anew();
    }

    void go_home(std::string_view note) {
        lines_.comment(note);
        for (const std::string& line : dialect_.home)
            lines_.line(line);
        blocks_.has_gone_home();
    }

    void moves() {
        const Toolpath& path = this->path();
        auto pass = path.passes.begin();
        auto dressing = path.dressings.begin();
        auto unwinding = path.unwindings.begin();
        for (std::size_t i = 0; i < path.moves.size(); ++i) {
            if (dressing != path.dressings.end() && *dressing == i) {
                stop_for_dressing(path.moves[i]);
                ++dressing;
            }
            for (; pass != path.passes.end() && pass->first == i; ++pass) {
                lines_.comment(pass_note(job(), now_->of.lobes, *pass, dialect_));
                blocks_.say_motion_anew();
            }
            if (unwinding != path.unwindings.end() && *unwinding == i) {
                lines_.comment("the shaft winds back, the cutter clear of it");
                ++unwinding;
            }
            blocks_.add(path.moves[i]);
        }
    }

    /// To where tools change, everything off.
    void leave() {
        if (inverse_) lines_.block({dialect_.per_minute_word}, "feed per minute again");
        lines_.block({dialect_.coolant_off});
        go_to_rest("home again");
        lines_.block({dialect_.spindle_off});
        lines_.line(with_places(dialect_.length_off, now_->places));
    }

    void end() {
        for (const std::string& line : dialect_.footer)
            own_line(line);
        lines_.block({dialect_.program_end});
    }

    /// A line of the dialect's header or footer: a comment of its own, or a block.
    void own_line(const std::string& line) {
        std::string text = with_places(line, now_->places);
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
        Diagnostics complaints = fit_complaints(job(), dialect_, path().grid, fit);
        for (const auto& [job, lobes, path] : views_) {
            if (const auto radial = too_near(job, path)) {
                complaints.push_back(place_too_near(job, *radial));
                break;
            }
        }
        if (now_->ending.kind == RestKind::at_clearance)
            complaints.push_back(no_resting_place(job(), dialect_));
        if (has_errors(complaints)) return complaints;
        return {lines_.text(), std::move(complaints)};
    }

    WrittenOperations views_;
    const Dialect& dialect_;
    ProgramPart part_;
    bool inverse_;
    std::vector<OperationAtPlaces> operations_;
    const OperationAtPlaces* now_;
    ProgramLines lines_;
    ProgramBlocks blocks_;
};

Outcome<std::string> write_operations(WrittenOperations operations, const Dialect& dialect,
                                      const ProgramPart& part) {
    for (const WrittenOperation& each : operations) {
        Diagnostics refusals = dialect_refusals(each.job, dialect);
        if (!refusals.empty()) return refusals;
    }
    return ProgramWriter(std::move(operations), dialect, part).write();
}

}  // namespace
}  // namespace post

Outcome<std::string> write_program(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path,
                                   const Dialect& dialect, const ProgramPart& part) {
    return post::write_operations({{job, lobes, path}}, dialect, part);
}

Outcome<std::string> write_program(const std::vector<PlannedOperation>& operations, const Dialect& dialect,
                                   const ProgramPart& part) {
    post::WrittenOperations views;
    for (const PlannedOperation& each : operations)
        views.push_back({each.job, each.lobes, each.path});
    return post::write_operations(std::move(views), dialect, part);
}

}  // namespace lobewright
