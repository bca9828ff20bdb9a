#include "fuzz_promises.h"
#include "fuzz_runs.h"
#include "fuzz_subjects.h"

#include <lobewright/inspect_fit.h>
#include <lobewright/inspect_readings.h>
#include <lobewright/inspect_shape.h>
#include <lobewright/job_file.h>
#include <lobewright/lift_table.h>
#include <lobewright/soundness.h>

#include <algorithm>
#include <cctype>

using namespace lobewright;

namespace {

constexpr std::size_t most_solved = 60;     // readings of a table
constexpr std::size_t most_inspected = 40;  // readings of a lobe

/// A job of one lobe whose lift stands in the table; `smoothing` where the first line has a number.
std::string job_of_table(const HeadedText& table) {
    std::string smoothing;
    for (const std::string& word : table.choices)
        if (std::isdigit(static_cast<unsigned char>(word.front())) != 0 && word.size() < 8)
            smoothing = "smoothing = " + word + "\n";
    return "layout = 1\njob = { units = \"" + std::string(chosen(table, "inch") ? "inch" : "mm") +
           "\" }\nshaft = { turns = \"cw\" }\n[profile.traced]\nshape = \"table\"\nbase_radius = 9\n"
           "file = \"table.csv\"\n" +
           smoothing + "[follower.f]\nkind = \"" +
           (chosen(table, "roller") ? "roller\"\nradius = 6\n" : "flat\"\n") +
           "[[lobe]]\nname = \"a\"\nprofile = \"traced\"\nfollower = \"f\"\nat = 10\nz = 5\nwidth = 4\n";
}

void solve_table(const Job& job, const std::string& text) {
    const auto& profile = std::get<TableProfile>(job.profiles.begin()->second);
    if (profile.readings.size() > most_solved) return;
    const auto lobes = solve_lobes(job);
    if (!lobes) return hold_complaints(lobes.diagnostics(), text, "table.csv");
    const JobReport report = judge(job, *lobes);
    hold_figures(report_json(job, report));
    const auto rows = lift_table(lobes->front(), CamAngle::from_degrees(45.0));
    hold_figures(lift_table_text(rows, lobes->front(), job.units, TableFormat::json));
}

/// "columns:cam_angle,reading" of the first line.
ReadingsFormat format_of(const HeadedText& readings) {
    ReadingsFormat format;
    format.reversed = chosen(readings, "reversed");
    if (chosen(readings, "inch")) format.mm_per_reading = 25.4;
    for (const std::string& word : readings.choices) {
        if (!word.starts_with("columns:")) continue;
        for (std::size_t from = 8, end = 0; end != std::string::npos; from = end + 1) {
            end = word.find(',', from);
            format.columns.push_back(word.substr(from, end == std::string::npos ? end : end - from));
        }
    }
    return format;
}

void inspect_it(const MeasuredLobe& measured, const HeadedText& readings) {
    const Subject& subject = subject_in(Units::mm);
    const InspectRequest request{chosen(readings, "zero"), chosen(readings, "runout"), 0.01};
    if (chosen(readings, "arcs")) {
        const auto arcs = fit_arcs(subject.job, subject.lobes, measured, request);
        if (!arcs) return hold_complaints(arcs.diagnostics(), readings.text, "readings.csv");
        return hold_figures(arcs_json(*arcs, subject.lobes.front(), Units::mm));
    }
    const auto found = inspect_lobe(subject.job, subject.lobes, measured, request);
    if (!found) return hold_complaints(found.diagnostics(), readings.text, "readings.csv");
    hold_remarks(found->findings, readings.text, "readings.csv");
    for (const InspectFormat format : {InspectFormat::json, InspectFormat::text})
        hold_figures(inspection_text(subject.job, subject.lobes, {*found}, format));
}

}  // namespace

void run_table(const std::string& text, FuzzDepth depth) {
    const HeadedText table = headed(text);
    const auto neighbour = [&](const std::string&) { return Outcome<std::string>(table.text); };
    const Outcome<Job> job = read_job(job_of_table(table), "job.toml", neighbour);
    if (!job) return hold_complaints(job.diagnostics(), table.text, "table.csv");
    if (depth == FuzzDepth::works) solve_table(*job, table.text);
}

void run_readings(const std::string& text, FuzzDepth depth) {
    const HeadedText readings = headed(text);
    const Subject& subject = subject_in(Units::mm);
    ReadingsSubject of{subject.job, subject.lobes, std::nullopt, std::nullopt};
    if (!chosen(readings, "named")) of.lobe = 0;
    if (chosen(readings, "marks")) of.method = subject.job.hand.at("lathe");
    const auto measured = read_measured(readings.text, "readings.csv", format_of(readings), of);
    if (!measured) return hold_complaints(measured.diagnostics(), readings.text, "readings.csv");
    if (depth == FuzzDepth::reads) return;
    for (const MeasuredLobe& lobe : *measured)
        if (lobe.readings.size() <= most_inspected) inspect_it(lobe, readings);
}
