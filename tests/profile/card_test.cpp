#include "basalt.h"
#include "random_lobe.h"
#include "trials.h"

#include <lobewright/lift_table.h>
#include <lobewright/soundness.h>
#include <lobewright/timing.h>
#include <lobewright/valve_train.h>

using namespace lobewright;

namespace {

using random_lobe::Source;

constexpr double per_degree = std::numbers::pi / 180.0;

ArcsProfile drawn_arcs(Source& random, bool by_nose, bool uneven) {
    const double base = random.between(13.0, 20.0), lift = random.between(4.0, 7.0);
    ArcsProfile arcs = by_nose ? basalt::arcs_with_nose(base, lift, 0.0, random.between(2.5, 5.0))
                               : basalt::arcs_with_flank(base, lift, 0.0, base * random.between(3.0, 7.0));
    arcs.action_angle.reset();
    if (uneven && by_nose)
        arcs.ramps = ArcRamps{random.between(0.1, 0.3), basalt::cam_degrees(random.between(12.0, 25.0)),
                              basalt::cam_degrees(random.between(12.0, 25.0))};
    if (uneven && !by_nose) arcs.closing_flank_radius = base * random.between(3.0, 7.0);
    return arcs;
}

/// On a base circle that is large enough for any law.
MotionProfile drawn_motion(Source& random, int law) {
    MotionProfile motion = random_lobe::draw_law(random, law);
    motion.base_radius = random.between(50.0, 70.0), motion.lift = random.between(4.0, 7.0);
    motion.opening_share = random.between(0.4, 0.6);
    if (random.chance(0.3)) motion.closing_law = LawKind::cycloidal;
    return motion;
}

/// A one-lobe job whose valve's card is random; the profile takes its angles from it.
Job drawn(Source& random, int number) {
    const bool inlet = random.chance(0.5), motion = number % 3 == 2;
    const double ratio = random.between(1.0, 1.6);
    const Profile profile = motion ? Profile(drawn_motion(random, number / 3 % 8))
                                   : Profile(drawn_arcs(random, number % 3 == 0, number % 2 == 0));
    constexpr int not_on_arms[] = {0, 1, 2, 3, 5};
    Follower follower = random_lobe::draw_follower(
        random, motion ? not_on_arms[number % 5] : number % random_lobe::follower_kinds);
    follower.valve_ratio = ratio;
    follower.direction = SpaceAngle::from_degrees(random.between(-180.0, 180.0));
    Job job = basalt::job(profile, follower, random.chance(0.5) ? Sense::ccw : Sense::cw);
    Engine engine;
    engine.cylinders = 2;
    engine.firing_angles = {CrankAngle{}, basalt::crank_degrees(random.between(90.0, 600.0))};
    const bool checking = random.chance(0.5);
    const double duration = checking ? random.between(180.0, 230.0) : random.between(220.0, 280.0);
    const double centre = random.between(98.0, 116.0);
    ValveTiming timing = inlet ? basalt::timing(duration / 2 - centre, duration / 2 + centre - 180.0, 0.0)
                               : basalt::timing(duration / 2 + centre - 180.0, duration / 2 - centre, 0.0);
    timing.clearance = random.between(0.05, 0.3);
    if (checking) timing.at_lift = random.between(0.4, 1.3);
    (inlet ? engine.inlet : engine.exhaust) = timing;
    job.engine = engine;
    LobeEntry& lobe = job.lobes.front();
    lobe.at.reset();
    lobe.cylinder = random.pick(1, 2), lobe.valve = inlet ? Valve::inlet : Valve::exhaust;
    return job;
}

/// Where a row's lift, and the next one's, pass the threshold: shaft angle in degrees, by Hermite's cubic
/// through both rows' lifts and velocities.
double crossing(const LiftRow& a, const LiftRow& b, double threshold) {
    const double step = (b.cam_angle - a.cam_angle).radians();
    const auto lift = [&](double t) {
        const double s = 1.0 - t;
        return a.lift.lift * s * s * (1.0 + 2.0 * t) + b.lift.lift * t * t * (3.0 - 2.0 * t) +
               step * t * s * (a.lift.velocity * s - b.lift.velocity * t);
    };
    double low = 0.0, high = 1.0;
    const bool rises = b.lift.lift > a.lift.lift;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        ((lift(middle) > threshold) == rises ? high : low) = middle;
    }
    return a.shaft_angle.degrees() + low * (b.shaft_angle - a.shaft_angle).degrees();
}

