#include "post/program/program_header.h"

#include "base/text/angle_text.h"
#include "base/text/typed_length.h"
#include "post/program/resting_place.h"

#include <lobewright/number_text.h>
#include <lobewright/operations.h>
#include <lobewright/program_writer.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace post {
namespace {

constexpr std::string_view our_mark = "Made by lobewright";

/// In small letters, and nothing but letters: comments may be in capitals, and broken between words.
std::string letters_of(std::string_view text) {
    std::string letters;
    for (const char c : text) {
        if (c >= 'a' && c <= 'z') letters += c;
        if (c >= 'A' && c <= 'Z') letters += static_cast<char>(c - 'A' + 'a');
    }
    return letters;
}

std::string number_text(double mm, Units units) {
    return short_length(mm, units, sentence_decimals);
}

const Cutter& cutter_of(const Job& job) {
    return job.cutters.find(job.cut->cutter)->second;
}

std::string kind_words(CutterKind kind) {
    switch (kind) {
        case CutterKind::end_mill:
            return "end mill";
        case CutterKind::ball_nose:
            return "ball nose";
        case CutterKind::disc:
            return "disc";
    }
    return {};
}

std::string held_words(const Machine& machine) {
    switch (machine.cutter_axis) {
        case CutterAxis::parallel:
            return std::string("its axis parallel to the shaft, ") +
                   (machine.spindle_side == SpindleSide::far
                        ? "its spindle on the side away from the drive end"
                        : "its spindle on the drive end's side");
        case CutterAxis::radial:
            return "its axis square to the shaft, cutting with its end";
        case CutterAxis::tangential:
            return "its axis across the shaft, cutting with its side";
    }
    return {};
}

std::string cutter_note(const Job& job) {
    const Cutter& cutter = cutter_of(job);
    std::string text = "Cutter " + job.cut->cutter + ": " + kind_words(cutter.kind) + ", diameter " +
                       length_words(cutter.diameter, job.units);
    if (cutter.corner_radius > 0.0)
        text += ", corner radius " + length_words(cutter.corner_radius, job.units);
    if (cutter.kind == CutterKind::disc) text += ", width " + length_words(cutter.width, job.units);
    return text + ", " + held_words(*job.machine);
}

/// The numbers by which the controller knows the cutter; empty where the dialect's lines name none.
std::string numbers_note(const Job& job, const Dialect& dialect) {
    const Cutter& cutter = cutter_of(job);
    const std::string lines = dialect.tool_change + dialect.length_on;
    std::string text;
    if (lines.find("{tool") != std::string::npos) text = "Tool " + std::to_string(cutter.number);
    if (lines.find("{offset") == std::string::npos) return text;
    return text + (text.empty() ? "Its length is number " : ", its length is number ") +
           std::to_string(cutter.offset_number);
}

/// Which way the rotary word goes while cutting; empty where no feed move turns the shaft.
std::string turning_words(const Toolpath& path, const Dialect& dialect) {
    Words at = path.start;
    for (const Move& move : path.moves) {
        if (move.kind == MoveKind::feed && move.to.rotary != at.rotary) {
            return std::string(", with ") + dialect.rotary.letter +
                   (move.to.rotary > at.rotary ? " growing" : " falling");
        }
        at = move.to;
    }
    return {};
}

std::string spindle_note(const Job& job, const Toolpath& path, const Dialect& dialect) {
    return "Spindle: " + shortest_fixed(job.cut->spindle_speed, 3) + " rev/min, " + dialect.spindle_on_cw +
           ", for " + (job.cut->direction == CutDirection::climb ? "climb" : "conventional") + " cutting" +
           turning_words(path, dialect);
}

/// The part of the cutter that the radial word places.
std::string radial_point(const Machine& machine, const Cutter& cutter) {
    switch (machine.cutter_axis) {
        case CutterAxis::parallel:
            return machine.cutter_zero == CutterZero::centre ? "the cutter's axis"
                                                             : "the cutter's edge facing the shaft";
        case CutterAxis::radial:
            return cutter.kind == CutterKind::ball_nose ? "the cutter's tip" : "the cutter's end";
        case CutterAxis::tangential:
            return "the cutter's side facing the shaft";
    }
    return {};
}

std::string axial_point(const Machine& machine, const Cutter& cutter) {
    if (machine.cutter_axis != CutterAxis::parallel) return "the cutter's axis";
    return cutter.kind == CutterKind::disc ? "the middle of the cutter's width" : "the cutter's tip";
}

std::string radial_note(const Job& job, const Dialect& dialect) {
    const std::string letter(1, dialect.radial.letter);
    return letter + "0 puts " + radial_point(*job.machine, cutter_of(job)) + " on the shaft's axis. " +
           letter + (dialect.radial.diameter ? " is a diameter" : " is a radius") +
           " and grows away from the shaft";
}

std::string axial_note(const Job& job, const Dialect& dialect) {
    const std::string letter(1, dialect.axial.letter);
    return letter + "0 puts " + axial_point(*job.machine, cutter_of(job)) + " at the shaft's drive end. " +
           letter + " grows along the shaft, away from the drive end";
}

std::string rotary_note(const Job& job, const Dialect& dialect) {
    const std::string letter(1, dialect.rotary.letter);
    return letter + "0 turns the shaft's datum (keyway, dowel) to face the cutter. +" + letter +
           " turns the shaft " + sense_words(job.machine->rotary_positive) + ", seen from the drive end";
}

std::string shift_note(const Job& job) {
    const double shift = job.cut->side_shift;
    if (shift == 0.0 || job.machine->cutter_axis != CutterAxis::radial) return {};
    return "The cutter's axis stands " + length_words(std::abs(shift), job.units) +
           " beside the shaft's axis, on the " + sense_words(shift > 0.0 ? Sense::ccw : Sense::cw) +
           " side, seen from the drive end: set it so and lock that slide";
}

/// What of the cutter faces the shaft's axis where nothing is shifted.
std::string line_up_words(const Machine& machine) {
    return machine.cutter_axis == CutterAxis::tangential ? "the middle of the cutter's flutes"
                                                         : "the cutter's axis";
}

std::string side_note(const Job& job, const Dialect& dialect, const std::string& word) {
    const std::string letter(1, dialect.side->word.letter);
    return letter + "0 puts " + line_up_words(*job.machine) + " level with the shaft's axis. +" + letter +
           " goes to the " + sense_words(dialect.side->positive) +
           " side, seen from the drive end. The program goes to " + word + " and stays there";
}

std::string line_up_note(const Job& job) {
    if (job.cut->side_shift != 0.0 && job.machine->cutter_axis == CutterAxis::radial) return {};
    if (job.machine->cutter_axis == CutterAxis::tangential)
        return "The middle of the cutter's flutes faces the shaft's axis: set it so and lock that slide";
    return "The cutter's axis and the shaft's axis lie in the plane in which the cutter moves: set it so and "
           "lock that slide";
}

std::string lobes_note(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& aim) {
    std::string text = "Lobes: ";
    for (const SolvedLobe& lobe : lobes)
        text += (&lobe == &lobes.front() ? "" : ", ") + lobe.name;
    if (job.shaft.blank()) text += ", on a blank of diameter " + length_words(*job.shaft.blank(), job.units);
    text += ", within " + length_words(job.cut->tolerance, job.units) + " of " + aim;
    if (job.cut->allowance > 0.0)
        text += ", with " + length_words(job.cut->allowance, job.units) + " left on";
    return text;
}

/// Lobes that stand alike, by their names.
struct StandingAlike {
    StandingLobe stock;
    std::string names;
    bool operator==(const StandingLobe& other) const {
        return stock.left_by == other.left_by && stock.left_on == other.left_on &&
               stock.within == other.within;
    }
};

/// "with 0.3 mm left on the design, give or take 0.02 mm, as operation rough leaves it"
std::string standing_words(const StandingLobe& stock, Units units) {
    std::string text = " with " + length_words(stock.left_on, units) + " left on the design";
    if (stock.within > 0.0) text += ", give or take " + length_words(stock.within, units);
    return text + (stock.left_by.empty() ? "" : ", as operation " + stock.left_by + " leaves it");
}

/// How the lobes must stand before the first move; empty where all are bar.
std::string stock_note(const Job& job, const std::vector<SolvedLobe>& lobes) {
    std::vector<StandingAlike> groups;
    std::string bar;
    const auto add = [](std::string& names, const std::string& name) {
        names += (names.empty() ? "" : ", ") + name;
    };
    for (const SolvedLobe& lobe : lobes) {
        const auto standing = job.stock.of(lobe.name);
        if (!standing) {
            add(bar, lobe.name);
            continue;
        }
        auto group = std::find(groups.begin(), groups.end(), *standing);
        if (group == groups.end()) group = groups.insert(groups.end(), {*standing, {}});
        add(group->names, lobe.name);
    }
    if (groups.empty()) return {};
    const bool all = groups.size() == 1 && bar.empty();
    std::string text = "The stock that this expects: ";
    for (const StandingAlike& group : groups)
        text += (&group == &groups.front() ? "" : ", and ") + (all ? "every lobe" : group.names) +
                standing_words(group.stock, job.units);
    return text + (bar.empty() ? "" : ", and " + bar + " as bar") + ". It is proven on that alone";
}

/// Which of the job's operations it is; empty where there is but one.
std::string operation_note(const Job& job) {
    const auto index = find_operation(job, job.operation);
    if (!index || job.operations.size() < 2) return {};
    std::string text = "Operation " + std::to_string(*index + 1) + " of " +
                       std::to_string(job.operations.size()) + ": " + job.operation;
    const std::string& machine = job.operations[*index].machine;
    if (!machine.empty()) text += ", on machine " + machine;
    return text + (*index > 0 ? ". Before it comes " + job.operations[*index - 1].name : "");
}

/// Which of several programs it is; empty where it is the only one.
std::string part_note(const ProgramPart& part) {
    if (part.of < 2) return {};
    return "Program " + std::to_string(part.number) + " of " + std::to_string(part.of) +
           " for this cut, each whole in itself, for the lobes that it names";
}

std::string begin_note(const RestingPlace& place, const std::string& words, const Dialect& dialect) {
    const std::string radial(1, dialect.radial.letter), axial(1, dialect.axial.letter);
    std::string straight =
        "The first move goes straight from where the machine stands: it takes for granted that the cutter "
        "stands "
        "outside the shaft, with a clear way out in " +
        radial + " and then along in " + axial;
    if (dialect.tool_change.find("{offset") != std::string::npos)
        straight += ", by the offset that is in force before the tool is called";
    switch (place.kind) {
        case RestKind::home:
            return "Begins with the machine's own way home (" + dialect.home.front() +
                   "): it takes for granted that the machine is referenced, and that the way there is clear";
        case RestKind::tool_change:
            return "Begins at " + words + ", where the cutter is put in. " + straight;
        case RestKind::at_clearance:
            return "Begins at " + words + ", just outside the blank's clearance. " + straight;
    }
    return {};
}

std::string approach_note(const RestingPlace& begins, const RestingPlace& ends, const std::string& words,
                          const Dialect& dialect) {
    std::string order(1, dialect.axial.letter);
    if (dialect.side) order += std::string(", ") + dialect.side->word.letter;
    order += std::string(", ") + dialect.rotary.letter;
    std::string text = begins.kind == RestKind::at_clearance
                           ? std::string("Ends there")
                           : "From there " + order + " go to their places first, " +
                                 std::string(1, dialect.radial.letter) + " last";
    if (begins.kind == RestKind::at_clearance) return text;
    if (ends.kind == begins.kind) return text + ". Ends there again";
    return text + ". Ends at " + words;
}

std::string time_note(const Toolpath& path) {
    return "Planned time: " + fixed(path.cycle_seconds / 60.0, 1) + " min";
}

/// Degrees of the rotary word furthest from zero, and of the last.
struct RotaryWords {
    double furthest = 0.0;
    double last = 0.0;
};

RotaryWords rotary_words_of(const Toolpath& path) {
    RotaryWords words;
    words.last = static_cast<double>(path.start.rotary) * path.grid.rotary_step;
    words.furthest = std::abs(words.last);
    for (const Move& move : path.moves) {
        words.last = static_cast<double>(move.to.rotary) * path.grid.rotary_step;
        words.furthest = std::max(words.furthest, std::abs(words.last));
    }
    return words;
}

/// That the shaft winds back on its way; or where it stands at the end, and what winding back takes.
std::string winding_note(const Job& job, const Toolpath& path, const Dialect& dialect) {
    const auto& limits = job.machine->limits;
    const std::string letter(1, dialect.rotary.letter);
    const RotaryWords words = rotary_words_of(path);
    if (!path.unwindings.empty()) {
        return "The shaft winds back " + counted(static_cast<long long>(path.unwindings.size()), "time") +
               " on its way, the cutter clear of it, in " + fixed(path.unwinding_seconds / 60.0, 1) +
               " min of that; " + letter + " stays within " + shortest_fixed(words.furthest, 1) +
               " either side of " + letter + "0";
    }
    if (dialect.rotary_range == RotaryRange::folded) return {};
    const std::string last = "The last word of " + letter + " is " + shortest_fixed(words.last, 3);
    if (!limits.rotary_speed)
        return last + ", " + shortest_fixed(std::abs(words.last) / 360.0, 1) + " turns from zero";
    return last + ": winding back to " + letter + "0 takes " +
           shortest_fixed(std::abs(words.last) / *limits.rotary_speed, 1) + " min";
}

/// What a folded axis of limited travel must begin with.
std::string fold_note(const Job& job, const Dialect& dialect) {
    const auto& travel = job.machine->limits.rotary_travel;
    if (!travel || dialect.rotary_range != RotaryRange::folded) return {};
    return std::string("The words of ") + dialect.rotary.letter +
           " say directions, not turns: begin with the axis in the middle of its travel of " +
           shortest_fixed(*travel, 1) + " degrees either way";
}

/// What the zeros are set with: the cutter itself, or its length in the controller's table.
std::string set_with_words(const Job& job, const Dialect& dialect) {
    const bool numbered = (dialect.tool_change + dialect.length_on).find("{offset") != std::string::npos;
    return numbered ? "the cutter's length under number " + std::to_string(cutter_of(job).offset_number)
                    : std::string("that they were set with this very cutter");
}

std::string check_note(const Job& job, const Dialect& dialect) {
    const std::string rotary(1, dialect.rotary.letter);
    return std::string("CHECK FIRST: the ") + (dialect.side ? "four" : "three") + " zeros, " +
           set_with_words(job, dialect) + ", the cutter's size, and by hand that +" +
           std::string(1, dialect.radial.letter) + " goes away from the shaft, +" + dialect.axial.letter +
           " away from the drive end, +" + rotary + " the way said above";
}

}  // namespace

