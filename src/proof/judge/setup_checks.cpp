#include "proof/judge/setup_checks.h"

#include "proof/reader/tool_words.h"

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

/// Of a word's last decimal: half of it, and some for rounding.
constexpr double half_and_rounding = 0.501;

bool feeds(const ReadMove& move) {
    return move.kind == ReadMoveKind::feed || move.kind == ReadMoveKind::arc;
}

}  // namespace

WantedSetup wanted_setup(const Job& job, const Dialect& dialect, double clear, double tip_from_word) {
    const Cutter& cutter = job.cutters.find(job.cut->cutter)->second;
    const ToolWords words(dialect);
    WantedSetup wanted;
    if (words.named) wanted.tool = cutter.number;
    if (words.lengths) wanted.length = cutter.offset_number;
    if (job.machine->cutter_axis == CutterAxis::radial) wanted.side = job.cut->side_shift;
    if (dialect.side) wanted.side_step = last_decimal(dialect.side->word, job.units);
    wanted.clear_word = clear - tip_from_word;
    wanted.slack = half_and_rounding *
                   std::max(last_decimal(dialect.radial, job.units), last_decimal(dialect.axial, job.units));
    wanted.place = job.machine->tool_change;
    wanted.has_home = !dialect.home.empty();
    return wanted;
}

void SetupChecks::take(const ReadMove& move) {
    check_length(move);
    if (feeds(move)) check_side(move);
    if (move.kind != ReadMoveKind::dwell) last_ = move;
}

/// Feeds, and every rapid that goes nearer to the shaft, once a tool is chosen: there the length must be on.
void SetupChecks::check_length(const ReadMove& move) {
    if (wanted_.length == 0 || length_told_) return;
    const bool nearer = move.kind == ReadMoveKind::rapid && last_ && move.tool != 0 &&
                        !std::isnan(move.radial) && !(move.radial >= last_->radial);
    if (!feeds(move) && !nearer) return;
    if (move.length == wanted_.length) return;
    length_told_ = true;
    findings_.error("length", move.line, FindingWords::length_number(move.length, wanted_.length));
}

void SetupChecks::check_side(const ReadMove& move) {
    if (side_told_ || wanted_.side_step == 0.0) return;
    if (std::abs(move.side - wanted_.side) <= half_and_rounding * wanted_.side_step) return;
    side_told_ = true;
    findings_.error("side-axis", move.line, findings_.words().side_axis(move.side, wanted_.side));
}

bool SetupChecks::at_place(double radial, double axial) const {
    return std::abs(radial - wanted_.place->radial) <= wanted_.slack &&
           std::abs(axial - wanted_.place->axial) <= wanted_.slack;
}

void SetupChecks::check_change(const ToolChanged& change) {
    if (wanted_.tool != 0 && change.tool != wanted_.tool)
        findings_.error("wrong-tool", change.line, FindingWords::wrong_tool(change.tool, wanted_.tool));
    if (change.at_home) return;
    const bool anywhere_clear = !wanted_.place && !wanted_.has_home;
    const bool clear = wanted_.must_change ||  // the end of the one before is held to that
                       std::isnan(change.radial) || change.radial >= wanted_.clear_word - wanted_.slack;
    if (anywhere_clear ? clear : wanted_.place && at_place(change.radial, change.axial)) return;
    findings_.error("changes-elsewhere", change.line, FindingWords::changes_elsewhere());
}

void SetupChecks::check_end() {
    if (!last_) return;
    const ReadMove& end = *last_;
    const bool clear = end.at_home || end.radial >= wanted_.clear_word - wanted_.slack;
    ends_clear_ = clear && (!wanted_.place || at_place(end.radial, end.axial));
    if (!clear) {
        findings_.error("ends-not-clear", end.line,
                        findings_.words().ends_not_clear(end.radial, wanted_.clear_word));
    } else if (!ends_clear_) {
        findings_.error("ends-elsewhere", end.line, findings_.words().ends_elsewhere(*wanted_.place));
    }
}

const Findings& SetupChecks::finish(const ProgramFacts& facts) {
    for (const ToolChanged& change : facts.tool_changes)
        check_change(change);
    if (wanted_.must_change && facts.tool_changes.empty())
        findings_.error("wrong-tool", 0, FindingWords::never_changed(wanted_.tool));
    check_end();
    return findings_;
}

}  // namespace lobewright::proof
