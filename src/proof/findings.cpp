#include "proof/findings.h"

#include <algorithm>

namespace lobewright::proof {

void Findings::add(Severity severity, const char* code, int line, std::string message) {
    if (++count_[code] <= most_of_a_kind) all_.push_back({severity, code, std::move(message), line});
}

std::vector<ProofFinding> Findings::sorted() const {
    std::vector<ProofFinding> findings = all_;
    for (const auto& [code, count] : count_) {
        if (count <= most_of_a_kind) continue;
        findings.push_back(
            {Severity::note, code,
             "the same happens " + std::to_string(count - most_of_a_kind) + " times more (" + code + ")", 0});
    }
    const auto rank = [](const ProofFinding& f) {
        return f.line > 0 ? f.line : std::numeric_limits<int>::max();
    };
    std::stable_sort(findings.begin(), findings.end(),
                     [&](const ProofFinding& a, const ProofFinding& b) { return rank(a) < rank(b); });
    return findings;
}

}  // namespace lobewright::proof
