#include "base/toml_slips.h"

#include "base/document.h"
#include "catch.h"

using namespace lobewright;

namespace {

/// The complaints about a text, a line each, without the file's name.
std::string complaints(const std::string& text, const std::vector<std::string>& lists = {}) {
    std::string all;
    for (const Diagnostic& each : parse_document(text, "", lists).complaints) {
        all += (all.empty() ? "" : "\n") + std::to_string(each.place.line) + ':' +
               std::to_string(each.place.column) + ' ' + each.what + ": " + each.remedy;
    }
    return all;
}

}  // namespace

TEST_CASE("a decimal comma is named, and so is the number as it should be") {
    CHECK(complaints("lift = 2,4\n") == "1:9 a decimal comma stands in this number: write 2.4, with a point");
    CHECK(complaints("lift = -12,04 # mm\n") ==
          "1:11 a decimal comma stands in this number: write -12.04, with a point");
    CHECK(complaints("ramp = { lift = 0,12, angle = 18 }\n") ==
          "1:18 a decimal comma stands in this number: write 0.12, with a point");
    CHECK(complaints("ramp = { angle = 18, lift = 0,12 }\n") ==
          "1:30 a decimal comma stands in this number: write 0.12, with a point");
    CHECK(complaints("list = [2,4]\nramp = { a = 1,b = 2 }\n").empty());
}

TEST_CASE("[lobe] for [[lobe]] is named, once or often, and the lobes are read") {
    const std::string twice = "[lobe]\na = 1\n[lobe] # the second\na = 2\n[[lobe]]\na = 3\n";
    CHECK(complaints(twice, {"lobe"}) ==
          "1:1 [lobe] is one of a list of tables: write [[lobe]]\n"
          "3:1 [lobe] is one of a list of tables: write [[lobe]]");
    const Document document = parse_document(twice, "job.toml", {"lobe"});
    REQUIRE(document.root.has_value());
    REQUIRE(document.root->find("lobe")->members.size() == 3);
    CHECK(document.root->find("lobe")->members[2].find("a")->number == 3.0);
    CHECK(complaints("[shaft]\n[shaft.journal]\nz = 1\n", {"lobe", "shaft.journal"}) ==
          "2:1 [shaft.journal] is one of a list of tables: write [[shaft.journal]]");
}

TEST_CASE("the slips of the pen that TOML allows for are told in plain words") {
    struct Case {
        const char* text;
        const char* complaint;
    };
    // clang-format off
    const std::vector<Case> cases = {
        {"turns = ccw", "1:9 a text stands without quotes: write \"ccw\""},
        {"list = [\"a\", b]", "1:14 a text stands without quotes: write \"b\""},
        {"t = “abc”", "1:5 “ is a quote of print: write plain quotes, as \"inlet\""},
        {"title = \"abc", "1:9 a text begins here and does not end: end it with \""},
        {"title = 'abc", "1:9 a text begins here and does not end: end it with '"},
        {"lift 2.4", "1:6 there is no = after \"lift\": write lift ="},
        {"lift: 2.4", "1:5 a : stands where = should: write lift ="},
        {"lift", "1:1 \"lift\" stands alone: write a key, = and its value"},
        {"lift =", "1:6 there is no value after the =: write one"},
        {"lift == 3", "1:7 = stands twice: write it once"},
        {"= 3", "1:1 there is no key before the =: write one"},
        {"é = 1", "1:1 the key é is not one plain word: put it in quotes: \"é\""},
        {"nose radius = 1", "1:1 the key nose radius is not one plain word: put it in quotes: \"nose radius\""},
        {"lift = 2.4 mm", "1:12 \"mm\" stands after the number: write the number alone, without its unit"},
        {"lift = 1e400", "1:8 1e400 is too large a number: write one such as 2.4"},
        {"lift = 12345678901234567890", "1:8 12345678901234567890 is too large a number: write one such as 2.4"},
        {"lift = 17 1/2", "1:8 17 1/2 is a fraction: write 17.5"},
        {"lift = 2.4mm", "1:11 \"mm\" stands after the number: write the number alone, without its unit"},
        {"at = 120°", "1:9 \"°\" stands after the number: write the number alone, without its unit"},
        {"lift = 1/16", "1:8 1/16 is a fraction: write 0.0625"},
        {"at = 045", "1:6 045 begins with a needless 0: write 45"},
        {"at = -00.5", "1:6 -00.5 begins with a needless 0: write -0.5"},
        {"lift = .5", "1:8 .5 has no digit before its point: write 0.5"},
        {"lift = -.5", "1:8 -.5 has no digit before its point: write -0.5"},
        {"lift = 5.", "1:8 5. has no digit after its point: write 5.0"},
        {"speed = 10 000", "1:9 10 000 is a number with gaps: write 10000"},
        {"lift = 2.4;", "1:11 \";\" stands after the number: write one key and its value a line"},
        {"a = 1 b = 2", "1:7 \"b = 2\" stands after the number: write one key and its value a line"},
        {"a = \"x\" \"y\"", "1:9 more stands after the text: write one value, in one pair of quotes"},
        {"a = +-3", "1:5 +-3 is no number: write one such as 2.4"},
        {"a = True", "1:5 True is no value: write true"},
        {"a = no", "1:5 no is no value: write false"},
        {"file = \"C:\\dir\\a.csv\"", "1:11 a backslash in double quotes has a meaning of its own, and this one has none: write / or \\\\, or put the text in single quotes"},
        {"// a comment", "1:1 this looks like a comment: begin it with #"},
        {"a = [1,,2]", "1:8 two commas stand side by side: leave one of them out"},
        {"a = { b = 1, }", "1:12 a comma stands before }: leave it out"},
        {"a = { b = 1,\n c = 2 }", "1:5 the brace { is not closed in its line: write all of it in one line"},
        {"a = [1, 2\nb = 3", "1:5 the bracket [ is not closed: end the list with ]"},
        {"[shaft\nb = 1", "1:1 the bracket is not closed: end the name with ]"},
        {"[[lobe]\nb = 1", "1:7 the brackets before and after the name differ: write [name], or [[name]] where there may be several"},
        {"[my shaft]", "1:1 the name in the brackets is not one plain word: put it in quotes: [\"my name\"]"},
        {"[shaft] turns = 1", "1:9 more stands after the bracket: write keys and values on lines of their own"},
        {"a = 1\na = 2", "2:1 'a' is there already: keep one of them"},
        {"[a]\n[a]", "2:1 [a] is there already: give it another name, or keep one of them; what may stand several times has double brackets"},
    };
    // clang-format on
    for (const Case& each : cases) {
        INFO(each.text);
        CHECK(complaints(each.text) == each.complaint);
        CHECK(complaints(std::string(each.text) + "\r\n") == each.complaint);
    }
}

