#include "post/program/place_notes.h"

#include "base/text/angle_text.h"
#include "post/program/resting_place.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::post {
namespace {

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

/// Where tools change between operations, and what that takes for granted; empty where there is but one.
std::string change_note(const WrittenOperations& operations, const RestingPlace& ends,
                        const std::string& words, const Dialect& dialect) {
    if (operations.size() < 2) return {};
    if (ends.kind == RestKind::home) return "Between operations tools change at home";
    return "Between operations tools change at " + words +
           ", by the length of the tool that goes out: the longest tool must stand clear of the shaft there. "
           "With the next one's length on " +
           std::string(1, dialect.radial.letter) + " goes there again before anything else moves";
}

std::string time_note(const WrittenOperations& operations) {
    double seconds = seconds_between(operations);
    for (const WrittenOperation& each : operations)
        seconds += each.path.cycle_seconds;
    return "Planned time: " + fixed(seconds / 60.0, 1) + " min" +
           (operations.size() > 1 ? ", without the tool changes" : "");
}

/// Degrees of the rotary word furthest from zero, and of the last.
struct RotaryWords {
    double furthest = 0.0;
    double last = 0.0;
};

RotaryWords rotary_words_of(const WrittenOperations& operations) {
    RotaryWords words;
    const auto go_to = [&](const Words& to, const WordGrid& grid) {
        words.last = static_cast<double>(to.rotary) * grid.rotary_step;
        words.furthest = std::max(words.furthest, std::abs(words.last));
    };
    for (const WrittenOperation& each : operations) {
        go_to(each.path.start, each.path.grid);
        for (const Move& move : each.path.moves)
            go_to(move.to, each.path.grid);
    }
    return words;
}

/// That the shaft winds back on its way; or where it stands at the end, and what winding back takes.
std::string winding_note(const WrittenOperations& operations, const Dialect& dialect) {
    const auto& limits = operations.front().job.machine->limits;
    const std::string letter(1, dialect.rotary.letter);
    const RotaryWords words = rotary_words_of(operations);
    std::size_t times = 0;
    double seconds = 0.0;
    for (const WrittenOperation& each : operations)
        times += each.path.unwindings.size(), seconds += each.path.unwinding_seconds;
    if (times > 0) {
        return "The shaft winds back " + counted(static_cast<long long>(times), "time") +
               " on its way, the cutter clear of it, in " + fixed(seconds / 60.0, 1) + " min of that; " +
               letter + " stays within " + shortest_fixed(words.furthest, 1) + " either side of " + letter +
               "0";
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

/// "3", "1 and 2", "1, 2 and 5": the numbers of their lengths, each once.
std::string length_numbers(const WrittenOperations& operations) {
    std::vector<int> numbers;
    for (const WrittenOperation& each : operations) {
        const int number = cutter_of(each.job).offset_number;
        if (std::find(numbers.begin(), numbers.end(), number) == numbers.end()) numbers.push_back(number);
    }
    std::string text;
    for (std::size_t i = 0; i < numbers.size(); ++i)
        text += (i == 0 ? "" : i + 1 == numbers.size() ? " and " : ", ") + std::to_string(numbers[i]);
    return text;
}

/// What the zeros are set with: the cutter itself, or lengths in the controller's table.
std::string set_with_words(const WrittenOperations& operations, const Dialect& dialect) {
    const bool numbered = (dialect.tool_change + dialect.length_on).find("{offset") != std::string::npos;
    if (!numbered) return "that they were set with this very cutter";
    const std::string numbers = length_numbers(operations);
    return numbers.find(' ') == std::string::npos ? "the cutter's length under number " + numbers
                                                  : "the cutters' lengths under numbers " + numbers;
}

std::string check_note(const WrittenOperations& operations, const Dialect& dialect) {
    const std::string rotary(1, dialect.rotary.letter);
    return std::string("CHECK FIRST: the ") + (dialect.side ? "four" : "three") + " zeros, " +
           set_with_words(operations, dialect) +
           (operations.size() > 1 ? ", each cutter's size, and by hand that +"
                                  : ", the cutter's size, and by hand that +") +
           std::string(1, dialect.radial.letter) + " goes away from the shaft, +" + dialect.axial.letter +
           " away from the drive end, +" + rotary + " the way said above";
}

}  // namespace

double seconds_between(const WrittenOperations& operations) {
    const auto& speed = operations.front().job.machine->limits.rotary_speed;
    if (!speed) return 0.0;
    double degrees = 0.0;
    for (std::size_t i = 1; i < operations.size(); ++i) {
        const Toolpath& before = operations[i - 1].path;
        const Words& end = before.moves.empty() ? before.start : before.moves.back().to;
        degrees += std::abs(static_cast<double>(operations[i].path.start.rotary - end.rotary)) *
                   before.grid.rotary_step;
    }
    return 60.0 * degrees / *speed;
}

std::vector<std::string> place_notes(const WrittenOperations& operations, const Dialect& dialect,
                                     const PlaceWords& places) {
    const auto& [job, lobes, path] = operations.front();
    const WrittenOperation& last = operations.back();
    const RestingPlace begins = beginning(job, dialect, path), ends = ending(last.job, dialect, last.path);
    return {begin_note(begins, places.begins, dialect),
            approach_note(begins, ends, places.ends, dialect),
            change_note(operations, ends, places.ends, dialect),
            time_note(operations),
            winding_note(operations, dialect),
            fold_note(job, dialect),
            check_note(operations, dialect)};
}

}  // namespace lobewright::post
