/// Has the proof teeth? Programs of ours, each with one change, judged by the tests' own reading and sweep:
/// whatever truly spoils the part or is unsafe, the proof must catch; whatever only looks different, it must
/// pass.
#include "basalt.h"
#include "catch.h"
#include "finish_cut.h"
#include "plain_reading.h"
#include "proof_case.h"
#include "random_program.h"
#include "sweep.h"
#include "trials.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

using namespace lobewright;

namespace {

constexpr int wanted_harmless = trials(2000);

/// Worse than this by the sweep is truly worse: its own error, 0.05 µm, and the proof's, and some.
constexpr double beyond_doubt = 3e-4;  // mm

/// One word of a line: its letter's place and the end of its number.
struct Word {
    std::size_t at, end;
};

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size() - 1);
        lines.push_back(text.substr(at, end - at + 1));
        at = end + 1;
    }
    return lines;
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines)
        text += line;
    return text;
}

std::vector<Word> words_in(const std::string& line) {
    std::vector<Word> words;
    const std::size_t stop = std::min(line.find('('), line.size());
    for (std::size_t i = 0; i < stop; ++i) {
        if (std::isalpha(line[i]) == 0) continue;
        std::size_t end = i + 1;
        while (end < stop && (std::isdigit(line[end]) != 0 || line[end] == '.' || line[end] == '-'))
            ++end;
        words.push_back({i, end});
    }
    return words;
}

/// A job with its program, what the tests' own reading makes of it, and which move leaves the surface on
/// which ray.
struct Subject {
    ProofCase made;
    plain::Reading reading;
    std::vector<sweep::Position> positions;
    sweep::Body body;
    double blank = 0.0;
    std::vector<std::size_t> owner;  // by ray, index in positions
};
constexpr int rays = 240;

double ray_angle(int ray) {
    return full_turn * ray / rays;
}

std::vector<sweep::Position> positions_of(const plain::Reading& reading) {
    std::vector<sweep::Position> positions;
    for (const plain::Move& move : reading.moves) {
        positions.push_back({move.radial, move.axial, move.rotary, move.rapid, move.seconds, move.line});
    }
    return positions;
}

Subject subject_of(Job job, const Dialect& dialect) {
    Subject subject;
    subject.made = proof_case(std::move(job), dialect);
    const auto reading = plain::read(subject.made.text, dialect);
    INFO(subject.made.text);
    REQUIRE(reading.has_value());
    REQUIRE_FALSE(fails(subject.made.prove()));
    subject.reading = *reading;
    subject.positions = positions_of(*reading);
    subject.body = sweep::cutting_body(subject.made.job);
    subject.blank = *subject.made.job.shaft.blank_diameter / 2.0;
    const double z = subject.made.lobes.front().z;
    std::vector<double> least(rays, subject.blank);
    subject.owner.assign(rays, 0);
    for (std::size_t i = 1; i < subject.positions.size(); ++i) {
        const sweep::Slab slab(subject.positions, subject.body, z, subject.blank, true, i, i + 1);
        for (int ray = 0; ray < rays; ++ray) {
            const double radius = slab.radius_on(ray_angle(ray));
            const auto index = static_cast<std::size_t>(ray);
            if (radius < least[index]) least[index] = radius, subject.owner[index] = i;
        }
    }
    return subject;
}

/// Judges one changed program by what it would do: by words and times alone, then by the blocks that changed.
class Judge {
  public:
    Judge(const Subject& subject, const std::string& text)
        : subject_(subject), job_(subject.made.job), text_(text) {}

    /// Why the program is bad beyond doubt; empty where it may be good.
    std::string verdict() {
        const auto reading = plain::read(text_, subject_.made.dialect);
        if (!reading) return "a controller would stop, or do what can't be known";
        if (!reading->ended) return "no end";
        if (reading->reversed) return "spindle reversed";
        if (reading->highest_speed > 1.02 * job_.cut->spindle_speed) return "spindle too fast";
        positions_ = positions_of(*reading);
        if (positions_.empty()) return "nothing moves";
        if (too_fast(*reading)) return "axis too fast";
        if (!spindle_turns(*reading)) return "spindle off";
        if (tip(positions_.front()) < subject_.blank - beyond_doubt) return "starts in the stock";
        find_changed();
        if (first_ == last_ && old_first_ == old_last_) return "";
        return changed_blocks();
    }

