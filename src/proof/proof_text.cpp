#include "base/text/characters.h"
#include "base/text/column_layout.h"
#include "base/text/duration_words.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"
#include "proof/reader/line_cutter.h"

#include <lobewright/number_text.h>
#include <lobewright/proof.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

constexpr Decimals deviation_decimals{5, 7};

std::string signed_length(double mm, Units units) {
    const std::string text = fixed_length(mm, units, deviation_decimals);
    return text.front() == '-' ? text : '+' + text;
}

std::string fine_length(double mm, Units units) {
    return with_unit(short_length(mm, units, {6, 8}), units);
}

std::string coarse_length(double mm, Units units) {
    return with_unit(short_length(mm, units, {3, 4}), units);
}

std::vector<std::string> deviation_cells(const Deviation& d, Units units) {
    return {signed_length(d.along_normal, units), fixed(d.at.degrees(), 2), fixed_length(d.z, units, {2, 3}),
            d.line > 0 ? std::to_string(d.line) : "-"};
}

std::string heel_cell(const LobeVerdict& lobe, Units units) {
    return lobe.heel_runout ? fixed_length(*lobe.heel_runout, units, deviation_decimals) : "-";
}

std::string lobe_table(const Job& job, const ProofReport& report) {
    std::vector<std::vector<std::string>> rows{
        {"lobe", "deepest", "at", "z", "line", "proudest", "at", "z", "line", "heel run-out", ""}};
    for (const LobeVerdict& lobe : report.lobes) {
        std::vector<std::string> row{lobe.name};
        for (const Deviation& deviation : {lobe.deepest, lobe.proudest})
            for (std::string& cell : deviation_cells(deviation, job.units))
                row.push_back(std::move(cell));
        row.push_back(heel_cell(lobe, job.units));
        row.emplace_back(lobe.within ? "" : "  OUT");
        rows.push_back(std::move(row));
    }
    std::vector<ColumnStyle> styles{{Flush::left}};
    for (const std::size_t least : {12, 9, 9, 7, 12, 9, 9, 7, 14})
        styles.push_back({Flush::right, least});
    styles.push_back({Flush::left});
    return in_columns(rows, styles, "", "  ");
}

std::string finding_text(const Diagnostic& finding, const ProgramLines& lines) {
    std::string text = std::string("  ") + severity_word(finding.severity);
    if (finding.place.line > 0) text += ", line " + std::to_string(finding.place.line);
    text += ": " + finding.what + '\n';
    const auto line = lines.find(finding.place.line);
    if (line != lines.end()) text += "      | " + printable(line->second) + '\n';
    return text;
}

std::string taken_text(const Job& job, const ProofReport& report) {
    if (report.largest_depth_line == 0) return {};
    std::string text = "  a block takes " + coarse_length(report.largest_depth, job.units) +
                       " at most (line " + std::to_string(report.largest_depth_line) + ")";
    if (report.thickest_chip)
        text += ", a tooth's chip is " + coarse_length(*report.thickest_chip, job.units);
    return text + (report.ends_clear ? "; it ends clear of the shaft\n" : "; it does not end clear\n");
}

void put_lobe(JsonText& json, const LobeVerdict& lobe, double unit) {
    json.object({}, JsonText::Layout::one_line)
        .member("name", lobe.name)
        .member("deepest", lobe.deepest.along_normal / unit)
        .member("deepest_at", lobe.deepest.at.degrees())
        .member("deepest_z", lobe.deepest.z / unit)
        .member("deepest_line", lobe.deepest.line)
        .member("proudest", lobe.proudest.along_normal / unit)
        .member("proudest_at", lobe.proudest.at.degrees())
        .member("proudest_z", lobe.proudest.z / unit)
        .member("proudest_line", lobe.proudest.line)
        .member("heel_runout", lobe.heel_runout ? std::optional(*lobe.heel_runout / unit) : std::nullopt)
        .member("cut", lobe.cut)
        .end();
}

}  // namespace

