#include "catch.h"
#include "hand_path.h"
#include "lines.h"
#include "program.h"

#include <lobewright/number_text.h>
#include <lobewright/program_writer.h>

#include <cstdlib>

using namespace lobewright;

namespace {

std::string written(const Job& job, const Dialect& dialect) {
    const Outcome<std::string> program = write_program(job, hand_lobes(), hand_path(job, dialect), dialect);
    if (!program) FAIL(to_text(program.diagnostics().front()));
    return *program;
}

/// The path's one move from its start: `to`, in `seconds`.
Toolpath one_block(const WordGrid& grid, Words to, double seconds) {
    Toolpath path;
    path.grid = grid;
    path.start = {200000, 0, 0};
    path.moves = {{MoveKind::feed, to, seconds}};
    return path;
}

std::string feed_of(const Dialect& dialect, Job job, Words to, double seconds) {
    job.machine->tool_change->radial = 1000.0;
    const auto program =
        write_program(job, {}, one_block(word_grid(dialect, job.units), to, seconds), dialect);
    REQUIRE(program.ok());
    for (const std::string& line : lines_of(*program)) {
        const std::size_t f = line.find(" F");
        if (line.find('(') == std::string::npos && f != std::string::npos) return line.substr(f + 2);
    }
    return {};
}

void check_refusal(const Outcome<std::string>& program, const std::string& code,
                   const std::vector<std::string>& parts) {
    REQUIRE_FALSE(program.ok());
    REQUIRE(program.diagnostics().size() == 1);
    const Diagnostic& refusal = program.diagnostics().front();
    CHECK(refusal.code == code);
    CHECK(refusal.fault == Fault::check_failed);
    CHECK(refusal.place.line == 40);
    CHECK_FALSE(refusal.remedy.empty());
    for (const std::string& part : parts)
        CHECK_THAT(to_text(refusal), ContainsSubstring(part));
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t i = text.find(part); i != std::string::npos; i = text.find(part, i + 1))
        ++found;
    return found;
}

}  // namespace

// Renewed by the target renew_post_golden alone; read by eye before it is committed.
TEST_CASE("each dialect's program is the golden one to the byte", "[golden]") {
    for (const std::string& name : shipped_names()) {
        const auto golden = source_folder() / "tests" / "post" / "golden" / (name + ".ngc");
        const std::string program = written(hand_job(), shipped_dialect(name));
        if (std::getenv("LOBEWRIGHT_RENEW_GOLDEN") != nullptr) write_file(golden, program);
        INFO(golden);
        CHECK(program == file_text(golden));
    }
}

TEST_CASE("inverse time's F is one over the block's minutes, or its seconds where the dialect says so") {
    // NIST IR 6556, 3.5.19: an F of 2.0 means that the move is done in half a minute.
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    CHECK(feed_of(dialect, job, {190000, 0, 10000}, 30.0) == "2.");
    CHECK(feed_of(dialect, job, {190000, 0, 10000}, 0.02) == "3000.");
    // 1 degree at radius 20 with 100 mm/min along the surface: 0.349066 mm, F 286.479 (f/L)
    CHECK(feed_of(dialect, job, {200000, 0, 10000}, 60.0 * 0.3490658503988659 / 100.0) == "286.4788");
    dialect.inverse_unit = InverseUnit::seconds;
    CHECK(feed_of(dialect, job, {190000, 0, 10000}, 30.0) == "30.");
}

TEST_CASE(
    "feed per minute counts linear axes alone where they move, degrees where only the rotary one does") {
    // NIST IR 6556, 2.1.2.5: a block X0.01 A1 at F100 takes 6 ms; backwards, 6 ms ask for F100.
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.feed_mode = FeedMode::per_minute;
    CHECK(feed_of(dialect, job, {200100, 0, 10000}, 0.006) == "100.");
    CHECK(feed_of(dialect, job, {200000, 0, 300000}, 2.0) == "900.");
    CHECK(feed_of(dialect, job, {230000, 40000, 0}, 3.0) == "100.");  // 3-4-5
}