std::string file_name(const std::string& path) {
    const auto folder = path.find_last_of("/\\");
    return folder == std::string::npos ? path : path.substr(folder + 1);
}

std::vector<std::string> header_notes(const Job& job, const std::vector<SolvedLobe>& lobes,
                                      const Toolpath& path, const Dialect& dialect, const PlaceWords& places,
                                      const ProgramPart& part) {
    const RestingPlace begins = beginning(job, dialect, path), ends = ending(job, dialect, path);
    std::vector<std::string> notes = {
        "Camshaft: " + job.title,
        std::string(our_mark) + " from " + file_name(job.file) + " for " + dialect.name,
        operation_note(job),
        part_note(part),
        lobes_note(job, lobes, part.aim),
        stock_note(job, lobes),
        cutter_note(job),
        numbers_note(job, dialect),
        spindle_note(job, path, dialect),
        radial_note(job, dialect),
        axial_note(job, dialect),
        rotary_note(job, dialect),
        dialect.side ? side_note(job, dialect, places.side) : line_up_note(job),
        dialect.side ? std::string() : shift_note(job),
        begin_note(begins, places.begins, dialect),
        approach_note(begins, ends, places.ends, dialect),
        time_note(path),
        winding_note(job, path, dialect),
        fold_note(job, dialect),
        check_note(job, dialect),
        ("CAUTION: prove the program above the part first. Hold the work securely, keep the cutter clear of "
         "chuck and fixture"),
        "CAUTION: guards shut, eyes protected, no gloves, loose clothing or long hair near a spindle",
        "CAUTION: the machine's manual, local rules and trained practice come first"};
    std::erase_if(notes, [](const std::string& note) { return note.empty(); });
    return notes;
}

