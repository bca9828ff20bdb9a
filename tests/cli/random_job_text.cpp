#include "random_job_text.h"

#include <lobewright/number_text.h>

#include <cctype>
#include <utility>
#include <vector>

using lobewright::shortest_fixed;

namespace {

std::string line(const std::string& key, const std::string& value) {
    return key + " = " + value + '\n';
}

/// Where the figures of a text stand: every number behind a "=", "[" or ",".
std::vector<std::pair<std::size_t, std::size_t>> figures_in(const std::string& text) {
    std::vector<std::pair<std::size_t, std::size_t>> found;
    bool quoted = false;
    for (std::size_t i = 1; i < text.size(); ++i) {
        if (text[i] == '"') quoted = !quoted;
        const bool starts = std::isdigit(static_cast<unsigned char>(text[i])) != 0 || text[i] == '-';
        if (quoted || !starts || (text[i - 1] != ' ' && text[i - 1] != '[')) continue;
        const std::size_t end = std::min(text.find_first_not_of("-.0123456789", i), text.size());
        found.emplace_back(i, end - i);
        i = end;
    }
    return found;
}

}  // namespace

double RandomJobText::between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_()) / 4294967296.0;
}
int RandomJobText::pick(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1));
}
bool RandomJobText::chance(double share) {
    return between(0.0, 1.0) < share;
}
std::string RandomJobText::one_of(std::initializer_list<const char*> words) {
    return words.begin()[pick(0, static_cast<int>(words.size()) - 1)];
}
std::string RandomJobText::number(double low, double high, int decimals) {
    return shortest_fixed(between(low, high), decimals);
}

std::string RandomJobText::profile(double base, double lift) {
    std::string text = line("base_radius", shortest_fixed(base, 2)) + line("lift", shortest_fixed(lift, 2));
    if (chance(0.6)) {
        text += line("shape", "\"arcs\"") + line("action_angle", number(95.0, 150.0, 0));
        if (chance(0.1)) return text + line("flank_radius", "\"straight\"");
        if (chance(0.5)) return text + line("nose_radius", number(0.1 * base, 0.5 * base, 1));
        return text + line("flank_radius", number(1.8 * base, 6.0 * base, 1));
    }
    const std::string law = one_of({"simple-harmonic", "cycloidal", "polynomial-345", "polynomial-4567",
                                    "modified-sine", "modified-trapezoid", "power-polynomial"});
    text += line("shape", "\"motion\"") + line("law", '"' + law + '"');
    if (law == "power-polynomial") text += line("powers", "[2, 10, 18, 26]");
    text += line("opening_angle", number(55.0, 80.0, 1)) + line("closing_angle", number(55.0, 80.0, 1));
    if (chance(0.3)) text += line("dwell_angle", number(0.0, 10.0, 1));
    if (chance(0.5)) text += line("opening_ramp", "{ lift = 0.1, angle = " + number(10.0, 25.0, 0) + " }");
    return text;
}

std::string RandomJobText::follower(double base) {
    const std::string kind = one_of({"flat", "flat", "roller", "domed", "knife", "pivoted"});
    std::string text = "[follower.f]\n" + line("kind", '"' + kind + '"');
    if (kind == "flat" && chance(0.5)) text += line("face_diameter", number(base, 4.0 * base, 1));
    if (kind == "roller") text += line("radius", number(0.5 * base, 2.0 * base, 1));
    if (kind == "domed") text += line("radius", number(3.0 * base, 9.0 * base, 0));
    if (kind == "pivoted")
        text += line("radius", number(0.5 * base, 2.0 * base, 1)) +
                line("side", one_of({"\"ccw\"", "\"cw\""})) +
                line("pivot_radius", number(3.0 * base, 4.0 * base, 1)) +
                line("arm_length", number(2.8 * base, 3.8 * base, 1));
    if ((kind == "roller" || kind == "domed") && chance(0.3)) text += line("offset", number(-1.0, 1.0, 1));
    if (chance(0.3)) text += line("valve_ratio", number(0.8, 1.7, 2));
    return text;
}

std::string RandomJobText::lobes(bool engine) {
    std::string text;
    const int count = pick(1, 2);
    for (int i = 0; i < count; ++i) {
        text += "[[lobe]]\n" + line("name", "\"lobe " + std::to_string(i + 1) + '"') +
                line("profile", "\"p\"") + line("follower", "\"f\"") +
                line("z", std::to_string(20 + 30 * i)) + line("width", number(3.0, 9.0, 1));
        if (engine) {
            text += line("cylinder", "1") + line("valve", i == 0 ? "\"inlet\"" : "\"exhaust\"");
        } else {
            text += line("at", number(-180.0, 360.0, pick(0, 2)));
        }
    }
    return text;
}