TEST_CASE("mixed counting takes a degree for a unit of length, in the program's units") {
    Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.feed_mode = FeedMode::per_minute;
    dialect.feed_counts = FeedCounts::mixed;
    CHECK(feed_of(dialect, job, {230000, 0, 40000}, 3.0) == "100.");  // 3 mm and 4 degrees
    job.units = Units::inch;
    CHECK(feed_of(dialect, job, {500000, 0, 40000}, 3.0) == "100.");  // 3 inches (of 1e-5) and 4 degrees
}

TEST_CASE("a diameter word counts as a radius under feed per minute") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xzc");
    dialect.feed_mode = FeedMode::per_minute;
    CHECK(feed_of(dialect, job, {260000, 0, 0}, 1.8) == "100.");  // X20. to X26.: 3 mm of radius
}

TEST_CASE("F is rounded so that no block is faster than planned, and at most a step slower") {
    const Job job = hand_job();
    for (const std::string& name : shipped_names()) {
        const Dialect dialect = shipped_dialect(name);
        const WordGrid grid = word_grid(dialect, Units::mm);
        for (const double seconds : {0.137, 0.2, 0.77, 1.0 / 3.0, 7.0, 19.3}) {
            const Words to{200000 + 37, 0, 123456};
            const double f = *parse_decimal(feed_of(dialect, job, to, seconds));
            const double linear = 37.0 * grid.radial_step;
            const double degrees = 123456.0 * grid.rotary_step;
            const double way = dialect.feed_mode == FeedMode::inverse_time
                                   ? 1.0
                                   : std::sqrt(linear * linear + degrees * degrees);
            const double taken = 60.0 * way / f;
            CAPTURE(name, seconds, f, taken);
            CHECK(taken >= seconds * (1.0 - 1e-11));
            CHECK(60.0 * way / (f + std::pow(10.0, -dialect.feed_decimals)) < seconds);
        }
    }
}

TEST_CASE("every feed line in inverse time has its F, also where it repeats") {
    const std::string program = written(hand_job(), shipped_dialect("rs274ngc-xza"));
    bool feeding = false;
    int feeds = 0;
    for (const std::string& line : lines_of(program)) {
        if (line.front() == '(') continue;
        if (line.find("G1 ") != std::string::npos) feeding = true;
        if (line.find("G0 ") != std::string::npos) feeding = false;
        const bool moves =
            line.find_first_of("XZA") != std::string::npos && line.find("(") == std::string::npos;
        if (!feeding || !moves) continue;
        ++feeds;
        CHECK_THAT(line, ContainsSubstring(" F"));
    }
    CHECK(feeds == 4 * 17);
}

TEST_CASE("feed per minute is put in force again before the end of a program in inverse time") {
    const std::vector<std::string> lines = lines_of(written(hand_job(), shipped_dialect("rs274ngc-xza")));
    const auto where = [&](const std::string& start) {
        for (std::size_t i = lines.size(); i-- > 0;) {
            if (lines[i].rfind(start, 0) == 0) return i;
        }
        return std::string::npos;
    };
    CHECK(where("G93") < where("G94"));
    CHECK(where("G94") < where("M30"));
    for (std::size_t i = where("G94"); i < lines.size(); ++i)
        CHECK(lines[i].find('F') == std::string::npos);
}

TEST_CASE("the cutter goes away from the shaft first, and comes to it last") {
    const std::vector<std::string> lines = lines_of(written(hand_job(), shipped_dialect("rs274ngc-xza")));
    std::vector<std::string> rapids;
    for (const std::string& line : lines) {
        if (line.rfind("G0 ", 0) == 0 && rapids.size() < 5) rapids.push_back(line.substr(0, 4));
    }
    CHECK(rapids == std::vector<std::string>{"G0 X", "G0 Z", "G0 Z", "G0 A", "G0 X"});
}

TEST_CASE("blocks without motion are left out") {
    const Dialect dialect = shipped_dialect("rs274ngc-xza");
    const Job job = hand_job();
    Toolpath path = one_block(word_grid(dialect, job.units), {190000, 0, 0}, 1.0);
    const auto once = write_program(job, {}, path, dialect);
    path.moves.push_back({MoveKind::feed, {190000, 0, 0}, 0.0});
    path.moves.push_back({MoveKind::rapid, {190000, 0, 0}, 0.0});
    const auto with_nothing = write_program(job, {}, path, dialect);
    REQUIRE(once.ok());
    CHECK(*once == *with_nothing);
}

