#include "base/text/csv.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"

#include <lobewright/inspect_shape.h>
#include <lobewright/number_text.h>

#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

constexpr double to_degrees = 180.0 / std::numbers::pi;
constexpr double straight_beyond = 1e9;  // mm
constexpr Decimals key_decimals{6, 7};
constexpr Decimals error_decimals{5, 6};

std::string comment(const std::string& text) {
    return "# " + text + '\n';
}

/// key = value      # ± error
std::string length_key(const std::string& key, const Estimate& estimate, Units units) {
    std::string line = key + " = " + short_length(estimate.value, units, key_decimals);
    if (estimate.error > 0.0)
        line += "  # ± " + fixed_length(estimate.error, units, error_decimals) + ", a standard error";
    return line + '\n';
}

std::string flank_key(const FittedArcs& arcs, Units units) {
    const auto radius = arcs.flank_radius();
    if (radius && std::abs(radius->value) < straight_beyond)
        return length_key("flank_radius", *radius, units);
    return "flank_radius = \"straight\"\n";
}

std::string counts_words(std::size_t readings, std::size_t aside) {
    return std::to_string(readings) + " readings, " + std::to_string(aside) + " set aside";
}

std::string residual_words(const FittedArcs& arcs, Units units) {
    const std::string figures = "Residual " + length_words(arcs.rms_residual, units) +
                                " (root of the mean square), worst " +
                                length_words(arcs.worst_residual, units) + " at cam angle " +
                                shortest_fixed(arcs.worst_at.degrees(), 1) + "°, the readings' own scatter " +
                                length_words(arcs.scatter, units) + ": ";
    return figures + (arcs.is_arcs ? "these arcs describe the lobe."
                                   : "the lobe is NOT three arcs; --fit table describes it better.");
}

/// A name that a comment's line can hold.
std::string one_line(std::string name) {
    for (char& c : name)
        if (c == '\n' || c == '\r') c = ' ';
    return name;
}

}  // namespace

std::string arcs_profile_text(const FittedArcs& arcs, const SolvedLobe& lobe, Units units) {
    std::string text = comment("Fitted to lobe " + one_line(lobe.name) + ": " +
                               counts_words(arcs.readings, arcs.set_aside) + ".");
    text += comment(residual_words(arcs, units));
    text +=
        comment("The nose's radius is " + fixed_length(arcs.nose_radius.value, units, key_decimals) + " ± " +
                fixed_length(arcs.nose_radius.error, units, error_decimals) + " " + unit_word(units) +
                "; it points " + fixed(std::abs(arcs.phase.value) * to_degrees, 3) + "° of cam " +
                (arcs.phase.value < 0.0 ? "earlier" : "later") + " than the readings' angles say.");
    if (arcs.zero)
        text += comment("The indicator's zero was not known: the base circle is the design's, not measured.");
    text += "[profile.measured]\nshape = \"arcs\"\n";
    text += length_key("base_radius", arcs.base_radius, units);
    text += length_key("lift", arcs.lift, units);
    text += "action_angle = " + shortest_fixed(arcs.action_angle.value * to_degrees, 6) + "  # ± " +
            fixed(arcs.action_angle.error * to_degrees, 4) + ", a standard error\n";
    return text + flank_key(arcs, units);
}

std::string arcs_json(const FittedArcs& arcs, const SolvedLobe& lobe, Units units) {
    const double unit = mm_per(units);
    const auto flank = arcs.flank_radius();
    JsonText json;
    json.object().member("lobe", lobe.name).member("units", units_key(units));
    const auto put = [&](const std::string& name, const Estimate& estimate, double per) {
        json.member(name, estimate.value / per).member(name + "_error", estimate.error / per);
    };
    put("base_radius", arcs.base_radius, unit);
    json.member("flank_radius", flank ? std::optional(flank->value / unit) : std::nullopt);
    json.member("flank_radius_error", flank ? std::optional(flank->error / unit) : std::nullopt);
    json.member("flank", !flank ? "straight" : flank->value > 0.0 ? "round" : "hollow");
    put("nose_radius", arcs.nose_radius, unit);
    put("action_angle", arcs.action_angle, 1.0 / to_degrees);
    put("lift", arcs.lift, unit);
    put("phase_error", arcs.phase, 1.0 / to_degrees);
    json.member("rms_residual", arcs.rms_residual / unit);
    json.member("worst_residual", arcs.worst_residual / unit).member("worst_at", arcs.worst_at.degrees());
    json.member("scatter", arcs.scatter / unit).member("is_arcs", arcs.is_arcs);
    json.member("readings", arcs.readings).member("set_aside", arcs.set_aside);
    json.end();
    return json.text();
}

std::string table_profile_text(const FittedTable& table, const SolvedLobe& lobe, Units units) {
    std::string text = comment("Lift of the follower of lobe " + one_line(lobe.name) + ", from " +
                               counts_words(table.readings, table.set_aside) +
                               "; smoothing moved one by at most " + length_words(table.moved, units) + ".");
    text += comment("Keep this file beside the job, and paste into the job, with the file's own name:");
    text += comment("[profile.measured]");
    text += comment("shape = \"table\"");
    text += comment("base_radius = " + short_length(table.base_radius, units, key_decimals));
    text += comment("file = \"measured.csv\"");
    text += csv_line({"cam_angle", "lift"});
    for (const auto& [angle, lift] : table.lifts)
        text += csv_line({shortest_fixed(angle.degrees(), 3),
                          shortest_fixed(lift / mm_per(units), key_decimals.of(units))});
    return text;
}

std::string table_json(const FittedTable& table, const SolvedLobe& lobe, Units units) {
    const double unit = mm_per(units);
    JsonText json;
    json.object().member("lobe", lobe.name).member("units", units_key(units));
    json.member("base_radius", table.base_radius / unit);
    json.member("smoothing", table.smoothing / unit).member("moved", table.moved / unit);
    json.member("readings", table.readings).member("set_aside", table.set_aside);
    json.array("rows");
    for (const auto& [angle, lift] : table.lifts)
        json.object({}, JsonText::Layout::one_line)
            .member("cam_angle", angle.degrees())
            .member("lift", lift / unit)
            .end();
    json.end().end();
    return json.text();
}

}  // namespace lobewright
