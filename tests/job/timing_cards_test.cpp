#include "catch.h"
#include "job_text.h"

using namespace lobewright;
using namespace job_text;

namespace {

/// The whole job with these lines in place of the inlet's and the exhaust's card, and more in [engine].
std::string with_cards(const std::string& inlet, const std::string& exhaust, const std::string& engine = "") {
    std::string text = added(whole_job(), "engine.inlet", inlet);
    text = added(text, "engine.exhaust", exhaust);
    for (const char* key : {"opens_before_tdc", "closes_after_bdc"})
        text = unset(text, "engine.inlet", key);
    for (const char* key : {"opens_before_bdc", "closes_after_tdc"})
        text = unset(text, "engine.exhaust", key);
    return engine.empty() ? text : added(text, "engine", engine);
}

void has_basalts_card(const std::string& text) {
    const auto job = read(text);
    INFO(complaints(job));
    REQUIRE(job.ok());
    CHECK_NEAR(job->engine->inlet->opens.degrees(), 14.0, 1e-12);
    CHECK_NEAR(job->engine->inlet->closes.degrees(), 46.0, 1e-12);
    CHECK_NEAR(job->engine->exhaust->opens.degrees(), 48.0, 1e-12);
    CHECK_NEAR(job->engine->exhaust->closes.degrees(), 12.0, 1e-12);
}

/// The only complaint about `text`, which stands at that key of that section.
std::string complaint_at(const std::string& text, const std::string& section, const std::string& key) {
    const auto job = read(text);
    INFO(complaints(job));
    REQUIRE(job.diagnostics().size() == 1);
    const Spot spot = value_of(text, section, key);
    CHECK(job.diagnostics().front().place.line == spot.line);
    CHECK(job.diagnostics().front().place.column == spot.column);
    return complaints(job);
}

}  // namespace

TEST_CASE("a card is the same by its events, by duration and centre, and by separation and advance") {
    has_basalts_card(whole_job());
    has_basalts_card(with_cards("duration = 240\ncentre = 106", "duration = 240\ncentre = 108"));
    has_basalts_card(with_cards("duration = 240", "duration = 240", "lobe_separation = 107\nadvance = 1"));
}

// Published cards: ausmini.com/forums/viewtopic.php?p=237565, 260 degrees on a separation of 110:
// 20/60-60/20; 5 degrees earlier 25/55-65/15, 5 later 15/65-55/25; on 105 degrees 25/55-55/25.
TEST_CASE("duration, separation and advance give the published cards") {
    const struct {
        const char* engine;
        double opens, closes, exhaust_opens, exhaust_closes;
    } cards[] = {{"lobe_separation = 110", 20, 60, 60, 20},
                 {"lobe_separation = 110\nadvance = 5", 25, 55, 65, 15},
                 {"lobe_separation = 110\nadvance = -5", 15, 65, 55, 25},
                 {"lobe_separation = 105", 25, 55, 55, 25}};
    for (const auto& card : cards) {
        const auto job = read(with_cards("duration = 260", "duration = 260", card.engine));
        REQUIRE(job.ok());
        CHECK_NEAR(job->engine->inlet->opens.degrees(), card.opens, 1e-12);
        CHECK_NEAR(job->engine->inlet->closes.degrees(), card.closes, 1e-12);
        CHECK_NEAR(job->engine->exhaust->opens.degrees(), card.exhaust_opens, 1e-12);
        CHECK_NEAR(job->engine->exhaust->closes.degrees(), card.exhaust_closes, 1e-12);
    }
}

TEST_CASE("a cam that turns as fast as its crank has half the crank degrees between its lobes' centres") {
    const std::string text = with_cards("duration = 120", "duration = 110", "lobe_separation = 100");
    const auto job = read(set(text, "engine", "cam_per_crank", "1"));
    REQUIRE(job.ok());
    const auto& [inlet, exhaust] = std::pair(*job->engine->inlet, *job->engine->exhaust);
    const double inlet_centre = (inlet.closes - inlet.opens).degrees() / 2.0 + 90.0;
    const double exhaust_centre = (exhaust.opens - exhaust.closes).degrees() / 2.0 + 90.0;
    CHECK_NEAR(inlet_centre + exhaust_centre, 100.0, 1e-12);
}

