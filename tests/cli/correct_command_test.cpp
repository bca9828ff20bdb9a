// cut and prove with --correct, and sheet with --readings: what their options mean, and the way from a file
// of readings to the program and the page.
#include "catch.h"
#include "cli/command_table.h"
#include "every_command.h"
#include "job_folder.h"
#include "job_kit.h"
#include "small_job.h"

#include <algorithm>
#include <sstream>

using namespace lobewright;
using namespace lobewright::cli;

namespace {

std::string complaint_about(std::vector<std::string> arguments) {
    const Outcome<Options> parsed = parse_command_line(arguments);
    REQUIRE_FALSE(parsed.ok());
    return to_text(parsed.diagnostics().front());
}

/// Readings of both lobes as `inspect` expects them, the first larger by so many mm, or where the angle is
/// positive alone.
std::string readings(const JobFolder& folder, double larger, bool one_side = false) {
    std::string text = "lobe,cam_angle,reading\n";
    for (const char* lobe : {"1 inlet", "1 exhaust"}) {
        const Run run = folder.run({"inspect", "job.toml", "--lobe", lobe, "--every", "2"});
        REQUIRE(run.exit_code == 0);
        std::istringstream lines(run.out);
        std::string line;
        std::getline(lines, line);
        while (std::getline(lines, line)) {
            std::replace(line.begin(), line.end(), ',', ' ');
            std::istringstream cells(line);
            double angle = 0.0, shaft = 0.0, reading = 0.0;
            cells >> angle >> shaft >> reading;
            const bool proud = std::string(lobe) == "1 inlet";
            const double off = one_side && angle < 0.0 ? -larger : larger;
            text += std::string(lobe) + "," + std::to_string(angle) + "," +
                    std::to_string(reading + (proud ? off : 0.0)) + "\n";
        }
    }
    return text;
}

}  // namespace

TEST_CASE("the options of a correction say what is wrong with them") {
    for (const std::string command : {"cut", "prove"}) {
        std::vector<std::string> begin{command, "job.toml"};
        if (command == "prove") begin.emplace_back("program.ngc");
        for (const auto& [options, part] : std::vector<std::pair<std::vector<std::string>, std::string>>{
                 {{"--correct", "r.csv"},
                  "--correct wants to know how much it may take off at most: add --most"},
                 {{"--most", "0.02"},
                  "--most is for a correction, and there are no readings: add --correct FILE"},
                 {{"--again", "1"}, "--again is for a correction"},
                 {{"--method", "head"}, "--method is for a correction"},
                 {{"--unknown", "zero"}, "there are none: add --correct FILE"},
                 {{"--columns", "a,b"}, "--columns says something of readings"},
                 {{"--reversed"}, "--reversed says something of readings"},
                 {{"--correct", "r.csv", "--most", "0"}, "--most takes a length above 0, not \"0\""},
                 {{"--correct", "r.csv", "--most", "much"}, "--most takes a length above 0, not \"much\""},
                 {{"--correct", "r.csv", "--most", "0.02", "--again", "1.5"},
                  "--again takes a share from 0 to 1, not \"1.5\""},
                 {{"--correct", "r.csv", "--most", "0.02", "--again", "-1"}, "--again takes a share"},
                 {{"--correct", "r.csv", "--most", "0.02", "--unit", "mils"},
                  "--unit doesn't take \"mils\""}}) {
            std::vector<std::string> arguments = begin;
            arguments.insert(arguments.end(), options.begin(), options.end());
            CHECK_THAT(complaint_about(arguments), ContainsSubstring(part));
        }
    }
    CHECK_THAT(complaint_about({"cut", "-", "--correct", "-", "--most", "0.02"}),
               ContainsSubstring("job and readings can't both come from standard input"));
    CHECK_THAT(complaint_about({"prove", "j", "-", "--correct", "-", "--most", "0.02"}),
               ContainsSubstring("program and readings can't both come from standard input"));
    CHECK_THAT(complaint_about({"sheet", "j", "--method", "head"}),
               ContainsSubstring("--method says something of readings, and there are none"));
    CHECK_THAT(complaint_about({"sheet", "j", "--unknown", "zero"}),
               ContainsSubstring("there are none: add --readings FILE"));
}

