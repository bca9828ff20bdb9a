#include "job/lift_readings.h"

#include "catch.h"
#include "job_text.h"

using namespace lobewright;
using namespace job_text;

namespace {

std::string refusal(const std::string& text) {
    std::string all;
    const auto readings = read_lift_readings(text, "traced.csv", Units::mm);
    for (const auto& complaint : readings.diagnostics())
        all += to_text(complaint) + '\n';
    return all;
}

}  // namespace

TEST_CASE("a lift table is read with any of its separators, comments, line ends and a byte order mark") {
    for (const char* text :
         {"cam_angle,lift\n-60,0\n0.5,2.4\n", "cam_angle;lift\r\n-60;0\r\n0.5;2.4\r\n",
          "cam_angle\tlift\n-60\t0\n0.5\t2.4",
          "# measured\n\n  cam_angle , lift # degrees, mm\n -60 , 0 \n#\n0.5 ,\t2.4#peak\n",
          "\xEF\xBB\xBF"
          "cam_angle,lift\n-60,0\n0.5,2.4\n",
          "lift,cam_angle\n0,-60\n+2.4,5e-1\n", "cam_angle,shaft_angle,lift,jerk\n-60,1,0,2\n0.5,1,2.4,-3\n",
          "\"cam_angle\",\"lift\"\n-60,0\n0.5,2.4\n",
          " \" cam_angle \" ; \"lift\"\r\n\"-60\";\"0\"\r\n\r\n \"0.5\" ;\"2.4\"\r\n",
          "\xEF\xBB\xBF\"cam_angle\"\t\"lift\"\r-60\t0\r0.5\t2.4\r"}) {
        INFO(text);
        const auto readings = read_lift_readings(text, "traced.csv", Units::mm);
        REQUIRE(readings.ok());
        REQUIRE(readings->size() == 2);
        CHECK_NEAR((*readings)[0].cam_angle.degrees(), -60.0, 1e-12);
        CHECK_NEAR((*readings)[1].cam_angle.degrees(), 0.5, 1e-12);
        CHECK_NEAR((*readings)[1].lift, 2.4, 1e-12);
        CHECK((*readings)[1].place.file == "traced.csv");
        CHECK((*readings)[1].place.line >= 3);
    }
}

TEST_CASE("a quoted number with a decimal comma is one cell, and told as such") {
    CHECK(refusal("\"cam_angle\",\"lift\"\n\"-60\",\"0,25\"\n") ==
          "traced.csv:2:8: \"0,25\" is not a number: write the decimals with a point\n");
    CHECK(
        refusal("\"cam_angle,lift\"\n0,1\n").starts_with("traced.csv:1:2: \"cam_angle,lift\" is no column"));
    CHECK(refusal("cam_angle,lift\n-60,\"nan\"\n") ==
          "traced.csv:2:6: \"nan\" is not a number: give a number such as 1.25\n");
}

TEST_CASE("decimals may have a comma where semicolons or tabs part the cells") {
    for (const char* text : {"cam_angle;lift\n-60,5;0\n0;2,4\n", "cam_angle\tlift\n-60,5\t0\n0\t\"2,4\"\n"}) {
        const auto readings = read_lift_readings(text, "traced.csv", Units::mm);
        REQUIRE(readings.ok());
        CHECK_NEAR((*readings)[0].cam_angle.degrees(), -60.5, 1e-12);
        CHECK_NEAR((*readings)[1].lift, 2.4, 1e-12);
    }
}

TEST_CASE("the dial's zero is taken off the readings, in the job's units") {
    const std::string job =
        set(unset(whole_job(), "profile.traced", "smoothing"), "profile.traced", "dial_zero", "0.03");
    const auto read = read_job(job, "job.toml", [](const std::string&) {
        return Outcome<std::string>(std::string("cam_angle,lift\n-60,0.03\n0,2.43\n"));
    });
    CHECK(complaints(read).empty());
    const auto& table = std::get<TableProfile>(read->profiles.at("traced"));
    CHECK_NEAR(table.readings[0].lift, 0.0, 1e-15);
    CHECK_NEAR(table.readings[1].lift, 2.4, 1e-15);
    CHECK_NEAR(table.dial_zero, 0.03, 1e-15);
    CHECK_FALSE(table.smoothing);
}

TEST_CASE("lifts are in the job's units, angles in degrees") {
    const auto readings = read_lift_readings("cam_angle,lift\n10,0.1\n", "t.csv", Units::inch);
    REQUIRE(readings.ok());
    CHECK_NEAR((*readings)[0].lift, 2.54, 1e-12);
    CHECK_NEAR((*readings)[0].cam_angle.degrees(), 10.0, 1e-12);
}

