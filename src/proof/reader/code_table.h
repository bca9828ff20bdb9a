/// What the G and M words of a program do in a dialect.
#pragma once

#include <lobewright/dialect.h>

#include <array>
#include <cstdint>
#include <string_view>

namespace lobewright::proof {

/// What a word asks for.
enum class Act : std::uint8_t {
    unknown,
    lacking,    ///< the dialect says that its controller does not have it
    refused,    ///< known to the standard, and not to be simulated; see refusal_of
    elsewhere,  ///< a work offset other than the dialect's first
    harmless,   ///< changes nothing that matters here
    rapid,
    feed,
    arc_cw,
    arc_ccw,
    motion_off,
    dwell,
    plane_xy,
    plane_zx,
    plane_yz,
    absolute,
    incremental,
    inverse_time,
    per_minute,
    per_turn,
    mm,
    inch,
    job_zero,
    exact_path,
    blend,
    diameter,
    radius,
    stop,
    end,
    spindle_cw,
    spindle_ccw,
    spindle_off,
    tool_change,
    length_on,
    length_off,
    coolant,
};

inline bool is_arc(Act act) {
    return act == Act::arc_cw || act == Act::arc_ccw;
}
inline bool is_motion(Act act) {
    return act == Act::rapid || act == Act::feed || is_arc(act);
}

/// Modal groups, NIST IR 6556 table 4 (diameter: later dialects); one word of a group in a block.
enum class Group : std::uint8_t {
    none,
    non_modal,
    motion,
    plane,
    distance,
    arc_distance,
    feed_mode,
    units,
    radius_compensation,
    length_offset,
    retract,
    work_offset,
    path_control,
    diameter,
    spindle_mode,
    m_stop,
    m_tool,
    m_spindle,
    m_coolant,
    m_override,
    count,
};
inline constexpr std::size_t group_count = static_cast<std::size_t>(Group::count);

struct Code {
    Act act = Act::unknown;
    Group group = Group::none;
};

class CodeTable {
  public:
    explicit CodeTable(const Dialect& dialect);

    /// `tenths`: ten times the number after G.
    [[nodiscard]] Code g(int tenths) const { return in(g_, tenths); }
    [[nodiscard]] Code m(int number) const { return in(m_, number); }

  private:
    template <std::size_t size>
    static Code in(const std::array<Code, size>& codes, int index) {
        return index >= 0 && index < static_cast<int>(size) ? codes[static_cast<std::size_t>(index)] : Code{};
    }
    void put_standard(const Dialect& dialect);
    void put_words(const Dialect& dialect);
    void put_length_words(const Dialect& dialect);
    void put(std::string_view word, Code code);
    [[nodiscard]] Code* find(std::string_view word);

    std::array<Code, 1000> g_{};
    std::array<Code, 1000> m_{};
};

/// Why a word of the standard can't be simulated: "it moves by positions that the text does not hold".
std::string_view refusal_of(char letter, int tenths);
/// What to write instead.
std::string_view remedy_of(char letter, int tenths);

}  // namespace lobewright::proof
