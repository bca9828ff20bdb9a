#include "swept_program.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cctype>
#include <sstream>
#include <stdexcept>

using namespace lobewright;

namespace {

struct Word {
    char letter;
    double value;
};

std::vector<Word> words_of(std::string line) {
    for (std::size_t open = line.find('('); open != std::string::npos; open = line.find('(')) {
        line.erase(open, line.find(')', open) + 1 - open);
    }
    line.erase(std::min(line.find(';'), line.size()));
    std::vector<Word> words;
    for (std::size_t i = 0; i < line.size();) {
        if (std::isalpha(static_cast<unsigned char>(line[i])) == 0) {
            ++i;
            continue;
        }
        const std::size_t end = std::min(line.find_first_not_of("0123456789.+-", i + 1), line.size());
        const auto value = parse_decimal(line.substr(i + 1, end - i - 1));
        if (!value) throw std::runtime_error("not a word of a program: " + line);
        words.push_back({line[i], *value});
        i = end;
    }
    return words;
}

/// The modal state that such a program needs.
struct State {
    sweep::Position at;
    bool rapid = true;
    double unit = 1.0;
};

bool is(const Word& word, const std::string& text) {
    return !text.empty() && word.letter == text.front() && parse_decimal(text.substr(1)) == word.value;
}

void take(const Word& word, const Dialect& dialect, State& state, bool& moves) {
    if (is(word, dialect.rapid_word)) state.rapid = true;
    if (is(word, dialect.feed_word)) state.rapid = false;
    if (is(word, dialect.inch_word)) state.unit = 25.4;
    if (is(word, dialect.mm_word)) state.unit = 1.0;
    if (word.letter == 'G' && (word.value == 2.0 || word.value == 3.0 || word.value == 91.0)) {
        throw std::runtime_error("this reader knows straight, absolute moves alone");
    }
    const double diameter = dialect.radial.diameter ? 2.0 : 1.0;
    if (word.letter == dialect.radial.letter)
        state.at.radial = word.value * state.unit / diameter, moves = true;
    if (word.letter == dialect.axial.letter) state.at.axial = word.value * state.unit, moves = true;
    if (word.letter == dialect.rotary.letter) state.at.rotary = word.value, moves = true;
}

}  // namespace

std::vector<sweep::Position> positions_of_text(const std::string& program, const Dialect& dialect) {
    std::vector<sweep::Position> positions;
    State state;
    state.at.radial = 1000.0;
    positions.push_back(state.at);
    std::istringstream lines(program);
    int number = 0;
    for (std::string line; std::getline(lines, line);) {
        ++number;
        bool moves = false;
        for (const Word& word : words_of(line))
            take(word, dialect, state, moves);
        state.at.rapid = state.rapid;
        state.at.line = number;
        if (moves) positions.push_back(state.at);
    }
    return positions;
}

SweptShaft sweep_shaft(const std::vector<sweep::Position>& positions, const Job& job,
                       const std::vector<SolvedLobe>& lobes) {
    const sweep::Body body = sweep::cutting_body(job);
    const double blank = job.shaft.blank_diameter.value() / 2.0;
    SweptShaft worst;
    std::vector<double> slabs;
    for (const SolvedLobe& lobe : lobes) {
        for (const double side : {-0.499, 0.0, 0.499}) {
            slabs.push_back(lobe.z + side * lobe.width);
            const sweep::Slab slab(positions, body, slabs.back(), blank);
            const sweep::Comparison off = sweep::compare(slab, lobe, job.cut->allowance, 360);
            worst.deepest = std::min(worst.deepest, off.deepest);
            worst.proudest = std::max(worst.proudest, off.proudest);
        }
    }
    worst.rapids_in_stock = sweep::rapids_in_stock(positions, body, blank, slabs);
    return worst;
}