TEST_CASE(
    "a checking lift is a length in the job's units, and absent where the card holds at the clearance") {
    CHECK_FALSE(read(whole_job())->engine->inlet->at_lift);
    CHECK(*read(added(whole_job(), "engine.inlet", "at_lift = 1.27"))->engine->inlet->at_lift == 1.27);
    for (const char* bad : {"0", "-1", "100.001", "\"1 mm\""})
        CHECK_FALSE(read(added(whole_job(), "engine.inlet", std::string("at_lift = ") + bad)).ok());
}

TEST_CASE("a card that says one thing twice is refused at the key that does") {
    CHECK_THAT(complaint_at(added(whole_job(), "engine.inlet", "duration = 240"), "engine.inlet", "duration"),
               ContainsSubstring("the inlet's card has its events and a duration: give opens_before_tdc and "
                                 "closes_after_bdc, or duration and centre"));
    CHECK_THAT(complaint_at(added(whole_job(), "engine.exhaust", "centre = 108"), "engine.exhaust", "centre"),
               ContainsSubstring("the exhaust's card has its events and a centre"));
    CHECK_THAT(complaint_at(added(with_cards("duration = 240", "duration = 240\ncentre = 108"), "engine",
                                  "lobe_separation = 107"),
                            "engine.exhaust", "centre"),
               ContainsSubstring("lobe_separation places both lobes, and the exhaust's card has a centre"));
    const std::string both = with_cards("duration = 240\ncentre = 106", "duration = 240\ncentre = 108");
    CHECK_THAT(complaint_at(added(both, "engine", "advance = 2"), "engine", "advance"),
               ContainsSubstring("'engine.advance' has no lobe_separation to go with"));
    const std::string events =
        added(without(whole_job(), "engine.exhaust"), "engine", "lobe_separation = 107");
    CHECK_THAT(
        complaints(read(events)),
        ContainsSubstring("lobe_separation places both lobes, and the inlet's card has its events: give "
                          "the card its duration alone, or remove lobe_separation"));
}

TEST_CASE("a card that says too little names what it lacks") {
    CHECK_THAT(
        complaints(read(with_cards("duration = 240", "duration = 240\ncentre = 108"))),
        ContainsSubstring("[engine.inlet] has no 'centre': add it, or give [engine] a lobe_separation"));
    CHECK_THAT(complaints(read(with_cards("centre = 106", "duration = 240\ncentre = 108"))),
               ContainsSubstring("[engine.inlet] has no 'duration'"));
    CHECK_THAT(complaints(read(unset(whole_job(), "engine.inlet", "closes_after_bdc"))),
               ContainsSubstring("[engine.inlet] has no 'closes_after_bdc'"));
    const std::string alone = added(without(without(whole_job(), "engine.inlet"), "engine.exhaust"), "engine",
                                    "lobe_separation = 107");
    CHECK_THAT(complaints(read(alone)),
               ContainsSubstring("'engine.lobe_separation' has no card whose lobe it places"));
}

TEST_CASE("durations, centres, separation and advance outside any engine are refused") {
    const auto refused = [](const std::string& inlet, const std::string& engine) {
        return !read(with_cards(inlet, "duration = 240\ncentre = 108", engine)).ok();
    };
    for (const char* bad : {"0", "540.001", "-240", "\"240\""})
        CHECK(refused(std::string("duration = ") + bad + "\ncentre = 106", ""));
    for (const char* bad : {"-90.001", "270.001", "\"106\""})
        CHECK(refused(std::string("duration = 240\ncentre = ") + bad, ""));
    const auto separated = [](const std::string& engine) {
        return read(with_cards("duration = 240", "duration = 240", engine)).ok();
    };
    CHECK(separated("lobe_separation = 180\nadvance = -90"));
    for (const char* bad :
         {"lobe_separation = 0", "lobe_separation = 180.001", "lobe_separation = \"107\"",
          "lobe_separation = 107\nadvance = 90.001", "lobe_separation = 107\nadvance = -91"})
        CHECK_FALSE(separated(bad));
}
