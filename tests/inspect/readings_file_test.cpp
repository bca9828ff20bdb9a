#include "four_lobes.h"
#include "job_kit.h"
#include "readings_kit.h"

using namespace lobewright;

namespace {

ReadingsSubject of_lobe(std::optional<std::size_t> lobe) {
    return {four(), lobes(), lobe, std::nullopt};
}

std::vector<MeasuredLobe> read(const std::string& text, const ReadingsFormat& format = {},
                               const ReadingsSubject& subject = of_lobe(0)) {
    return taken(read_measured(text, "r.csv", format, subject));
}
std::string refusal(const std::string& text, const ReadingsFormat& format = {},
                    const ReadingsSubject& subject = of_lobe(0)) {
    std::string all;
    const auto found = read_measured(text, "r.csv", format, subject);
    for (const Diagnostic& each : found.diagnostics())
        all += to_text(each) + '\n';
    return all;
}

}  // namespace

TEST_CASE("readings are read with commas, semicolons or tabs, decimal points or commas") {
    for (const char* text : {"cam_angle,reading\n-60.5,0\n0,2.4\n", "cam_angle;reading\n-60,5;0\n0;2,4\n",
                             "reading\tcam_angle\n0\t-60,5\n2,4\t0\n"}) {
        INFO(text);
        const auto found = read(text);
        REQUIRE(found.size() == 1);
        REQUIRE(found[0].readings.size() == 2);
        CHECK_NEAR(found[0].readings[0].cam_angle.degrees(), -60.5, 1e-12);
        CHECK_NEAR(found[0].readings[1].reading, 2.4, 1e-12);
        CHECK(found[0].readings[1].place.line == 3);
    }
}

TEST_CASE("a shaft angle, a mark and a crank angle come to the same cam angle") {
    const SolvedLobe& lobe = lobes()[2];
    HandMethod method;
    method.divisions = 360;
    ReadingsSubject subject = of_lobe(2);
    subject.method = method;
    // The four runs ccw: mark 20 of a wheel from 0 has shaft angle 20 facing the probe.
    const double cam = lobe.at.degrees() - 20.0;
    CHECK_NEAR(read("shaft_angle,reading\n20,1\n", {}, subject)[0].readings[0].cam_angle.degrees(), cam,
               1e-9);
    CHECK_NEAR(read("mark,reading\n20,1\n", {}, subject)[0].readings[0].cam_angle.degrees(), cam, 1e-9);
    const double turned =
        read("shaft_angle,reading\n-20,1\n", {{}, 1.0, true}, subject)[0].readings[0].cam_angle.degrees();
    CHECK_NEAR(turned, cam, 1e-9);
    // At crank angle c the shaft has turned by c / 2: the direction that faced a follower at 0 lies -c / 2.
    const double crank = read("crank_angle,reading\n-40,1\n", {}, subject)[0].readings[0].cam_angle.degrees();
    CHECK_NEAR(crank, cam, 1e-9);
}

TEST_CASE("a file may hold several lobes, and both angles where they agree") {
    const auto found = read("lobe;cam_angle;reading\n2 inlet;0;2,4\n1 inlet;0;2,3\n2 inlet;10;2,2\n", {},
                            of_lobe(std::nullopt));
    REQUIRE(found.size() == 2);
    CHECK(found[0].lobe == 0);
    CHECK(found[1].lobe == 2);
    CHECK(found[1].readings.size() == 2);
    CHECK(read("lobe,cam_angle,reading\n2 inlet,0,2.4\n1 inlet,0,2.3\n", {}, of_lobe(0))[0].readings.size() ==
          1);
    const double at = lobes()[0].at.degrees();
    const std::string agreeing =
        "cam_angle,shaft_angle,reading\n10," + std::to_string(at - 10.0 + 720.0) + ",1\n";
    CHECK_NEAR(read(agreeing)[0].readings[0].cam_angle.degrees(), 10.0, 1e-9);
    CHECK_THAT(refusal("cam_angle,shaft_angle,reading\n10," + std::to_string(at) + ",1\n"),
               ContainsSubstring("r.csv:2:1: cam_angle and shaft_angle are not of one direction"));
}

