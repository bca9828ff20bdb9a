#include "base/text/column_layout.h"
#include "base/text/duration_words.h"
#include "base/text/length_text.h"

#include <lobewright/cutting_data.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

/// The thickness of a chip by f and 1 - cos θ.
double thickest(double way, double u) {
    const double share = std::clamp(u, 0.0, 1.0);
    return way * std::sqrt(share * (2.0 - share));
}

}  // namespace

double chip_on_straight(double way, double depth, double radius) {
    return radius > 0.0 ? thickest(way, depth / radius) : way;
}

double chip_on_curve(double arc, double turn, double depth, double radius) {
    const double way = arc + radius * turn;
    if (way <= 0.0) return 0.0;
    return thickest(way, depth * (2.0 * arc + turn * depth) / (2.0 * radius * way));
}

bool is_wheel(const Cutter& cutter) {
    return cutter.kind == CutterKind::disc && cutter.teeth == 0;
}

double cutting_speed(const Cutter& cutter, double spindle_speed) {
    return std::numbers::pi * cutter.diameter * spindle_speed / 1000.0;
}

double metal_removed(const Job& job, const SolvedLobe& lobe, const Pass& pass) {
    const Cutter& cutter = job.cutters.find(job.cut->cutter)->second;
    double width = lobe.width;
    if (job.machine->cutter_axis != CutterAxis::parallel) {
        width = std::min(width, cutter.diameter);
    } else if (cutter.kind == CutterKind::disc) {
        width = std::min(width, cutter.width);
    }
    return pass.depth * width * pass.feed;
}

namespace {

const char* const data_book = "The Ferrous Metals Data Book, face milling 1 mm deep, tables 9-8 and 9-12";
const char* const practice = "common practice, no source";

CommonData data(double slow, double fast, const char* speeds, double thin, double thick, const char* chips) {
    return {{slow, fast, speeds}, {thin, thick, chips}};
}

/// In the data book 1 mm deep, high speed steel: 49 to 64 m/min at 0.15 to 0.20 mm a tooth in low-carbon
/// steel of 125 to 275 HB, 24 to 32 at 0.13 to 0.15 in alloy steel of 275 to 375 HB; coated carbide: 241 to
/// 328 and 191 to 221 m/min. These are for stiff machines: they are the upper ends, the lower ones are common
/// practice.
std::optional<CommonData> data_of_hss(ShaftMaterial shaft) {
    switch (shaft) {
        case ShaftMaterial::soft_steel:
            return data(18.0, 64.0, data_book, 0.008, 0.20, data_book);
        case ShaftMaterial::tempered_steel:
            return data(10.0, 32.0, data_book, 0.008, 0.15, data_book);
        case ShaftMaterial::cast_iron:
            return data(15.0, 37.0, practice, 0.008, 0.20, practice);
        case ShaftMaterial::hardened_steel:
            break;
    }
    return std::nullopt;
}

CommonData data_of_carbide(ShaftMaterial shaft) {
    switch (shaft) {
        case ShaftMaterial::soft_steel:
            return data(60.0, 328.0, data_book, 0.01, 0.20, data_book);
        case ShaftMaterial::tempered_steel:
            return data(50.0, 221.0, data_book, 0.01, 0.13, data_book);
        case ShaftMaterial::cast_iron:
            return data(60.0, 200.0, practice, 0.01, 0.20, practice);
        case ShaftMaterial::hardened_steel:
            break;
    }
    return data(30.0, 90.0, practice, 0.005, 0.05, practice);
}

}  // namespace

std::optional<CommonData> common_data(EdgeMaterial edge, ShaftMaterial shaft) {
    return edge == EdgeMaterial::hss ? data_of_hss(shaft) : data_of_carbide(shaft);
}

