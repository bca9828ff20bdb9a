#include "plain_reading.h"

#include <cmath>
#include <cstdlib>
#include <map>
#include <sstream>

using namespace lobewright;

namespace plain {
namespace {

using Words = std::vector<std::pair<char, std::string>>;

/// "G1 X2.5 (note)" into letters and numbers; nothing where that isn't what stands there.
std::optional<Words> words_of(std::string line, CommentStyle comments) {
    if (comments == CommentStyle::parentheses) {
        for (std::size_t open = line.find('('); open != std::string::npos; open = line.find('(')) {
            const std::size_t close = line.find(')', open);
            if (close == std::string::npos || line.find('(', open + 1) < close) return std::nullopt;
            line.erase(open, close - open + 1);
        }
    }
    Words words;
    std::string packed;
    for (const char c : line) {
        if (c != ' ' && c != '\t' && c != '\r') packed += static_cast<char>(std::toupper(c));
    }
    for (std::size_t i = 0; i < packed.size();) {
        const char letter = packed[i++];
        std::size_t end = i;
        if (end < packed.size() && (packed[end] == '-' || packed[end] == '+')) ++end;
        int points = 0, digits = 0;
        for (; end < packed.size() && (std::isdigit(packed[end]) != 0 || packed[end] == '.'); ++end) {
            if (packed[end] == '.')
                ++points;
            else
                ++digits;
        }
        if (std::isalpha(letter) == 0 || digits == 0 || points > 1) return std::nullopt;
        words.emplace_back(letter, packed.substr(i, end - i));
        i = end;
    }
    return words;
}

double number(const std::string& text) {
    return std::strtod(text.c_str(), nullptr);
}

std::string canonical(char letter, const std::string& value) {
    const double tenths = std::round(10.0 * number(value));
    return std::abs(tenths - 10.0 * number(value)) > 1e-6
               ? "?"
               : letter + std::to_string(static_cast<long>(tenths));
}
std::string canonical(const std::string& word) {
    return word.empty() ? "" : canonical(word.front(), word.substr(1));
}

/// The controller's state, and the block in work.
class Machine {
  public:
    explicit Machine(const Dialect& dialect) : d_(dialect) {
        const auto mean = [&](const std::string& word, const std::string& meaning) {
            if (!word.empty()) meanings_[canonical(word)] = meaning;
        };
        mean(d_.rapid_word, "rapid"), mean(d_.feed_word, "feed");
        mean(d_.mm_word, "mm"), mean(d_.inch_word, "inch"), mean(d_.absolute_word, "absolute");
        mean(d_.diameter_word, "diameter"), mean(d_.radius_word, "radius"), mean(d_.plane_word, "plane");
        mean(d_.inverse_time_word, "inverse"), mean(d_.per_minute_word, "minute"),
            mean(d_.exact_path_word, "exact");
        mean(d_.spindle_on_cw, "cw"), mean(d_.spindle_on_ccw, "ccw"), mean(d_.spindle_off, "off");
        mean(d_.coolant_on, "nothing"), mean(d_.coolant_off, "nothing"), mean(d_.program_end, "end");
        mean("M6", "tool"), mean("M2", "end"), mean("M30", "end"), mean("G4", "dwell");
        for (const std::string& word : d_.cancel_words)
            mean(word, "nothing");
        for (const char* word : {"M7", "M8", "M9", "M48", "M49", "M0", "M1", "G17", "G18", "G19", "G40",
                                 "G49", "G98", "G99", "G97"}) {
            mean(word, "nothing");
        }
        mean("G91", "incremental");
        if (d_.per_minute_word == "G94") mean("G95", "turn");
        if (!d_.exact_path_word.empty()) mean("G64", "blend"), mean("G61.1", "exact");
        if (!d_.work_offset_words.empty()) mean(d_.work_offset_words.front(), "zero");
        mm_set_ = d_.mm_word.empty();
        absolute_set_ = d_.absolute_word.empty();
        diameter_set_ = d_.diameter_word.empty() && d_.radius_word.empty();
        diameter_ = diameter_set_ && d_.radial.diameter;
        zero_set_ = d_.work_offset_words.empty();
        exact_set_ = d_.exact_path_word.empty();
    }

    /// False: the program can't be carried out.
    bool block(const Words& words, int line, Reading& reading) {
        std::map<char, double> values;
        motion_here_ = dwell_ = stop_ = false;
        std::map<std::string, int> once;
        for (const auto& [letter, value] : words) {
            if (letter == 'G' || letter == 'M') {
                const auto meaning = meanings_.find(canonical(letter, value));
                if (meaning == meanings_.end() || !obey(meaning->second, once)) return false;
            } else if (!values.emplace(letter, number(value)).second) {
                return false;
            }
        }
        return take(values, line, reading);
    }

