#include "fullest_job.h"
#include "profile/fullest/fullest_lift.h"
#include "profile/shape/fullest_event.h"

#include <lobewright/soundness.h>
#include <lobewright/timing.h>

using namespace lobewright;
using namespace fullest_job;
using namespace lobewright::profile;

namespace {

FullestTask task_of(const Job& job) {
    const ShapeRequest request{job, job.lobes.front(), job.followers.at("follower")};
    return fullest_task(request, fullest(job), fullest(job).limits);
}

double excess_of(const Linear& limit, const Lift& at) {
    const double sum =
        limit.lift * at.lift + limit.velocity * at.velocity + limit.acceleration * at.acceleration;
    return sum - limit.most;
}

/// The greatest excess of a limit over the spline, as a part of `size`: in a cell the lift is a cubic, the
/// sum's slope a parabola, whose roots are the only places inside that can be greatest.
double greatest_excess_of(const Linear& limit, const LiftSpline& spline, double size) {
    double greatest = -1e9;
    for (std::size_t cell = 0; cell < spline.cells(); ++cell) {
        const double start = spline.knots()[cell], width = spline.knots()[cell + 1] - start;
        const Lift l = spline.at(cell, start);
        const double a = 0.5 * limit.lift * l.jerk, b = limit.lift * l.acceleration + limit.velocity * l.jerk;
        const double c =
            limit.lift * l.velocity + limit.velocity * l.acceleration + limit.acceleration * l.jerk;
        std::vector<double> places{0.0, width};
        const double root = b * b - 4.0 * a * c;
        if (a != 0.0 && root >= 0.0)
            for (const double sign : {1.0, -1.0})
                places.push_back((-b + sign * std::sqrt(root)) / (2.0 * a));
        if (a == 0.0 && b != 0.0) places.push_back(-c / b);
        for (const double x : places) {
            if (x < 0.0 || x > width) continue;
            const Lift there{l.lift + x * (l.velocity + x * (l.acceleration / 2.0 + x * l.jerk / 6.0)),
                             l.velocity + x * (l.acceleration + x * l.jerk / 2.0),
                             l.acceleration + x * l.jerk, l.jerk};
            greatest = std::max(greatest, excess_of(limit, there) / size);
        }
    }
    return greatest;
}

/// What 1e-9 of a limit counts by.
double size_of(const Job& job, const Linear& limit) {
    const FullestProfile& p = fullest(job);
    if (limit.lift == 0.0) return limit.most;
    if (limit.velocity == 0.0 && limit.lift == -1.0) return *p.limits.smallest_radius;
    return job.contact->spring_preload + job.contact->spring_rate * p.lift.value_or(1.0);
}

void check_kept(const Job& job, const LiftSpline& spline, bool is_to_rise) {
    constexpr double kept = 1e-9;
    for (const Linear& limit : linear_limits(job))
        CHECK(greatest_excess_of(limit, spline, size_of(job, limit)) <= kept);
    const double peak = fullest(job).opening_angle.radians(), highest = spline.at(peak).lift;
    if (fullest(job).lift) CHECK_NEAR(highest, *fullest(job).lift, 1e-10);
    double steepest = 0.0;
    bool rises = true;
    for (std::size_t cell = 0; cell < spline.cells(); ++cell) {
        const double start = spline.knots()[cell], end = spline.knots()[cell + 1];
        const Lift there = spline.at(cell, start);
        steepest = std::max(steepest, std::abs(there.jerk));
        for (int i = 0; i <= 8; ++i) {
            const Lift inside = spline.at(cell, start + (end - start) * i / 8.0);
            rises = rises && (!is_to_rise || (start < peak ? inside.velocity : -inside.velocity) >= -1e-10);
            rises = rises && inside.lift <= highest + 1e-10;
        }
    }
    CHECK(rises);
    CHECK(steepest <= fullest(job).limits.jerk * (1.0 + kept));
}

/// All limits but the radius and the speed laxer by a factor, these two that much lower.
Job laxer(Job job, double factor) {
    FullestLimits& limits = fullest(job).limits;
    limits.deceleration *= factor, limits.jerk *= factor;
    for (auto* limit : {&limits.velocity, &limits.acceleration})
        if (*limit) **limit *= factor;
    for (auto* limit : {&limits.smallest_radius, &limits.float_speed})
        if (*limit) **limit /= factor;
    return job;
}

}  // namespace

