#include "catch.h"
#include "random_job.h"
#include "refusal_check.h"
#include "sweep.h"
#include "trials.h"
#include "word_limits.h"

#include <algorithm>
#include <map>

using namespace lobewright;

namespace {

constexpr double simulation = 1e-5;  // mm: what the sweep may be off

struct Trial {
    const random_job::Drawn& drawn;
    random_job::Source& random;
    [[nodiscard]] const Job& job() const { return drawn.job; }
    [[nodiscard]] double blank_radius() const { return 0.5 * *drawn.job.shaft.blank_diameter; }
    [[nodiscard]] bool parallel() const { return drawn.job.machine->cutter_axis == CutterAxis::parallel; }
    [[nodiscard]] const Pass& any_pass(const Toolpath& path) const {
        return path
            .passes[static_cast<std::size_t>(random.pick(0, static_cast<int>(path.passes.size()) - 1))];
    }
};

bool finishes(const Pass& pass) {
    return pass.kind == PassKind::finish || pass.kind == PassKind::spring;
}

/// How far a place outside the lobe is from the contour: from the nearest of many points of it.
double distance_from(const SolvedLobe& lobe, Vec2 place) {
    double least = 1e9;
    for (const ContourPiece& piece : lobe.contour.pieces()) {
        constexpr int each = 2000;
        for (int i = 0; i < each; ++i) {
            const Vec2 off = place - piece.at(piece.start + (piece.end - piece.start) * i / each).point;
            least = std::min(least, dot(off, off));
        }
    }
    return std::sqrt(least);
}

/// A finish pass cuts no deeper than the tolerance and a ring no deeper than it is to leave, looked for where
/// it is deepest: in the slab of its cutter's axis.
void check_depth(const Trial& t, const Toolpath& path, const std::vector<sweep::Position>& positions) {
    const sweep::Body body = sweep::cutting_body(t.job());
    const Pass& pass = t.any_pass(path);
    const SolvedLobe& lobe = t.drawn.lobes[pass.lobe];
    const double z = t.parallel() ? lobe.z : pass.axial;
    const sweep::Slab slab(positions, body, z, t.blank_radius(), false, pass.first + 1, pass.last + 1);
    INFO("pass at " << pass.axial << " leaving " << pass.left_on);
    for (int ray = 0; ray < (finishes(pass) ? 24 : 4); ++ray) {
        const double phi = t.random.between(0.0, full_turn);
        INFO("ray " << phi);
        if (finishes(pass)) {
            CHECK(sweep::deviation_on(slab, lobe, phi, pass.left_on) >= -t.job().cut->tolerance - simulation);
            continue;
        }
        const double left = slab.radius_on(phi);
        if (left >= t.blank_radius()) continue;
        CHECK(distance_from(lobe, left * unit(phi - lobe.at.radians())) >= pass.left_on - simulation);
    }
}

/// The finish passes whose cutter stands nearest to z; alone they leave no less than all passes together.
std::vector<const Pass*> nearest(const Trial& t, const Toolpath& path, std::size_t lobe, double z) {
    std::vector<const Pass*> found;
    for (const Pass& pass : path.passes) {
        if (pass.lobe == lobe && pass.kind == PassKind::finish) found.push_back(&pass);
    }
    std::sort(found.begin(), found.end(),
              [&](const Pass* a, const Pass* b) { return std::abs(a->axial - z) < std::abs(b->axial - z); });
    if (!t.parallel() && found.size() > 2) found.resize(2);
    return found;
}

/// The whole width is cut to within the tolerance: at a face, and somewhere between.
void check_cover(const Trial& t, const Toolpath& path, const std::vector<sweep::Position>& positions) {
    const sweep::Body body = sweep::cutting_body(t.job());
    for (std::size_t index = 0; index < t.drawn.lobes.size(); ++index) {
        const SolvedLobe& lobe = t.drawn.lobes[index];
        for (const double share :
             {t.random.chance(0.5) ? -0.4999 : 0.4999, t.random.between(-0.4999, 0.4999)}) {
            const double z = lobe.z + share * lobe.width;
            std::vector<sweep::Slab> slabs;
            for (const Pass* pass : nearest(t, path, index, z)) {
                slabs.emplace_back(positions, body, z, t.blank_radius(), false, pass->first + 1,
                                   pass->last + 1);
            }
            for (int ray = 0; ray < 16; ++ray) {
                const double phi = t.random.between(0.0, full_turn);
                double left = 1e9;
                for (const sweep::Slab& slab : slabs) {
                    left = std::min(left, sweep::deviation_on(slab, lobe, phi, t.job().cut->allowance));
                }
                INFO("lobe " << index << " at " << share << " of its width, ray " << phi);
                CHECK(left <= t.job().cut->tolerance + simulation);
            }
        }
    }
}

/// Rapids lie outside the blank by the clearance, or go straight out.
void check_rapids(const Trial& t, const std::vector<sweep::Position>& positions) {
    const double tip = sweep::cutting_body(t.job()).tip_from_word;
    const double clear = t.blank_radius() + t.job().cut->clearance - 1e-9;
    bool stay_clear = true;
    for (std::size_t i = 1; i < positions.size(); ++i) {
        const sweep::Position &a = positions[i - 1], &b = positions[i];
        if (!b.rapid) continue;
        const bool straight = a.axial == b.axial && a.rotary == b.rotary && b.radial > a.radial;
        stay_clear = stay_clear && b.radial + tip >= clear && (straight || a.radial + tip >= clear);
    }
    CHECK(stay_clear);
}

void check_accepted(const Trial& t, const Toolpath& path) {
    const auto positions = sweep::positions_of(path);
    check_depth(t, path, positions);
    check_cover(t, path, positions);
    check_rapids(t, positions);
    word_limits::check(path, t.job().machine->limits);
    const Pass& pass = t.any_pass(path);
    CHECK_FALSE(refusal_check::touches_neighbours(t.drawn, pass, positions, t.random));
}

}  // namespace

TEST_CASE(
    "every random job that is planned is cut within its tolerance and limits, and every refusal has its "
    "reason") {
    constexpr unsigned seed = 4711;
    random_job::Source random(seed), rays(seed + 1);
    std::map<std::string, int> refused;
    int accepted = 0;
    const int jobs = campaign("LOBEWRIGHT_RANDOM_JOBS", trials(2000));
    for (int i = 0; i < jobs; ++i) {
        const random_job::Drawn drawn = random_job::draw(random);
        INFO("job " << i << " of seed " << seed);
        const auto path = plan_toolpath(drawn.job, drawn.lobes, drawn.grid);
        if (path.ok()) {
            ++accepted;
            check_accepted({drawn, rays}, *path);
            continue;
        }
        REQUIRE_FALSE(path.diagnostics().empty());
        const Diagnostic& first = path.diagnostics().front();
        ++refused[first.code];
        INFO(to_text(first));
        CHECK_FALSE(first.remedy.empty());
        CHECK(refusal_check::has_its_reason(drawn, first, rays));
    }
    std::string tally = "seed " + std::to_string(seed) + ": " + std::to_string(accepted) + " planned";
    for (const auto& [code, count] : refused)
        tally += ", " + std::to_string(count) + " " + code;
    WARN(tally);
    CHECK(accepted > jobs / 3);
    if (jobs >= 500) {
        for (const char* code :
             {"cutter-too-large", "cutter-too-narrow", "flutes-too-short", "neighbour-in-the-way"}) {
            CHECK(refused[code] > 0);
        }
    }
}