TEST_CASE("a word that prints the same is left out, or repeated where the dialect wants it") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    Toolpath path = one_block(word_grid(dialect, job.units), {190000, 0, 10000}, 1.0);
    path.moves.push_back({MoveKind::feed, {190000, 0, 20000}, 1.0});
    CHECK_THAT(*write_program(job, {}, path, dialect), ContainsSubstring("\nG1 X19. A1. F60.\nA2. F60.\n"));
    dialect.repeat_modal_g = true;
    dialect.repeat_axis_words = true;
    CHECK_THAT(*write_program(job, {}, path, dialect),
               ContainsSubstring("\nG1 X19. Z0. A1. F60.\nG1 X19. Z0. A2. F60.\n"));
    dialect.feed_mode = FeedMode::per_minute;
    dialect.feed_counts = FeedCounts::mixed;
    dialect.repeat_axis_words = false;
    dialect.repeat_feed = false;
    path.moves[0].to.radial = 200000;
    path.moves[1].to.radial = 200000;
    CHECK_THAT(*write_program(job, {}, path, dialect), ContainsSubstring("\nG1 A1. F60.\nG1 A2.\n"));
}

TEST_CASE("a folded rotary word goes the shorter way, in [0, 360)") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.rotary_range = RotaryRange::folded;
    dialect.longest_rotary_block = 120.0;
    Toolpath path = one_block(word_grid(dialect, job.units), {200000, 0, -100000}, 1.0);  // -10
    path.moves.push_back({MoveKind::feed, {200000, 0, -1300000}, 1.0});                   // -130
    path.moves.push_back({MoveKind::rapid, {200000, 0, -3700000}, 0.0});                  // -370: two parts
    CHECK_THAT(*write_program(job, {}, path, dialect),
               ContainsSubstring("\nG1 A350. F60.\nA230. F60.\nG0 A110.\nA350.\nG94"));
    path.moves.push_back({MoveKind::feed, {200000, 0, -4900001}, 1.0});
    check_refusal(write_program(job, {}, path, dialect), "block-too-long",
                  {"120.0001", "120", "rs274ngc-xza"});
}

TEST_CASE("a rotary word folded by sign shows the way, also at zero") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.rotary_range = RotaryRange::folded;
    dialect.at_fold = RotaryFold::by_sign;
    dialect.longest_rotary_block = 350.0;
    Toolpath path = one_block(word_grid(dialect, job.units), {200000, 0, 3000000}, 1.0);
    path.moves.push_back({MoveKind::feed, {200000, 0, 3600000}, 1.0});
    path.moves.push_back({MoveKind::feed, {200000, 0, 3500000}, 1.0});
    path.moves.push_back({MoveKind::feed, {200000, 0, 3600000}, 1.0});
    path.moves.push_back({MoveKind::feed, {200000, 0, 3700000}, 1.0});
    path.moves.push_back({MoveKind::feed, {200000, 0, 3600000}, 1.0});
    CHECK_THAT(
        *write_program(job, {}, path, dialect),
        ContainsSubstring("\nG1 A300. F60.\nA360. F60.\nA-350. F60.\nA360. F60.\nA10. F60.\nA-360. F60.\n"));
}

TEST_CASE("a rotary word beyond what the controller takes is refused") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.largest_rotary = 1000.0;
    check_refusal(write_program(job, hand_lobes(), hand_path(job, dialect), dialect), "rotary-word-too-large",
                  {"1450", "1000", "largest"});
}

TEST_CASE("rotary words that single precision can't hold are remarked, unless the dialect says what it has") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    const auto remarks = [&](double degrees, Reckoning reckoning) {
        dialect.reckoning = reckoning;
        dialect.largest_rotary = 0.0;
        const WordGrid grid = word_grid(dialect, job.units);
        const auto steps = static_cast<long long>(degrees / grid.rotary_step);
        Toolpath path = one_block(grid, {200000, 0, steps}, 1.0);
        path.moves.front().kind = MoveKind::rapid;
        const auto program = write_program(job, {}, path, dialect);
        REQUIRE(program.ok());
        return program.diagnostics();
    };
    CHECK(remarks(16384.0, Reckoning::unknown).empty());
    const Diagnostics told = remarks(16384.1, Reckoning::unknown);
    REQUIRE(told.size() == 1);
    CHECK(told.front().code == "rotary-precision");
    CHECK(told.front().severity == Severity::note);
    CHECK_THAT(told.front().what, ContainsSubstring("runs on to 16384 degrees:"));
    CHECK(remarks(16384.1, Reckoning::double_precision).empty());
}

