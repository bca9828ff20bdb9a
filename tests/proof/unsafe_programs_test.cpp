/// Programs of ours spoiled in ways that break cutters, shafts or hands: each by a way of its own, at a
/// random place, and so that it is bad beyond doubt. The proof must name each for what it is.
#include "basalt.h"
#include "catch.h"
#include "guide_dialect.h"
#include "proof_case.h"
#include "random_program.h"
#include "trials.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <optional>

using namespace lobewright;

namespace {

/// Of each kind; LOBEWRIGHT_SPOILINGS asks for another number.
int wanted_of_each_kind() {
    return campaign("LOBEWRIGHT_SPOILINGS", at_full_speed ? 8 : 3);
}

using Lines = std::vector<std::string>;

Lines lines_of(const std::string& text) {
    Lines lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\n', at);
        lines.push_back(text.substr(at, end - at));
        at = end == std::string::npos ? text.size() : end + 1;
    }
    return lines;
}

std::string joined(const Lines& lines) {
    std::string text;
    for (const std::string& line : lines)
        text += line + '\n';
    return text;
}

/// The number after a letter of a block, if it stands there.
std::optional<double> number_of(const std::string& line, char letter) {
    if (line.empty() || line.front() == '(') return std::nullopt;
    const std::size_t at = line.find(letter);
    if (at == std::string::npos || line.find('(') < at) return std::nullopt;
    return std::strtod(line.c_str() + at + 1, nullptr);
}

void set_number(std::string& line, char letter, double value) {
    const std::size_t at = line.find(letter) + 1;
    std::size_t end = at;
    while (end < line.size() && (std::isdigit(line[end]) != 0 || line[end] == '.' || line[end] == '-'))
        ++end;
    std::string number = shortest_fixed(value, 4);
    if (number.find('.') == std::string::npos) number += '.';
    line.replace(at, end - at, number);
}

/// Lines [first, last) of one pass: its note, then its moves.
struct PassLines {
    bool roughs = false;
    std::size_t first = 0, last = 0;
};

struct Subject {
    ProofCase made;
    Lines lines;
    std::vector<PassLines> passes;
    double blank = 0.0;
    double thickest = 0.0;
};

std::vector<PassLines> passes_of(const Lines& lines) {
    std::vector<PassLines> passes;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].rfind("(lobe ", 0) != 0) continue;
        if (!passes.empty()) passes.back().last = i;
        passes.push_back({lines[i].find("roughing") != std::string::npos, i, i});
    }
    for (std::size_t i = passes.back().first; i < lines.size(); ++i) {
        passes.back().last = i;
        if (lines[i].rfind("G94", 0) == 0) break;
    }
    return passes;
}

Subject subject_of(Job job, const Dialect& dialect) {
    Subject subject;
    subject.made = proof_case(std::move(job), dialect);
    const ProofReport report = subject.made.prove();
    INFO(findings_text(report));
    REQUIRE_FALSE(fails(report));
    subject.lines = lines_of(subject.made.text);
    subject.passes = passes_of(subject.lines);
    subject.blank = *subject.made.job.shaft.blank_diameter / 2.0;
    subject.thickest = *report.thickest_chip;
    Cutter& cutter = subject.made.job.cutters.begin()->second;
    cutter.largest_chip = 1.5 * subject.thickest;
    cutter.fastest = 1.02 * std::numbers::pi * cutter.diameter * subject.made.job.cut->spindle_speed / 6e4;
    return subject;
}

Job bar() {
    Job job = basalt::job(basalt::lopsided(6.0, 2.0), basalt::flat(20.0));
    job.lobes.front().at = ShaftAngle::from_degrees(30.0);
    job.shaft.blank_diameter = 17.0;
    Machine machine;
    machine.tool_change = ToolChange{60.0, 120.0};
    AxisLimits& limits = machine.limits;
    limits.radial_speed = 2000.0, limits.axial_speed = 2000.0, limits.rotary_speed = 7200.0;
    limits.rotary_travel = 900.0;
    limits.radial_travel = Travel{-1.0, 61.0};
    limits.axial_travel = Travel{-1.0, 121.0};
    job.machine = machine;
    Cut cut;
    cut.cutter = "cutter";
    cut.tolerance = 0.005;
    cut.rough_depth = 0.5;
    cut.surface_feed = 150.0;
    cut.spindle_speed = 800.0;
    job.cut = cut;
    return job;
}

