// Comments as every controller passes over them: characters of UTF-8 one by one.
#include "post/program/program_lines.h"

#include "catch.h"

#include <string>

using namespace lobewright;
using post::comment_text;

TEST_CASE("a letter with an accent loses it, from the first of Latin-1's to the last") {
    const Dialect dialect;
    CHECK(comment_text("\u00C0\u00C4\u00D6\u00DC", dialect) == "AAOU");
    CHECK(comment_text("\u00E0\u00E9\u00F6\u00FF", dialect) == "aeoy");
    CHECK(comment_text("N\u00B0 5 \u00B5m, 45\u00B0", dialect) == "N deg 5 um, 45 deg");
}

TEST_CASE("a character that has no letter is one underscore, however many bytes it takes") {
    const Dialect dialect;
    // The first and the last character of two, three and four bytes (RFC 3629, section 3).
    for (const char* character : {"\u0100", "\u07FF", "\u0800", "\uFFFD", "\U00010000", "\U0010FFFF"})
        CHECK(comment_text("a" + std::string(character) + "b", dialect) == "a_b");
    // Broken: a byte that only goes on, and a character that ends too early. What follows is kept.
    CHECK(comment_text("a\x80"
                       "b",
                       dialect)
              .size() == 3);
    CHECK(comment_text("a\xF0\x90"
                       "b",
                       dialect)
              .back() == 'b');
}
