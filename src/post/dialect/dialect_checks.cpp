#include "post/dialect/dialect_checks.h"

#include "post/dialect/dialect_lines.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cctype>

namespace lobewright::post {

const std::vector<std::string> tool_places = {"tool", "tool2", "offset", "offset2"};

const std::vector<std::string> place_names = {"title",        "job",         "dialect",     "cutter", "tool",
                                              "tool2",        "offset",      "offset2",     "speed",  "units",
                                              "start_radial", "start_axial", "start_rotary"};

std::optional<CodeWord> code_word(std::string_view text) {
    if (text.size() < 2 || std::isalpha(static_cast<unsigned char>(text.front())) == 0) return std::nullopt;
    const auto number = parse_decimal(text.substr(1));
    if (!number) return std::nullopt;
    return CodeWord{static_cast<char>(std::toupper(static_cast<unsigned char>(text.front()))), *number};
}

std::vector<std::string> words_of(std::string_view line) {
    std::vector<std::string> words;
    std::size_t from = 0;
    while ((from = line.find_first_not_of(' ', from)) != std::string_view::npos) {
        const std::size_t to = std::min(line.find(' ', from), line.size());
        words.emplace_back(line.substr(from, to - from));
        from = to;
    }
    return words;
}

namespace {

/// Complains by the key's path, at its value's place; where the key is absent, at the nearest table above it.
class Checker {
  public:
    Checker(const Node& document, Diagnostics& complaints) : document_(document), complaints_(complaints) {}

    void complain(std::string_view path, std::string code, std::string what, std::string remedy) {
        complaints_.push_back({Fault::bad_input, Severity::error, std::move(code),
                               "'" + std::string(path) + "': " + std::move(what), std::move(remedy),
                               place_of(path)});
    }

    /// Whether the file itself has the key, or only the usual value stands for it.
    [[nodiscard]] bool is_written(std::string_view path) const {
        follow(path);
        return path.empty();
    }

  private:
    /// The node that `path` leads to, as far as the file has it; `path` keeps the part that it hasn't.
    const Node& follow(std::string_view& path) const {
        const Node* node = &document_;
        while (!path.empty()) {
            const std::size_t dot = std::min(path.find('.'), path.size());
            const Node* next = node->find(path.substr(0, dot));
            if (next == nullptr) break;
            node = next;
            path.remove_prefix(std::min(dot + 1, path.size()));
        }
        return *node;
    }
    [[nodiscard]] Place place_of(std::string_view path) const { return follow(path).place; }

