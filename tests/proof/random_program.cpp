#include "random_program.h"

#include "proof_case.h"

#include <lobewright/number_text.h>

#include <cctype>
#include <cmath>

using namespace lobewright;

namespace {

const std::vector<std::string> dialects = {"rs274ngc-xza", "rs274ngc-zxa", "rs274ngc-yxa", "rs274ngc-xzc"};
const std::vector<std::string> offsets = {"G54", "G55",   "G56",   "G57",  "G58",
                                          "G59", "G59.1", "G59.2", "G59.3"};

/// Writes one program block by block, keeping the state that the next block needs.
class Author {
  public:
    explicit Author(unsigned seed) : dice_(seed) {
        made_.dialect = shipped_dialect(dice_.of(dialects));
        made_.dialect.side.reset();  // these programs move three axes
        made_.dialect.work_offset_words = {dice_.of(offsets)};
        made_.block_delete = dice_.one_in(2);
        diameter_words_ = !made_.dialect.diameter_word.empty();
    }

    RandomProgram write() {
        const bool percent = dice_.one_in(3);
        if (percent) line("%");
        if (dice_.one_in(4)) line("O" + std::to_string(dice_.roll(1, 9999)));
        head();
        const int blocks = dice_.roll(10, 60);
        for (int i = 0; i < blocks; ++i)
            body();
        block(dice_.one_in(2) ? "M2" : "M30");
        if (percent) line("%");
        return made_;
    }

  private:
    void line(const std::string& text) { made_.text += text + (dice_.one_in(9) ? "\r\n" : "\n"); }

    /// A block with a number, block delete and comments here and there, in mixed spelling.
    void block(const std::string& words) {
        std::string text = words;
        if (dice_.one_in(3)) text = "N" + std::to_string(dice_.roll(0, 99999)) + " " + text;
        if (dice_.one_in(8))
            text += " (remark " + std::to_string(dice_.roll(0, 9)) + "; with % and [brackets])";
        line(respelled(text));
    }

    std::string respelled(const std::string& text) {
        std::string out;
        bool comment = false;
        for (const char c : text) {
            comment = comment || c == '(';
            const bool word_start = !comment && std::isalpha(static_cast<unsigned char>(c)) != 0;
            if (!comment && c == ' ' && dice_.one_in(3)) continue;
            if (word_start && dice_.one_in(6)) out += dice_.one_in(2) ? " " : "\t";
            out += !comment && dice_.one_in(5)
                       ? static_cast<char>(std::tolower(static_cast<unsigned char>(c)))
                       : c;
            if (!comment && std::isdigit(static_cast<unsigned char>(c)) != 0 && dice_.one_in(30)) out += ' ';
            comment = comment && c != ')';
        }
        return out;
    }

    /// A number in one of its spellings, with `decimals` places at most.
    std::string number(double value, int decimals) {
        std::string text = dice_.one_in(2) ? fixed(value, decimals) : shortest_fixed(value, decimals);
        const bool point = text.find('.') != std::string::npos;
        if (point && dice_.one_in(8)) text += "000";
        if (!point && dice_.one_in(4)) text += '.';
        if (text.front() != '-' && dice_.one_in(8)) text.insert(0, dice_.one_in(2) ? "+" : "00");
        if (point && text.rfind("0.", 0) == 0 && dice_.one_in(3)) text.erase(0, 1);
        return text;
    }

    std::string axis(char letter, double value, int decimals) {
        return letter + number(value, decimals) + " ";
    }

    void head() {
        plane();
        units(dice_.one_in(2));
        block(dice_.one_in(2) ? "G90" : "G90 G91.1");
        if (diameter_words_) diameters(dice_.one_in(2));
        block(made_.dialect.work_offset_words.front());
        block(dice_.of(std::vector<std::string>{"G40 G49 G80", "G40", "G49", "G80", "M9", "M48"}));
        block(dice_.of(std::vector<std::string>{"G61", "G61.1", "G64 P0.01", "G64"}));
        if (dice_.one_in(2)) block("T" + std::to_string(dice_.roll(1, 9)) + " M6");
        block("S" + number(dice_.roll(100, 3000), 0) + (dice_.one_in(2) ? " M3" : " M4"));
        go(radial_letter(), radial_text(to_units(60.0)));
        go(axial_letter(), number(to_units(dice_.between(-20.0, 200.0)), decimals()));
        go(rotary_letter(), number(dice_.between(-400.0, 400.0), 3));
        feed_mode();
    }

    void go(char letter, const std::string& value) { block(std::string("G0 ") + letter + value); }

    void body() {
        switch (dice_.roll(0, 19)) {
            case 0:
                return units(!inch_);
            case 1:
                return distance();
            case 2:
                return feed_mode();
            case 3:
                return block("G4 P" + number(dice_.between(0.0, 3.0), 3));
            case 4:
                return block(dice_.of(std::vector<std::string>{"M7", "M8", "M9", "M48", "M49", "M0", "M1",
                                                               "G61", "G64", "G64 P0.02 Q0.01", "G17", "G19",
                                                               "G98", "G99", "G97"}));
            case 5:
                return plane();
            case 6:
                return deleted();
            case 7:
                if (diameter_words_) return diameters(!diameter_);
                return feed();
            case 8:
            case 9:
                return arc();
            case 10:
            case 11:
                return rapid();
            default:
                return feed();
        }
    }

