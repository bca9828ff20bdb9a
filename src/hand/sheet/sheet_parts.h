/// The parts of the sheet for the bench, and what they share.
#pragma once

#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "hand/sheet/route.h"
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
    /// In the middle of a sentence: without needless zeros.
    [[nodiscard]] std::string brief(double mm) const { return short_length(mm, job.units, read_out); }
    [[nodiscard]] const std::string& name(std::size_t lobe) const { return lobes[lobe].name; }
    /// A round figure in either unit.
    [[nodiscard]] double round_figure(double mm, double inch) const {
        return job.units == Units::mm ? mm : inch * 25.4;
    }
    /// "12 of 96".
    [[nodiscard]] std::string count(const HandSetting& setting) const {
        return std::to_string(setting.order) + " of " + std::to_string(plan.settings.size());
    }
    [[nodiscard]] bool in_passes() const { return method.infeed.has_value(); }
    [[nodiscard]] std::string passes(const HandSetting& setting) const {
        return in_passes() ? std::to_string(setting.passes) : "";
    }
    /// What a dial shows of a length of this size: twice that on a diameter dial.
    [[nodiscard]] double on_dial(double mm) const {
        return mm * (method.dial == DialReading::diameter ? 2.0 : 1.0);
    }
};

// Steps of the work, in the order in which they are done.

/// Bar, journals and datum; before anything is set up.
void shaft_steps(const Sheet& sheet, Route& route);
/// After the noses: stone or lap, holes, hardening, gear, installing.
void finishing_steps(const Sheet& sheet, Route& route);
void installing_step(const Sheet& sheet, Route& route);

/// Offset fixture: figures of its set-up, flanks that fall between its marks, all of the work.
void fixture_figures(const Sheet& sheet, Route& route);
void flanks_off_marks(const Sheet& sheet, Route& route);
void angles_on_marks_table(const Sheet& sheet, Route& route);
void fixture_steps(const Sheet& sheet, Route& route);
void fixture_cuts(const Sheet& sheet, Route& route);

/// Dividing head and rotary table: figures of the set-up, all of the work.
void head_figures(const Sheet& sheet, Route& route);
void facet_steps(const Sheet& sheet, Route& route);

}  // namespace lobewright::hand
