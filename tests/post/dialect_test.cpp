#include "catch.h"
#include "guide_dialect.h"
#include "hand_path.h"
#include "post/dialect/dialect_checks.h"
#include "program.h"

#include <lobewright/dialect.h>

#include <cmath>
#include <map>
#include <sstream>

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

/// The small dialect's text with that part replaced.
std::string with(const std::string& part, const std::string& by) {
    return ::with(small_dialect, part, by);
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
    check_complaint(with("layout = 1", "layout = 2"), "layout", 1, "layout");
    check_complaint(with("a controller of the user's own", ""), "empty", 2, "says nothing");
    check_complaint(with("letter = \"Y\", ", ""), "missing-key", 4, "'letter'");
}

TEST_CASE("an axis or a table that a dialect lacks is asked for with what to write") {
    const auto without_line = [](const std::string& start) {
        const std::size_t from = small_dialect.find(start);
        return small_dialect.substr(0, from) + small_dialect.substr(small_dialect.find('\n', from) + 1);
    };
    check_complaint(without_line("radial"), "missing-key", 3, "radial = { letter = \"X\" }");
    check_complaint(without_line("axial"), "missing-key", 3, "axial = { letter = \"Z\" }");
    check_complaint(without_line("rotary"), "missing-key", 3, "rotary = { letter = \"A\" }");
    check_complaint(small_dialect.substr(0, small_dialect.find("[feed]")), "missing-key", 1,
                    "the table [feed]");
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
    check_complaint(
        ::with(with("STM\"", "STM\"\nradius = \"G8\""), "letter = \"Y\"", "letter = \"Y\", diameter = true"),
        "word-missing", 7, "words.diameter");
    check_complaint(with("STM\"", "STM\"\nlacks = [\"G\"]"), "not-a-word", 9, "\"G\" is not a word");
    check_complaint(with("\"G93\"", "\"G93\"\nper_minute = \"\""), "word-missing", 12, "feed.per_minute");
    check_complaint(with("STM\"", "STM\"\nblend = \"G64\""), "place-missing", 9, "{tolerance}");
    check_complaint(with("decimals = 2", "range = \"folded\""), "block-too-long", 6, "180");
    check_complaint(with("decimals = 2", "range = \"folded\", at_fold = \"by-sign\", longest_block = 360"),
                    "block-too-long", 6, "360");
    check_complaint(with("decimals = 2", "longest_block = 0.099"), "block-too-short", 6, "0.1 at least");
    CHECK(read_dialect(with("decimals = 2", "longest_block = 0.1"), "own.toml").ok());
    check_complaint(with("decimals = 2", "range = \"folded\", longest_block = 90, largest = 999"),
                    "contradiction", 6, "largest");
    check_complaint(with("decimals = 2", "largest = 359.9"), "contradiction", 6, "more than one turn");
    CHECK(read_dialect(with("decimals = 2", "largest = 360"), "own.toml").ok());
    check_complaint(small_dialect + "[lines]\nnumbers = true\nfirst_number = 20\nlargest_number = 10\n",
                    "contradiction", 14, "number");
    check_complaint(small_dialect + "[lines]\ncomments = \"none\"\n[program]\nheader = [\"(hello)\"]\n",
                    "contradiction", 15, "comment");
    check_complaint(small_dialect + "[program]\nheader = [\"G0 X{here}\"]\n", "unknown-place", 13, "{here}");
    check_complaint(small_dialect + "[program]\nheader = [\"G0 X{units\"]\n", "unknown-place", 13,
                    "not closed");
    check_complaint(small_dialect + "[program]\nfooter = [\"G0 X}\"]\n", "unknown-place", 13, "not opened");
    check_complaint(small_dialect + "[program]\nfooter = [\"M5 GO X1\"]\n", "not-a-word", 13, "\"GO\" in");
    check_complaint(small_dialect + "[program]\nspindle_cw = \"\"\n", "word-missing", 13,
                    "no program does without");
}

TEST_CASE("the guide's dialect with lengths, a way home and a side axis reads as it stands") {
    const Dialect dialect = taken(read_dialect(guide_dialect_text(), "own.toml"));
    REQUIRE(dialect.side.has_value());
    CHECK(dialect.side->word.letter == 'Y');
    CHECK(dialect.home.size() == 2);
    CHECK(dialect.length_on == "G43 H{offset}");
    CHECK_THAT(dialect_summary(dialect), ContainsSubstring("side Y") &&
                                             ContainsSubstring("home: G53 G0 Z0") &&
                                             ContainsSubstring("put on by G43 H{offset}"));
}

