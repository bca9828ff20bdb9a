#include "base/text/characters.h"

#include "catch.h"

using namespace lobewright;

TEST_CASE("characters are counted, not bytes, and blanks make up the width") {
    CHECK(characters("") == 0);
    CHECK(characters("Auslaßnocken") == 12);
    CHECK(characters("µm°") == 3);
    CHECK(flush_left("µ", 3) == "µ  ");
    CHECK(flush_right("µ", 3) == "  µ");
    CHECK(flush_left("abcd", 3) == "abcd");
}

TEST_CASE("what a terminal would act on is shown as an escape, all else as it is") {
    CHECK(printable("1 inlet, ø 12 °") == "1 inlet, ø 12 °");
    CHECK(printable("a\x1b[31mb") == "a\\u001B[31mb");
    CHECK(printable("a\r\n\tb\x7f") == "a\\u000D\\u000A\\u0009b\\u007F");
    CHECK(printable("\xC2\x9B") == "\\u009B");      // the one-character form of ESC [
    CHECK(printable("\xE2\x80\xAE") == "\\u202E");  // right to left from here
    CHECK(printable("\xE2\x81\xA6") == "\\u2066");
    CHECK(printable("a\xff") == "a\\xFF");
    CHECK(printable("\xE2\x80") == "\\xE2\\x80");
    CHECK(printable(std::string_view("\0", 1)) == "\\u0000");
    CHECK(printable("\xF0\x9F\x94\xA7") == "\xF0\x9F\x94\xA7");
}
