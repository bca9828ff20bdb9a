#include "plausibility/doubts.h"

#include "base/text/typed_length.h"
#include "job/complaint.h"

#include <lobewright/number_text.h>

#include <algorithm>

namespace lobewright::plausibility {
namespace {

constexpr double thousandth = 0.0254;  // mm
/// Figures that people give in thousandths of an inch.
constexpr Usual in_thousandths{2.0, 500.0};

double base_and_lift(const Profile& profile) {
    if (const auto* arcs = std::get_if<ArcsProfile>(&profile)) return arcs->base_radius + arcs->lift;
    if (const auto* motion = std::get_if<MotionProfile>(&profile)) return motion->base_radius + motion->lift;
    if (const auto* segments = std::get_if<SegmentsProfile>(&profile)) return segments->base_radius;
    if (const auto* fullest = std::get_if<FullestProfile>(&profile))
        return fullest->base_radius + fullest->lift.value_or(0.0);
    return std::get<TableProfile>(profile).base_radius;
}

double largest_of(const Job& job, const std::vector<SolvedLobe>& lobes) {
    double largest = 0.0;
    for (const SolvedLobe& lobe : lobes)
        largest = std::max(largest, 2.0 * lobe.contour.largest_radius());
    if (!lobes.empty()) return largest;
    for (const LobeEntry& lobe : job.lobes)
        largest = std::max(largest, 2.0 * base_and_lift(job.profiles.find(lobe.profile)->second));
    return largest;
}

}  // namespace

Doubts::Doubts(const Job& of, const std::vector<SolvedLobe>& solved)
    : job(of), lobes(solved), largest_lobe_(largest_of(of, solved)) {}

void Doubts::ask(std::string_view path, std::string code, std::string what, std::string remedy,
                 Severity severity) {
    Diagnostic question = refusal(job, path, std::move(code), std::move(what), std::move(remedy));
    question.severity = severity;
    found_.push_back(std::move(question));
}

std::string Doubts::length(double mm) const {
    return length_words(mm, job.units);
}

std::string Doubts::figure(double mm) const {
    return short_length(mm, job.units, sentence_decimals);
}

std::optional<std::string> Doubts::other_unit(double mm, Usual usual) const {
    const double typed = mm / mm_per(job.units);
    const auto meant = [&](const char* unit, double in_mm) {
        return "if " + figure(mm) + " is in " + unit + ", write " + figure(in_mm);
    };
    const bool metric = job.units == Units::mm;
    const double other = typed * (metric ? mm_per(Units::inch) : 1.0);
    if (usual.holds(other)) return meant(metric ? "inches" : "mm", other);
    if (in_thousandths.holds(typed) && usual.holds(typed * thousandth))
        return meant("thousandths of an inch", typed * thousandth);
    return std::nullopt;
}

}  // namespace lobewright::plausibility