  private:
    [[nodiscard]] double tip(const sweep::Position& p) const {
        return p.radial + subject_.body.tip_from_word;
    }
    [[nodiscard]] const SolvedLobe& lobe() const { return subject_.made.lobes.front(); }

    [[nodiscard]] bool too_fast(const plain::Reading& reading) const {
        const AxisLimits& limits = job_.machine->limits;
        for (std::size_t i = 1; i < reading.moves.size(); ++i) {
            const plain::Move &a = reading.moves[i - 1], &b = reading.moves[i];
            if (b.rapid || b.seconds == 0.0) continue;
            const double minutes = b.seconds / 60.0 * 1.01;
            if (std::abs(b.radial - a.radial) > *limits.radial_speed * minutes) return true;
            if (std::abs(b.rotary - a.rotary) > *limits.rotary_speed * minutes) return true;
            if (std::abs(b.axial - a.axial) > *limits.axial_speed * minutes) return true;
        }
        return false;
    }

    /// In every feed whose cutter stands well within the blank.
    [[nodiscard]] bool spindle_turns(const plain::Reading& reading) const {
        return std::all_of(reading.moves.begin(), reading.moves.end(), [&](const plain::Move& move) {
            return move.rapid || move.spindle ||
                   move.radial + subject_.body.tip_from_word > subject_.blank - 0.3;
        });
    }

    /// The moves [first_, last_) that the original lacks, and [old_first_, old_last_) of it that went; each
    /// with the move after, which starts elsewhere.
    void find_changed() {
        const auto same = [](const sweep::Position& a, const sweep::Position& b) {
            return a.radial == b.radial && a.axial == b.axial && a.rotary == b.rotary && a.rapid == b.rapid;
        };
        const auto& old = subject_.positions;
        const std::size_t shorter = std::min(old.size(), positions_.size());
        std::size_t head = 0, tail = 0;
        while (head < shorter && same(old[head], positions_[head]))
            ++head;
        while (tail < shorter - head &&
               same(old[old.size() - 1 - tail], positions_[positions_.size() - 1 - tail]))
            ++tail;
        const bool changed = head < old.size() || head < positions_.size();
        first_ = std::max<std::size_t>(head, 1), old_first_ = first_;
        last_ = std::min(positions_.size() - tail + (changed ? 1 : 0), positions_.size());
        old_last_ = std::min(old.size() - tail + (changed ? 1 : 0), old.size());
        if (!changed) last_ = first_, old_last_ = old_first_;
    }

    std::string changed_blocks() {
        constexpr std::size_t most = 4;
        for (std::size_t i = first_; i < std::min(last_, first_ + most); ++i) {
            if (std::string why = block(i); !why.empty()) return why;
        }
        return missing();
    }

    /// A block's own gouge, and a rapid's way through the stock. Looked for near where the block faces.
    std::string block(std::size_t i) const {
        const sweep::Position &a = positions_[i - 1], &b = positions_[i];
        if (std::min(tip(a), tip(b)) > subject_.blank) return "";
        const sweep::Slab slab(positions_, subject_.body, lobe().z, subject_.blank, true, i, i + 1);
        const double from = std::min(a.rotary, b.rotary), to = std::max(a.rotary, b.rotary);
        const double step = std::max(2.0, (to - from) / 45.0);
        double deepest = 1e9, deepest_at = 0.0;
        for (double angle = from - 45.0; angle <= to + 45.0; angle += step) {
            const double phi = angle * subject_.body.facing_per_degree;
            const double off = sweep::deviation_on(slab, lobe(), phi);
            if (off < -job_.cut->tolerance - beyond_doubt) return "gouge";
            if (off < deepest) deepest = off, deepest_at = phi;
        }
        const bool retract = b.rapid && a.rotary == b.rotary && a.axial == b.axial && tip(b) >= tip(a);
        if (!b.rapid || retract) return "";
        const sweep::Slab before(positions_, subject_.body, lobe().z, subject_.blank, true, 1, i);
        if (before.radius_on(deepest_at) > slab.radius_on(deepest_at) + 0.01) return "rapid in the stock";
        return "";
    }

    /// What the blocks that went left on their rays is not there any more; also at the lobe's edges.
    std::string missing() const {
        for (const double part : {0.0, -0.499, 0.499}) {
            const sweep::Slab slab(positions_, subject_.body, lobe().z + part * lobe().width, subject_.blank,
                                   true);
            int looked = 0;
            for (int ray = 0; ray < rays && looked < 12; ++ray) {
                const std::size_t owner = subject_.owner[static_cast<std::size_t>(ray)];
                if (owner < old_first_ || owner >= old_last_) continue;
                ++looked;
                if (sweep::deviation_on(slab, lobe(), ray_angle(ray)) > job_.cut->tolerance + beyond_doubt)
                    return "material left";
            }
            if (old_last_ - old_first_ < 4 && !moved_along()) return "";
        }
        return "";
    }

