#include "base/text/angle_text.h"
#include "base/text/column_layout.h"
#include "base/text/duration_words.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"

#include <lobewright/cutting_data.h>
#include <lobewright/number_text.h>
#include <lobewright/toolpath.h>

#include <algorithm>
#include <array>
#include <set>

namespace lobewright {
namespace {

constexpr std::array<const char*, time_limit_count> limit_names{
    "surface feed",        "radial speed",        "axial speed", "rotary speed",
    "radial acceleration", "rotary acceleration", "block rate"};

const char* name_of(PassKind kind) {
    switch (kind) {
        case PassKind::roughing:
            return "rough";
        case PassKind::semi_finish:
            return "semi-finish";
        case PassKind::finish:
            return "finish";
        case PassKind::infeed:
            return "infeed";
        case PassKind::spring:
            break;
    }
    return "spring";
}

using Row = std::vector<std::string>;

/// Words to the left, figures to the right.
std::string table_text(const std::vector<Row>& rows) {
    std::vector<ColumnStyle> styles(rows.front().size());
    styles[0].flush = styles[1].flush = Flush::left;
    return in_columns(rows, styles);
}

/// cm³ or cubic inches.
double volume_of(double cubic_mm, Units units) {
    const double unit = mm_per(units);
    return units == Units::mm ? cubic_mm / 1000.0 : cubic_mm / (unit * unit * unit);
}
constexpr Decimals volume_decimals{3, 4};

Row row_of(const Job& job, const std::vector<SolvedLobe>& lobes, const Pass& pass) {
    std::string kind = name_of(pass.kind);
    if (pass.kind == PassKind::roughing) kind += ' ' + std::to_string(pass.ring);
    if (pass.kind == PassKind::infeed) kind += " in " + std::to_string(pass.turns);
    constexpr Decimals decimals{3, 4}, chips{4, 5};
    if (pass.slides_to) kind += ", helix to " + fixed_length(*pass.slides_to, job.units, decimals);
    const double removed = metal_removed(job, lobes[pass.lobe], pass);
    return {lobes[pass.lobe].name,
            kind,
            fixed_length(pass.axial, job.units, decimals),
            fixed_length(pass.left_on - job.cut->allowance, job.units, decimals),
            pass.depth > 0.0 ? fixed_length(pass.depth, job.units, decimals) : "-",
            pass.thickest_chip > 0.0 ? fixed_length(pass.thickest_chip, job.units, chips) : "-",
            pass.depth > 0.0 ? fixed(volume_of(removed, job.units), volume_decimals.of(job.units)) : "-",
            std::to_string(pass.contour_blocks),
            std::to_string(pass.last - pass.first),
            fixed(pass.seconds, 1)};
}

std::string shares_text(const Toolpath& path) {
    double total = 0.0;
    std::array<double, time_limit_count> at{};
    for (const Pass& pass : path.passes) {
        for (std::size_t i = 0; i < at.size(); ++i)
            at[i] += pass.seconds_at[i], total += pass.seconds_at[i];
    }
    std::string text = "Cutting time by what settled it:";
    const char* joint = " ";
    for (std::size_t i = 0; i < at.size(); ++i) {
        if (at[i] <= 0.0 || total <= 0.0) continue;
        text += joint + std::string(limit_names[i]) + ' ' + fixed(100.0 * at[i] / total, 1) + " %";
        joint = ", ";
    }
    return text + ".\n";
}

/// Where something else than the surface feed settles more than a tenth of a pass's time: a line for each
/// such limit.
std::string slow_text(const std::vector<SolvedLobe>& lobes, const Toolpath& path) {
    std::string text;
    for (int limit = 1; limit < time_limit_count; ++limit) {
        std::set<std::size_t> slow;
        double most = 0.0;
        for (const Pass& pass : path.passes) {
            const double share = pass.seconds > 0.0 ? pass.seconds_at[limit] / pass.seconds : 0.0;
            if (share > 0.1) slow.insert(pass.lobe), most = std::max(most, share);
        }
        if (slow.empty()) continue;
        text += "The surface feed is not held all round: " +
                std::string(limit_names[static_cast<std::size_t>(limit)]) + " settles up to " +
                fixed(100.0 * most, 0) + " % of a pass's time on ";
        text += slow.size() == 1 ? "lobe " : "lobes ";
        const char* joint = "";
        for (const std::size_t lobe : slow)
            text += joint + lobes[lobe].name, joint = ", ";
        text += ".\n";
    }
    return text;
}

std::string unwinding_text(const Toolpath& path) {
    if (path.unwindings.empty()) return {};
    return "The shaft winds back " + counted(static_cast<long long>(path.unwindings.size()), "time") +
           ", the cutter clear of it: " + duration_words(path.unwinding_seconds) + ".\n";
}

void put_pass(JsonText& json, const Job& job, const std::vector<SolvedLobe>& lobes, const Pass& pass) {
    const double unit = mm_per(job.units);
    json.object({}, JsonText::Layout::one_line)
        .member("lobe", lobes[pass.lobe].name)
        .member("kind", name_of(pass.kind))
        .member("ring", pass.kind == PassKind::roughing ? std::optional(pass.ring) : std::nullopt)
        .member("axial", pass.axial / unit)
        .member("slides_to", pass.slides_to ? std::optional(*pass.slides_to / unit) : std::nullopt)
        .member("leaves", (pass.left_on - job.cut->allowance) / unit)
        .member("depth", pass.depth / unit)
        .member("feed", pass.feed / unit)
        .member("thickest_chip",
                pass.thickest_chip > 0.0 ? std::optional(pass.thickest_chip / unit) : std::nullopt)
        .member("removed", volume_of(metal_removed(job, lobes[pass.lobe], pass), job.units))
        .member("turns", pass.turns)
        .member("blocks", pass.contour_blocks)
        .member("moves", pass.last - pass.first)
        .member("seconds", pass.seconds)
        .end();
}

/// Seconds of cutting by what settled them: "radial_speed" and the like.
void put_limits(JsonText& json, const Toolpath& path) {
    json.object("seconds_settled_by", JsonText::Layout::one_line);
    for (std::size_t i = 0; i < limit_names.size(); ++i) {
        std::string name = limit_names[i];
        std::replace(name.begin(), name.end(), ' ', '_');
        double seconds = 0.0;
        for (const Pass& pass : path.passes)
            seconds += pass.seconds_at[i];
        json.member(name, seconds);
    }
    json.end();
}

void put_advice(JsonText& json, const std::vector<Advice>& advice) {
    json.array("advice");
    for (const Advice& each : advice) {
        json.object({}, JsonText::Layout::one_line)
            .member("key", each.key)
            .member("value", each.value)
            .member("saves_minutes", each.saves)
            .member("message", each.text)
            .end();
    }
    json.end();
}

}  // namespace

std::string toolpath_totals_text(const std::vector<SolvedLobe>& lobes, const Toolpath& path) {
    int blocks = 0;
    double cutting = 0.0;
    for (const Pass& pass : path.passes) {
        blocks += pass.contour_blocks;
        cutting += pass.seconds;
    }
    std::string text = counted(static_cast<long long>(path.passes.size()), "pass", "passes") + ", " +
                       std::to_string(blocks) + " blocks along the lobes, " +
                       std::to_string(path.moves.size()) + " moves in all.\n";
    text += "Cycle time " + duration_words(path.cycle_seconds) + ", of which feed " +
            duration_words(cutting) + ".\n";
    return text + unwinding_text(path) + shares_text(path) + slow_text(lobes, path);
}

std::string toolpath_text(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path) {
    const std::string unit = unit_word(job.units);
    std::vector<Row> rows{{"lobe", "pass", "axial " + unit, "leaves " + unit, "depth " + unit, "chip " + unit,
                           job.units == Units::mm ? "cm3/min" : "in3/min", "blocks", "moves", "seconds"}};
    for (const Pass& pass : path.passes)
        rows.push_back(row_of(job, lobes, pass));
    std::string text = table_text(rows) + '\n' + toolpath_totals_text(lobes, path) + '\n' +
                       cutting_text(job, lobes, path) + common_ranges_text(job);
    const std::vector<Advice> advice = cutting_advice(job, lobes, path);
    if (!advice.empty()) text += '\n';
    for (const Advice& each : advice)
        text += (each.outside ? "Mind: " : "Quicker: ") + each.text + ".\n";
    return text;
}

namespace {

/// Of the programs that the plan comes as; nothing where it is one.
void put_programs(JsonText& json, const std::vector<std::vector<std::string>>& programs) {
    if (programs.empty()) return;
    json.array("programs");
    for (const std::vector<std::string>& lobes : programs) {
        json.object({}, JsonText::Layout::one_line).array("lobes");
        for (const std::string& lobe : lobes)
            json.item(lobe);
        json.end().end();
    }
    json.end();
}

void put_plan(JsonText& json, const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path) {
    json.member("units", units_key(job.units)).array("passes");
    int blocks = 0;
    double cutting = 0.0;
    for (const Pass& pass : path.passes) {
        put_pass(json, job, lobes, pass);
        blocks += pass.contour_blocks;
        cutting += pass.seconds;
    }
    json.end();
    json.member("blocks", blocks).member("moves", path.moves.size());
    json.member("cycle_seconds", path.cycle_seconds).member("feed_seconds", cutting);
    json.member("unwindings", path.unwindings.size()).member("unwinding_seconds", path.unwinding_seconds);
    put_limits(json, path);
    json.member("cutting_speed",
                cutting_speed(job.cutters.find(job.cut->cutter)->second, job.cut->spindle_speed));
    put_advice(json, cutting_advice(job, lobes, path));
}

}  // namespace

std::string toolpath_json(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path,
                          const std::vector<std::vector<std::string>>& programs) {
    JsonText json;
    json.object();
    put_plan(json, job, lobes, path);
    put_programs(json, programs);
    json.end();
    return json.text();
}

std::string operations_json(const std::vector<PlannedOperation>& plans) {
    JsonText json;
    json.object().array("operations");
    for (const PlannedOperation& plan : plans) {
        json.object().member("operation", plan.job.operation).member("cutter", plan.job.cut->cutter);
        put_plan(json, plan.job, plan.lobes, plan.path);
        put_programs(json, plan.programs);
        json.end();
    }
    json.end().end();
    return json.text();
}

}  // namespace lobewright