    const Node& document_;
    Diagnostics& complaints_;
};

/// A word of the dialect with the path of its key.
struct KeyWord {
    std::string path;
    std::string text;
};

std::vector<KeyWord> mode_words(const Dialect& d) {
    std::vector<KeyWord> words = {{"words.rapid", d.rapid_word},
                                  {"words.feed", d.feed_word},
                                  {"words.mm", d.mm_word},
                                  {"words.inch", d.inch_word},
                                  {"words.absolute", d.absolute_word},
                                  {"words.diameter", d.diameter_word},
                                  {"words.radius", d.radius_word},
                                  {"words.plane", d.plane_word},
                                  {"feed.inverse_time", d.inverse_time_word},
                                  {"feed.per_minute", d.per_minute_word},
                                  {"words.exact_path", d.exact_path_word},
                                  {"program.spindle_cw", d.spindle_on_cw},
                                  {"program.spindle_ccw", d.spindle_on_ccw},
                                  {"program.spindle_off", d.spindle_off},
                                  {"program.coolant_on", d.coolant_on},
                                  {"program.coolant_off", d.coolant_off},
                                  {"program.stop", d.stop},
                                  {"program.end", d.program_end}};
    for (const std::string& word : d.cancel_words)
        words.push_back({"words.cancel", word});
    for (const std::string& word : d.work_offset_words)
        words.push_back({"words.work_offsets", word});
    std::erase_if(words, [](const KeyWord& word) { return word.text.empty(); });
    return words;
}

void check_letters(const Dialect& d, Checker& checker) {
    std::vector<std::pair<const char*, char>> axes = {{"axes.radial.letter", d.radial.letter},
                                                      {"axes.axial.letter", d.axial.letter},
                                                      {"axes.rotary.letter", d.rotary.letter}};
    if (d.side) axes.emplace_back("axes.side.letter", d.side->word.letter);
    for (std::size_t i = 1; i < axes.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            if (axes[i].second != axes[j].second) continue;
            checker.complain(axes[i].first, "letter-twice",
                             std::string("the letter ") + axes[i].second + " already is " + axes[j].first,
                             "give each axis a letter of its own");
        }
    }
}

/// The letters, each once; the axes' among them.
void check_order(const Dialect& d, Checker& checker) {
    const std::string quoted = '"' + d.word_order + '"';
    const std::string remedy = "write every letter once: N, G, M, F, S, T and the axes'";
    const auto complain = [&](const char* code, const std::string& what) {
        checker.complain("words.order", code, what, remedy);
    };
    const auto capital = [](char letter) { return letter >= 'A' && letter <= 'Z'; };
    if (!std::all_of(d.word_order.begin(), d.word_order.end(), capital))
        return complain("not-a-letter", quoted + " may hold capital letters only");
    std::string missing, needed = std::string("NGFSTM") + d.radial.letter + d.axial.letter + d.rotary.letter;
    if (d.side) needed += d.side->word.letter;
    for (const char letter : needed) {
        if (d.word_order.find(letter) == std::string::npos) missing += letter;
    }
    if (!missing.empty()) complain("letter-missing", quoted + " lacks " + missing);
    for (std::size_t i = 0; i < d.word_order.size(); ++i) {
        const char letter = d.word_order[i];
        if (d.word_order.find(letter, i + 1) == std::string::npos) continue;
        return complain("letter-twice", std::string("the letter ") + letter + " stands twice in " + quoted);
    }
}

void check_needed_words(const Dialect& d, Checker& checker) {
    for (const auto& [path, text] :
         {KeyWord{"words.rapid", d.rapid_word}, KeyWord{"words.feed", d.feed_word},
          KeyWord{"program.spindle_cw", d.spindle_on_cw}, KeyWord{"program.end", d.program_end}}) {
        if (!text.empty()) continue;
        checker.complain(path, "word-missing", "no program does without this word",
                         "write the controller's word for it");
    }
}

/// No two modes may have one word: the complaint goes to the one of them that the file itself has.
void check_word_pair(const KeyWord& one, const KeyWord& other, Checker& checker) {
    if (code_word(one.text) != code_word(other.text)) return;
    const bool blame_one = checker.is_written(one.path);
    const KeyWord& blamed = blame_one ? one : other;
    const KeyWord& there = blame_one ? other : one;
    checker.complain(blamed.path, "word-twice", blamed.text + " already is " + there.path,
                     "give each its own word, or leave the one that the controller lacks empty");
}

void check_words(const Dialect& d, Checker& checker) {
    const std::vector<KeyWord> words = mode_words(d);
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (!code_word(words[i].text)) {
            checker.complain(words[i].path, "not-a-word",
                             "\"" + words[i].text + "\" is not one word of a letter and a number",
                             "write a word such as G1 or M30");
            continue;
        }
        for (std::size_t j = 0; j < i; ++j)
            check_word_pair(words[i], words[j], checker);
        for (const std::string& lacking : d.lacks) {
            if (code_word(lacking) != code_word(words[i].text)) continue;
            checker.complain("words.lacks", "contradiction",
                             lacking + " is what " + words[i].path + " writes",
                             "take it off this list, or give " + words[i].path + " another word");
        }
    }
}

void check_word_lists(const Dialect& d, Checker& checker) {
    for (const auto* list : {&d.lacks, &d.harmless}) {
        const char* path = list == &d.lacks ? "words.lacks" : "words.harmless";
        for (const std::string& word : *list) {
            if (code_word(word)) continue;
            checker.complain(path, "not-a-word", "\"" + word + "\" is not a word",
                             "write words such as \"G64\"");
        }
    }
    for (const std::string& word : d.harmless) {
        const auto same = [&](const std::string& lacking) {
            return code_word(word) && code_word(lacking) == code_word(word);
        };
        if (std::none_of(d.lacks.begin(), d.lacks.end(), same)) continue;
        checker.complain("words.harmless", "contradiction", word + " is among words.lacks too",
                         "take it off one of the lists");
    }
}

