#include "proof/judge/findings.h"

#include <algorithm>

namespace lobewright::proof {

void Findings::add(Severity severity, const char* code, int line, std::string message) {
    if (++count_[code] <= most_of_a_kind)
        all_.push_back(finding_in_line(severity, code, line, std::move(message)));
}

void Findings::append(const Findings& other) {
    all_.insert(all_.end(), other.all_.begin(), other.all_.end());
    count_.insert(other.count_.begin(), other.count_.end());
}

Diagnostics Findings::sorted() const {
    Diagnostics findings = all_;
    for (const auto& [code, count] : count_) {
        if (count <= most_of_a_kind) continue;
        findings.push_back(finding_in_line(
            Severity::note, code, 0,
            "the same happens " + std::to_string(count - most_of_a_kind) + " times more (" + code + ")"));
    }
    const auto rank = [](const Diagnostic& f) {
        return f.place.line > 0 ? f.place.line : std::numeric_limits<int>::max();
    };
    std::stable_sort(findings.begin(), findings.end(),
                     [&](const Diagnostic& a, const Diagnostic& b) { return rank(a) < rank(b); });
    return findings;
}

}  // namespace lobewright::proof
