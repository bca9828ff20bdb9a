// The command `inspect`: what its options mean, and readings from file to verdict.
#include "catch.h"
#include "cli/command_table.h"
#include "every_command.h"
#include "job_folder.h"
#include "job_kit.h"
#include "small_job.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <sstream>

using namespace lobewright;
using namespace lobewright::cli;
using nlohmann::json;

namespace {

std::string complaint_about(std::vector<std::string> options) {
    options.insert(options.begin(), {"inspect", "job.toml"});
    const Outcome<Options> parsed = parse_command_line(options);
    REQUIRE_FALSE(parsed.ok());
    return to_text(parsed.diagnostics().front());
}

/// The small job's first lobe as `inspect` expects it, late by so many degrees and larger by so many mm.
std::string readings(const JobFolder& folder, double late, double larger) {
    const Run run = folder.run({"inspect", "job.toml", "--lobe", "1 inlet", "--every", "2"});
    REQUIRE(run.exit_code == 0);
    std::istringstream lines(run.out);
    std::string text = "cam_angle;reading\n", line;
    std::getline(lines, line);
    while (std::getline(lines, line)) {
        std::replace(line.begin(), line.end(), ',', ' ');
        std::istringstream cells(line);
        double angle = 0.0, shaft = 0.0, reading = 0.0;
        cells >> angle >> shaft >> reading;
        std::string row = std::to_string(angle + late) + ";" + std::to_string(reading + larger) + "\n";
        std::replace(row.begin(), row.end(), '.', ',');
        text += row;
    }
    return text;
}

}  // namespace

TEST_CASE("the options of inspect say what is wrong with them") {
    for (const auto& [options, part] : std::vector<std::pair<std::vector<std::string>, std::string>>{
             {{"--unknown", "zero"},
              "--unknown says something of readings, and there are none: add --readings FILE"},
             {{"--columns", "a,b"}, "--columns says something of readings"},
             {{"--unit", "mm"}, "--unit says something"},
             {{"--reversed"}, "--reversed says something"},
             {{"--tolerance", "1"}, "--tolerance says something"},
             {{"--fit", "arcs"}, "--fit says something"},
             {{"--readings", "r.csv", "--unknown", "zeor"},
              "--unknown doesn't take \"zeor\": did you mean zero?"},
             {{"--readings", "r.csv", "--unit", "thousanths"}, "did you mean thousandths?"},
             {{"--readings", "r.csv", "--tolerance", "-1"}, "--tolerance takes a length above 0, not \"-1\""},
             {{"--readings", "r.csv", "--tolerance", "nan"}, "--tolerance takes a length"},
             {{"--readings", "r.csv", "--every", "1"}, "--every is for the readings to expect"},
             {{"--readings", "r.csv", "--fit", "arc"}, "--fit doesn't take \"arc\": did you mean arcs?"},
             {{"--readings", "r.csv", "--fit", "arcs", "--format", "csv"}, "--fit writes a profile, not csv"},
             {{"--readings", "r.csv", "--fit", "arcs", "--tolerance", "1"}, "which --tolerance can't judge"},
             {{"--readings", "r.csv", "--fit", "table", "--unknown", "runout"},
              "--fit table can't tell a runout"},
             {{"--every", "5", "--method", "lathe"}, "--every and --method exclude each other"},
             {{"--teeth", "42"}, "--teeth says how to move the gear"},
             {{"--installed", "--holes", "9"}, "--holes says how to move the gear"},
             {{"--installed", "--readings", "r.csv", "--teeth", "1.5"}, "--teeth takes a whole number"},
             {{"--installed", "--readings", "r.csv", "--holes", "1"}, "--holes takes a whole number"},
             {{"--installed", "--readings", "r.csv", "--fit", "arcs"}, "--fit is for a lobe between centres"},
             {{"--installed", "--method", "lathe"}, "--method is for a lobe between centres"},
             {{"--format", "txt"}, "did you mean text?"},
             {{"--readings", "r.csv", "--readings", "s.csv"}, "--readings takes one value, once"}}) {
        INFO(part);
        CHECK_THAT(complaint_about(options), ContainsSubstring(part));
    }
    CHECK_THAT(to_text(parse_command_line({"inspect", "-", "--readings", "-"}).diagnostics().front()),
               ContainsSubstring("job and readings can't both come from standard input"));
    const auto both = parse_command_line({"inspect", "j", "--readings", "r", "--unknown", "zero", "--unknown",
                                          "runout", "--columns", "mark,-,reading"});
    REQUIRE(both.ok());
    CHECK((both->zero_unknown && both->runout_unknown));
    CHECK(both->columns == std::vector<std::string>{"mark", "-", "reading"});
    CHECK(
        parse_command_line({"inspect", "j", "--readings", "r", "--unknown", "zero,runout"})->runout_unknown);
}