struct ShaftEvents {
    double opens, closes;  ///< shaft angles that face the follower, degrees
};

/// From the table alone, outwards from its highest row.
ShaftEvents events_of(const std::vector<LiftRow>& rows, double threshold) {
    std::size_t peak = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].lift.lift > rows[peak].lift.lift) peak = i;
    std::size_t before = peak, after = peak;
    while (before > 0 && rows[before].lift.lift > threshold)
        --before;
    while (after + 1 < rows.size() && rows[after].lift.lift > threshold)
        ++after;
    return {crossing(rows[before], rows[before + 1], threshold),
            crossing(rows[after - 1], rows[after], threshold)};
}

/// Crank degrees by which `shaft_angle` faces the follower after `wanted` (from cylinder 1's firing), less
/// whole cycles.
double late(const Job& job, double shaft_angle, double wanted) {
    const double sense = job.shaft.turns == Sense::ccw ? 1.0 : -1.0;
    const Follower& follower = job.followers.at("follower");
    const double crank =
        sense * (follower.direction.degrees() - shaft_angle) / job.engine->cam_per_crank - wanted;
    return crank - 720.0 * std::round(crank / 720.0);
}

}  // namespace

TEST_CASE("events recomputed from the lift table keep the card within a thousandth of a crank degree") {
    constexpr unsigned seed = 130726;
    INFO("seed " << seed);
    Source random(seed);
    int solved = 0, drawn_so_far = 0;
    double worst = 0.0;
    for (; solved < trials(500) && drawn_so_far < trials(700); ++drawn_so_far) {
        const Job job = drawn(random, drawn_so_far);
        const auto lobes = solve_lobes(job);
        if (!lobes) continue;
        ++solved;
        const LobeEntry& entry = job.lobes.front();
        const bool inlet = entry.valve == Valve::inlet;
        const ValveTiming& card = inlet ? *job.engine->inlet : *job.engine->exhaust;
        const double threshold =
            card.at_lift.value_or(card.clearance) / job.followers.at("follower").valve_ratio;
        const auto rows = lift_table(lobes->front(), basalt::cam_degrees(0.25));
        const ShaftEvents events = events_of(rows, threshold);
        const double gas_tdc =
            job.engine->firing_angles[static_cast<std::size_t>(entry.cylinder - 1)].degrees() + 360.0;
        const double opens = inlet ? gas_tdc - card.opens.degrees() : gas_tdc - 180.0 - card.opens.degrees();
        const double closes =
            inlet ? gas_tdc + 180.0 + card.closes.degrees() : gas_tdc + card.closes.degrees();
        const double off =
            std::max(std::abs(late(job, events.opens, opens)), std::abs(late(job, events.closes, closes)));
        INFO("draw " << drawn_so_far);
        CHECK(off < 1e-3);
        worst = std::max(worst, off);
    }
    INFO("worst " << worst << " crank degrees, of " << drawn_so_far << " drawn");
    CHECK(solved == trials(500));
}

TEST_CASE("a motion's angles from its card share out as told, and lengthen with the card") {
    MotionProfile motion = basalt::lopsided(14.0, 5.0);
    motion.opening_share = 0.45;
    Job job = basalt::job(motion, basalt::endless_flat());
    job.engine = Engine{};
    job.engine->firing_angles = {CrankAngle{}};
    job.lobes.front().at.reset();
    job.lobes.front().cylinder = 1;
    double last = 0.0;
    for (const double later : {0.0, 10.0, 20.0}) {
        job.engine->inlet = basalt::timing(10.0, 50.0 + later, 0.2);
        const SolvedLobe lobe = basalt::solved(job);
        const auto& pieces = lobe.motion.pieces();
        double opening = 0.0, closing = 0.0;
        for (const MotionPiece& piece : pieces) {
            if (piece.name == "opening flank") opening += piece.end - piece.start;
            if (piece.name == "closing flank") closing += piece.end - piece.start;
        }
        CHECK_NEAR(opening / (opening + closing), 0.45, 1e-12);
        CHECK(opening + closing > last + 4.0 * per_degree);
        CHECK_NEAR(valve_events(job, lobe)->duration.degrees(), 240.0 + later, 1e-9);
        last = opening + closing;
    }
}

