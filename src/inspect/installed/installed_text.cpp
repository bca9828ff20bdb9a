#include "base/text/angle_text.h"
#include "base/text/column_layout.h"
#include "base/text/csv.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"
#include "base/text/markdown.h"
#include "base/text/wrapped.h"
#include "inspect/report/inspection_sentences.h"

#include <lobewright/inspect_installed.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cstdlib>
#include <numbers>

namespace lobewright {
namespace {

using namespace inspection;

constexpr int most_decimals = 9;
constexpr double to_degrees = 180.0 / std::numbers::pi;
constexpr Decimals lift_decimals{3, 4};

std::string one_line(std::string name) {
    std::replace_if(
        name.begin(), name.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
    return name;
}

std::string table_csv(const InstalledTable& table, Units units) {
    std::string text = csv_line({"crank_angle", "cam_angle", "valve_lift"});
    for (const InstalledLift& row : table.rows)
        text += csv_line({shortest_fixed(row.crank.degrees(), most_decimals),
                          shortest_fixed(row.cam_angle.degrees(), most_decimals),
                          shortest_fixed(row.lift / mm_per(units), most_decimals)});
    return text;
}

std::string table_json(const InstalledTable& table, const SolvedLobe& lobe, Units units) {
    const double unit = mm_per(units);
    JsonText json;
    json.object().member("lobe", lobe.name).member("units", units_key(units));
    json.member("clearance", table.clearance / unit);
    json.member("highest", table.highest / unit).member("highest_at", table.highest_at.degrees());
    json.array("rows");
    for (const InstalledLift& row : table.rows)
        json.object({}, JsonText::Layout::one_line)
            .member("crank_angle", row.crank.degrees())
            .member("cam_angle", row.cam_angle.degrees())
            .member("valve_lift", row.lift / unit)
            .end();
    json.end().end();
    return json.text();
}

std::vector<std::string> table_sentences(const InstalledTable& table, Units units) {
    std::vector<std::string> said{
        "A dial indicator on the valve, its zero with the valve shut; a clearance of " +
            length_words(table.clearance, units) + " is set.",
        "Crank angle 0 is cylinder 1 at top dead centre on its power stroke. The valve stands highest, " +
            length_words(table.highest, units) + ", at " + short_degrees(table.highest_at.degrees(), 1) +
            "°."};
    said.push_back(
        "Turn the crank the way it runs, towards each angle, so that the drive's play does not count.");
    return said;
}

std::vector<std::vector<std::string>> table_rows(const InstalledTable& table, Units units) {
    std::vector<std::vector<std::string>> rows{{"crank angle", "valve lift"}};
    for (const InstalledLift& row : table.rows)
        rows.push_back({fixed(row.crank.degrees(), 1), fixed_length(row.lift, units, lift_decimals)});
    return rows;
}

std::string table_sheet(const InstalledTable& table, const SolvedLobe& lobe, Units units, bool markdown) {
    const std::string title = one_line(lobe.name) + ": lift at the valve, in " + units_noun(units);
    std::string text = markdown ? heading(title) : title + "\n\n";
    for (const std::string& each : table_sentences(table, units))
        text += markdown ? bullet(each) : report_lines(each, 2);
    const auto rows = table_rows(table, units);
    if (!markdown) return text + '\n' + in_columns(rows, std::vector<ColumnStyle>(rows.front().size()));
    MarkdownTable made(rows.front());
    for (std::size_t i = 1; i < rows.size(); ++i)
        made.row(rows[i]);
    return text + '\n' + made.text();
}

std::string way_words(int steps) {
    return steps > 0 ? " forward (the way it runs)" : " back (against the way it runs)";
}

std::string setting_sentence(const InstalledFit& fit) {
    const GearSetting& setting = fit.setting;
    std::string said;
    const auto add = [&](const std::optional<int>& steps, const std::string& one,
                         const std::string& several) {
        if (!steps || *steps == 0) return;
        said += (said.empty() ? "Move the cam in its gear by " : ", then by ") +
                counted(std::abs(*steps), one, several) + way_words(*steps);
    };
    add(setting.teeth, "tooth", "teeth");
    add(setting.holes, "step of the vernier", "steps of the vernier");
    if (said.empty()) said = "Leave the gear as it is";
    return said + ": " + fixed(std::abs(setting.remains.degrees()), 2) + "° of cam " +
           (setting.remains.radians() < 0.0 ? "early" : "late") + " remain.";
}

std::vector<std::string> fit_sentences(const InstalledFit& fit, const Job& job, const GearSteps& steps) {
    const double per_crank = job.engine->cam_per_crank;
    std::vector<std::string> said{
        "Phase: the valve moves " + degrees_estimate(fit.phase) + " of cam, " +
            degrees_estimate({fit.phase.value / per_crank, fit.phase.error / per_crank}) + " of crank, " +
            (fit.phase.value < 0.0 ? "early" : "late") + ".",
        "Readings: " + counted(static_cast<long long>(fit.readings), "reading") + ", " +
            std::to_string(fit.set_aside) + " set aside as outliers; worst error " +
            length_words(fit.worst_error, job.units) + " at crank angle " +
            short_degrees(fit.worst_at.degrees(), 1) + "°, " + length_words(fit.rms_error, job.units) +
            " on the mean (root of the mean square)."};
    if (fit.zero)
        said.push_back("Zero: with the valve shut the dial shows " + length_estimate(*fit.zero, job.units) +
                       ".");
    if (steps.teeth || steps.holes) said.push_back(setting_sentence(fit));
    return said;
}

void put_fit(JsonText& json, const InstalledFit& fit, const Job& job, const std::string& name) {
    const double unit = mm_per(job.units), per_crank = job.engine->cam_per_crank;
    json.member("lobe", name).member("units", units_key(job.units));
    json.member("phase_error", fit.phase.value * to_degrees);
    json.member("phase_uncertainty", fit.phase.error * to_degrees);
    json.member("phase_error_crank", fit.phase.value * to_degrees / per_crank);
    json.member("zero", fit.zero ? std::optional(fit.zero->value / unit) : std::nullopt);
    json.member("worst_error", fit.worst_error / unit).member("worst_at_crank", fit.worst_at.degrees());
    json.member("rms_error", fit.rms_error / unit);
    json.member("readings", fit.readings).member("set_aside", fit.set_aside);
    json.member("move_teeth", fit.setting.teeth).member("move_holes", fit.setting.holes);
    json.member("remains", fit.setting.remains.degrees());
}

std::string fit_json(const std::vector<InstalledFit>& fits, const Job& job,
                     const std::vector<SolvedLobe>& lobes) {
    JsonText json;
    json.object();
    if (fits.size() == 1) {
        put_fit(json, fits.front(), job, lobes[fits.front().lobe].name);
    } else {
        json.array("lobes");
        for (const InstalledFit& fit : fits) {
            json.object();
            put_fit(json, fit, job, lobes[fit.lobe].name);
            json.end();
        }
        json.end();
    }
    json.end();
    return json.text();
}

std::string fit_csv(const std::vector<InstalledFit>& fits, const Job& job,
                    const std::vector<SolvedLobe>& lobes) {
    std::string text = csv_line({"lobe", "phase_error", "phase_error_crank", "move_teeth", "move_holes"});
    const auto count = [](const std::optional<int>& steps) {
        return steps ? std::to_string(*steps) : std::string();
    };
    for (const InstalledFit& fit : fits) {
        const double phase = fit.phase.value * to_degrees;
        text += csv_line({lobes[fit.lobe].name, shortest_fixed(phase, most_decimals),
                          shortest_fixed(phase / job.engine->cam_per_crank, most_decimals),
                          count(fit.setting.teeth), count(fit.setting.holes)});
    }
    return text;
}

}  // namespace

std::string installed_text(const InstalledTable& table, const Job& job, const SolvedLobe& lobe,
                           InspectFormat format) {
    switch (format) {
        case InspectFormat::csv:
            return table_csv(table, job.units);
        case InspectFormat::json:
            return table_json(table, lobe, job.units);
        case InspectFormat::markdown:
            return table_sheet(table, lobe, job.units, true);
        case InspectFormat::text:
            return table_sheet(table, lobe, job.units, false);
    }
    return {};
}

std::string installed_fit_text(const std::vector<InstalledFit>& fits, const Job& job,
                               const std::vector<SolvedLobe>& lobes, const GearSteps& steps,
                               InspectFormat format) {
    if (format == InspectFormat::csv) return fit_csv(fits, job, lobes);
    if (format == InspectFormat::json) return fit_json(fits, job, lobes);
    std::string text;
    for (const InstalledFit& fit : fits) {
        const std::string title = one_line(lobes[fit.lobe].name) + ": as installed";
        text += text.empty() ? "" : "\n";
        text += format == InspectFormat::markdown ? heading(title) : title + "\n\n";
        for (const std::string& each : fit_sentences(fit, job, steps))
            text += format == InspectFormat::markdown ? bullet(each) : report_lines(each, 2);
    }
    return text;
}

}  // namespace lobewright
