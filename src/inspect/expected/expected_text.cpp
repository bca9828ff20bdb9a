#include "base/text/angle_text.h"
#include "base/text/column_layout.h"
#include "base/text/csv.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"
#include "base/text/markdown.h"
#include "base/text/typed_length.h"
#include "base/text/wrapped.h"
#include "inspect/probe/probe_words.h"

#include <lobewright/inspect.h>
#include <lobewright/number_text.h>

#include <algorithm>

namespace lobewright {
namespace {

using inspection::probe_words;

constexpr int most_decimals = 9;
constexpr Decimals reading_decimals{4, 5};

struct Setting {
    const ExpectedReadings& expected;
    const SolvedLobe& lobe;
    Units units;
    std::optional<double> tolerance;

    [[nodiscard]] bool at_marks() const { return !expected.rows.empty() && expected.rows.front().mark; }
    [[nodiscard]] double in_units(double mm) const { return mm / mm_per(units); }
};

std::string csv(const Setting& is) {
    std::vector<std::string> heads{"cam_angle", "shaft_angle", "reading"};
    if (is.at_marks()) heads.emplace_back("mark");
    std::string text = csv_line(heads);
    for (const ExpectedReading& row : is.expected.rows) {
        std::vector<std::string> cells{shortest_fixed(row.cam_angle.degrees(), most_decimals),
                                       shortest_fixed(row.shaft_angle.degrees(), most_decimals),
                                       shortest_fixed(is.in_units(row.reading), most_decimals)};
        if (row.mark) cells.push_back(std::to_string(*row.mark));
        text += csv_line(cells);
    }
    return text;
}

std::optional<double> degrees_of(const std::optional<HeelStretch>& heel, CamAngle HeelStretch::*end) {
    return heel ? std::optional((*heel.*end).degrees()) : std::nullopt;
}

std::string json(const Setting& is) {
    static const std::vector<std::string> kinds{"flat", "ball", "knife"};
    const ExpectedReadings& all = is.expected;
    const auto length = [&](std::optional<double> mm) {
        return mm ? std::optional(is.in_units(*mm)) : std::nullopt;
    };
    JsonText json;
    json.object().member("lobe", is.lobe.name).member("units", units_key(is.units));
    json.member("probe", kinds[static_cast<std::size_t>(all.probe.kind)]);
    json.member("probe_radius", is.in_units(all.probe.radius));
    json.member("largest_reading", is.in_units(all.largest));
    json.member("largest_reading_at", all.largest_at.degrees());
    json.member("across_nose", is.in_units(all.across_nose));
    json.member("across_nose_at", all.across_nose_at.degrees());
    json.member("across_base", length(all.across_heel));
    json.member("base_from", degrees_of(all.heel, &HeelStretch::from));
    json.member("base_to", degrees_of(all.heel, &HeelStretch::to));
    json.member("base_runout_limit",
                length(is.tolerance ? std::optional(2.0 * *is.tolerance) : std::nullopt));
    json.member("anvil_reach", is.in_units(all.anvil_reach));
    json.array("rows");
    for (const ExpectedReading& row : all.rows) {
        json.object({}, JsonText::Layout::one_line)
            .member("cam_angle", row.cam_angle.degrees())
            .member("shaft_angle", row.shaft_angle.degrees())
            .member("reading", is.in_units(row.reading))
            .member("across", is.in_units(row.across));
        if (row.mark) json.member("mark", *row.mark);
        json.end();
    }
    json.end().end();
    return json.text();
}

std::vector<std::string> probe_sentences(const Setting& is) {
    const ExpectedReadings& all = is.expected;
    std::vector<std::string> said{
        "The probe is " + probe_words(all.probe, is.units) +
        ", moving on a line through the shaft's axis; the reading is 0 on the base circle. Its largest is " +
        length_words(all.largest, is.units) + ", at cam angle " + short_degrees(all.largest_at.degrees(), 2) +
        "°."};
    if (all.probe.kind == ProbeKind::flat) {
        said.push_back("The anvil must reach at least " + typed_above(all.anvil_reach, is.units).words +
                       " to either side of the shaft's axis.");
    }
    return said;
}

std::vector<std::string> size_sentences(const Setting& is) {
    const ExpectedReadings& all = is.expected;
    std::vector<std::string> said{"Between parallel anvils the lobe measures " +
                                  length_words(all.across_nose, is.units) +
                                  " over base circle and nose (the largest, at cam angle " +
                                  short_degrees(all.across_nose_at.degrees(), 2) + "°)"};
    said.back() += all.across_heel
                       ? " and " + length_words(*all.across_heel, is.units) + " across the base circle."
                       : "; nowhere do both anvils stand on the base circle.";
    if (!all.heel) return said;
    const std::string stretch = "From cam angle " + short_degrees(all.heel->from.degrees(), 1) + "° to " +
                                short_degrees(all.heel->to.degrees(), 1) +
                                "° the probe stands on the base circle";
    said.push_back(is.tolerance ? stretch + ": there the indicator may move by " +
                                      length_words(2.0 * *is.tolerance, is.units) +
                                      " in all, what the centres run out included."
                                : stretch + " and should not move.");
    return said;
}

std::vector<std::string> sentences(const Setting& is) {
    std::vector<std::string> said = probe_sentences(is);
    for (std::string& each : size_sentences(is))
        said.push_back(std::move(each));
    said.push_back(
        "Turn the shaft one way only, towards each angle, so that play does not count; angles are degrees, "
        "lengths " +
        std::string(units_noun(is.units)) + ".");
    return said;
}

std::vector<std::vector<std::string>> table_of(const Setting& is) {
    std::vector<std::vector<std::string>> rows{{"cam angle", "shaft angle", "reading", "across"}};
    if (is.at_marks()) rows.front().insert(rows.front().begin(), "mark");
    for (const ExpectedReading& row : is.expected.rows) {
        std::vector<std::string> cells{fixed(row.cam_angle.degrees(), 2),
                                       fixed(full_circle_degrees(row.shaft_angle), 2),
                                       fixed_length(row.reading, is.units, reading_decimals),
                                       fixed_length(row.across, is.units, reading_decimals)};
        if (row.mark) cells.insert(cells.begin(), std::to_string(*row.mark));
        rows.push_back(std::move(cells));
    }
    return rows;
}

std::string title(const Setting& is) {
    std::string name = is.lobe.name;
    std::replace_if(
        name.begin(), name.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
    return name + ": what an indicator should read";
}

std::string markdown(const Setting& is) {
    std::string text = heading(title(is));
    for (const std::string& sentence : sentences(is))
        text += bullet(sentence);
    const auto rows = table_of(is);
    MarkdownTable table(rows.front());
    for (std::size_t i = 1; i < rows.size(); ++i)
        table.row(rows[i]);
    return text + '\n' + table.text();
}

std::string plain(const Setting& is) {
    std::string text = title(is) + "\n\n";
    for (const std::string& sentence : sentences(is))
        text += report_lines(sentence, 0);
    const auto rows = table_of(is);
    return text + '\n' + in_columns(rows, std::vector<ColumnStyle>(rows.front().size()));
}

}  // namespace

std::string expected_text(const ExpectedReadings& expected, const SolvedLobe& lobe, Units units,
                          std::optional<double> tolerance, InspectFormat format) {
    const Setting is{expected, lobe, units, tolerance};
    switch (format) {
        case InspectFormat::csv:
            return csv(is);
        case InspectFormat::json:
            return json(is);
        case InspectFormat::markdown:
            return markdown(is);
        case InspectFormat::text:
            return plain(is);
    }
    return {};
}

}  // namespace lobewright
