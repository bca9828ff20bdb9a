#include "base/document.h"

#include "catch.h"

#include <random>

using namespace lobewright;

TEST_CASE("a document keeps the file's order and every value's place") {
    const auto document = parse_document("b = 1\na = \"x\"\n[t]\nz = 2.5\ny = [true, 3]\n", "job.toml");
    REQUIRE(document.complaints.empty());
    REQUIRE(document.root->members.size() == 3);
    CHECK(document.root->members[0].key == "b");
    CHECK(document.root->members[1].key == "a");
    const Node* z = document.root->find("t")->find("z");
    REQUIRE(z != nullptr);
    CHECK(z->number == 2.5);
    CHECK(z->place.line == 4);
    CHECK(z->place.column == 5);
    CHECK(z->key_place.column == 1);
    const Node* y = document.root->find("t")->find("y");
    REQUIRE(y->members.size() == 2);
    CHECK(y->members[0].truth);
    CHECK(y->members[1].whole);
    CHECK(y->members[1].place.column == 12);
}

TEST_CASE("a column counts characters, not bytes") {
    const auto document = parse_document("a = \"°µ\" b", "job.toml");
    REQUIRE(document.complaints.size() == 1);
    CHECK(document.complaints.front().place.column == 10);
}

TEST_CASE("no text aborts the reader; each unfit one is a complaint with a line") {
    const std::vector<std::string> hostile = {"[ = 1",
                                              "[=]",
                                              "[\n",
                                              "[.a]",
                                              "[",
                                              std::string(200000, '.') + " = 1",
                                              "a = " + std::string(100000, '['),
                                              "a = " + std::string(17, '[') + std::string(17, ']'),
                                              "a = 20°",
                                              "a = 1 µm",
                                              "é = 1",
                                              "a = \"\x01\"",
                                              "a = \"\\u001b\"",
                                              "\"\\u001b\" = 1",
                                              "a = \"\xff\"",
                                              "a = \"\xc0\x80\"",
                                              "a = \"\xed\xa0\x80\"",
                                              "a = 1\na = 2\n",
                                              "a = inf",
                                              "a = nan",
                                              "a = -inf",
                                              "a = [1, nan]",
                                              "a = 1\r\x0b",
                                              std::string("a = \"\0\"", 7)};
    for (const std::string& text : hostile) {
        INFO(text.substr(0, 40));
        const auto document = parse_document(text, "job.toml");
        REQUIRE_FALSE(document.complaints.empty());
        CHECK(document.complaints.front().place.line >= 1);
        CHECK_FALSE(document.complaints.front().remedy.empty());
    }
}

TEST_CASE("brackets in comments don't let a tree grow past what the stack holds") {
    std::string deep_key;
    for (int i = 0; i < 60; ++i)
        deep_key += "a.";
    std::string text = "x = ";
    for (int i = 0; i < 200; ++i)
        text += "[ # ]]]]\n{ " + deep_key + "b = ";
    const auto document = parse_document(text, "job.toml");
    REQUIRE_FALSE(document.complaints.empty());
    CHECK(document.complaints.front().place.line >= 1);
    const std::string deepest = "x = [[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]";
    CHECK(parse_document(deepest, "job.toml").complaints.empty());
}

TEST_CASE("any single change to a document is read or refused, never a crash") {
    const std::string good =
        "layout = 1\n[job]\ntitle = \"Basalt four\" # °\n[[lobe]]\nat = { a = 1.5, b = [1, 2] }\n";
    std::mt19937 random(20240611);
    INFO("seed 20240611");
    const std::string letters = "[]{}=.\"'#\n\r\t ,0-+eE\\\xc3\xff";
    int refused = 0;
    for (int i = 0; i < 20000; ++i) {
        std::string text = good;
        const std::size_t at = random() % text.size();
        if (random() % 2 == 0)
            text[at] = letters[random() % letters.size()];
        else
            text.insert(at, 1, letters[random() % letters.size()]);
        refused += parse_document(text, "job.toml").complaints.empty() ? 0 : 1;
    }
    CHECK(refused > 1000);
    CHECK(refused < 20000);
}

TEST_CASE("the nearest word mends a slip of the pen and nothing else") {
    const std::vector<std::string> known = {"base_radius", "nose_radius", "lift"};
    CHECK(nearest_word("base_raduis", known) == "base_radius");
    CHECK(nearest_word("lfit", known) == "lift");
    CHECK(nearest_word("diameter", known).empty());
}

TEST_CASE("a table reader complains about everything at once, each at its own place") {
    const auto document =
        parse_document("[shaft]\nturns = \"cww\"\nlenght = 3\nwidth = \"a\"\ndepth = -1\n", "job.toml");
    REQUIRE(document.complaints.empty());
    Diagnostics complaints;
    TableReader reader(*document.root->find("shaft"), "shaft", complaints);
    CHECK_FALSE(reader.choice("turns", {"ccw", "cw"}).has_value());
    CHECK_FALSE(reader.number("length").has_value());
    CHECK_FALSE(reader.number("width").has_value());
    CHECK_FALSE(reader.number("depth", positive).has_value());
    reader.required_number("blank");
    reader.finish();
    REQUIRE(complaints.size() == 5);
    CHECK(to_text(complaints[0]) ==
          "job.toml:2:9: 'shaft.turns' is \"cww\": did you mean \"ccw\"? Known: \"ccw\", \"cw\"");
    CHECK(to_text(complaints[1]) == "job.toml:4:9: 'shaft.width' is a text: give a number");
    CHECK(to_text(complaints[2]) == "job.toml:5:9: 'shaft.depth' is -1: give more than 0");
    CHECK(to_text(complaints[3]) == "job.toml:1:2: [shaft] has no 'blank': add it");
    CHECK(to_text(complaints[4]) == "job.toml:3:1: unknown key 'shaft.lenght': did you mean 'length'?");
}

TEST_CASE("a table reader passes over what the document complained about") {
    const auto document = parse_document(
        "a = inf\nb = [1, nan]\nc = \"x\\u0007\"\nd = 2,4\ne = { f = ccw }\ng = \"left\"\n", "job.toml");
    REQUIRE(document.root.has_value());
    CHECK(document.complaints.size() == 5);
    Diagnostics complaints;
    TableReader reader(*document.root, "", complaints);
    reader.required_number("a");
    CHECK(reader.numbers("b") == std::vector<double>{1.0});
    CHECK_FALSE(reader.string("c").has_value());
    CHECK_FALSE(reader.whole_number("d", 1, 2).has_value());
    CHECK(reader.table("e") == nullptr);
    CHECK_FALSE(reader.choice("g", {"ccw", "cw"}).has_value());
    reader.finish();
    REQUIRE(complaints.size() == 1);
    CHECK_THAT(to_text(complaints.front()), ContainsSubstring("job.toml:6:5: 'g' is \"left\""));
}