    [[nodiscard]] bool moved_along() const {
        for (std::size_t i = first_; i < last_; ++i) {
            if (positions_[i].axial !=
                subject_.positions[std::min(old_first_, subject_.positions.size() - 1)].axial)
                return true;
        }
        return false;
    }

    const Subject& subject_;
    const Job& job_;
    const std::string& text_;
    std::vector<sweep::Position> positions_;
    std::size_t first_ = 0, last_ = 0, old_first_ = 0, old_last_ = 0;
};

/// The kinds of slip, by name.
class Slip {
  public:
    Slip(const Subject& subject, unsigned seed)
        : d_(subject.made.dialect), lines_(lines_of(subject.made.text)), dice_(seed) {
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            if (!words_in(lines_[i]).empty() && lines_[i].front() != 'O') coded_.push_back(i);
        }
    }

    static constexpr int kinds = 27;

    /// Empty where this kind found nothing to change.
    std::string make(int kind) {
        const bool changed = change(kind);
        return changed ? joined(lines_) : "";
    }

  private:
    std::string& any_line() { return lines_[dice_.of(coded_)]; }
    std::string& cutting_line() {
        return lines_[coded_[static_cast<std::size_t>(
            dice_.roll(static_cast<int>(coded_.size()) / 4, static_cast<int>(coded_.size()) - 1))]];
    }
    Word any_word(const std::string& line) { return dice_.of(words_in(line)); }

    bool change(int kind) {
        switch (kind) {
            case 0:
                return digit(any_line());
            case 1:
                return digit(cutting_line());
            case 2:
                return lose_point(cutting_line());
            case 3:
                return flip_sign(cutting_line());
            case 4:
                return drop_word(any_line());
            case 5:
                return double_word(any_line());
            case 6:
                return drop_line();
            case 7:
                return double_line();
            case 8:
                return exchange_lines();
            case 9:
                return exchange_numbers(cutting_line());
            case 10:
                return replace_word(d_.mm_word, d_.inch_word) || replace_word(d_.inch_word, d_.mm_word);
            case 11:
                return replace_word(d_.absolute_word, "G91");
            case 12:
                return replace_word(d_.inverse_time_word, d_.per_minute_word);
            case 13:
                return put_before(cutting_line(), d_.rapid_word + " ");
            case 14:
                return replace_some(d_.rapid_word, d_.feed_word);
            case 15:
                return replace_some(d_.feed_word, d_.rapid_word);
            case 16:
                return cut_short();
            case 17:
                return replace_word(d_.program_end, "");
            case 18:
                return feed_times(10);
            case 19:
                return exchange_letters(cutting_line());
            case 20:
                return replace_word(d_.work_offset_words.empty() ? "" : d_.work_offset_words.front(), "G56");
            case 21:
                return replace_word(d_.spindle_on_cw, dice_.one_in(2) ? d_.spindle_on_ccw : d_.spindle_off);
            case 22:
                return insert_digit(cutting_line());
            case 23:
                return delete_digit(cutting_line());
            case 24:
                return comment_out(cutting_line());
            case 25:
                return replace_word(d_.exact_path_word, "G64");
            default:
                return replace_some(d_.feed_word, dice_.one_in(2) ? "G2" : "G3");
        }
    }

    bool digit(std::string& line) {
        const Word word = any_word(line);
        std::vector<std::size_t> places;
        for (std::size_t i = word.at + 1; i < word.end; ++i) {
            if (std::isdigit(line[i]) != 0) places.push_back(i);
        }
        if (places.empty()) return false;
        char& c = line[dice_.of(places)];
        const char other = static_cast<char>('0' + dice_.roll(0, 9));
        if (c == other) return false;
        c = other;
        return true;
    }
    bool lose_point(std::string& line) {
        const Word word = any_word(line);
        const std::size_t point = line.find('.', word.at);
        if (point >= word.end) return false;
        line.erase(point, 1);
        return true;
    }
    bool flip_sign(std::string& line) {
        const Word word = any_word(line);
        if (line[word.at + 1] == '-') return line.erase(word.at + 1, 1), true;
        return line.insert(word.at + 1, "-"), true;
    }
    bool drop_word(std::string& line) {
        const Word word = any_word(line);
        line.erase(word.at, word.end - word.at);
        return true;
    }
    bool double_word(std::string& line) {
        const Word word = any_word(line);
        line.insert(word.end, " " + line.substr(word.at, word.end - word.at));
        return true;
    }
    bool drop_line() { return lines_.erase(lines_.begin() + static_cast<long>(dice_.of(coded_))), true; }
    bool double_line() {
        const std::size_t at = dice_.of(coded_);
        lines_.insert(lines_.begin() + static_cast<long>(at), lines_[at]);
        return true;
    }
    bool exchange_lines() {
        const auto i = static_cast<std::size_t>(dice_.roll(1, static_cast<int>(coded_.size()) - 1));
        std::swap(lines_[coded_[i - 1]], lines_[coded_[i]]);
        return true;
    }
    bool exchange_numbers(std::string& line) {
        const auto words = words_in(line);
        if (words.size() < 2) return false;
        const Word a = words[0], b = words[1];
        const std::string first = line.substr(a.at + 1, a.end - a.at - 1),
                          second = line.substr(b.at + 1, b.end - b.at - 1);
        line.replace(b.at + 1, second.size(), first);
        line.replace(a.at + 1, first.size(), second);
        return first != second;
    }
    bool exchange_letters(std::string& line) {
        const auto words = words_in(line);
        if (words.size() < 2) return false;
        std::swap(line[words[0].at], line[words[1].at]);
        return true;
    }
    /// In the first line that has it.
    bool replace_word(const std::string& word, const std::string& other) {
        for (const std::size_t i : coded_) {
            if (replace_in(lines_[i], word, other)) return true;
        }
        return false;
    }
    /// In any line that has it.
    bool replace_some(const std::string& word, const std::string& other) {
        std::vector<std::size_t> with;
        for (const std::size_t i : coded_) {
            std::string line = lines_[i];
            if (replace_in(line, word, other)) with.push_back(i);
        }
        return !with.empty() && replace_in(lines_[dice_.of(with)], word, other);
    }
    static bool replace_in(std::string& line, const std::string& word, const std::string& other) {
        if (word.empty()) return false;
        for (const Word& w : words_in(line)) {
            if (line.substr(w.at, w.end - w.at) != word) continue;
            line.replace(w.at, word.size(), other);
            return true;
        }
        return false;
    }
    bool put_before(std::string& line, const std::string& text) {
        const auto words = words_in(line);
        const std::size_t at =
            line[words.front().at] == 'N' && words.size() > 1 ? words[1].at : words.front().at;
        line.insert(at, text);
        return true;
    }
    bool cut_short() {
        lines_.resize(dice_.of(coded_) + 1);
        return true;
    }
    bool feed_times(int factor) {
        std::string& line = cutting_line();
        for (const Word& w : words_in(line)) {
            if (line[w.at] != 'F') continue;
            const double feed = std::strtod(line.c_str() + w.at + 1, nullptr);
            line.replace(w.at + 1, w.end - w.at - 1, shortest_fixed(factor * feed, 4));
            return true;
        }
        return false;
    }
    bool insert_digit(std::string& line) {
        const Word word = any_word(line);
        line.insert(
            static_cast<std::size_t>(dice_.roll(static_cast<int>(word.at) + 1, static_cast<int>(word.end))),
            1, static_cast<char>('0' + dice_.roll(0, 9)));
        return true;
    }
    bool delete_digit(std::string& line) {
        const Word word = any_word(line);
        const auto at = static_cast<std::size_t>(
            dice_.roll(static_cast<int>(word.at) + 1, static_cast<int>(word.end) - 1));
        line.erase(at, 1);
        return true;
    }
    bool comment_out(std::string& line) {
        if (d_.comments != CommentStyle::parentheses || line.find('(') != std::string::npos) return false;
        line = "(" + line.substr(0, line.find_last_not_of("\r\n") + 1) + ")\n";
        return true;
    }

    const Dialect& d_;
    std::vector<std::string> lines_;
    std::vector<std::size_t> coded_;
    Dice dice_;
};

