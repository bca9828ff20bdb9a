#include "fuzz_subjects.h"

#include "fuzz_promises.h"

#include <lobewright/job_file.h>
#include <lobewright/program_writer.h>
#include <lobewright/shipped_dialects.h>
#include <lobewright/toolpath.h>

#include <algorithm>
#include <sstream>

using namespace lobewright;

namespace {

template <class T>
T sound(Outcome<T> outcome) {
    for (const Diagnostic& each : outcome.diagnostics())
        hold(outcome.ok(), "the subject is not sound: " + to_text(each));
    return std::move(outcome).value();
}

Outcome<std::string> no_neighbour(const std::string& path) {
    return Diagnostic{Fault::unreadable, Severity::error, "unreadable", "no such file", "none", {path}};
}

Subject subject_of(const std::string& units) {
    Subject made{sound(read_job(subject_text(units), "subject.toml", no_neighbour)), {}};
    made.lobes = sound(solve_lobes(made.job));
    return made;
}

SpokenDialect spoken(const ShippedDialect& shipped) {
    SpokenDialect made{std::string(shipped.name), {}, {}};
    made.dialect = sound(read_dialect(std::string(shipped.text), made.name + ".toml"));
    const Subject& subject = subject_in(Units::mm);
    const WordGrid grid = word_grid(made.dialect, Units::mm);
    const Toolpath path = sound(plan_toolpath(subject.job, subject.lobes, grid));
    made.program = sound(write_program(subject.job, subject.lobes, path, made.dialect));
    return made;
}

}  // namespace

std::string subject_text(const std::string& units) {
    const auto length = [&](double mm) {
        std::ostringstream text;
        text << (units == "inch" ? mm / 25.4 : mm);
        return text.str();
    };
    return "layout = 1\n[job]\ntitle = \"Basalt small\"\nunits = \"" + units +
           "\"\n"
           "[shaft]\nturns = \"ccw\"\nblank_diameter = " +
           length(17) + "\nlength = " + length(40) +
           "\n"
           "[engine]\ncylinders = 1\n"
           "inlet = { opens_before_tdc = 14, closes_after_bdc = 46, clearance = " +
           length(0.1) +
           " }\n"
           "[profile.inlet]\nshape = \"arcs\"\nbase_radius = " +
           length(6) + "\nlift = " + length(2.4) + "\naction_angle = 120\nflank_radius = " + length(25) +
           "\n"
           "[follower.tappet]\nkind = \"flat\"\n"
           "[[lobe]]\nname = \"1 inlet\"\nprofile = \"inlet\"\nfollower = \"tappet\"\ncylinder = 1\n"
           "valve = \"inlet\"\nz = " +
           length(20) + "\nwidth = " + length(3) +
           "\n"
           "[cutter.disc]\nkind = \"disc\"\ndiameter = " +
           length(32) + "\nwidth = " + length(5) + "\nneck_diameter = " + length(12) +
           "\nteeth = 12\n"
           "[machine]\npost = \"rs274ngc-xza\"\ncutter_axis = \"parallel\"\nrotary_positive = \"ccw\"\n"
           "tool_change = { radial = " +
           length(60) + ", axial = " + length(150) +
           " }\n"
           "[cut]\ncutter = \"disc\"\ntolerance = " +
           length(0.1) + "\nfinish_depth = " + length(10) + "\nsurface_feed = " + length(120) +
           "\nspindle_speed = 600\n"
           "[hand.lathe]\nmethod = \"offset-fixture\"\noffset = " +
           length(19) + "\ndivisions = 72\n";
}

const Subject& subject_in(Units units) {
    static const Subject mm = subject_of("mm"), inch = subject_of("inch");
    return units == Units::mm ? mm : inch;
}

const std::vector<SpokenDialect>& spoken_dialects() {
    static const std::vector<SpokenDialect> all = [] {
        std::vector<SpokenDialect> made;
        for (const ShippedDialect& each : shipped_dialects())
            made.push_back(spoken(each));
        return made;
    }();
    return all;
}

HeadedText headed(const std::string& text) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    HeadedText parts;
    std::istringstream words(text.substr(0, end));
    for (std::string word; words >> word;)
        parts.choices.push_back(word);
    if (end < text.size()) parts.text = text.substr(end + 1);
    return parts;
}

bool chosen(const HeadedText& headed, const std::string& choice) {
    return std::find(headed.choices.begin(), headed.choices.end(), choice) != headed.choices.end();
}