TEST_CASE(
    "a fullest lift has the largest area that an independent programme finds, and keeps every limit between "
    "its knots") {
    const unsigned seed = 20261126;
    INFO("seed " << seed);
    random_lobe::Source random(seed);
    constexpr int jobs = 300, cells = 40;
    constexpr double share = 0.998;
    int found = 0, compared = 0;
    for (int i = 0; i < jobs; ++i) {
        CAPTURE(i);
        const Job job = draw(random, basalt::endless_flat());
        FullestTask task = task_of(job);
        const auto lift = fullest_lift(task);
        if (!lift) {
            // The programme finds none either, as soon as its limits are a little closer.
            CHECK_FALSE(largest_area::answer(question_of(laxer(job, 0.985), cells), cells));
            continue;
        }
        ++found;
        check_kept(job, lift->spline, task.rises);
        if (i % 3 != 0) continue;  // the tests' own simplex takes its time
        const auto best = largest_area::answer(question_of(job, cells), cells);
        if (!best) continue;  // its even cells are too long for this one
        ++compared;
        CHECK(lift->spline.area() >= share * best->best);
        CHECK(lift->spline.area() <= best->outer * (1.0 + 1e-6));
    }
    CHECK(found > jobs / 2);
    CHECK(compared > jobs / 8);
}

TEST_CASE("a fullest lift has at least the area of every law whose own peaks are its limits") {
    for (int kind = 0; kind <= static_cast<int>(LawKind::parabolic); ++kind) {
        CAPTURE(kind);
        const auto law = static_cast<LawKind>(kind);
        const MotionProfile motion = basalt::law(law, 40.0, 6.0, 72.0, 72.0, {2, 10, 18, 26});
        const Job job = basalt::job(motion, basalt::endless_flat());
        const LobeReport of_law = judge(job, {basalt::solved(job)}).lobes.front();
        FullestProfile p;
        p.base_radius = 40.0, p.lift = 6.0;
        p.opening_angle = p.closing_angle = basalt::cam_degrees(72.0);
        p.limits.velocity = of_law.max_velocity.value;
        p.limits.acceleration = of_law.max_acceleration.value;
        p.limits.deceleration = -of_law.min_acceleration.value;
        p.limits.jerk = of_law.max_jerk.value;
        // Where the law's acceleration steps, its jerk is infinite, which no lift of finite jerk can follow:
        // a step within a third of a degree stands for it, and the acceleration gives way by what that loses.
        const bool steps = law == LawKind::simple_harmonic || law == LawKind::parabolic;
        if (steps) {
            p.limits.jerk = 3.0 * degrees * (of_law.max_acceleration.value - of_law.min_acceleration.value);
            *p.limits.acceleration *= 1.02, p.limits.deceleration *= 1.02, *p.limits.velocity *= 1.02;
        }
        const Job full = basalt::job(p, basalt::endless_flat());
        const LobeReport report = judge(full, {basalt::solved(full)}).lobes.front();
        CHECK(report.area >= of_law.area);
        CHECK(report.max_velocity.value <= *p.limits.velocity * (1.0 + 1e-9));
        CHECK(report.max_acceleration.value <= *p.limits.acceleration * (1.0 + 1e-9));
        CHECK(-report.min_acceleration.value <= p.limits.deceleration * (1.0 + 1e-9));
        CHECK(report.max_jerk.value <= p.limits.jerk * (1.0 + 1e-9));
    }
}

namespace {

/// The example of the page on the job file.
Job page_job() {
    FullestProfile p;
    p.base_radius = 15.0, p.lift = 6.5;
    p.opening_angle = basalt::cam_degrees(70.0), p.closing_angle = basalt::cam_degrees(72.0);
    p.follower = "follower";
    p.limits.velocity = 0.25 * degrees;
    p.limits.acceleration = 0.012 * degrees * degrees;
    p.limits.deceleration = 0.0045 * degrees * degrees;
    p.limits.jerk = 0.002 * degrees * degrees * degrees;
    p.limits.smallest_radius = 3.0;
    return basalt::job(p, basalt::endless_flat());
}

/// The figures that a remedy gives.
std::vector<double> figures(const std::string& remedy) {
    std::vector<double> found;
    for (auto at = remedy.find("= "); at != std::string::npos; at = remedy.find("= ", at + 1))
        found.push_back(std::stod(remedy.substr(at + 2)));
    return found;
}

Diagnostic refused(const Job& job) {
    const auto lobes = solve_lobes(job);
    REQUIRE_FALSE(lobes.ok());
    return lobes.diagnostics().front();
}

}  // namespace

