/// A toolpath's places and times as words of a dialect.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/toolpath.h>

#include <array>
#include <string>
#include <vector>

namespace lobewright::post {

/// Turns places into axis words, and keeps what the controller already knows: an axis word is left out where
/// it prints the same as the last one, unless the dialect repeats them.
class AxisWords {
  public:
    AxisWords(const Dialect& dialect, Units units);

    /// The words that bring the machine from the last place to `to`; empty where it stands there already.
    std::vector<std::string> move_to(const Words& to);
    /// One axis's word alone, from an unknown place.
    std::string radial(long long steps);
    std::string axial(long long steps);
    std::string rotary(long long steps);
    /// The side axis's word for so many mm towards φ + 90°; empty where the dialect has no such axis.
    [[nodiscard]] std::string side(double shift) const;
    /// Nothing is known any more of where the radial and the axial axis stand.
    void forget_places();

  private:
    /// The number that the dialect writes for a rotary place, coming from `from`.
    [[nodiscard]] long long rotary_number(long long from, long long to) const;
    std::string word(std::size_t axis, long long number);

    const Dialect& dialect_;
    Units units_;
    std::array<AxisWord, 3> axes_;  // radial, axial, rotary
    std::array<int, 3> decimals_;
    std::array<std::string, 3> printed_;
    Words at_;
    long long turn_;  // steps
};

/// The number after F, in steps of its last decimal, that gives a move its time: rounded so that the
/// controller never takes less than that time. `exact` is the number before rounding.
struct FeedNumber {
    double exact = 0.0;
    long long steps = 0;
    double printed = 0.0;  ///< steps as a number
};
/// Inverse time: 1/minutes or seconds, as the dialect has it (NIST IR 6556, 3.5.19). Per minute: the way that
/// the dialect counts for this block (2.1.2.5: linear axes alone if any moves, else degrees; or mixed), by
/// the minutes that it shall take. Required: seconds > 0; the dialect has a rule where it is per minute.
FeedNumber feed_number(const Dialect& dialect, Units units, const WordGrid& grid, const Words& from,
                       const Words& to, double seconds);

}  // namespace lobewright::post
