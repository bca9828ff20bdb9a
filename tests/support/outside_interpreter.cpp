#include "outside_interpreter.h"

#include "catch.h"
#include "program.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <sstream>

namespace outside {
namespace {

constexpr double half_digit = 0.5e-4;  // of four printed decimals
constexpr double lowest_rate = 0.1;    // it prints this for any lower one

/// The numbers between a call's parentheses; words among them count as 0.
std::vector<double> arguments_of(const std::string& call) {
    std::vector<double> numbers;
    const std::size_t open = call.find('(');
    std::istringstream list(call.substr(open + 1, call.rfind(')') - open - 1));
    list.imbue(std::locale::classic());
    for (std::string item; std::getline(list, item, ',');) {
        std::istringstream number(item);
        number.imbue(std::locale::classic());
        double value = 0.0;
        number >> value;
        numbers.push_back(value);
    }
    return numbers;
}

/// Follows the calls, with the state that a move's time needs.
class Listener {
  public:
    explicit Listener(Reading& reading) : reading_(reading) {}

    void hear(const std::string& line_number, const std::string& call) {
        reading_.calls.push_back(call);
        const std::string name = call.substr(0, call.find('('));
        if (name == "USE_LENGTH_UNITS") use_units(call.find("INCHES") != std::string::npos);
        if (name == "CHANGE_TOOL") ++changes_;
        if (name == "SET_FEED_RATE") rate_ = arguments_of(call).at(0);
        if (name == "STRAIGHT_TRAVERSE") straight(Kind::rapid, line_number, arguments_of(call));
        if (name == "STRAIGHT_FEED") straight(Kind::feed, line_number, arguments_of(call));
        if (name == "ARC_FEED") arc(line_number, arguments_of(call));
        if (name == "DWELL") {
            Move move = blank(Kind::dwell, line_number);
            move.seconds = arguments_of(call).at(0);
            move.seconds_error = half_digit;
            reading_.moves.push_back(move);
        }
    }

  private:
    /// Positions are printed in the unit in force: a change of units restates the place.
    void use_units(bool inches) {
        if (inches == reading_.inches) return;
        for (std::size_t axis = 0; axis < 3; ++axis)
            at_[axis] *= inches ? 1.0 / 25.4 : 25.4;
        reading_.inches = inches;
    }

    [[nodiscard]] Move blank(Kind kind, const std::string& line_number) const {
        Move move;
        move.kind = kind;
        move.at = at_;
        move.rate = rate_;
        move.line_number = line_number;
        move.changes = changes_;
        return move;
    }

    void straight(Kind kind, const std::string& line_number, const std::vector<double>& to) {
        Move move = blank(kind, line_number);
        for (std::size_t axis = 0; axis < 6; ++axis)
            move.at[axis] = to.at(axis);
        if (kind == Kind::feed) take_time(move);
        at_ = move.at;
        reading_.moves.push_back(move);
    }

    void take_time(Move& move) const {
        const auto way = [&](std::size_t first, std::size_t end) {
            double sum = 0.0;
            for (std::size_t axis = first; axis < end; ++axis) {
                sum += (move.at[axis] - at_[axis]) * (move.at[axis] - at_[axis]);
            }
            return std::sqrt(sum);
        };
        const double linear = way(0, 3);
        const double length = linear > 0.0 ? linear : way(3, 6);
        if (rate_ <= lowest_rate || length == 0.0) return;
        move.seconds = 60.0 * length / rate_;
        const double relative = half_digit / rate_ + 2.0 * std::sqrt(3.0) * half_digit / length;
        move.seconds_error = move.seconds * relative * 1.1;
    }

    void arc(const std::string& line_number, const std::vector<double>& arguments) {
        Move move = blank(Kind::arc, line_number);
        move.arguments = arguments;
        for (std::size_t axis = 3; axis < 6; ++axis)
            move.at[axis] = arguments.at(axis + 3);
        at_ = move.at;
        reading_.moves.push_back(move);
    }

    Reading& reading_;
    double rate_ = 0.0;
    int changes_ = 0;
    std::array<double, 6> at_{};
};

/// A printed line: running count, the block's N word ("N....." where there is none), the call.
void listen(const std::string& canon, Reading& reading) {
    Listener listener(reading);
    std::istringstream lines(canon);
    for (std::string line; std::getline(lines, line);) {
        const std::size_t n = line.find('N');
        if (n == std::string::npos) continue;
        const std::size_t end = line.find(' ', n);
        const std::size_t call = line.find_first_not_of(' ', end);
        if (end == std::string::npos || call == std::string::npos) continue;
        std::string number = line.substr(n + 1, end - n - 1);
        number.erase(std::remove(number.begin(), number.end(), '.'), number.end());
        if (line.find('(', call) != std::string::npos) listener.hear(number, line.substr(call));
    }
}

}  // namespace

bool installed() {
    static const bool found = run_command({"sh", "-c", "command -v rs274"}).exit_code == 0;
    return found;
}

void say_skipped() {
    WARN("SKIPPED: the outside interpreter rs274 is not installed (Debian package linuxcnc-uspace)");
}

Reading interpret(const std::string& program, bool block_delete) {
    const TemporaryFolder folder;  // also its HOME: two runs with one HOME spoil each other's tools
    const std::filesystem::path& place = folder.path();
    std::string tools;
    for (int tool = 1; tool <= 9; ++tool) {
        tools += 'T' + std::to_string(tool) + " P" + std::to_string(tool) + " Z0 D10.0\n";
    }
    write_file(place / "tools.tbl", tools);
    write_file(place / "program.ngc", program);
    std::vector<std::string> command = {"env",      "HOME=" + place.string(), "LC_ALL=C", "rs274", "-g", "-t",
                                        "tools.tbl"};
    if (block_delete) command.push_back("-b");
    command.insert(command.end(), {"program.ngc", "canon.txt"});
    const Run run = run_command(command, place);
    Reading reading;
    reading.exit_code = run.exit_code;
    reading.error = run.err;
    if (std::filesystem::exists(place / "canon.txt")) listen(file_text(place / "canon.txt"), reading);
    return reading;
}

}  // namespace outside