TEST_CASE("a proud lobe gets a second program, which proves by the same readings and not by the design") {
    const JobFolder folder(small_job());
    write_file(folder / "r.csv", readings(folder, 0.012));
    const std::vector<std::string> correction{"--correct", "r.csv", "--most", "0.03"};
    const auto with = [&](std::vector<std::string> arguments) {
        arguments.insert(arguments.end(), correction.begin(), correction.end());
        return arguments;
    };
    const Run cut = folder.run(with({"cut", "job.toml", "-o", "second.ngc"}));
    INFO(cut.err);
    REQUIRE(cut.exit_code == 0);
    CHECK_THAT(cut.err, ContainsSubstring("Lobe 1 inlet: stands") && ContainsSubstring("Foretold") &&
                            ContainsSubstring("not touched") &&
                            ContainsSubstring("below the corrected contour"));
    const std::string program = file_text(folder / "second.ngc");
    CHECK_THAT(program, ContainsSubstring("CORRECTION") && ContainsSubstring("r.csv"));
    CHECK_THAT(program, !ContainsSubstring("lobe 1 exhaust:"));
    const Run proof = folder.run(with({"prove", "job.toml", "second.ngc"}));
    INFO(proof.err);
    CHECK(proof.exit_code == 0);
    CHECK(folder.run({"prove", "job.toml", "second.ngc", "--lobe", "1 inlet"}).exit_code == 1);
    CHECK(folder.shell("lobewright prove job.toml - --correct r.csv --most 0.03 < second.ngc").exit_code ==
          0);
    const Run plan = folder.run(with({"cut", "job.toml", "--plan"}));
    CHECK(plan.exit_code == 0);
    CHECK_THAT(plan.out, ContainsSubstring("finish") && !ContainsSubstring("1 exhaust"));
    CHECK(folder.run(with({"cut", "job.toml", "--lobe", "1 inlet"})).exit_code == 0);
    // Nothing else is written over, and no more is taken off than a correction may.
    write_file(folder / "notes.txt", "mine");
    CHECK_THAT(folder.run(with({"cut", "job.toml", "-o", "notes.txt"})).err,
               ContainsSubstring("no program of ours"));
    const Run much = folder.run({"cut", "job.toml", "--correct", "r.csv", "--most", "2"});
    CHECK(much.exit_code == 2);
    CHECK_THAT(much.err,
               ContainsSubstring("--most 2 is more than a correction may take off: give 1 mm at most"));
}

TEST_CASE("readings that ask for no second cut, or are of other lobes, get no program") {
    const JobFolder folder(small_job());
    write_file(folder / "good.csv", readings(folder, 0.0));
    const Run good =
        folder.run({"cut", "job.toml", "--correct", "good.csv", "--most", "0.03", "-o", "p.ngc"});
    CHECK(good.exit_code == 1);
    CHECK_THAT(good.err, ContainsSubstring("there is nothing to take off"));
    CHECK_FALSE(std::filesystem::exists(folder / "p.ngc"));
    write_file(folder / "proud.csv", readings(folder, 0.012));
    const Run other =
        folder.run({"cut", "job.toml", "--correct", "proud.csv", "--most", "0.03", "--lobe", "1 exhaust"});
    CHECK(other.exit_code == 1);
    CHECK_THAT(other.err, ContainsSubstring("nothing to take off"));
    write_file(folder / "one.csv", "lobe,cam_angle,reading\n1 inlet,0,2\n1 inlet,10,1.9\n");
    const Run few = folder.run({"cut", "job.toml", "--correct", "one.csv", "--most", "0.03"});
    CHECK(few.exit_code == 2);
    CHECK_THAT(few.err, ContainsSubstring("one.csv:2"));
    const Run none = folder.run({"cut", "job.toml", "--correct", "none.csv", "--most", "0.03"});
    CHECK(none.exit_code == 3);
}

TEST_CASE("a lobe that is too deep on one side is warned of, and corrected on the other") {
    const JobFolder folder(small_job());
    write_file(folder / "r.csv", readings(folder, 0.012, true));
    const Run cut = folder.run({"cut", "job.toml", "--correct", "r.csv", "--most", "0.03", "-o", "p.ngc"});
    INFO(cut.err);
    CHECK(cut.exit_code == 0);
    CHECK_THAT(cut.err,
               ContainsSubstring("is too deep already") && ContainsSubstring("nothing puts metal back"));
}

TEST_CASE("the sheet shows what was read") {
    const JobFolder folder(small_job());
    write_file(folder / "r.csv", readings(folder, 0.012));
    const Run sheet = folder.run({"sheet", "job.toml", "--readings", "r.csv", "-o", "sheet.html"});
    INFO(sheet.err);
    CHECK(sheet.exit_code == 0);
    const std::string page = file_text(folder / "sheet.html");
    CHECK_THAT(page, ContainsSubstring("<section id=\"readings\">") &&
                         ContainsSubstring("1 inlet: OUT of tolerance") &&
                         ContainsSubstring("1 exhaust: within tolerance"));
    CHECK(folder.run({"sheet", "job.toml", "--readings", "none.csv"}).exit_code == 3);
    write_file(folder / "bad.csv", "cam_angle,reading\n0,2\n");
    const Run bad = folder.run({"sheet", "job.toml", "--readings", "bad.csv"});
    CHECK(bad.exit_code == 2);
    CHECK_FALSE(bad.err.empty());
}
