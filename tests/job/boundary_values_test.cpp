// Every key of the job file with every value that it may not have, and with those at the ends of its range:
// what is refused is refused at the value's own place, and the range that a message tells is the range that
// holds.
#include "catch.h"
#include "job_kit.h"
#include "program.h"

#include <lobewright/job_file.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <regex>
#include <set>
#include <sstream>

using namespace lobewright;

namespace {

using Lines = std::vector<std::string>;

/// A key of a text with one key a line.
struct KeyLine {
    std::string path;       ///< "cutter.mill.diameter", "lobe[0].z"
    std::string key;        ///< the last part
    std::string value;      ///< as it stands there
    std::size_t index = 0;  ///< of the line, from 0
    int column = 0;         ///< of the value, from 1
};

Lines lines_of(const std::string& text) {
    std::istringstream in(text);
    Lines lines;
    for (std::string line; std::getline(in, line);)
        lines.push_back(line);
    return lines;
}

std::string joined(const Lines& lines) {
    std::string text;
    for (const std::string& line : lines)
        text += line + '\n';
    return text;
}

/// "[a]" as "a.", the second "[[a]]" as "a[1].".
std::string table_path(const std::string& header, std::map<std::string, int>& lists) {
    const bool list = header.starts_with("[[");
    const std::string name = header.substr(list ? 2 : 1, header.find(']') - (list ? 2 : 1));
    return list ? name + '[' + std::to_string(lists[name]++) + "]." : name + '.';
}

std::vector<KeyLine> keys_of(const Lines& lines) {
    std::vector<KeyLine> keys;
    std::map<std::string, int> lists;
    std::string table;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string& line = lines[i];
        if (line.starts_with('[')) table = table_path(line, lists);
        const std::size_t at = line.find(" = ");
        if (line.starts_with('#') || at == std::string::npos) continue;
        keys.push_back({table + line.substr(0, at), line.substr(0, at), line.substr(at + 3), i,
                        static_cast<int>(at) + 4});
    }
    return keys;
}

/// The text with every key, and two others with the keys that stand in the place of some of those.
std::vector<std::string> texts() {
    const std::string all = file_text(source_folder() / "tests/job/every_key.toml");
    const std::string events =
        with(with(all, "firing_order = [1, 2]", "firing_angles = [0, 360]"), "duration = 240\ncentre = 106",
             "opens_before_bdc = 48\ncloses_after_tdc = 12");
    const std::string apart = with(
        with(with(all, "firing_order = [1, 2]", "firing_order = [1, 2]\nlobe_separation = 108\nadvance = 2"),
             "\nopens_before_tdc = 14\ncloses_after_bdc = 46", "\nduration = 230"),
        "duration = 240\ncentre = 106", "duration = 240");
    return {all, events, apart};
}

Outcome<Job> read(const std::string& text) {
    const auto neighbour = [](const std::string&) {
        std::string table = "cam_angle,lift\n";
        for (int at = -180; at < 180; at += 10)
            table += std::to_string(at) + ",0\n";
        return Outcome<std::string>(table);
    };
    return read_job(text, "job.toml", neighbour);
}

/// Calls check(lines, key) for each key, of the later texts those alone that the first hasn't.
template <class Check>
void for_each_key(Check check) {
    std::set<std::string> seen;
    for (const std::string& text : texts()) {
        const Lines lines = lines_of(text);
        for (const KeyLine& key : keys_of(lines)) {
            if (!seen.insert(key.path).second) continue;
            INFO(key.path << " = " << key.value);
            check(lines, key);
        }
    }
    CHECK(seen.size() > 200);
}

Diagnostics complaints_with(Lines lines, const KeyLine& key, const std::string& value) {
    lines[key.index] = key.key + " = " + value;
    return read(joined(lines)).diagnostics();
}

