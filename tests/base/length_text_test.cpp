#include "base/text/length_text.h"

#include "catch.h"

using namespace lobewright;

TEST_CASE("a length is told in the reader's unit, with the decimals of that unit") {
    CHECK(fixed_length(2.4, Units::mm, {3, 4}) == "2.400");
    CHECK(fixed_length(2.54, Units::inch, {3, 4}) == "0.1000");
    CHECK(short_length(2.4, Units::mm, {3, 4}) == "2.4");
    CHECK(short_length(2.54, Units::inch, {3, 4}) == "0.1");
    CHECK(length_words(2.4, Units::mm) == "2.4 mm");
    CHECK(length_words(2.4, Units::inch) == "0.09449 in");  // 2.4 / 25.4 = 0.0944881...
}

TEST_CASE("the user's own figure keeps every digit, however small") {
    CHECK(own_figure(0.0002, Units::mm) == "0.0002 mm");
    CHECK(own_figure(0.000001, Units::mm) == "0.000001 mm");
    CHECK(own_figure(0.25 * 25.4, Units::inch) == "0.25 in");
}

TEST_CASE("a unit has a word beside a figure, a key in files and a noun in sentences") {
    CHECK(with_unit("12", Units::inch) == "12 in");
    CHECK(units_key(Units::inch) == std::string("inch"));
    CHECK(units_noun(Units::inch) == std::string("inches"));
    for (const auto word : {unit_word, units_key, units_noun})
        CHECK(word(Units::mm) == std::string("mm"));
}
