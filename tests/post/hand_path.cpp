#include "hand_path.h"

#include "basalt.h"
#include "finish_cut.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;

Job hand_job(Units units) {
    Job job;
    job.file = "examples/basalt-four.toml";
    job.title = "Basalt four";
    job.units = units;
    job.shaft.blank_diameter = 17.0;
    job.cutters["disc32"] = basalt::disc(32.0, 6.0, 12.0);
    job.machine.emplace();
    job.machine->post = "rs274ngc-xza";
    job.machine->cutter_axis = CutterAxis::parallel;
    job.machine->tool_change = ToolChange{60.0, 120.0};
    job.cut = finish_cut("disc32", 0.002, 120.0, 3000.0);
    job.places["machine.post"] = {job.file, 40, 8};
    return job;
}

std::vector<SolvedLobe> hand_lobes() {
    std::vector<SolvedLobe> lobes(2);
    lobes[0].name = "1 inlet";
    lobes[0].z = 20.0;
    lobes[0].width = 6.0;
    lobes[1].name = "1 exhaust";
    lobes[1].z = 28.0;
    lobes[1].width = 6.0;
    lobes[1].at = ShaftAngle::from_degrees(105.0);
    return lobes;
}

namespace {

constexpr double wheel_radius = 16.0;
constexpr double disc_radius = 7.2;
constexpr double eccentricity = 1.2;

/// Distance of the wheel's centre from the shaft's axis when it touches the eccentric disc, leaving
/// `left_on`.
double centre_distance(double phi, double at, double left_on) {
    const double reach = disc_radius + left_on + wheel_radius;
    const double side = eccentricity * std::sin(phi - at);
    return eccentricity * std::cos(phi - at) + std::sqrt(reach * reach - side * side);
}

class PathMaker {
  public:
    PathMaker(const Job& job, const Dialect& dialect) {
        path_.grid = word_grid(dialect, job.units);
        const double longest = path_.grid.longest_rotary_block;
        step_ = longest > 0.0 ? std::min(24.0, longest) : 24.0;
        path_.start = words(clear, 20.0, 0.0);
    }

    void pass(std::size_t lobe, PassKind kind, double z, double at, double left_on, double first) {
        const auto tip = [&](double rotary) {
            return centre_distance(-rotary * 3.14159265358979324 / 180.0, at, left_on);
        };
        Pass pass;
        pass.lobe = lobe;
        pass.kind = kind;
        pass.ring = kind == PassKind::roughing ? 1 : 0;
        pass.axial = z;
        pass.left_on = left_on;
        pass.first = path_.moves.size();
        rapid(clear, z, first);
        feed(tip(first), z, first, 3.0);
        double rotary = first;
        while (rotary < first + 365.0 - 1e-9) {
            const double next = std::min(rotary + step_, first + 365.0);
            feed(tip(next), z, next, (next - rotary) / 18.0);
            rotary = next;
        }
        rapid(clear, z, rotary);
        pass.last = path_.moves.size();
        path_.passes.push_back(pass);
    }

    Toolpath take() { return path_; }

  private:
    static constexpr double clear = 27.5;

    [[nodiscard]] Words words(double radial, double axial, double rotary) const {
        return {std::llround(radial / path_.grid.radial_step), std::llround(axial / path_.grid.axial_step),
                std::llround(rotary / path_.grid.rotary_step)};
    }
    void rapid(double radial, double axial, double rotary) {
        const Words to = words(radial, axial, rotary);
        const Words& from = path_.moves.empty() ? path_.start : path_.moves.back().to;
        if (!(to == from)) path_.moves.push_back({MoveKind::rapid, to, 0.0});
    }
    void feed(double radial, double axial, double rotary, double seconds) {
        path_.moves.push_back({MoveKind::feed, words(radial, axial, rotary), seconds});
        path_.cycle_seconds += seconds;
    }

    Toolpath path_;
    double step_ = 24.0;
};

}  // namespace

Toolpath hand_path(const Job& job, const Dialect& dialect) {
    PathMaker maker(job, dialect);
    maker.pass(0, PassKind::roughing, 20.0, 0.0, 0.1, -10.0);
    maker.pass(0, PassKind::finish, 20.0, 0.0, 0.0, 355.0);
    maker.pass(1, PassKind::roughing, 28.0, 1.8325957145940461, 0.1, 720.0);
    maker.pass(1, PassKind::finish, 28.0, 1.8325957145940461, 0.0, 1085.0);
    return maker.take();
}
