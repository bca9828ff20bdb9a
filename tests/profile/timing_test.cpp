#include "basalt.h"

#include <lobewright/timing.h>

using namespace lobewright;

namespace {

Job engine_job(int cylinders, const std::vector<double>& firing, const ValveTiming& inlet,
               const ValveTiming& exhaust, Sense turns = Sense::ccw) {
    Job job = basalt::job(basalt::lopsided(), basalt::flat(), turns);
    Engine engine;
    engine.cylinders = cylinders;
    for (const double fires : firing)
        engine.firing_angles.push_back(CrankAngle::from_degrees(fires));
    engine.inlet = inlet, engine.exhaust = exhaust;
    job.engine = engine;
    job.lobes.clear();
    for (int i = 1; i <= cylinders; ++i) {
        for (const Valve valve : {Valve::inlet, Valve::exhaust}) {
            LobeEntry lobe;
            lobe.name = std::to_string(i) + (valve == Valve::inlet ? " inlet" : " exhaust");
            lobe.profile = "profile", lobe.follower = "follower";
            lobe.cylinder = i, lobe.valve = valve, lobe.width = 5.0;
            job.lobes.push_back(lobe);
        }
    }
    return job;
}

ValveTiming timing(double opens, double closes, double clearance = 0.1) {
    return {CrankAngle::from_degrees(opens), CrankAngle::from_degrees(closes), clearance};
}

std::vector<double> even_firing(const std::vector<int>& order) {
    std::vector<double> fires(order.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        fires[static_cast<std::size_t>(order[i] - 1)] =
            720.0 * static_cast<double>(i) / static_cast<double>(order.size());
    return fires;
}

std::vector<SolvedLobe> solved(const Job& job) {
    const auto lobes = solve_lobes(job);
    for (const Diagnostic& diagnostic : lobes.diagnostics())
        UNSCOPED_INFO(to_text(diagnostic));
    REQUIRE(lobes.ok());
    return *lobes;
}

double turn_between(const SolvedLobe& a, const SolvedLobe& b) {
    const double degrees = (b.at - a.at).degrees();
    return degrees - 360.0 * std::floor(degrees / 360.0 + 1e-9);
}

}  // namespace

// Firing orders and uneven firing, half of the crank degrees between the sparks: cam degrees after cylinder
// 1; a lobe that is met later lies that angle against the rotation.
TEST_CASE("each firing order sets its lobes against the rotation by half the crank angle") {
    const struct {
        std::vector<double> firing;
        std::vector<double> later;  // cam degrees, by cylinder from 2
    } engines[] = {
        {even_firing({1, 3, 4, 2}), {270, 90, 180}},
        {even_firing({1, 2, 4, 3}), {90, 270, 180}},
        {even_firing({1, 3, 2}), {240, 120}},
        {even_firing({1, 2, 4, 5, 3}), {72, 288, 144, 216}},
        {even_firing({1, 5, 3, 6, 2, 4}), {240, 120, 300, 60, 180}},
        {even_firing({1, 8, 4, 3, 6, 5, 7, 2}), {315, 135, 90, 225, 180, 270, 45}},
        {{0, 360}, {180}},
        {{0, 180}, {90}},
        {{0, 270}, {135}},
        {{0, 315}, {157.5}},
        {{0, 405}, {202.5}},
    };
    for (const auto& engine : engines) {
        for (const Sense turns : {Sense::ccw, Sense::cw}) {
            const auto lobes = solved(engine_job(static_cast<int>(engine.firing.size()), engine.firing,
                                                 timing(20, 60), timing(60, 20), turns));
            for (std::size_t k = 0; k < engine.later.size(); ++k) {
                const double turn = turn_between(lobes[0], lobes[2 * (k + 1)]);
                const double wanted = turns == Sense::ccw ? 360.0 - engine.later[k] : engine.later[k];
                CHECK_NEAR(turn, wanted, 1e-9);
            }
        }
    }
}

// Published cards: ausmini.com/forums/viewtopic.php?p=237565 (20/60-60/20: 260/260, centres 110/110,
// separation 110), askfilo.com (10/40-50/10: 230/240, 105/110, 107.5), Army TM 9-8000 (28 before TDC, 279
// degrees, exhaust closes 45 after TDC: overlap 73).
TEST_CASE(
    "what a timing card asks for is what the solved lobes do at the clearance, for an unsymmetrical lobe "
    "too") {
    const struct {
        ValveTiming inlet, exhaust;
        double inlet_duration, exhaust_duration, inlet_centre, exhaust_centre, overlap;
    } cards[] = {
        {timing(20, 60), timing(60, 20), 260, 260, 110, 110, 40},
        {timing(25, 55), timing(65, 15), 260, 260, 105, 115, 40},
        {timing(15, 65), timing(55, 25), 260, 260, 115, 105, 40},
        {timing(25, 55), timing(55, 25), 260, 260, 105, 105, 50},
        {timing(10, 40), timing(50, 10), 230, 240, 105, 110, 20},
        {timing(28, 71), timing(54, 45), 279, 279, 111.5, 94.5, 73},
    };
    for (const auto& card : cards) {
        for (const Sense turns : {Sense::ccw, Sense::cw}) {
            // Arcs make just the events; their action angle is settled by the timing. The arm makes the lobe
            // lopsided.
            Job job = engine_job(2, {0.0, 270.0}, card.inlet, card.exhaust, turns);
            ArcsProfile arcs = basalt::arcs_with_nose(14.0, 4.0, 0.0, 3.0);
            arcs.action_angle.reset();
            job.profiles["profile"] = arcs;
            Follower arm = basalt::pivoted(8.0, 40.0, 35.0, Sense::cw);
            arm.valve_ratio = 1.4;
            arm.direction = SpaceAngle::from_degrees(-45.0);
            job.followers["follower"] = arm;
            const auto lobes = solved(job);
            for (const SolvedLobe& lobe : lobes) {
                const LobeEntry& entry = job.lobes[lobe.entry];
                const bool inlet = entry.valve == Valve::inlet;
                const auto events = valve_events(job, lobe);
                REQUIRE(events);
                const ValveTiming& asked = inlet ? card.inlet : card.exhaust;
                CHECK_NEAR(events->opens.degrees(), asked.opens.degrees(), 1e-9);
                CHECK_NEAR(events->closes.degrees(), asked.closes.degrees(), 1e-9);
                CHECK_NEAR(events->duration.degrees(), inlet ? card.inlet_duration : card.exhaust_duration,
                           1e-9);
                CHECK_NEAR(events->centre.degrees(), inlet ? card.inlet_centre : card.exhaust_centre, 1e-9);
            }
            const double overlap =
                valve_events(job, lobes[0])->opens.degrees() + valve_events(job, lobes[1])->closes.degrees();
            CHECK_NEAR(overlap, card.overlap, 1e-9);
        }
    }
}

TEST_CASE(
    "an unsymmetrical motion is shifted so that the middle of its events falls on the timing's centre") {
    const Job job = engine_job(1, {0.0}, timing(10, 50, 0.2), timing(50, 10, 0.2));
    for (const SolvedLobe& lobe : solved(job)) {
        const LiftEvents events = events_at(lobe.motion, 0.2);
        const double middle = 0.5 * (events.opens + events.closes).degrees();
        CHECK(std::abs(middle) > 1.0);
        // By hand: inlet centre 470 crank degrees after the cylinder fires, exhaust 250.
        const double centre = job.lobes[lobe.entry].valve == Valve::inlet ? 470.0 : 250.0;
        CHECK_NEAR(wrapped(lobe.at).degrees(),
                   wrapped(ShaftAngle::from_degrees(-(0.5 * centre - middle))).degrees(), 1e-9);
    }
}

TEST_CASE("valves in different directions round the shaft have their lobes turned by as much") {
    Job job = engine_job(2, {0.0, 450.0}, timing(20, 60), timing(60, 20), Sense::cw);
    job.followers["other bank"] = job.followers["follower"];
    job.followers["other bank"].direction = SpaceAngle::from_degrees(90.0);
    for (LobeEntry& lobe : job.lobes)
        if (lobe.cylinder == 2) lobe.follower = "other bank";
    const auto lobes = solved(job);
    CHECK_NEAR(turn_between(lobes[0], lobes[2]), 225.0 + 90.0, 1e-9);
    CHECK_NEAR(turn_between(lobes[1], lobes[3]), 225.0 + 90.0, 1e-9);
}

// Radial engines (experts123.com/q/how-are-the-number-of-cam-lobes-determined.html): (Y - 1) / 2 lobes
// turning against the crank at 1 / (Y - 1), or (Y + 1) / 2 with it at 1 / (Y + 1); firing 1-3-5-..-2-4. One
// ring serves all cylinders: their lobes coincide, whole lobe pitches apart.
TEST_CASE("one ring of lobes serves every cylinder of a radial engine, either way round") {
    for (const int cylinders : {3, 5, 7, 9}) {
        for (const bool with_crank : {false, true}) {
            const int lobes_on_ring = with_crank ? (cylinders + 1) / 2 : (cylinders - 1) / 2;
            std::vector<int> order;
            for (int k = 1; k <= cylinders; k += 2)
                order.push_back(k);
            for (int k = 2; k <= cylinders; k += 2)
                order.push_back(k);
            Job job = engine_job(cylinders, even_firing(order), timing(20, 60), timing(60, 20),
                                 with_crank ? Sense::ccw : Sense::cw);
            job.engine->cam_per_crank = 1.0 / (2.0 * lobes_on_ring);
            ArcsProfile arcs = basalt::arcs_with_nose(60.0, 3.0, 0.0, 8.0);
            arcs.action_angle.reset();
            job.profiles["profile"] = arcs;
            std::vector<LobeEntry> inlets;
            for (LobeEntry lobe : job.lobes) {
                if (lobe.valve != Valve::inlet) continue;
                lobe.repeat = lobes_on_ring;
                lobe.follower = "follower " + std::to_string(lobe.cylinder);
                // The crank turns ccw; cylinders are numbered the way it turns.
                job.followers[lobe.follower] = basalt::roller(8.0);
                job.followers[lobe.follower].direction =
                    SpaceAngle::from_degrees(360.0 / cylinders * (lobe.cylinder - 1));
                inlets.push_back(lobe);
            }
            job.lobes = inlets;
            const double pitch = 360.0 / lobes_on_ring;
            const auto rings = solved(job);
            for (const SolvedLobe& ring : rings) {
                const double apart = (ring.at - rings.front().at).degrees() / pitch;
                CHECK_NEAR(apart, std::round(apart), 1e-9);
                CHECK_NEAR(valve_events(job, ring)->opens.degrees(), 20.0, 1e-9);
                // Ring-degree duration = crank duration x ratio.
                const LiftEvents events = events_at(ring.motion, 0.1);
                CHECK_NEAR((events.closes - events.opens).degrees(), 260.0 / (2.0 * lobes_on_ring), 1e-9);
            }
        }
    }
}

// By hand: an exhaust valve that opens 88 before and closes 52 after BDC stands open from 92 to 232 crank
// degrees after its cylinder fires, and once a turn.
TEST_CASE("a two-stroke's lobe turns with the crank, and opens its valve once a turn") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        Job job = engine_job(2, {0.0, 180.0}, timing(20, 60), timing(88, -128, 0.15), turns);
        job.engine->cam_per_crank = 1.0;
        job.engine->inlet.reset();
        MotionProfile motion = basalt::lopsided(20.0, 5.0);
        motion.opening_share = 0.5;
        job.profiles["profile"] = motion;
        std::erase_if(job.lobes, [](const LobeEntry& lobe) { return lobe.valve == Valve::inlet; });
        const auto lobes = solved(job);
        REQUIRE(lobes.size() == 2);
        for (const SolvedLobe& lobe : lobes) {
            const auto events = valve_events(job, lobe);
            CHECK_NEAR(events->opens.degrees(), 88.0, 1e-9);
            CHECK_NEAR(events->closes.degrees(), -128.0, 1e-9);
            CHECK_NEAR(events->duration.degrees(), 140.0, 1e-9);
            const LiftEvents lift = events_at(lobe.motion, 0.15);
            CHECK_NEAR((lift.closes - lift.opens).degrees(), 140.0, 1e-9);
            // The middle of the opening faces the follower 162 crank degrees after the cylinder fires.
            const double middle = 0.5 * (lift.opens + lift.closes).degrees();
            const double fires = lobe.entry == 0 ? 0.0 : 180.0;
            const double facing = lobe.at.degrees() - sign_of(turns) * middle;
            CHECK_NEAR(wrapped(ShaftAngle::from_degrees(facing + sign_of(turns) * (fires + 162.0))).degrees(),
                       0.0, 1e-9);
        }
    }
}
