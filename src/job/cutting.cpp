#include "job/job_reading.h"

namespace lobewright {
namespace {

const std::vector<std::string> cutter_kinds = {"end-mill", "ball-nose", "disc"};
/// In the order of EdgeMaterial.
const std::vector<std::string> edge_materials = {"hss", "carbide"};
const std::vector<std::string> wheel_keys = {"wear_per_lobe", "dress_every"};
const std::vector<std::string> cutter_keys = {"corner_radius",  "end_dish",    "flute_length",
                                              "shank_diameter", "width",       "neck_diameter",
                                              "wear_per_lobe",  "dress_every", "material"};
const std::vector<std::string> axis_words = {"parallel", "radial", "tangential"};
/// Of feeds, speeds and limits, in mm, degrees or revolutions: at a thousandth a minute a lobe would take a
/// month.
constexpr NumberRange per_minute{1e-3, 1e6};
constexpr NumberRange tolerances{1e-5, 10.0};   // mm: finer than any measurement
constexpr NumberRange depths{1e-3, 100.0};      // mm
constexpr NumberRange rim_speeds{1e-2, 500.0};  // m/s
constexpr NumberRange chips{1e-5, 10.0};        // mm
constexpr NumberRange wears{0.0, 10.0};         // mm
constexpr NumberRange dishes{0.0, 10.0};        // degrees
constexpr NumberRange travels{1.0, 1e7};        // degrees, of a rotary axis
constexpr int most_tools = 9999;

void read_mill(JobTable& table, Cutter& cutter) {
    cutter.flute_length = table.length("flute_length", positive_length);
    cutter.shank_diameter = table.length("shank_diameter", positive_length);
    if (cutter.kind == CutterKind::ball_nose) return;
    cutter.corner_radius = table.length_or("corner_radius", 0.0, length_or_none);
    if (cutter.diameter > 0.0 && cutter.corner_radius > cutter.diameter / 2.0) {
        table.complain("corner_radius", "corner-radius", "the corner radius is more than half the diameter",
                       "make it at most half; kind = \"ball-nose\" is a cutter that is all corner");
    }
    cutter.end_dish = table.angle_or<SpaceAngle>("end_dish", {}, dishes);
}

void read_disc(JobTable& table, Cutter& cutter) {
    cutter.width = table.required_length("width", positive_length);
    cutter.neck_diameter = table.length("neck_diameter", positive_length);
    if (cutter.diameter > 0.0 && cutter.neck_diameter.value_or(0.0) >= cutter.diameter) {
        table.complain("neck_diameter", "neck-diameter", "the neck is not slimmer than the disc",
                       "give the diameter of the arbor or neck beside it");
    }
}

/// [least, greatest], in the job's unit.
std::optional<Travel> read_travel(JobTable& table, std::string_view key) {
    if (!table.has(key)) return std::nullopt;
    const std::size_t before = table.reading().complaints.size();
    const std::vector<double> ends = table.numbers(key, any_length);
    if (table.reading().complaints.size() > before) return std::nullopt;
    const double unit = mm_per(table.reading().job.units);
    if (ends.size() == 2 && ends[0] < ends[1]) return Travel{ends[0] * unit, ends[1] * unit};
    table.complain(key, "travel", "'" + table.path_of(key) + "' is not two words, the least first",
                   "write [least, greatest], as the machine shows them at the ends of its travel");
    return std::nullopt;
}

void read_limits(JobTable& machine, AxisLimits& limits) {
    const Node* node = machine.table("limits");
    if (node == nullptr) return;
    JobTable table(*node, machine.path_of("limits"), machine.reading());
    limits.radial_speed = table.length("radial_speed", per_minute);
    limits.axial_speed = table.length("axial_speed", per_minute);
    limits.rotary_speed = table.number("rotary_speed", per_minute);
    limits.radial_acceleration = table.length("radial_acceleration", per_minute);
    limits.rotary_acceleration = table.number("rotary_acceleration", per_minute);
    limits.blocks_per_second = table.number("blocks_per_second", per_minute);
    limits.radial_jump = table.length("radial_jump", per_minute);
    limits.rotary_jump = table.number("rotary_jump", per_minute);
    limits.rotary_travel = table.number("rotary_travel", travels);
    limits.radial_travel = read_travel(table, "radial_travel");
    limits.axial_travel = read_travel(table, "axial_travel");
    table.finish();
}

void read_tool_change(JobTable& machine, std::optional<ToolChange>& place) {
    const Node* node = machine.table("tool_change");
    if (node == nullptr) return;
    JobTable table(*node, machine.path_of("tool_change"), machine.reading());
    const double radial = table.required_length("radial", positive_length);
    place = ToolChange{radial, table.required_length("axial", any_length)};
    table.finish();
}

/// Of the teeth: a wheel has none.
void read_edge(JobTable& table, Cutter& cutter) {
    cutter.material = table.choose<EdgeMaterial>("material", edge_materials);
    if (!cutter.material || cutter.kind != CutterKind::disc || cutter.teeth > 0) return;
    table.complain("material", "unused-key",
                   "a disc without teeth is a wheel, and 'material' is that of teeth",
                   "give its teeth, or remove material");
    cutter.material.reset();
}

void read_numbers(JobTable& table, Cutter& cutter) {
    cutter.number = table.whole_number("number", 1, most_tools).value_or(1);
    cutter.offset_number = table.whole_number("offset_number", 1, most_tools).value_or(cutter.number);
}

void read_cutting_limits(JobTable& table, Cutter& cutter) {
    cutter.fastest = table.number("fastest", rim_speeds);
    cutter.largest_chip = table.length("largest_chip", chips);
    cutter.smallest_chip = table.length("smallest_chip", chips);
    if (cutter.largest_chip && cutter.smallest_chip && *cutter.largest_chip <= *cutter.smallest_chip) {
        table.complain("largest_chip", "chips", "the largest chip is not above the smallest",
                       "exchange largest_chip and smallest_chip");
    }
}

void read_wheel(JobTable& table, Cutter& cutter) {
    if (cutter.teeth != 0) {
        table.refuse_unused("a cutter with teeth (teeth = 0 is a wheel)", wheel_keys);
        return;
    }
    cutter.wear_per_lobe = table.length("wear_per_lobe", wears);
    cutter.dress_every = table.whole_number("dress_every", 1, 10000);
}

/// side_shift = 0 says nothing and may stand anywhere.
void read_side_shift(JobTable& table, const std::optional<Machine>& machine, Cut& cut) {
    cut.side_shift = table.length_or("side_shift", 0.0, any_length);
    if (cut.side_shift == 0.0 || !machine || machine->cutter_axis == CutterAxis::radial) return;
    table.complain("side_shift", "unused-key", "only a radial cutter can be shifted sideways",
                   "remove side_shift");
}

}  // namespace

void check_reference(JobTable& table, std::string_view key, const std::string& name, std::string_view group) {
    if (name.empty()) return;
    std::vector<std::string> names;
    if (const Node* tables = table.reading().root.find(group)) {
        for (const Node& node : tables->members)
            names.push_back(node.key);
        if (tables->find(name) != nullptr) return;
    }
    const std::string nearest = nearest_word(name, names);
    const std::string full = std::string(group) + '.' + name;
    table.complain(key, "unknown-" + std::string(group), "there is no [" + full + "]",
                   !nearest.empty() ? "did you mean \"" + nearest + "\"?"
                   : names.empty()  ? "add it"
                                    : "add it, or name one of " + listed(names));
}

void read_cutters(JobTable& file) {
    read_named(file, "cutter", [&](const std::string& name, JobTable& table) {
        Cutter cutter;
        cutter.diameter = table.required_length("diameter", positive_length);
        cutter.teeth = table.whole_number("teeth", 0, 1000).value_or(0);
        cutter.reach = table.length("reach", positive_length);
        cutter.holder_diameter = table.length("holder_diameter", positive_length);
        read_numbers(table, cutter);
        read_cutting_limits(table, cutter);
        const auto kind = table.required_choice<CutterKind>("kind", cutter_kinds);
        if (!kind) return table.pass_over(cutter_keys);
        cutter.kind = *kind;
        read_edge(table, cutter);
        if (cutter.kind == CutterKind::disc) {
            read_disc(table, cutter);
            read_wheel(table, cutter);
        } else {
            read_mill(table, cutter);
        }
        table.refuse_unused("a cutter of kind \"" + cutter_kinds[static_cast<std::size_t>(*kind)] + '"',
                            cutter_keys);
        file.reading().job.cutters.emplace(name, cutter);
    });
}

Machine read_machine_keys(JobTable& table) {
    Machine machine;
    machine.post = table.required_string("post");
    const auto axis = table.required_choice<CutterAxis>("cutter_axis", axis_words);
    machine.cutter_axis = axis.value_or(CutterAxis::radial);
    if (axis == CutterAxis::parallel) {
        machine.cutter_zero =
            table.choose<CutterZero>("cutter_zero", {"centre", "edge"}).value_or(CutterZero::centre);
        machine.spindle_side =
            table.choose<SpindleSide>("spindle_side", {"far", "drive"}).value_or(SpindleSide::far);
    } else if (axis) {
        table.refuse_unused("a machine with a " + axis_words[static_cast<std::size_t>(*axis)] + " cutter",
                            {"cutter_zero", "spindle_side"});
    } else {
        table.pass_over({"cutter_zero", "spindle_side"});
    }
    machine.rotary_positive =
        table.required_choice<Sense>("rotary_positive", sense_words).value_or(Sense::ccw);
    read_tool_change(table, machine.tool_change);
    read_limits(table, machine.limits);
    return machine;
}

Cut read_cut_keys(JobTable& table, const std::optional<Machine>& machine) {
    Cut cut;
    cut.cutter = table.required_string("cutter");
    check_reference(table, "cutter", cut.cutter, "cutter");
    cut.tolerance = table.required_length("tolerance", tolerances);
    cut.allowance = table.length_or("allowance", 0.0, {0.0, 100.0});
    cut.rough_depth = table.length("rough_depth", depths);
    cut.finish_depth = table.length("finish_depth", depths);
    if (cut.rough_depth && cut.finish_depth) {
        table.complain("finish_depth", "both-given", "rough_depth and finish_depth are both given",
                       "give one of them: a finish pass after roughing takes what that leaves");
    }
    cut.surface_feed = table.required_length("surface_feed", per_minute);
    cut.rough_surface_feed = table.length("rough_surface_feed", per_minute);
    cut.spindle_speed = table.required_number("spindle_speed", per_minute);
    cut.direction =
        table.choose<CutDirection>("direction", {"climb", "conventional"}).value_or(CutDirection::climb);
    cut.clearance = table.length_or("clearance", cut.clearance, positive_length);
    cut.overlap = table.angle_or<ShaftAngle>("overlap", cut.overlap, {0.0, 180.0});
    cut.spring_passes = table.whole_number("spring_passes", 0, 100).value_or(0);
    cut.order = table.choose<CutOrder>("order", {"by-stage", "by-lobe"}).value_or(cut.order);
    cut.along = table.choose<CutAlong>("along", {"steps", "helix"}).value_or(cut.along);
    read_side_shift(table, machine, cut);
    cut.blend = table.length_or("blend", 0.0, {0.0, 10.0});
    if (cut.tolerance > 0.0 && cut.blend >= cut.tolerance) {
        table.complain(
            "blend", "blend",
            "'" + table.path_of("blend") + "' is not less than '" + table.path_of("tolerance") + "'",
            "blending takes its share of the tolerance: give it a part only");
    }
    return cut;
}

}  // namespace lobewright