TEST_CASE("each bad line of a lift table is complained about at its own line and column") {
    CHECK(refusal("cam_angle,lift\n-60,zero\n0\n\n1,2,3\n5,\n 7 , 1e999\n8,nan\n") ==
          "traced.csv:2:5: \"zero\" is not a number: give a number such as 1.25\n"
          "traced.csv:3:1: the line has 1 cell, the header 2: make them agree; with decimal commas, "
          "separate them by semicolons or tabs\n"
          "traced.csv:5:1: the line has 3 cells, the header 2: make them agree; with decimal commas, "
          "separate them by semicolons or tabs\n"
          "traced.csv:6:3: there is nothing in this cell: give a number such as 1.25\n"
          "traced.csv:7:6: \"1e999\" is not a number: give a number such as 1.25\n"
          "traced.csv:8:3: \"nan\" is not a number: give a number such as 1.25\n");
    CHECK(refusal("cam_angle;lift\n-60;0,5\n0;2.4\n") ==
          "traced.csv:3:3: \"2.4\" has a decimal point, line 2 a comma: write all numbers alike\n");
    CHECK(refusal("cam_angle;lift\n-60;1.234,5\n0;2,4,1\n") ==
          "traced.csv:2:5: \"1.234,5\" is not a number: give a number such as 1.25\n"
          "traced.csv:3:3: \"2,4,1\" is not a number: give a number such as 1.25\n");
    CHECK(refusal("cam_angle,lift\n721,0\n0,10001\n") ==
          "traced.csv:2:1: the cam angle is 721: give degrees from -720 to 720\n"
          "traced.csv:3:1: the lift is 10001: give lengths of less than ten metres\n");
}

TEST_CASE("a lift table's header must name its columns") {
    CHECK(refusal("") ==
          "traced.csv:1:1: there is no header: the first line names the columns: cam_angle,lift\n");
    CHECK(refusal("# only a comment\n") ==
          "traced.csv:1:1: there is no header: the first line names the columns: cam_angle,lift\n");
    CHECK(refusal("cam_angel,lift\n0,0\n") ==
          "traced.csv:1:1: \"cam_angel\" is no column that is known here: did you mean \"cam_angle\"?\n"
          "traced.csv:1:1: there is no column \"cam_angle\": the first line names the columns: "
          "cam_angle,lift\n");
    CHECK_THAT(refusal("cam_angle,lift,lift\n0,0,0\n"),
               ContainsSubstring(":1:16: \"lift\" is there twice: keep one"));
    CHECK_THAT(refusal("-60,0\n0,2\n"), ContainsSubstring("there is no column \"lift\""));
}

TEST_CASE("a table of nothing but bad lines ends after a hundred complaints") {
    std::string text = "cam_angle,lift\n";
    for (int i = 0; i < 5000; ++i)
        text += "a,b\n";
    const auto readings = read_lift_readings(text, "traced.csv", Units::mm);
    REQUIRE_FALSE(readings.ok());
    CHECK(readings.diagnostics().size() <= 102);
    CHECK(readings.diagnostics().back().what == "there are too many bad lines to list");
}

TEST_CASE(
    "a lift table is named from where the job file stands, and one that can't be read is the key's fault") {
    std::string asked;
    const auto bad = read_job(whole_job(), "dir/job.toml", [&](const std::string& path) {
        asked = path;
        return Outcome<std::string>(std::string("cam_angle,lift\n0,x\n"));
    });
    CHECK(asked == "traced.csv");
    CHECK(complaints(bad) == "dir/traced.csv:2:3: \"x\" is not a number: give a number such as 1.25\n");
    const auto missing = read_job(whole_job(), "dir/job.toml", [&](const std::string& path) {
        return Outcome<std::string>(Diagnostic{Fault::unreadable,
                                               Severity::error,
                                               "not-read",
                                               "can't be read (no such file)",
                                               "check the name",
                                               {path}});
    });
    REQUIRE(missing.diagnostics().size() == 1);
    CHECK(missing.diagnostics().front().fault == Fault::unreadable);
    const Spot spot = value_of(whole_job(), "profile.traced", "file");
    CHECK(complaints(missing) == "dir/job.toml:" + std::to_string(spot.line) +
                                     ":8: 'traced.csv' can't be read (no such "
                                     "file): check the name\n");
}
