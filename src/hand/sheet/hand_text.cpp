#include "base/text/angle_text.h"
#include "base/text/csv.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"
#include "hand/sheet/hand_sheet.h"

#include <lobewright/hand.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

using namespace hand;

std::string work_name(HandWork work) {
    switch (work) {
        case HandWork::flank:
            return "flank";
        case HandWork::clear:
            return "clear";
        case HandWork::facet:
            return "facet";
    }
    return {};
}

/// As the wheel shows it, or in degrees of the work on a head or table.
double index_of(const HandSetting& setting) {
    return setting.mark ? *setting.mark : setting.turned->degrees();
}

std::optional<double> in_unit(const std::optional<double>& mm, Units units) {
    return mm ? std::optional(*mm / mm_per(units)) : std::nullopt;
}

std::string csv_text(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    const auto number = [](double value) { return shortest_fixed(value, 9); };
    const auto whole = [](const std::optional<int>& value) { return value ? std::to_string(*value) : ""; };
    const auto length = [&](const std::optional<double>& mm) {
        return mm ? number(*mm / mm_per(job.units)) : "";
    };
    std::string text = csv_line(
        {"order", "index", "turns", "hole", "circle", "shaft_angle", "lobe", "work", "start", "finish"});
    for (const HandSetting& setting : plan.settings)
        text += csv_line({std::to_string(setting.order), number(index_of(setting)), whole(setting.turns),
                          whole(setting.hole), whole(setting.circle),
                          number(full_circle_degrees(setting.shaft_angle)), lobes[setting.lobe].name,
                          work_name(setting.work), length(setting.start), length(setting.finish)});
    return text;
}

void put_finish(JsonText& json, const std::vector<SolvedLobe>& lobes, const HandFinish& finish, double unit) {
    const bool timed = finish.valve_shuts && finish.valve_opens;
    const auto late = [&](CrankAngle angle) { return timed ? std::optional(angle.degrees()) : std::nullopt; };
    json.object({}, JsonText::Layout::one_line)
        .member("lobe", lobes[finish.lobe].name)
        .member("highest_ridge", finish.highest_ridge / unit)
        .member("proudest", finish.proudest / unit)
        .member("deepest", finish.deepest / unit)
        .member("opens_late", late(finish.opens_late))
        .member("closes_late", late(finish.closes_late))
        .end();
}

void put_noses(JsonText& json, const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    json.array("noses");
    for (const HandNose& nose : plan.noses)
        json.object({}, JsonText::Layout::one_line)
            .member("lobe", lobes[nose.lobe].name)
            .member("radius", in_unit(nose.radius, job.units))
            .member("at", full_circle_degrees(nose.at))
            .end();
    json.end();
}

void put_wheels(JsonText& json, const HandPlan& plan) {
    json.array("wheels");
    for (const WheelChoice& wheel : plan.wheels)
        json.object({}, JsonText::Layout::one_line)
            .member("divisions", wheel.divisions)
            .member("zero", full_circle_degrees(wheel.zero))
            .member("worst_flank_error", wheel.worst.degrees())
            .end();
    json.end();
}

void put_travel(JsonText& json, const Job& job, const HandPlan& plan) {
    json.array("travel");
    if (plan.fixture)
        for (const HandEffort& effort : {plan.fixture->plunging, plan.fixture->along})
            json.object({}, JsonText::Layout::one_line)
                .member("travel", effort.travel == HandTravel::along ? "along" : "plunge")
                .member("strokes", effort.strokes)
                .member("length", effort.length / mm_per(job.units))
                .member("minutes", effort.minutes)
                .end();
    json.end();
}

std::string json_text(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    constexpr auto one_line = JsonText::Layout::one_line;
    JsonText json;
    json.object().array("settings");
    for (const HandSetting& setting : plan.settings)
        json.object({}, one_line)
            .member("order", setting.order)
            .member("index", index_of(setting))
            .member("turns", setting.turns)
            .member("hole", setting.hole)
            .member("circle", setting.circle)
            .member("shaft_angle", full_circle_degrees(setting.shaft_angle))
            .member("lobe", lobes[setting.lobe].name)
            .member("work", work_name(setting.work))
            .member("start", in_unit(setting.start, job.units))
            .member("finish", in_unit(setting.finish, job.units))
            .end();
    json.end().array("lands");
    for (const Land& land : plan.lands)
        json.object({}, one_line)
            .member("lobe", lobes[land.lobe].name)
            .member("chord", land.chord / mm_per(job.units))
            .member("arc", land.arc / mm_per(job.units))
            .end();
    json.end();
    put_noses(json, job, lobes, plan);
    put_wheels(json, plan);
    put_travel(json, job, plan);
    json.array("finish");
    for (const HandFinish& finish : plan.finish)
        put_finish(json, lobes, finish, mm_per(job.units));
    json.end().array("findings");
    for (const Diagnostic& finding : plan.findings) {
        json.object({}, one_line).member("severity", severity_word(finding.severity));
        json.member("lobe", finding.lobe.empty() ? std::nullopt : std::optional(finding.lobe));
        json.member("message", finding.what).member("code", finding.code).end();
    }
    json.end().end();
    return json.text();
}

}  // namespace

std::string hand_text(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan,
                      HandFormat format) {
    switch (format) {
        case HandFormat::csv:
            return csv_text(job, lobes, plan);
        case HandFormat::json:
            return json_text(job, lobes, plan);
        case HandFormat::markdown:
            return hand_sheet(job, lobes, plan);
    }
    return {};
}

std::string hand_summary(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    constexpr double least_told = 1e-4;        // mm, the last decimal that a summary has
    constexpr double least_late_told = 0.005;  // degrees; less shows as 0
    double ridge = 0.0, deepest = 0.0, late = 0.0;
    const HandFinish* worst = &plan.finish.front();
    for (const HandFinish& finish : plan.finish) {
        ridge = std::max(ridge, finish.highest_ridge);
        deepest = std::min(deepest, finish.deepest);
        const double here =
            std::max(std::abs(finish.opens_late.degrees()), std::abs(finish.closes_late.degrees()));
        if (here > late) late = here, worst = &finish;
    }
    const auto all = [&](bool HandFinish::*works) {
        return std::all_of(plan.finish.begin(), plan.finish.end(),
                           [works](const HandFinish& finish) { return finish.*works; });
    };
    const bool shut = all(&HandFinish::valve_shuts), open = all(&HandFinish::valve_opens);
    std::string text = counted(static_cast<long long>(plan.settings.size()), "cut") + "; ridges up to " +
                       length_words(ridge, job.units);
    if (deepest < -least_told) text += "; up to " + length_words(-deepest, job.units) + " below the design";
    if (!shut) text += "; ridges hold a valve open";
    if (!open) text += "; a valve never opens";
    if (!shut || !open) return text;
    text += "; timing within " + short_degrees(late, 2) + "° of crank";
    if (late >= least_late_told) text += " (" + lobes[worst->lobe].name + ")";
    return text;
}

}  // namespace lobewright