TEST_CASE("what a dialect says of tools, lengths and its way home must hang together") {
    const auto program = [](const std::string& lines) { return small_dialect + "[program]\n" + lines; };
    check_complaint(program("home = [\"G0 Y300\"]\n"), "not-home", 13, "machine.tool_change");
    check_complaint(program("home = [\"G90 G0 Y300\"]\n"), "not-home", 13, "the program's own");
    check_complaint(program("home = [\"(home)\"]\n"), "not-a-block", 13, "words alone");
    check_complaint(program("home = [\"G28 Y{start_radial}\"]\n"), "not-a-block", 13, "braces");
    check_complaint(program("length_on = \"G43 H1\"\n"), "place-missing", 13, "{offset}");
    check_complaint(program("length_on = \"G43 H{offset}\"\nhome = [\"G28 Y0\"]\n"), "word-missing", 12,
                    "G49");
    check_complaint(program("length_on = \"G43 H{offset}\"\nlength_off = \"G49\"\n"), "word-missing", 12,
                    "way home");
    check_complaint(program("tool_change = \"T{pocket}\"\n"), "unknown-place", 13, "{offset2}");
    check_complaint(program("stop = \"M30\"\n"), "word-twice", 13, "program.end");
    check_complaint(with("rotary = {", "side = { letter = \"Z\" }\nrotary = {"), "missing-key", 6,
                    "positive");
    check_complaint(with("rotary = {", "side = { letter = \"Z\", positive = \"ccw\" }\nrotary = {"),
                    "letter-missing", 9, "lacks Z");
    check_complaint(with("rotary = {", "side = { letter = \"Y\", positive = \"up\" }\nrotary = {"),
                    "unknown-word", 6, "ccw");
    check_complaint(with("\"G93\"", "\"G93\"\nleast_linear = -0.1"), "out-of-range", 12, "least_linear");
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
    // What the path gives to blending is what the word tells, which takes no more than the job gives.
    CHECK_NEAR(word_grid(mill, Units::mm, 0.00057).blend_tolerance, 0.0005, 1e-12);
    CHECK(word_grid(mill, Units::mm, 0.00009).blend_tolerance == 0.0);
    CHECK_NEAR(word_grid(mill, Units::inch, 0.00057).blend_tolerance, 0.000022 * 25.4, 1e-12);
    CHECK(word_grid(shipped_dialect("plain-xa"), Units::mm, 0.0005).blend_tolerance == 0.0);
    CHECK_RELATIVE(word_grid(mill, Units::mm).least_linear_feed, 0.1, 1e-15);
    CHECK_RELATIVE(word_grid(mill, Units::inch).least_linear_feed, 2.54, 1e-15);
    CHECK(word_grid(shipped_dialect("plain-xa"), Units::mm).least_linear_feed == 0.0);
}

// IEEE 754: of 24 bits, a number from 2^13 up to 2^14 leaves steps of 2^-10, above it of 2^-9: 0.00098,
// 0.00195.
TEST_CASE(
    "single precision holds a rotary word to 0.001 degrees up to 16384, and the path keeps below that") {
    CHECK(std::nextafter(8192.0F, 1e9F) - 8192.0F < 0.001F);
    CHECK(std::nextafter(16383.0F, 1e9F) - 16383.0F < 0.001F);
    CHECK(std::nextafter(16384.0F, 1e9F) - 16384.0F > 0.001F);
    Dialect small = shipped_dialect("plain-xa");
    CHECK(small.reckoning == Reckoning::single_precision);
    CHECK(word_grid(small, Units::mm).largest_rotary == 16384.0);
    small.largest_rotary = 1000.0;
    CHECK(word_grid(small, Units::mm).largest_rotary == 1000.0);
    const Dialect open = shipped_dialect("rs274ngc-xza");
    CHECK(open.reckoning == Reckoning::double_precision);
    CHECK(word_grid(open, Units::mm).largest_rotary == 0.0);
    CHECK(shipped_dialect("iso6983-xzc").reckoning == Reckoning::unknown);
    CHECK(word_grid(shipped_dialect("iso6983-xzc"), Units::mm).largest_rotary == 99999.999);
    check_complaint(with("rotary = { ", "rotary = { precision = \"half\", "), "unknown-word", 6, "single");
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
    const auto comments = [](CommentStyle style) {
        Dialect dialect = shipped_dialect("plain-xa");
        dialect.comments = style;
        return dialect_summary(dialect);
    };
    CHECK_THAT(comments(CommentStyle::none), ContainsSubstring("no comments"));
    CHECK_THAT(comments(CommentStyle::parentheses), ContainsSubstring("comments in parentheses"));
    CHECK_THAT(comments(CommentStyle::semicolon), ContainsSubstring("comments after semicolons"));
}