Job subject_job(const char* post, CutterAxis axis, Units units) {
    Job job = basalt::job(basalt::lopsided(6.0, 2.0), basalt::flat(20.0));
    job.units = units;
    job.lobes.front().at = ShaftAngle::from_degrees(30.0);
    job.shaft.blank_diameter = 17.0;
    Cutter cutter;
    if (axis == CutterAxis::parallel) {
        cutter.kind = CutterKind::disc;
        cutter.diameter = 32.0, cutter.width = 7.0, cutter.neck_diameter = 8.0;
    } else {
        cutter.kind = CutterKind::end_mill;
        cutter.diameter = 18.0, cutter.flute_length = 20.0;
    }
    cutter.teeth = 4;
    job.cutters["cutter"] = cutter;
    Machine machine;
    machine.post = post;
    machine.cutter_axis = axis;
    machine.limits.radial_speed = 2000.0, machine.limits.axial_speed = 2000.0,
    machine.limits.rotary_speed = 7200.0;
    job.machine = machine;
    job.cut = finish_cut("cutter", 0.01, 150.0, 800.0);
    return job;
}

const std::vector<Subject>& subjects() {
    static const std::vector<Subject> made = [] {
        std::vector<Subject> subjects;
        const auto add = [&](const char* post, CutterAxis axis, Units units = Units::mm) {
            Dialect dialect = shipped_dialect(post);
            dialect.side.reset();  // the tests' own reading knows three axes; setup_findings_test.cpp spoils
                                   // the fourth
            subjects.push_back(subject_of(subject_job(post, axis, units), dialect));
        };
        add("rs274ngc-xza", CutterAxis::parallel);
        add("rs274ngc-zxa", CutterAxis::radial);
        add("rs274ngc-yxa", CutterAxis::parallel, Units::inch);
        add("rs274ngc-xzc", CutterAxis::radial);
        add("iso6983-xzc", CutterAxis::parallel);
        add("plain-xa", CutterAxis::radial);
        return subjects;
    }();
    return made;
}

