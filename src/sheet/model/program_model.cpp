#include "proof/section/cutter_section.h"
#include "sheet/model/model_parts.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lobewright::sheet {
namespace {

/// Steps of a figure of a move: hundred-thousandths of a unit and of a degree, milliseconds.
constexpr double place_steps = 1e5, time_steps = 1e3;
/// Of a deviation: millionths of a unit.
constexpr double deviation_steps = 1e6;

/// The moves that the model holds: where there are too many, every so many-th of a run of feeds, and the last
/// of it.
std::vector<std::size_t> shown_moves(const std::vector<ReadMove>& moves) {
    const std::size_t stride = (moves.size() + most_moves_shown - 1) / most_moves_shown;
    std::vector<std::size_t> shown;
    for (std::size_t i = 0; i < moves.size(); ++i) {
        const bool last_of_run = i + 1 == moves.size() || moves[i].kind != ReadMoveKind::feed ||
                                 moves[i + 1].kind != ReadMoveKind::feed ||
                                 moves[i + 1].axial != moves[i].axial;
        if (last_of_run || i % stride == 0) shown.push_back(i);
    }
    return shown;
}

/// Figures as whole steps, each less the one before; one that is not known stands as the one before.
class Steps {
  public:
    explicit Steps(double steps) : steps_(steps) {}
    long long on(double value) {
        if (!std::isfinite(value)) return 0;
        const long long now = nearest_step(value * steps_);
        return now - std::exchange(last_, now);
    }

  private:
    double steps_;
    long long last_ = 0;
};

/// Its kind, and 8, 16, 32 where the radial, the axial, the rotary word is known.
int kind_of(const ReadMove& move) {
    return static_cast<int>(move.kind) + (std::isfinite(move.radial) ? 8 : 0) +
           (std::isfinite(move.axial) ? 16 : 0) + (std::isfinite(move.rotary) ? 32 : 0);
}

void put_moves(JsonText& json, const Job& job, const std::vector<ReadMove>& moves,
               const std::vector<std::size_t>& shown) {
    const double unit = mm_per(job.units);
    Steps line(1.0), radial(place_steps), axial(place_steps), rotary(place_steps), time(time_steps);
    json.array("moves", JsonText::Layout::one_line);
    double seconds = 0.0;
    std::size_t next = 0;
    for (const std::size_t index : shown) {
        for (; next <= index; ++next)
            seconds += moves[next].seconds;
        const ReadMove& move = moves[index];
        json.item(kind_of(move)).item(line.on(move.line));
        json.item(radial.on(move.radial / unit)).item(axial.on(move.axial / unit));
        json.item(rotary.on(move.rotary)).item(time.on(seconds));
    }
    json.end();
}

const char* shape_word(proof::CutterPart::Shape shape) {
    switch (shape) {
        case proof::CutterPart::Shape::round:
            return "round";
        case proof::CutterPart::Shape::upright:
            return "upright";
        case proof::CutterPart::Shape::lying:
            break;
    }
    return "lying";
}

void put_cutter(JsonText& json, const Job& job) {
    const double unit = mm_per(job.units);
    const proof::CutterBody body = proof::cutter_body(job);
    const proof::CutterPart& part = body.cutting;
    json.object("cutter", JsonText::Layout::one_line).member("name", job.cut->cutter);
    json.member("shape", shape_word(part.shape)).member("radius", part.radius / unit);
    json.member("corner", part.corner / unit).member("half_length", part.half_length / unit);
    json.member("shift", part.shift / unit).member("from", part.first / unit).member("to", part.last / unit);
    json.member("to_tip", body.tip_from_word / unit);
    json.member("facing_per_degree", body.facing_per_degree > 0.0 ? 1 : -1).end();
}

void put_shaft(JsonText& json, const Job& job) {
    const double unit = mm_per(job.units);
    json.object("shaft").member("blank_radius", *job.shaft.blank() / 2.0 / unit);
    json.member("length", job.shaft.length ? std::optional(*job.shaft.length / unit) : std::nullopt);
    json.array("journals");
    for (const Journal& journal : job.shaft.journals)
        json.object({}, JsonText::Layout::one_line)
            .member("z", journal.z / unit)
            .member("width", journal.width / unit)
            .member("radius", journal.diameter / 2.0 / unit)
            .end();
    json.end().end();
}

/// The text's lines, those that no shown move is of empty where not all moves are shown.
std::string shown_text(const SheetProgram& program, const std::vector<std::size_t>& shown) {
    if (shown.size() == program.read.moves.size()) return program.text;
    std::string text;
    int line = 1;
    auto next = shown.begin();
    for (std::size_t from = 0; from < program.text.size(); ++line) {
        const std::size_t end = std::min(program.text.find('\n', from), program.text.size());
        while (next != shown.end() && program.read.moves[*next].line < line)
            ++next;
        if (next != shown.end() && program.read.moves[*next].line == line)
            text += program.text.substr(from, end - from);
        text += '\n';
        from = end + 1;
    }
    return text;
}

void put_verdict(JsonText& json, const LobeVerdict& lobe, double unit) {
    json.object().member("name", lobe.name).member("within", lobe.within);
    json.array("around", JsonText::Layout::one_line);
    for (const SurfacePlace& place : lobe.around)
        json.item(place.index)
            .item(nearest_step(place.deepest / unit * deviation_steps))
            .item(nearest_step(place.proudest / unit * deviation_steps))
            .item(place.line);
    json.end().end();
}

}  // namespace

void put_program(JsonText& json, const Job& job, const SheetProgram& program) {
    const double unit = mm_per(job.units);
    const std::vector<std::size_t> shown = shown_moves(program.read.moves);
    json.object("program").member("name", program.name);
    put_cutter(json, job);
    put_shaft(json, job);
    json.member("all_moves", program.read.moves.size());
    json.member("tolerance", program.proof.tolerance / unit).array("lobes");
    for (const LobeVerdict& lobe : program.proof.lobes)
        put_verdict(json, lobe, unit);
    json.end().member("text", shown_text(program, shown));
    put_moves(json, job, program.read.moves, shown);
    json.end();
}

}  // namespace lobewright::sheet
