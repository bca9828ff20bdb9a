// Shapes known from before: the same lobes, and only what has changed is solved.
#include "job_kit.h"
#include "random_lobe.h"
#include "trials.h"

#include <lobewright/known_shapes.h>

#include <functional>

using namespace lobewright;

namespace {

/// Eight lobes of eight profiles, among them the kinds that take a card's angles and that keep limits.
Job eight_profiles() {
    Job job = basalt::four();
    job.contact = basalt::load(90.0, 12.0, 0.04, 6000.0);
    for (std::size_t i = 0; i < job.lobes.size(); ++i) {
        LobeEntry& lobe = job.lobes[i];
        lobe.profile = "own " + std::to_string(i);
        ArcsProfile arcs = basalt::arcs_with_flank(6.0, 2.4, 0.0, 16.0 + 0.25 * static_cast<double>(i));
        arcs.action_angle.reset();
        job.profiles[lobe.profile] = arcs;
    }
    MotionProfile carded = basalt::law(LawKind::cycloidal, 9.0, 2.4, 0.0, 0.0);
    carded.opening_share = 0.5;
    job.profiles["own 2"] = carded;
    FullestProfile fullest;
    fullest.base_radius = 12.0, fullest.lift = 2.4;
    fullest.opening_angle = fullest.closing_angle = basalt::cam_degrees(70.0);
    fullest.limits.deceleration = 6.0, fullest.limits.jerk = 200.0, fullest.limits.contact_stress = 900.0;
    fullest.follower = job.lobes[4].follower;
    job.profiles["own 4"] = fullest;
    return job;
}

/// What a lobe is, read off in figures.
std::vector<double> figures_of(const SolvedLobe& lobe) {
    std::vector<double> all{lobe.at.radians(),
                            lobe.z,
                            lobe.width,
                            lobe.base_radius,
                            lobe.lift,
                            lobe.action_angle.radians(),
                            lobe.smoothing_moved,
                            lobe.reading_step,
                            lobe.table_shift.radians(),
                            lobe.follower.radius,
                            double(lobe.entry),
                            double(lobe.repeat),
                            double(lobe.turns)};
    for (int degree = -180; degree < 180; degree += 3) {
        const Lift lift = lobe.motion.at(basalt::cam_degrees(degree));
        const ContourPoint point = lobe.contour.on_ray(ShaftAngle::from_degrees(degree)).at;
        for (const double figure : {lift.lift, lift.velocity, lift.acceleration, lift.jerk, point.point.x,
                                    point.point.y, point.curvature})
            all.push_back(figure);
    }
    for (const ReachedLimit& reached : lobe.limited_by)
        all.push_back(reached.gain);
    return all;
}

/// Checks that the lobes, or the complaints, are the same as without any known shapes.
void check_same(const Job& job, KnownShapes& known) {
    const auto with = solve_lobes(job, known), without = solve_lobes(job);
    REQUIRE(with.ok() == without.ok());
    REQUIRE(with.diagnostics().size() == without.diagnostics().size());
    for (std::size_t i = 0; i < with.diagnostics().size(); ++i)
        CHECK(to_text(with.diagnostics()[i]) == to_text(without.diagnostics()[i]));
    if (!with) return;
    REQUIRE(with->size() == without->size());
    for (std::size_t i = 0; i < with->size(); ++i) {
        CHECK((*with)[i].name == (*without)[i].name);
        CHECK(figures_of((*with)[i]) == figures_of((*without)[i]));
    }
}

struct Change {
    const char* what;
    std::function<void(Job&)> make;
    std::size_t solved;  // shapes
};

ArcsProfile& arcs(Job& job, const char* name) {
    return std::get<ArcsProfile>(job.profiles.at(name));
}

}  // namespace

