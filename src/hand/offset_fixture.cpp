#include "hand/offset_fixture.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"
#include "hand/along_shaft.h"
#include "hand/finish_findings.h"
#include "hand/finished_contour.h"
#include "hand/fixture_choice.h"
#include "hand/index_wheel.h"
#include "hand/ridges.h"
#include "hand/wording.h"
#include "job/complaint.h"
#include "profile/blank.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

constexpr double hair = 1e-9;  // of a division

/// One nose of a lobe (a ring has several), with its two flanks as set. "Low" and "high" by shaft angle.
struct NoseCuts {
    ShaftAngle nose;
    ShaftAngle low_wanted, high_wanted;  ///< unwrapped round the nose
    ShaftAngle low_set, high_set;
};

/// Everything that the steps below share.
struct Bench {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    const HandMethod& method;
    IndexWheel wheel;
    double offset = 0.0;
    double blank_radius = 0.0;
    std::vector<std::vector<NoseCuts>> noses;  ///< by lobe

    [[nodiscard]] double swept_radius(std::size_t lobe) const { return offset + lobes[lobe].base_radius; }
    [[nodiscard]] double dial(double from_lathe_axis) const {
        return method.dial_zero + from_lathe_axis * (method.dial == DialReading::diameter ? 2.0 : 1.0);
    }
};

ShaftAngle set_near(const IndexWheel& wheel, ShaftAngle wanted) {
    return wanted + wrapped(wheel.facing(wheel.nearest_setting(wanted)) - wanted);
}

std::vector<NoseCuts> noses_of(const SolvedLobe& lobe, const IndexWheel& wheel) {
    std::vector<NoseCuts> noses;
    const ShaftAngle half = ShaftAngle::from_radians(lobe.arcs->action_angle.radians() / 2.0);
    for (int k = 0; k < lobe.repeat; ++k) {
        const ShaftAngle nose = lobe.at + ShaftAngle::from_degrees(360.0 / lobe.repeat) * k;
        noses.push_back(
            {nose, nose - half, nose + half, set_near(wheel, nose - half), set_near(wheel, nose + half)});
    }
    return noses;
}

/// Opening comes first in time: on a ccw shaft it is the flank on the larger angle's side.
std::string flank_name(const SolvedLobe& lobe, bool high) {
    return high == (lobe.turns == Sense::ccw) ? "opening flank" : "closing flank";
}

HandSetting setting_at(const Bench& bench, std::size_t lobe, HandWork work, std::string part, double mark,
                       ShaftAngle wanted) {
    HandSetting setting;
    setting.work = work;
    setting.lobe = lobe;
    setting.part = std::move(part);
    setting.index = mark;
    setting.shaft_angle = bench.wheel.facing(mark);
    setting.wanted = wanted;
    setting.start = bench.dial(bench.offset + bench.blank_radius);
    setting.finish = bench.dial(bench.swept_radius(lobe));
    return setting;
}

/// Once round the wheel from mark `first`, at each mark along the shaft from the drive end.
void sort_once_round(const Bench& bench, double first, std::vector<HandSetting>& settings) {
    const auto past_first = [&](const HandSetting& setting) {
        return setting.index < first ? setting.index + bench.wheel.divisions : setting.index;
    };
    std::stable_sort(settings.begin(), settings.end(), [&](const HandSetting& a, const HandSetting& b) {
        const double at_a = past_first(a), at_b = past_first(b);
        return at_a != at_b ? at_a < at_b : bench.lobes[a.lobe].z < bench.lobes[b.lobe].z;
    });
}

std::vector<HandSetting> flank_settings(const Bench& bench) {
    std::vector<HandSetting> settings;
    for (std::size_t i = 0; i < bench.lobes.size(); ++i) {
        for (const NoseCuts& nose : bench.noses[i]) {
            for (const bool high : {false, true}) {
                const ShaftAngle wanted = high ? nose.high_wanted : nose.low_wanted;
                settings.push_back(setting_at(bench, i, HandWork::flank, flank_name(bench.lobes[i], high),
                                              bench.wheel.nearest_setting(wanted), wanted));
            }
        }
    }
    sort_once_round(bench, 0.0, settings);
    return settings;
}

/// The most marks between neighbouring clearing cuts: as many as the wanted ridge allows; without one every
/// mark, but no finer than half a degree.
int stride(const Bench& bench, std::size_t lobe) {
    double widest = 0.5;
    if (bench.method.cusp)
        widest = step_for_arcs(bench.lobes[lobe].base_radius, bench.swept_radius(lobe), *bench.method.cusp) *
                 180.0 / std::numbers::pi;
    return std::max(1, static_cast<int>(step_below(widest / bench.wheel.step_degrees())));
}

