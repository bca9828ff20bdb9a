/// What must be right around the cutting: the tool, its length, the side axis, where the program changes
/// tools and where it ends.
#pragma once

#include "proof/judge/findings.h"

#include <lobewright/program_reader.h>

#include <optional>

namespace lobewright::proof {

/// What the job and the dialect ask for, in the reader's own terms.
struct WantedSetup {
    int tool = 0;             ///< 0: the dialect's lines name none
    int length = 0;           ///< 0: the dialect knows no lengths
    double side = 0.0;        ///< mm towards φ + 90°
    double side_step = 0.0;   ///< mm, of the side word's last decimal
    double clear_word = 0.0;  ///< mm of radius: the radial word at which the cutter stands clear of the shaft
    std::optional<ToolChange> place;
    double slack = 0.0;  ///< mm that a word may miss a place by: half a step of the coarser of the two
    bool has_home = false;
    bool must_change = false;  ///< the tool is put in after another has cut
};
/// `clear`: mm from the shaft's axis to the cutter's tip, the clearance included; `tip_from_word`: mm from
/// the radial word to the tip.
WantedSetup wanted_setup(const Job& job, const Dialect& dialect, double clear, double tip_from_word);

class SetupChecks {
  public:
    SetupChecks(const WantedSetup& wanted, Units units) : wanted_(wanted), findings_(units) {}

    /// The next move.
    void take(const ReadMove& move);
    /// After the last move.
    const Findings& finish(const ProgramFacts& facts);
    /// After finish().
    [[nodiscard]] bool ends_clear() const { return ends_clear_; }

  private:
    void check_length(const ReadMove& move);
    void check_side(const ReadMove& move);
    void check_change(const ToolChanged& change);
    void check_end();
    [[nodiscard]] bool at_place(double radial, double axial) const;

    WantedSetup wanted_;
    Findings findings_;
    std::optional<ReadMove> last_;
    bool length_told_ = false, side_told_ = false, ends_clear_ = false;
};

}  // namespace lobewright::proof
