#include "base/text/csv.h"

#include "catch.h"

using namespace lobewright;

TEST_CASE("fields stand between commas, and a line ends with its own end") {
    CHECK(csv_line({"1", "", "inlet"}) == "1,,inlet\n");
    CHECK(csv_line({""}) == "\n");
}

// RFC 4180, 2: fields with line breaks, quotes and commas are quoted, a quote in them doubled.
TEST_CASE("a field with a comma, a quote or a line's end is quoted") {
    CHECK(csv_field("in, left") == "\"in, left\"");
    CHECK(csv_field("the \"left\"") == "\"the \"\"left\"\"\"");
    CHECK(csv_field("two\nlines") == "\"two\nlines\"");
    CHECK(csv_field("plain; text") == "plain; text");
}
