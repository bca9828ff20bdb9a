#include "basalt.h"
#include "catch.h"
#include "guide_dialect.h"
#include "hand_path.h"
#include "job_kit.h"

#include <lobewright/program_writer.h>
#include <lobewright/proof.h>

#include <algorithm>
#include <cmath>
#include <sstream>

using namespace lobewright;

namespace {

Outcome<std::string> written(const Job& job, const Dialect& dialect) {
    return write_program(job, hand_lobes(), hand_path(job, dialect), dialect);
}

/// The blocks without comments, numbers and blanks at their ends.
std::vector<std::string> blocks_of(const std::string& text) {
    std::vector<std::string> blocks;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        line = line.substr(0, std::min(line.find('('), line.find('\r')));
        line.erase(line.find_last_not_of(' ') + 1);
        if (!line.empty()) blocks.push_back(line);
    }
    return blocks;
}

std::vector<std::string> from(const std::vector<std::string>& blocks, const std::string& first,
                              std::size_t count) {
    const auto at = std::find(blocks.begin(), blocks.end(), first);
    REQUIRE(blocks.end() - at >= static_cast<long>(count));
    return {at, at + static_cast<long>(count)};
}

std::vector<std::string> last(const std::vector<std::string>& blocks, std::size_t count) {
    REQUIRE(blocks.size() >= count);
    return {blocks.end() - static_cast<long>(count), blocks.end()};
}

Dialect guide_dialect() {
    return taken(read_dialect(guide_dialect_text(), "own.toml"));
}

Job radial_job() {
    Job job = hand_job();
    job.cutters["em20"] = basalt::end_mill(20.0, 38.0);
    job.cutters["em20"].number = 7;
    job.cutters["em20"].offset_number = 17;
    job.cut->cutter = "em20";
    job.cut->side_shift = 4.5;
    job.machine->cutter_axis = CutterAxis::radial;
    return job;
}

using Blocks = std::vector<std::string>;

}  // namespace

TEST_CASE(
    "a program begins where tools change, comes to the shaft radial axis last, and ends there radial axis "
    "first") {
    const Blocks blocks = blocks_of(taken(written(hand_job(), shipped_dialect("rs274ngc-xza"))));
    CHECK(from(blocks, "G0 X60.", 10) == Blocks{"G0 X60.", "G0 Z120.", "T1 M6", "S3000 M3", "M8", "G0 Z20.",
                                                "G0 A0.", "G0 X27.5", "G93", "G0 A-10."});
    CHECK(last(blocks, 6) == Blocks{"G94", "M9", "G0 X60.", "G0 Z120.", "M5", "M30"});
}

TEST_CASE("the radial place of the tool change is a radius, whatever the words are") {
    const Blocks blocks = blocks_of(taken(written(hand_job(), shipped_dialect("rs274ngc-xzc"))));
    CHECK(from(blocks, "G0 X120.", 2) == Blocks{"G0 X120.", "G0 Z120."});
}

TEST_CASE("a machine's own way home begins and ends the program, and all is said anew after it") {
    Job job = radial_job();
    job.machine->tool_change.reset();
    const std::string text = taken(written(job, guide_dialect()));
    const Blocks blocks = blocks_of(text);
    CHECK(blocks.front() == "O1001");
    CHECK(from(blocks, "G53 G0 Z0", 11) == Blocks{"G53 G0 Z0", "G53 G0 X0 Y0", "T7 M6", "G43 H17", "S3000 M3",
                                                  "G4 P3", "G90 G0 X20.", "G0 Y4.5", "G0 A0.", "G0 Z27.5",
                                                  "G93"});
    CHECK(last(blocks, 5) == Blocks{"G53 G0 Z0", "G53 G0 X0 Y0", "M5", "G49", "M30"});
    CHECK_THAT(text, ContainsSubstring("Begins with the machine's own way home [G53 G0 Z0]") &&
                         ContainsSubstring("the machine is referenced") &&
                         ContainsSubstring("the cutter's length under number 17"));
}

TEST_CASE("with lengths a program begins at home, even where it ends at the job's own place") {
    const Blocks blocks = blocks_of(taken(written(radial_job(), guide_dialect())));
    CHECK(from(blocks, "G53 G0 Z0", 3) == Blocks{"G53 G0 Z0", "G53 G0 X0 Y0", "T7 M6"});
    CHECK(last(blocks, 5) == Blocks{"G0 Z60.", "G0 X120.", "M5", "G49", "M30"});
}

