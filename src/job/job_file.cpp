#include "job/job_reading.h"
#include "job/layout.h"

#include <lobewright/job_file.h>
#include <lobewright/operations.h>

#include <algorithm>

namespace lobewright {
namespace {

/// Tables stand where their name does, everything else where its value does: where complaints point.
void record_places(const Node& node, const std::string& path, Job& job) {
    if (!path.empty()) job.places.emplace(path, node.kind == Node::Kind::table ? node.key_place : node.place);
    std::size_t index = 0;
    for (const Node& member : node.members) {
        const bool in_table = node.kind == Node::Kind::table;
        const std::string step = in_table ? member.key : '[' + std::to_string(index++) + ']';
        record_places(member, in_table && !path.empty() ? path + '.' + step : path + step, job);
    }
}

/// The tables of which there may be several.
const std::vector<std::string> list_names = {"lobe", "shaft.journal", "shaft.hole", "operation"};

void read_layout(JobTable& file) {
    const auto layout = file.number("layout");
    if (!file.has("layout")) file.missing("layout", "begin the file with layout = 1");
    if (!layout || *layout == 1.0) return;
    file.complain("layout", "layout", "this file's layout is not 1", "this program reads layout = 1 alone");
}

/// Before everything else: the units settle what lengths mean.
void read_header(JobTable& file) {
    const Node* node = file.table("job");
    if (!file.has("job")) file.missing("job", "add [job] with units = \"mm\" or \"inch\"");
    if (node == nullptr) return;
    JobTable table(*node, "job", file.reading());
    Job& job = file.reading().job;
    job.title = table.string("title").value_or("");
    job.units = table.required_choice<Units>("units", {"mm", "inch"}).value_or(Units::mm);
    table.finish();
}

/// As one reads the file, from the top; what other files say comes after it.
void sort_by_place(Diagnostics& complaints, const std::string& file) {
    std::stable_sort(complaints.begin(), complaints.end(), [&](const Diagnostic& a, const Diagnostic& b) {
        const bool a_other = a.place.file != file, b_other = b.place.file != file;
        if (a_other || b_other) return !a_other && b_other;
        return std::pair(a.place.line, a.place.column) < std::pair(b.place.line, b.place.column);
    });
}

void read_all(JobTable& file) {
    read_layout(file);
    read_header(file);
    read_shaft(file);
    read_engine(file);
    read_profiles(file);
    read_followers(file);
    read_lobes(file);
    read_contact(file);
    read_cutters(file);
    read_stock(file);
    read_machines(file);
    read_cuts(file);
    read_hand(file);
    read_probe(file);
    file.finish();
}

}  // namespace

Outcome<Job> read_job(const std::string& text, const std::string& file, const ReadNeighbour& neighbour) {
    auto [root, complaints] = parse_document(text, file, list_names);
    if (!root) return complaints;
    Job job;
    job.file = file;
    record_places(*root, "", job);
    JobReading reading{*root, neighbour, job, complaints};
    JobTable whole(*root, "", reading);
    read_all(whole);
    const Diagnostics faults = layout_faults(job, reading.unsound, complaints.empty());
    complaints.insert(complaints.end(), faults.begin(), faults.end());
    if (complaints.empty()) complaints = cuts_in_air(job);
    if (complaints.empty()) return job;
    sort_by_place(complaints, file);
    return complaints;
}

}  // namespace lobewright
