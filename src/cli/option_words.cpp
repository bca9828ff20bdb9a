#include "cli/option_words.h"

#include "cli/argument_complaints.h"

#include <lobewright/number_text.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

std::optional<Diagnostic> read_every(Options& options) {
    if (options.every_words.empty()) return std::nullopt;
    const std::optional<double> degrees = parse_decimal(options.every_words);
    if (!degrees || !(*degrees >= 0.001 && *degrees <= 180.0)) {
        return wrong(
            "bad-number",
            "--every takes degrees of cam angle from 0.001 to 180, not \"" + options.every_words + "\"",
            "give one such as --every 1 or --every 0.5");
    }
    options.every = CamAngle::from_degrees(*degrees);
    return std::nullopt;
}

/// Of every command's own words, in the order of TextFormat.
std::optional<Diagnostic> read_format(Options& options) {
    std::vector<std::string> names{"csv", "json", "markdown"};
    if (options.command == Command::inspect) names.emplace_back("text");
    if (options.json) options.format = TextFormat::json, options.format_given = true;
    const std::string& words = options.format_words;
    if (words.empty()) return std::nullopt;
    const auto found = std::find(names.begin(), names.end(), words);
    if (found == names.end())
        return wrong("unknown-format", "there is no format \"" + words + "\"", hint(words, names));
    options.format = static_cast<TextFormat>(found - names.begin());
    options.format_given = true;
    if (options.json && options.format != TextFormat::json) {
        return wrong("two-formats", "--json and --format " + words + " exclude each other",
                     "give one of them");
    }
    options.json = options.format == TextFormat::json;
    return std::nullopt;
}

/// A figure in (0, most]; nothing to complain of where none is given.
std::optional<Diagnostic> read_figure(const std::string& name, const std::string& words, double most,
                                      std::optional<double>& figure) {
    if (words.empty()) return std::nullopt;
    figure = parse_decimal(words);
    if (figure && *figure > 0.0 && *figure <= most) return std::nullopt;
    return wrong(
        "bad-number",
        name + " takes a figure above 0 and at most " + shortest_fixed(most, 0) + ", not \"" + words + "\"",
        "give one such as " + name + " 5");
}

/// One of a few words, or the complaint.
std::optional<Diagnostic> check_word(const std::string& option, const std::string& word,
                                     const std::vector<std::string>& known) {
    if (std::find(known.begin(), known.end(), word) != known.end()) return std::nullopt;
    return wrong("unknown-word", option + " doesn't take \"" + word + "\"", hint(word, known));
}

std::optional<Diagnostic> read_drawn_thing(Options& options) {
    static const std::vector<std::string> things{"lobe", "shaft", "wheel", "nose", "degree-wheel", "motion"};
    if (options.what.empty())
        return wrong("missing-argument", "draw wants to know what to draw", "add --what " + joined(things));
    if (auto complaint = check_word("--what", options.what, things)) return complaint;
    const auto found = std::find(things.begin(), things.end(), options.what);
    options.thing = static_cast<DrawnThing>(found - things.begin());
    return std::nullopt;
}

std::optional<Diagnostic> read_drawing(Options& options) {
    if (options.command != Command::draw) return std::nullopt;
    if (options.drawing_format.empty()) options.drawing_format = "svg";
    if (auto complaint = check_word("--format", options.drawing_format, {"svg", "dxf"})) return complaint;
    if (options.crank.empty()) options.crank = "cw";
    if (auto complaint = check_word("--crank", options.crank, {"cw", "ccw"})) return complaint;
    constexpr double most_scale = 1000.0, most_diameter = 2000.0;
    if (auto complaint = read_figure("--scale", options.scale_words, most_scale, options.scale))
        return complaint;
    if (auto complaint = read_figure("--diameter", options.diameter_words, most_diameter, options.diameter))
        return complaint;
    if (auto complaint = read_figure("--bore", options.bore_words, most_diameter, options.bore))
        return complaint;
    if (auto complaint = read_figure("--screws", options.screws_words, most_diameter, options.screw_circle))
        return complaint;
    return options.job.empty() ? std::nullopt : read_drawn_thing(options);
}

std::vector<std::string> parts_at_commas(const std::string& text) {
    std::vector<std::string> parts{""};
    for (const char c : text) {
        if (c == ',')
            parts.emplace_back();
        else
            parts.back() += c;
    }
    return parts;
}

std::optional<Diagnostic> read_unknown(Options& options) {
    for (const std::string& given : options.unknown_words) {
        for (const std::string& word : parts_at_commas(given)) {
            if (auto complaint = check_word("--unknown", word, {"zero", "runout"})) return complaint;
            (word == "zero" ? options.zero_unknown : options.runout_unknown) = true;
        }
    }
    return std::nullopt;
}

std::optional<Diagnostic> read_tolerance(Options& options) {
    if (options.tolerance_words.empty()) return std::nullopt;
    options.tolerance = parse_decimal(options.tolerance_words);
    if (options.tolerance && *options.tolerance > 0.0 && *options.tolerance < 1e4) return std::nullopt;
    return wrong("bad-number", "--tolerance takes a length above 0, not \"" + options.tolerance_words + "\"",
                 "give one such as --tolerance 0.01");
}

/// The options that say what --readings holds, by their names, where they are given.
std::string given_for_readings(const Options& options) {
    if (!options.columns_words.empty()) return "--columns";
    if (!options.readings_unit.empty()) return "--unit";
    if (options.reversed) return "--reversed";
    if (!options.unknown_words.empty()) return "--unknown";
    if (!options.fit.empty()) return "--fit";
    return options.tolerance_words.empty() ? "" : "--tolerance";
}