TEST_CASE("without either the program begins and ends at the clearance, and warns of it") {
    Job job = hand_job();
    job.machine->tool_change.reset();
    const auto program = written(job, shipped_dialect("rs274ngc-xza"));
    REQUIRE(program.ok());
    REQUIRE(program.diagnostics().size() == 1);
    CHECK(program.diagnostics().front().code == "no-tool-change-place");
    CHECK(program.diagnostics().front().severity == Severity::warning);
    const Blocks blocks = blocks_of(*program);
    CHECK(from(blocks, "G0 X27.5", 5) == Blocks{"G0 X27.5", "G0 Z20.", "T1 M6", "S3000 M3", "M8"});
    CHECK(last(blocks, 5) == Blocks{"G94", "M9", "G0 Z20.", "M5", "M30"});
}

TEST_CASE("a place for tools within the clearance is refused, with the least that will do") {
    Job job = hand_job();
    job.machine->tool_change->radial = 27.0;
    const auto program = written(job, shipped_dialect("rs274ngc-xza"));
    REQUIRE_FALSE(program.ok());
    CHECK(program.diagnostics().front().code == "tool-change-near");
    CHECK_THAT(to_text(program.diagnostics().front()), ContainsSubstring("27.5 mm at least"));
    job.machine->tool_change->radial = 27.5;
    CHECK(written(job, shipped_dialect("rs274ngc-xza")).ok());
}

TEST_CASE("the side axis goes to the shift, the way in which its word grows, and to 0 without one") {
    Dialect dialect = guide_dialect();
    const auto side_of = [&](const Job& job) {
        const Blocks blocks = blocks_of(taken(written(job, dialect)));
        return *std::find_if(blocks.begin(), blocks.end(),
                             [](const std::string& block) { return block.find("G0 Y") == 0; });
    };
    CHECK(side_of(radial_job()) == "G0 Y4.5");
    CHECK(side_of(hand_job()) == "G0 Y0.");
    dialect.side->positive = Sense::cw;
    CHECK(side_of(radial_job()) == "G0 Y-4.5");
    Job inch = radial_job();
    inch.units = Units::inch;
    inch.cut->side_shift = 2.54;
    CHECK(side_of(inch) == "G0 Y-0.1");
}

TEST_CASE("where nothing changes tools a stop may wait for the cutter") {
    Dialect dialect = shipped_dialect("plain-xa");
    CHECK(from(blocks_of(taken(written(hand_job(), dialect))), "G0 Z120.", 2) ==
          Blocks{"G0 Z120.", "S3000 M3"});
    dialect.stop = "M0";
    CHECK(from(blocks_of(taken(written(hand_job(), dialect))), "G0 Z120.", 3) ==
          Blocks{"G0 Z120.", "M0", "S3000 M3"});
}

TEST_CASE("tool and offset of two digits stand in one word, and the offset goes off at the end") {
    Job job = hand_job();
    job.cutters["disc32"].number = 4, job.cutters["disc32"].offset_number = 12;
    const std::string text = taken(written(job, shipped_dialect("iso6983-xzc")));
    CHECK_THAT(text, ContainsSubstring(" T0412\r\n") && ContainsSubstring(" T0400\r\n") &&
                         ContainsSubstring("TOOL 4, ITS LENGTH IS NUMBER 12"));
}

TEST_CASE("numbers with a decimal comma have one everywhere, and are read so") {
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.decimal_comma = true;
    Job job = hand_job();
    job.cut->spindle_speed = 2999.5;
    const std::string text = taken(written(job, dialect));
    for (const std::string& block : blocks_of(text))
        CHECK(block.find('.') == std::string::npos);
    CHECK_THAT(text, ContainsSubstring("G0 X27,5") && ContainsSubstring("S2999,5"));
    const auto comma = read_program(text, "comma.ngc", dialect, job.units);
    REQUIRE(comma.ok());
    dialect.decimal_comma = false;
    CHECK_FALSE(read_program(text, "comma.ngc", dialect, job.units).ok());
    const auto point = read_program(taken(written(job, dialect)), "point.ngc", dialect, job.units);
    REQUIRE(point.ok());
    REQUIRE(point->moves.size() == comma->moves.size());
    for (std::size_t i = 0; i < comma->moves.size(); ++i) {
        CHECK(comma->moves[i].line == point->moves[i].line);
        CHECK((comma->moves[i].rotary == point->moves[i].rotary || std::isnan(point->moves[i].rotary)));
        CHECK(comma->moves[i].seconds == point->moves[i].seconds);
    }
}