TEST_CASE("every key of a dialect is read, and explained in the README beside the dialects") {
    const std::string every_key = R"(layout = 1
summary = "every key at once"
cannot = ["fly"]
[axes]
radial = { letter = "X", decimals_mm = 3, decimals_inch = 4, diameter = true }
axial = { letter = "Z", decimals_mm = 3, decimals_inch = 4 }
rotary = { letter = "C", decimals = 3, range = "folded", at_fold = "by-sign", longest_block = 300, largest = 0 }
[words]
order = "NGXZCFSTM"
rapid = "G00"
feed = "G01"
mm = "G71"
inch = "G70"
only_units = "mm"
absolute = "G90"
diameter = "G7"
radius = "G8"
plane = "G18"
cancel = ["G40"]
work_offsets = ["G54"]
blend = "G64 P{tolerance}"
exact_path = "G61"
repeat_motion = true
repeat_axes = true
decimal_point_always = false
keep_zeros = true
lacks = ["G2"]
harmless = ["M70"]
[feed]
mode = "per-minute"
inverse_time = "G93"
per_minute = "G94"
inverse_unit = "seconds"
counts = "mixed"
decimals = 2
lowest = 1
highest = 1000
repeat = false
[lines]
comments = "semicolon"
upper_case = true
numbers = true
first_number = 1
number_step = 1
largest_number = 9999
end = "crlf"
longest = 70
longest_program = 8000
spaces = false
percent = true
[program]
number = "O7"
spindle_cw = "M13"
spindle_ccw = "M14"
spindle_off = "M15"
spindle_wait = "G4 P1"
coolant_on = "M8"
coolant_off = "M9"
tool_change = "T{tool} M6"
end = "M2"
header = ["M23"]
footer = ["M24"]
)";
    const Outcome<Dialect> dialect = read_dialect(every_key, "every.toml");
    if (!dialect) FAIL(to_text(dialect.diagnostics().front()));
    const Dialect& d = *dialect;
    CHECK(d.cannot == std::vector<std::string>{"fly"});
    CHECK((d.radial.decimals_mm == 3 && d.radial.decimals_inch == 4 && d.radial.diameter));
    CHECK((d.rotary_range == RotaryRange::folded && d.at_fold == RotaryFold::by_sign &&
           d.longest_rotary_block == 300.0));
    CHECK((d.word_order == "NGXZCFSTM" && d.rapid_word == "G00" && d.feed_word == "G01"));
    CHECK((d.mm_word == "G71" && d.inch_word == "G70" && d.only_units == Units::mm &&
           d.absolute_word == "G90"));
    CHECK((d.diameter_word == "G7" && d.radius_word == "G8" && d.plane_word == "G18"));
    CHECK((d.cancel_words == std::vector<std::string>{"G40"} &&
           d.work_offset_words == std::vector<std::string>{"G54"}));
    CHECK((d.blend_word == "G64 P{tolerance}" && d.exact_path_word == "G61"));
    CHECK((d.repeat_modal_g && d.repeat_axis_words && !d.decimal_point_always && d.keep_zeros));
    CHECK((d.lacks == std::vector<std::string>{"G2"} && d.harmless == std::vector<std::string>{"M70"}));
    CHECK(
        (d.feed_mode == FeedMode::per_minute && d.inverse_time_word == "G93" && d.per_minute_word == "G94"));
    CHECK((d.inverse_unit == InverseUnit::seconds && d.feed_counts == FeedCounts::mixed &&
           d.feed_decimals == 2));
    CHECK((d.feed_lowest == 1.0 && d.feed_highest == 1000.0 && !d.repeat_feed));
    CHECK((d.comments == CommentStyle::semicolon && d.upper_case && d.block_numbers));
    CHECK((d.first_number == 1 && d.number_step == 1 && d.largest_number == 9999));
    CHECK((d.line_end == LineEnd::crlf && d.longest_line == 70 && d.longest_program == 8000 && !d.spaces &&
           d.percent_lines));
    CHECK((d.program_number == "O7" && d.spindle_on_cw == "M13" && d.spindle_on_ccw == "M14" &&
           d.spindle_off == "M15"));
    CHECK((d.spindle_wait == "G4 P1" && d.coolant_on == "M8" && d.coolant_off == "M9"));
    CHECK((d.tool_change == "T{tool} M6" && d.program_end == "M2"));
    CHECK((d.header == std::vector<std::string>{"M23"} && d.footer == std::vector<std::string>{"M24"}));

    const std::string readme = file_text(source_folder() / "postprocessors" / "README.md");
    std::istringstream lines(every_key);
    for (std::string line; std::getline(lines, line);) {
        if (line.front() == '[') continue;
        INFO(line);
        CHECK_THAT(readme, ContainsSubstring('`' + line.substr(0, line.find(' ')) + '`'));
    }
    for (const char* key : {"letter", "decimals_mm", "decimals_inch", "diameter", "range", "at_fold",
                            "longest_block", "largest"}) {
        CHECK_THAT(readme, ContainsSubstring('`' + std::string(key) + '`'));
    }
}

TEST_CASE("a code word is a letter and a plain number, whichever the letter's case") {
    CHECK(post::code_word("G54.1") == post::CodeWord{'G', 54.1});
    CHECK(post::code_word("m6") == post::CodeWord{'M', 6.0});
    for (const char* none : {"", "G", "12", "1.5", "-3", "G1e3", "GG1", "G1 "})
        CHECK_FALSE(post::code_word(none).has_value());
}
