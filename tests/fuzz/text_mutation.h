/// Spoils texts as slips of the pen, broken programs and malice do: by characters, numbers, words, lines and
/// whole blocks.
#pragma once

#include "dice.h"

#include <string>
#include <vector>

/// What a kind of text is made of.
struct TextGrammar {
    std::vector<std::string> words;   ///< that have a meaning in it: stand in for others, or come on top
    std::vector<std::string> values;  ///< to put behind a "="; empty: there are none
    std::string block_starts;         ///< what a block's first line begins with; empty: no blocks
    bool single_letters = false;      ///< words are one letter and a number: "G1X39"
};

/// `text` with one to six changes; parts of `other` may come into it. Never longer than `largest`.
std::string mutated(const std::string& text, const std::string& other, const TextGrammar& grammar,
                    std::size_t largest, Dice& dice);