namespace {

constexpr Decimals chip_decimals{4, 5};
constexpr Decimals depth_decimals{3, 4};

const char* words_of(PassKind kind) {
    switch (kind) {
        case PassKind::roughing:
            return "roughing";
        case PassKind::semi_finish:
            return "semi-finish";
        case PassKind::finish:
            return "finish";
        case PassKind::spring:
            return "spring passes";
        case PassKind::infeed:
            break;
    }
    return "infeed";
}

/// All passes of a kind.
struct KindSum {
    int passes = 0;
    double depth = 0.0, feed = 0.0, chip = 0.0, removed = 0.0, seconds = 0.0;
};

KindSum sum_of(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path, PassKind kind) {
    KindSum sum;
    for (const Pass& pass : path.passes) {
        if (pass.kind != kind) continue;
        ++sum.passes;
        sum.depth = std::max(sum.depth, pass.depth);
        sum.feed = pass.feed;
        sum.chip = std::max(sum.chip, pass.thickest_chip);
        sum.removed = std::max(sum.removed, metal_removed(job, lobes[pass.lobe], pass));
        sum.seconds += pass.seconds;
    }
    return sum;
}

/// cm³ or cubic inches.
std::string volume_text(double cubic_mm, Units units) {
    return units == Units::mm ? fixed(cubic_mm / 1000.0, 3) : fixed(cubic_mm / (25.4 * 25.4 * 25.4), 4);
}

std::vector<std::string> heading(const std::string& unit) {
    const std::string volume = unit == "mm" ? "cm3/min" : "in3/min";
    return {"", "passes", "depth " + unit, "feed " + unit + "/min", "chip " + unit, volume, "time", "%"};
}

std::vector<std::string> row_of(PassKind kind, const KindSum& sum, Units units, double whole) {
    const bool cuts = sum.depth > 0.0;
    return {words_of(kind),
            std::to_string(sum.passes),
            cuts ? fixed_length(sum.depth, units, depth_decimals) : "-",
            short_length(sum.feed, units, {1, 2}),
            sum.chip > 0.0 ? fixed_length(sum.chip, units, chip_decimals) : "-",
            cuts ? volume_text(sum.removed, units) : "-",
            duration_words(sum.seconds),
            fixed(100.0 * sum.seconds / whole, 0)};
}

std::string speed_sentence(const Job& job) {
    const Cutter& cutter = job.cutters.find(job.cut->cutter)->second;
    const double speed = cutting_speed(cutter, job.cut->spindle_speed);
    return "The rim of " + job.cut->cutter + " runs at " +
           (is_wheel(cutter) ? fixed(speed / 60.0, 1) + " m/s" : fixed(speed, 1) + " m/min") + " (" +
           shortest_fixed(job.cut->spindle_speed, 3) + " rev/min).\n";
}

/// "60 to 328 m/min in soft steel, chips of 0.01 to 0.2 mm"
std::string range_words(const Job& job, const CommonData& common, ShaftMaterial shaft) {
    return shortest_fixed(common.speed.least, 1) + " to " + shortest_fixed(common.speed.most, 1) +
           " m/min in " + words_of(shaft) + ", chips of " +
           short_length(common.chip.least, job.units, chip_decimals) + " to " +
           length_words(common.chip.most, job.units);
}

/// Of such teeth, in the job's metal or in all.
std::string range_sentence(const Job& job, EdgeMaterial edge) {
    std::string ranges;
    for (const ShaftMaterial shaft : {ShaftMaterial::soft_steel, ShaftMaterial::tempered_steel,
                                      ShaftMaterial::hardened_steel, ShaftMaterial::cast_iron}) {
        if (job.shaft.material.value_or(shaft) != shaft) continue;
        if (const auto common = common_data(edge, shaft))
            ranges += (ranges.empty() ? "" : "; ") + range_words(job, *common, shaft);
    }
    if (!ranges.empty()) return std::string("Common for ") + words_of(edge) + ": " + ranges + ".\n";
    return std::string("Teeth of ") + words_of(edge) + " are not run in " + words_of(*job.shaft.material) +
           ".\n";
}

}  // namespace

const char* words_of(EdgeMaterial edge) {
    return edge == EdgeMaterial::hss ? "high speed steel" : "carbide";
}

const char* words_of(ShaftMaterial shaft) {
    switch (shaft) {
        case ShaftMaterial::soft_steel:
            return "soft steel";
        case ShaftMaterial::tempered_steel:
            return "tempered steel";
        case ShaftMaterial::hardened_steel:
            return "hardened steel";
        case ShaftMaterial::cast_iron:
            break;
    }
    return "cast iron";
}

std::string common_ranges_text(const Job& job) {
    const Cutter& cutter = job.cutters.find(job.cut->cutter)->second;
    if (is_wheel(cutter)) return {};
    std::string text;
    for (const EdgeMaterial edge : {EdgeMaterial::hss, EdgeMaterial::carbide}) {
        if (cutter.material.value_or(edge) == edge) text += range_sentence(job, edge);
    }
    text +=
        std::string("(Upper ends for steel: ") + data_book + ", stiff machines; all else: " + practice + ".";
    if (cutter.material && job.shaft.material) return text + ")\n";
    return text + " With 'material' of " + (cutter.material ? "" : "[cutter." + job.cut->cutter + "]") +
           (cutter.material || job.shaft.material ? "" : " and ") + (job.shaft.material ? "" : "[shaft]") +
           " given, the plan is held to its own range.)\n";
}

std::string cutting_text(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path) {
    std::vector<std::vector<std::string>> rows{heading(unit_word(job.units))};
    double cutting = 0.0;
    for (const PassKind kind :
         {PassKind::roughing, PassKind::infeed, PassKind::semi_finish, PassKind::finish, PassKind::spring}) {
        const KindSum sum = sum_of(job, lobes, path, kind);
        cutting += sum.seconds;
        if (sum.passes > 0) rows.push_back(row_of(kind, sum, job.units, path.cycle_seconds));
    }
    const double between = std::max(0.0, path.cycle_seconds - cutting);
    rows.push_back({"between cuts", "", "", "", "", "", duration_words(between),
                    fixed(100.0 * between / path.cycle_seconds, 0)});
    std::vector<ColumnStyle> styles(rows.front().size());
    styles.front().flush = Flush::left;
    return speed_sentence(job) + in_columns(rows, styles);
}

}  // namespace lobewright
