#include "job_kit.h"
#include "workshop.h"

#include <lobewright/corrected_work.h>
#include <lobewright/program_writer.h>

#include <algorithm>
#include <cmath>

using namespace lobewright;
using workshop::CuttingFault;

namespace {

const Dialect& dialect() {
    static const Dialect shipped = shipped_dialect("rs274ngc-xza");
    return shipped;
}

/// Two lobes of the Basalt four, on a bar that was turned close to them.
struct Shop {
    Job job = basalt::four();
    std::vector<SolvedLobe> lobes;
    Toolpath path;

    explicit Shop(const std::function<void(Job&)>& change = [](Job&) {}) {
        job.lobes.resize(2);
        change(job);
        lobes = taken(solve_lobes(job));
        path = taken(plan_toolpath(job, lobes, word_grid(dialect(), job.units, 0.0)));
    }
    [[nodiscard]] Outcome<CorrectedWork> work(const std::vector<MeasuredLobe>& measured, double most,
                                              double comes_again = 1.0) const {
        CorrectionRequest request;
        request.most = most, request.comes_again = comes_again;
        return corrected_work(job, lobes, measured, request, dialect(), "readings.csv");
    }
};

bool has(const Diagnostics& messages, const std::string& code, Severity severity) {
    return std::any_of(messages.begin(), messages.end(), [&](const Diagnostic& message) {
        return message.code == code && message.severity == severity;
    });
}

constexpr double noise = 0.0005;  // mm: a good indicator

/// Cut, read, corrected, and cut again under the same fault.
struct Round {
    workshop::Part first, second;
    CorrectedWork work;
    ProvenProgram program;
};
Round twice(const Shop& shop, const CuttingFault& fault, double most, double comes_again, unsigned seed) {
    const SolvedLobe& lobe = shop.lobes[0];
    Round round;
    round.first = workshop::cut(shop.job, lobe, shop.path, fault);
    const double turned = -fault.slack_degrees * sweep::cutting_body(shop.job).facing_per_degree;
    const MeasuredLobe measured = workshop::read(round.first, lobe, 0, noise, seed, turned);
    round.work = taken(shop.work({measured}, most, comes_again));
    round.program = taken(proven_correction(round.work, dialect()));
    round.second = workshop::cut(shop.job, lobe, round.program.path, fault, &round.first);
    return round;
}

}  // namespace

TEST_CASE("a second cut under the same fault brings the part within tolerance, whatever the fault was") {
    const Shop shop;
    const double per_degree = sweep::cutting_body(shop.job).facing_per_degree;
    CuttingFault small, pushed, slack, spring;
    small.cutter_smaller = 0.012;
    // The force on the flanks, twice a turn, and where the nose is.
    pushed.pushed = [&](double facing) { return 0.006 + 0.004 * std::cos(2.0 * facing); };
    slack.cutter_smaller = 0.008, slack.slack_degrees = 0.08;
    spring.spring = 0.005;
    const struct {
        const char* name;
        const CuttingFault& fault;
        double comes_again;
    } cases[] = {{"a cutter too small", small, 1.0},
                 {"a cutter pushed away by the angle", pushed, 1.0},
                 {"slack, and a cutter too small", slack, 1.0},
                 {"the spring of a deep cut", spring, 0.0}};
    unsigned seed = 71;
    for (const auto& each : cases) {
        ++seed;
        INFO(each.name << ", seed " << seed);
        const Round round = twice(shop, each.fault, 0.03, each.comes_again, seed);
        const double turned = -each.fault.slack_degrees * per_degree;
        const SolvedLobe& lobe = shop.lobes[0];
        const workshop::Worst before = workshop::compared_at_best(round.first, lobe, turned);
        const workshop::Worst after = workshop::compared_at_best(round.second, lobe, turned);
        INFO("from " << before.deepest << " to " << before.proudest << ", then from " << after.deepest
                     << " to " << after.proudest);
        CHECK(before.proudest > 2.0 * shop.job.cut->tolerance);
        CHECK(after.proudest <= shop.job.cut->tolerance);
        CHECK(after.deepest >= -shop.job.cut->tolerance);
        // What was foretold holds, but for the program's own half of the tolerance.
        const LobeCorrection& said = round.work.corrections.front();
        const double own = 0.5 * shop.job.cut->tolerance + 0.0005;
        CHECK(after.proudest <=
              said.left_proudest.along_normal.value + 3.0 * said.left_proudest.along_normal.error + own);
        CHECK(after.deepest >=
              said.left_deepest.along_normal.value - 3.0 * said.left_deepest.along_normal.error - own);
        CHECK(round.program.proof.within_tolerance);
    }
}