bool caught(const Subject& subject, const std::string& text) {
    const auto report =
        prove(subject.made.job, subject.made.lobes, subject.made.dialect, text, "changed.ngc");
    return !report.ok() || fails(*report);
}

}  // namespace

TEST_CASE("the proof catches every single change that spoils the part or is unsafe") {
    // A whole campaign in parts: LOBEWRIGHT_CHANGES=10000 LOBEWRIGHT_FIRST_SEED=1, and on from the seed that
    // it ends with.
    const int wanted = campaign("LOBEWRIGHT_CHANGES", trials(10000));
    const auto first = static_cast<unsigned>(campaign("LOBEWRIGHT_FIRST_SEED", 1));
    int spoiled = 0, escaped = 0;
    std::map<std::string, int> by_cause;
    unsigned seed = first;
    for (; spoiled < wanted; ++seed) {
        const Subject& subject = subjects()[seed % subjects().size()];
        const int kind = static_cast<int>(seed / subjects().size()) % Slip::kinds;
        const std::string text = Slip(subject, seed).make(kind);
        if (text.empty() || text == subject.made.text) continue;
        const std::string why = Judge(subject, text).verdict();
        if (why.empty()) continue;
        ++spoiled;
        ++by_cause[why];
        if (caught(subject, text)) continue;
        if (++escaped > 10) break;
        UNSCOPED_INFO("seed " << seed << ", kind " << kind << ", " << why << "\n" << text);
    }
    for (const auto& [why, count] : by_cause)
        UNSCOPED_INFO(count << " x " << why);
    CHECK(escaped == 0);
    CHECK(by_cause.size() >= (wanted >= 500 ? 8 : 1));
    if (std::getenv("LOBEWRIGHT_CHANGES") != nullptr)
        WARN(spoiled << " spoiled programs, seeds " << first << " to " << seed - 1 << ", " << escaped
                     << " escaped");
}

namespace {

/// A program that says the same in other spelling.
class Rewrite {
  public:
    Rewrite(const Subject& subject, unsigned seed)
        : d_(subject.made.dialect), dice_(seed), text_(subject.made.text) {}

    std::string make() {
        std::vector<std::string> lines = lines_of(text_);
        const int kind = dice_.roll(0, 8);
        int number = 0;
        for (std::string& line : lines) {
            const bool words = !words_in(line).empty() && line.front() != 'O' && line.front() != '%';
            if (!words || !dice_.one_in(kind == 6 ? 1 : 3)) continue;
            const std::string before = line;
            change(line, kind, ++number);
            if (static_cast<int>(line.find_last_not_of("\r\n") + 1) > d_.longest_line) line = before;
        }
        return joined(lines);
    }