/// Marks for the heel between one nose's flank and the next one's, in the order of the wheel, folded into it.
std::vector<double> heel_marks(const Bench& bench, std::size_t lobe, ShaftAngle from, ShaftAngle to,
                               ShaftAngle from_set, ShaftAngle to_set) {
    if (bench.wheel.counts == Sense::cw) std::swap(from, to), std::swap(from_set, to_set);
    const auto marks_past = [&](ShaftAngle angle) {  // from `from`, the way that the wheel counts
        return sign_of(bench.wheel.counts) * (angle - from).degrees() / bench.wheel.step_degrees();
    };
    const double base = bench.wheel.mark_of(from);
    const double low =
        base + std::max(0.0, marks_past(from_set) + 2.0 * hair);  // strictly past the flank's own setting
    const double high = base + std::min(marks_past(to), marks_past(to_set) - 2.0 * hair);
    const int skip = stride(bench, lobe);
    std::vector<double> marks;
    double mark = std::ceil(low - hair);
    if (skip > 1) mark = std::max(mark, std::floor(base + marks_past(from_set) + skip + hair));
    for (; mark <= high + hair; mark += skip)
        marks.push_back(std::fmod(mark, bench.wheel.divisions));
    return marks;
}

/// The clearing cuts of one heel, between two neighbouring noses' flanks.
struct Heel {
    std::size_t lobe = 0;
    std::vector<double> marks;  ///< in the wheel's order, folded into it
};

std::vector<Heel> heels_of(const Bench& bench) {
    std::vector<Heel> heels;
    for (std::size_t i = 0; i < bench.lobes.size(); ++i) {
        const auto& noses = bench.noses[i];
        for (std::size_t k = 0; k < noses.size(); ++k) {
            const bool last = k + 1 == noses.size();
            const NoseCuts& next = noses[last ? 0 : k + 1];
            const ShaftAngle turn = ShaftAngle::from_radians(last ? full_turn : 0.0);
            heels.push_back({i, heel_marks(bench, i, noses[k].high_wanted, next.low_wanted + turn,
                                           noses[k].high_set, next.low_set + turn)});
        }
    }
    return heels;
}

/// The mark to begin the round at: beside a flank of as many lobes as can be, so that few heels are begun in
/// their middle, where the first cut goes down through the whole blank.
double round_begins(const std::vector<Heel>& heels) {
    const auto split_by = [&](double mark) {
        return std::count_if(heels.begin(), heels.end(), [&](const Heel& heel) {
            return !heel.marks.empty() && heel.marks.front() != mark &&
                   std::find(heel.marks.begin(), heel.marks.end(), mark) != heel.marks.end();
        });
    };
    double best = 0.0;
    auto fewest = split_by(best);
    for (const Heel& heel : heels) {
        if (heel.marks.empty()) continue;
        const double mark = heel.marks.front();
        const auto here = split_by(mark);
        if (here < fewest || (here == fewest && mark < best)) fewest = here, best = mark;
    }
    return best;
}

std::vector<HandSetting> clearing_settings(const Bench& bench) {
    const auto heels = heels_of(bench);
    std::vector<HandSetting> settings;
    for (const Heel& heel : heels)
        for (const double mark : heel.marks)
            settings.push_back(
                setting_at(bench, heel.lobe, HandWork::clear, "heel", mark, bench.wheel.facing(mark)));
    sort_once_round(bench, round_begins(heels), settings);
    return settings;
}

/// Running count, and where each cut meets metal after the cuts before it.
void count_and_touch(const Bench& bench, std::vector<HandSetting>& settings) {
    std::vector<CutsSoFar> done(bench.lobes.size());
    int order = 0;
    for (HandSetting& setting : settings) {
        setting.order = ++order;
        const HandCut cut = swept_cut(setting.shaft_angle, bench.offset, bench.swept_radius(setting.lobe));
        const Outline left = *outline_of(done[setting.lobe].beside(cut.facing), bench.blank_radius);
        const double touches = std::max(cut.radius, farthest_from(left, cut.centre()));
        setting.touches = bench.dial(touches);
        if (bench.method.infeed)
            setting.passes =
                std::max(1, static_cast<int>(step_above((touches - cut.radius) / *bench.method.infeed)));
        done[setting.lobe].add(cut);
    }
}