TEST_CASE("readings go from the file to the figures that stay, and a bad surface is exit code 1") {
    const JobFolder folder(small_job());
    write_file(folder / "r.csv", readings(folder, 0.4, 0.012));
    const Run run = folder.run({"inspect", "job.toml", "--lobe", "1 inlet", "--readings", "r.csv", "--json"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    const json told = json::parse(run.out);
    CHECK_NEAR(told["phase_error"].get<double>(), 0.4, 1e-4);
    CHECK_NEAR(told["base_error"].get<double>(), 0.012, 1e-6);
    CHECK_NEAR(told["rms_error"].get<double>(), 0.0, 1e-6);
    const json zero = json::parse(folder
                                      .run({"inspect", "job.toml", "--lobe", "1 inlet", "--readings", "r.csv",
                                            "--unknown", "zero", "--json"})
                                      .out);
    CHECK(zero["base_error"].is_null());
    CHECK_NEAR(zero["zero"].get<double>(), 0.012, 1e-6);
    const Run out = folder.run(
        {"inspect", "job.toml", "--lobe", "1 inlet", "--readings", "r.csv", "--tolerance", "0.005"});
    CHECK(out.exit_code == 1);
    CHECK_FALSE(out.out.empty());
    CHECK_THAT(out.err, ContainsSubstring("r.csv:2:1: lobe '1 inlet' stands 0.012 mm proud"));
    CHECK(folder.run({"inspect", "job.toml", "--lobe", "1 inlet", "--readings", "none.csv"}).exit_code == 3);
    CHECK(folder.run({"inspect", "job.toml", "--readings", "r.csv"}).exit_code == 2);
    CHECK_THAT(
        folder.run({"inspect", "job.toml", "--lobe", "1 inlet", "--readings", "r.csv", "-o", "r.csv"}).err,
        ContainsSubstring("-o names a file that this run reads"));
    CHECK(folder.shell("lobewright inspect job.toml --lobe '1 inlet' --readings - --json < r.csv").out ==
          run.out);
}

TEST_CASE("inspect wants a wheel for marks, an engine for crank degrees, one lobe for a profile") {
    const JobFolder folder(small_job());
    const Run head = folder.run({"inspect", "job.toml", "--lobe", "1 inlet", "--method", "head"});
    CHECK(head.exit_code == 2);
    CHECK_THAT(head.err, ContainsSubstring("hand method \"head\" has no index wheel"));
    const Run crank = folder.run({"inspect", "job.toml", "--lobe", "1 inlet", "--installed"});
    CHECK(crank.exit_code == 2);
    CHECK_THAT(crank.err, ContainsSubstring("the job has no [engine]"));
    CHECK_THAT(folder.run({"inspect", "job.toml"}).err,
               ContainsSubstring("the job has several lobes: inspect wants --lobe NAME"));
    std::string both = "lobe,cam_angle,reading\n";
    for (const char* lobe : {"1 inlet", "1 exhaust"})
        for (int i = 0; i < 36; ++i)
            both += std::string(lobe) + "," + std::to_string(10 * i) + ",0\n";
    write_file(folder / "both.csv", both);
    CHECK_THAT(folder.run({"inspect", "job.toml", "--readings", "both.csv", "--fit", "arcs"}).err,
               ContainsSubstring("the readings are of several lobes: --fit arcs wants one: add --lobe NAME"));
}