TEST_CASE("a second cut with a radial end mill, or across the shaft, does as well") {
    for (const CutterAxis axis : {CutterAxis::radial, CutterAxis::tangential}) {
        const Shop shop([&](Job& job) {
            job.cutters["em12"].diameter = 12.0;
            job.cutters["em12"].flute_length = 30.0;
            job.cut->cutter = "em12";
            job.machine->cutter_axis = axis;
        });
        CuttingFault pushed;
        pushed.pushed = [](double facing) { return 0.009 + 0.003 * std::cos(facing); };
        const Round round = twice(shop, pushed, 0.03, 1.0, 5);
        const workshop::Worst after = workshop::compared_at_best(round.second, shop.lobes[0]);
        INFO(static_cast<int>(axis) << ": from " << after.deepest << " to " << after.proudest);
        // Beside the cutter's axis, where this plane is not, it leaves more: the plane's own share is all.
        CHECK(after.proudest <= shop.job.cut->tolerance);
        CHECK(after.deepest >= -shop.job.cut->tolerance);
    }
}

TEST_CASE("the cutter is never led further below the design than asked, and what stays on is told") {
    const Shop shop;
    CuttingFault small;
    small.cutter_smaller = 0.02;
    const Round round = twice(shop, small, 0.012, 1.0, 9);
    const LobeCorrection& said = round.work.corrections.front();
    CHECK(said.held_by_most);
    CHECK(said.lowered <= 0.012);
    CHECK_THAT(said.lowered, Near(0.012, 1e-4));
    const SolvedLobe &aim = round.work.lobes.front(), &design = shop.lobes[0];
    for (int i = 0; i < 3600; ++i) {
        const ShaftAngle beta = ShaftAngle::from_degrees(0.1 * i);
        const ContourPoint at = design.contour.on_ray(beta).at;
        const double lean = dot(at.normal, at.point) / length(at.point);
        const double depth = (length(at.point) - aim.contour.polar_radius(beta)) * lean;
        REQUIRE(depth <= 0.012 + 1e-12);
        REQUIRE(depth >= -1e-12);
    }
    CHECK_THAT(said.left_proudest.along_normal.value, Near(0.008, 0.003));
    const workshop::Worst after = workshop::compared(round.second, design);
    CHECK_THAT(after.proudest, Near(0.008, 0.003));
    const auto sentences = correction_sentences(shop.job, said);
    CHECK(std::any_of(sentences.begin(), sentences.end(), [](const std::string& each) {
        return each.find("--most keeps some of it on") != std::string::npos;
    }));
}

TEST_CASE("places that are too deep are told, and not chased") {
    const Shop shop;
    CuttingFault uneven;  // proud all round, but too deep at the nose
    const double nose = shop.lobes[0].at.radians();
    uneven.pushed = [&](double facing) {
        const double off = std::remainder(facing - nose, full_turn) / 0.5;
        return 0.010 - 0.025 * std::exp(-off * off);
    };
    const Round round = twice(shop, uneven, 0.05, 1.0, 13);
    const LobeCorrection& said = round.work.corrections.front();
    CHECK(said.gouged(shop.job.cut->tolerance));
    CHECK(has(correction_warnings(shop.job, said), "gouged", Severity::warning));
    const SolvedLobe &aim = round.work.lobes.front(), &design = shop.lobes[0];
    for (int i = -5; i <= 5; ++i) {
        const ShaftAngle beta = ShaftAngle::from_degrees(i);
        // Where the cutter stood too deep by far the aim is the design.
        CHECK(design.contour.polar_radius(beta) - aim.contour.polar_radius(beta) < 1e-4);
    }
    // The second cut takes nothing there but what the two programs' blocks differ by.
    const Estimate& foretold = said.left_proudest.along_normal;
    CHECK(workshop::compared_at_best(round.second, design).proudest <=
          foretold.value + 3.0 * foretold.error + 0.5 * shop.job.cut->tolerance + 0.0005);
    for (int i = 0; i < workshop::rays; ++i) {
        const auto ray = static_cast<std::size_t>(i);
        if (std::abs(std::remainder(workshop::angle_of(i) - nose, full_turn)) < 0.1)
            REQUIRE(round.second[ray] > round.first[ray] - 0.0035);
    }
}

