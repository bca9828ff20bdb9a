// One round of the wheel for each stop of the cross slide; strokes and what they take.
#include "planned_bench.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <set>

using namespace hand_jobs;

namespace {

/// Lobes of a random shaft for one fixture, of one, two or three base radii.
std::vector<SolvedLobe> random_lobes(std::mt19937& random, double offset) {
    const auto number = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    const std::vector<double> bases = {number(5, 6), number(6.5, 7.5), number(8, 9)};
    const std::size_t kinds = 1 + random() % 3, count = 1 + random() % 8;
    std::vector<SolvedLobe> lobes;
    while (lobes.size() < count) {
        Arcs arcs{bases[random() % kinds], number(1, 2.4), number(100, 140), 0};
        arcs.flank = arcs.base + offset;
        if (!(arcs.nose() > 0.3 && arcs.nose() < arcs.base)) continue;
        lobes.push_back(arcs_lobe(arcs, number(0, 360), std::to_string(lobes.size()), lobes.size()));
    }
    return lobes;
}

double highest(const std::vector<SolvedLobe>& lobes) {
    double height = 0.0;
    for (const SolvedLobe& lobe : lobes)
        height = std::max(height, lobe.base_radius + lobe.arcs->lift);
    return height;
}

}  // namespace

TEST_CASE(
    "on random shafts every stop has one round of flanks and one of heels, each heel from its flank on") {
    const unsigned seed = 12;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    for (int trial = 0; trial < 40; ++trial) {
        const auto lobes = random_lobes(random, 19);
        HandMethod method = fixture(19, static_cast<int>(36 + random() % 150));
        method.counts = trial % 2 ? Sense::ccw : Sense::cw;
        method.travel = trial % 3 ? HandTravel::plunge : HandTravel::along;
        const HandPlan plan = planned_bench(job_of(lobes, method, 2 * highest(lobes) + 0.2), lobes);
        std::set<double> stops, flank_stops;
        std::size_t next = 0, changes = 0;
        double standing = 0.0;
        for (const StopRound& round : plan.fixture->rounds) {
            REQUIRE(round.first == next);
            next += round.count;
            changes += round.stop != standing;
            standing = round.stop;
            stops.insert(round.stop);
            if (round.work == HandWork::flank) REQUIRE(flank_stops.insert(round.stop).second);
            double turned = 0.0;
            for (std::size_t i = round.first; i < next; ++i) {
                REQUIRE(plan.settings[i].work == round.work);
                REQUIRE(*plan.settings[i].finish == round.stop);
                if (i == round.first) continue;
                const double on = *plan.settings[i].mark - *plan.settings[i - 1].mark;
                turned += on < 0.0 ? on + method.divisions : on;
            }
            REQUIRE(turned < (round.work == HandWork::flank ? 1.0 : 2.0) * method.divisions);
        }
        REQUIRE(next == plan.settings.size());
        REQUIRE(changes <= 2 * stops.size());
        REQUIRE(changes <= (2 * lobes.size() + 1) * stops.size());  // flanks + 1 for each base radius

        // Each heel begins beside one of its flanks, and each of its cuts beside the one before.
        std::map<std::size_t, std::vector<double>> heels;
        for (const HandSetting& setting : plan.settings) {
            if (setting.work == HandWork::clear) heels[setting.lobe].push_back(*setting.mark);
            // No cut of a heel meets the whole bar again.
            if (setting.work == HandWork::clear && method.divisions > 60)
                REQUIRE(*setting.touches < *setting.start - 0.5);
        }
        for (const auto& [lobe, marks] : heels)
            for (std::size_t i = 1; i < marks.size(); ++i)
                REQUIRE(std::fmod(marks[i] - marks[i - 1] + method.divisions, method.divisions) == 1.0);
    }
}

TEST_CASE("no other heel to begin a round of heels with turns the wheel through fewer marks") {
    const unsigned seed = 13;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    int waits = 0;  // rounds that would be longer from another heel on
    for (int trial = 0; trial < 40; ++trial) {
        const auto lobes = random_lobes(random, 19);
        const HandMethod method = fixture(19, static_cast<int>(36 + random() % 60));
        const auto past = [&](double mark, double from) {
            return mark >= from ? mark - from : mark - from + method.divisions;
        };
        const HandPlan plan = planned_bench(job_of(lobes, method, 2 * highest(lobes) + 0.2), lobes);
        for (const StopRound& round : plan.fixture->rounds) {
            if (round.work != HandWork::clear) continue;
            double turned = 0.0;
            std::map<std::size_t, std::pair<double, double>> heels;  // first and last mark by lobe
            for (std::size_t i = round.first; i < round.first + round.count; ++i) {
                const HandSetting& setting = plan.settings[i];
                heels.try_emplace(setting.lobe, *setting.mark, *setting.mark).first->second.second =
                    *setting.mark;
                if (i > round.first) turned += past(*setting.mark, *plan.settings[i - 1].mark);
            }
            const auto from = [&](double begin) {
                double most = 0.0;
                for (const auto& [lobe, ends] : heels)
                    most = std::max(most, past(ends.first, begin) + past(ends.second, ends.first));
                return most;
            };
            double least = 1e9, longest = 0.0;
            for (const auto& [lobe, ends] : heels) {
                least = std::min(least, from(ends.first));
                longest = std::max(longest, from(ends.first));
            }
            CHECK(turned == least);
            waits += longest > least;
        }
    }
    CHECK(waits > 10);
}