/// The complaint at the value's own place; null where there is none.
const Diagnostic* at_value(const Diagnostics& complaints, const KeyLine& key) {
    const auto found = std::find_if(complaints.begin(), complaints.end(), [&](const Diagnostic& each) {
        return each.place.line == static_cast<int>(key.index) + 1 && each.place.column == key.column;
    });
    return found == complaints.end() ? nullptr : &*found;
}

void check_refused(const Lines& lines, const KeyLine& key, const std::string& value) {
    INFO(value);
    const Diagnostics complaints = complaints_with(lines, key, value);
    const Diagnostic* complaint = at_value(complaints, key);
    CHECK(complaint != nullptr);
    if (complaint == nullptr) return;
    INFO(to_text(*complaint));
    CHECK(complaint->severity == Severity::error);
    CHECK(complaint->fault == Fault::bad_input);
    // What no number can be is refused before it is known whose it is.
    CHECK((complaint->code == "number" || complaint->what.find(key.key) != std::string::npos));
    CHECK_FALSE(complaint->remedy.empty());
}

bool is_number(const std::string& value) {
    return value.find_first_not_of("-.0123456789") == std::string::npos;
}

struct ToldRange {
    std::optional<double> least, most;
    bool least_allowed = true, most_allowed = true;
};

/// "give at least 0.001 and at most 10000", "give more than 0 and less than 360".
ToldRange range_in(const std::string& remedy) {
    ToldRange range;
    std::smatch match;
    if (std::regex_search(remedy, match, std::regex("(at least|more than) (-?[0-9.]+)"))) {
        range.least = std::stod(match[2]);
        range.least_allowed = match[1] == "at least";
    }
    if (std::regex_search(remedy, match, std::regex("(at most|less than) (-?[0-9.]+)"))) {
        range.most = std::stod(match[2]);
        range.most_allowed = match[1] == "at most";
    }
    return range;
}

bool out_of_range(const Lines& lines, const KeyLine& key, double value) {
    const Diagnostics complaints = complaints_with(lines, key, shortest_fixed(value, 9));
    return std::any_of(complaints.begin(), complaints.end(), [&](const Diagnostic& each) {
        return each.code == "out-of-range" && each.place.line == static_cast<int>(key.index) + 1;
    });
}

/// A little outside of an end: by a millionth of it, a whole where the key wants wholes.
void check_end(const Lines& lines, const KeyLine& key, double end, bool allowed, double outwards) {
    INFO("end " << end);
    CHECK(out_of_range(lines, key, end) == !allowed);
    const double little = std::max(1e-9, 1e-6 * std::abs(end));
    CHECK(out_of_range(lines, key, end + outwards * little));
}

/// Whether just those values are out of range that lie below it.
void check_inside(const Lines& lines, const KeyLine& key, const ToldRange& range,
                  const std::vector<double>& values) {
    for (const double value : values) {
        INFO(value);
        const bool below = value < *range.least || (value == *range.least && !range.least_allowed);
        CHECK(out_of_range(lines, key, value) == below);
    }
}

}  // namespace

TEST_CASE("the text with every key is a sound job, and so are those with other keys in their place") {
    for (const std::string& text : texts()) {
        const Outcome<Job> job = read(text);
        for (const Diagnostic& each : job.diagnostics())
            UNSCOPED_INFO(to_text(each));
        CHECK(job.ok());
    }
}

TEST_CASE("a value of the wrong kind is refused at its place by its key's name") {
    for_each_key([](const Lines& lines, const KeyLine& key) {
        check_refused(lines, key, "true");
        check_refused(lines, key, "1979-05-27");
        if (is_number(key.value) && key.path != "profile.apart.flank_radius.opening")
            check_refused(lines, key, "\"text\"");
        if (key.value.starts_with('"')) check_refused(lines, key, key.key == "closing" ? "0" : "7");
        if (key.value.starts_with('[')) check_refused(lines, key, "7");
    });
}

