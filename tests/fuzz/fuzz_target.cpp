#include "fuzz_target.h"

#include "cli/command_table.h"
#include "fuzz_runs.h"
#include "fuzz_seeds.h"

#include <algorithm>
#include <cctype>
#include <set>
#include <stdexcept>

namespace {

using Words = std::vector<std::string>;

/// Every word of letters in the seeds, once: keys, words of keys, column names.
Words words_in(const Words& seeds) {
    std::set<std::string> words;
    for (const std::string& seed : seeds) {
        std::string word;
        for (const char c : seed + '\n') {
            const bool goes_on = std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '-';
            if (goes_on) {
                word += c;
            } else {
                const bool key =
                    word.size() > 1 && std::isalpha(static_cast<unsigned char>(word.front())) != 0;
                if (key) words.insert(word);
                word.clear();
            }
        }
    }
    return {words.begin(), words.end()};
}

// clang-format off
const Words toml_values = {
    "true", "false", "\"\"", "\"mm\"", "\"inch\"", "[]", "{}", "[1, 2, 3]", "[[1, 2], [3]]", "[0.5, -1]", "{ a = 1 }", "[{ over = 10, to = 1 }]",
    "{ lift = 0.1, angle = 20 }", "1979-05-27", "07:32:00", "1979-05-27T07:32:00Z", "nan", "inf", "-inf", "0", "-1", "1", "0.0", "1e308", "1e-308",
    "10000", "10000.01", "0.001", "360", "361", "-360", "\"\\u0000\"", "'literal'", "\"\"\"several\nlines\"\"\"", "[", "{", "\"open", "0x7fffffff",
    "[[0, 0], [1, 2], [2, 5]]", "\"ccw\"", "\"cw\"", "\"straight\"", "{ opening = 22, closing = 28 }", "[\"\"]", "[true, 1, \"x\"]",
};
const Words program_words = {
    "G0", "G1", "G2", "G3", "G4", "G17", "G18", "G19", "G20", "G21", "G28", "G40", "G41", "G43", "G43 H1", "G49", "G53", "G54", "G55", "G59.3", "G61",
    "G61.1", "G64", "G64 P0.01", "G7", "G8", "G70", "G71", "G80", "G81", "G90", "G91", "G90.1", "G91.1", "G92", "G93", "G94", "G95", "G96", "G97", "G98",
    "G10 L2", "G33", "G38.2", "G76", "M0", "M1", "M2", "M3", "M4", "M5", "M6", "M7", "M8", "M9", "M30", "M48", "M49", "M60", "M98", "M99", "T1", "T2 M6",
    "S100", "S0", "F100", "F0", "F-1", "X0", "X40", "Z20", "A0", "A360", "A-720", "C90", "Y1", "I1", "J1", "K1", "R5", "R-5", "P1", "Q1", "L1",
    "H1", "D1", "N10", "N99999", "O1000", "%", "/", "(note)", "(MSG, x)", "(", ")", ";", "#1=5", "#1", "[1+2]", "E1", "$", "X", "G", "rs274ngc-xzc",
    "iso6983-xzc", "plain-xa", "rs274ngc-yxa", "rs274ngc-zxa", "rs274ngc-xza", "mm", "inch",
};
// clang-format on

TextGrammar toml(const Words& seeds) {
    TextGrammar grammar{words_in(seeds), toml_values, "[", false};
    return grammar;
}

/// With every option and every word for one.
TextGrammar arguments(const Words& seeds) {
    TextGrammar grammar{
        words_in(seeds), {"", "0", "-1", "nan", "json", "1e99", "\xFF", "-", "a b"}, "", false};
    for (const lobewright::cli::CommandRow& row : lobewright::cli::command_table()) {
        grammar.words.push_back(row.name);
        for (const auto& option : row.options)
            grammar.words.push_back("--" + option.name + '\n');
    }
    for (const char* word :
         {"--", "-", "-o\n", "-o", "--json=1", "--lobe=", "csv", "json", "markdown", "arcs", "7.5"})
        grammar.words.emplace_back(word);
    return grammar;
}

TextGrammar columns(const Words& seeds, const Words& more) {
    TextGrammar grammar{words_in(seeds), {}, "", false};
    grammar.words.insert(grammar.words.end(), more.begin(), more.end());
    return grammar;
}

}  // namespace

const std::vector<FuzzTarget>& fuzz_targets() {
    static const Words choices = {"zero", "runout", "arcs",   "marks", "named",       "reversed",   "inch",
                                  "mm",   "mark",   "roller", "lobe",  "crank_angle", "shaft_angle"};
    static const std::vector<FuzzTarget> targets{
        {"job", run_job, job_seeds, toml(job_seeds()), 100000},
        {"dialect", run_dialect, dialect_seeds, toml(dialect_seeds()), 50000},
        {"program", run_program_text, program_seeds, {program_words, {}, "", true}, 100000},
        {"table", run_table, table_seeds, columns(table_seeds(), choices), 100000},
        {"readings", run_readings, readings_seeds, columns(readings_seeds(), choices), 100000},
        {"arguments", run_arguments, arguments_seeds, arguments(arguments_seeds()), 4000}};
    return targets;
}

const FuzzTarget& fuzz_target(const std::string& name) {
    const auto& all = fuzz_targets();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const FuzzTarget& each) { return each.name == name; });
    if (found == all.end()) throw std::invalid_argument("there is no fuzz target " + name);
    return *found;
}