TEST_CASE("the rounds change nothing of what is cut: mark, lobe and finish are those of the chart") {
    const auto lobes = std::vector<SolvedLobe>{arcs_lobe({6, 2.4, 120, 25}, 40, "1", 0),
                                               arcs_lobe({6.5, 2.4, 120, 25.5}, 135, "2", 1)};
    const HandPlan plan = planned_bench(job_of(lobes, fixture(19, 72), 18), lobes);
    std::set<std::pair<std::size_t, int>> seen;
    for (const HandSetting& setting : plan.settings) {
        CHECK(seen.emplace(setting.lobe, static_cast<int>(*setting.mark)).second);
        CHECK_NEAR(*setting.finish, 19 + lobes[setting.lobe].base_radius, 1e-12);
    }
    // Each lobe has its two flanks and the 47 marks of 240 degrees between them.
    CHECK(seen.size() == 2 * 49);
    CHECK(plan.fixture->rounds.size() == 4);
    CHECK(plan.fixture->rounds[1].stop == plan.fixture->rounds[2].stop);  // stays for its heels
}

TEST_CASE("strokes are passes at every place, or one along, and the sums are those of the settings") {
    const auto lobes = std::vector<SolvedLobe>{arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    for (const HandTravel travel : {HandTravel::plunge, HandTravel::along}) {
        HandMethod method = fixture(19, 72);
        method.tool_width = 2.0;  // four places on 6 mm
        method.travel = travel;
        method.feed = 0.04;
        method.spindle_speed = 100;
        const HandPlan plan = planned_bench(job_of(lobes, method, 17), lobes);
        long long strokes = 0;
        double length = 0.0;
        for (const HandSetting& setting : plan.settings) {
            const double depth = *setting.touches - *setting.finish;
            const bool heel_along = travel == HandTravel::along && setting.work == HandWork::clear;
            const int passes =
                std::max(1, static_cast<int>(std::ceil(depth / (heel_along ? 0.5 : 0.1) - 1e-9)));
            CHECK(setting.passes == passes);
            CHECK(setting.strokes == passes * (travel == HandTravel::along ? 1 : 4));
            strokes += setting.strokes;
            length += travel == HandTravel::along ? passes * 6.0 : depth * 4;
        }
        const HandEffort& effort = travel == HandTravel::along ? plan.fixture->along : plan.fixture->plunging;
        CHECK(effort.travel == travel);
        CHECK(effort.strokes == strokes);
        CHECK_NEAR(effort.length, length + 0.5 * static_cast<double>(strokes), 1e-9);
        // Feed at 0.04 × 100 mm a minute, 10 s a stroke, 20 s for each of the 49 marks.
        CHECK_NEAR(effort.minutes, effort.length / 4.0 + static_cast<double>(strokes) / 6.0 + 49.0 / 3.0,
                   1e-9);
    }
}

TEST_CASE("heel_infeed is what a stroke along takes of a heel at most; plunging does not ask it") {
    const auto lobes = std::vector<SolvedLobe>{arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    HandMethod method = fixture(19, 72);
    const auto heel_passes = [&] {
        return planned_bench(job_of(lobes, method, 17), lobes).settings[5].passes;
    };
    CHECK(heel_passes() == 5);  // 0.435 at 0.1
    method.heel_infeed = 0.3;
    CHECK(heel_passes() == 5);
    method.travel = HandTravel::along;
    CHECK(heel_passes() == 2);
    method.heel_infeed.reset();
    CHECK(heel_passes() == 1);
}

TEST_CASE("both ways are told with strokes, feed and time, and the quicker by name") {
    const auto lobes = std::vector<SolvedLobe>{arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    HandMethod method = fixture(19, 72);
    method.tool_width = 1.0;  // seven places
    HandPlan plan = planned_bench(job_of(lobes, method, 17), lobes);
    REQUIRE(plan.fixture->along.minutes < plan.fixture->plunging.minutes);
    REQUIRE(finding_of(plan, "travel") != nullptr);
    CHECK_THAT(finding_of(plan, "travel")->what,
               ContainsSubstring(std::to_string(plan.fixture->along.strokes) + " strokes") &&
                   ContainsSubstring(std::to_string(plan.fixture->plunging.strokes) + " strokes") &&
                   ContainsSubstring("travel = \"along\" is quicker"));
    method.travel = HandTravel::along;
    plan = planned_bench(job_of(lobes, method, 17), lobes);
    CHECK(finding_of(plan, "travel") == nullptr);
    method.tool_width.reset();  // what plunging takes is not known then
    CHECK(finding_of(planned_bench(job_of(lobes, method, 17), lobes), "travel") == nullptr);
}