TEST_CASE("a heading of its own is passed over where the columns are named") {
    const ReadingsFormat format{{"cam_angle", "-", "reading"}, 1.0, false};
    for (const char* text : {"Winkel;Notiz;Uhr\n10;x;2,5\n", "10;first;2,5\n", "# a note\n10\t\t2.5\n"}) {
        INFO(text);
        const auto found = read(text, format);
        REQUIRE(found[0].readings.size() == 1);
        CHECK_NEAR(found[0].readings[0].cam_angle.degrees(), 10.0, 1e-12);
        CHECK_NEAR(found[0].readings[0].reading, 2.5, 1e-12);
    }
    CHECK_THAT(refusal("10;2,5\n", format),
               ContainsSubstring("r.csv:1:1: the line has 2 cells, the columns named are 3"));
    CHECK_THAT(refusal("10;x;2,5\nten;x;2\n", format),
               ContainsSubstring("r.csv:2:1: \"ten\" is not a number"));
    CHECK_THAT(refusal("10,1\n", {{"cam_angel", "reading"}, 1.0, false}),
               ContainsSubstring("did you mean \"cam_angle\"?"));
}

TEST_CASE("thousandths of an inch, and the dial's own step") {
    const auto found = read("cam_angle,reading\n0,94.5\n1,94\n", {{}, 0.0254, false});
    CHECK_NEAR(found[0].readings[0].reading, 94.5 * 0.0254, 1e-12);
    std::string dial = "cam_angle,reading\n", fine = dial;
    for (int i = 0; i < 90; ++i) {
        const double lift = 2.0 + std::sin(0.05 * i);
        dial += std::to_string(i) + "," + std::to_string(std::round(lift * 100.0) / 100.0) + "\n";
        fine += std::to_string(i) + "," + std::to_string(lift + 1e-7 * i) + "\n";
    }
    CHECK_NEAR(read(dial)[0].step, 0.01, 1e-12);
    CHECK(read(fine)[0].step < 1e-4);
}

TEST_CASE("every bad line is told by file, line and column, and nothing is guessed") {
    CHECK(
        refusal("cam_angle,reading\n0,a\n1,2,3\n2,\n") ==
        "r.csv:2:3: \"a\" is not a number: give a number such as 1.25\n"
        "r.csv:3:1: the line has 3 cells, the header 2: make them agree; with decimal commas, separate them "
        "by semicolons or tabs\n"
        "r.csv:4:3: there is nothing in this cell: give a number such as 1.25\n");
    CHECK_THAT(refusal("reading\n1\n"), ContainsSubstring("r.csv:1:1: there is no column of angles"));
    CHECK_THAT(refusal("cam_angle\n1\n"), ContainsSubstring("there is no column \"reading\""));
    CHECK_THAT(refusal("cam_angle,mark,reading\n1,1,1\n"), ContainsSubstring("several columns of angles"));
    CHECK_THAT(refusal("mark,reading\n1,1\n"), ContainsSubstring("add --method NAME"));
    CHECK_THAT(refusal("cam_angle,reading\n"), ContainsSubstring("there is no reading"));
    CHECK_THAT(refusal("cam_angle,reading\n2000000,1\n"),
               ContainsSubstring("r.csv:2:1: the angle is 2000000"));
    CHECK_THAT(refusal("cam_angle,reading\n2,10001\n"), ContainsSubstring("r.csv:2:1: the reading is 10001"));
    CHECK_THAT(refusal("lobe,cam_angle,reading\n1 inlt,2,1\n", {}, of_lobe(std::nullopt)),
               ContainsSubstring("r.csv:2:1: there is no lobe \"1 inlt\": did you mean \"1 inlet\"?"));
    CHECK_THAT(refusal("cam_angle,reading\n2,1\n", {}, of_lobe(std::nullopt)),
               ContainsSubstring("add --lobe NAME, or the column"));
    Job without_engine = basalt::job(basalt::lopsided(), basalt::endless_flat());
    const std::vector<SolvedLobe> single{basalt::solved(without_engine)};
    CHECK_THAT(
        refusal("crank_angle,reading\n2,1\n", {}, {without_engine, single, std::size_t{0}, std::nullopt}),
        ContainsSubstring("without [engine]"));
}