  private:
    void change(std::string& line, int kind, int number) {
        switch (kind) {
            case 0:
                return spread(line);
            case 1:
                return lower(line);
            case 2:
                return comment(line);
            case 3:
                return respell_numbers(line);
            case 4:
                return without_blanks(line);
            case 5:
                return other_end(line);
            case 6:
                return renumber(line, number);
            case 7:
                return turn_words(line);
            default:
                line = "\n" + line;
        }
    }

    /// Of the part before a comment.
    template <class Change>
    static void in_code(std::string& line, Change change) {
        const std::size_t stop = std::min(line.find_first_of("(\r\n"), line.size());
        std::string code = line.substr(0, stop);
        change(code);
        line = code + line.substr(stop);
    }

    void spread(std::string& line) {
        in_code(line, [&](std::string& code) {
            for (std::size_t i = code.size(); i-- > 0;) {
                if (dice_.one_in(3)) code.insert(i, dice_.one_in(2) ? " " : "\t");
            }
        });
    }
    static void lower(std::string& line) {
        in_code(line, [](std::string& code) {
            for (char& c : code)
                c = static_cast<char>(std::tolower(c));
        });
    }
    void comment(std::string& line) const {
        if (d_.comments != CommentStyle::parentheses) return;
        in_code(line, [](std::string& code) { code = "(G20 M2) " + code + "(; % [x])"; });
    }
    void respell_numbers(std::string& line) {
        const std::vector<Word> words = words_in(line);
        for (auto word = words.rbegin(); word != words.rend(); ++word) {
            std::string number = line.substr(word->at + 1, word->end - word->at - 1);
            const bool point = number.find('.') != std::string::npos;
            if (point && dice_.one_in(2)) number += "00";
            if (number.front() != '-' && dice_.one_in(2)) number.insert(0, "0");
            if (number.front() != '-' && line[word->at] != 'N' && dice_.one_in(3)) number.insert(0, "+");
            if (point && number.rfind("0.", 0) == 0 && number.size() > 2) number.erase(0, 1);
            if (!point && line[word->at] != 'N') number += dice_.one_in(2) ? "." : ".0";
            line.replace(word->at + 1, word->end - word->at - 1, number);
        }
    }
    static void without_blanks(std::string& line) {
        in_code(line, [](std::string& code) { std::erase(code, ' '); });
    }
    static void other_end(std::string& line) {
        const bool crlf = line.size() > 1 && line[line.size() - 2] == '\r';
        line = line.substr(0, line.find_last_not_of("\r\n") + 1) + (crlf ? "\n" : "\r\n");
    }
    static void renumber(std::string& line, int number) {
        const std::vector<Word> words = words_in(line);
        if (line[words.front().at] == 'N') line.erase(words.front().at, words.front().end - words.front().at);
        line.insert(line.find_first_not_of(' '), "N" + std::to_string(5 * number) + " ");
    }
    /// Words of a block in another order; their order says nothing.
    void turn_words(std::string& line) {
        in_code(line, [&](std::string& code) {
            const std::vector<Word> words = words_in(code);
            if (words.size() < 2) return;
            const std::size_t first = code[words.front().at] == 'N' ? 1 : 0;
            std::string turned = first == 1 ? code.substr(0, words.front().end) : "";
            for (std::size_t i = words.size(); i-- > first;)
                turned += " " + code.substr(words[i].at, words[i].end - words[i].at);
            code = turned;
        });
    }
    const Dialect& d_;
    Dice dice_;
    const std::string& text_;
};

}  // namespace

TEST_CASE("the proof minds no rewriting that says the same") {
    std::vector<ProofReport> originals;
    for (const Subject& subject : subjects())
        originals.push_back(subject.made.prove());
    int rewritten = 0;
    for (unsigned seed = 1; rewritten < wanted_harmless; ++seed) {
        const std::size_t which = seed % subjects().size();
        const Subject& subject = subjects()[which];
        const std::string text = Rewrite(subject, seed).make();
        if (text == subject.made.text) continue;
        ++rewritten;
        INFO("seed " << seed << "\n" << text);
        const auto report =
            prove(subject.made.job, subject.made.lobes, subject.made.dialect, text, "rewritten.ngc");
        if (!report) FAIL(to_text(report.diagnostics().front()));
        REQUIRE_FALSE(fails(*report));
        REQUIRE(report->lobes.front().deepest.along_normal ==
                originals[which].lobes.front().deepest.along_normal);
        REQUIRE(report->lobes.front().proudest.along_normal ==
                originals[which].lobes.front().proudest.along_normal);
        REQUIRE(report->cycle_seconds == originals[which].cycle_seconds);
    }
}