TEST_CASE(
    "a fullest lobe is a motion like any other: continuous, mirrored by the shaft's sense, its ramps in "
    "place") {
    Job job = page_job();
    fullest(job).opening_ramp = basalt::ramp(0.12, 18.0),
    fullest(job).closing_ramp = basalt::ramp(0.15, 24.0);
    const SolvedLobe lobe = basalt::solved(job);
    CHECK_NEAR(lobe.action_angle.degrees(), 70.0 + 72.0 + 18.0 + 24.0, 1e-9);
    CHECK_NEAR(lobe.lift, 6.5, 1e-9);
    CHECK_NEAR(lobe.motion.at(CamAngle{}).lift, 6.5, 1e-9);
    CHECK_NEAR(lobe.motion.at(basalt::cam_degrees(-70.0)).lift, 0.12, 1e-10);
    CHECK_NEAR(lobe.motion.at(basalt::cam_degrees(72.0)).lift, 0.15, 1e-10);
    const auto& pieces = lobe.motion.pieces();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const MotionPiece& before = pieces[(i + pieces.size() - 1) % pieces.size()];
        const Lift a = before.at(before.end), b = pieces[i].at(pieces[i].start);
        CAPTURE(i);
        CHECK_NEAR(a.lift, b.lift, 1e-11);
        CHECK_NEAR(a.velocity, b.velocity, 1e-9);
        CHECK_NEAR(a.acceleration, b.acceleration, 1e-7);
    }
    job.shaft.turns = Sense::cw;
    CHECK(basalt::solved(job).motion.at(basalt::cam_degrees(-30.0)).lift ==
          lobe.motion.at(basalt::cam_degrees(-30.0)).lift);
}

TEST_CASE("without a lift the largest area decides it, and no lift given has more") {
    Job job = page_job();
    fullest(job).lift.reset();
    const SolvedLobe lobe = basalt::solved(job);
    const double area = judge(job, {lobe}).lobes.front().area;
    for (const double factor : {0.97, 0.99, 1.01}) {
        Job given = job;
        fullest(given).lift = factor * lobe.lift;
        const auto lobes = solve_lobes(given);
        if (lobes) CHECK(judge(given, *lobes).lobes.front().area <= area * (1.0 + 1e-5));
    }
}

TEST_CASE(
    "a limit that stands in the way is named with the value that does, and with the lift that comes out") {
    Job job = page_job();
    fullest(job).lift = 8.0;
    const Diagnostic d = refused(job);
    INFO(to_text(d));
    CHECK(d.code == "limits");
    CHECK_THAT(d.what, ContainsSubstring("no lift of 8 mm keeps all limits of [profile.profile.limits]"));
    CHECK_THAT(d.what, ContainsSubstring("deceleration stands in the way"));
    const auto told = figures(d.remedy);
    REQUIRE(told.size() == 2);
    Job relaxed = job;
    fullest(relaxed).limits.deceleration = told[0] * degrees * degrees;
    CHECK(solve_lobes(relaxed).ok());
    fullest(relaxed).limits.deceleration *= 0.995;
    CHECK_FALSE(solve_lobes(relaxed).ok());
    Job lower = job;
    fullest(lower).lift = told[1];
    CHECK(solve_lobes(lower).ok());
    fullest(lower).lift = told[1] * 1.005;
    CHECK_FALSE(solve_lobes(lower).ok());
}

TEST_CASE("a fullest lift tells what it reaches, and what a hundredth more of each would gain") {
    Job job = page_job();
    const SolvedLobe lobe = basalt::solved(job);
    const double area = judge(job, {lobe}).lobes.front().area;
    std::vector<FullestLimit> names;
    for (const ReachedLimit& reached : lobe.limited_by) {
        CAPTURE(static_cast<int>(reached.limit));
        names.push_back(reached.limit);
        Job more = job;
        FullestLimits& limits = fullest(more).limits;
        if (reached.limit == FullestLimit::acceleration) *limits.acceleration *= 1.01;
        if (reached.limit == FullestLimit::deceleration) limits.deceleration *= 1.01;
        if (reached.limit == FullestLimit::jerk) limits.jerk *= 1.01;
        if (reached.limit == FullestLimit::smallest_radius) *limits.smallest_radius *= 0.99;
        const double gain = judge(more, {basalt::solved(more)}).lobes.front().area / area - 1.0;
        CHECK(gain >= 0.0);
        CHECK_NEAR(reached.gain, gain, 0.1 * gain + 2e-5);
    }
    const std::vector<FullestLimit> expected{FullestLimit::acceleration, FullestLimit::deceleration,
                                             FullestLimit::jerk, FullestLimit::smallest_radius};
    CHECK(names == expected);
}

