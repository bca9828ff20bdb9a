#include "fuzz_seeds.h"

#include "../cli/random_job_text.h"
#include "cli/command_table.h"
#include "fuzz_subjects.h"

#include <lobewright/inspect.h>
#include <lobewright/lift_table.h>
#include <lobewright/shipped_dialects.h>
#include <lobewright/start.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

using namespace lobewright;
namespace fs = std::filesystem;

namespace {

std::vector<std::string> texts_in(const fs::path& folder, const std::string& ending) {
    std::vector<fs::path> paths;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder))
        if (entry.path().extension() == ending) paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    std::vector<std::string> texts;
    for (const fs::path& path : paths) {
        std::ostringstream text;
        text << std::ifstream(path, std::ios::binary).rdbuf();
        texts.push_back(text.str());
    }
    return texts;
}

/// One profile in the place of another in the subject.
std::string with_profile(const std::string& keys) {
    std::string text = subject_text();
    const std::size_t from = text.find("[profile.inlet]\n"), to = text.find("[follower");
    return text.replace(from, to - from, "[profile.inlet]\n" + keys);
}

std::string rows_as_csv(int every) {
    const SolvedLobe& lobe = subject_in(Units::mm).lobes.front();
    return lift_table_text(lift_table(lobe, CamAngle::from_degrees(every)), lobe, Units::mm,
                           TableFormat::csv);
}

/// The columns cam_angle and lift alone, in another spelling.
std::string plain_table(char separator) {
    std::string text = std::string("cam_angle") + separator + "lift\n";
    const SolvedLobe& lobe = subject_in(Units::mm).lobes.front();
    for (const LiftRow& row : lift_table(lobe, CamAngle::from_degrees(10.0))) {
        std::ostringstream line;
        line << row.cam_angle.degrees() << separator << row.lift.lift << '\n';
        text += line.str();
    }
    return text;
}

std::string expected_csv() {
    const Subject& subject = subject_in(Units::mm);
    const SolvedLobe& lobe = subject.lobes.front();
    const auto expected = expected_readings(lobe, Probe{}, CamAngle::from_degrees(12.0));
    return expected_text(expected, lobe, Units::mm, std::nullopt, InspectFormat::csv);
}

std::string readings_by(const std::string& column, double step, int count) {
    std::ostringstream text;
    text << column << ",reading\n";
    const SolvedLobe& lobe = subject_in(Units::mm).lobes.front();
    for (int i = 0; i < count; ++i) {
        const double at = step * i;
        const double lift = contact_at(lobe, CamAngle::from_degrees(at > 180.0 ? at - 360.0 : at)).lift.lift;
        text << (column == "mark" ? i : at) << ',' << static_cast<int>(lift * 1000.0) / 1000.0 << '\n';
    }
    return text.str();
}

std::vector<std::string> words_of(const std::string& line) {
    std::istringstream in(line);
    std::vector<std::string> words;
    for (std::string word; in >> word;)
        words.push_back(word);
    return words;
}

std::string one_a_line(const std::string& command) {
    std::string text;
    for (const std::string& word : words_of(command))
        text += word + '\n';
    return text;
}

}  // namespace

std::vector<std::string> job_seeds() {
    std::vector<std::string> seeds = texts_in(fs::path(LOBEWRIGHT_SOURCE_DIR) / "examples", ".toml");
    seeds.push_back(subject_text());
    seeds.push_back(subject_text("inch"));
    for (const std::string& purpose : starting_purposes())
        seeds.push_back(*starting_job(purpose));
    for (unsigned seed = 1; seed <= 12; ++seed)
        seeds.push_back(RandomJobText(seed).fair());
    seeds.push_back(
        with_profile("shape = \"table\"\nbase_radius = 6\nfile = \"traced.csv\"\nsmoothing = 0.01\n"));
    seeds.push_back(
        with_profile("shape = \"segments\"\nbase_radius = 6\nsegments = [ { over = 60, to = 2.4, law = "
                     "\"cycloidal\" }, { over = 40 }, { over = 50, to = 0, law = \"parabolic\" } ]\n"));
    seeds.push_back(
        with_profile("shape = \"motion\"\nbase_radius = 6\nlift = 2.4\nopening_law = \"modified-sine\"\n"
                     "closing_law = \"power-polynomial\"\npowers = [2, 10, 18, 26]\nopening_angle = 64\n"
                     "closing_angle = 68\nopening_ramp = { lift = 0.12, angle = 18 }\n"));
    seeds.push_back(with_profile(
        "shape = \"fullest\"\nbase_radius = 6\nlift = 2.4\nopening_angle = 70\nclosing_angle = 72\n"
        "limits = { deceleration = 0.0045, jerk = 0.002, velocity = 0.25 }\n"));
    return seeds;
}

std::vector<std::string> dialect_seeds() {
    std::vector<std::string> seeds;
    for (const ShippedDialect& each : shipped_dialects())
        seeds.emplace_back(each.text);
    return seeds;
}

std::vector<std::string> program_seeds() {
    std::vector<std::string> seeds;
    for (const SpokenDialect& each : spoken_dialects())
        seeds.push_back(each.name + " mm\n" + each.program);
    for (const std::string& golden : texts_in(fs::path(LOBEWRIGHT_SOURCE_DIR) / "tests/post/golden", ".ngc"))
        seeds.push_back("rs274ngc-xza mm\n" + golden);
    seeds.push_back(
        "rs274ngc-xza inch\n%\nG18 G20 G90\nG54 G61\nG40 G49 G80\nS100 M3\nG0 X1.5\nG0 Z0.8\nG0 A0\n"
        "G94 G1 X1.4 F5\nG2 X1.3 Z0.7 I-0.1 F4\nG3 X1.4 Z0.8 R0.2\nG93 G1 X1 A20 F60\n"
        "/G1 A40 F60\nG4 P0.5\nG91 G1 A10 F30\nG90\nM8\nG95 G1 X1.2 F0.002\nM5 M9\nM30\n%\n");
    return seeds;
}

std::vector<std::string> table_seeds() {
    return {"mm 0.002\n" + rows_as_csv(10), "mm 0.01 roller\n" + plain_table(','),
            "inch\n" + plain_table(';'), "mm\n" + plain_table('\t'), "mm 0\n# traced\n" + plain_table(',')};
}

std::vector<std::string> readings_seeds() {
    return {"plain\n" + expected_csv(),
            "zero runout\n" + readings_by("cam_angle", 12.0, 30),
            "arcs\n" + readings_by("cam_angle", 12.0, 30),
            "marks zero\n" + readings_by("mark", 5.0, 40),
            "reversed\n" + readings_by("shaft_angle", 15.0, 24),
            "columns:-,cam_angle,reading inch\n1 0 0.09\n2 90 0\n3 180 0\n",
            "named\nlobe,cam_angle,reading\n1 inlet,0,2.4\n1 inlet,10,2.3\n1 inlet,180,0\n"};
}

std::vector<std::string> arguments_seeds() {
    std::vector<std::string> seeds{"--help\n", "--version\n", "help\n--as\nman\n"};
    for (const cli::CommandRow& row : cli::command_table()) {
        seeds.push_back(row.name + "\n--help\n");
        for (const std::string& example : row.examples)
            seeds.push_back(one_a_line(example));
    }
    return seeds;
}