/// A disc beside the shaft, and the end of a mill over it, whose dialect knows lengths and a side axis.
const std::vector<Subject>& subjects() {
    static const std::vector<Subject> made = [] {
        std::vector<Subject> two;
        Job disc = bar();
        disc.machine->cutter_axis = CutterAxis::parallel;
        disc.machine->post = "rs274ngc-xza";
        disc.cutters["cutter"] = basalt::disc(32.0, 7.0, 8.0);
        disc.cutters["cutter"].teeth = 4;
        two.push_back(subject_of(disc, shipped_dialect("rs274ngc-xza")));
        Job mill = bar();
        mill.machine->cutter_axis = CutterAxis::radial;
        mill.cut->side_shift = 4.0;
        mill.cutters["cutter"] = basalt::end_mill(20.0, 38.0);
        mill.cutters["cutter"].teeth = 4;
        mill.cutters["cutter"].number = 7, mill.cutters["cutter"].offset_number = 17;
        two.push_back(subject_of(mill, taken(read_dialect(guide_dialect_text(), "own.toml"))));
        return two;
    }();
    return made;
}

/// Spoils one program, in one of the kinds; `text` is empty where the subject knows no such thing.
class Spoiler {
  public:
    Spoiler(const Subject& subject, unsigned seed)
        : subject_(subject),
          radial_(subject.made.dialect.radial.letter),
          axial_(subject.made.dialect.axial.letter),
          rotary_(subject.made.dialect.rotary.letter),
          lines_(subject.lines),
          dice_(seed) {}

    Spoiler& spoil(void (Spoiler::*how)()) {
        (this->*how)();
        return *this;
    }
    [[nodiscard]] std::string text() const { return spoiled_ ? joined(lines_) : std::string(); }

