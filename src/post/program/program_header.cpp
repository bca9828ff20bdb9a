#include "post/program/program_header.h"

#include "base/text/angle_text.h"
#include "base/text/typed_length.h"

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

}  // namespace

std::string file_name(const std::string& path) {
    const auto folder = path.find_last_of("/\\");
    return folder == std::string::npos ? path : path.substr(folder + 1);
}

namespace {

/// What each operation's note says: told once where all say the same, else each under its name.
class NotesOfEach {
  public:
    NotesOfEach(const WrittenOperations& operations, std::vector<std::string>& notes)
        : operations_(operations), notes_(notes) {}

    template <class Note>
    void add(Note note) {
        std::vector<std::string> texts;
        for (const WrittenOperation& each : operations_)
            texts.push_back(note(each));
        const bool alike = std::all_of(texts.begin(), texts.end(),
                                       [&](const std::string& text) { return text == texts.front(); });
        if (alike) return notes_.push_back(texts.front());
        for (std::size_t i = 0; i < texts.size(); ++i) {
            if (!texts[i].empty())
                notes_.push_back("Operation " + operations_[i].job.operation + ": " + texts[i]);
        }
    }

  private:
    const WrittenOperations& operations_;
    std::vector<std::string>& notes_;
};

/// Which operations the program makes.
std::string operations_note(const WrittenOperations& operations) {
    if (operations.size() < 2) return operation_note(operations.front().job);
    std::string text = "Operations of this one program, in their order: ";
    for (const WrittenOperation& each : operations)
        text += (&each == &operations.front() ? "" : ", ") + each.job.operation;
    return text;
}

/// Of cutter and spindle, and where the words count from.
void add_setting_notes(const WrittenOperations& operations, const Dialect& dialect, const PlaceWords& places,
                       std::vector<std::string>& notes) {
    NotesOfEach of_each(operations, notes);
    of_each.add([](const WrittenOperation& each) { return cutter_note(each.job); });
    of_each.add([&](const WrittenOperation& each) { return numbers_note(each.job, dialect); });
    of_each.add([&](const WrittenOperation& each) { return spindle_note(each.job, each.path, dialect); });
    of_each.add([&](const WrittenOperation& each) { return radial_note(each.job, dialect); });
    of_each.add([&](const WrittenOperation& each) { return axial_note(each.job, dialect); });
    notes.push_back(rotary_note(operations.front().job, dialect));
    of_each.add([&](const WrittenOperation& each) {
        if (!dialect.side) return line_up_note(each.job);
        return side_note(each.job, dialect,
                         places.sides[static_cast<std::size_t>(&each - &operations.front())]);
    });
    if (dialect.side) return;
    of_each.add([](const WrittenOperation& each) { return shift_note(each.job); });
}

}  // namespace

std::vector<std::string> header_notes(const WrittenOperations& operations, const Dialect& dialect,
                                      const PlaceWords& places, const ProgramPart& part) {
    const Job& job = operations.front().job;
    std::vector<std::string> notes = {
        "Camshaft: " + job.title,
        std::string(our_mark) + " from " + file_name(job.file) + " for " + dialect.name,
        operations_note(operations), part_note(part)};
    NotesOfEach of_each(operations, notes);
    of_each.add([&](const WrittenOperation& each) { return lobes_note(each.job, each.lobes, part.aim); });
    of_each.add([](const WrittenOperation& each) { return stock_note(each.job, each.lobes); });
    add_setting_notes(operations, dialect, places, notes);
    for (std::string& note : place_notes(operations, dialect, places))
        notes.push_back(std::move(note));
    for (const char* caution :
         {"CAUTION: prove the program above the part first. Hold the work securely, keep the cutter clear of "
          "chuck and fixture",
          "CAUTION: guards shut, eyes protected, no gloves, loose clothing or long hair near a spindle",
          "CAUTION: the machine's manual, local rules and trained practice come first"})
        notes.emplace_back(caution);
    std::erase_if(notes, [](const std::string& note) { return note.empty(); });
    return notes;
}

std::string tool_note(const Job& job, const Dialect& dialect) {
    return "Operation " + job.operation + ". " + numbers_note(job, dialect) + ". " + cutter_note(job);
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