std::string RandomJobText::machine() {
    const std::string axis =
        one_of({"parallel", "parallel", "parallel", "parallel", "parallel", "radial", "tangential"});
    std::string text = "[cutter.em]\nkind = \"end-mill\"\n" + line("diameter", number(4.0, 30.0, 0)) +
                       line("flute_length", number(15.0, 40.0, 0)) + line("teeth", "4");
    text += "[cutter.disc]\nkind = \"disc\"\n" + line("diameter", number(30.0, 70.0, 0)) +
            line("width", number(3.0, 10.0, 0)) + line("neck_diameter", number(8.0, 16.0, 0)) +
            line("teeth", "12");
    text += "[machine]\n" + line("cutter_axis", '"' + axis + '"') +
            line("rotary_positive", one_of({"\"ccw\"", "\"cw\""})) +
            line("post", one_of({"\"rs274ngc-xza\"", "\"rs274ngc-xza\"", "\"plain-xa\"", "\"rs274ngc-zxa\"",
                                 "\"iso6983-xzc\"", "\"rs274ngc-xzc\""}));
    if (chance(0.7)) text += line("tool_change", "{ radial = 150.0, axial = 200.0 }");
    if (chance(0.5))
        text += line("limits", "{ radial_speed = " + number(20.0, 2000.0, 0) +
                                   ", rotary_speed = " + number(200.0, 7200.0, 0) +
                                   ", radial_acceleration = " + number(10.0, 300.0, 0) +
                                   ", rotary_acceleration = " + number(200.0, 3600.0, 0) +
                                   ", blocks_per_second = " + number(5.0, 400.0, 0) + " }");
    text += "[cut]\n" +
            line("cutter", axis == "radial" ? "\"em\"" : one_of({"\"em\"", "\"disc\"", "\"disc\""})) +
            line("tolerance", number(0.004, 0.03, 4)) + line("surface_feed", number(40.0, 200.0, 0)) +
            line("spindle_speed", number(100.0, 3000.0, 0));
    text += chance(0.7) ? line("rough_depth", number(0.4, 1.5, 1)) : line("finish_depth", "50.0");
    if (chance(0.3)) text += line("spring_passes", "1");
    return text;
}

std::string RandomJobText::hand() {
    std::string text = "[hand.lathe]\nmethod = \"offset-fixture\"\n" +
                       line("divisions", one_of({"24", "36", "60", "72", "90", "120", "360"}));
    if (chance(0.3)) text += line("vernier", number(0.05, 0.5, 2));
    if (chance(0.5)) text += line("infeed", number(0.05, 0.3, 2));
    if (chance(0.3)) text += line("dial", "\"diameter\"");
    if (chance(0.3)) text += line("zero", number(-10.0, 10.0, 1));
    if (chance(0.3)) text += line("cusp", number(0.002, 0.05, 3));
    for (const bool table : {false, true}) {
        text += table ? "[hand.table]\nmethod = \"rotary-table\"\n"
                      : "[hand.head]\nmethod = \"dividing-head\"\nplates = [[15, 16, 17, 18], [21, 23, 27], "
                        "[37]]\n";
        text += chance(0.5) ? line("step", number(1.0, chance(0.3) ? 30.0 : 8.0, 1))
                            : line("cusp", number(0.002, 0.1, 3));
        if (chance(0.3)) text += line("cutter_axis", "\"parallel\"") + line("cutter", "\"em\"");
        if (chance(0.3)) text += line("counts", "\"cw\"");
        if (chance(0.3)) text += line("infeed", number(0.1, 0.5, 1));
    }
    return text;
}

std::string RandomJobText::fair() {
    const double base = 0.01 * pick(400, 1800),
                 lift = 0.01 * pick(static_cast<int>(10 * base), static_cast<int>(45 * base));
    const double nose = 2.0 * (base + lift);
    std::string text = "layout = 1\n[job]\ntitle = \"Basalt at random\"\n" + line("units", "\"mm\"");
    text += "[shaft]\n" + line("turns", one_of({"\"ccw\"", "\"cw\""}));
    const double over = chance(0.5) ? 0.0 : between(0.0, 2.0);
    if (chance(0.9)) text += line("blank_diameter", shortest_fixed(nose + over, 3));
    const bool engine = chance(0.5);
    if (engine)
        text += "[engine]\ncylinders = 1\n" + line("cam_per_crank", chance(0.9) ? "0.5" : "1.0") +
                "inlet = { opens_before_tdc = 14, closes_after_bdc = 46, clearance = 0.10 }\n" +
                "exhaust = { opens_before_bdc = 48, closes_after_tdc = 12, clearance = 0.12 }\n";
    text += "[profile.p]\n" + profile(base, lift) + follower(base) + lobes(engine);
    if (chance(0.4))
        text +=
            "[contact]\nspring_preload = 40.0\nspring_rate = 12.0\nmoving_mass = 0.03\ncrank_speed = 6000\n";
    return text + machine() + hand();
}

std::string RandomJobText::hostile() {
    std::string text = fair();
    for (int times = pick(1, 2); times > 0; --times) {
        const auto figures = figures_in(text);
        const auto [at, size] =
            figures[static_cast<std::size_t>(pick(0, static_cast<int>(figures.size()) - 1))];
        text.replace(at, size, one_of({"0.0",     "-1.0",  "1e-308", "5e-324", "1e-30", "1e-9", "1e-5",
                                       "0.001",   "0.01",  "0.05",   "0.5",    "1.0",   "2.0",  "90.0",
                                       "180.0",   "359.9", "1000.0", "1e4",    "1e6",   "1e9",  "1e30",
                                       "1.7e308", "0",     "1",      "2",      "3",     "64",   "100000"}));
    }
    return text;
}
