#include "base/text/column_layout.h"

#include "catch.h"

using namespace lobewright;

TEST_CASE("columns are as wide as their widest cell, in characters") {
    const std::string text =
        in_columns({{"lobe", "lift"}, {"é", "8"}, {"exhaust", "12.25"}}, {{Flush::left}, {Flush::right}});
    CHECK(text ==
          "lobe      lift\n"
          "é            8\n"
          "exhaust  12.25\n");
}

TEST_CASE("a column may have a least width, the rows an indent, and no line ends in blanks") {
    const std::string text =
        in_columns({{"z", ""}, {"1", "OUT"}}, {{Flush::right, 4}, {Flush::left, 6}}, "|", "  ");
    CHECK(text ==
          "     z|\n"
          "     1|OUT\n");
    CHECK(in_columns({{"a", ""}}, {{Flush::left, 5}, {Flush::left, 5}}) == "a\n");
}

TEST_CASE("no rows are no text") {
    CHECK(in_columns({}, {}).empty());
}
