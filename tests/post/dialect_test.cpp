#include "catch.h"
#include "hand_path.h"

#include <lobewright/dialect.h>

#include <map>

using namespace lobewright;

namespace {

const std::string small_dialect = R"(layout = 1
summary = "a controller of the user's own"
[axes]
radial = { letter = "Y", decimals_mm = 3, decimals_inch = 4 }
axial = { letter = "X", decimals_mm = 3 }
rotary = { letter = "B", decimals = 2 }
[words]
order = "NGXYBFSTM"
[feed]
mode = "inverse-time"
inverse_time = "G93"
)";

/// The dialect's text with the first `old` replaced.
std::string with(const std::string& old, const std::string& replacement) {
    std::string text = small_dialect;
    const std::size_t at = text.find(old);
    REQUIRE(at != std::string::npos);
    return text.replace(at, old.size(), replacement);
}

void check_complaint(const std::string& text, const std::string& code, int line, const std::string& part) {
    const Outcome<Dialect> dialect = read_dialect(text, "posts/own.toml");
    INFO(text);
    REQUIRE_FALSE(dialect.ok());
    std::string all;
    bool found = false;
    for (const Diagnostic& complaint : dialect.diagnostics()) {
        all += to_text(complaint) + '\n';
        CHECK(complaint.fault == Fault::bad_input);
        CHECK_FALSE(complaint.remedy.empty());
        found = found || (complaint.code == code && complaint.place.line == line &&
                          to_text(complaint).find(part) != std::string::npos);
    }
    INFO("wanted " << code << " at line " << line << " with \"" << part << "\" among\n" << all);
    CHECK(found);
}

}  // namespace

TEST_CASE("every shipped dialect reads without a complaint, under its file's name") {
    for (const std::string& name : shipped_names()) {
        const Dialect dialect = shipped_dialect(name);
        CHECK(dialect.name == name);
        CHECK_FALSE(dialect.summary.empty());
    }
}

TEST_CASE("a dialect's name tells its radial, axial and rotary letters") {
    const std::map<std::string, std::string> letters = {{"rs274ngc-xza", "XZA"}, {"rs274ngc-zxa", "ZXA"},
                                                        {"rs274ngc-yxa", "YXA"}, {"rs274ngc-xzc", "XZC"},
                                                        {"iso6983-xzc", "XZC"},  {"plain-xa", "XZA"}};
    for (const auto& [name, wanted] : letters) {
        const Dialect d = shipped_dialect(name);
        CHECK(std::string{d.radial.letter, d.axial.letter, d.rotary.letter} == wanted);
    }
}

TEST_CASE("a dialect of the user's own says only what differs from the usual") {
    const Outcome<Dialect> dialect = read_dialect(small_dialect, "posts/own.toml");
    REQUIRE(dialect.ok());
    CHECK(dialect->name == "own");
    CHECK(dialect->radial.letter == 'Y');
    CHECK(dialect->rotary.decimals_mm == 2);
    CHECK(dialect->rotary.decimals_inch == 2);
    CHECK(dialect->feed_word == "G1");
    CHECK(dialect->inverse_time_word == "G93");
    CHECK_FALSE(dialect->feed_counts.has_value());
    CHECK(dialect->longest_line == 252);
}

TEST_CASE("a dialect's slips are complained about at their places") {
    check_complaint(with("summary", "sumary"), "unknown-key", 2, "summary");
    check_complaint(with("decimals_mm = 3, decimals_inch = 4", "decimals_mm = 3.5"), "wrong-type", 4,
                    "decimals_mm");
    check_complaint(with("letter = \"Y\"", "letter = \"N\""), "not-an-axis", 4, "\"N\"");
    check_complaint(with("mode = \"inverse-time\"", "mode = \"inverse\""), "unknown-word", 10,
                    "inverse-time");
    check_complaint(with("layout = 1\n", ""), "missing-key", 1, "layout");
    check_complaint(with("layout = 1", "layout = 2"), "out-of-range", 1, "layout");
}

