#include "post/program/program_header.h"

#include "base/text/angle_text.h"
#include "base/text/typed_length.h"

#include <lobewright/number_text.h>
#include <lobewright/program_writer.h>

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

std::string line_up_note(const Job& job) {
    switch (job.machine->cutter_axis) {
        case CutterAxis::parallel:
        case CutterAxis::radial:
            if (job.cut->side_shift != 0.0 && job.machine->cutter_axis == CutterAxis::radial) return {};
            return "The cutter's axis and the shaft's axis lie in the plane in which the cutter moves: set "
                   "it so and lock "
                   "that slide";
        case CutterAxis::tangential:
            return "The middle of the cutter's flutes faces the shaft's axis: set it so and lock that slide";
    }
    return {};
}

std::string lobes_note(const Job& job, const std::vector<SolvedLobe>& lobes) {
    std::string text = "Lobes: " + std::to_string(lobes.size());
    if (job.shaft.blank())
        text += ", on a blank of diameter " + length_words(*job.shaft.blank(), job.units);
    text += ", within " + length_words(job.cut->tolerance, job.units) + " of the design";
    if (job.cut->allowance > 0.0)
        text += ", with " + length_words(job.cut->allowance, job.units) + " left on";
    return text;
}

std::string start_note(const std::string& start_words, const Dialect& dialect) {
    return "Starts at " + start_words + ", moving " + dialect.radial.letter + " first, then " +
           dialect.axial.letter + ", then " + dialect.rotary.letter + ": have a clear way there";
}

std::string time_note(const Toolpath& path) {
    return "Planned time: " + fixed(path.cycle_seconds / 60.0, 1) + " min";
}

std::string check_note(const Dialect& dialect) {
    const std::string rotary(1, dialect.rotary.letter);
    return "CHECK FIRST: the three zeros, the cutter's size, and by hand that +" +
           std::string(1, dialect.radial.letter) + " goes away from the shaft, +" + dialect.axial.letter +
           " away from the drive end, +" + rotary + " the way said above";
}

}  // namespace

std::string file_name(const std::string& path) {
    const auto folder = path.find_last_of("/\\");
    return folder == std::string::npos ? path : path.substr(folder + 1);
}

std::vector<std::string> header_notes(const Job& job, const std::vector<SolvedLobe>& lobes,
                                      const Toolpath& path, const Dialect& dialect,
                                      const std::string& start_words) {
    std::vector<std::string> notes = {
        "Camshaft: " + job.title,
        std::string(our_mark) + " from " + file_name(job.file) + " for " + dialect.name,
        lobes_note(job, lobes),
        cutter_note(job),
        spindle_note(job, path, dialect),
        radial_note(job, dialect),
        axial_note(job, dialect),
        rotary_note(job, dialect),
        line_up_note(job),
        shift_note(job),
        start_note(start_words, dialect),
        time_note(path),
        check_note(dialect),
        "CAUTION: prove the program above the part first. Hold the work securely, keep the cutter clear of "
        "chuck and fixture",
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
    }
    if (pass.left_on > 0.0) text += ", " + length_words(pass.left_on, job.units) + " left on";
    return text + ", " + dialect.axial.letter + number_text(pass.axial, job.units);
}

}  // namespace post

bool bears_our_mark(std::string_view text) {
    constexpr std::size_t beginning = 4096;  // bytes: title and dialect's own lines stand before the mark
    return post::letters_of(text.substr(0, beginning)).find(post::letters_of(post::our_mark)) !=
           std::string::npos;
}

}  // namespace lobewright