Outcome<ProgramLines> lines_with_findings(const ProofReport& report, const TextPieces& pieces) {
    ProgramLines lines;
    int last = 0;
    for (const Diagnostic& finding : report.findings) {
        if (finding.place.line > 0) lines[finding.place.line];
        last = std::max(last, finding.place.line);
    }
    int number = 0;
    const auto take = [&](std::string_view line) {
        const auto wanted = lines.find(++number);
        if (wanted != lines.end()) wanted->second = line.substr(0, line.find_last_not_of("\r ") + 1);
        return number < last;
    };
    proof::LineCutter cutter;
    while (number < last) {
        const Outcome<std::string_view> piece = pieces();
        if (!piece) return piece.diagnostics();
        if (!piece->empty()) {
            cutter.cut(*piece, take);
            continue;
        }
        cutter.finish(take);
        break;
    }
    return lines;
}

std::string proof_text(const Job& job, const ProofReport& report, const std::string& program_text) {
    return proof_text(job, report, *lines_with_findings(report, pieces_of(program_text)));
}

std::string proof_text(const Job& job, const ProofReport& report, const ProgramLines& lines) {
    const auto errors = std::count_if(report.findings.begin(), report.findings.end(),
                                      [](const Diagnostic& f) { return f.severity == Severity::error; });
    std::string text = job.title + ": what the program leaves, against the design along the normal\n\n";
    text += lobe_table(job, report);
    text += "\n  tolerance " + own_figure(report.tolerance, job.units) + " either way";
    if (report.blending > 0.0) text += ", of which blending takes " + fine_length(report.blending, job.units);
    text += "; deviations in " + std::string(unit_word(job.units)) + ", found to " +
            fine_length(report.resolution, job.units) + ", at in degrees of shaft angle\n";
    text += "  " + std::to_string(report.blocks) + " blocks, " + duration_words(report.cycle_seconds) +
            "; rapids in stock: " +
            (report.rapids_in_stock == 0 ? "none" : std::to_string(report.rapids_in_stock)) + '\n';
    text += taken_text(job, report);
    if (!report.findings.empty()) text += "\nFindings\n";
    for (const Diagnostic& finding : report.findings)
        text += finding_text(finding, lines);
    text += '\n';
    if (!report.within_tolerance) {
        text += "NOT PROVEN: the lobes do not come out within the tolerance.\n";
    } else if (errors > 0) {
        text += "NOT PROVEN: the lobes come out within the tolerance, but see the findings.\n";
    } else {
        text += "Proven: every lobe comes out within the tolerance.\n";
    }
    return text;
}

namespace {

void put_proof(JsonText& json, const Job& job, const ProofReport& report) {
    const double unit = mm_per(job.units);
    json.member("within_tolerance", report.within_tolerance)
        .member("tolerance", report.tolerance / unit)
        .member("resolution", report.resolution / unit)
        .member("blending", report.blending / unit);
    json.array("lobes");
    for (const LobeVerdict& lobe : report.lobes)
        put_lobe(json, lobe, unit);
    json.end();
    json.member("rapids_in_stock", report.rapids_in_stock)
        .member("ends_clear", report.ends_clear)
        .member("largest_depth", report.largest_depth / unit)
        .member("largest_depth_line",
                report.largest_depth_line > 0 ? std::optional(report.largest_depth_line) : std::nullopt)
        .member("thickest_chip",
                report.thickest_chip ? std::optional(*report.thickest_chip / unit) : std::nullopt)
        .member("blocks", report.blocks)
        .member("cycle_seconds", report.cycle_seconds);
    json.array("findings");
    for (const Diagnostic& finding : report.findings) {
        json.object({}, JsonText::Layout::one_line)
            .member("severity", severity_word(finding.severity))
            .member("code", finding.code)
            .member("line", finding.place.line > 0 ? std::optional(finding.place.line) : std::nullopt)
            .member("message", finding.what)
            .end();
    }
    json.end();
}

}  // namespace

std::string proof_json(const Job& job, const ProofReport& report) {
    JsonText json;
    json.object();
    put_proof(json, job, report);
    json.end();
    return json.text();
}

std::string proofs_json(const std::vector<OperationCut>& operations,
                        const std::vector<ProofReport>& reports) {
    JsonText json;
    json.object().array("operations");
    for (std::size_t i = 0; i < operations.size(); ++i) {
        const Job& job = operations[i].job;
        json.object().member("operation", job.operation).member("cutter", job.cut->cutter);
        put_proof(json, job, reports[i]);
        json.end();
    }
    json.end().end();
    return json.text();
}

}  // namespace lobewright
