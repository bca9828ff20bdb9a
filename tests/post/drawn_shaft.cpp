#include "drawn_shaft.h"

#include "guide_dialect.h"
#include "job_kit.h"

using namespace lobewright;

namespace {

using random_job::Source;

/// A wide lobe under a cutter that steps along it takes hundreds of passes that are all alike.
void narrow_lobes(Source& random, DrawnShaft& drawn) {
    const double widest = random.chance(0.1) ? 9.0 : 2.5;
    for (std::size_t i = 0; i < drawn.lobes.size(); ++i)
        drawn.job.lobes[i].width = drawn.lobes[i].width = std::min(drawn.lobes[i].width, widest);
}

/// From the bar in rings, or all at once; or from lobes that stand already.
void draw_stock(Source& random, Job& job) {
    Cut& cut = *job.cut;
    if (random.chance(0.7)) {
        cut.finish_depth.reset();
        if (!cut.rough_depth) cut.rough_depth = random.between(0.3, 2.0);
    } else {
        cut.rough_depth.reset();
    }
    if (random.chance(0.2)) job.stock.left_on = cut.allowance + random.between(0.05, 1.2);
}

void draw_ends(Source& random, Machine& machine) {
    if (random.chance(0.5)) machine.limits.rotary_travel = random.between(560.0, 4000.0);
    if (random.chance(0.7)) machine.tool_change = ToolChange{150.0, random.between(-50.0, 300.0)};
}

void finish_cutter(Source& random, CutterAxis axis, int number, Cutter& cutter) {
    cutter.number = cutter.offset_number = number;
    const bool end = axis == CutterAxis::radial && cutter.kind == CutterKind::end_mill;
    if (end && random.chance(0.2)) cutter.end_dish = SpaceAngle::from_degrees(random.between(0.05, 0.5));
    if (cutter.kind != CutterKind::disc || !random.chance(0.4)) return;
    cutter.teeth = 0;  // a wheel
    if (random.chance(0.3)) cutter.wear_per_lobe = random.between(0.0001, 0.002);
    if (random.chance(0.3)) cutter.dress_every = 1;
}

void draw_manners(Source& random, Cut& cut) {
    cut.spindle_speed = std::floor(random.between(100.0, 4000.0));
    if (random.chance(0.3)) cut.order = CutOrder::by_lobe;
    if (random.chance(0.3)) cut.along = CutAlong::helix;
}

Dialect draw_dialect(Source& random) {
    const std::vector<std::string>& shipped = shipped_names();
    const int which = random.pick(0, static_cast<int>(shipped.size()));
    Dialect dialect = which == static_cast<int>(shipped.size())
                          ? taken(read_dialect(guide_dialect_text(), "own.toml"))
                          : shipped_dialect(shipped[static_cast<std::size_t>(which)]);
    if (random.chance(0.3)) dialect.largest_rotary = random.between(700.0, 3000.0);
    if (random.chance(0.2)) dialect.longest_rotary_block = random.between(20.0, 170.0);
    return dialect;
}

void draw_blend(Source& random, const Dialect& dialect, Cut& cut) {
    if (!dialect.blend_word.empty() && random.chance(0.3))
        cut.blend = cut.tolerance * random.between(0.05, 0.4);
}

std::string kind_of(CutterAxis axis, const Cutter& cutter) {
    const char* held = axis == CutterAxis::parallel ? "parallel"
                       : axis == CutterAxis::radial ? "radial"
                                                    : "tangential";
    const char* what = cutter.kind == CutterKind::end_mill    ? " end mill"
                       : cutter.kind == CutterKind::ball_nose ? " ball nose"
                       : cutter.teeth == 0                    ? " wheel"
                                                              : " disc";
    return held + std::string(what);
}

Operation operation(const std::string& name, const std::string& machine, const Cut& cut) {
    Operation made;
    made.name = name, made.machine = machine, made.cut = cut;
    return made;
}

/// Tools can change within a program: there is a place for it, and each has its length.
void let_change(Source& random, DrawnShaft& drawn) {
    Dialect& dialect = drawn.dialects.front();
    auto& place = drawn.job.machine->tool_change;
    if (dialect.home.empty() && !place) place = ToolChange{150.0, random.between(-50.0, 300.0)};
    const bool told = (dialect.tool_change + dialect.length_on).find("{offset") != std::string::npos;
    if (!told) dialect.length_on = "G43 H{offset}", dialect.length_off = "G49";
}

/// The drawn cut leaves something on, for another cutter: on the same machine, or on one of another kind.
void draw_second_operation(Source& random, DrawnShaft& drawn) {
    Job& job = drawn.job;
    const bool same_machine = random.chance(0.5);
    drawn.in_one = same_machine && random.chance(0.7);
    if (drawn.in_one) let_change(random, drawn);
    Machine second = *job.machine;
    if (!same_machine) {
        const random_job::Drawn other = random_job::draw(random);
        second = *other.job.machine;
        draw_ends(random, second);
        drawn.dialects.push_back(draw_dialect(random));
    } else {
        drawn.dialects.push_back(drawn.dialects.front());
    }
    second.post = drawn.dialects.back().name;
    Cutter cutter = random_job::draw_cutter(random, second.cutter_axis);
    finish_cutter(random, second.cutter_axis, job.cutters.begin()->second.number % 9 + 1, cutter);
    job.cutters["other"] = cutter;
    Cut first = *job.cut, last = *job.cut;
    last.cutter = "other";
    last.side_shift = first.side_shift * (same_machine ? 1.0 : 0.0);
    const double left = random.between(0.1, 0.4);
    first.allowance += left;
    if (job.stock.left_on) *job.stock.left_on += left;
    *job.shaft.blank_diameter += 2.0 * left;
    first.tolerance = std::max(first.tolerance, random.between(0.003, 0.02));
    last.rough_depth.reset(), last.finish_depth.reset();
    if (random.chance(0.5)) last.rough_depth = random.between(0.02, 0.3);
    last.blend = 0.0;
    draw_blend(random, drawn.dialects.back(), last);
    draw_manners(random, last);
    job.machines["one"] = *job.machine;
    if (!same_machine) job.machines["two"] = second;
    job.operations = {operation("first", "one", first),
                      operation("last", same_machine ? "one" : "two", last)};
    job.cut.reset(), job.machine.reset();
    drawn.kind += " then " + kind_of(second.cutter_axis, cutter);
}

}  // namespace

DrawnShaft draw_shaft(Source& random) {
    random_job::Drawn path = random_job::draw(random);
    DrawnShaft drawn{std::move(path.job), std::move(path.lobes), {draw_dialect(random)}, false, {}};
    Job& job = drawn.job;
    narrow_lobes(random, drawn);
    draw_stock(random, job);
    draw_ends(random, *job.machine);
    Cutter& cutter = job.cutters.begin()->second;
    finish_cutter(random, job.machine->cutter_axis, random.pick(1, 9), cutter);
    draw_manners(random, *job.cut);
    draw_blend(random, drawn.dialects.front(), *job.cut);
    job.machine->post = drawn.dialects.front().name;
    drawn.kind = kind_of(job.machine->cutter_axis, cutter);
    if (random.chance(0.35)) draw_second_operation(random, drawn);
    return drawn;
}
