/// A plan by the tests' one method, which must succeed, or fail.
#pragma once

#include "catch.h"
#include "hand_jobs.h"

#include <regex>

namespace hand_jobs {

inline HandPlan planned_bench(const Job& job, const std::vector<SolvedLobe>& lobes) {
    auto plan = plan_hand(job, lobes, "bench");
    for (const Diagnostic& diagnostic : plan.diagnostics())
        UNSCOPED_INFO(to_text(diagnostic));
    REQUIRE(plan.ok());
    return std::move(plan).value();
}

/// All that is said where there must be none.
inline std::string refused_bench(const Job& job, const std::vector<SolvedLobe>& lobes) {
    const auto plan = plan_hand(job, lobes, "bench");
    REQUIRE_FALSE(plan.ok());
    std::string text;
    for (const Diagnostic& diagnostic : plan.diagnostics())
        text += to_text(diagnostic) + '\n';
    return text;
}

inline std::vector<std::string> codes_of(const HandPlan& plan) {
    std::vector<std::string> codes;
    for (const Diagnostic& finding : plan.findings)
        codes.push_back(finding.code);
    return codes;
}

inline const Diagnostic* finding_of(const HandPlan& plan, const std::string& code) {
    for (const Diagnostic& finding : plan.findings)
        if (finding.code == code) return &finding;
    return nullptr;
}

/// A sheet's sentences in one line each, however they were broken.
inline std::string unbroken(const std::string& text) {
    return std::regex_replace(text, std::regex("\n *"), " ");
}

}  // namespace hand_jobs
