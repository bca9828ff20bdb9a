#include "base/text/markdown.h"

#include "catch.h"

using namespace lobewright;

TEST_CASE("a table's numbers go to the right, its words to the left, and its columns stay in line") {
    MarkdownTable table({"Lobe", "lift"});
    table.row({"inlet", "8.5"});
    table.row({"exhaust", "12° 30'"});
    table.row({"no lift", ""});
    CHECK(table.text() ==
          "| Lobe    |    lift |\n"
          "|---------|--------:|\n"
          "| inlet   |     8.5 |\n"
          "| exhaust | 12° 30' |\n"
          "| no lift |         |\n");
}

TEST_CASE("a bar in a cell is escaped, and a column is never narrower than its rule needs") {
    MarkdownTable table({"a", "b"});
    table.row({"x|y", "z"});
    CHECK(table.text() ==
          "| a    | b   |\n"
          "|------|-----|\n"
          "| x\\|y | z   |\n");
}

TEST_CASE("a heading has an empty line below it") {
    CHECK(heading("Lobe 1") == "## Lobe 1\n\n");
}

TEST_CASE("long lines break at spaces, hanging under their bullet") {
    const std::string text = bullet(std::string(60, 'a') + ' ' + std::string(60, 'b'));
    CHECK(text == "- " + std::string(60, 'a') + "\n  " + std::string(60, 'b') + '\n');
    CHECK(paragraph("one line") == "one line\n");
}
