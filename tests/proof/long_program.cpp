#include "long_program.h"

#include "catch.h"
#include "job_kit.h"

#include <lobewright/job_file.h>
#include <lobewright/number_text.h>
#include <lobewright/program_reader.h>

#include <cmath>

using namespace lobewright;

namespace {

constexpr double pitch = 20.0;  // mm from lobe to lobe

class LongProgram {
  public:
    LongProgram(std::ostream& out, int parts) : out_(out), parts_(parts) {}

    void begin() { line("G18 G21 G90\nG54 G61\nS160 M3\nG93"), blocks_ += 3; }
    void end() { line("M30"); }

    /// The moves of one lobe, further along the shaft and further round.
    void lobe(const ReadProgram& program, double z, double turn) {
        const ReadMove* last = nullptr;
        for (const ReadMove& move : program.moves) {
            if (std::isnan(move.axial) || std::isnan(move.rotary)) {
                line("G0 X" + word(move.radial));
            } else if (move.kind == ReadMoveKind::feed && last != nullptr) {
                feed(*last, move, turn);
            } else {
                line("G0 X" + word(move.radial) + " Z" + word(move.axial + z) + " A" +
                     word(move.rotary + turn));
            }
            last = &move;
        }
    }
    [[nodiscard]] int blocks() const { return blocks_; }

  private:
    static std::string word(double value) { return shortest_fixed(value, 7); }
    void line(const std::string& text) { out_ << text << '\n', ++blocks_; }

    /// Slower than planned: a part of a block runs faster along the surface than the whole does in the mean.
    void feed(const ReadMove& from, const ReadMove& to, double turn) {
        for (int i = 1; i <= parts_; ++i) {
            const double share = static_cast<double>(i) / parts_;
            line("G1 X" + word(from.radial + share * (to.radial - from.radial)) + " A" +
                 word(turn + from.rotary + share * (to.rotary - from.rotary)) + " F" +
                 word(15.0 * parts_ / to.seconds));
        }
    }

    std::ostream& out_;
    int parts_;
    int blocks_ = 0;
};

}  // namespace

std::string row_job_text(int lobes) {
    std::string text = R"(layout = 1
[job]
title = "A row of lobes"
units = "mm"
[shaft]
turns = "ccw"
blank_diameter = 17.0
length = )" + shortest_fixed((lobes + 1) * pitch, 1) +
                       R"(
[profile.inlet]
shape = "arcs"
base_radius = 6.0
lift = 2.4
flank_radius = 16.0
action_angle = 130.0
[follower.tappet]
kind = "flat"
face_diameter = 12.0
[cutter.disc]
kind = "disc"
diameter = 50.0
width = 7.0
teeth = 14
[machine]
post = "rs274ngc-xza"
cutter_axis = "parallel"
cutter_zero = "centre"
rotary_positive = "ccw"
[cut]
cutter = "disc"
tolerance = 0.002
finish_depth = 5.0
surface_feed = 80.0
spindle_speed = 160
)";
    for (int i = 0; i < lobes; ++i) {
        text += "[[lobe]]\nname = \"" + std::to_string(i + 1) +
                "\"\nprofile = \"inlet\"\nfollower = \"tappet\"\nat = 30.0\nwidth = 6.0\nz = " +
                shortest_fixed((i + 1) * pitch, 1) + '\n';
    }
    return text;
}

ProofCase row_of_lobes(int lobes) {
    ProofCase row;
    const auto none = [](const std::string&) { return Outcome<std::string>(std::string()); };
    const Outcome<Job> job = read_job(row_job_text(lobes), "row.toml", none);
    REQUIRE(job.ok());
    row.job = *job;
    row.dialect = shipped_dialect(row.job.machine->post);
    row.lobes = *solve_lobes(row.job);
    return row;
}

int write_long_program(const ProofCase& one, const std::vector<int>& places, int parts, std::ostream& out) {
    const auto program = read_program(one.text, "program.ngc", one.dialect, one.job.units);
    REQUIRE(program.ok());
    const double last = program->moves.back().rotary;
    const double turns = std::ceil(std::abs(last) / 360.0) * (last < 0.0 ? -360.0 : 360.0);
    LongProgram made(out, parts);
    made.begin();
    for (std::size_t i = 0; i < places.size(); ++i)
        made.lobe(*program, places[i] * pitch, static_cast<double>(i) * turns);
    made.end();
    return made.blocks();
}