std::vector<double> ladder(const Bench& bench, const HandSetting& first) {
    std::vector<double> readings;
    const double per_pass =
        bench.method.infeed.value_or(0.0) * (bench.method.dial == DialReading::diameter ? 2.0 : 1.0);
    for (int pass = 1; pass < first.passes; ++pass)
        readings.push_back(*first.touches - pass * per_pass);
    readings.push_back(*first.finish);
    return readings;
}

void add_lands(const Bench& bench, std::size_t lobe, HandPlan& plan) {
    const double e = bench.offset, r = bench.swept_radius(lobe), b = bench.blank_radius;
    for (std::size_t k = 0; k < bench.noses[lobe].size(); ++k) {
        const NoseCuts& nose = bench.noses[lobe][k];
        Land land;
        land.lobe = lobe;
        if (bench.noses[lobe].size() > 1) land.where = "nose " + std::to_string(k + 1);
        land.arc = std::max(0.0, land_arc((nose.high_set - nose.low_set).radians(), e, r, b));
        land.chord = 2.0 * b * elementary::sin(land.arc / (2.0 * b));
        const double half_taken = ((nose.high_set - nose.low_set).radians() - land.arc / b) / 2.0;
        if (land.arc > 0.0) land.stock_for_excess = e * elementary::sin(half_taken) / (2.0 * r);
        plan.lands.push_back(land);
    }
}

/// What filing takes off: at the corners of the land, or the tip where there is none, and in its middle.
void add_nose(const SolvedLobe& lobe, const Outline& cut_only, double blank_radius, HandFinish& finish) {
    const ArcGeometry& arcs = *lobe.arcs;
    finish.nose_radius = arcs.nose_radius;
    const FiledNose nose = filed_noses(lobe).front();
    double corner = 0.0, middle = 0.0;
    for (const FiledNose& each : filed_noses(lobe)) {
        const Vec2 towards = unit(each.facing);
        middle = std::max(middle, outline_radius(cut_only, each.facing) - each.centre - each.radius);
        for (const OutlinePiece& piece : cut_only) {
            if (std::abs(wrapped_radians(piece.from - each.facing)) > arcs.action_angle.radians() / 2.0)
                continue;
            corner = std::max(corner, length(piece.start - each.centre * towards) - each.radius);
        }
    }
    finish.corner_stock = corner;
    finish.top_stock = std::max(0.0, std::min(middle, blank_radius - lobe.base_radius - arcs.lift));
    finish.template_mouth = 2.0 * nose.radius * elementary::sin(nose.half_angle);
    finish.template_depth = nose.radius * (1.0 - elementary::cos(nose.half_angle));
}

void add_finish(const Bench& bench, std::size_t lobe, HandPlan& plan) {
    const SolvedLobe& solved = bench.lobes[lobe];
    std::vector<HandCut> cuts;
    for (const HandSetting& setting : plan.settings)
        if (setting.lobe == lobe)
            cuts.push_back(swept_cut(setting.shaft_angle, bench.offset, bench.swept_radius(lobe)));
    const Outline cut_only = *outline_of(cuts, bench.blank_radius);
    const auto noses = filed_noses(solved);
    Outline finished = cut_only;
    for (const FiledNose& nose : noses)
        finished = filed(finished, nose);
    const Deviations off = deviations_of_arcs(solved, cuts, bench.blank_radius, noses, finished);
    HandFinish finish;
    finish.lobe = lobe;
    finish.highest_ridge = off.highest_ridge;
    finish.deepest = off.deepest;
    finish.proudest = off.proudest;
    put_timing(bench.job, solved, finished, finish);
    add_nose(solved, cut_only, bench.blank_radius, finish);
    plan.finish.push_back(finish);
}

std::string first_few(const std::vector<int>& wheels, std::size_t most) {
    std::string text;
    for (std::size_t i = 0; i < std::min(most, wheels.size()); ++i)
        text += (i ? ", " : "") + std::to_string(wheels[i]);
    return text;
}

/// The smallest wheels of a list, and the smallest that leave no higher ridge than the wheel in hand.
std::string wheels_words(const std::vector<int>& wheels, int in_hand) {
    std::string text = first_few(wheels, 3);
    std::vector<int> as_fine;
    for (std::size_t i = std::min<std::size_t>(3, wheels.size()); i < wheels.size(); ++i)
        if (wheels[i] >= in_hand) as_fine.push_back(wheels[i]);
    if (!as_fine.empty()) text += "; with no wider steps than yours: " + first_few(as_fine, 3);
    return text;
}

