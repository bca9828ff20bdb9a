#include "job/layout.h"

#include "base/text/typed_length.h"
#include "base/whole_steps.h"
#include "job/complaint.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

constexpr double touching = 1e-9;  // mm: neighbours may share a face

/// A stretch of the shaft that belongs to a lobe or a journal.
struct Stretch {
    std::string name;  ///< lobe '1 inlet', journal at 6
    std::string path;
    double from = 0.0;
    double to = 0.0;
};

/// Rounded up, so that a remedy's figure is large enough.
std::string at_least(const Job& job, double mm) {
    const double step = mm_per(job.units) * 1e-4;
    return length_words(static_cast<double>(step_above(mm / step)) * step, job.units);
}

std::string range_text(const Job& job, const Stretch& stretch) {
    return "z " + short_length(stretch.from, job.units, {4, 4}) + " to " +
           length_words(stretch.to, job.units);
}

std::vector<Stretch> stretches(const Job& job, const std::set<std::string>& unsound) {
    std::vector<Stretch> all;
    const auto add = [&](std::string name, const std::string& list, std::size_t i, double z, double width) {
        const std::string path = list + '[' + std::to_string(i) + ']';
        if (unsound.count(list) > 0 || unsound.count(path) > 0) return;
        all.push_back({std::move(name), path + ".z", z - width / 2.0, z + width / 2.0});
    };
    for (std::size_t i = 0; i < job.lobes.size(); ++i)
        add("lobe '" + job.lobes[i].name + "'", "lobe", i, job.lobes[i].z, job.lobes[i].width);
    for (std::size_t i = 0; i < job.shaft.journals.size(); ++i) {
        const Journal& journal = job.shaft.journals[i];
        add("the journal at z = " + short_length(journal.z, job.units, {4, 4}), "shaft.journal", i, journal.z,
            journal.width);
    }
    return all;
}

/// Along the shaft, each against whatever before it reaches furthest.
void check_overlaps(const Job& job, std::vector<Stretch> all, Diagnostics& complaints) {
    std::stable_sort(all.begin(), all.end(),
                     [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
    const Stretch* reaching = nullptr;
    for (const Stretch& next : all) {
        if (reaching != nullptr && next.from < reaching->to - touching) {
            const double least = reaching->to + (next.to - next.from) / 2.0;
            complaints.push_back(
                refusal(job, next.path, "overlap",
                        next.name + " (" + range_text(job, next) + ") overlaps " + reaching->name + " (" +
                            range_text(job, *reaching) + ")",
                        "move it to z = " + at_least(job, least) + " or more, or make one of them narrower"));
        }
        if (reaching == nullptr || next.to > reaching->to) reaching = &next;
    }
}

void check_ends(const Job& job, const std::vector<Stretch>& all, Diagnostics& complaints) {
    if (!job.shaft.length) return;
    for (const Stretch& stretch : all) {
        if (stretch.from >= -touching && stretch.to <= *job.shaft.length + touching) continue;
        complaints.push_back(refusal(job, stretch.path, "off-the-shaft",
                                     stretch.name + " (" + range_text(job, stretch) +
                                         ") is not within the shaft's length of " +
                                         length_words(*job.shaft.length, job.units),
                                     "move it, or mend shaft.length"));
    }
}

double largest_lift(const TableProfile& profile) {
    double largest = 0.0;
    for (const Reading& reading : profile.readings)
        largest = std::max(largest, reading.lift);
    return largest;
}
double largest_lift(const SegmentsProfile& profile) {
    double largest = 0.0;
    for (const Segment& segment : profile.segments)
        largest = std::max(largest, segment.to.value_or(0.0));
    return largest;
}

/// Shaft axis to nose, where that is base_radius + lift exactly: arcs, and motions of a follower on the axis.
std::optional<double> nose_distance(const Job& job, const LobeEntry& lobe) {
    const Profile& profile = job.profiles.find(lobe.profile)->second;
    const Follower& follower = job.followers.find(lobe.follower)->second;
    if (const auto* arcs = std::get_if<ArcsProfile>(&profile)) return arcs->base_radius + arcs->lift;
    const bool on_the_axis = follower.offset == 0.0 && follower.face_tilt.radians() == 0.0;
    if (follower.kind == FollowerKind::pivoted || !on_the_axis) return std::nullopt;
    if (const auto* motion = std::get_if<MotionProfile>(&profile)) return motion->base_radius + motion->lift;
    if (const auto* segments = std::get_if<SegmentsProfile>(&profile))
        return segments->base_radius + largest_lift(*segments);
    if (const auto* fullest = std::get_if<FullestProfile>(&profile)) {
        if (!fullest->lift) return std::nullopt;
        return fullest->base_radius + *fullest->lift;
    }
    const auto& table = std::get<TableProfile>(profile);
    return table.base_radius + largest_lift(table);
}

Diagnostics faults_of(const Job& job, const std::vector<Stretch>& all) {
    Diagnostics faults;
    check_overlaps(job, all, faults);
    check_ends(job, all, faults);
    return faults;
}

}  // namespace

Diagnostics faults_along_shaft(const Job& job) {
    return faults_of(job, stretches(job, {}));
}

Diagnostics faults_of_blank(const Job& job, const std::vector<LobeReach>& lobes) {
    const auto widest = std::max_element(lobes.begin(), lobes.end(),
                                         [](const auto& a, const auto& b) { return a.radius < b.radius; });
    const auto blank = job.shaft.blank();
    if (!blank || widest == lobes.end()) return {};
    if (2.0 * widest->radius <= *blank + touching) return {};
    return {refusal(job, job.shaft.blank_measured ? "shaft.blank_measured" : "shaft.blank_diameter",
                    "blank-too-small",
                    "the blank is " + length_words(*blank, job.units) + " across, lobe '" + widest->lobe +
                        "' reaches " + length_words(widest->radius, job.units) + " from the axis",
                    "take a blank of at least " + at_least(job, 2.0 * widest->radius) +
                        ", or lower base_radius or lift")};
}

Diagnostics layout_faults(const Job& job, const std::set<std::string>& unsound, bool whole) {
    Diagnostics faults = faults_of(job, stretches(job, unsound));
    if (!whole) return faults;
    std::vector<LobeReach> lobes;
    for (const LobeEntry& lobe : job.lobes) {
        if (const auto distance = nose_distance(job, lobe)) lobes.push_back({lobe.name, *distance});
    }
    const Diagnostics blank = faults_of_blank(job, lobes);
    faults.insert(faults.end(), blank.begin(), blank.end());
    return faults;
}

}  // namespace lobewright