TEST_CASE("the report names the limits that are reached, the dearest first in words") {
    const Job job = page_job();
    const JobReport report = judge(job, {basalt::solved(job)});
    const std::string json = report_json(job, report);
    CHECK_THAT(json, ContainsSubstring(
                         R"("limited_by": ["acceleration", "deceleration", "jerk", "smallest_radius"])"));
    CHECK_THAT(json, ContainsSubstring("\"area_gains\": [0."));
    const std::string text = report_text(job, report);
    const auto dearest = text.find("limited by deceleration");
    REQUIRE(dearest != std::string::npos);
    CHECK(dearest < text.find("limited by acceleration"));
    CHECK(text.find("limited by acceleration") < text.find("limited by jerk"));
    CHECK_THAT(text, ContainsSubstring("of area for 1 % less"));
    const Job other =
        basalt::job(basalt::law(LawKind::cycloidal, 15.0, 4.0, 70.0, 70.0), basalt::endless_flat());
    CHECK(report_json(other, judge(other, {basalt::solved(other)})).find("limited_by") == std::string::npos);
}

TEST_CASE("an event longer than the turn, and a ramp as high as the lift, are refused") {
    Job job = page_job();
    job.lobes.front().repeat = 3;
    CHECK(refused(job).code == "event-too-long");
    job = page_job();
    fullest(job).opening_ramp = basalt::ramp(6.5, 30.0);
    CHECK(refused(job).code == "ramp-too-high");
    job = page_job();
    fullest(job).opening_share = 0.5;
    CHECK(refused(job).code == "action-angle-missing");
}

TEST_CASE("a card that no angles of a fullest lift keep is refused with those that they do") {
    Job job = page_job();
    Engine engine;
    engine.firing_angles = {basalt::crank_degrees(0.0)};
    engine.inlet = basalt::timing(-20.0, 0.0, 0.12);
    job.engine = engine;
    fullest(job).opening_share = 0.5;
    job.lobes.front().at.reset(), job.lobes.front().cylinder = 1;
    const Diagnostic d = refused(job);
    INFO(to_text(d));
    CHECK(d.code == "duration");
    const double least = std::stod(d.remedy.substr(d.remedy.find("ask for ") + 8));
    CHECK(least > 200.0);
    job.engine->inlet = basalt::timing(0.0, least - 180.0 + 0.5, 0.12);
    CHECK(solve_lobes(job).ok());
    job.engine->inlet = basalt::timing(0.0, least - 180.0 - 0.5, 0.12);
    CHECK_FALSE(solve_lobes(job).ok());
}

TEST_CASE("angles of a fullest lift are solved from the card") {
    random_lobe::Source random(7);
    for (int i = 0; i < 4; ++i) {
        CAPTURE(i);
        Job job = page_job();
        Engine engine;
        engine.firing_angles = {basalt::crank_degrees(0.0)};
        engine.inlet = basalt::timing(random.between(5.0, 20.0), random.between(40.0, 60.0), 0.12);
        if (i % 2 == 1) engine.inlet->at_lift = 1.0;
        job.engine = engine;
        FullestProfile& p = fullest(job);
        p.opening_angle = p.closing_angle = CamAngle{};
        p.opening_share = 0.48;
        p.limits.deceleration *= 2.0, *p.limits.acceleration *= 2.0, p.limits.jerk *= 3.0;
        p.limits.velocity.reset(), p.limits.smallest_radius.reset();
        p.base_radius = 30.0;
        if (i > 1) p.opening_ramp = p.closing_ramp = basalt::ramp(0.15, 20.0);
        LobeEntry& entry = job.lobes.front();
        entry.at.reset(), entry.cylinder = 1;
        const SolvedLobe lobe = basalt::solved(job);
        const auto events = card_events(job, lobe);
        REQUIRE(events);
        CHECK_NEAR(events->opens.degrees(), engine.inlet->opens.degrees(), 1e-3);
        CHECK_NEAR(events->closes.degrees(), engine.inlet->closes.degrees(), 1e-3);
    }
}