namespace {

Job asking_for(double opens, double closes, double clearance) {
    MotionProfile motion = basalt::lopsided(14.0, 5.0);
    motion.opening_share = 0.5;
    Job job = basalt::job(motion, basalt::endless_flat());
    job.engine = Engine{};
    job.engine->firing_angles = {CrankAngle{}};
    job.engine->inlet = basalt::timing(opens, closes, clearance);
    job.lobes.front().at.reset();
    job.lobes.front().cylinder = 1;
    return job;
}

Diagnostic refusal_of(const Job& job) {
    const auto lobes = solve_lobes(job);
    REQUIRE_FALSE(lobes.ok());
    return lobes.diagnostics().front();
}

}  // namespace

TEST_CASE("a card that ramps and turn leave no room for is refused with the durations that work") {
    const Diagnostic too_short = refusal_of(asking_for(-85.0, -85.0, 0.05));
    CHECK(too_short.code == "duration");
    CHECK_THAT(too_short.what, ContainsSubstring("for the card's 10 crank degrees"));
    // The remedy's own figures work.
    const std::string words = too_short.remedy;
    const double least = std::stod(words.substr(words.find("ask for ") + 8));
    const double most = std::stod(words.substr(words.find(" to ") + 4));
    CHECK(least > 10.0);
    // At most the event fills the turn. A ramp gains speed over its first quarter: 0.12 mm in 18 degrees are
    // 0.12 / (7/8 18) mm a degree, and 0.05 mm high after 4.5 + 4.3125 of them; 0.15 mm in 24 degrees after 6
    // + 4.
    CHECK_NEAR(most, 2.0 * (360.0 - 8.8125 - 10.0), 1.1e-3);
    const auto open_for = [](double duration) {
        return asking_for(0.5 * duration - 90.0, 0.5 * duration - 90.0, 0.05);
    };
    for (const double duration : {least, least + 20.0}) {
        const auto outcome = solve_lobes(open_for(duration));
        if (!outcome) CHECK(outcome.diagnostics().front().code != "duration");
    }
    CHECK(solve_lobes(open_for(most)).ok());
    const Diagnostic too_long = refusal_of(open_for(most + 0.1));
    CHECK(too_long.code == "duration");
    CHECK(too_long.remedy == too_short.remedy);
    Job job = asking_for(10.0, 50.0, 0.2);
    job.engine->inlet.reset();
    job.lobes.front().at = ShaftAngle{};
    CHECK(refusal_of(job).code == "action-angle-missing");
    CHECK(refusal_of(job).fault == Fault::bad_input);
}

TEST_CASE("a checking lift that the valve never reaches is refused at its key") {
    Job job = asking_for(10.0, 50.0, 0.2);
    job.engine->inlet->at_lift = 5.0;
    job.places["engine.inlet.at_lift"] = Place{job.file, 7, 3};
    const Diagnostic refused = refusal_of(job);
    CHECK(refused.code == "never-opens");
    CHECK(refused.place.line == 7);
    CHECK(refused.remedy == "give an at_lift of 4.9999 mm or less");
    job.engine->inlet->at_lift = 4.9999;
    job.engine->inlet->opens = basalt::crank_degrees(-80.0);
    job.engine->inlet->closes = basalt::crank_degrees(-70.0);
    const auto solved = solve_lobes(job);
    if (!solved) CHECK(solved.diagnostics().front().code != "never-opens");
}