TEST_CASE("the header tells where the rotary axis ends, and what winding back takes") {
    Job job = hand_job();
    const Dialect dialect = shipped_dialect("rs274ngc-xza");
    const WordGrid grid = word_grid(dialect, job.units);
    Toolpath path = one_block(grid, {200000, 0, -72000000}, 1.0);  // twenty turns
    path.moves.front().kind = MoveKind::rapid;
    CHECK_THAT(*write_program(job, {}, path, dialect),
               ContainsSubstring("(The last word of A is -7200, 20 turns from zero)"));
    job.machine->limits.rotary_speed = 3600.0;
    CHECK_THAT(*write_program(job, {}, path, dialect),
               ContainsSubstring("(The last word of A is -7200: winding back to A0 takes 2 min)"));
}

TEST_CASE("where the shaft winds back, the program says so on its way and in its header") {
    const Job job = hand_job();
    const Dialect dialect = shipped_dialect("rs274ngc-xza");
    Toolpath path = one_block(word_grid(dialect, job.units), {200000, 0, 3600000}, 1.0);
    path.moves.push_back({MoveKind::rapid, {200000, 0, 0}, 0.0});
    path.unwindings = {1};
    path.unwinding_seconds = 30.0;
    CHECK_THAT(
        *write_program(job, {}, path, dialect),
        ContainsSubstring("(The shaft winds back 1 time on its way, the cutter clear of it, in 0.5 min") &&
            ContainsSubstring("A stays within 360 either side of A0") &&
            ContainsSubstring("(the shaft winds back, the cutter clear of it)\nG0 A0.\n"));
}

TEST_CASE("a dialect without inverse time and without a rule for feed per minute is refused") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("plain-xa");
    dialect.feed_counts.reset();
    check_refusal(write_program(job, hand_lobes(), hand_path(job, dialect), dialect), "no-rule-for-feed",
                  {"plain-xa", "inverse time", "feed.counts"});
}

TEST_CASE("a feed outside the controller's range is refused with the block's time and the limit") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    const WordGrid grid = word_grid(dialect, job.units);
    dialect.feed_highest = 10000.0;
    check_refusal(write_program(job, {}, one_block(grid, {190000, 0, 0}, 0.003), dialect), "feed-too-high",
                  {"0.003 s", "F20000", "F10000", "cut.surface_feed"});
    dialect.feed_lowest = 0.5;
    check_refusal(write_program(job, {}, one_block(grid, {190000, 0, 0}, 240.0), dialect), "feed-too-low",
                  {"240 s", "F0.25", "F0.5", "surface_feed"});
    // A hair's breadth of X beside a long turn: linear-only counting has no F for it.
    dialect = shipped_dialect("rs274ngc-xza");
    dialect.feed_mode = FeedMode::per_minute;
    check_refusal(write_program(job, {}, one_block(grid, {200001, 0, 2000000}, 90.0), dialect),
                  "feed-too-low", {"90 s", "F0.000066667", "F0.0001", "inverse time"});
}

TEST_CASE("a block that F's decimals slow by more than one in a hundred is told of") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.feed_decimals = 0;
    const auto program =
        write_program(job, {}, one_block(word_grid(dialect, job.units), {190000, 0, 0}, 8.2), dialect);
    REQUIRE(program.ok());
    REQUIRE(program.diagnostics().size() == 1);
    CHECK(program.diagnostics().front().severity == Severity::warning);
    CHECK_THAT(to_text(program.diagnostics().front()), ContainsSubstring("4.5 %"));  // 7.317 printed as 7
}

TEST_CASE("units that the controller does not read are refused") {
    const Job job = hand_job(Units::inch);
    Dialect dialect = shipped_dialect("plain-xa");
    dialect.only_units = Units::mm;
    check_refusal(write_program(job, hand_lobes(), hand_path(job, dialect), dialect), "wrong-units",
                  {"mm only", "inch"});
}

