#include "base/text/duration_words.h"

#include "catch.h"

using lobewright::duration_words;

TEST_CASE("a duration has tenths of a second below a minute, and whole seconds from there on") {
    CHECK(duration_words(0.0) == "0.0 s");
    CHECK(duration_words(48.66) == "48.7 s");
    CHECK(duration_words(59.6) == "1 min 00 s");
    CHECK(duration_words(1682.2) == "28 min 02 s");
}