    /// Rings left out: what comes next takes theirs, too.
    void leave_out_rings() {
        std::vector<std::size_t> rings;
        for (std::size_t i = 0; i + 1 < subject_.passes.size(); ++i) {
            if (subject_.passes[i].roughs && subject_.passes[i + 1].roughs) rings.push_back(i);
        }
        const std::size_t which = dice_.of(rings);
        erase(subject_.passes[which].first, subject_.passes[which + 1].last);
    }
    /// A block of a ring fed so fast that its chip is thick.
    void feed_too_fast() {
        std::string& line = lines_[long_block(true)];
        set_number(line, 'F', *number_of(line, 'F') * dice_.between(20.0, 60.0));
        spoiled_ = true;
    }
    void spin_rim_too_fast() {
        for (std::string& line : lines_) {
            if (line.rfind("S", 0) != 0 || spoiled_) continue;
            set_number(line, 'S', *number_of(line, 'S') * dice_.between(1.03, 3.0));
            spoiled_ = true;
        }
    }
    void spin_too_slow() {
        for (std::string& line : lines_) {
            if (line.rfind("S", 0) != 0 || spoiled_) continue;
            set_number(line, 'S', *number_of(line, 'S') * dice_.between(0.1, 0.89));
            spoiled_ = true;
        }
    }
    void spin_the_wrong_way() { replace("M3", "M4"); }
    /// At the beginning of a ring, where the cutter comes straight down in the air, it goes on into the bar.
    void plunge() {
        const std::size_t at = come_down(true);
        std::string& line = lines_[at];
        set_number(line, radial_, *number_of(line, radial_) - dice_.between(0.3, 1.5));
    }
    void wait_in_the_metal() {
        insert(long_block(false) + 1, "G4 P" + shortest_fixed(dice_.between(0.5, 9.0), 1));
    }
    void stop_the_spindle() { insert(long_block(true), subject_.made.dialect.spindle_off); }
    void take_another_tool() {
        for (std::string& line : lines_) {
            if (line.rfind("T", 0) != 0 || line.find("M6") == std::string::npos) continue;
            const int own = subject_.made.job.cutters.begin()->second.number;
            line = "T" + std::to_string(own + dice_.roll(1, 8)) + " M6";
            spoiled_ = true;
        }
    }
    void take_another_length() {
        for (std::string& line : lines_) {
            if (line.rfind("G43", 0) != 0) continue;
            line = "G43 H" + std::to_string(dice_.roll(1, 16));
            spoiled_ = true;
        }
    }
    void stand_elsewhere_sideways() {
        for (std::string& line : lines_) {
            if (line.rfind("G0 Y", 0) != 0 || spoiled_) continue;
            line = "G0 Y" + shortest_fixed(dice_.between(-3.9, 3.9), 3);
            spoiled_ = true;
        }
    }
    /// Back to within the clearance before the spindle stops.
    void end_near_the_shaft() {
        const Job& job = subject_.made.job;
        const double tip = job.machine->cutter_axis == CutterAxis::parallel ? 16.0 : 0.0;
        const double to = tip + subject_.blank + dice_.between(0.2, job.cut->clearance - 0.2);
        const auto stop = std::find(lines_.rbegin(), lines_.rend(), "M5");
        insert(static_cast<std::size_t>(lines_.rend() - stop) - 1,
               "G90 G0 " + std::string(1, radial_) + shortest_fixed(to, 3));
    }
    void put_control_character_into_note() {
        std::vector<std::size_t> notes;
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            if (lines_[i].size() > 2 && lines_[i].front() == '(') notes.push_back(i);
        }
        int code = dice_.roll(1, 31);
        if (code == 9 || code == 10 || code == 13) code = 127;
        std::string& note = lines_[dice_.of(notes)];
        note.insert(static_cast<std::size_t>(dice_.roll(1, static_cast<int>(note.size()) - 1)), 1,
                    static_cast<char>(code));
        spoiled_ = true;
    }
    void retract_beyond_the_travel() {
        const PassLines& pass = dice_.of(subject_.passes);
        for (std::size_t i = pass.last; i-- > pass.first;) {
            if (lines_[i].rfind("G0 ", 0) != 0 || !number_of(lines_[i], radial_)) continue;
            set_number(lines_[i], radial_, 61.0 + dice_.between(0.01, 50.0));
            spoiled_ = true;
            return;
        }
    }
    void slide_beyond_the_travel() {
        const std::size_t before = dice_.of(subject_.passes).first;
        const std::string letter(1, axial_);
        insert(before, "G0 " + letter + shortest_fixed(121.0 + dice_.between(0.01, 50.0), 3));
        const double z = subject_.made.lobes.front().z;
        insert(before + 1, "G0 " + letter + shortest_fixed(z, 3));
    }
    void turn_beyond_the_travel() {
        const std::size_t before = dice_.of(subject_.passes).first;
        insert(before, "G0 " + std::string(1, rotary_) +
                           shortest_fixed((dice_.one_in(2) ? 1 : -1) * dice_.between(900.01, 3000.0), 3));
    }
    /// The cutter stands as low as the pass before went, in place of retracting, while the shaft winds back.
    void wind_back_in_the_metal() {
        std::vector<std::size_t> places;
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            if (lines_[i].find("the shaft winds back") != std::string::npos) places.push_back(i);
        }
        const std::size_t place = dice_.of(places);
        std::size_t retract = place;
        while (lines_[--retract].rfind("G0 ", 0) != 0) {
        }
        double lowest = *number_of(lines_[retract], radial_);
        for (std::size_t i = retract; lines_[i].rfind("(lobe", 0) != 0; --i)
            lowest = std::min(lowest, number_of(lines_[i], radial_).value_or(lowest));
        set_number(lines_[retract], radial_, lowest);
        spoiled_ = true;
    }

  private:
    void erase(std::size_t first, std::size_t last) {
        lines_.erase(lines_.begin() + static_cast<long>(first), lines_.begin() + static_cast<long>(last));
        spoiled_ = true;
    }
    void insert(std::size_t before, const std::string& line) {
        lines_.insert(lines_.begin() + static_cast<long>(before), line);
        spoiled_ = true;
    }
    void replace(const std::string& word, const std::string& other) {
        for (std::string& line : lines_) {
            const std::size_t at = line.find(' ' + word);
            if (at == std::string::npos || line.front() == '(') continue;
            line.replace(at + 1, word.size(), other);
            spoiled_ = true;
            return;
        }
    }
    /// A block that turns the shaft by more than the gap between the rays that the proof looks along, not one
    /// of the last of its sector, where the cut runs out.
    std::size_t long_block(bool in_ring) {
        std::vector<std::size_t> found;
        for (const PassLines& pass : subject_.passes) {
            if (pass.roughs != in_ring) continue;
            double at = 0.0;
            for (std::size_t i = pass.first; i < pass.last; ++i) {
                const auto to = number_of(lines_[i], rotary_);
                const bool feeds = number_of(lines_[i], 'F').has_value();
                const bool runs_on =
                    i + 2 < pass.last && number_of(lines_[i + 1], 'F') && number_of(lines_[i + 2], 'F');
                if (feeds && runs_on && to && std::abs(*to - at) > 8.0 && lines_[i].rfind("G1", 0) != 0)
                    found.push_back(i);
                if (to) at = *to;
            }
        }
        return dice_.of(found);
    }
    /// The last line of the way straight down to a pass.
    std::size_t come_down(bool of_ring) {
        std::vector<std::size_t> found;
        for (const PassLines& pass : subject_.passes) {
            if (pass.roughs != of_ring) continue;
            std::size_t last = 0;
            for (std::size_t i = pass.first; i < pass.last; ++i) {
                const bool feeds = number_of(lines_[i], 'F').has_value();
                if (feeds && number_of(lines_[i], rotary_)) break;
                if (feeds) last = i;
            }
            if (last > 0) found.push_back(last);
        }
        spoiled_ = true;
        return dice_.of(found);
    }

    const Subject& subject_;
    char radial_, axial_, rotary_;
    Lines lines_;
    Dice dice_;
    bool spoiled_ = false;
};