TEST_CASE("what is no finite number is refused at its place by its key's name") {
    for_each_key([](const Lines& lines, const KeyLine& key) {
        if (!is_number(key.value)) return;
        for (const char* none : {"nan", "-inf"})
            check_refused(lines, key, none);
        if (key.key != "diameter") return;
        for (const char* none : {"-nan", "inf", "1e400", "99999999999999999999"})
            check_refused(lines, key, none);
    });
}

TEST_CASE("the range that a message tells is the range that holds, to its very ends") {
    std::size_t ranges = 0;
    for_each_key([&](const Lines& lines, const KeyLine& key) {
        // A flank's radius has two ranges, either side of nothing.
        if (!is_number(key.value) || key.key == "layout" ||
            key.path.find("flank_radius") != std::string::npos)
            return;
        for (const char* far : {"1e300", "-1e300"}) {
            const Diagnostics complaints = complaints_with(lines, key, far);
            const Diagnostic* complaint = at_value(complaints, key);
            REQUIRE(complaint != nullptr);
            INFO(to_text(*complaint));
            CHECK(complaint->code == "out-of-range");
            const ToldRange range = range_in(complaint->remedy);
            REQUIRE((far[0] == '-' ? range.least : range.most).has_value());
            if (far[0] == '-') {
                check_end(lines, key, range.least.value(), range.least_allowed, -1.0);
                check_inside(lines, key, range, {0.0, -1.0});
            } else {
                check_end(lines, key, range.most.value(), range.most_allowed, 1.0);
            }
        }
        ++ranges;
    });
    CHECK(ranges > 130);
}

TEST_CASE("a key that is missing is asked for by its name, or has a default") {
    std::size_t asked = 0;
    for_each_key([&](const Lines& lines, const KeyLine& key) {
        if (key.path == "hand.head.cutter_axis")
            return;  // without it the cutter is radial, and `cutter` too much
        Lines without = lines;
        without.erase(without.begin() + static_cast<std::ptrdiff_t>(key.index));
        const Outcome<Job> job = read(joined(without));
        if (job) return;
        ++asked;
        const Diagnostics& complaints = job.diagnostics();
        for (const Diagnostic& each : complaints)
            UNSCOPED_INFO(to_text(each));
        CHECK(std::any_of(complaints.begin(), complaints.end(), [&](const Diagnostic& each) {
            return (each.what + each.remedy).find(key.key) != std::string::npos;
        }));
    });
    CHECK(asked > 80);
}

TEST_CASE("a key that stands twice is refused at the second") {
    for_each_key([](const Lines& lines, const KeyLine& key) {
        Lines twice = lines;
        twice.insert(twice.begin() + static_cast<std::ptrdiff_t>(key.index), lines[key.index]);
        const Diagnostics complaints = read(joined(twice)).diagnostics();
        REQUIRE(complaints.size() == 1);
        INFO(to_text(complaints.front()));
        CHECK(complaints.front().place.line == static_cast<int>(key.index) + 2);
        CHECK(complaints.front().place.column == 1);
        CHECK(complaints.front().what.find('\'' + key.key + '\'') != std::string::npos);
    });
}

TEST_CASE("every key that the reader asks for stands in the text with every key") {
    std::string all;
    for (const std::string& text : texts())
        all += text;
    std::string sources;
    for (const auto& entry : std::filesystem::directory_iterator(source_folder() / "src/job")) {
        if (entry.path().extension() == ".cpp" && entry.path().filename() != "start.cpp")
            sources += file_text(entry.path());
    }
    const std::regex call(
        R"re(\b(?:required_)?(?:length|number|whole_number|angle)(?:_or)?(?:<\w+>)?\("([a-z_]+)")re");
    std::size_t keys = 0;
    for (std::sregex_iterator it(sources.begin(), sources.end(), call), end; it != end; ++it, ++keys) {
        INFO((*it)[1]);
        CHECK(all.find('\n' + (*it)[1].str() + " = ") != std::string::npos);
    }
    CHECK(keys > 80);
}