std::string off_mark_words(const Bench& bench, const HandSetting& setting) {
    const double off = wrapped(setting.shaft_angle - setting.wanted).degrees();
    const double late = -sign_of(bench.lobes[setting.lobe].turns) * off;  // cam degrees
    const std::string crank = degrees_figure(std::abs(late) / cam_per_crank(bench.job));
    return "the " + setting.part + " wants mark " + shortest_fixed(bench.wheel.mark_of(setting.wanted), 3) +
           "; " + shortest_fixed(setting.index, 3) +
           " is the nearest setting: " + degrees_figure(std::abs(late)) + "° of cam, " + crank +
           "° of crank too " + (late > 0.0 ? "late" : "early");
}

void add_wheel_advice(const Bench& bench, const std::vector<ShaftAngle>& wanted, HandPlan& plan) {
    const auto say = [&](Severity severity, std::string code, std::string text) {
        plan.findings.push_back(finding(severity, std::move(code), "", std::move(text)));
    };
    const double crank = 1.0 / cam_per_crank(bench.job);
    const BestZero best = best_zero(bench.wheel, wanted);
    const double worst = worst_error(bench.wheel, wanted).degrees();
    if (best.worst.degrees() < worst - mark_tolerance_degrees)
        say(Severity::note, "zero-shift",
            "with the wheel's zero turned on the shaft by " + degrees_figure(best.shift.degrees()) +
                "° (zero = " + degrees_figure(full_circle_degrees(bench.wheel.zero + best.shift)) +
                "), the worst flank is " + degrees_figure(best.worst.degrees()) + "° of cam (" +
                degrees_figure(best.worst.degrees() * crank) + "° of crank) off its mark, instead of " +
                degrees_figure(worst) + "°");
    const WheelsWithAllMarks wheels = wheels_with_all_marks(bench.wheel, wanted);
    std::string text;
    if (!wheels.as_zero_stands.empty())
        text = "wheels that have a mark for every flank, zero as it is: " +
               wheels_words(wheels.as_zero_stands, bench.wheel.divisions);
    if (!wheels.with_zero_turned.empty())
        text += std::string(text.empty() ? "wheels that have a mark for every flank" : ". And") +
                ", zero turned: " + wheels_words(wheels.with_zero_turned, bench.wheel.divisions);
    if (text.empty()) {
        const NearestWheel nearest = nearest_wheel(bench.wheel, wanted);
        text = "no wheel of up to " + std::to_string(largest_wheel) +
               " divisions has a mark for every flank; the best is " + std::to_string(nearest.divisions) +
               ", the worst flank then " + degrees_figure(nearest.zero.worst.degrees()) +
               "° of cam off; a vernier on the wheel sets the rest";
    }
    say(Severity::note, "wheels", text);
}

void judge_marks(const Bench& bench, HandPlan& plan) {
    std::vector<ShaftAngle> wanted;
    bool all_on_marks = true;
    for (const HandSetting& setting : plan.settings) {
        if (setting.work != HandWork::flank) continue;
        wanted.push_back(setting.wanted);
        const double off = std::abs(wrapped(setting.shaft_angle - setting.wanted).degrees());
        if (off <= mark_tolerance_degrees) continue;
        all_on_marks = false;
        plan.findings.push_back(finding(Severity::note, "between-marks", bench.lobes[setting.lobe].name,
                                        off_mark_words(bench, setting)));
    }
    if (!all_on_marks && !bench.method.vernier) add_wheel_advice(bench, wanted, plan);
}

/// The wheel for the ridge that was asked for, where this one is too coarse.
void judge_ridges(const Bench& bench, HandPlan& plan) {
    if (!bench.method.cusp) return;
    const auto length = [&](double mm) { return length_words(mm, bench.job.units); };
    std::vector<ShaftAngle> wanted;
    int needed = 0;
    for (std::size_t i = 0; i < bench.lobes.size(); ++i) {
        const double widest =
            step_for_arcs(bench.lobes[i].base_radius, bench.swept_radius(i), *bench.method.cusp);
        needed = std::max(needed, static_cast<int>(step_above(full_turn / widest)));
        for (const NoseCuts& nose : bench.noses[i])
            wanted.insert(wanted.end(), {nose.low_wanted, nose.high_wanted});
    }
    if (needed <= bench.wheel.divisions) return;
    std::string text = "this wheel's step leaves ridges above the wanted " + length(*bench.method.cusp) +
                       ": that takes " + std::to_string(needed) + " divisions or more";
    for (const int divisions : wheels_with_all_marks(bench.wheel, wanted).as_zero_stands) {
        if (divisions < needed) continue;
        text += "; " + std::to_string(divisions) +
                " is the smallest such wheel that also has a mark for every flank";
        break;
    }
    plan.findings.push_back(finding(Severity::warning, "wheel-for-ridge", "", text));
}