std::optional<Diagnostic> read_readings(Options& options) {
    const bool corrects = options.command == Command::cut || options.command == Command::prove;
    if (const std::string given = given_for_readings(options); !given.empty() && options.readings.empty())
        return wrong("missing-argument", given + " says something of readings, and there are none",
                     corrects ? "add --correct FILE" : "add --readings FILE");
    if (!options.readings_unit.empty()) {
        const std::vector<std::string> units{"mm", "inch", "thousandths", "hundredths", "thousandths-mm"};
        if (auto complaint = check_word("--unit", options.readings_unit, units)) return complaint;
    }
    if (!options.columns_words.empty()) options.columns = parts_at_commas(options.columns_words);
    if (!options.readings.empty() && !options.every_words.empty())
        return wrong("extra-argument", "--every is for the readings to expect, not for those of --readings",
                     "leave it out");
    if (!options.method.empty() && !options.every_words.empty())
        return wrong("extra-argument",
                     "--every and --method exclude each other: the one gives degrees, the other marks",
                     "give one of them");
    if (auto complaint = read_unknown(options)) return complaint;
    return read_tolerance(options);
}

/// What --correct goes with.
std::optional<Diagnostic> read_correction(Options& options) {
    if (options.command == Command::sheet && !options.method.empty() && options.readings.empty())
        return wrong("missing-argument", "--method says something of readings, and there are none",
                     "add --readings FILE");
    if (options.command != Command::cut && options.command != Command::prove) return std::nullopt;
    for (const auto& [name, words] :
         {std::pair{"--most", &options.most_words}, std::pair{"--again", &options.comes_again_words},
          std::pair{"--method", &options.method}}) {
        if (!words->empty() && options.readings.empty())
            return wrong("missing-argument",
                         std::string(name) + " is for a correction, and there are no readings",
                         "add --correct FILE");
    }
    if (options.readings.empty()) return std::nullopt;
    if (options.most_words.empty())
        return wrong("missing-argument", "--correct wants to know how much it may take off at most",
                     "add --most LENGTH, as in --most 0.02");
    options.most = parse_decimal(options.most_words);
    if (!options.most || !(*options.most > 0.0 && *options.most < 1e4))
        return wrong("bad-number", "--most takes a length above 0, not \"" + options.most_words + "\"",
                     "give one such as --most 0.02");
    if (options.comes_again_words.empty()) return std::nullopt;
    options.comes_again = parse_decimal(options.comes_again_words);
    if (options.comes_again && *options.comes_again >= 0.0 && *options.comes_again <= 1.0)
        return std::nullopt;
    return wrong("bad-number", "--again takes a share from 0 to 1, not \"" + options.comes_again_words + "\"",
                 "give one such as --again 0.5");
}

/// A count of teeth or holes.
std::optional<Diagnostic> read_count(const std::string& name, const std::string& words,
                                     std::optional<int>& count) {
    if (words.empty()) return std::nullopt;
    const std::optional<double> number = parse_decimal(words);
    if (!number || !(*number >= 2.0 && *number <= 1000.0) || *number != static_cast<int>(*number))
        return wrong("bad-number", name + " takes a whole number from 2 to 1000, not \"" + words + "\"",
                     "give one such as " + name + " 42");
    count = static_cast<int>(*number);
    return std::nullopt;
}

std::optional<Diagnostic> read_installed(Options& options) {
    if (auto complaint = read_count("--teeth", options.teeth_words, options.teeth)) return complaint;
    if (auto complaint = read_count("--holes", options.holes_words, options.holes)) return complaint;
    const bool gear = options.teeth || options.holes;
    if (gear && (!options.installed || options.readings.empty()))
        return wrong("missing-argument",
                     std::string(options.teeth ? "--teeth" : "--holes") +
                         " says how to move the gear, which takes readings in the engine",
                     "add --installed and --readings FILE");
    if (!options.installed) return std::nullopt;
    const std::string other = !options.fit.empty()                                  ? "--fit"
                              : !options.tolerance_words.empty()                    ? "--tolerance"
                              : options.runout_unknown                              ? "--unknown runout"
                              : options.readings.empty() && !options.method.empty() ? "--method"
                                                                                    : "";
    if (other.empty()) return std::nullopt;
    return wrong("extra-argument", other + " is for a lobe between centres, not in the engine",
                 "leave it or --installed out");
}

std::optional<Diagnostic> read_fit(Options& options) {
    if (options.fit.empty()) return std::nullopt;
    if (auto complaint = check_word("--fit", options.fit, {"arcs", "table"})) return complaint;
    if (!options.tolerance_words.empty())
        return wrong("extra-argument", "--fit makes a profile, which --tolerance can't judge",
                     "leave one out");
    if (options.runout_unknown && options.fit == "table")
        return wrong("extra-argument", "--fit table can't tell a runout from the lobe's own shape",
                     "leave --unknown runout out, or take --fit arcs");
    if (!options.format_given || options.json) return std::nullopt;
    return wrong("no-format", "--fit writes a profile, not " + options.format_words,
                 "leave --format out, or give --json");
}

}  // namespace

std::optional<Diagnostic> read_option_words(Options& options) {
    for (const auto& read :
         {read_every, read_format, read_drawing, read_readings, read_correction, read_installed, read_fit}) {
        if (auto complaint = read(options)) return complaint;
    }
    return std::nullopt;
}

TableFormat table_format(TextFormat format) {
    switch (format) {
        case TextFormat::csv:
            return TableFormat::csv;
        case TextFormat::json:
            return TableFormat::json;
        case TextFormat::markdown:
        case TextFormat::text:
            return TableFormat::markdown;
    }
    return TableFormat::csv;
}

}  // namespace lobewright::cli