TEST_CASE("one broken value hides neither the next nor what else the file holds") {
    const Document document = parse_document(
        "a = 2,4\nb = 1\nc = ccw # way\nd: 3\n[t]\ne = 1/2\nf = inf\nb = 2\nb = 3\n", "job.toml");
    REQUIRE(document.complaints.size() == 6);
    for (const int line : {1, 3, 4, 6, 9, 7}) {
        INFO(line);
        bool told = false;
        for (const Diagnostic& each : document.complaints)
            told = told || each.place.line == line;
        CHECK(told);
    }
    REQUIRE(document.root.has_value());
    CHECK(document.root->find("b")->number == 1.0);
    CHECK(document.root->find("d")->kind == Node::Kind::broken);
    CHECK(document.root->find("t")->find("b")->number == 2.0);
}

TEST_CASE("a file full of slips is told to its end, and in a moment") {
    std::string text;
    for (int i = 0; i < 300; ++i)
        text += "[lobe]\nlift" + std::to_string(i) + " = 2,4\n";
    const Document document = parse_document(text, "job.toml", {"lobe"});
    CHECK(document.complaints.size() == 600);
    REQUIRE(document.root.has_value());
    CHECK(document.root->find("lobe")->members.size() == 300);
}

TEST_CASE("what can't be read shows its line, with a caret below the place") {
    const auto shown = [](const std::string& text) {
        return excerpt_text(parse_document(text, "job.toml").complaints.front());
    };
    CHECK(shown("a = 1\nlift = 2,4 # mm\n") == "  2 | lift = 2,4 # mm\n    |         ^\n");
    CHECK(shown("µ = \"°\"\n") == "  1 | µ = \"°\"\n    | ^\n");
    CHECK(shown("a = \"°µ\" b\n") == "  1 | a = \"°µ\" b\n    |          ^\n");
    CHECK(shown("\tlift = 2,4\n") == "  1 |  lift = 2,4\n    |          ^\n");
    CHECK(shown("a = \"\x1b[31m\"\n") == "  1 | a = \"\\u001B[31m\"\n    |      ^\n");
    CHECK(shown("a = inf\n") == "  1 | a = inf\n    |     ^\n");
    const std::string far = shown("a = \"" + std::string(500, 'x') + "\" b" + std::string(500, 'y') + "\n");
    CHECK(far.find("...") != std::string::npos);
    for (std::size_t at = 0; at < far.size(); at = far.find('\n', at) + 1)
        CHECK(far.find('\n', at) - at <= 84);
}

TEST_CASE("no slip is told in the library's own words") {
    const std::vector<std::string> texts = {
        "a = 2,4", "a =", "[a", "a = [",  "a = {",  "a = \"",    "a = \"\"\"",
        "a b",     "= 1", "]",  "a = 1e", "a = 0x", "a = 12:30", "a = 99999999999999999999"};
    for (const std::string& text : texts) {
        const std::string told = complaints(text);
        INFO(told);
        CHECK_FALSE(told.empty());
        for (const char* phrase : {"Error while", "expected", "saw", "encountered", "redefine"})
            CHECK(told.find(phrase) == std::string::npos);
    }
}

TEST_CASE("a broken header or an open list hides neither the next slip nor what stands below it") {
    const std::string text =
        "[shaft\nlength = 2,4\n[[lobe]\nz = 1\n[lobe]]\nz = 2\n[my shaft] # old\n[a]\nlist = [1, 2\nnext = "
        "3\n"
        "[b] c = 1\nd = 4\n";
    const Document document = parse_document(text, "job.toml", {"lobe"});
    std::string lines;
    for (const Diagnostic& each : document.complaints)
        lines += std::to_string(each.place.line) + ' ' + each.code + '\n';
    CHECK(lines == "1 header\n2 decimal-comma\n3 header\n5 header\n7 header\n9 open-list\n11 header\n");
    REQUIRE(document.root.has_value());
    REQUIRE(document.root->find("lobe")->members.size() == 2);
    CHECK(document.root->find("lobe")->members[1].find("z")->number == 2.0);
    CHECK(document.root->find("a")->find("list")->kind == Node::Kind::broken);
    CHECK(document.root->find("a")->find("next")->number == 3.0);
    CHECK(document.root->find("b")->find("d")->number == 4.0);
}
