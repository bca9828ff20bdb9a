#include "base/text/angle_text.h"
#include "base/text/csv.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"
#include "base/text/markdown.h"
#include "base/text/wrapped.h"
#include "inspect/report/inspection_sentences.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <numbers>

namespace lobewright {
namespace {

using namespace inspection;

constexpr int most_decimals = 9;
constexpr double to_degrees = 180.0 / std::numbers::pi;

struct Report {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    const std::vector<LobeInspection>& inspections;

    [[nodiscard]] const std::string& name_of(std::size_t lobe) const { return lobes[lobe].name; }
    [[nodiscard]] double in_units(double mm) const { return mm / mm_per(job.units); }
    [[nodiscard]] std::optional<double> in_units(std::optional<double> mm) const {
        return mm ? std::optional(in_units(*mm)) : std::nullopt;
    }
};

std::string csv(const Report& is) {
    const bool several = is.inspections.size() > 1;
    std::vector<std::string> heads{"cam_angle", "shaft_angle", "reading", "expected", "error", "set_aside"};
    if (several) heads.emplace_back("lobe");
    std::string text = csv_line(heads);
    const auto figure = [](double value) { return shortest_fixed(value, most_decimals); };
    for (const LobeInspection& found : is.inspections) {
        for (const JudgedReading& each : found.readings) {
            std::vector<std::string> cells{
                figure(each.cam_angle.degrees()),  figure(each.shaft_angle.degrees()),
                figure(is.in_units(each.reading)), figure(is.in_units(each.expected)),
                figure(is.in_units(each.error)),   each.set_aside ? "1" : "0"};
            if (several) cells.push_back(is.name_of(found.lobe));
            text += csv_line(cells);
        }
    }
    return text;
}

std::optional<double> value_of(const std::optional<Estimate>& estimate) {
    return estimate ? std::optional(estimate->value) : std::nullopt;
}
std::optional<double> error_of(const std::optional<Estimate>& estimate) {
    return estimate ? std::optional(estimate->error) : std::nullopt;
}

void put_length(JsonText& json, const Report& is, const std::string& name, const std::string& uncertainty,
                const std::optional<Estimate>& estimate) {
    json.member(name, is.in_units(value_of(estimate)));
    json.member(uncertainty, is.in_units(error_of(estimate)));
}

void put_fit(JsonText& json, const Report& is, const LobeInspection& found) {
    json.member("lobe", is.name_of(found.lobe)).member("units", units_key(is.job.units));
    json.member("phase_error", found.phase.value * to_degrees);
    json.member("phase_uncertainty", found.phase.error * to_degrees);
    json.member("phase_error_crank",
                is.job.engine ? std::optional(found.phase.value * to_degrees / is.job.engine->cam_per_crank)
                              : std::nullopt);
    put_length(json, is, "base_error", "base_uncertainty", found.base);
    put_length(json, is, "zero", "zero_uncertainty", found.zero);
    const auto runout = found.runout ? std::optional(found.runout->amplitude) : std::nullopt;
    put_length(json, is, "runout", "runout_uncertainty", runout);
    json.member("runout_at",
                found.runout ? std::optional(full_circle_degrees(found.runout->at)) : std::nullopt);
    json.member("worst_lift_error", is.in_units(found.worst_lift_error));
    json.member("worst_at", found.worst_at.degrees());
    json.member("rms_error", is.in_units(found.rms_error));
    put_length(json, is, "nose_error", "nose_uncertainty", found.nose_error);
    json.member("scatter", is.in_units(found.scatter));
    json.member("repeatability",
                is.in_units(found.repeats ? std::optional(found.repeats->deviation) : std::nullopt));
    json.member("readings", found.readings.size());
}

void put_aside(JsonText& json, const Report& is, const LobeInspection& found) {
    json.array("set_aside");
    for (const JudgedReading& each : found.readings) {
        if (!each.set_aside) continue;
        json.object({}, JsonText::Layout::one_line)
            .member("cam_angle", each.cam_angle.degrees())
            .member("reading", is.in_units(each.reading))
            .member("error", is.in_units(each.error))
            .member("line", each.place.line)
            .end();
    }
    json.end();
}

void put_extreme(JsonText& json, const Report& is, const std::string& name, const MotionExtreme& extreme) {
    json.object(name, JsonText::Layout::one_line)
        .member("measured", is.in_units(extreme.measured.value))
        .member("uncertainty", is.in_units(extreme.measured.error))
        .member("at", extreme.at.degrees())
        .member("design", is.in_units(extreme.design))
        .end();
}

void put_motion(JsonText& json, const Report& is, const LobeInspection& found) {
    if (!found.motion) {
        json.member("motion", std::nullopt);
        return;
    }
    json.object("motion");
    put_extreme(json, is, "fastest_rise", found.motion->fastest_rise);
    put_extreme(json, is, "fastest_fall", found.motion->fastest_fall);
    put_extreme(json, is, "acceleration", found.motion->acceleration);
    put_extreme(json, is, "deceleration", found.motion->deceleration);
    json.member("velocity_window", found.motion->velocity_window.degrees());
    json.member("acceleration_window", found.motion->acceleration_window.degrees());
    json.end();
}

void put_events(JsonText& json, const LobeInspection& found) {
    if (!found.events) {
        json.member("events", std::nullopt);
        return;
    }
    const MeasuredEvents& events = *found.events;
    json.object("events")
        .member("opens", events.opens().degrees())
        .member("opens_late", events.opens_late.value * to_degrees)
        .member("opens_uncertainty", events.opens_late.error * to_degrees)
        .member("closes", events.closes().degrees())
        .member("closes_late", events.closes_late.value * to_degrees)
        .member("closes_uncertainty", events.closes_late.error * to_degrees)
        .end();
}

void put_surface(JsonText& json, const Report& is, const LobeInspection& found) {
    static const std::vector<std::string> words{"within", "beyond", "too-close"};
    if (!found.surface) {
        json.member("surface", std::nullopt);
        return;
    }
    const SurfaceFound& surface = *found.surface;
    json.object("surface");
    put_length(json, is, "deepest", "deepest_uncertainty", surface.deepest);
    json.member("deepest_at", surface.deepest_at.degrees());
    put_length(json, is, "proudest", "proudest_uncertainty", surface.proudest);
    json.member("proudest_at", surface.proudest_at.degrees());
    json.member("verdict", surface.verdict ? std::optional(words[static_cast<std::size_t>(*surface.verdict)])
                                           : std::nullopt);
    json.end();
}

void put_lobe(JsonText& json, const Report& is, const LobeInspection& found) {
    put_fit(json, is, found);
    put_aside(json, is, found);
    put_motion(json, is, found);
    put_events(json, found);
    put_surface(json, is, found);
    json.array("assumptions");
    for (const std::string& each : assumptions(found, is.job.units))
        json.item(each);
    json.end();
}

void put_shaft(JsonText& json, const Report& is, const ShaftInspection& shaft) {
    json.member("phase_error", shaft.phase.value * to_degrees);
    json.member("phase_uncertainty", shaft.phase.error * to_degrees);
    json.array("lobe_to_lobe");
    for (const LobeToLobe& each : shaft.lobes)
        json.object({}, JsonText::Layout::one_line)
            .member("lobe", is.name_of(each.lobe))
            .member("later", each.off.value * to_degrees)
            .member("uncertainty", each.off.error * to_degrees)
            .end();
    json.end().array("overlaps");
    for (const OverlapFound& each : shaft.overlaps)
        json.object({}, JsonText::Layout::one_line)
            .member("cylinder", each.cylinder)
            .member("overlap", each.measured.value * to_degrees)
            .member("uncertainty", each.measured.error * to_degrees)
            .member("design", each.design.degrees())
            .end();
    json.end();
}

std::string json(const Report& is) {
    JsonText json;
    json.object();
    if (const auto shaft = shaft_inspection(is.job, is.lobes, is.inspections)) {
        put_shaft(json, is, *shaft);
        json.array("lobes");
        for (const LobeInspection& found : is.inspections) {
            json.object();
            put_lobe(json, is, found);
            json.end();
        }
        json.end();
    } else {
        put_lobe(json, is, is.inspections.front());
    }
    json.end();
    return json.text();
}

std::string one_line(std::string name) {
    std::replace_if(
        name.begin(), name.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
    return name;
}

/// Headings and sentences, as the format has them.
struct Form {
    std::string (*title)(const std::string&);
    std::string (*sentence)(const std::string&);
};

std::string report(const Report& is, const Form& form) {
    std::string text;
    const auto section = [&](const std::string& title, const std::vector<std::string>& sentences) {
        text += (text.empty() ? "" : "\n") + form.title(title);
        for (const std::string& each : sentences)
            text += form.sentence(each);
    };
    for (const LobeInspection& found : is.inspections)
        section(one_line(is.name_of(found.lobe)) + ": measured against the design",
                findings_of(is.job, is.lobes[found.lobe], found));
    if (const auto shaft = shaft_inspection(is.job, is.lobes, is.inspections))
        section("All lobes", findings_of(is.job, is.lobes, *shaft));
    section("What this rests on", assumptions(is.inspections.front(), is.job.units));
    return text;
}

}  // namespace

std::string inspection_text(const Job& job, const std::vector<SolvedLobe>& lobes,
                            const std::vector<LobeInspection>& inspections, InspectFormat format) {
    const Report is{job, lobes, inspections};
    switch (format) {
        case InspectFormat::csv:
            return csv(is);
        case InspectFormat::json:
            return json(is);
        case InspectFormat::markdown:
            return report(is, {heading, bullet});
        case InspectFormat::text:
            return report(is, {[](const std::string& title) { return title + "\n\n"; },
                               [](const std::string& sentence) { return report_lines(sentence, 2); }});
    }
    return {};
}

}  // namespace lobewright