TEST_CASE("blending is written with its tolerance, or refused where the dialect has no word for it") {
    Job job = hand_job();
    job.cut->blend = 0.0005;
    const Dialect dialect = shipped_dialect("rs274ngc-xza");
    Toolpath path = hand_path(job, dialect);
    path.grid = word_grid(dialect, job.units, job.cut->blend);
    CHECK_THAT(*write_program(job, hand_lobes(), path, dialect), ContainsSubstring("\nG64 P0.0005\n"));
    const Dialect plain = shipped_dialect("plain-xa");
    check_refusal(write_program(job, hand_lobes(), hand_path(job, plain), plain), "no-blending",
                  {"plain-xa", "cut.blend"});
}

TEST_CASE("a line longer than the controller reads is refused; a long comment is broken instead") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.longest_line = 40;
    for (const std::string& line : lines_of(written(job, dialect)))
        CHECK(line.size() <= 40);
    dialect.header = {"G10 L2 P1 X0.0000 Y0.0000 Z0.0000 A0.0000"};
    check_refusal(write_program(job, hand_lobes(), hand_path(job, dialect), dialect), "line-too-long",
                  {"G10 L2", "41 characters", "allows 40"});
}

TEST_CASE("titles and names can't break a comment") {
    Job job = hand_job();
    job.title = "No. 3 (\"hot\") 108\u00B0 \u00FCber; 100 % !? ~ \u4E2D";
    auto lobes = hand_lobes();
    lobes[0].name = "a) G0 X-99 (";
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    const auto program = write_program(job, lobes, hand_path(job, dialect), dialect);
    REQUIRE(program.ok());
    CHECK_THAT(*program, ContainsSubstring("(Camshaft: No. 3 [\"hot\"] 108 deg uber, 100  percent .. - _)"));
    CHECK_THAT(*program, ContainsSubstring("(lobe a] G0 X-99 [: finish, Z20)"));
    for (const std::string& line : lines_of(*program)) {
        CHECK(count(line, "(") == count(line, ")"));
        CHECK(count(line, "(") <= 1);
        CHECK(line.find_first_not_of(
                  " !\"#$%&'()*+,-./"
                  "0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}") ==
              std::string::npos);
    }
    dialect.comments = CommentStyle::semicolon;
    CHECK_THAT(*write_program(job, lobes, hand_path(job, dialect), dialect),
               ContainsSubstring("; Camshaft: No. 3 (\"hot\")"));
}

TEST_CASE("block numbers count in steps and start again past the largest") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.block_numbers = true;
    dialect.first_number = 5;
    dialect.number_step = 5;
    dialect.largest_number = 20;
    dialect.comments = CommentStyle::none;
    const auto lines = lines_of(written(job, dialect));
    REQUIRE(lines.size() > 8);
    CHECK(lines[0].rfind("N5 ", 0) == 0);
    CHECK(lines[3].rfind("N20 ", 0) == 0);
    CHECK(lines[4].rfind("N5 ", 0) == 0);
}

TEST_CASE("numbers print with or without their zeros, points and spaces as the dialect has it") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    const Toolpath path = one_block(word_grid(dialect, job.units), {195000, 0, 10000}, 1.0);
    CHECK_THAT(*write_program(job, {}, path, dialect), ContainsSubstring("\nG1 X19.5 A1. F60.\n"));
    dialect.decimal_point_always = false;
    CHECK_THAT(*write_program(job, {}, path, dialect), ContainsSubstring("\nG1 X19.5 A1 F60\n"));
    dialect.keep_zeros = true;
    CHECK_THAT(*write_program(job, {}, path, dialect), ContainsSubstring("\nG1 X19.5000 A1.0000 F60.0000\n"));
    dialect.spaces = false;
    CHECK_THAT(*write_program(job, {}, path, dialect), ContainsSubstring("\nG1X19.5000A1.0000F60.0000\n"));
}

TEST_CASE("header and footer lines stand where the dialect puts them, with their places filled") {
    const Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.header = {"(for {title}, cutter {cutter})", "G4 P0.{tool}"};
    dialect.footer = {"G0 X{start_radial}"};
    dialect.spindle_wait = "G4 P2";
    const std::string program = written(job, dialect);
    CHECK_THAT(program,
               ContainsSubstring("(for Basalt four, cutter disc32)\nG4 P0.1\nG0 X60. (away from the shaft "
                                 "first)\nG0 Z120.\nT1 M6\nS3000 M3\nG4 P2\n"));
    CHECK_THAT(program, ContainsSubstring("M5\nG0 X27.5\nM30\n"));
}