TEST_CASE("a report has every card's view of a lobe, and of the first cylinder's two") {
    Job job = basalt::four();
    job.engine->inlet->at_lift = 0.5;
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const JobReport report = judge(job, *lobes);
    const LobeReport& inlet = report.lobes[0];
    REQUIRE(inlet.cards.size() == 4);
    const CheckingLift wanted[] = {CheckingLift::clearance, CheckingLift::card, CheckingLift::millimetre,
                                   CheckingLift::fifty_thousandths};
    const double lifts[] = {0.10, 0.5, 1.0, 1.27};
    for (std::size_t i = 0; i < 4; ++i) {
        const CardView& view = inlet.cards[i];
        CHECK(view.at == wanted[i]);
        CHECK(view.valve_lift == lifts[i]);
        // Duration and centre are those of the events (valve timing's own definitions).
        CHECK_NEAR(view.duration.degrees(), 180.0 + (view.opens + view.closes).degrees(), 1e-9);
        CHECK_NEAR(view.centre.degrees(), 0.5 * (view.closes - view.opens).degrees() + 90.0, 1e-9);
        if (i > 0) CHECK(view.duration < inlet.cards[i - 1].duration);
    }
    CHECK_NEAR(inlet.cards[1].opens.degrees(), 14.0, 1e-9);
    CHECK_NEAR(inlet.cards[1].closes.degrees(), 46.0, 1e-9);
    CHECK(inlet.opens == inlet.cards[0].opens);
    const LobeReport& exhaust = report.lobes[1];
    REQUIRE(exhaust.cards.size() == 3);
    REQUIRE(report.overlaps.size() == 3);
    for (const OverlapView& view : report.overlaps) {
        for (const CardView& opens : inlet.cards)
            for (const CardView& closes : exhaust.cards)
                if (opens.at == view.at && closes.at == view.at) {
                    CHECK_NEAR(view.overlap.degrees(), (opens.opens + closes.closes).degrees(), 1e-9);
                    CHECK_NEAR(view.lobe_separation.degrees(), 0.5 * (opens.centre + closes.centre).degrees(),
                               1e-9);
                }
    }
}

TEST_CASE("a lobe too low for a checking lift has no view at it") {
    Job job = basalt::four();
    for (const char* name : {"inlet", "exhaust"}) {
        auto& arcs = std::get<ArcsProfile>(job.profiles[name]);
        arcs.lift = 1.1, arcs.flank_radius = 14.0;
    }
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const JobReport report = judge(job, *lobes);
    REQUIRE(report.lobes[0].cards.size() == 2);
    CHECK(report.lobes[0].cards[1].at == CheckingLift::millimetre);
}

TEST_CASE("the area under the lift is the closed forms'") {
    const auto area = [](const Profile& profile, const Follower& follower) {
        const Job job = basalt::job(profile, follower);
        const auto lobes = solve_lobes(job);
        REQUIRE(lobes.ok());
        return judge(job, *lobes).lobes.front().area;
    };
    // A law that is its own image turned half round fills half its box: lift × angle / 2.
    for (const LawKind kind :
         {LawKind::simple_harmonic, LawKind::cycloidal, LawKind::polynomial_345, LawKind::polynomial_4567,
          LawKind::modified_sine, LawKind::modified_trapezoid, LawKind::parabolic}) {
        MotionProfile motion = basalt::law(kind, 40.0, 4.0, 70.0, 80.0);
        motion.dwell_angle = basalt::cam_degrees(10.0);
        CHECK_RELATIVE(area(motion, basalt::endless_flat()), 4.0 * (75.0 + 10.0) * per_degree, 1e-12);
    }
    // The polynomial 2-10-18-26: ∫ 1 + Σ c x^p = 0.552897 (its coefficients are -195/128 and so on).
    const double power = 1.0 + (-195.0 / 3.0 + 117.0 / 11.0 - 65.0 / 19.0 + 15.0 / 27.0) / 128.0;
    CHECK_NEAR(power, 0.552897, 5.1e-7);
    CHECK_RELATIVE(area(basalt::law(LawKind::power_polynomial, 40.0, 4.0, 70.0, 80.0, {2, 10, 18, 26}),
                        basalt::endless_flat()),
                   4.0 * 150.0 * per_degree * power, 1e-12);
    // With ramps, against Simpson's rule in steps of 0.005 degrees.
    MotionProfile ramped = basalt::lopsided(14.0, 5.0);
    const SolvedLobe lobe = basalt::solved(ramped, basalt::endless_flat());
    double simpson = 0.0;
    constexpr int parts = 72000;
    for (int i = 0; i <= parts; ++i) {
        const double alpha = -180.0 + 360.0 * i / parts;
        const double weight = i == 0 || i == parts ? 1.0 : (i % 2 == 1 ? 4.0 : 2.0);
        simpson += weight * lobe.motion.at(basalt::cam_degrees(alpha)).lift;
    }
    simpson *= 2.0 * std::numbers::pi / parts / 3.0;
    CHECK_RELATIVE(area(ramped, basalt::endless_flat()), simpson, 1e-9);
}