    void units(bool inch) {
        inch_ = inch;
        need_feed_ = true;
        block(inch ? "G20" : "G21");
    }
    void diameters(bool diameter) {
        diameter_ = diameter;
        block(diameter ? "G7" : "G8");
    }
    void distance() {
        absolute_ = !absolute_;
        block(absolute_ ? "G90" : "G91");
    }
    void feed_mode() {
        mode_ = dice_.of(std::vector<std::string>{"G93", "G94", "G95"});
        need_feed_ = true;
        block(mode_);
    }
    void plane() { block(made_.dialect.plane_word); }

    /// A line with a slash: it must leave modes as they are, whichever way the switch stands.
    void deleted() {
        line("/" + respelled("N5 S" + std::to_string(dice_.roll(100, 900))));
        line("/ M8 (only with the switch off)");
    }

    std::string feed_word() {
        if (mode_ != "G93" && !need_feed_ && !dice_.one_in(3)) return "";
        need_feed_ = false;
        if (mode_ == "G93") return "F" + number(dice_.between(0.5, 900.0), 3);
        if (mode_ == "G95") return "F" + number(to_units(dice_.between(0.01, 0.4)), 4);
        return "F" + number(to_units(dice_.between(20.0, 900.0)), 2);
    }

    std::string places() {
        std::string words;
        const int which = dice_.roll(1, 7);
        const double range = absolute_ ? 80.0 : 3.0;
        if (which & 1)
            words += radial_letter() +
                     radial_text(to_units(dice_.between(absolute_ ? 10.0 : -range, range))) + " ";
        if (which & 2) words += axis(axial_letter(), to_units(dice_.between(-range, range)), decimals());
        if (which & 4) words += axis(rotary_letter(), dice_.between(-range, range), 4);
        return words;
    }

    void rapid() { block("G0 " + places()); }
    void feed() {
        const std::string places = this->places();
        block("G1 " + places + feed_word());
    }

    /// From an absolute place on a circle to another on it, by its centre or its radius, in the plane of the
    /// two linear axes, which may be chosen anew.
    void arc() {
        plane();
        if (!absolute_) distance();
        const double radius = dice_.between(2.0, 20.0), from = dice_.between(-3.0, 3.0);
        const double turn = dice_.between(0.3, 2.8);
        const double centre_r = dice_.between(40.0, 60.0), centre_a = dice_.between(-50.0, 50.0);
        const auto at = [&](double angle) {
            return std::pair{rounded(centre_r + radius * std::cos(angle)),
                             rounded(centre_a + radius * std::sin(angle))};
        };
        const auto [r0, a0] = at(from);
        const auto [r1, a1] = at(from + turn);
        block("G0 " + (radial_letter() + radial_text(to_units(r0))) + " " +
              axis(axial_letter(), to_units(a0), decimals()));
        std::string words = dice_.one_in(2) ? "G2 " : "G3 ";
        words += radial_letter() + radial_text(to_units(r1)) + " " +
                 axis(axial_letter(), to_units(a1), decimals());
        if (dice_.one_in(2)) {
            const double chord = std::sqrt((r1 - r0) * (r1 - r0) + (a1 - a0) * (a1 - a0));
            words += "R" +
                     number(to_units((dice_.one_in(2) ? 1.0 : -1.0) * (0.51 * chord + 1.0)), decimals()) +
                     " ";
        } else {
            words += centre_letter(radial_letter()) + number(to_units(centre_r - r0), decimals()) + " ";
            words += centre_letter(axial_letter()) + number(to_units(centre_a - a0), decimals()) + " ";
        }
        block(words + feed_word());
    }

    static std::string centre_letter(char axis) { return axis == 'X' ? "I" : axis == 'Y' ? "J" : "K"; }
    static double rounded(double mm) { return std::round(mm * 1e4) / 1e4; }
    [[nodiscard]] double to_units(double mm) const { return inch_ ? mm / 25.4 : mm; }
    [[nodiscard]] int decimals() const { return inch_ ? 6 : 4; }
    std::string radial_text(double radius) { return number(diameter_ ? 2.0 * radius : radius, decimals()); }
    [[nodiscard]] char radial_letter() const { return made_.dialect.radial.letter; }
    [[nodiscard]] char axial_letter() const { return made_.dialect.axial.letter; }
    [[nodiscard]] char rotary_letter() const { return made_.dialect.rotary.letter; }

    Dice dice_;
    RandomProgram made_;
    bool diameter_words_ = false;
    bool inch_ = false, diameter_ = false, absolute_ = true, need_feed_ = true;
    std::string mode_;
};

}  // namespace

RandomProgram random_program(unsigned seed) {
    return Author(seed).write();
}