TEST_CASE("the header says zeros and senses by the job's own frame") {
    Job job = hand_job();
    const Dialect dialect = shipped_dialect("rs274ngc-zxa");
    job.machine->rotary_positive = Sense::cw;
    job.machine->cutter_axis = CutterAxis::radial;
    job.cut->side_shift = -1.5;
    Cutter mill;
    mill.diameter = 10.0;
    mill.corner_radius = 0.5;
    job.cutters["em10"] = mill;
    job.cut->cutter = "em10";
    const std::string program = written(job, dialect);
    for (const char* note :
         {"(Cutter em10: end mill, diameter 10 mm, corner radius 0.5 mm, its axis square to the shaft, "
          "cutting with its end)",
          "(Z0 puts the cutter's end on the shaft's axis. Z is a radius and grows away from the shaft)",
          "(X0 puts the cutter's axis at the shaft's drive end. X grows along the shaft, away from the drive "
          "end)",
          "(A0 turns the shaft's datum [keyway, dowel] to face the cutter. +A turns the shaft clockwise, "
          "seen from "
          "the drive end)",
          "(Y0 puts the cutter's axis level with the shaft's axis. +Y goes to the counter-clockwise side, "
          "seen from "
          "the drive end. The program goes to Y-1.5 and stays there)"}) {
        CHECK_THAT(program, ContainsSubstring(note));
    }
    Dialect without_side = dialect;
    without_side.side.reset();
    CHECK_THAT(
        written(job, without_side),
        ContainsSubstring("(The cutter's axis stands 1.5 mm beside the shaft's axis, on the clockwise side, "
                          "seen from the drive end: set it so and lock that slide)"));
}

TEST_CASE("a program is known for ours by its header alone, in capitals or broken between words too") {
    const Job job = hand_job();
    for (const std::string& name : shipped_names()) {
        const Dialect dialect = shipped_dialect(name);
        INFO(name);
        CHECK(bears_our_mark(written(job, dialect)) == (dialect.comments != CommentStyle::none));
    }
    CHECK(bears_our_mark("%\n(MADE BY)\n(LOBEWRIGHT FROM A JOB)\n"));
    CHECK_FALSE(bears_our_mark("(Made by hand for a lobe)\nG0 X0\nM30\n"));
    const std::string mark = "(Made by lobewright)";
    CHECK(bears_our_mark(std::string(4096 - mark.size(), ' ') + mark));
    CHECK_FALSE(bears_our_mark(std::string(4096, ' ') + mark));
}

TEST_CASE("the same path gives the same bytes") {
    const Dialect dialect = shipped_dialect("iso6983-xzc");
    CHECK(written(hand_job(), dialect) == written(hand_job(), dialect));
}

TEST_CASE("a program in inches has the same path as one in millimetres") {
    const Dialect dialect = shipped_dialect("rs274ngc-xza");
    const std::string inch = written(hand_job(Units::inch), dialect);
    CHECK_THAT(inch, ContainsSubstring("G18 G20 G90"));
    CHECK_THAT(inch, ContainsSubstring("diameter 1.25984 in"));
    CHECK_THAT(inch, ContainsSubstring("G0 X1.08268"));  // 27.5 mm
}

TEST_CASE("only a folded axis of limited travel is told where to begin") {
    Job job = hand_job();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    const std::string told = "say directions, not turns: begin with the axis in the middle";
    const Toolpath path = one_block(word_grid(dialect, job.units), {200000, 0, 100000}, 1.0);
    const auto text = [&] { return *write_program(job, {}, path, dialect); };
    CHECK_THAT(text(), !ContainsSubstring(told));
    job.machine->limits.rotary_travel = 800.0;
    CHECK_THAT(text(), !ContainsSubstring(told));
    dialect.rotary_range = RotaryRange::folded;
    dialect.longest_rotary_block = 170.0;
    CHECK_THAT(text(), ContainsSubstring(told));
    job.machine->limits.rotary_travel.reset();
    CHECK_THAT(text(), !ContainsSubstring(told));
}