  private:
    bool obey(const std::string& meaning, std::map<std::string, int>& once) {
        static const std::map<std::string, std::string> groups = {
            {"rapid", "motion"}, {"feed", "motion"},     {"mm", "unit"},     {"inch", "unit"},
            {"inverse", "mode"}, {"minute", "mode"},     {"turn", "mode"},   {"diameter", "dia"},
            {"radius", "dia"},   {"cw", "spindle"},      {"ccw", "spindle"}, {"off", "spindle"},
            {"absolute", "abs"}, {"incremental", "abs"}, {"exact", "path"},  {"blend", "path"},
            {"zero", "offset"},  {"end", "end"},         {"plane", "plane"}, {"tool", "tool"}};
        const auto group = groups.find(meaning);
        if (group != groups.end() && ++once[group->second] > 1) return false;
        if (meaning == "rapid" || meaning == "feed") motion_ = meaning, motion_here_ = true;
        if (meaning == "mm" || meaning == "inch") {
            const double unit = meaning == "mm" ? 1.0 : 25.4;
            if (mm_set_ && unit != unit_ && mode_ == "minute") feed_ = 0.0;
            unit_ = unit, mm_set_ = true;
        }
        if (meaning == "absolute") absolute_set_ = true;
        if (meaning == "incremental") absolute_set_ = false;  // refused where it comes to count
        if (meaning == "diameter" || meaning == "radius")
            diameter_ = meaning == "diameter", diameter_set_ = true;
        if (meaning == "zero") zero_set_ = true;
        if (meaning == "exact") exact_set_ = true;
        if (meaning == "blend") exact_set_ = false;
        if (meaning == "inverse" || meaning == "minute" || meaning == "turn") mode_ = meaning, feed_ = 0.0;
        if (meaning == "tool") {
            if (fed_) return false;
            spindle_ = 0;
        }
        if (meaning == "cw") spindle_ = 1;
        if (meaning == "ccw") spindle_ = -1;
        if (meaning == "off") spindle_ = 0;
        if (meaning == "dwell") dwell_ = true;
        if (meaning == "end") stop_ = true;
        return true;
    }

    bool take(std::map<char, double> values, int line, Reading& reading) {
        values.erase('N'), values.erase('T');
        if (values.count('S') != 0) speed_ = values['S'], values.erase('S');
        if (values.count('P') != 0 && !dwell_) return false;
        values.erase('P');
        const bool feed_here = values.count('F') != 0;
        if (feed_here) {
            feed_ = values['F'];
            if (feed_ < 0.0 || (d_.feed_lowest && feed_ != 0.0 && feed_ < *d_.feed_lowest)) return false;
            if (d_.feed_highest && feed_ > *d_.feed_highest) return false;
        }
        values.erase('F');
        if (values.empty()) {
            reading.ended = stop_;
            return !motion_here_;
        }
        if (motion_.empty() || !mm_set_ || !absolute_set_) return false;
        if (mode_ == "turn" && motion_ == "feed") return false;  // harmless only where nothing is cut by it
        double to[3] = {at_[0], at_[1], at_[2]};
        for (const auto& [letter, value] : values) {
            if (letter == d_.radial.letter) {
                if (!diameter_set_) return false;
                to[0] = value * unit_ / (diameter_ ? 2.0 : 1.0);
            } else if (letter == d_.axial.letter) {
                to[1] = value * unit_;
            } else if (letter == d_.rotary.letter) {
                to[2] = value;
            } else {
                return false;
            }
        }
        if (d_.largest_rotary > 0.0 && std::abs(to[2]) > d_.largest_rotary) return false;
        return go(to, feed_here, line, reading);
    }

    bool go(const double (&to)[3], bool feed_here, int line, Reading& reading) {
        const bool known = !std::isnan(at_[0]) && !std::isnan(at_[1]) && !std::isnan(at_[2]);
        Move move{to[0], to[1], to[2], motion_ == "rapid", 0.0, line, spindle_ != 0 && speed_ > 0.0};
        if (!move.rapid) {
            if (!known || !zero_set_ || !exact_set_ || mode_.empty() || feed_ == 0.0) return false;
            if (mode_ == "inverse" && !feed_here) return false;
            const double r = (to[0] - at_[0]) / unit_, a = (to[1] - at_[1]) / unit_,
                         c = std::abs(to[2] - at_[2]);
            const double linear = std::sqrt(r * r + a * a);
            const double way = *d_.feed_counts == FeedCounts::mixed ? std::sqrt(linear * linear + c * c)
                               : linear > 0.0                       ? linear
                                                                    : c;
            move.seconds = mode_ == "inverse" ? 60.0 / feed_ : 60.0 * way / feed_;
            fed_ = true;
            if (move.spindle) reading.highest_speed = std::max(reading.highest_speed, speed_);
            reading.reversed = reading.reversed || spindle_ < 0;
        }
        for (int i = 0; i < 3; ++i)
            at_[i] = to[i];
        const bool all = !std::isnan(at_[0]) && !std::isnan(at_[1]) && !std::isnan(at_[2]);
        if (all) reading.moves.push_back(move);
        // Sliding or turning with the radial axis who knows where.
        return !std::isnan(at_[0]);
    }

    const Dialect& d_;
    std::map<std::string, std::string> meanings_;
    double at_[3] = {NAN, NAN, NAN};
    double unit_ = 1.0, feed_ = 0.0, speed_ = 0.0;
    int spindle_ = 0;
    bool mm_set_, absolute_set_, diameter_set_, diameter_, zero_set_, exact_set_;
    bool motion_here_ = false, dwell_ = false, stop_ = false, fed_ = false;
    std::string motion_, mode_;
};

}  // namespace

std::optional<Reading> read(const std::string& text, const Dialect& dialect) {
    Reading reading;
    Machine machine(dialect);
    std::istringstream lines(text);
    int number = 0, percents = 0;
    for (std::string line; !reading.ended && std::getline(lines, line);) {
        ++number;
        if (static_cast<int>(line.size()) - (line.ends_with("\r") ? 1 : 0) > dialect.longest_line)
            return std::nullopt;
        if (line.rfind('%', 0) == 0) {
            if (++percents == 2 || number > 1) break;
            continue;
        }
        const auto words = words_of(line, dialect.comments);
        if (!words) return std::nullopt;
        if (!words->empty() && words->front().first == 'O') {
            if (words->size() > 1) return std::nullopt;
            continue;
        }
        if (!words->empty() && !machine.block(*words, number, reading)) return std::nullopt;
    }
    return reading;
}

}  // namespace plain