TEST_CASE("a dialect that contradicts itself is refused") {
    check_complaint(with("letter = \"B\"", "letter = \"X\""), "letter-twice", 6, "letter X");
    check_complaint(with("NGXYBFSTM", "NGXYFSTM"), "letter-missing", 8, "lacks B");
    check_complaint(with("NGXYBFSTM", "NGXYBFSTMX"), "letter-twice", 8, "letter X");
    check_complaint(with("NGXYBFSTM", "NGXYB FSTM"), "not-a-letter", 8, "capital");
    check_complaint(with("inverse_time = \"G93\"\n", ""), "word-missing", 9, "G93");
    check_complaint(with("\"G93\"", "\"G094.0\""), "word-twice", 11, "feed.per_minute");
    check_complaint(with("\"G93\"", "\"G93 \""), "not-a-word", 11, "one word");
    check_complaint(with("\"G93\"", "\"G93\"\nlowest = 5\nhighest = 2"), "contradiction", 13, "lowest");
    check_complaint(with("STM\"", "STM\"\nlacks = [\"G01\"]"), "contradiction", 9, "words.feed");
    check_complaint(with("STM\"", "STM\"\nlacks = [\"G64\"]\nharmless = [\"G064\"]"), "contradiction", 10,
                    "lacks");
    check_complaint(with("STM\"", "STM\"\nmm = \"\""), "units-unknown", 9, "only_units");
    check_complaint(with("STM\"", "STM\"\ndiameter = \"G7\""), "word-missing", 7, "axes.radial.diameter");
    check_complaint(with("STM\"", "STM\"\nblend = \"G64\""), "place-missing", 9, "{tolerance}");
    check_complaint(with("decimals = 2", "range = \"folded\""), "block-too-long", 6, "180");
    check_complaint(with("decimals = 2", "range = \"folded\", at_fold = \"by-sign\", longest_block = 360"),
                    "block-too-long", 6, "360");
    check_complaint(with("decimals = 2", "range = \"folded\", longest_block = 90, largest = 999"),
                    "contradiction", 6, "largest");
    check_complaint(small_dialect + "[lines]\nnumbers = true\nfirst_number = 20\nlargest_number = 10\n",
                    "contradiction", 14, "number");
    check_complaint(small_dialect + "[lines]\ncomments = \"none\"\n[program]\nheader = [\"(hello)\"]\n",
                    "contradiction", 15, "comment");
    check_complaint(small_dialect + "[program]\nheader = [\"G0 X{here}\"]\n", "unknown-place", 13, "{here}");
    check_complaint(small_dialect + "[program]\nspindle_cw = \"\"\n", "word-missing", 13,
                    "no program does without");
}

TEST_CASE("all complaints about a dialect come in one go") {
    std::string text = with("letter = \"B\"", "letter = \"X\"") +
                       "[lines]\nnumbers = true\nfirst_number = 20\nlargest_number = 10\n";
    const Outcome<Dialect> dialect = read_dialect(text, "own.toml");
    REQUIRE_FALSE(dialect.ok());
    CHECK(dialect.diagnostics().size() == 2);
}

TEST_CASE("the grid of a dialect is the radius, length and angle of one last decimal") {
    const Dialect mill = shipped_dialect("rs274ngc-xza");
    CHECK(word_grid(mill, Units::mm).radial_step == 1e-4);
    CHECK(word_grid(mill, Units::mm).axial_step == 1e-4);
    CHECK(word_grid(mill, Units::mm).rotary_step == 1e-4);
    CHECK_RELATIVE(word_grid(mill, Units::inch).radial_step, 25.4e-5, 1e-15);
    const Dialect lathe = shipped_dialect("rs274ngc-xzc");
    CHECK(word_grid(lathe, Units::mm).radial_step ==
          0.5e-4);  // a diameter's last decimal is half of it in radius
    CHECK(word_grid(lathe, Units::mm).axial_step == 1e-4);
    CHECK(word_grid(mill, Units::mm, 0.0005).blend_tolerance == 0.0005);
    CHECK(word_grid(shipped_dialect("plain-xa"), Units::mm, 0.0005).blend_tolerance == 0.0);
}

TEST_CASE("a dialect's summary says its axes, feed, units and what it cannot do") {
    const std::string text = dialect_summary(shipped_dialect("iso6983-xzc"));
    for (const char* part :
         {"iso6983-xzc: ISO 6983 lathes", "radial X (diameter), axial Z, rotary C", "up to 99999.999 degrees",
          "feed per minute, worked out block by block, counting linear and rotary axes mixed",
          "mm (G71) or inch (G70)", "numbered, at most 80 characters", "cannot count on inverse time"}) {
        CHECK_THAT(text, ContainsSubstring(part));
    }
    Dialect folded = shipped_dialect("plain-xa");
    folded.rotary_range = RotaryRange::folded;
    folded.longest_rotary_block = 90.0;
    CHECK_THAT(dialect_summary(folded),
               ContainsSubstring("folded to one turn, shorter way round, at most 90 degrees in one block"));
}
