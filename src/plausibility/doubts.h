/// Questions about a job's figures, collected; one file of them for each part of the job.
#pragma once

#include <lobewright/lobe.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewright::plausibility {

/// From least to most, mm (or whatever a figure's unit is).
struct Usual {
    double least = 0.0;
    double most = 0.0;
    [[nodiscard]] bool holds(double value) const { return value >= least && value <= most; }
};

/// mm at a valve: less closes up as the engine warms. Common practice, no source.
inline constexpr double least_valve_clearance = 0.02;

/// mm: a tolerance, a ridge or a smoothing below this is not meant in mm, since nobody at home measures it.
/// Common practice, no source.
inline constexpr double least_fine_length = 1e-4;

/// The job, and what has been asked about it so far.
class Doubts {
  public:
    Doubts(const Job& of, const std::vector<SolvedLobe>& solved);

    void ask(std::string_view path, std::string code, std::string what, std::string remedy,
             Severity severity = Severity::warning);
    /// What was asked about one of the job's operations.
    void take(const Doubts& of_operation) {
        found_.insert(found_.end(), of_operation.found_.begin(), of_operation.found_.end());
    }
    /// Each question once, like ones counted.
    [[nodiscard]] Diagnostics all() const { return told_once(found_); }

    /// In the job's units.
    [[nodiscard]] std::string length(double mm) const;
    /// The figure alone, as it would be typed.
    [[nodiscard]] std::string figure(double mm) const;
    /// What was probably meant by a length outside what is usual: the same figure in the other unit, or in
    /// thousandths of an inch, where that is usual. "if 0.006 is in inches, write 0.1524"; nothing where
    /// neither is.
    [[nodiscard]] std::optional<std::string> other_unit(double mm, Usual usual) const;

    /// mm across the largest lobe, which stands for the size of everything; 0 where there is none.
    [[nodiscard]] double largest_lobe() const { return largest_lobe_; }

    const Job& job;
    const std::vector<SolvedLobe>& lobes;

  private:
    double largest_lobe_;
    Diagnostics found_;
};

/// Whether the whole file seems to be in the other unit, or an order off. Then nothing else is worth asking.
bool doubt_whole_size(Doubts& doubts);
/// Whether a lobe's lift suits its base circle; what follows from a lift in doubt isn't asked as well.
bool has_usual_lift(const Doubts& doubts, const SolvedLobe& lobe);
/// Whether the blank suits what is to come out of it.
bool has_usual_blank(const Doubts& doubts);
/// Likewise whether its follower moves its valve as valve gear does.
bool has_usual_ratio(const SolvedLobe& lobe);
/// The blank, lifts, widths and smoothing.
void doubt_sizes(Doubts& doubts);
/// Timing cards, clearances, firing, and what the lobes make of the cards.
void doubt_cards(Doubts& doubts);
/// What stands where along the shaft and round it.
void doubt_shaft(Doubts& doubts);
/// Followers, valve gear and [contact].
void doubt_followers(Doubts& doubts);
/// [cutter], [machine] and [cut], or every [[operation]].
void doubt_cutting(Doubts& doubts);
/// [hand].
void doubt_hand_work(Doubts& doubts);

}  // namespace lobewright::plausibility
