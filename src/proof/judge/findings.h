/// Collects the proof's findings: the first few of a kind each by its line, the rest counted.
#pragma once

#include "base/text/length_text.h"

#include <lobewright/number_text.h>
#include <lobewright/proof.h>

#include <map>

namespace lobewright::proof {

class Findings {
  public:
    explicit Findings(Units units) : units_(units) {}

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

    /// "0.0123 mm" or "0.00048 in".
    [[nodiscard]] std::string length(double mm) const {
        return with_unit(short_length(mm, units_, {5, 6}), units_);
    }
    /// "850 mm/min", of a speed in mm/min.
    [[nodiscard]] std::string speed(double mm_per_minute) const {
        return with_unit(short_length(mm_per_minute, units_, {1, 3}), units_) + "/min";
    }
    static std::string degrees(double degrees) { return shortest_fixed(degrees, 3) + " degrees"; }

  private:
    static constexpr int most_of_a_kind = 10;
    void add(Severity severity, const char* code, int line, std::string message);

    Units units_;
    Diagnostics all_;
    std::map<std::string, int> count_;
};

}  // namespace lobewright::proof