TEST_CASE("what the readings don't see is led along the design, and lobes without readings are not touched") {
    const Shop shop;
    CuttingFault small;
    small.cutter_smaller = 0.012;
    const workshop::Part part = workshop::cut(shop.job, shop.lobes[0], shop.path, small);
    MeasuredLobe measured = workshop::read(part, shop.lobes[0], 0, noise, 3);
    std::erase_if(measured.readings, [](const MeasuredReading& each) {
        return each.cam_angle.degrees() > 140.0 && each.cam_angle.degrees() < 175.0;
    });
    const CorrectedWork work = taken(shop.work({measured}, 0.03));
    REQUIRE(work.lobes.size() == 1);
    CHECK(work.lobes[0].name == shop.lobes[0].name);
    CHECK(work.job.shaft.journals.size() == shop.job.shaft.journals.size() + 1);
    CHECK_THAT(work.corrections[0].unseen.degrees(), Near(30.0, 6.0));
    const double s = sign_of(shop.lobes[0].turns);
    const ShaftAngle gap = ShaftAngle::from_degrees(-s * 157.0);
    CHECK_THAT(work.lobes[0].contour.polar_radius(gap), Near(shop.lobes[0].contour.polar_radius(gap), 1e-12));
    const ShaftAngle seen = ShaftAngle::from_degrees(-s * -157.0);
    CHECK_THAT(work.lobes[0].contour.polar_radius(seen),
               Near(shop.lobes[0].contour.polar_radius(seen) - 0.012, 0.002));
    CHECK(proven_correction(work, dialect()).ok());
}

TEST_CASE("a lobe that stands within tolerance is not touched, and a shaft of such lobes gets no program") {
    const Shop shop;
    const workshop::Part part = workshop::cut(shop.job, shop.lobes[0], shop.path, CuttingFault{});
    const MeasuredLobe good = workshop::read(part, shop.lobes[0], 0, 0.0, 3);
    const auto none = shop.work({good}, 0.03);
    REQUIRE_FALSE(none.ok());
    CHECK(has(none.diagnostics(), "nothing-left", Severity::error));
    CHECK(none.diagnostics().front().fault == Fault::check_failed);
    CuttingFault small;
    small.cutter_smaller = 0.012;
    const workshop::Part proud = workshop::cut(shop.job, shop.lobes[1], shop.path, small);
    const MeasuredLobe bad = workshop::read(proud, shop.lobes[1], 1, noise, 4);
    const CorrectedWork work = taken(shop.work({good, bad}, 0.03));
    REQUIRE(work.lobes.size() == 1);
    CHECK(work.lobes[0].name == shop.lobes[1].name);
    REQUIRE(work.corrections.size() == 2);
    CHECK(correction_sentences(shop.job, work.corrections[0]).front().find("not touched") !=
          std::string::npos);
}

TEST_CASE("readings too far apart to lead a cutter by are refused") {
    const Shop shop;
    MeasuredLobe sparse;
    for (int i = 0; i < 24; ++i) {
        const CamAngle angle = CamAngle::from_degrees(-180.0 + 15.0 * i);
        sparse.readings.push_back(
            {angle, shop.lobes[0].motion.at(angle).lift + 0.02, {"readings.csv", i + 2, 1}});
    }
    const auto refused = shop.work({sparse}, 0.03);
    REQUIRE_FALSE(refused.ok());
    CHECK(has(refused.diagnostics(), "too-sparse", Severity::error));
    CHECK(refused.diagnostics().front().place.line == 2);
}

TEST_CASE("the program says what it corrects, what is assumed and how it is proven, and proves again") {
    const Shop shop;
    CuttingFault small;
    small.cutter_smaller = 0.012;
    const Round round = twice(shop, small, 0.03, 1.0, 21);
    const std::string& text = round.program.text;
    for (const char* part : {"CORRECTION", "readings.csv", "ASSUMED", "PROVEN"}) {
        INFO(part);
        CHECK(text.find(part) != std::string::npos);
    }
    const auto again = prove(round.work.job, round.work.lobes, dialect(), text, "second.ngc");
    REQUIRE(again.ok());
    CHECK(again->within_tolerance);
    // By the design alone it cuts too deep, as it must.
    const auto by_design = prove(shop.job, shop.lobes, dialect(), text, "second.ngc");
    REQUIRE(by_design.ok());
    CHECK_FALSE(by_design->within_tolerance);
}
