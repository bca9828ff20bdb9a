#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "base/whole_steps.h"
#include "toolpath/roughing/roughing.h"

#include <lobewright/cutting_data.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

/// Of the whole time: what is worth saying.
constexpr double worth_saying = 0.05;
/// Times rough_depth: no advice goes deeper.
constexpr double deepest_advice = 1.6;
/// mm: chips that rub, whatever is cut. Common practice, no source.
constexpr double rubbing_chip = 0.004;
const char* const practice = "common practice, no source";
/// Minutes: less is no reason for another post.
constexpr double least_saving = 0.1;
/// Of the tolerance: the blending that is tried.
constexpr double blend_share = 0.2;

/// The minutes that another figure would take, or nothing where it can't be.
class Replanned {
  public:
    Replanned(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path)
        : job_(job), lobes_(lobes), path_(path) {}

    template <class Change>
    [[nodiscard]] std::optional<Toolpath> with(Change change) const {
        Job other = job_;
        change(*other.cut);
        return on(path_.grid, other);
    }
    /// By a controller that may cut corners by `blend` mm.
    [[nodiscard]] std::optional<Toolpath> blended(double blend) const {
        WordGrid grid = path_.grid;
        grid.blend_tolerance = blend;
        return on(grid, job_);
    }
    [[nodiscard]] double saved_by(const Toolpath& other) const {
        return (path_.cycle_seconds - other.cycle_seconds) / 60.0;
    }
    [[nodiscard]] bool worth(const Toolpath& other) const {
        return path_.cycle_seconds - other.cycle_seconds >= worth_saying * path_.cycle_seconds;
    }

    [[nodiscard]] const Job& job() const { return job_; }
    [[nodiscard]] const Cut& cut() const { return *job_.cut; }
    [[nodiscard]] const Cutter& cutter() const { return job_.cutters.find(job_.cut->cutter)->second; }
    [[nodiscard]] const Toolpath& path() const { return path_; }

  private:
    [[nodiscard]] std::optional<Toolpath> on(const WordGrid& grid, const Job& job) const {
        Outcome<Toolpath> path = plan_toolpath(job, lobes_, grid);
        return path.ok() ? std::optional(std::move(path).value()) : std::nullopt;
    }
    const Job& job_;
    const std::vector<SolvedLobe>& lobes_;
    const Toolpath& path_;
};

std::string minutes_words(double minutes) {
    const std::string size =
        minutes < 10.0 && minutes > -10.0 ? fixed(std::abs(minutes), 1) : fixed(std::abs(minutes), 0);
    return size + " min";
}

std::string comes_of(double saved) {
    constexpr double nothing = 0.05;
    if (std::abs(saved) < nothing) return "takes no longer";
    return saved > 0.0 ? "saves " + minutes_words(saved) : "takes " + minutes_words(saved) + " longer";
}

/// A figure with three digits, in the file's units: the next above, or below.
double three_digits(double mm, Units units, bool above) {
    const double value = mm / mm_per(units);
    double step = 1.0;
    while (value / step >= 1000.0)
        step *= 10.0;
    while (value / step < 100.0)
        step /= 10.0;
    const double steps = value / step;
    return static_cast<double>(above ? step_above(steps) : step_below(steps)) * step;
}

std::string figure(double value) {
    return shortest_fixed(value, 6);
}

int roughing_passes(const Toolpath& path) {
    return static_cast<int>(std::count_if(path.passes.begin(), path.passes.end(),
                                          [](const Pass& pass) { return pass.kind == PassKind::roughing; }));
}

/// mm: the depth with which no lobe needs its last ring but one any more, without or with a semi-finish pass;
/// nothing where there is one ring alone.
std::optional<double> depth_of_fewer_rings(const Job& job, const Toolpath& path, bool semi_finish) {
    int most = 0;
    for (const Pass& pass : path.passes)
        most = std::max(most, pass.kind == PassKind::roughing ? pass.ring : 0);
    if (most < 2) return std::nullopt;
    std::optional<double> depth;
    for (const Pass& pass : path.passes) {
        if (pass.kind != PassKind::roughing || pass.ring != 1) continue;
        const double total = pass.left_on - job.cut->allowance + pass.depth;
        const auto fewer = toolpath::roughing_in(most - 1, semi_finish, total, job.cut->tolerance);
        if (fewer) depth = std::max(depth.value_or(0.0), fewer->depth);
    }
    return depth;
}