void check_units(const Dialect& d, Checker& checker) {
    if (!d.only_units && (d.mm_word.empty() || d.inch_word.empty())) {
        checker.complain(
            d.mm_word.empty() ? "words.mm" : "words.inch", "units-unknown",
            "without this word nothing says in which unit the controller reads",
            "write the word, or only_units = \"mm\" (or \"inch\") where the controller has but one");
    }
    if (!d.diameter_word.empty() && d.radius_word.empty() && !d.radial.diameter) {
        checker.complain("words.radius", "word-missing",
                         "the controller knows diameters, and the radial word is a radius",
                         "write the word that makes it read a radius, or set axes.radial.diameter = true");
    }
    if (d.diameter_word.empty() && !d.radius_word.empty() && d.radial.diameter) {
        checker.complain("words.diameter", "word-missing",
                         "the radial word is a diameter, and only the word for a radius is there",
                         "write the word that makes the controller read a diameter");
    }
}

/// Degrees: blocks limited to less would be so many that a program never ends.
constexpr double least_rotary_block = 0.1;

void check_rotary(const Dialect& d, Checker& checker) {
    if (d.longest_rotary_block > 0.0 && d.longest_rotary_block < least_rotary_block) {
        checker.complain("axes.rotary.longest_block", "block-too-short",
                         "blocks as short as that are thousands in every turn of the shaft",
                         "set longest_block to " + shortest_fixed(least_rotary_block, 1) +
                             " at least, or to 0 where there is no limit");
    }
    const bool folded = d.rotary_range == RotaryRange::folded;
    const double below = d.at_fold == RotaryFold::shorter_way ? 180.0 : 360.0;
    if (folded && !(d.longest_rotary_block > 0.0 && d.longest_rotary_block < below)) {
        checker.complain("axes.rotary.longest_block", "block-too-long",
                         "a folded rotary axis goes the way that is meant only in blocks shorter than " +
                             shortest_fixed(below, 0) + " degrees",
                         "set longest_block below that, say " + shortest_fixed(below / 2.0, 0));
    }
    if (folded && d.largest_rotary > 0.0) {
        checker.complain("axes.rotary.largest", "contradiction",
                         "a folded rotary word stays within one turn anyway",
                         "leave it out, or set range = \"runs-on\"");
    }
    if (d.largest_rotary > 0.0 && d.largest_rotary < 360.0) {
        checker.complain(
            "axes.rotary.largest", "contradiction",
            "a pass needs more than one turn of a rotary axis that runs on",
            "write the largest word that the controller takes, at least 360, or set range = \"folded\"");
    }
}

void check_feed(const Dialect& d, Checker& checker) {
    if (d.feed_mode == FeedMode::inverse_time && d.inverse_time_word.empty()) {
        checker.complain("feed.inverse_time", "word-missing",
                         "inverse time is the feed mode, and its word is not there",
                         "write it (mostly \"G93\"), or set mode = \"per-minute\"");
    }
    if (!d.inverse_time_word.empty() && d.per_minute_word.empty()) {
        checker.complain("feed.per_minute", "word-missing",
                         "a program in inverse time ends in feed per minute, whose word is not there",
                         "write it (mostly \"G94\")");
    }
    if (d.feed_lowest && d.feed_highest && *d.feed_lowest >= *d.feed_highest) {
        checker.complain("feed.highest", "contradiction", "the highest feed is not above the lowest",
                         "exchange them");
    }
}

/// Whether a word of the line goes beyond places of this program: an axis's letter, a straight motion,
/// absolute or incremental words.
bool leaves_the_program(const Dialect& d, const std::string& line) {
    const std::string axes = {d.radial.letter, d.axial.letter, d.rotary.letter};
    const std::vector<std::string> words = words_of(line);
    return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
        const auto code = code_word(word);
        if (!code || axes.find(code->letter) != std::string::npos) return false;
        for (const std::string& plain : {d.rapid_word, d.feed_word, d.absolute_word, std::string("G91")}) {
            if (code == code_word(plain)) return false;
        }
        return true;
    });
}

void check_home(const Dialect& d, Checker& checker) {
    for (const std::string& line : d.home) {
        if (!words_of(line).empty() && line.find_first_of("({;") == std::string::npos) continue;
        checker.complain("program.home", "not-a-block", "\"" + line + "\" is not a line of words alone",
                         "write the words of one block, without comments and places in braces");
    }
    if (d.home.empty() || leaves_the_program(d, d.home.front())) return;
    checker.complain("program.home", "not-home",
                     "\"" + d.home.front() + "\" goes to a place of the program's own",
                     "begin with the machine's word for its coordinates or its reference point; places from "
                     "the program's zeros belong into the job, as machine.tool_change");
}

