/// Collects the proof's findings: the first few of a kind each by its line, the rest counted.
#pragma once

#include "proof/judge/finding_words.h"

#include <map>

namespace lobewright::proof {

class Findings {
  public:
    explicit Findings(Units units) : words_(units) {}

    void error(const char* code, int line, std::string message) {
        add(Severity::error, code, line, std::move(message));
    }
    void warn(const char* code, int line, std::string message) {
        add(Severity::warning, code, line, std::move(message));
    }

    /// Takes over findings of kinds that this has none of.
    void append(const Findings& other);

    /// In the order of the lines; what concerns no line comes last. Where a kind has more than ten, a note
    /// counts them.
    [[nodiscard]] Diagnostics sorted() const;

    [[nodiscard]] const FindingWords& words() const { return words_; }

  private:
    static constexpr int most_of_a_kind = 10;
    void add(Severity severity, const char* code, int line, std::string message);

    FindingWords words_;
    Diagnostics all_;
    std::map<std::string, int> count_;
};

}  // namespace lobewright::proof
