/// Programs of random shafts, from planning to an interpreter that is not ours: it must read each, and its
/// canonical moves must begin, change the tool and end where they should, and keep rapids clear.
#include "catch.h"
#include "drawn_shaft.h"
#include "outside_interpreter.h"
#include "sweep.h"
#include "trials.h"

#include <lobewright/one_program.h>
#include <lobewright/operation_work.h>
#include <lobewright/program_writer.h>
#include <lobewright/proof.h>

#include <algorithm>
#include <map>

using namespace lobewright;

namespace {

/// One program: of one operation, or of all.
struct Program {
    std::vector<OperationWork> works;
    std::string text;
    std::vector<ProofReport> proofs;
    [[nodiscard]] const Job& job(int operation) const {
        return works[static_cast<std::size_t>(operation)].job;
    }
    [[nodiscard]] const Dialect& dialect() const { return works.front().dialect; }
    [[nodiscard]] double unit() const { return mm_per(works.front().job.units); }
    /// Halves of the last digit that the interpreter prints, in mm.
    [[nodiscard]] double printed() const { return 1e-4 * unit(); }
};

/// A place of the interpreter's as the tests' sweep takes it, and the operation that it belongs to: -1 before
/// its tool is in.
struct Place {
    sweep::Position at;
    int operation = -1;
};

std::size_t axis_of(char letter) {
    return std::string("XYZABC").find(letter);
}

std::vector<Place> places_of(const outside::Reading& reading, const Program& program) {
    const Dialect& d = program.dialect();
    std::vector<Place> places;
    for (const outside::Move& move : reading.moves) {
        if (move.kind == outside::Kind::dwell) continue;
        Place place;
        place.at.radial = move.at[axis_of(d.radial.letter)] * program.unit();
        place.at.axial = move.at[axis_of(d.axial.letter)] * program.unit();
        place.at.rotary = move.at[axis_of(d.rotary.letter)];
        place.at.rapid = move.kind == outside::Kind::rapid;
        place.operation = move.changes - 1;
        places.push_back(place);
    }
    return places;
}

/// mm: how far out the cutter's tip stands clear of bar, journals and neighbours.
double clear_level(const Job& job) {
    double level = 0.5 * *job.shaft.blank_diameter;
    for (const Journal& journal : job.shaft.journals)
        level = std::max(level, 0.5 * journal.diameter);
    return level + job.cut->clearance;
}

/// mm: by how much less than its tip's words say a worn wheel comes near.
double most_worn(const Job& job) {
    const Cutter& cutter = job.cutters.at(job.cut->cutter);
    return cutter.wear_per_lobe.value_or(0.0) * static_cast<double>(job.lobes.size());
}

/// Every rapid keeps clear of everything, but the straight one out. Not looked at: the first ways, from where
/// the interpreter takes the machine to stand (its own zeros), and the machine's own way home, which it tells
/// in the program's places.
void check_rapids(const Program& program, const std::vector<Place>& places) {
    const bool goes_home = !program.dialect().home.empty() && !program.job(0).machine->tool_change;
    constexpr int home_moves = 3;
    std::string near;
    bool came_in = false;  // since the tool was changed; before, the shaft may turn as often as it likes
    for (std::size_t i = 1; i < places.size(); ++i) {
        const auto& [a, before] = places[i - 1];
        const auto& [b, operation] = places[i];
        const bool first_way = operation != before || !came_in;
        came_in = operation == before && (came_in || b.radial != a.radial);
        const std::size_t soon = i + home_moves;
        const bool ends_soon = soon >= places.size() || places[soon].operation != operation;
        if (!b.rapid || operation < 0 || first_way || (goes_home && ends_soon)) continue;
        const double tip = sweep::cutting_body(program.job(operation)).tip_from_word;
        const double clear =
            clear_level(program.job(operation)) - program.printed() - most_worn(program.job(operation));
        const bool out = a.axial == b.axial && a.rotary == b.rotary && b.radial > a.radial;
        if (b.radial + tip >= clear && (out || a.radial + tip >= clear)) continue;
        near += "move " + std::to_string(i) + " of " + std::to_string(places.size()) + ": from " +
                std::to_string(a.radial + tip) + " to " + std::to_string(b.radial + tip) + ", clear " +
                std::to_string(clear) + '\n';
    }
    INFO(near);
    CHECK(near.empty());
}

/// A tool is changed once for each operation, the first before any feed and before the spindle turns, which
/// turns before any feed; the last move ends clear of all, or where tools change.
void check_order(const Program& program, const outside::Reading& reading, const std::vector<Place>& places) {
    const auto call = [&](const std::string& name) {
        return std::find_if(reading.calls.begin(), reading.calls.end(),
                            [&](const std::string& each) { return each.rfind(name, 0) == 0; }) -
               reading.calls.begin();
    };
    CHECK(places.back().operation + 1 == static_cast<int>(program.works.size()));
    CHECK(call("CHANGE_TOOL") < call("START_SPINDLE_CLOCKWISE"));
    CHECK(call("START_SPINDLE_CLOCKWISE") < call("STRAIGHT_FEED"));
    const Job& last = program.works.back().job;
    const sweep::Position& end = places.back().at;
    if (const auto& place = last.machine->tool_change) {
        CHECK_NEAR(end.radial, place->radial, program.printed());
        CHECK_NEAR(end.axial, place->axial, program.printed());
    } else if (program.dialect().home.empty()) {
        CHECK(end.radial + sweep::cutting_body(last).tip_from_word >= clear_level(last) - program.printed());
    }
}

/// The interpreter's rotary words keep to what axis and controller can do.
void check_travel(const Program& program, const std::vector<Place>& places) {
    const auto& travel = program.works.front().job.machine->limits.rotary_travel;
    double furthest = 0.0;
    for (const Place& each : places)
        furthest = std::max(furthest, std::abs(each.at.rotary));
    if (travel) CHECK(furthest <= *travel + 1e-4);
    const double largest = program.dialect().largest_rotary;
    if (largest > 0.0) CHECK(furthest <= largest + 1e-4);
}

std::string text_of(const Diagnostics& all) {
    std::string text;
    for (const Diagnostic& each : all)
        text += to_text(each) + '\n';
    return text;
}

void check_proof(const ProofReport& report) {
    INFO(text_of(report.findings));
    CHECK(report.within_tolerance);
    CHECK(std::none_of(report.findings.begin(), report.findings.end(),
                       [](const Diagnostic& each) { return each.severity == Severity::error; }));
}

/// The interpreter is of one kin with some dialects; others are held to the proof alone.
bool is_read(const Dialect& dialect) {
    return dialect.name.rfind("rs274ngc", 0) == 0 || dialect.name == "own";
}

void check(const Program& program) {
    for (const ProofReport& proof : program.proofs)
        check_proof(proof);
    if (!is_read(program.dialect())) return;
    const outside::Reading reading = outside::interpret(program.text);
    INFO(reading.error);
    REQUIRE(reading.accepted());
    const std::vector<Place> places = places_of(reading, program);
    REQUIRE(places.size() > 8);
    check_rapids(program, places);
    check_order(program, reading, places);
    check_travel(program, places);
}

struct Tally {
    std::map<std::string, int> written, refused;
    int programs = 0, wound = 0, in_one = 0, of_several = 0;