struct Kind {
    const char* name;
    void (Spoiler::*how)();
    std::vector<std::string> codes;  // of the finding that names it: one of them
};

const std::vector<Kind>& kinds() {
    static const std::vector<Kind> all = {
        {"rings left out", &Spoiler::leave_out_rings, {"depth"}},
        {"a block fed too fast", &Spoiler::feed_too_fast, {"chip"}},
        {"a rim too fast", &Spoiler::spin_rim_too_fast, {"rim-speed"}},
        {"a spindle too slow", &Spoiler::spin_too_slow, {"spindle-speed"}},
        {"a spindle the wrong way", &Spoiler::spin_the_wrong_way, {"spindle-reversed"}},
        {"a plunge", &Spoiler::plunge, {"plunge"}},
        {"a wait in the metal", &Spoiler::wait_in_the_metal, {"dwell-in-metal"}},
        {"a spindle stopped", &Spoiler::stop_the_spindle, {"spindle-off"}},
        {"another tool", &Spoiler::take_another_tool, {"wrong-tool"}},
        {"another length", &Spoiler::take_another_length, {"length"}},
        {"another place sideways", &Spoiler::stand_elsewhere_sideways, {"side-axis"}},
        {"an end near the shaft", &Spoiler::end_near_the_shaft, {"ends-not-clear"}},
        {"a control character", &Spoiler::put_control_character_into_note, {"bad-character"}},
        {"a radial word beyond the travel", &Spoiler::retract_beyond_the_travel, {"beyond-travel"}},
        {"an axial word beyond the travel", &Spoiler::slide_beyond_the_travel, {"beyond-travel"}},
        {"a rotary word beyond the travel", &Spoiler::turn_beyond_the_travel, {"beyond-travel"}},
        {"a shaft wound back in the metal", &Spoiler::wind_back_in_the_metal, {"rapid-in-stock", "gouge"}},
    };
    return all;
}

bool caught(const Subject& subject, const Kind& kind, const std::string& text) {
    const auto report =
        prove(subject.made.job, subject.made.lobes, subject.made.dialect, text, "spoiled.ngc");
    const Diagnostics& found = report.ok() ? report->findings : report.diagnostics();
    return std::any_of(found.begin(), found.end(), [&](const Diagnostic& each) {
        return std::find(kind.codes.begin(), kind.codes.end(), each.code) != kind.codes.end();
    });
}

}  // namespace

TEST_CASE("each way to make a program dangerous is caught and named, wherever it is done") {
    const int wanted = wanted_of_each_kind();
    for (const Kind& kind : kinds()) {
        DYNAMIC_SECTION(kind.name) {
            int spoiled = 0, escaped = 0;
            std::string examples;
            for (unsigned seed = 1; spoiled < wanted && seed < 10u * static_cast<unsigned>(wanted); ++seed) {
                const Subject& subject = subjects()[seed % subjects().size()];
                const std::string text = Spoiler(subject, seed).spoil(kind.how).text();
                if (text.empty() || text == subject.made.text) continue;
                ++spoiled;
                if (caught(subject, kind, text)) continue;
                if (++escaped <= 2) examples += "seed " + std::to_string(seed) + '\n' + text;
            }
            INFO(kind.name << ": " << escaped << " of " << spoiled << " escaped\n" << examples);
            CHECK(escaped == 0);
            CHECK(spoiled == wanted);
            if (std::getenv("LOBEWRIGHT_SPOILINGS") != nullptr)
                WARN(kind.name << ": " << spoiled - escaped << " of " << spoiled << " caught, seeds from 1");
        }
    }
}
