/// Lengths as text, in the units of the reader.
///
/// This folder holds what all texts for people and for other programs are made with: figures with their unit,
/// columns, wrapping, Markdown, CSV, JSON, durations.
#pragma once

#include <lobewright/units.h>

#include <string>

namespace lobewright {

/// Beside a figure: "mm" or "in".
const char* unit_word(Units units);
/// As a job file and JSON have them: "mm" or "inch".
const char* units_key(Units units);
/// In a sentence: "mm" or "inches".
const char* units_noun(Units units);

/// Places after the point of a length in either unit.
struct Decimals {
    int mm = 0;
    int inch = 0;

    [[nodiscard]] int of(Units units) const { return units == Units::mm ? mm : inch; }
};

/// The figure alone, with exactly so many decimals: "2.400".
std::string fixed_length(double mm, Units units, Decimals decimals);
/// The figure alone, with so many decimals at most, without needless zeros: "2.4".
std::string short_length(double mm, Units units, Decimals decimals);
/// "2.4 mm": a figure with its unit.
std::string with_unit(const std::string& figure, Units units);

/// What a sentence tells of a length: no more than a shop can measure.
inline constexpr Decimals sentence_decimals{4, 5};
/// "2.4 mm", "0.09449 in": a length in a sentence.
std::string length_words(double mm, Units units);
/// The user's own figure, however small, with its unit.
std::string own_figure(double mm, Units units);

}  // namespace lobewright