std::string pass_note(const Job& job, const std::vector<SolvedLobe>& lobes, const Pass& pass,
                      const Dialect& dialect) {
    std::string text = "lobe " + lobes[pass.lobe].name + ": ";
    switch (pass.kind) {
        case PassKind::roughing:
            text += "roughing " + std::to_string(pass.ring);
            break;
        case PassKind::semi_finish:
            text += "semi-finish";
            break;
        case PassKind::finish:
            text += "finish";
            break;
        case PassKind::spring:
            text += "spring pass";
            break;
        case PassKind::infeed:
            text += "infeed in " + std::to_string(pass.turns) + " turns";
            break;
    }
    if (pass.left_on > 0.0) text += ", " + length_words(pass.left_on, job.units) + " left on";
    text += ", " + std::string(1, dialect.axial.letter) + number_text(pass.axial, job.units);
    return pass.slides_to ? text + " to " + number_text(*pass.slides_to, job.units) + " in a helix" : text;
}

}  // namespace post

bool bears_our_mark(std::string_view text) {
    constexpr std::size_t beginning = 4096;  // bytes: title and dialect's own lines stand before the mark
    return post::letters_of(text.substr(0, beginning)).find(post::letters_of(post::our_mark)) !=
           std::string::npos;
}

}  // namespace lobewright
