#include "base/text/length_text.h"

#include "base/document.h"

#include <lobewright/number_text.h>

namespace lobewright {

const char* unit_word(Units units) {
    return units == Units::mm ? "mm" : "in";
}
const char* units_key(Units units) {
    return units == Units::mm ? "mm" : "inch";
}
const char* units_noun(Units units) {
    return units == Units::mm ? "mm" : "inches";
}

std::string fixed_length(double mm, Units units, Decimals decimals) {
    return fixed(mm / mm_per(units), decimals.of(units));
}

std::string short_length(double mm, Units units, Decimals decimals) {
    return shortest_fixed(mm / mm_per(units), decimals.of(units));
}

std::string with_unit(const std::string& figure, Units units) {
    return figure + ' ' + unit_word(units);
}

std::string length_words(double mm, Units units) {
    return with_unit(short_length(mm, units, sentence_decimals), units);
}

std::string own_figure(double mm, Units units) {
    return with_unit(as_written(mm / mm_per(units)), units);
}

}  // namespace lobewright