    [[nodiscard]] std::string text() const {
        std::string told = std::to_string(programs) + " written, " + std::to_string(wound) + " wind back, " +
                           std::to_string(of_several) + " of an operation on what another leaves, " +
                           std::to_string(in_one) + " of two operations in one";
        for (const auto& [kind, count] : written)
            told += "\n  written: " + std::to_string(count) + ' ' + kind;
        for (const auto& [code, count] : refused)
            told += "\n  refused: " + std::to_string(count) + ' ' + code;
        return told;
    }
};

/// Planned, written and proven, each on what those before it leave. The complaint of the first that is
/// refused.
std::optional<Diagnostic> check_each(const std::vector<OperationWork>& works, Tally& tally) {
    std::vector<EarlierProgram> earlier;
    for (const OperationWork& work : works) {
        const auto path =
            plan_toolpath(work.job, work.lobes, word_grid(work.dialect, work.job.units, work.job.cut->blend));
        if (!path) return path.diagnostics().front();
        auto text = write_program(work.job, work.lobes, *path, work.dialect);
        if (!text) return text.diagnostics().front();
        auto proof = prove(work.job, work.lobes, work.dialect, *text, "random.ngc", earlier);
        INFO(text_of(proof.diagnostics()));
        REQUIRE(proof.ok());
        check({{work}, *text, {*proof}});
        ++tally.programs;
        if (!path->unwindings.empty()) ++tally.wound;
        if (!earlier.empty()) ++tally.of_several;
        earlier.push_back({work.job, work.dialect, std::move(text).value()});
    }
    return std::nullopt;
}

/// All operations in one program. The complaint where planner or writer refuse; none of the proof's may be.
std::optional<Diagnostic> check_in_one(const std::vector<OperationWork>& works, Tally& tally) {
    auto made = proven_in_one(works);
    if (!made) {
        const Diagnostic& first = made.diagnostics().front();
        INFO(text_of(made.diagnostics()));
        CHECK(first.place.file.rfind("the program", 0) != 0);
        return first;
    }
    check({works, made->text, made->proofs});
    ++tally.programs, ++tally.in_one;
    return std::nullopt;
}

}  // namespace

TEST_CASE("an open interpreter reads every random shaft's programs, which keep clear and pass their proof",
          "[outside][programs]") {
    if (!outside::installed()) return outside::say_skipped();
    const auto seed = static_cast<unsigned>(campaign("LOBEWRIGHT_FIRST_SEED", 20260917));
    const int wanted = campaign("LOBEWRIGHT_RANDOM_PROGRAMS", trials(30));
    random_job::Source random(seed);
    Tally tally;
    for (int i = 0; tally.programs < wanted && i < 20 * wanted; ++i) {
        const DrawnShaft drawn = draw_shaft(random);
        INFO("shaft " << i << " of seed " << seed << ", " << drawn.kind << ", for "
                      << drawn.dialects.front().name);
        const std::vector<OperationWork> works = works_of(drawn.job, drawn.lobes, drawn.dialects);
        const bool in_one = drawn.in_one && !hindrance_to_one_program(works);
        const auto refused = in_one ? check_in_one(works, tally) : check_each(works, tally);
        if (refused) {
            ++tally.refused[refused->code];
        } else {
            ++tally.written[drawn.kind];
        }
    }
    WARN("seed " << seed << ": " << tally.text());
    CHECK(tally.programs >= wanted);
    if (wanted < 30) return;
    CHECK(tally.wound > 0);
    CHECK(tally.of_several > 0);
    CHECK(tally.in_one > 0);
}