void judge_lands(const Bench& bench, HandPlan& plan) {
    for (const Land& land : plan.lands)
        if (land.arc <= 0.0)
            plan.findings.push_back(finding(Severity::note, "no-land", bench.lobes[land.lobe].name,
                                            "its flanks meet below the blank's outside: there is no land to "
                                            "measure; measure over the sharp "
                                            "edge, from the heel's side of the blank"));
}

/// More passes than this down one ladder are a slip of the pen, in the infeed or in the bar.
constexpr int most_passes = 1000;

void check_infeed(const Bench& bench, const std::string& key, Diagnostics& complaints) {
    if (!bench.method.infeed) return;
    double lowest = bench.blank_radius;
    for (const SolvedLobe& lobe : bench.lobes)
        lowest = std::min(lowest, lobe.base_radius);
    const double passes = (bench.blank_radius - lowest) / *bench.method.infeed;
    if (passes <= most_passes) return;
    complaints.push_back(refusal(bench.job, key, "too-many-passes",
                                 "at an infeed of " + length_words(*bench.method.infeed, bench.job.units) +
                                     " the first cut takes " + fixed(passes, 0) +
                                     " passes from the bar's outside",
                                 "take deeper passes, or mend shaft.blank_diameter"));
}

}  // namespace

std::vector<FiledNose> filed_noses(const SolvedLobe& lobe) {
    const ArcGeometry& arcs = *lobe.arcs;
    const double centre = arcs.base_radius + arcs.lift - arcs.nose_radius;
    const double e = arcs.flank_radius - arcs.base_radius, a = arcs.action_angle.radians() / 2.0;
    const double half_angle = elementary::atan2(e * elementary::sin(a),
                                                centre + e * elementary::cos(a));  // flank's centre to nose's
    std::vector<FiledNose> noses;
    for (int k = 0; k < lobe.repeat; ++k)
        noses.push_back(
            {lobe.at.radians() + full_turn * k / lobe.repeat, centre, arcs.nose_radius, half_angle});
    return noses;
}

double land_arc(double between, double offset, double swept_radius, double blank_radius) {
    const double cosine = (swept_radius * swept_radius - blank_radius * blank_radius - offset * offset) /
                          (2.0 * blank_radius * offset);
    return blank_radius * (between - 2.0 * elementary::acos(std::clamp(cosine, -1.0, 1.0)));
}

Outcome<HandPlan> plan_offset_fixture(const Job& job, const std::vector<SolvedLobe>& lobes,
                                      const std::string& name) {
    const HandMethod& method = job.hand.at(name);
    HandPlan plan;
    plan.method = name;
    Diagnostics complaints = faults_of_blank(job, lobes);
    if (!complaints.empty()) return complaints;
    const auto offset = fixture_offset(job, lobes, name, plan.findings);
    if (!offset) return offset.diagnostics();
    Bench bench{job,     lobes,
                method,  {method.divisions, method.zero, method.counts, method.vernier},
                *offset, *job.shaft.blank_diameter / 2.0,
                {}};
    check_swing(job, name, bench.offset, plan.findings, complaints);
    check_infeed(bench, "hand." + name + ".infeed", complaints);
    plan.fixture = FixtureSetup{bench.offset, bench.blank_radius, {}};
    plan.plunges = plan_plunges(job, lobes, method.tool_width, "hand." + name + ".tool_width", complaints);
    if (!complaints.empty()) return complaints;

    for (const SolvedLobe& lobe : lobes)
        bench.noses.push_back(noses_of(lobe, bench.wheel));
    plan.settings = flank_settings(bench);
    const auto clearing = clearing_settings(bench);
    plan.settings.insert(plan.settings.end(), clearing.begin(), clearing.end());
    count_and_touch(bench, plan.settings);
    plan.fixture->ladder = ladder(bench, plan.settings.front());
    for (std::size_t i = 0; i < lobes.size(); ++i)
        add_lands(bench, i, plan);
    for (std::size_t i = 0; i < lobes.size(); ++i)
        add_finish(bench, i, plan);
    judge_marks(bench, plan);
    judge_ridges(bench, plan);
    tell_finish(job, lobes, plan);
    judge_lands(bench, plan);
    return plan;
}

}  // namespace lobewright
