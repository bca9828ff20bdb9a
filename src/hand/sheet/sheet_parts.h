/// The parts of the sheet for the bench, and what they share.
#pragma once

#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "base/text/markdown.h"
#include "hand/wording/part_names.h"

#include <lobewright/hand.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright::hand {

/// Decimals of the machine's read-out.
inline constexpr Decimals read_out{3, 4};

struct Sheet {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    const HandPlan& plan;
    const HandMethod& method;
    bool marks;  ///< an offset fixture's wheel, else a head or table

    [[nodiscard]] std::string figure(double mm) const { return fixed_length(mm, job.units, read_out); }
    /// Empty where there is no value.
    [[nodiscard]] std::string figure(const std::optional<double>& mm) const { return mm ? figure(*mm) : ""; }
    [[nodiscard]] const std::string& name(std::size_t lobe) const { return lobes[lobe].name; }
    /// "12 of 96".
    [[nodiscard]] std::string count(const HandSetting& setting) const {
        return std::to_string(setting.order) + " of " + std::to_string(plan.settings.size());
    }
    [[nodiscard]] bool in_passes() const { return method.infeed.has_value(); }
    [[nodiscard]] std::string passes(const HandSetting& setting) const {
        return in_passes() ? std::to_string(setting.passes) : "";
    }
};

/// A section's heading below another section.
std::string next_heading(const std::string& text);
/// The cells with that of the passes before the last, where the method has an infeed.
std::vector<std::string> with_passes(const Sheet& sheet, std::vector<std::string> cells,
                                     const std::string& passes);
/// What to do with the ridges when all is cut.
std::string dressing_words(const Sheet& sheet);

/// Offset fixture: figures of its set-up, flanks that fall between its marks, all of the work.
std::string fixture_figures(const Sheet& sheet);
std::string flanks_off_marks(const Sheet& sheet);
std::string fixture_work(const Sheet& sheet);

/// Dividing head and rotary table: figures of the set-up, all of the work.
std::string head_figures(const Sheet& sheet);
std::string facet_work(const Sheet& sheet);

}  // namespace lobewright::hand