bool is_comment(std::string_view line) {
    const std::size_t first = line.find_first_not_of(' ');
    return first != std::string_view::npos && (line[first] == '(' || line[first] == ';');
}

/// A line of the program: words, with places that are known.
void check_line(const std::string& line, const std::string& path, const std::vector<std::string>& known,
                Checker& checker) {
    const std::vector<std::string> faults = faults_of_places(line, known);
    for (const std::string& fault : faults)
        checker.complain(path, "unknown-place", fault, "use " + places_listed(known));
    if (!faults.empty()) return;
    if (const auto piece = piece_that_is_no_word(line)) {
        checker.complain(path, "not-a-word",
                         "\"" + *piece + "\" in \"" + line + "\" is not a word of a letter and a number",
                         "write words such as T1 M6, and notes in parentheses");
    }
}

void check_lengths(const Dialect& d, Checker& checker) {
    check_line(d.length_on, "program.length_on", tool_places, checker);
    check_line(d.length_off, "program.length_off", tool_places, checker);
    if (d.length_on.empty()) return;
    if (d.length_on.find("{offset") == std::string::npos) {
        checker.complain("program.length_on", "place-missing",
                         "\"" + d.length_on + "\" has no place for the length's number",
                         "write it as {offset}, or {offset2} where it has two digits");
    }
    if (d.length_off.empty()) {
        checker.complain("program.length_off", "word-missing",
                         "a length is put on, and nothing puts it off again",
                         "write the word for it (mostly \"G49\")");
    }
    if (d.home.empty()) {
        checker.complain("program.home", "word-missing",
                         "before a length is on, no word of this program says where the cutter's end goes",
                         "write the machine's own way home, which the program then begins with");
    }
}

void check_path_words(const Dialect& d, Checker& checker) {
    if (!d.blend_word.empty() && d.blend_word.find("{tolerance}") == std::string::npos) {
        checker.complain("words.blend", "place-missing",
                         "\"" + d.blend_word + "\" has no place for the tolerance",
                         "write it as {tolerance}, or use words.exact_path");
    }
    if (!d.blend_word.empty() && d.exact_path_word.empty()) {
        checker.complain(
            "words.exact_path", "word-missing",
            "where a job gives nothing to blending, no word says how the controller keeps to the path",
            "write the word for the exact path (mostly \"G61\")");
    }
}

void check_lines(const Dialect& d, Checker& checker) {
    if (d.block_numbers && d.first_number > d.largest_number) {
        checker.complain("lines.first_number", "contradiction",
                         "the first block number is beyond the largest", "lower it");
    }
    for (const auto* lines : {&d.header, &d.footer}) {
        const std::string path = lines == &d.header ? "program.header" : "program.footer";
        for (const std::string& line : *lines) {
            check_line(line, path, place_names, checker);
            if (d.comments == CommentStyle::none && is_comment(line)) {
                checker.complain(path, "contradiction",
                                 "\"" + line + "\" is a comment, and lines.comments is \"none\"",
                                 "leave it out");
            }
        }
    }
    check_line(d.tool_change, "program.tool_change", tool_places, checker);
    check_line(d.spindle_wait, "program.spindle_wait", {}, checker);
    check_line(d.blend_word, "words.blend", {"tolerance"}, checker);
    check_path_words(d, checker);
    if (d.summary.empty())
        checker.complain("summary", "empty", "it says nothing", "say in one line what the dialect is for");
}

}  // namespace

void check_dialect(const Dialect& dialect, const Node& document, Diagnostics& complaints) {
    Checker checker(document, complaints);
    check_letters(dialect, checker);
    check_order(dialect, checker);
    check_needed_words(dialect, checker);
    check_words(dialect, checker);
    check_word_lists(dialect, checker);
    check_units(dialect, checker);
    check_rotary(dialect, checker);
    check_feed(dialect, checker);
    check_lines(dialect, checker);
    check_home(dialect, checker);
    check_lengths(dialect, checker);
}

}  // namespace lobewright::post