/// The deeper roughing that saves the most.
void advise_depth(const Replanned& plan, std::vector<Advice>& advice) {
    if (is_wheel(plan.cutter()) || !plan.cut().rough_depth) return;
    std::optional<Advice> best;
    for (const bool semi_finish : {false, true}) {
        const auto depth = depth_of_fewer_rings(plan.job(), plan.path(), semi_finish);
        if (!depth || *depth > deepest_advice * *plan.cut().rough_depth) continue;
        const double value = three_digits(*depth, plan.job().units, true);
        const auto other = plan.with([&](Cut& cut) { cut.rough_depth = value * mm_per(plan.job().units); });
        if (!other || !plan.worth(*other)) continue;
        const double saved = plan.saved_by(*other);
        if (best && best->saves >= saved) continue;
        best = Advice{"cut.rough_depth", value, saved,
                      "rough_depth " + figure(value) + ' ' + comes_of(saved) + ": " +
                          counted(roughing_passes(*other), "roughing pass", "roughing passes") +
                          " in place of " + std::to_string(roughing_passes(plan.path()))};
    }
    if (best) advice.push_back(std::move(*best));
}

void advise_springs(const Replanned& plan, std::vector<Advice>& advice) {
    if (is_wheel(plan.cutter()) || plan.cut().spring_passes == 0) return;
    const auto other = plan.with([](Cut& cut) { cut.spring_passes = 0; });
    if (!other || !plan.worth(*other)) return;
    const double saved = plan.saved_by(*other);
    advice.push_back(
        {"cut.spring_passes", 0.0, saved,
         "spring_passes 0 " + comes_of(saved) + ": they take off only what cutter and shaft sprang back"});
}

/// What is common for the job's teeth in its metal, where it says both.
std::optional<CommonData> common_for(const Replanned& plan) {
    const auto& edge = plan.cutter().material;
    const auto& shaft = plan.job().shaft.material;
    return edge && shaft ? common_data(*edge, *shaft) : std::nullopt;
}

/// rev/min that bring the rim to that speed in m/min, in three digits.
double turns_for(const Replanned& plan, double speed, bool above) {
    return three_digits(1000.0 * speed / (std::numbers::pi * plan.cutter().diameter), Units::mm, above);
}

/// The spindle speed that brings the rim into what is common, and the time with feeds that keep the chips.
void advise_speed(const Replanned& plan, std::vector<Advice>& advice) {
    const auto common = common_for(plan);
    if (!common || is_wheel(plan.cutter())) return;
    const CommonRange& range = common->speed;
    const double now = cutting_speed(plan.cutter(), plan.cut().spindle_speed);
    if (now >= range.least && now <= range.most) return;
    const bool slow = now < range.least;
    const double value = turns_for(plan, slow ? range.least : range.most, slow);
    const double times = value / plan.cut().spindle_speed;
    const auto& fastest = plan.cutter().fastest;
    if (fastest && cutting_speed(plan.cutter(), value) > 60.0 * *fastest) return;
    const auto other = plan.with([&](Cut& cut) {
        cut.spindle_speed = value;
        cut.surface_feed *= times;
        if (cut.rough_surface_feed) *cut.rough_surface_feed *= times;
    });
    std::string text = "the rim runs at " + fixed(now, 1) + " m/min, and " + shortest_fixed(range.least, 1) +
                       " to " + shortest_fixed(range.most, 1) + " is common for " +
                       words_of(*plan.cutter().material) + " in " + words_of(*plan.job().shaft.material) +
                       " (" + (slow ? practice : range.source) + "): spindle_speed " + figure(value) +
                       " brings it there";
    if (other)
        text += "; with the feeds " + shortest_fixed(times, 2) +
                " times what they are the chips stay as thick, and it " + comes_of(plan.saved_by(*other));
    advice.push_back({"cut.spindle_speed", value, 0.0, text, true});
}