TEST_CASE("of eight lobes those are solved that a change reaches, and no other") {
    const Change changes[] = {
        {"nothing", [](Job&) {}, 0},
        {"a title and a file's name", [](Job& job) { job.title = "other", job.file = "other.toml"; }, 0},
        {"a lobe's name and place", [](Job& job) { job.lobes[3].name = "new", job.lobes[3].z += 0.5; }, 0},
        {"where a lobe points", [](Job& job) { job.lobes[1].at = ShaftAngle::from_degrees(12.0); }, 0},
        {"the places of keys",
         [](Job& job) {
             job.places["lobe[0].z"] = {"basalt.toml", 7, 3};
         },
         0},
        {"one profile", [](Job& job) { arcs(job, "own 3").lift = 2.3; }, 1},
        {"a law", [](Job& job) { std::get<MotionProfile>(job.profiles.at("own 2")).lift = 2.3; }, 1},
        {"a limit",
         [](Job& job) { std::get<FullestProfile>(job.profiles.at("own 4")).limits.deceleration = 5.8; }, 1},
        {"the springs, which one lobe's limit asks for", [](Job& job) { job.contact->spring_rate = 13.0; },
         1},
        {"the speed likewise", [](Job& job) { job.contact->crank_speed = 5900.0; }, 1},
        {"the width likewise", [](Job& job) { job.lobes[4].width = 5.5; }, 1},
        {"another lobe's width", [](Job& job) { job.lobes[5].width = 5.5; }, 0},
        {"the inlets' card", [](Job& job) { job.engine->inlet->opens += basalt::crank_degrees(1.0); }, 3},
        {"the shaft's way round", [](Job& job) { job.shaft.turns = Sense::cw; }, 8},
        {"a face, which limits nothing", [](Job& job) { job.followers.begin()->second.valve_ratio = 1.1; },
         8},
        {"the sign of a zero", [](Job& job) { job.followers.begin()->second.offset = -0.0; }, 0},
        {"a ring of two", [](Job& job) { job.lobes[4].repeat = 2; }, 1},
    };
    for (const Change& change : changes) {
        INFO(change.what);
        KnownShapes known;
        Job job = eight_profiles();
        taken(solve_lobes(job, known));
        REQUIRE(known.solved() == 8);
        change.make(job);
        check_same(job, known);
        CHECK(known.solved() == 8 + change.solved);
        check_same(eight_profiles(), known);  // and back again
        CHECK(known.solved() == 8 + change.solved);
    }
}

TEST_CASE("whatever the lobes are, known shapes change nothing") {
    random_lobe::Source random(11);
    KnownShapes known;
    for (int i = 0; i < trials(150); ++i) {
        INFO("lobe " << i);
        Job job = basalt::job(random_lobe::draw_profile(random, i),
                              random_lobe::draw_follower(random, i % random_lobe::follower_kinds),
                              random.chance(0.5) ? Sense::ccw : Sense::cw);
        check_same(job, known);
        job.lobes.front().at = ShaftAngle::from_degrees(random.between(0.0, 360.0));
        check_same(job, known);
    }
}

TEST_CASE("a shape that is known outlives the job that it was solved of") {
    KnownShapes known;
    const SolvedLobe first = solve_lobes(eight_profiles(), known)->at(4);
    const SolvedLobe again = solve_lobes(eight_profiles(), known)->at(4);
    CHECK(known.solved() == 8);
    CHECK(figures_of(again) == figures_of(first));
}

TEST_CASE("what is refused is refused again, at its place in the job as it stands") {
    KnownShapes known;
    Job job = eight_profiles();
    arcs(job, "own 3").flank_radius = 3.0;
    job.places["profile.own 3.flank_radius"] = {"basalt.toml", 40, 9};
    check_same(job, known);
    CHECK(known.solved() == 7);
    job.places["profile.own 3.flank_radius"].line = 41;
    check_same(job, known);
    CHECK_THAT(to_text(solve_lobes(job, known).diagnostics().front()),
               ContainsSubstring("basalt.toml:41:9:"));
    CHECK(known.solved() == 7);
}

TEST_CASE("known shapes take no more room than they were given, and the oldest makes way") {
    const auto of_lift = [](double lift) {
        return basalt::job(basalt::lopsided(12.0, lift), basalt::flat(40.0));
    };
    KnownShapes one;
    check_same(of_lift(2.0), one);
    const std::size_t each = one.parts();
    REQUIRE(each > 0);

    KnownShapes three(3 * each);
    for (const double lift : {2.0, 2.1, 2.2, 2.0, 2.3}) {  // 2.1 makes way for 2.3
        check_same(of_lift(lift), three);
        CHECK(three.parts() <= 3 * each);
    }
    CHECK(three.solved() == 4);
    for (const double lift : {2.3, 2.2, 2.0})
        check_same(of_lift(lift), three);
    CHECK(three.solved() == 4);
    check_same(of_lift(2.1), three);
    CHECK(three.solved() == 5);

    KnownShapes too_small(each - 1);
    check_same(of_lift(2.0), too_small);
    CHECK(too_small.parts() == 0);
}

TEST_CASE("a table counts with its readings") {
    random_lobe::Source random(3);
    const TableProfile table = random_lobe::draw_table(random);
    KnownShapes known;
    check_same(basalt::job(table, basalt::flat(40.0)), known);
    CHECK(known.parts() > table.readings.size());
}
