#include "proof/reader/code_table.h"

#include "base/whole_steps.h"

#include <lobewright/number_text.h>

#include <cmath>

namespace lobewright::proof {
namespace {

struct Refusal {
    char letter;
    int first, last;  // tenths of a G word, whole M words times ten
    std::string_view why;
};

constexpr std::string_view offsets = "it sets offsets that the proof does not follow";
constexpr std::string_view homes = "it moves by positions that the text does not hold";
constexpr std::string_view probes = "it moves until a probe touches";
constexpr std::string_view compensates =
    "the path would be the controller's own, by cutter data that the text does not hold";
constexpr std::string_view cycles = "a cycle moves by rules of its own";
constexpr std::string_view threads = "it moves in step with the spindle";
constexpr std::string_view scales = "it turns, scales or mirrors what follows";
constexpr std::string_view machine_zero = "machine coordinates are known to the machine alone";
constexpr std::string_view arc_centres = "absolute arc centres are not simulated";
constexpr std::string_view surface_speed = "the spindle's speed would follow the radial axis";
constexpr std::string_view calls = "subprograms are not simulated";
constexpr std::string_view pallet = "it exchanges the work";

// clang-format off
constexpr Refusal refusals[] = {
    {'G', 50, 53, cycles},         {'G', 100, 100, offsets},
    {'G', 280, 281, homes},        {'G', 300, 301, homes},        {'G', 330, 331, threads},
    {'G', 382, 385, probes},       {'G', 410, 411, compensates},  {'G', 420, 421, compensates},
    {'G', 430, 432, offsets},      {'G', 500, 513, scales},       {'G', 520, 520, offsets},
    {'G', 530, 530, machine_zero}, {'G', 680, 690, scales},       {'G', 730, 730, cycles},
    {'G', 760, 760, threads},      {'G', 810, 890, cycles},       {'G', 901, 901, arc_centres},
    {'G', 920, 923, offsets},      {'G', 960, 960, surface_speed},
    {'M', 600, 600, pallet},       {'M', 980, 990, calls},
};
// clang-format on

/// A word of the dialect that replaces the standard's own of that meaning.
struct Meaning {
    const std::string& word;
    Code code;
};

}  // namespace

std::string_view refusal_of(char letter, int tenths) {
    for (const Refusal& refusal : refusals) {
        if (refusal.letter == letter && tenths >= refusal.first && tenths <= refusal.last) return refusal.why;
    }
    return {};
}

std::string_view remedy_of(char letter, int tenths) {
    const std::string_view why = refusal_of(letter, tenths);
    if (why == surface_speed) return "write the spindle's speed by S in rev/min, with G97";
    if (why == offsets) return "set the zeros and the cutter's length at the machine, and leave the word out";
    return "write the moves out in plain words";
}

CodeTable::CodeTable(const Dialect& dialect) {
    for (const Refusal& refusal : refusals) {
        for (int tenths = refusal.first; tenths <= refusal.last; ++tenths) {
            if (refusal.letter == 'G') g_[static_cast<std::size_t>(tenths)] = {Act::refused, Group::none};
            if (refusal.letter == 'M')
                m_[static_cast<std::size_t>(tenths / 10)] = {Act::refused, Group::none};
        }
    }
    put_standard(dialect);
    put_words(dialect);
}

/// Words that mean the same wherever the dialect doesn't give them another meaning.
void CodeTable::put_standard(const Dialect& dialect) {
    put("G0", {Act::rapid, Group::motion});
    put("G1", {Act::feed, Group::motion});
    put("G2", {Act::arc_cw, Group::motion});
    put("G3", {Act::arc_ccw, Group::motion});
    put("G4", {Act::dwell, Group::non_modal});
    put("G17", {Act::plane_xy, Group::plane});
    put("G18", {Act::plane_zx, Group::plane});
    put("G19", {Act::plane_yz, Group::plane});
    put("G40", {Act::harmless, Group::radius_compensation});
    put("G49", {Act::length_off, Group::length_offset});
    put("G80", {Act::motion_off, Group::motion});
    put("G91.1", {Act::harmless, Group::arc_distance});
    put("G97", {Act::harmless, Group::spindle_mode});
    if (!dialect.absolute_word.empty()) put("G91", {Act::incremental, Group::distance});
    if (dialect.per_minute_word == "G94") {
        put("G95", {Act::per_turn, Group::feed_mode});
        put("G98", {Act::harmless, Group::retract});
        put("G99", {Act::harmless, Group::retract});
    }
    for (const char* word : {"G54", "G55", "G56", "G57", "G58", "G59", "G59.1", "G59.2", "G59.3"}) {
        put(word, {Act::elsewhere, Group::work_offset});
    }
    put("G61", {Act::exact_path, Group::path_control});
    put("G61.1", {Act::exact_path, Group::path_control});
    put("G64", {Act::blend, Group::path_control});
    put("M0", {Act::stop, Group::m_stop});
    put("M1", {Act::stop, Group::m_stop});
    put("M2", {Act::end, Group::m_stop});
    put("M30", {Act::end, Group::m_stop});
    put("M6", {Act::tool_change, Group::m_tool});
    put("M7", {Act::coolant, Group::m_coolant});
    put("M8", {Act::coolant, Group::m_coolant});
    put("M9", {Act::coolant, Group::m_coolant});
    put("M48", {Act::harmless, Group::m_override});
    put("M49", {Act::harmless, Group::m_override});
}

void CodeTable::put_words(const Dialect& d) {
    for (const std::string& word : d.harmless)
        put(word, {Act::harmless, Group::none});
    for (const std::string& word : d.cancel_words) {
        const Code* known = find(word);
        if (known != nullptr && (known->act == Act::unknown || known->act == Act::refused)) {
            put(word, {Act::harmless, Group::none});
        }
    }
    const Meaning meanings[] = {
        {d.rapid_word, {Act::rapid, Group::motion}},
        {d.feed_word, {Act::feed, Group::motion}},
        {d.mm_word, {Act::mm, Group::units}},
        {d.inch_word, {Act::inch, Group::units}},
        {d.absolute_word, {Act::absolute, Group::distance}},
        {d.diameter_word, {Act::diameter, Group::diameter}},
        {d.radius_word, {Act::radius, Group::diameter}},
        {d.inverse_time_word, {Act::inverse_time, Group::feed_mode}},
        {d.per_minute_word, {Act::per_minute, Group::feed_mode}},
        {d.exact_path_word, {Act::exact_path, Group::path_control}},
        {d.spindle_on_cw, {Act::spindle_cw, Group::m_spindle}},
        {d.spindle_on_ccw, {Act::spindle_ccw, Group::m_spindle}},
        {d.spindle_off, {Act::spindle_off, Group::m_spindle}},
        {d.coolant_on, {Act::coolant, Group::m_coolant}},
        {d.coolant_off, {Act::coolant, Group::m_coolant}},
        {d.stop, {Act::stop, Group::m_stop}},
        {d.program_end, {Act::end, Group::m_stop}},
    };
    for (const Meaning& meaning : meanings)
        put(meaning.word, meaning.code);
    put_length_words(d);
    const std::string zero = d.work_offset_words.empty() ? "G54" : d.work_offset_words.front();
    for (const std::string& word : d.work_offset_words)
        put(word, {Act::elsewhere, Group::work_offset});
    put(zero, {Act::job_zero, Group::work_offset});
    for (const std::string& word : d.lacks)
        put(word, {Act::lacking, Group::none});
}

/// The first G word of each of the dialect's lines about lengths.
void CodeTable::put_length_words(const Dialect& d) {
    const auto first_g = [](const std::string& line) {
        const std::size_t at = line.find('G');
        if (at == std::string::npos) return std::string();
        const std::size_t end = line.find_first_not_of("0123456789.", at + 1);
        return line.substr(at, end == std::string::npos ? end : end - at);
    };
    put(first_g(d.length_on), {Act::length_on, Group::length_offset});
    put(first_g(d.length_off), {Act::length_off, Group::length_offset});
}

Code* CodeTable::find(std::string_view word) {
    if (word.size() < 2) return nullptr;
    const auto number = parse_decimal(word.substr(1));
    if (!number || *number < 0.0 || *number >= 1000.0) return nullptr;
    const auto tenths = static_cast<std::size_t>(nearest_step(10.0 * *number));
    const bool g = word.front() == 'G' || word.front() == 'g';
    if (g) return tenths < g_.size() ? &g_[tenths] : nullptr;
    const bool m = word.front() == 'M' || word.front() == 'm';
    return m ? &m_[tenths / 10] : nullptr;
}

void CodeTable::put(std::string_view word, Code code) {
    if (Code* place = find(word)) *place = code;
}

}  // namespace lobewright::proof