/// A controller that may round the corners need not come to rest at each of them.
void advise_blending(const Replanned& plan, std::vector<Advice>& advice) {
    if (plan.path().grid.blend_tolerance > 0.0) return;
    const double value = three_digits(blend_share * plan.cut().tolerance, plan.job().units, false);
    const auto other = plan.blended(value * mm_per(plan.job().units));
    if (!other || !plan.worth(*other)) return;
    const double saved = plan.saved_by(*other);
    if (saved < least_saving) return;
    advice.push_back(
        {"cut.blend", value, saved,
         "blend " + figure(value) + ' ' + comes_of(saved) +
             ", with a post that has a word for it: the controller then need not stop at the end "
             "of every block"});
}

/// The bounds of a chip, and whose they are.
struct ChipBounds {
    double least = rubbing_chip;
    std::optional<double> most;
    std::string least_of = practice, most_of;
};

ChipBounds chip_bounds(const Replanned& plan) {
    ChipBounds bounds;
    if (const auto common = common_for(plan)) {
        bounds.least = common->chip.least;
        bounds.most = common->chip.most, bounds.most_of = common->chip.source;
    }
    const Cutter& cutter = plan.cutter();
    if (cutter.smallest_chip) bounds.least = *cutter.smallest_chip, bounds.least_of = "smallest_chip";
    if (cutter.largest_chip) bounds.most = *cutter.largest_chip, bounds.most_of = "largest_chip";
    if (bounds.most && *bounds.most <= bounds.least) bounds.least = std::min(rubbing_chip, *bounds.most);
    return bounds;
}

/// Roughing has its own feed where that is given, or where one must be.
struct FeedOfKind {
    bool rough = false;
    [[nodiscard]] const char* key() const { return rough ? "rough_surface_feed" : "surface_feed"; }
    [[nodiscard]] double now(const Cut& cut) const {
        return rough ? cut.rough_surface_feed.value_or(cut.surface_feed) : cut.surface_feed;
    }
    void set(Cut& cut, double feed) const {
        if (!rough && !cut.rough_surface_feed) cut.rough_surface_feed = cut.surface_feed;
        (rough ? *(cut.rough_surface_feed ? &*cut.rough_surface_feed : &cut.rough_surface_feed.emplace())
               : cut.surface_feed) = feed;
    }
};

std::string chip_words(const Replanned& plan, double chip) {
    return short_length(chip, plan.job().units, {4, 5}) + ' ' + unit_word(plan.job().units);
}

/// A feed that brings the thickest chip of roughing, or of what follows it, to its bound.
void advise_feed(const Replanned& plan, const FeedOfKind& feed, std::vector<Advice>& advice) {
    double chip = 0.0;
    for (const Pass& pass : plan.path().passes) {
        if ((pass.kind == PassKind::roughing) == feed.rough) chip = std::max(chip, pass.thickest_chip);
    }
    const ChipBounds bounds = chip_bounds(plan);
    const bool thin = chip < bounds.least, thick = bounds.most && chip > *bounds.most;
    if (chip == 0.0 || (!thin && !thick)) return;
    const double bound = thin ? bounds.least : *bounds.most;
    const double value = three_digits(feed.now(plan.cut()) * bound / chip, plan.job().units, thin);
    const auto other = plan.with([&](Cut& cut) { feed.set(cut, value * mm_per(plan.job().units)); });
    std::string text = chip_words(plan, chip) +
                       (feed.rough ? " chips of roughing" : " chips of the finish pass") +
                       (thin ? " rub, under " : " are thicker than ") + chip_words(plan, bound) + " (" +
                       (thin ? bounds.least_of : bounds.most_of) + "): " + feed.key() + ' ' + figure(value) +
                       (thin ? " makes them thick enough" : " keeps to it");
    const double saved = other ? plan.saved_by(*other) : 0.0;
    if (other) text += ", and " + comes_of(saved);
    advice.push_back({std::string("cut.") + feed.key(), value, saved, text, true});
}

}  // namespace

std::vector<Advice> cutting_advice(const Job& job, const std::vector<SolvedLobe>& lobes,
                                   const Toolpath& path) {
    const Replanned plan(job, lobes, path);
    std::vector<Advice> advice;
    advise_speed(plan, advice);
    advise_feed(plan, {true}, advice);
    advise_feed(plan, {false}, advice);
    advise_depth(plan, advice);
    advise_springs(plan, advice);
    advise_blending(plan, advice);
    return advice;
}

}  // namespace lobewright
